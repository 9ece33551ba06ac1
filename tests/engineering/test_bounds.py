"""A refusal says which argument, its value and the range, in units of the trade."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.engineering.bounds import SHOWN, OutOfRange, not_negative, positive, show, within
from configurator.units import UNITS, Quantity, read_quantity


@pytest.mark.parametrize(
    ("bounds", "wanted"),
    [
        ({"least": 0.0, "most": 0.1}, "at least 0 mm and at most 100 mm"),
        ({"above": 0.0, "below": 0.1}, "more than 0 mm and less than 100 mm"),
        ({"least": 0.002}, "at least 2 mm"),
        ({"below": 0.0255}, "less than 25.5 mm"),
        ({}, "a number"),
    ],
)
def test_the_range_is_said_in_words(bounds: dict[str, float], wanted: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        within("deck_clearance", math.nan, "mm", **bounds)
    assert refused.value.wanted == wanted
    assert str(refused.value) == f"the deck clearance is nan mm, and must be {wanted}"
    assert (refused.value.argument, refused.value.unit) == ("deck_clearance", "mm")
    assert isinstance(refused.value, ValueError)


@given(st.floats(-10, 10), st.floats(-10, 10))
def test_bounds_that_are_met_are_within_or_not_as_their_name_says(value: float, bound: float) -> None:
    for name, holds in (
        ("least", value >= bound), ("above", value > bound), ("most", value <= bound), ("below", value < bound)
    ):  # fmt: skip
        assert taken("x", value, **{name: bound}) is holds
    for name in ("least", "most"):
        assert taken("x", bound, **{name: bound})
    for name in ("above", "below"):
        assert not taken("x", bound, **{name: bound})


def taken(argument: str, value: float, **bounds: float) -> bool:
    """Whether the value is within the bounds."""
    try:
        within(argument, value, "", **bounds)
    except OutOfRange as refused:
        assert refused.value == value or math.isnan(value)
        return False
    return True


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_within_no_range(value: float) -> None:
    assert not taken("x", value)
    assert not taken("x", value, least=-math.inf)


def test_positive_and_not_negative_part_at_nothing() -> None:
    positive("bore", 1e-300, "mm")
    not_negative("boost", 0.0, "bar")
    with pytest.raises(OutOfRange, match=r"^the bore is 0 mm, and must be more than 0 mm$"):
        positive("bore", 0.0, "mm")
    with pytest.raises(OutOfRange, match=r"^the boost is -1 bar, and must be at least 0 bar$"):
        not_negative("boost", -1e5, "bar")


@pytest.mark.parametrize("unit", SHOWN)
def test_a_refusal_counts_in_the_units_that_the_tool_reads(unit: str) -> None:
    """`units.py` is tested against pint; here each unit of a refusal is tested against `units.py`."""
    assert unit in UNITS
    factor, added = SHOWN[unit]
    for number in (0.0, 1.0, 250.0):
        si = float(
            UNITS[unit].to_si(read_quantity(f"{number:f} {unit}").value / UNITS[unit].factor - UNITS[unit].offset)
        )
        assert si * factor + added == pytest.approx(number, abs=1e-9)
    assert Quantity(UNITS[unit].factor, unit).dimension == UNITS[unit].dimension


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.082, "mm", "82 mm"),
        (258.15, "C", "-15 C"),
        (1.4, "", "1.4"),
        (1234567e-3, "mm", "1.23457e+06 mm"),
        (0.5, "deg", "28.6479 deg"),
    ],
)
def test_a_value_is_shown_to_six_digits_in_its_unit(value: float, unit: str, text: str) -> None:
    assert show(value, unit) == text
