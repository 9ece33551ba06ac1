"""Main and rod bearings: clearance cold and hot, load over projected area, and their oil film for information."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, positive, within
from configurator.engineering.expansion import GREATEST_EXPANSION, check_warming, growth_of


def clearance_when_hot(
    cold_clearance: float,
    diameter: float,
    housing_expansion: float,
    housing_rise: float,
    shaft_expansion: float,
    shaft_rise: float,
) -> float:
    """The clearance of a bearing at other temperatures than those at which it was measured: c + D (a dT - a' dT').

    cold_clearance on the diameter in m, from 0; diameter in m, above 0; mean expansions of housing and shaft in 1/K,
    0 to 100e-6; rises in K, -300 to 500, below 0 for a start in frost. Gives m; below 0 it has seized. The shell is
    taken to follow the housing, so that hot this is an upper bound. Source: linear expansion, as
    `expansion.growth_of`.
    """
    not_negative("cold_clearance", cold_clearance, "mm")
    return cold_clearance + _opened(diameter, housing_expansion, housing_rise, shaft_expansion, shaft_rise)


def clearance_when_cold(
    hot_clearance: float,
    diameter: float,
    housing_expansion: float,
    housing_rise: float,
    shaft_expansion: float,
    shaft_rise: float,
) -> float:
    """The clearance to give a bearing cold so that it has one hot: `clearance_when_hot` turned round.

    hot_clearance on the diameter in m, from 0; the rest as for `clearance_when_hot`. Gives m, below 0 where no cold
    clearance is small enough. Source: as `clearance_when_hot`.
    """
    not_negative("hot_clearance", hot_clearance, "mm")
    return hot_clearance - _opened(diameter, housing_expansion, housing_rise, shaft_expansion, shaft_rise)


def rise_to_clearance(
    cold_clearance: float,
    wanted_clearance: float,
    diameter: float,
    housing_expansion: float,
    shaft_expansion: float,
) -> float:
    """The rise, of housing and shaft alike, at which a bearing has a wanted clearance: (c' - c) / (D (a - a')).

    Below 0 it is how much colder a start may be: what is colder is preheated. clearances on the diameter in m, from 0;
    diameter in m, above 0; expansions in 1/K, 0 to 100e-6, the housing's the greater. Gives K.
    Source: as `clearance_when_hot`.
    """
    not_negative("cold_clearance", cold_clearance, "mm")
    not_negative("wanted_clearance", wanted_clearance, "mm")
    positive("diameter", diameter, "mm")
    within("shaft_expansion", shaft_expansion, "um/m K", least=0.0, most=GREATEST_EXPANSION)
    within("housing_expansion", housing_expansion, "um/m K", above=shaft_expansion, most=GREATEST_EXPANSION)
    return (wanted_clearance - cold_clearance) / (diameter * (housing_expansion - shaft_expansion))


def usual_clearance(diameter: float) -> float:
    """The clearance that is often given as a rule of thumb, for metals that expand alike: a thousandth of the diameter.

    diameter in m, above 0. Gives m. Published rules differ by a factor of two. Source: common practice.
    """
    positive("diameter", diameter, "mm")
    return 0.001 * diameter


def load_over_area(load: float, diameter: float, length: float) -> float:
    """The load of a bearing over its projected area: F / (D L).

    load in N, from 0; diameter and length in m, above 0. Gives Pa. Source: definition; Mott, Machine Elements.
    """
    not_negative("load", load, "N")
    positive("diameter", diameter, "mm")
    positive("length", length, "mm")
    return load / (diameter * length)


def friction_without_load(viscosity: float, diameter: float, length: float, speed: float, clearance: float) -> float:
    """The friction force of a bearing that runs in the middle of its oil: mu pi D L v / (c/2), v the surface speed.

    viscosity in Pa s, from 0; diameter, length and clearance on the diameter in m, above 0; speed in rad/s, from 0.
    Gives N. Holds for light loads. Source: Petroff; Faires, Design of Machine Elements, chapter 11.
    """
    not_negative("viscosity", viscosity, "mPa s")
    positive("diameter", diameter, "mm")
    positive("length", length, "mm")
    not_negative("speed", speed, "rpm")
    positive("clearance", clearance, "mm")
    return viscosity * math.pi * diameter * length * (speed * diameter / 2) / (clearance / 2)


def torque_of_force(force: float, diameter: float) -> float:
    """The torque of a friction force at the surface of a shaft: F D / 2.

    force in N, from 0; diameter in m, above 0. Gives N m. Source: definition.
    """
    not_negative("force", force, "N")
    positive("diameter", diameter, "mm")
    return force * diameter / 2


def bearing_number(viscosity: float, speed: float, diameter: float, clearance: float, unit_load: float) -> float:
    """The Sommerfeld number of a bearing, which tells how thick its film is: mu n (r/c)^2 / p, n in turns a second.

    viscosity in Pa s, from 0; speed in rad/s, from 0; diameter and clearance on the diameter in m, above 0; unit_load
    over the projected area in Pa, above 0. Gives a number. Source: Mott, Machine Elements; Shigley, chapter 12.
    """
    not_negative("viscosity", viscosity, "mPa s")
    not_negative("speed", speed, "rpm")
    positive("diameter", diameter, "mm")
    positive("clearance", clearance, "mm")
    positive("unit_load", unit_load, "MPa")
    return viscosity * speed / (2 * math.pi) * (diameter / clearance) ** 2 / unit_load


def viscosity_for_number(number: float, speed: float, diameter: float, clearance: float, unit_load: float) -> float:
    """The viscosity that gives a bearing a Sommerfeld number: S p / (n (r/c)^2).

    number from 0; speed in rad/s, diameter and clearance on the diameter in m, above 0; unit_load in Pa, from 0. Gives
    Pa s. Source: as `bearing_number`; Jindal, Machine Design, chapter 17.
    """
    not_negative("number", number, "")
    positive("speed", speed, "rpm")
    positive("diameter", diameter, "mm")
    positive("clearance", clearance, "mm")
    not_negative("unit_load", unit_load, "MPa")
    return number * unit_load / (speed / (2 * math.pi) * (diameter / clearance) ** 2)


def _opened(
    diameter: float, housing_expansion: float, housing_rise: float, shaft_expansion: float, shaft_rise: float
) -> float:
    positive("diameter", diameter, "mm")
    check_warming(housing_expansion, housing_rise, "housing_expansion", "housing_rise")
    check_warming(shaft_expansion, shaft_rise, "shaft_expansion", "shaft_rise")
    return growth_of(diameter, housing_expansion, housing_rise) - growth_of(diameter, shaft_expansion, shaft_rise)
