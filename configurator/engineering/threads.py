"""Threads: the area that carries a stud, and the area that shears in the block."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from configurator.engineering.bounds import OutOfRange, not_negative, positive, show, within


class PropertyClass(NamedTuple):
    """A class of steel bolts: stresses in Pa; those of 8.8 up to 16 mm."""

    proof_stress: float
    least_strength: float
    least_yield: float
    status: str


PROPERTY_CLASSES: Mapping[str, PropertyClass] = {
    "8.8": PropertyClass(580e6, 800e6, 640e6, "published: ISO 898-1, to 16 mm; above 600, 830 and 660 MPa"),
    "10.9": PropertyClass(830e6, 1040e6, 940e6, "published: ISO 898-1; its name would give 900 MPa of yield"),
    "12.9": PropertyClass(970e6, 1220e6, 1100e6, "published: ISO 898-1; the strength from memory"),
}


BOLT_TOLERANCES: Mapping[float, tuple[float, float]] = {
    1.0e-3: (26e-6, 180e-6),
    1.25e-3: (28e-6, 212e-6),
    1.5e-3: (32e-6, 236e-6),
    1.75e-3: (34e-6, 265e-6),
    2.0e-3: (38e-6, 280e-6),
}
"""By pitch, what takes a bolt 6g below its major diameter, at most by their sum. In m; ISO 965-1, from memory."""

NUT_TOLERANCES_TO_11: Mapping[float, float] = {1.0e-3: 150e-6, 1.25e-3: 160e-6, 1.5e-3: 180e-6}
NUT_TOLERANCES_TO_22: Mapping[float, float] = {
    1.0e-3: 160e-6, 1.25e-3: 180e-6, 1.5e-3: 190e-6, 1.75e-3: 200e-6, 2.0e-3: 212e-6,
}  # fmt: skip
"""By pitch, how far a hole 6H may be over its pitch diameter, to 11.2 mm and to 22.4. In m; ISO 965-1, from memory.

With the bolt's they give the printed shear areas of M8, M10, M12, M14 and M16 to five digits.
"""


def stress_area(diameter: float, pitch: float) -> float:
    """The area that carries a metric bolt in tension: pi/4 (d - 0.9382 P)^2.

    diameter (major) and pitch in m, pitch above 0 and below a third of the diameter. Gives m2. For steel over 690 MPa
    in UN threads see `strong_stress_area`. Source: ISO 898-1; Bickford, Design and Behavior of Bolted Joints.
    """
    _check_thread(diameter, pitch)
    return math.pi / 4 * (diameter - 0.9382 * pitch) ** 2


def unified_stress_area(diameter: float, pitch: float) -> float:
    """The area that carries a unified (UNC, UNF) bolt in tension: pi/4 (d - 0.9743 P)^2.

    diameter (major) and pitch (an inch over the threads to the inch) in m, pitch above 0 and below a third of the
    diameter. Gives m2. Source: ASME B1.1.
    """
    _check_thread(diameter, pitch)
    return math.pi / 4 * (diameter - 0.9743 * pitch) ** 2


def strong_stress_area(least_pitch_diameter: float, pitch: float) -> float:
    """The area for bolts stronger than 690 MPa (100 ksi), some 3 % less: pi (d2,least / 2 - 0.16238 P)^2.

    least_pitch_diameter and pitch in m, pitch above 0 and below a third of the diameter. Gives m2. Source: ASME B1.1.
    """
    positive("least_pitch_diameter", least_pitch_diameter, "mm")
    within("pitch", pitch, "mm", above=0.0, below=least_pitch_diameter / 3)
    return math.pi * (least_pitch_diameter / 2 - 0.16238 * pitch) ** 2


def load_at_stress(area: float, stress: float, share: float) -> float:
    """The load of a bolt at a share of a stress: its preload, or at a share of 1 its proof load.

    area in m2, above 0; stress (proof, yield or strength) in Pa, above 0; share above 0, to 1. Gives N.
    Source: ISO 898-1, proof loads.
    """
    positive("area", area, "mm2")
    positive("stress", stress, "MPa")
    within("share", share, "", above=0.0, most=1.0)
    return share * stress * area


def shear_area(
    engagement: float, pitch: float, least_bolt_diameter: float, greatest_nut_pitch_diameter: float
) -> float:
    """The area of the block's thread that shears when a stud is pulled out of it.

    pi Le d/P (P/2 + 0.57735 (d - D2)), with d the least major diameter of the stud and D2 the greatest pitch diameter
    of the hole. All in m: engagement from 0, the others above 0, D2 below d and not more than P/1.1547 below it.
    Gives m2. Source: Bickford, Design and Behavior of Bolted Joints; FED-STD-H28.
    """
    not_negative("engagement", engagement, "mm")
    positive("least_bolt_diameter", least_bolt_diameter, "mm")
    within("pitch", pitch, "mm", above=0.0, below=least_bolt_diameter / 3)
    deepest = least_bolt_diameter - pitch
    name = "greatest_nut_pitch_diameter"
    within(name, greatest_nut_pitch_diameter, "mm", above=deepest, below=least_bolt_diameter)
    overlap = pitch / 2 + 0.57735 * (least_bolt_diameter - greatest_nut_pitch_diameter)
    return math.pi * engagement * least_bolt_diameter / pitch * overlap


def metric_shear_area(diameter: float, pitch: float, engagement: float) -> float:
    """The same for a metric stud 6g in a hole 6H at the worst of their limits.

    diameter in m, 8 to 22.4 mm; pitch in m: 1, 1.25, 1.5 mm, and over 11.2 mm of diameter also 1.75 or 2 mm;
    engagement in m, from 0. Gives m2.
    Source: as `shear_area`, with the limits of ISO 965-1.
    """
    within("diameter", diameter, "mm", least=8e-3, most=22.4e-3)
    tolerances, size = NUT_TOLERANCES_TO_11 if diameter <= 11.2e-3 else NUT_TOLERANCES_TO_22, round(pitch, 6)
    if size not in tolerances:
        raise OutOfRange("pitch", pitch, "mm", " or ".join(show(known, "mm") for known in tolerances))
    bolt = diameter - sum(BOLT_TOLERANCES[size])
    basic = round(pitch_diameter(diameter, pitch), 6)  # ISO 724 gives it to the micrometre
    return shear_area(engagement, pitch, bolt, basic + tolerances[size])


def strip_load(area: float, shear_strength: float) -> float:
    """The load that strips a thread of so much shear area.

    area in m2, from 0; shear_strength of the block's metal, as hot as it gets, in Pa, above 0. Gives N.
    Source: as `shear_area`.
    """
    not_negative("area", area, "mm2")
    positive("shear_strength", shear_strength, "MPa")
    return area * shear_strength


def engagement_for_load(diameter: float, pitch: float, load: float, shear_strength: float) -> float:
    """The engagement at which a metric thread in the block holds a load: at the stud's strength, the stud breaks first.

    diameter and pitch in m as for `metric_shear_area`; load in N, from 0; shear_strength in Pa, above 0. Gives m.
    Source: as `metric_shear_area`.
    """
    not_negative("load", load, "N")
    return load / strip_load(metric_shear_area(diameter, pitch, 1.0), shear_strength)


def pitch_diameter(diameter: float, pitch: float) -> float:
    """The basic pitch diameter of a metric thread: d - 0.64952 P.

    diameter and pitch in m, pitch above 0 and below a third of the diameter. Gives m. Source: ISO 68-1, ISO 724.
    """
    _check_thread(diameter, pitch)
    return diameter - 0.64952 * pitch


def root_diameter(diameter: float, pitch: float) -> float:
    """The root diameter of a metric bolt's thread: d - 1.22687 P.

    diameter and pitch in m, pitch above 0 and below a third of the diameter. Gives m. Source: ISO 68-1, ISO 898-1.
    """
    _check_thread(diameter, pitch)
    return diameter - 1.22687 * pitch


def _check_thread(diameter: float, pitch: float) -> None:
    positive("diameter", diameter, "mm")
    within("pitch", pitch, "mm", above=0.0, below=diameter / 3)
