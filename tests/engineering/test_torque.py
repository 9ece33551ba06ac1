"""Torque and preload, held against worked textbook examples, VDI 2230 and the work that a screw does."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.engineering.torque import (
    NUT_FACTORS,
    nut_factor_of_friction,
    preload_of_torque,
    preload_within_yield,
    torque_for_preload,
    torque_of_friction,
    turn_for_preload,
)
from tests.engineering.quantities import DEGREE, INCH, INCH2, KN, LBF, MM, MM2, MPA, PSI
from tests.engineering.worked import Published, Range

WENTZELL = "Wentzell, Machine Design, in FOSSEE's textbook companion, example"
JINDAL = "Jindal, Machine Design, in FOSSEE's textbook companion, example"
VDI = "VDI 2230, preload and torque of fine threads, as printed in a fastener catalogue"
RINGS = "bearing rings of hexagon heads and holes of ISO 273 from memory"
NUTS = "fastener handbook, effect of the nut factor on a No. 10 screw"

PUBLISHED = [
    Published("q01", torque_for_preload, {"nut_factor": 0.2, "diameter": 0.75 * INCH,
        "preload": 0.85 * 0.334 * INCH2 * 85000.0 * PSI}, 3619.73, LBF*INCH, f"{WENTZELL} 6-1", "published",
        within=0.01),
    Published("q02", turn_for_preload, {"preload": 24131.5 * LBF, "length": 5 * INCH, "area": 0.334 * INCH2,
        "modulus": 30000000.0 * PSI, "pitch": 0.1 * INCH}, 43.35, DEGREE, f"{WENTZELL} 6-2", "published", within=0.01),
    Published("q03", torque_for_preload, {"nut_factor": 0.15, "diameter": 1.25 * INCH,
        "preload": 0.9 * 1.073 * INCH2 * 120000.0 * PSI}, 21728.25, LBF*INCH, f"{WENTZELL} 6-4", "published",
        within=0.01),
    Published("q04", nut_factor_of_friction, {"diameter": 18 * MM, "pitch": 2.5 * MM, "thread_friction": 0.15,
        "collar_friction": 0.13}, 0.18343, 1.0, f"{JINDAL} 9-3: root as d - 1.2268 P", "published", within=1e-05),
    Published("q05", torque_for_preload, {"nut_factor": 0.2, "diameter": 14 * MM,
        "preload": 0.75 * 650 * MPA * 115 * MM2}, 156.97, 1.0, f"{JINDAL} 9-5", "published", within=0.01),
    Published("q07", torque_for_preload, {"nut_factor": 0.18, "diameter": 20 * MM, "preload": 120 * KN}, 432.0, 1.0,
        f"{JINDAL} 9-6", "published", within=0.01),
    Published("q08", torque_for_preload, {"nut_factor": 0.25, "diameter": 0.19 * INCH, "preload": 1275 * LBF}, 60.6,
        LBF*INCH, NUTS, "published", within=0.05),
    Published("q08/dry", torque_for_preload, {"nut_factor": 0.3, "diameter": 0.19 * INCH, "preload": 1275 * LBF}, 72.7,
        LBF * INCH, NUTS, "published", within=0.05),
    Published("q08/slick", torque_for_preload, {"nut_factor": 0.1, "diameter": 0.19 * INCH, "preload": 1275 * LBF},
        24.2, LBF * INCH, NUTS, "published", within=0.05),
    Published("q09", preload_within_yield, {"diameter": 10 * MM, "pitch": 1.25 * MM, "yield_strength": 640 * MPA,
        "thread_friction": 0.12}, 31.6, KN, f"{VDI}, M10 x 1.25 class 8.8", "published", share=0.002),
    Published("q10", torque_of_friction, {"preload": 31.63 * KN, "diameter": 10 * MM, "pitch": 1.25 * MM,
        "thread_friction": 0.12, "head_friction": 0.12, "head_diameter": 12.815 * MM}, 51.0, 1.0,
        f"{VDI}, M10 x 1.25 class 8.8; {RINGS}", "published", within=0.5),
    Published("q11", preload_within_yield, {"diameter": 10 * MM, "pitch": 1.25 * MM, "yield_strength": 940 * MPA,
        "thread_friction": 0.12}, 46.4, KN, f"{VDI}, M10 x 1.25 class 10.9", "published", share=0.002),
    Published("q12", torque_of_friction, {"preload": 46.457 * KN, "diameter": 10 * MM, "pitch": 1.25 * MM,
        "thread_friction": 0.12, "head_friction": 0.12, "head_diameter": 12.815 * MM}, 75.0, 1.0,
        f"{VDI}, M10 x 1.25 class 10.9; {RINGS}", "published", within=0.5),
    Published("q19", preload_within_yield, {"diameter": 12 * MM, "pitch": 1.25 * MM, "yield_strength": 1100 * MPA,
        "thread_friction": 0.12}, 82.5, KN, f"{VDI}, M12 x 1.25 class 12.9", "published", share=0.002),
    Published("q20", torque_of_friction, {"preload": 82.571 * KN, "diameter": 12 * MM, "pitch": 1.25 * MM,
        "thread_friction": 0.12, "head_friction": 0.12, "head_diameter": 15.065 * MM}, 155.0, 1.0,
        f"{VDI}, M12 x 1.25 class 12.9; {RINGS}", "published", within=0.5),
    Published("q21", preload_within_yield, {"diameter": 12 * MM, "pitch": 1.25 * MM, "yield_strength": 940 * MPA,
        "thread_friction": 0.1}, 72.1, KN, f"{VDI}, M12 x 1.25 class 10.9", "published", share=0.002),
    Published("q22", preload_within_yield, {"diameter": 14 * MM, "pitch": 1.5 * MM, "yield_strength": 1100 * MPA,
        "thread_friction": 0.14}, 108.7, KN, f"{VDI}, M14 x 1.5 class 12.9", "published", share=0.002),
    Published("q28", preload_of_torque, {"torque": 1800 * LBF * INCH, "nut_factor": 0.2, "diameter": 0.625 * INCH},
        14400.0, LBF, "SAND2008-0371, appendix C: its inputs as printed", "worked out", share=1e-09),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_torque_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


SIZE = {"diameter": 12e-3, "pitch": 1.75e-3}
RANGES = [
    Range(
        torque_for_preload,
        {"nut_factor": 0.15, "diameter": 12e-3, "preload": 7e4},
        ("nut_factor >= 0.05", "nut_factor <= 0.5", "diameter > 0", "preload >= 0"),
    ),
    Range(
        preload_of_torque,
        {"torque": 100.0, "nut_factor": 0.15, "diameter": 12e-3},
        ("torque >= 0", "nut_factor >= 0.05", "nut_factor <= 0.5", "diameter > 0"),
    ),
    Range(
        nut_factor_of_friction,
        {**SIZE, "thread_friction": 0.1, "collar_friction": 0.1},
        (
            "pitch < 4e-3",
            "pitch > 0",
            "thread_friction >= 0",
            "thread_friction <= 0.5",
            "collar_friction >= 0",
            "collar_friction <= 0.5",
        ),
    ),
    Range(
        preload_within_yield,
        {**SIZE, "yield_strength": 9e8, "thread_friction": 0.1},
        ("pitch < 4e-3", "yield_strength > 0", "thread_friction >= 0", "thread_friction <= 0.5"),
    ),
    Range(
        torque_of_friction,
        {"preload": 5e4, **SIZE, "thread_friction": 0.1, "head_friction": 0.1, "head_diameter": 15e-3},
        (
            "preload >= 0",
            "pitch < 4e-3",
            "thread_friction >= 0",
            "thread_friction <= 0.5",
            "head_friction >= 0",
            "head_friction <= 0.5",
            "head_diameter > 12e-3",
        ),
    ),
    Range(
        turn_for_preload,
        {"preload": 5e4, "length": 0.1, "area": 8e-5, "modulus": 2e11, "pitch": 1.75e-3},
        ("preload >= 0", "length > 0", "area > 0", "modulus > 0", "pitch > 0"),
    ),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


@pytest.mark.parametrize("range", RANGES[:5], ids=str)
def test_a_bolt_has_a_diameter(range: Range) -> None:
    range.refuses("diameter", 0.0)


# The data.
@pytest.mark.parametrize(
    ("condition", "least", "greatest", "source"),
    [
        ("bare steel, dry", 0.18, 0.30, "q25: Shigley's table 0.30 (published); a range chart has 0.18 to 0.27"),
        ("zinc plated, dry", 0.20, 0.295, "Shigley 0.20, Bickford 0.295 (published): they disagree with bare steel's"),
        ("cadmium plated", 0.16, 0.16, "Shigley 0.16 (published)"),
        ("machine oil on steel", 0.10, 0.26, "q26: range chart (published)"),
        ("phosphate and oil", 0.15, 0.22, "range chart (published)"),
    ],
)
def test_nut_factors_are_told_as_ranges(condition: str, least: float, greatest: float, source: str) -> None:
    assert NUT_FACTORS[condition][:2] == (least, greatest)
    assert "published" in source and NUT_FACTORS[condition][2].startswith("published: ")


# What must hold whatever is put in.
@given(st.floats(6e-3, 20e-3), st.floats(0.05, 0.2))
def test_without_friction_a_turn_does_the_work_of_the_pitch(diameter: float, share: float) -> None:
    """T x 2 pi = F x P. The form of VDI 2230 rounds 1/(2 pi) = 0.159 to 0.16."""
    pitch, preload = share * diameter, 5e4
    factor = nut_factor_of_friction(diameter, pitch, 0.0, 0.0)
    assert factor * diameter * preload * 2 * math.pi == pytest.approx(preload * pitch)
    by_vdi = torque_of_friction(preload, diameter, pitch, 0.0, 0.0, 1.3 * diameter)
    assert by_vdi * 2 * math.pi == pytest.approx(preload * pitch, rel=0.006)


@given(st.floats(0.0, 0.2), st.floats(0.0, 0.2))
def test_both_ways_to_the_torque_agree_within_six_per_cent(thread: float, head: float) -> None:
    """The long form with a collar of 1.25 d, and VDI 2230 with the same ring; they part in the thread's diameter."""
    size = {"diameter": 12 * MM, "pitch": 1.75 * MM}
    long = torque_for_preload(
        max(0.05, nut_factor_of_friction(**size, thread_friction=thread, collar_friction=head)), 12 * MM, 5e4
    )
    vdi = torque_of_friction(5e4, **size, thread_friction=thread, head_friction=head, head_diameter=15 * MM)
    if nut_factor_of_friction(**size, thread_friction=thread, collar_friction=head) > 0.05:
        assert long == pytest.approx(vdi, rel=0.06)


@given(st.floats(0.05, 0.5), st.floats(5e-3, 20e-3), st.floats(0.0, 1e5))
def test_torque_and_preload_are_each_others_inverse(factor: float, diameter: float, preload: float) -> None:
    torque = torque_for_preload(factor, diameter, preload)
    assert preload_of_torque(torque, factor, diameter) == pytest.approx(preload)


@given(st.floats(0.0, 0.4), st.floats(0.001, 0.1))
def test_more_friction_leaves_less_preload_within_yield(friction: float, more: float) -> None:
    size = {"diameter": 12 * MM, "pitch": 1.25 * MM, "yield_strength": 940 * MPA}
    assert preload_within_yield(**size, thread_friction=friction + more) < preload_within_yield(
        **size, thread_friction=friction
    )


def test_a_head_stud_by_hand_takes_127_newton_metres() -> None:
    """M12 x 1.75, 1240 MPa, 0.75 x 0.9 of it: 70.53 kN; K 0.15 x 12 mm x 70.53 kN = 126.96 N m."""
    assert torque_for_preload(0.15, 12 * MM, 70.53 * KN) == pytest.approx(126.954)


def test_a_bolt_stretched_by_its_pitch_was_turned_once() -> None:
    """F L / (A E) = 1e5 x 0.2 / (1e-4 x 2e11) = 1 mm."""
    assert turn_for_preload(1e5, 0.2, 100 * MM2, 2e11, 1 * MM) == pytest.approx(2 * math.pi)
