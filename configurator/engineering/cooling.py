"""Water and heat: what the coolant carries, how fast it runs, and how long a block without coolant lasts."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, positive, within


def heat_to_water(power: float, efficiency: float, share: float) -> float:
    """The heat that goes into the coolant: a share of the fuel's, P / eta x share.

    power in W, from 0; brake efficiency above 0, to 1; share of the fuel's heat from 0 to 1 (published heat balances
    have 0.25 to 0.32). Gives W. Source: Rajput, A Textbook of Internal Combustion Engines, chapter 15.
    """
    not_negative("power", power, "kW")
    within("efficiency", efficiency, "", above=0.0, most=1.0)
    within("share", share, "", least=0.0, most=1.0)
    return power / efficiency * share


def mass_flow_for_heat(heat: float, specific_heat: float, rise: float) -> float:
    """The flow of coolant that carries a heat at a rise: Q / (c dT).

    heat in W, from 0; specific_heat in J/kg K, above 0; rise from inlet to outlet in K, above 0, to 100. Gives kg/s.
    Source: as `heat_to_water`.
    """
    not_negative("heat", heat, "kW")
    positive("specific_heat", specific_heat, "J/kg K")
    within("rise", rise, "K", above=0.0, most=100.0)
    return heat / (specific_heat * rise)


def flow_for_heat(heat: float, density: float, specific_heat: float, rise: float) -> float:
    """The same as a volume flow: Q / (rho c dT).

    density in kg/m3, above 0; the rest as for `mass_flow_for_heat`. Gives m3/s. Source: as `heat_to_water`.
    """
    positive("density", density, "kg/m3")
    return mass_flow_for_heat(heat, specific_heat, rise) / density


def rise_of_coolant(heat: float, flow: float, density: float, specific_heat: float) -> float:
    """How much the coolant warms on its way through the engine: Q / (V rho c).

    heat in W, from 0; flow in m3/s, density in kg/m3, specific_heat in J/kg K, above 0. Gives K.
    Source: as `heat_to_water`.
    """
    not_negative("heat", heat, "kW")
    positive("flow", flow, "L/min")
    positive("density", density, "kg/m3")
    positive("specific_heat", specific_heat, "J/kg K")
    return heat / (flow * density * specific_heat)


def heat_of_flow(mass_flow: float, specific_heat: float, rise: float) -> float:
    """The heat that a flow takes up in warming: m c dT.

    mass_flow in kg/s, from 0; specific_heat in J/kg K, above 0; rise in K, 0 to 100. Gives W.
    Source: Gupta, Fundamentals of Internal Combustion Engines, chapter 16.
    """
    not_negative("mass_flow", mass_flow, "kg/s")
    positive("specific_heat", specific_heat, "J/kg K")
    within("rise", rise, "K", least=0.0, most=100.0)
    return mass_flow * specific_heat * rise


def speed_in_lines(flow: float, line_bore: float, lines: float) -> float:
    """How fast coolant runs in lines side by side: flow over their areas.

    flow of all in m3/s, from 0; line_bore in m, above 0; lines a number, from 1. Gives m/s. Source: definition.
    """
    not_negative("flow", flow, "L/min")
    positive("line_bore", line_bore, "mm")
    within("lines", lines, "", least=1.0)
    return flow / (lines * math.pi / 4 * line_bore**2)


def time_to_heat(mass: float, specific_heat: float, rise: float, heat: float) -> float:
    """How long a block without coolant takes to warm, as one lump: m c dT / Q.

    mass in kg, specific_heat in J/kg K, above 0; rise allowed in K, 0 to 500; heat into the block in W, above 0.
    Gives s. Hot spots round the exhaust are hidden: 40 % of uncertainty (common practice). Source: heat balance of
    one lump.
    """
    positive("mass", mass, "kg")
    positive("specific_heat", specific_heat, "J/kg K")
    within("rise", rise, "K", least=0.0, most=500.0)
    positive("heat", heat, "kW")
    return mass * specific_heat * rise / heat


def mass_for_time(time: float, heat: float, specific_heat: float, rise: float) -> float:
    """How much metal takes up a heat for a time within a rise: t Q / (c dT), `time_to_heat` turned round.

    time in s and heat in W, from 0; specific_heat in J/kg K, above 0; rise allowed in K, above 0, to 500. Gives kg.
    Source: as `time_to_heat`.
    """
    not_negative("time", time, "s")
    not_negative("heat", heat, "kW")
    positive("specific_heat", specific_heat, "J/kg K")
    within("rise", rise, "K", above=0.0, most=500.0)
    return time * heat / (specific_heat * rise)
