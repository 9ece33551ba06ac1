"""The functions that a formula may call by name: those of arithmetic, and the published formulas of engineering."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import NamedTuple

from configurator.dimensions import ANGLE, NUMBER, Dimension
from configurator.engineering.names import ENTRIES, Entry, find_work
from configurator.units import ARITHMETIC, Misread, twelve_digits


class Uncomputable(ValueError):
    """A formula that has no value for what is put into it: a division by zero, the root of a negative number."""


class Function(NamedTuple):
    """A function with at least `least` and at most `most` arguments.

    `dimension` gives the dimension of the result from those of the arguments, or raises Misread; `work` takes and
    returns SI values, and raises Uncomputable or an ArithmeticError where there is no result.
    """

    least: int
    most: int
    dimension: Callable[[Sequence[Dimension]], Dimension]
    work: Callable[..., Decimal]


def of_floats(arguments: Sequence[Dimension], result: Dimension, work: Callable[..., float]) -> Function:
    """A function on plain SI numbers, for the language: floats go in, twelve significant digits come out."""

    def dimension(given: Sequence[Dimension]) -> Dimension:
        for place, (wanted, found) in enumerate(zip(arguments, given, strict=True), 1):
            if wanted != found:
                raise Misread(f"its argument {place} is {found}, where {wanted} is wanted", "Put in what it asks for.")
        return result

    def decimal_work(*values: Decimal) -> Decimal:
        try:
            found = work(*(float(value) for value in values))
        except ValueError as trouble:
            raise Uncomputable(str(trouble)) from None
        if not math.isfinite(found):
            raise Uncomputable("there is no finite result")
        return twelve_digits(Decimal(found))

    return Function(len(arguments), len(arguments), dimension, decimal_work)


def _alike(given: Sequence[Dimension]) -> Dimension:
    for other in given[1:]:
        if other != given[0]:
            raise Misread(f"it compares {given[0]} with {other}", "Compare like with like.")
    return given[0]


def _size(given: Sequence[Dimension]) -> Dimension:
    if given[0].point:
        raise Misread("it is given a temperature on a scale", "Take a difference of temperatures first.")
    return given[0]


def _root(given: Sequence[Dimension]) -> Dimension:
    root = None if given[0].point else given[0].root()
    if root is None:
        raise Misread(f"{given[0]} has no square root", "Take the root of a number, or of what is a square: an area.")
    return root


def _of_angle(given: Sequence[Dimension]) -> Dimension:
    if given[0] != ANGLE:
        raise Misread(f"it is given {given[0]}, not an angle", "Say which angle: 30 deg or 0.5 rad.")
    return NUMBER


def _sin(angle: Decimal) -> Decimal:
    return _without_noise(math.sin(angle))


def _cos(angle: Decimal) -> Decimal:
    return _without_noise(math.cos(angle))


def _tan(angle: Decimal) -> Decimal:
    return twelve_digits(ARITHMETIC.divide(_sin(angle), _cos(angle)))


def _without_noise(value: float) -> Decimal:
    # The sine of 180 deg is 1.2e-16 in floats; it is nothing, and dividing by it must be refused.
    return Decimal(0) if abs(value) < 1e-15 else twelve_digits(Decimal(value))


def _of_engineering(name: str, entry: Entry) -> Function:
    # The subject's module is imported by the first call, not by reading a formula.
    return of_floats(list(entry.arguments.values()), entry.result, lambda *values: find_work(name)(*values))


FUNCTIONS: dict[str, Function] = {
    "min": Function(2, 20, _alike, min),
    "max": Function(2, 20, _alike, max),
    "abs": Function(1, 1, _size, ARITHMETIC.abs),
    "sqrt": Function(1, 1, _root, ARITHMETIC.sqrt),
    "sin": Function(1, 1, _of_angle, _sin),
    "cos": Function(1, 1, _of_angle, _cos),
    "tan": Function(1, 1, _of_angle, _tan),
    **{name: _of_engineering(name, entry) for name, entry in ENTRIES.items()},
}
"""Every function that a formula can call, by its name."""
