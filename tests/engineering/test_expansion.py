"""Growth in warming, held against handbooks, a pipe fitter's table and its own slope."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.engineering.expansion import (
    expansion_of_6061,
    extra_growth,
    growth_between,
    growth_of,
    length_of_6061,
    rise_for_extra_growth,
    stress_when_held,
)
from tests.engineering.quantities import CELSIUS, FAHRENHEIT, FOOT, GPA, INCH, KSI, MM, PER_FAHRENHEIT, PSI
from tests.engineering.worked import Published, Range

PIPING = "a pipe maker's expansion table: inches a 100 ft from 70 F, mean coefficient that it implies"
WENTZELL = "Wentzell, Machine Design, example 6-3, in FOSSEE's textbook companion"
HIBBELER = "Hibbeler, Mechanics of Materials, example 4.10, in FOSSEE's textbook companion"
NIST = "NIST cryogenic material properties, 6061-T6: its coefficients, 4 to 300 K"
CALLISTER = "linear expansion with the coefficients of Callister, table B.6"

PUBLISHED = [
    Published("x15", growth_between, {"length": 1.0, "mean_to_first": 2.15e-05, "first": 100 + CELSIUS,
        "mean_to_second": 2.25e-05, "second": 200 + CELSIUS, "reference": 20 + CELSIUS}, 2.33, MM,
        "means of the ASM data sheet for 356.0: neither times 100 K is right (2.15 and 2.25)", "worked out",
        share=1e-09),
    Published("x16", length_of_6061, {"temperature": 77.0}, -388.732, 1e-5, NIST, "worked out", share=0.0001),
    Published("x17", expansion_of_6061, {"temperature": 293.0}, 22.64, 1e-6, NIST, "worked out", within=0.01),
    Published("x18", growth_of, {"length": 100 * FOOT, "expansion": 1.282e-05 * PER_FAHRENHEIT,
        "rise": 130 * FAHRENHEIT}, 2.0, INCH, PIPING, "published", within=0.005),
    Published("x19", growth_of, {"length": 100 * FOOT, "expansion": 6.35e-06 * PER_FAHRENHEIT,
        "rise": 130 * FAHRENHEIT}, 0.99, INCH, PIPING, "published", within=0.005),
    Published("x20", growth_of, {"length": 100 * FOOT, "expansion": 1.33e-05 * PER_FAHRENHEIT,
        "rise": 230 * FAHRENHEIT}, 3.67, INCH, PIPING, "published", within=0.005),
    Published("x21", rise_for_extra_growth, {"growth": 0.01204 * INCH, "length": 5 * INCH,
        "expansion": 6.5e-06 * PER_FAHRENHEIT, "other_expansion": 0.0}, 370.46, FAHRENHEIT, WENTZELL, "published",
        within=0.01),
    Published("x22", stress_when_held, {"modulus": 29000000.0 * PSI, "expansion": 6.6e-06 * PER_FAHRENHEIT,
        "rise": 60 * FAHRENHEIT}, 11.484, KSI, HIBBELER, "published", within=0.0005),
    Published("x23", growth_of, {"length": 70 * MM, "expansion": 2.36e-05, "rise": 80.0}, 0.13216, MM, CALLISTER,
        "worked out", share=1e-09),
    Published("x24", growth_of, {"length": 70 * MM, "expansion": 1.14e-05, "rise": 80.0}, 0.06384, MM, CALLISTER,
        "worked out", share=1e-09),
    Published("x25", extra_growth, {"length": 70 * MM, "expansion": 2.36e-05, "other_expansion": 1.14e-05,
        "rise": 80.0}, 0.06832, MM, CALLISTER, "worked out", share=1e-09),
    Published("x26", rise_for_extra_growth, {"growth": 0.0508 * MM, "length": 69.85 * MM, "expansion": 2.36e-05,
        "other_expansion": 1.14e-05}, 59.61, 1.0,
        "the 0.002 in of extra main clearance that shops quote (common practice, no source): it means 60 K",
        "worked out", within=0.01),
    Published("x27", extra_growth, {"length": 230 * MM, "expansion": 2.36e-05, "other_expansion": 1.14e-05,
        "rise": 80.0}, 0.22448, MM, CALLISTER, "worked out", share=1e-09),
    Published("l15", rise_for_extra_growth, {"growth": 0.08 * MM, "length": 106 * MM, "expansion": 2.36e-05,
        "other_expansion": 1.14e-05}, 61.862, 1.0,
        "where an iron sleeve in aluminium loses its fit, coefficients of Callister, table B.6", "worked out",
        within=0.01),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_growth_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


WARMED = ("expansion >= 0", "expansion <= 100e-6", "rise >= -300", "rise <= 500")
RANGES = [
    Range(growth_of, {"length": 1.0, "expansion": 23.6e-6, "rise": 80.0}, ("length >= 0", *WARMED)),
    Range(
        growth_between,
        {
            "length": 1.0,
            "mean_to_first": 21.5e-6,
            "first": 373.0,
            "mean_to_second": 22.5e-6,
            "second": 473.0,
            "reference": 293.0,
        },
        (
            "length >= 0",
            "mean_to_first >= 0",
            "mean_to_first <= 100e-6",
            "mean_to_second >= 0",
            "mean_to_second <= 100e-6",
        ),
    ),
    Range(
        extra_growth,
        {"length": 1.0, "expansion": 23.6e-6, "other_expansion": 11.4e-6, "rise": 80.0},
        ("length >= 0", *WARMED, "other_expansion >= 0", "other_expansion <= 100e-6"),
    ),
    Range(
        rise_for_extra_growth,
        {"growth": 1e-4, "length": 0.1, "expansion": 23.6e-6, "other_expansion": 11.4e-6},
        ("growth >= 0", "length > 0", "expansion > 11.4e-6", "expansion <= 100e-6", "other_expansion >= 0"),
    ),
    Range(stress_when_held, {"modulus": 69e9, "expansion": 23.6e-6, "rise": 80.0}, ("modulus > 0", *WARMED)),
    Range(length_of_6061, {"temperature": 250.0}, ("temperature >= 4", "temperature <= 300")),
    Range(expansion_of_6061, {"temperature": 250.0}, ("temperature >= 4", "temperature <= 300")),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


@pytest.mark.parametrize("argument", ["first", "second", "reference"])
def test_a_temperature_below_absolute_zero_is_refused(argument: str) -> None:
    cold = {"first": 0.0, "second": 0.0, "reference": 0.0}
    between = Range(growth_between, {"length": 1.0, "mean_to_first": 0.0, "mean_to_second": 0.0, **cold}, ())
    between.holds()
    between.refuses(argument, -1e-9)


@pytest.mark.parametrize("argument", ["mean_to_first", "mean_to_second"])
def test_a_mean_over_too_wide_a_range_is_refused(argument: str) -> None:
    far = {"mean_to_first": "first", "mean_to_second": "second"}[argument]
    given = {"length": 1.0, "mean_to_first": 2e-5, "first": 300.0, "mean_to_second": 2e-5, "second": 300.0}
    between = Range(growth_between, {**given, "reference": 300.0}, ())
    between.holds()
    assert between.refuses_because("rise", {far: 801.0}).value == 501.0


def test_metals_that_expand_alike_never_outgrow_each_other() -> None:
    never = Range(rise_for_extra_growth, RANGES[3].example, ())
    assert "more than 11.4 um/m K" in str(never.refuses("expansion", 11.4e-6))
    assert never.refuses_because("expansion", {"other_expansion": 100e-6}).value == 23.6e-6


@given(st.floats(5.0, 299.0))
def test_the_coefficient_at_a_temperature_is_the_slope_of_the_length(temperature: float) -> None:
    step = 1e-3
    slope = (length_of_6061(temperature + step) - length_of_6061(temperature - step)) / (2 * step)
    assert expansion_of_6061(temperature) == pytest.approx(slope, rel=1e-5, abs=1e-11)


def test_aluminium_is_as_long_as_ever_at_the_reference_of_its_fit() -> None:
    """The polynomial is of the change since 293 K; its own roundings leave 0.0004 mm in a metre there."""
    assert abs(length_of_6061(293.0)) < 5e-7


@given(st.floats(0.001, 1.0), st.floats(5e-6, 3e-5), st.floats(-100.0, 200.0))
def test_growth_and_the_rise_for_it_are_each_others_inverse(length: float, expansion: float, rise: float) -> None:
    growth = extra_growth(length, expansion + 1e-6, 1e-6, abs(rise))
    assert rise_for_extra_growth(growth, length, expansion + 1e-6, 1e-6) == pytest.approx(abs(rise))
    assert growth_of(length, expansion, -rise) == -growth_of(length, expansion, rise)


@given(st.floats(1e-5, 3e-5), st.floats(293.0, 600.0), st.floats(293.0, 600.0))
def test_one_mean_over_both_ranges_chains(mean: float, first: float, second: float) -> None:
    assert growth_between(1.0, mean, first, mean, second, 293.0) == pytest.approx(mean * (second - first), abs=1e-15)


def test_a_held_bar_pushes_by_what_would_press_it_back() -> None:
    """By hand: 1 m of aluminium wants 23.6e-6 x 100 = 2.36 mm; 69 GPa x 0.00236 = 162.84 MPa."""
    assert stress_when_held(69 * GPA, 23.6e-6, 100.0) == pytest.approx(162.84e6)
    assert growth_of(1.0, 23.6e-6, 100.0) == pytest.approx(2.36e-3)
