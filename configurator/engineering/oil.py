"""Oil: what flows through a jet, and how thin the oil is when hot."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from configurator.engineering.bounds import not_negative, positive, within


class OilGrade(NamedTuple):
    """An engine oil at 100 C: kinematic viscosity from and below, in m2/s; least at high shear, 150 C, in Pa s."""

    least: float
    below: float
    least_sheared: float


OIL_GRADES: Mapping[str, OilGrade] = {
    "20": OilGrade(6.9e-6, 9.3e-6, 2.6e-3),
    "30": OilGrade(9.3e-6, 12.5e-6, 2.9e-3),
    "40": OilGrade(12.5e-6, 16.3e-6, 3.5e-3),
    "50": OilGrade(16.3e-6, 21.9e-6, 3.7e-3),
}
"""Published: SAE J300, 2015. The edition of 1999 begins grade 20 at 5.6 and lets 0W-40 to 10W-40 have 2.9 mPa s."""


def orifice_flow(diameter: float, pressure_drop: float, density: float, coefficient: float) -> float:
    """The flow through a hole or jet: C pi/4 d^2 sqrt(2 dp / rho).

    diameter in m, above 0; pressure_drop across it in Pa, from 0; density in kg/m3, above 0; discharge coefficient
    above 0, to 1. Gives m3/s. The pipe before it is taken to be wide. Source: Bernoulli; Esposito, Fluid Power,
    chapter 8.
    """
    positive("diameter", diameter, "mm")
    not_negative("pressure_drop", pressure_drop, "bar")
    positive("density", density, "kg/m3")
    within("coefficient", coefficient, "", above=0.0, most=1.0)
    return coefficient * math.pi / 4 * diameter**2 * math.sqrt(2 * pressure_drop / density)


def share_of_pump(jets: float, jet_flow: float, pump_flow: float) -> float:
    """The share of the pump's flow that the jets take: n q / Q.

    jets a number, from 0; jet_flow of one and pump_flow at the same speed and heat in m3/s, from 0 and above 0. Gives a
    number. Source: definition; what share is too much is common practice, no source.
    """
    not_negative("jets", jets, "")
    not_negative("jet_flow", jet_flow, "L/min")
    positive("pump_flow", pump_flow, "L/min")
    return jets * jet_flow / pump_flow


def slope_of_viscosity(
    first_viscosity: float, first_temperature: float, second_viscosity: float, second_temperature: float
) -> float:
    """How fast an oil thins with heat, the slope B of log log(v + 0.7) = A - B log T.

    kinematic viscosities in m2/s, from 2e-6 to 1e-2 (2 to 10,000 mm2/s), the first the greater; temperatures in K, the
    second the greater, 230 to 480. Gives a number. Source: ASTM D341; the constant 0.7 holds above 2 mm2/s.
    """
    _check_points(first_viscosity, first_temperature, second_viscosity, second_temperature)
    fall = _twice_log(first_viscosity) - _twice_log(second_viscosity)
    return fall / math.log10(second_temperature / first_temperature)


def viscosity_at(
    temperature: float,
    first_viscosity: float,
    first_temperature: float,
    second_viscosity: float,
    second_temperature: float,
) -> float:
    """The kinematic viscosity of an oil at a temperature from two that are known, usually those at 40 and 100 C.

    temperature in K, 230 to 480; the rest as for `slope_of_viscosity`. Gives m2/s, which must come out from 2e-6 to
    1e-2. Source: ASTM D341.
    """
    within("temperature", temperature, "C", least=230.0, most=480.0)
    slope = slope_of_viscosity(first_viscosity, first_temperature, second_viscosity, second_temperature)
    height = _twice_log(first_viscosity) - slope * math.log10(temperature / first_temperature)
    found = (10 ** (10**height) - 0.7) * 1e-6 if height < 1 else math.inf
    within("viscosity", found, "mm2/s", least=2e-6, most=1e-2)
    return found


def _twice_log(viscosity: float) -> float:
    return math.log10(math.log10(viscosity * 1e6 + 0.7))


def _check_points(
    first_viscosity: float, first_temperature: float, second_viscosity: float, second_temperature: float
) -> None:
    within("first_viscosity", first_viscosity, "mm2/s", most=1e-2)
    within("second_viscosity", second_viscosity, "mm2/s", least=2e-6, below=first_viscosity)
    within("first_temperature", first_temperature, "C", least=230.0)
    within("second_temperature", second_temperature, "C", above=first_temperature, most=480.0)
