"""Power, torque and mean effective pressure of a four-stroke engine; its fuel, its air, what drives its compressor."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, positive, within


def power_of_torque(torque: float, speed: float) -> float:
    """The power of a torque at a speed: T w.

    torque in N m, from 0; speed in rad/s, from 0. Gives W. Source: definition.
    """
    not_negative("torque", torque, "N m")
    not_negative("speed", speed, "rpm")
    return torque * speed


def mean_pressure_of_torque(torque: float, swept: float) -> float:
    """The brake mean effective pressure of a four-stroke engine from its torque: 4 pi T / Vs.

    torque in N m, from 0; swept volume of all cylinders in m3, above 0. Gives Pa.
    Source: definition; Gupta, Fundamentals of Internal Combustion Engines, chapter 16.
    """
    not_negative("torque", torque, "N m")
    positive("swept", swept, "cm3")
    return 4 * math.pi * torque / swept


def mean_pressure_of_power(power: float, swept: float, speed: float) -> float:
    """The brake mean effective pressure of a four-stroke engine from its power: 4 pi P / (Vs w).

    power in W, from 0; swept volume of all cylinders in m3, above 0; speed in rad/s, above 0. Gives Pa.
    Source: as `mean_pressure_of_torque`.
    """
    not_negative("power", power, "kW")
    positive("speed", speed, "rpm")
    return mean_pressure_of_torque(power / speed, swept)


def fuel_for_power(fuel_flow: float, power: float) -> float:
    """The specific fuel consumption: fuel over power.

    fuel_flow in kg/s, from 0; power in W, above 0. Gives kg/J. Source: definition.
    """
    not_negative("fuel_flow", fuel_flow, "kg/s")
    positive("power", power, "kW")
    return fuel_flow / power


def efficiency_of_fuel(consumption: float, heating_value: float) -> float:
    """The brake thermal efficiency: 1 / (consumption x heating value).

    consumption in kg/J, heating_value (lower) in J/kg, above 0. Gives a number.
    Source: definition; Mathur and Sharma, Internal Combustion Engine, chapter 1.
    """
    positive("consumption", consumption, "g/kW h")
    positive("heating_value", heating_value, "MJ/kg")
    return 1 / (consumption * heating_value)


def air_for_power(power: float, consumption: float, air_fuel_ratio: float) -> float:
    """The flow of air that a power takes: ratio of air to fuel x consumption x power.

    power in W, from 0; consumption in kg/J, above 0; air_fuel_ratio by mass, above 0. Gives kg/s.
    Source: as `efficiency_of_fuel`.
    """
    not_negative("power", power, "kW")
    positive("consumption", consumption, "g/kW h")
    positive("air_fuel_ratio", air_fuel_ratio, "")
    return air_fuel_ratio * consumption * power


def charge_temperature(inlet_temperature: float, pressure_ratio: float, efficiency: float, exponent: float) -> float:
    """The temperature behind a compressor, before any cooler: T (1 + (R^((k-1)/k) - 1) / eta).

    inlet_temperature in K, above 0; pressure_ratio of absolute pressures, 1 to 10; adiabatic efficiency above 0, to 1;
    exponent k, above 1, to 1.67. Gives K. Source: Rajput, A Textbook of Internal Combustion Engines, chapter 16.
    """
    within("inlet_temperature", inlet_temperature, "C", above=0.0)
    within("pressure_ratio", pressure_ratio, "", least=1.0, most=10.0)
    within("efficiency", efficiency, "", above=0.0, most=1.0)
    within("exponent", exponent, "", above=1.0, most=1.67)
    return inlet_temperature * (1 + (math.pow(pressure_ratio, (exponent - 1) / exponent) - 1) / efficiency)


def power_of_compressor(air_flow: float, specific_heat: float, rise: float, mechanical_efficiency: float) -> float:
    """The power that drives a compressor: m cp (T2 - T1) / eta.

    air_flow in kg/s, from 0; specific_heat cp in J/kg K, above 0; rise of the air in K, 0 to 500; mechanical_efficiency
    above 0, to 1. Gives W. Source: as `charge_temperature`.
    """
    not_negative("air_flow", air_flow, "kg/s")
    positive("specific_heat", specific_heat, "J/kg K")
    within("rise", rise, "K", least=0.0, most=500.0)
    within("mechanical_efficiency", mechanical_efficiency, "", above=0.0, most=1.0)
    return air_flow * specific_heat * rise / mechanical_efficiency


def filling_of_cylinders(air_flow: float, density: float, swept_flow: float) -> float:
    """The volumetric efficiency: the air that came in over the air that the pistons make room for, m / (rho V).

    air_flow in kg/s, from 0; density of the air outside in kg/m3, above 0; swept_flow, half the swept volume a turn
    in a four-stroke engine, in m3/s, above 0. Gives a number. Source: definition.
    """
    not_negative("air_flow", air_flow, "kg/s")
    positive("density", density, "kg/m3")
    positive("swept_flow", swept_flow, "L/min")
    return air_flow / (density * swept_flow)
