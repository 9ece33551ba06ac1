"""Crank, rod and piston, held against textbook examples and against the derivatives that sympy finds."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar

from configurator.engineering.kinematics import (
    acceleration_in_two_terms,
    acceleration_of_piston,
    clearance_at_deck,
    dwell_at_top,
    mean_speed_of_piston,
    ratio_of_compression,
    speed_at_piston_speed,
    speed_in_two_terms,
    speed_of_piston,
    swept_volume,
    travel_of_piston,
    volume_at_top,
)
from tests.engineering.quantities import CM, CM3, DEGREE, FOOT, INCH, KN, MINUTE, MM, RPM
from tests.engineering.worked import Published, Range

GUPTA = "Gupta, Fundamentals of Internal Combustion Engines, example 16.1, in FOSSEE's textbook companion"
KHURMI = "Khurmi and Gupta, Theory of Machines, in FOSSEE's textbook companion, example"
MATHUR = "Mathur and Sharma, Internal Combustion Engine, example 1.1, in FOSSEE's textbook companion"
SLIDER = "geometry of the slider crank, worked out"


def bore_of_square_cylinder(swept: float) -> float:
    """Bore and stroke alike that sweep a volume: `swept_volume` turned round by root finding."""
    return float(brentq(lambda bore: swept_volume(bore, bore, 1.0) - swept, 1e-3, 1.0))


def greatest_speed_in_two_terms(stroke: float, rod: float, speed: float) -> float:
    """The greatest over half a turn."""
    found = minimize_scalar(
        lambda angle: -speed_in_two_terms(stroke, rod, speed, angle), bounds=(0, math.pi), method="bounded"
    )
    return -float(found.fun)


def force_in_two_terms(mass: float, **motion: float) -> float:
    """The inertia force of a mass that moves with the piston."""
    return mass * acceleration_in_two_terms(**motion)


PUBLISHED = [
    Published("k01", bore_of_square_cylinder, {"swept": 500 * CM3}, 8.6, CM, f"{GUPTA} (printed 8.6)", "published",
        within=0.005, formula="swept_volume"),
    Published("k02", mean_speed_of_piston, {"stroke": 86.025 * MM, "speed": 3000 * RPM}, 8.6, 1.0, GUPTA, "published",
        within=0.01),
    Published("k03", volume_at_top, {"swept": 500 * CM3, "ratio": 9.0}, 62.5, CM3, GUPTA, "published", within=0.01),
    Published("k04", speed_of_piston, {"stroke": 8.6025 * CM, "rod": 17.2 * CM, "speed": 3000 * RPM,
        "crank_angle": 20 * DEGREE}, 5.71, 1.0, GUPTA, "published", within=0.005),
    Published("k05", travel_of_piston, {"stroke": 8.6025 * CM, "rod": 17.2 * CM, "crank_angle": 20 * DEGREE}, 0.32, CM,
        GUPTA, "published", within=0.005),
    Published("k07", speed_in_two_terms, {"stroke": 0.6, "rod": 1.5, "speed": 180 * RPM, "crank_angle": 40 * DEGREE},
        4.19, 1.0, f"{KHURMI} 15.4", "published", within=0.005),
    Published("k08", acceleration_in_two_terms, {"stroke": 0.6, "rod": 1.5, "speed": 180 * RPM,
        "crank_angle": 40 * DEGREE}, 85.36, 1.0, f"{KHURMI} 15.4", "published", within=0.01),
    Published("k10", acceleration_in_two_terms, {"stroke": 0.3, "rod": 0.6, "speed": 450 * RPM,
        "crank_angle": 60 * DEGREE}, 124.91, 1.0, f"{KHURMI} 15.5", "published", within=0.01),
    Published("k11", greatest_speed_in_two_terms, {"stroke": 0.6, "rod": 1.0, "speed": 200 * RPM}, 6.54, 1.0,
        f"{KHURMI} 15.3, at 75 degrees", "published", within=0.005, formula="speed_in_two_terms"),
    Published("k12", force_in_two_terms, {"mass": 180.0, "stroke": 0.2, "rod": 0.4, "speed": 52.4,
        "crank_angle": 60 * DEGREE}, 18.53, KN, f"{KHURMI} 15.6 (by drawing the book has 18.78)", "published",
        within=0.01, formula="acceleration_in_two_terms"),
    Published("k13", swept_volume, {"bore": 6.8 * CM, "stroke": 7.5 * CM, "cylinders": 4.0}, 1089.5, CM3, MATHUR,
        "published", within=0.05),
    Published("k14", acceleration_of_piston, {"stroke": 90 * MM, "rod": 150 * MM, "speed": 7000 * RPM,
        "crank_angle": 0.0}, 31434.69, 1.0, SLIDER, "worked out", share=1e-06),
    Published("k15", acceleration_of_piston, {"stroke": 90 * MM, "rod": 150 * MM, "speed": 7000 * RPM,
        "crank_angle": 90 * DEGREE}, -7604.43, 1.0, SLIDER, "worked out", share=1e-06),
    Published("k16", acceleration_in_two_terms, {"stroke": 90 * MM, "rod": 150 * MM, "speed": 7000 * RPM,
        "crank_angle": 90 * DEGREE}, -7254.16, 1.0, f"{SLIDER}: 4.6 % short of the exact one", "worked out",
        share=1e-06),
    Published("k17", dwell_at_top, {"stroke": 90 * MM, "rod": 150 * MM, "travel": 0.5 * MM}, 14.9996, DEGREE,
        f"{SLIDER} by root finding", "worked out", share=1e-05),
    Published("k17/long", dwell_at_top, {"stroke": 90 * MM, "rod": 180 * MM, "travel": 0.5 * MM}, 15.2966, DEGREE,
        f"{SLIDER} by root finding", "worked out", share=1e-5),
    Published("k18", clearance_at_deck, {"deck_height": 230 * MM, "stroke": 90 * MM, "rod": 150 * MM,
        "compression_height": 34.5 * MM}, 0.5, MM, "definition", "worked out", within=1e-09),
    Published("k19", ratio_of_compression, {"bore": 100 * MM, "stroke": 90 * MM, "chamber": 60 * CM3,
        "gasket_bore": 102 * MM, "gasket_thickness": 1 * MM, "deck_clearance": 0.5 * MM, "dish": 5 * CM3}, 10.16828,
        1.0, "definition", "worked out", share=1e-05),
    Published("k20", mean_speed_of_piston, {"stroke": 4 * INCH, "speed": 6000 * RPM}, 4000.0, FOOT/MINUTE,
        "definition: inches x rpm / 6", "worked out", share=1e-09),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_motion_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


CRANK = {"stroke": 0.09, "rod": 0.15}
OF_CRANK = ("stroke > 0", "stroke < 0.3", "rod > 0.045")
MOVING = {**CRANK, "speed": 700.0, "crank_angle": 1.0}
RANGES = [
    Range(swept_volume, {"bore": 0.08, "stroke": 0.09, "cylinders": 4.0}, ("bore > 0", "stroke > 0", "cylinders >= 1")),
    Range(volume_at_top, {"swept": 5e-4, "ratio": 9.0}, ("swept > 0", "ratio > 1")),
    Range(
        ratio_of_compression,
        {
            "bore": 0.082,
            "stroke": 0.09,
            "chamber": 4.4e-5,
            "gasket_bore": 0.0835,
            "gasket_thickness": 1e-3,
            "deck_clearance": 5e-4,
            "dish": 4e-6,
        },
        ("bore > 0", "stroke > 0", "chamber > 0", "gasket_bore > 0", "gasket_thickness >= 0"),
    ),
    Range(
        clearance_at_deck,
        {"deck_height": 0.23, "stroke": 0.09, "rod": 0.15, "compression_height": 0.0345},
        ("deck_height > 0", "stroke > 0", "rod > 0", "compression_height > 0"),
    ),
    Range(mean_speed_of_piston, {"stroke": 0.09, "speed": 700.0}, ("stroke > 0", "speed >= 0")),
    Range(speed_at_piston_speed, {"mean_speed": 20.0, "stroke": 0.09}, ("mean_speed >= 0", "stroke > 0")),
    Range(travel_of_piston, {**CRANK, "crank_angle": 1.0}, ("stroke > 0", "rod > 0.045")),
    Range(speed_of_piston, MOVING, ("stroke > 0", "rod > 0.045", "speed >= 0")),
    Range(acceleration_of_piston, MOVING, ("stroke > 0", "rod > 0.045", "speed >= 0")),
    Range(speed_in_two_terms, MOVING, ("stroke > 0", "rod > 0.045", "speed >= 0")),
    Range(acceleration_in_two_terms, MOVING, ("stroke > 0", "rod > 0.045", "speed >= 0")),
    Range(dwell_at_top, {**CRANK, "travel": 5e-4}, ("rod > 0.045", "travel >= 0", "travel <= 0.09")),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


def test_a_crank_without_a_stroke_has_no_dwell() -> None:
    RANGES[-1].refuses("stroke", 0.0)


def test_a_piston_that_fills_the_chamber_is_refused() -> None:
    """44 cm3 of chamber, a dome of 60: nothing is left at the top."""
    refused = RANGES[2].refuses_because("volume_at_top", {"dish": -60 * CM3})
    assert refused.wanted == "more than 0 cm3"
    gone = {"chamber": 4e-5, "gasket_thickness": 0.0, "deck_clearance": 0.0, "dish": -4e-5}
    assert RANGES[2].refuses_because("volume_at_top", gone).value == 0


@cache
def exact() -> tuple[Callable[..., float], ...]:
    """Travel, speed and acceleration: the first by Pythagoras, the others as sympy differentiates it."""
    t, w, s, rod = sympy.symbols("t w s rod", positive=True)
    angle = w * t
    travel = s / 2 + rod - (s / 2 * sympy.cos(angle) + sympy.sqrt(rod**2 - (s / 2 * sympy.sin(angle)) ** 2))
    arguments = (s, rod, w, t)
    return tuple(
        sympy.lambdify(arguments, expression, "math")
        for expression in (travel, sympy.diff(travel, t), sympy.diff(travel, t, 2))
    )


CRANKS = st.tuples(st.floats(0.05, 0.15), st.floats(1.05, 4.0), st.floats(1.0, 1000.0), st.floats(0.0, 2 * math.pi))


@given(CRANKS)
def test_the_piston_moves_as_the_derivatives_of_its_place(crank: tuple[float, float, float, float]) -> None:
    stroke, ratio, speed, angle = crank
    rod = ratio * stroke
    travel, fast, faster = (float(work(stroke, rod, speed, angle / speed)) for work in exact())
    assert travel_of_piston(stroke, rod, angle) == pytest.approx(travel, abs=1e-12)
    assert speed_of_piston(stroke, rod, speed, angle) == pytest.approx(fast, rel=1e-9, abs=1e-9 * speed * stroke)
    assert acceleration_of_piston(stroke, rod, speed, angle) == pytest.approx(
        faster, rel=1e-9, abs=1e-9 * speed**2 * stroke
    )


@given(CRANKS)
def test_two_terms_are_near_the_exact_motion_for_a_long_rod(crank: tuple[float, float, float, float]) -> None:
    """What is left out is of the third power of r/l; with a rod of 1.5 strokes and more, 1 % of the greatest."""
    stroke, ratio, speed, angle = crank
    rod = max(ratio, 1.5) * stroke
    fastest = speed * stroke / 2
    assert speed_in_two_terms(stroke, rod, speed, angle) == pytest.approx(
        speed_of_piston(stroke, rod, speed, angle), abs=0.01 * fastest
    )
    for dead_centre in (0.0, math.pi):
        assert acceleration_in_two_terms(stroke, rod, speed, dead_centre) == pytest.approx(
            acceleration_of_piston(stroke, rod, speed, dead_centre)
        )


@given(CRANKS, st.floats(0.0, 1.0))
def test_the_piston_leaves_its_dwell_at_the_travel_that_was_asked(
    crank: tuple[float, float, float, float], share: float
) -> None:
    stroke, ratio = crank[:2]
    rod = ratio * stroke
    dwell = dwell_at_top(stroke, rod, share * stroke)
    assert travel_of_piston(stroke, rod, dwell / 2) == pytest.approx(share * stroke, abs=1e-9)
    assert dwell_at_top(stroke, rod, stroke) == pytest.approx(2 * math.pi)
    assert dwell_at_top(stroke, rod, 0.0) == 0


@given(st.floats(0.05, 0.12), st.floats(10.0, 1000.0))
def test_the_mean_speed_is_two_strokes_a_turn(stroke: float, speed: float) -> None:
    mean = mean_speed_of_piston(stroke, speed)
    assert mean == pytest.approx(2 * stroke * speed / (2 * math.pi))
    assert speed_at_piston_speed(mean, stroke) == pytest.approx(speed)


def test_a_long_stroke_by_hand_is_a_third_of_a_metre_too_fast_for_the_circuit() -> None:
    """95 mm at 8000 rpm: 2 x 0.095 x 8000/60 = 25.33 m/s; 25 m/s are met at 7894 rpm."""
    assert round(mean_speed_of_piston(95 * MM, 8000 * RPM), 2) == 25.33
    assert math.floor(speed_at_piston_speed(25.0, 95 * MM) / RPM) == 7894


@given(st.floats(0.0, 3e-3), st.floats(1e-5, 1e-3), st.floats(-3e-4, 1e-3))
def test_a_thicker_gasket_never_raises_the_compression_ratio(gasket: float, thicker: float, deck: float) -> None:
    head = {
        "bore": 82 * MM,
        "stroke": 90 * MM,
        "chamber": 44 * CM3,
        "gasket_bore": 83.5 * MM,
        "deck_clearance": deck,
        "dish": 4 * CM3,
    }
    assert ratio_of_compression(**head, gasket_thickness=gasket + thicker) < ratio_of_compression(
        **head, gasket_thickness=gasket
    )


@pytest.mark.parametrize(("gasket", "ratio"), [(1.10, 9.39), (1.30, 9.23)])
def test_two_tenths_of_gasket_by_hand_take_a_sixth_of_the_ratio(gasket: float, ratio: float) -> None:
    """475.29 cm3 swept; 44 + 4 + 2.64 of deck + 5.476 cm3 a mm of gasket."""
    found = ratio_of_compression(82 * MM, 90 * MM, 44 * CM3, 83.5 * MM, gasket * MM, 0.5 * MM, 4 * CM3)
    assert round(found, 2) == ratio


@given(st.floats(1e-5, 1e-3), st.floats(1.5, 15.0))
def test_the_volume_at_the_top_gives_back_the_ratio(swept: float, ratio: float) -> None:
    at_top = volume_at_top(swept, ratio)
    assert (swept + at_top) / at_top == pytest.approx(ratio)
