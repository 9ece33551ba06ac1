"""Bearings, held against textbook examples (one with a printed error), and hot against cold."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.engineering.bearings import (
    bearing_number,
    clearance_when_cold,
    clearance_when_hot,
    friction_without_load,
    load_over_area,
    rise_to_clearance,
    torque_of_force,
    usual_clearance,
    viscosity_for_number,
)
from tests.engineering.quantities import HP, INCH, LBF, MM, MPA_S, PSI, REYN, RPM
from tests.engineering.worked import Published, Range

FAIRES = "Faires, Design of Machine Elements, problem 551, printed solution"
MOTT = "Mott, Machine Elements, journal bearing of 1500 lb at 850 rpm"
JINDAL = "Jindal, Machine Design, example 17-2, in FOSSEE's textbook companion"
THUMB = "stated as typical in engineers' talk; rival rules differ by a factor of two"


def friction_power(force: float, diameter: float, speed: float) -> float:
    """The power that the friction takes."""
    return torque_of_force(force, diameter) * speed


def viscosity_under_load(number: float, load: float, length: float, **bearing: float) -> float:
    """Example 17-2 gives the load, not what it is over the projected area."""
    unit_load = load_over_area(load, bearing["diameter"], length)
    return viscosity_for_number(number, unit_load=unit_load, **bearing)


PUBLISHED = [
    Published("o11", friction_without_load, {"viscosity": 7.25e-06 * REYN, "diameter": 3 * INCH, "length": 3 * INCH,
        "speed": 400 * RPM, "clearance": 0.0015 * INCH}, 17.173, LBF,
        f"{FAIRES}, which takes 0.0015 in for a clearance stated as 0.0015 of the diameter", "published", within=0.01),
    Published("o11/stated", friction_without_load, {"viscosity": 7.25e-6 * REYN, "diameter": 3 * INCH,
        "length": 3 * INCH, "speed": 400 * RPM, "clearance": 0.0045 * INCH}, 5.724, LBF,
        f"{FAIRES}, with the clearance as stated", "worked out", within=0.001),
    Published("o12", torque_of_force, {"force": 17.173 * LBF, "diameter": 3 * INCH}, 25.76, LBF*INCH, FAIRES,
        "published", within=0.01),
    Published("o13", friction_power, {"force": 17.173 * LBF, "diameter": 3 * INCH, "speed": 400 * RPM}, 0.1635, HP,
        FAIRES, "published", within=0.0001, formula="torque_of_force"),
    Published("o15", bearing_number, {"viscosity": 3.3e-06 * REYN, "speed": 14.2 * 60 * RPM, "diameter": 833.0,
        "clearance": 1.0, "unit_load": 240 * PSI}, 0.135, 1.0, f"{MOTT} (its page misprints 240 psi as 42)",
        "published", within=0.001),
    Published("o16", torque_of_force, {"force": 0.0042 * 1500 * LBF, "diameter": 2.5 * INCH}, 7.88, LBF*INCH, MOTT,
        "published", within=0.01),
    Published("o17", viscosity_under_load, {"number": 0.0446, "load": 6000.0, "length": 60 * MM, "speed": 1260 * RPM,
        "diameter": 60 * MM, "clearance": 0.08 * MM}, 6.293, MPA_S, JINDAL, "published", within=0.001,
        formula="viscosity_for_number"),
    Published("o21", usual_clearance, {"diameter": 2.5 * INCH}, 0.0025, INCH, THUMB, "published", within=1e-09),
    Published("o22", clearance_when_hot, {"cold_clearance": 0.055 * MM, "diameter": 65 * MM,
        "housing_expansion": 2.36e-05, "housing_rise": 80.0, "shaft_expansion": 1.23e-05, "shaft_rise": 80.0}, 0.11376,
        MM, "linear expansion, coefficients of Callister, table B.6", "worked out", share=1e-06),
    Published("o15/load", load_over_area, {"load": 1500 * LBF, "diameter": 2.5 * INCH, "length": 2.5 * INCH}, 240.0,
        PSI, MOTT, "published", within=1e-9),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_bearings_agree_with_what_is_published(value: Published) -> None:
    value.holds()


HOT = {
    "diameter": 0.065,
    "housing_expansion": 23.6e-6,
    "housing_rise": 80.0,
    "shaft_expansion": 12.3e-6,
    "shaft_rise": 70.0,
}
WARMED = (
    "diameter > 0", "housing_expansion >= 0", "housing_expansion <= 100e-6", "housing_rise >= -300",
    "housing_rise <= 500",
    "shaft_expansion >= 0", "shaft_expansion <= 100e-6", "shaft_rise >= -300", "shaft_rise <= 500",
)  # fmt: skip
RUNNING = {"speed": 700.0, "diameter": 0.06, "clearance": 6e-5}
RANGES = [
    Range(clearance_when_hot, {"cold_clearance": 4e-5, **HOT}, ("cold_clearance >= 0", *WARMED)),
    Range(clearance_when_cold, {"hot_clearance": 1e-4, **HOT}, ("hot_clearance >= 0", *WARMED)),
    Range(
        rise_to_clearance,
        {
            "cold_clearance": 4e-5,
            "wanted_clearance": 1e-5,
            "diameter": 0.06,
            "housing_expansion": 23.6e-6,
            "shaft_expansion": 12.3e-6,
        },
        (
            "cold_clearance >= 0",
            "wanted_clearance >= 0",
            "diameter > 0",
            "housing_expansion > 12.3e-6",
            "housing_expansion <= 100e-6",
            "shaft_expansion >= 0",
        ),
    ),
    Range(usual_clearance, {"diameter": 0.06}, ("diameter > 0",)),
    Range(load_over_area, {"load": 1e4, "diameter": 0.06, "length": 0.02}, ("load >= 0", "diameter > 0", "length > 0")),
    Range(
        friction_without_load,
        {"viscosity": 0.01, "length": 0.02, **RUNNING},
        ("viscosity >= 0", "diameter > 0", "length > 0", "speed >= 0", "clearance > 0"),
    ),
    Range(torque_of_force, {"force": 10.0, "diameter": 0.06}, ("force >= 0", "diameter > 0")),
    Range(
        bearing_number,
        {"viscosity": 0.01, **RUNNING, "unit_load": 1e7},
        ("viscosity >= 0", "speed >= 0", "diameter > 0", "clearance > 0", "unit_load > 0"),
    ),
    Range(
        viscosity_for_number,
        {"number": 0.1, **RUNNING, "unit_load": 1e7},
        ("number >= 0", "speed > 0", "diameter > 0", "clearance > 0", "unit_load >= 0"),
    ),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


def test_a_shaft_that_grows_like_its_housing_keeps_its_clearance_at_any_heat() -> None:
    refused = RANGES[2].refuses_because("housing_expansion", {"shaft_expansion": 23.6e-6})
    assert refused.wanted == "more than 23.6 um/m K and at most 100 um/m K"
    assert RANGES[2].refuses_because("shaft_expansion", {"shaft_expansion": 1.1e-4}).value == 1.1e-4
    assert RANGES[2].refuses_because("housing_expansion", {"shaft_expansion": 100e-6}).value == 23.6e-6


@given(st.floats(0.0, 1e-4), st.floats(-60.0, 200.0), st.floats(0.1, 100.0))
def test_hotter_never_tightens_an_aluminium_main(cold: float, rise: float, hotter: float) -> None:
    main = {"cold_clearance": cold, "diameter": 58 * MM, "housing_expansion": 23.6e-6, "shaft_expansion": 12.3e-6}
    before = clearance_when_hot(**main, housing_rise=rise, shaft_rise=rise)
    assert clearance_when_hot(**main, housing_rise=rise + hotter, shaft_rise=rise + hotter) > before
    assert clearance_when_hot(**main, housing_rise=rise + hotter, shaft_rise=rise) > before
    assert clearance_when_hot(**main, housing_rise=rise, shaft_rise=rise + hotter) < before


@given(st.floats(0.02, 0.1), st.floats(-60.0, 200.0), st.floats(-60.0, 200.0), st.floats(0.0, 1e-4))
def test_hot_and_cold_are_each_others_inverse(diameter: float, housing: float, shaft: float, hot: float) -> None:
    metals = {
        "diameter": diameter,
        "housing_expansion": 23.6e-6,
        "housing_rise": housing,
        "shaft_expansion": 12.3e-6,
        "shaft_rise": shaft,
    }
    cold = clearance_when_cold(hot, **metals)
    grown = diameter * (1 + 23.6e-6 * housing) - diameter * (1 + 12.3e-6 * shaft)
    assert cold == pytest.approx(hot - grown, abs=1e-12)
    if cold >= 0:
        assert clearance_when_hot(cold, **metals) == pytest.approx(hot, abs=1e-12)


@given(st.floats(0.0, 1e-4), st.floats(0.0, 1e-4))
def test_at_the_rise_for_a_clearance_the_main_has_it(cold: float, wanted: float) -> None:
    main = {"cold_clearance": cold, "diameter": 58 * MM, "housing_expansion": 23.6e-6, "shaft_expansion": 12.3e-6}
    rise = rise_to_clearance(**main, wanted_clearance=wanted)
    assert clearance_when_hot(**main, housing_rise=rise, shaft_rise=rise) == pytest.approx(wanted, abs=1e-12)


def test_a_street_main_by_hand_starts_at_fifteen_below() -> None:
    """0.035 - 58 x (23.6 - 12.3)e-6 x 35 = 0.0121 mm at -15 C; 0.010 mm are reached 38.1 K below 20 C."""
    main = {"cold_clearance": 0.035 * MM, "diameter": 58 * MM, "housing_expansion": 23.6e-6, "shaft_expansion": 12.3e-6}
    assert clearance_when_hot(**main, housing_rise=-35.0, shaft_rise=-35.0) == pytest.approx(0.012061 * MM)
    assert rise_to_clearance(**main, wanted_clearance=0.010 * MM) == pytest.approx(-38.1447, abs=1e-4)


@given(st.floats(1e-3, 0.1), st.floats(1.0, 1000.0), st.floats(0.02, 0.1), st.floats(1e-5, 2e-4), st.floats(1e4, 1e8))
def test_viscosity_and_number_are_each_others_inverse(
    viscosity: float, speed: float, diameter: float, clearance: float, load: float
) -> None:
    number = bearing_number(viscosity, speed, diameter, clearance, load)
    assert viscosity_for_number(number, speed, diameter, clearance, load) == pytest.approx(viscosity)


@given(st.floats(1e-3, 0.1), st.floats(1.0, 1000.0))
def test_petroff_is_the_friction_number_of_a_light_load(viscosity: float, speed: float) -> None:
    """Petroff's law in its other form (Shigley, from memory): f r/c = 2 pi^2 S, with radial clearance c."""
    diameter, length, clearance, load = 0.06, 0.03, 6e-5, 100.0
    number = bearing_number(viscosity, speed, diameter, clearance, load_over_area(load, diameter, length))
    friction = friction_without_load(viscosity, diameter, length, speed, clearance) / load
    assert friction * diameter / clearance == pytest.approx(2 * math.pi**2 * number)
