"""Pressure in the cylinder, from the inlet to a bound on its peak. Gauge and absolute are never the same argument."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, positive, within

GREATEST_RATIO = 30.0
"""A compression ratio above this was never meant."""


def absolute_of_gauge(pressure_gauge: float, ambient_absolute: float) -> float:
    """The absolute pressure of a gauge pressure: what the gauge shows, and the air outside.

    ambient_absolute in Pa, above 0; pressure_gauge in Pa, not below minus the ambient. Gives Pa absolute.
    Source: definition.
    """
    positive("ambient_absolute", ambient_absolute, "bar")
    within("pressure_gauge", pressure_gauge, "bar", least=-ambient_absolute)
    return pressure_gauge + ambient_absolute


def gauge_of_absolute(pressure_absolute: float, ambient_absolute: float) -> float:
    """The gauge pressure of an absolute pressure: what it is over the air outside.

    pressure_absolute in Pa, from 0; ambient_absolute in Pa, above 0. Gives Pa gauge. Source: definition.
    """
    not_negative("pressure_absolute", pressure_absolute, "bar")
    positive("ambient_absolute", ambient_absolute, "bar")
    return pressure_absolute - ambient_absolute


def boost_over_ambient(boost_gauge: float, ambient_absolute: float) -> float:
    """The pressure ratio of a compressor from its boost: (ambient + boost) / ambient.

    boost_gauge in Pa, from 0; ambient_absolute in Pa, above 0. Gives a number, from 1. Source: definition.
    """
    not_negative("boost_gauge", boost_gauge, "bar")
    return absolute_of_gauge(boost_gauge, ambient_absolute) / ambient_absolute


def compressed_pressure(inlet_absolute: float, ratio: float, exponent: float) -> float:
    """The pressure at the top when nothing burns: p r^n.

    inlet_absolute in the manifold in Pa, above 0; compression ratio 1 to 30; polytropic exponent 1 to 1.67 (some 1.32
    in an engine, 1.4 for air without loss). Gives Pa absolute.
    Source: polytropic compression; Rajput, A Textbook of Internal Combustion Engines, chapter 3.
    """
    positive("inlet_absolute", inlet_absolute, "bar")
    _check_compression(ratio, exponent)
    return inlet_absolute * math.pow(ratio, exponent)


def compressed_temperature(inlet_temperature: float, ratio: float, exponent: float) -> float:
    """The temperature at the top when nothing burns: T r^(n - 1).

    inlet_temperature in K, above 0; ratio 1 to 30; exponent 1 to 1.67. Gives K. Source: as `compressed_pressure`.
    """
    within("inlet_temperature", inlet_temperature, "C", above=0.0)
    _check_compression(ratio, exponent)
    return inlet_temperature * math.pow(ratio, exponent - 1)


def peak_at_temperature(
    inlet_absolute: float, inlet_temperature: float, ratio: float, peak_temperature: float
) -> float:
    """The pressure at the top when the charge is heated there to a temperature, at one volume: p r T3/T1.

    inlet_absolute in Pa and temperatures in K, above 0; ratio 1 to 30. Gives Pa absolute. Source: the gas law; Moran
    and Shapiro, Fundamentals of Engineering Thermodynamics, chapter 9.
    """
    positive("inlet_absolute", inlet_absolute, "bar")
    within("inlet_temperature", inlet_temperature, "C", above=0.0)
    within("ratio", ratio, "", least=1.0, most=GREATEST_RATIO)
    within("peak_temperature", peak_temperature, "C", above=0.0)
    return inlet_absolute * ratio * peak_temperature / inlet_temperature


def peak_pressure_bound(
    inlet_absolute: float,
    inlet_temperature: float,
    ratio: float,
    exponent: float,
    charge_heat: float,
    specific_heat: float,
) -> float:
    """What the peak pressure cannot pass: all heat given at once, at the top: p2 (1 + q / (cv T2)).

    A bound, no forecast: real peaks are some 0.55 to 0.7 of it (common practice). inlet_absolute in Pa, above 0;
    inlet_temperature in K, above 0; ratio 1 to 30; exponent 1 to 1.67; charge_heat q a kg of charge in J/kg, from 0;
    specific_heat cv in J/kg K, above 0. Gives Pa absolute.
    Source: the constant-volume cycle; Rajput, A Textbook of Internal Combustion Engines, chapter 3.
    """
    not_negative("charge_heat", charge_heat, "MJ/kg")
    positive("specific_heat", specific_heat, "J/kg K")
    compressed = compressed_temperature(inlet_temperature, ratio, exponent)
    return peak_at_temperature(inlet_absolute, inlet_temperature, ratio, compressed + charge_heat / specific_heat)


def efficiency_of_cycle(ratio: float, exponent: float) -> float:
    """The efficiency of the constant-volume cycle, which no engine reaches: 1 - r^(1 - n).

    ratio 1 to 30; exponent, the ratio of specific heats, 1 to 1.67. Gives a number. Source: as `peak_pressure_bound`.
    """
    _check_compression(ratio, exponent)
    return 1 - math.pow(ratio, 1 - exponent)


def mean_pressure_of_work(work: float, density: float, ratio: float) -> float:
    """The mean pressure that would do a cycle's work over the stroke: w rho / (1 - 1/r).

    work a kg of charge in J/kg, from 0; density of the charge at the bottom in kg/m3, above 0; ratio above 1, to 30.
    Gives Pa. Source: definition; Cengel and Boles, Thermodynamics, chapter 9.
    """
    not_negative("work", work, "MJ/kg")
    positive("density", density, "kg/m3")
    within("ratio", ratio, "", above=1.0, most=GREATEST_RATIO)
    return work * density / (1 - 1 / ratio)


def _check_compression(ratio: float, exponent: float) -> None:
    within("ratio", ratio, "", least=1.0, most=GREATEST_RATIO)
    within("exponent", exponent, "", least=1.0, most=1.67)
