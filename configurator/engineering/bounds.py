"""The range of an argument, and the error that names it."""

from __future__ import annotations

import math
from collections.abc import Mapping

SHOWN: Mapping[str, tuple[float, float]] = {
    # unit: how many of it are one of the SI unit, and what is added to that
    "": (1.0, 0.0), "mm": (1e3, 0.0), "mm2": (1e6, 0.0), "cm3": (1e6, 0.0), "kg": (1.0, 0.0), "s": (1.0, 0.0),
    "deg": (180 / math.pi, 0.0), "K": (1.0, 0.0), "C": (1.0, -273.15), "rpm": (30 / math.pi, 0.0),
    "m/s": (1.0, 0.0), "N": (1.0, 0.0), "bar": (1e-5, 0.0), "MPa": (1e-6, 0.0), "GPa": (1e-9, 0.0), "kW": (1e-3, 0.0),
    "N m": (1.0, 0.0), "L/min": (6e4, 0.0), "kg/s": (1.0, 0.0), "kg/m3": (1.0, 0.0),
    "mPa s": (1e3, 0.0), "mm2/s": (1e6, 0.0), "um/m K": (1e6, 0.0), "J/kg K": (1.0, 0.0), "MJ/kg": (1e-6, 0.0),
    "g/kW h": (3.6e9, 0.0), "N/mm": (1e-3, 0.0),
}  # fmt: skip
"""The units in which a refusal speaks: those of the trade, not SI, for a salesman reads it."""


class OutOfRange(ValueError):
    """An argument outside the range in which a formula holds: which, its value in SI, and the range in words."""

    def __init__(self, argument: str, value: float, unit: str, wanted: str) -> None:
        self.argument, self.value, self.unit, self.wanted = argument, value, unit, wanted
        super().__init__(f"the {argument.replace('_', ' ')} is {show(value, unit)}, and must be {wanted}")


def show(value: float, unit: str) -> str:
    """An SI value in one of the units of `SHOWN`, to six digits: "82 mm"."""
    factor, added = SHOWN[unit]
    return f"{value * factor + added:.6g} {unit}".rstrip()


def within(
    argument: str,
    value: float,
    unit: str,
    *,
    least: float = -math.inf,
    above: float = -math.inf,
    most: float = math.inf,
    below: float = math.inf,
) -> None:
    """Raises OutOfRange unless least <= value <= most and above < value < below. All in SI; `unit` is for the words.

    What is not a finite number is outside every range.
    """
    if math.isfinite(value) and least <= value <= most and above < value < below:
        return
    said = [
        f"{words} {show(bound, unit)}"
        for words, bound in (("at least", least), ("more than", above), ("at most", most), ("less than", below))
        if math.isfinite(bound)
    ]
    raise OutOfRange(argument, value, unit, " and ".join(said) or "a number")


def positive(argument: str, value: float, unit: str) -> None:
    """Raises OutOfRange unless the value is more than nothing."""
    within(argument, value, unit, above=0.0)


def not_negative(argument: str, value: float, unit: str) -> None:
    """Raises OutOfRange where the value is less than nothing."""
    within(argument, value, unit, least=0.0)
