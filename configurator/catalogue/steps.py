"""The grid of a numeric choice: which values are legal, what the option of a value is called, which lie next to it."""

from __future__ import annotations

from decimal import ROUND_FLOOR, Decimal

from configurator.catalogue.choices import Range
from configurator.units import ARITHMETIC, number_in, show, twelve_digits


def count_of(legal: Range) -> int:
    """How many values the range has."""
    return int(_steps(legal, legal.greatest.value).to_integral_value(ROUND_FLOOR)) + 1


def step_of(legal: Range, value: Decimal) -> int | None:
    """The number of the value (SI) in the range, from 0; None where it lies outside or between two steps."""
    steps = _steps(legal, value)
    return int(steps) if 0 <= steps < count_of(legal) and steps == steps.to_integral_value() else None


def value_at(legal: Range, step: int) -> Decimal:
    """The value, in SI units, of a step counted from 0."""
    return ARITHMETIC.add(legal.least.value, ARITHMETIC.multiply(legal.step.value, Decimal(step)))


def option_id(legal: Range, value: Decimal) -> str:
    """What an option of this value is called: "84.0 mm", with as many decimals as the step has."""
    step = number_in(legal.step.value, legal.unit)
    return show(value, legal.unit, max(0, -int(step.normalize().as_tuple().exponent)))


def neighbours(legal: Range, value: Decimal) -> tuple[str, ...]:
    """The options nearest to a value that has none: the one below and the one above, or the end of the range."""
    last = count_of(legal) - 1
    below = int(min(max(_steps(legal, value), Decimal(-1)), Decimal(last)).to_integral_value(ROUND_FLOOR))
    return tuple(option_id(legal, value_at(legal, step)) for step in (below, below + 1) if 0 <= step <= last)


def _steps(legal: Range, value: Decimal) -> Decimal:
    return twelve_digits(ARITHMETIC.divide(value - legal.least.value, legal.step.value))
