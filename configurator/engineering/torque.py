"""Torque and the preload that it gives. The nut factor is put in, with its lubricant named: books disagree about it."""

from __future__ import annotations

import math
from collections.abc import Mapping

from configurator.engineering.bounds import not_negative, positive, within
from configurator.engineering.threads import pitch_diameter, root_diameter

NUT_FACTORS: Mapping[str, tuple[float, float, str]] = {
    "bare steel, dry": (0.18, 0.30, "published: Shigley's table gives 0.30, Bickford 0.20, a range chart 0.18 to 0.27"),
    "zinc plated, dry": (0.20, 0.295, "published: Shigley's table gives 0.20, Bickford 0.295"),
    "cadmium plated": (0.16, 0.16, "published: Shigley's table"),
    "machine oil on steel": (0.10, 0.26, "published: range chart of a fastener catalogue"),
    "phosphate and oil": (0.15, 0.22, "published: range chart of a fastener catalogue"),
}
"""Nut factors by what is on the thread, least and greatest: how little a table may be trusted, not a value to use."""

MOST_FRICTION = 0.5
"""A coefficient of friction above this is a mistake, or a thread that galls."""


def torque_for_preload(nut_factor: float, diameter: float, preload: float) -> float:
    """The torque that gives a preload: K d F.

    nut_factor 0.05 to 0.5, of the very lubricant; diameter (major) in m, above 0; preload in N, from 0. Gives N m.
    The preload scatters about it by 25 to 30 % under a torque wrench. Source: Shigley, Mechanical Engineering Design.
    """
    within("nut_factor", nut_factor, "", least=0.05, most=0.5)
    positive("diameter", diameter, "mm")
    not_negative("preload", preload, "N")
    return nut_factor * diameter * preload


def preload_of_torque(torque: float, nut_factor: float, diameter: float) -> float:
    """The preload that a torque gives: T / (K d).

    torque in N m, from 0; nut_factor 0.05 to 0.5; diameter in m, above 0. Gives N. Source: as `torque_for_preload`.
    """
    not_negative("torque", torque, "N m")
    within("nut_factor", nut_factor, "", least=0.05, most=0.5)
    positive("diameter", diameter, "mm")
    return torque / (nut_factor * diameter)


def nut_factor_of_friction(diameter: float, pitch: float, thread_friction: float, collar_friction: float) -> float:
    """The nut factor of a metric thread from the friction in it and under the nut.

    K = dm/(2d) (tan a + mu/cos 30)/(1 - mu tan a/cos 30) + 0.625 mu', dm the mean of major and root diameter, a the
    lead angle; the collar's mean diameter is taken as 1.25 d. diameter and pitch in m, pitch below a third of the
    diameter; frictions from 0 to 0.5. Gives a number. Source: Shigley, Mechanical Engineering Design, bolt torque.
    """
    within("thread_friction", thread_friction, "", least=0.0, most=MOST_FRICTION)
    within("collar_friction", collar_friction, "", least=0.0, most=MOST_FRICTION)
    mean = (diameter + root_diameter(diameter, pitch)) / 2
    lead = pitch / (math.pi * mean)
    friction = thread_friction / math.cos(math.pi / 6)
    return mean / (2 * diameter) * (lead + friction) / (1 - friction * lead) + 0.625 * collar_friction


def preload_within_yield(diameter: float, pitch: float, yield_strength: float, thread_friction: float) -> float:
    """The preload at which tension and twist together reach 90 % of a metric bolt's yield.

    0.9 Re A0 / sqrt(1 + 3 k^2), k = 1.5 d2/d0 (P/(pi d2) + 1.155 mu), d0 = (d2 + d3)/2. diameter and pitch in m, pitch
    below a third of the diameter; yield_strength in Pa, above 0; thread_friction 0 to 0.5. Gives N. Source: VDI 2230.
    """
    positive("yield_strength", yield_strength, "MPa")
    within("thread_friction", thread_friction, "", least=0.0, most=MOST_FRICTION)
    middle = pitch_diameter(diameter, pitch)
    stressed = (middle + root_diameter(diameter, pitch)) / 2
    twist = 1.5 * middle / stressed * (pitch / (math.pi * middle) + 1.155 * thread_friction)
    return 0.9 * yield_strength * math.pi / 4 * stressed**2 / math.sqrt(1 + 3 * twist**2)


def torque_of_friction(
    preload: float, diameter: float, pitch: float, thread_friction: float, head_friction: float, head_diameter: float
) -> float:
    """The torque that gives a metric bolt a preload against known friction: F (0.16 P + 0.58 d2 mu + Dk/2 mu').

    preload in N, from 0; diameter and pitch in m, pitch below a third of the diameter; frictions 0 to 0.5;
    head_diameter, the mean of the ring on which the head or nut turns, in m, above the diameter. Gives N m.
    Source: VDI 2230.
    """
    not_negative("preload", preload, "N")
    within("thread_friction", thread_friction, "", least=0.0, most=MOST_FRICTION)
    within("head_friction", head_friction, "", least=0.0, most=MOST_FRICTION)
    thread = 0.16 * pitch + 0.58 * pitch_diameter(diameter, pitch) * thread_friction
    within("head_diameter", head_diameter, "mm", above=diameter)
    return preload * (thread + head_diameter / 2 * head_friction)


def turn_for_preload(preload: float, length: float, area: float, modulus: float, pitch: float) -> float:
    """How far a nut is turned from snug to stretch its bolt to a preload: 2 pi / P x F L / (A E).

    preload in N, from 0; stretched length in m, area in m2, modulus in Pa, pitch in m, all above 0. Gives rad. The
    squeeze of the joint comes on top. Source: Wentzell, Machine Design, chapter 6.
    """
    not_negative("preload", preload, "N")
    positive("length", length, "mm")
    positive("area", area, "mm2")
    positive("modulus", modulus, "GPa")
    positive("pitch", pitch, "mm")
    return 2 * math.pi / pitch * preload * length / (area * modulus)
