"""How lengths grow in warming. A handbook gives a mean coefficient over a range from 20 C: two means do not chain."""

from __future__ import annotations

from configurator.engineering.bounds import not_negative, positive, within

GREATEST_EXPANSION = 100e-6
"""No metal of the trade comes near it: a coefficient that does was given in another unit."""


def check_warming(expansion: float, rise: float, name: str = "expansion", rise_name: str = "rise") -> None:
    """Raises OutOfRange for a coefficient outside 0 to 100 um/m K or a rise outside -300 to 500 K."""
    within(name, expansion, "um/m K", least=0.0, most=GREATEST_EXPANSION)
    within(rise_name, rise, "K", least=-300.0, most=500.0)


def growth_of(length: float, expansion: float, rise: float) -> float:
    """How much a length grows in warming: a L dT.

    length in m, from 0; expansion, the mean coefficient over the very range of temperatures, in 1/K, 0 to 100e-6; rise
    in K, -300 to 500. Gives m, less than 0 in cooling. Source: definition of the mean coefficient of expansion.
    """
    not_negative("length", length, "mm")
    check_warming(expansion, rise)
    return length * expansion * rise


def growth_between(
    length: float, mean_to_first: float, first: float, mean_to_second: float, second: float, reference: float
) -> float:
    """How much a length grows from one temperature to another, both away from where the means begin.

    length in m at the reference, from 0; the means from the reference to either temperature in 1/K, 0 to 100e-6;
    temperatures in K, from 0. Gives m: L (a2 (T2 - T0) - a1 (T1 - T0)). Neither mean times (T2 - T1) would do.
    Source: definition of the mean coefficient, which handbooks give from 20 C.
    """
    not_negative("length", length, "mm")
    for name, temperature in (("first", first), ("second", second), ("reference", reference)):
        within(name, temperature, "C", least=0.0)
    check_warming(mean_to_first, first - reference, "mean_to_first")
    check_warming(mean_to_second, second - reference, "mean_to_second")
    return length * (mean_to_second * (second - reference) - mean_to_first * (first - reference))


def extra_growth(length: float, expansion: float, other_expansion: float, rise: float) -> float:
    """How much more one metal grows than another over the same length and rise: L (a - a') dT.

    length in m, from 0; expansions in 1/K, 0 to 100e-6; rise in K, -300 to 500. Gives m. Source: as `growth_of`.
    """
    check_warming(other_expansion, rise, "other_expansion")
    return growth_of(length, expansion, rise) - growth_of(length, other_expansion, rise)


def rise_for_extra_growth(growth: float, length: float, expansion: float, other_expansion: float) -> float:
    """The rise at which one metal has outgrown another by so much: growth / (L (a - a')).

    It is where a sleeve's interference is lost, and with another expansion of 0 the rise that stretches a bolt. growth
    and length in m, above 0; expansions in 1/K, 0 to 100e-6, the first the greater. Gives K. Source: as `growth_of`.
    """
    not_negative("growth", growth, "mm")
    positive("length", length, "mm")
    within("other_expansion", other_expansion, "um/m K", least=0.0, most=GREATEST_EXPANSION)
    within("expansion", expansion, "um/m K", above=other_expansion, most=GREATEST_EXPANSION)
    return growth / (length * (expansion - other_expansion))


def stress_when_held(modulus: float, expansion: float, rise: float) -> float:
    """The pressing stress in a bar that is warmed and may not grow: E a dT.

    modulus in Pa, above 0; expansion in 1/K, 0 to 100e-6; rise in K, -300 to 500. Gives Pa; below 0 it is a pull.
    Holds below yield. Source: Hibbeler, Mechanics of Materials, chapter 4.
    """
    positive("modulus", modulus, "GPa")
    check_warming(expansion, rise)
    return modulus * expansion * rise


def length_of_6061(temperature: float) -> float:
    """The change of length of 6061-T6 aluminium against its length at 293 K, as a share of that length.

    temperature in K, 4 to 300: this is for cold starts, not for hot blocks. Gives a number. It fits the measurements
    within 4 %. Source: NIST cryogenic material properties, 6061-T6 aluminium, linear expansion.
    """
    within("temperature", temperature, "C", least=4.0, most=300.0)
    return 1e-5 * (-412.77 + temperature * (-0.30389 + temperature * (8.7696e-3 - 9.9821e-6 * temperature)))


def expansion_of_6061(temperature: float) -> float:
    """The coefficient of expansion of 6061-T6 aluminium at one temperature, not a mean: the slope of `length_of_6061`.

    temperature in K, 4 to 300. Gives 1/K. Source: as `length_of_6061`.
    """
    within("temperature", temperature, "C", least=4.0, most=300.0)
    return 1e-5 * (-0.30389 + temperature * (2 * 8.7696e-3 - 3 * 9.9821e-6 * temperature))
