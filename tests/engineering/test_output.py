"""Power, torque, fuel and air, held against textbook examples; and one printed error caught by its dimension."""

from __future__ import annotations

import math

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from configurator.dimensions import DENSITY, FLOW, MASS_FLOW, NUMBER
from configurator.engineering.kinematics import swept_volume
from configurator.engineering.oil import orifice_flow
from configurator.engineering.output import (
    air_for_power,
    charge_temperature,
    efficiency_of_fuel,
    filling_of_cylinders,
    fuel_for_power,
    mean_pressure_of_power,
    mean_pressure_of_torque,
    power_of_compressor,
    power_of_torque,
)
from configurator.language import dimension_of, read
from tests.engineering.quantities import (
    BAR,
    CM,
    FOOT,
    HOUR,
    HP,
    INCH3,
    KW,
    LBF,
    LITRE,
    POUND,
    PSI,
    RPM,
)
from tests.engineering.worked import Published, Range

GUPTA = "Gupta, Fundamentals of Internal Combustion Engines, in FOSSEE's textbook companion, example"
MATHUR = "Mathur and Sharma, Internal Combustion Engine, in FOSSEE's textbook companion, example"
RAJPUT = "Rajput, A Textbook of Internal Combustion Engines, example 16.1, in FOSSEE's textbook companion"
DERIVED = "definition, worked out"
KG_KWH = 1 / (KW * HOUR)


def mean_pressure_of_engine(bore: float, stroke: float, cylinders: float, power: float, speed: float) -> float:
    """From the sizes that a book gives."""
    return mean_pressure_of_power(power, swept_volume(bore, stroke, cylinders), speed)


def mean_pressure_at_torque(bore: float, stroke: float, cylinders: float, torque: float) -> float:
    """From the sizes that a book gives."""
    return mean_pressure_of_torque(torque, swept_volume(bore, stroke, cylinders))


def power_of_supercharger(
    power: float,
    consumption: float,
    air_fuel_ratio: float,
    temperature: float,
    pressure_ratio: float,
    efficiency: float,
    mechanical_efficiency: float,
    specific_heat: float,
    exponent: float,
) -> float:
    """Example 16.1 in one: the engine takes more air as the charge gets denser, and the charge gets warmer."""
    warm = charge_temperature(temperature, pressure_ratio, efficiency, exponent)
    denser = pressure_ratio * temperature / warm
    air = denser * air_for_power(power, consumption, air_fuel_ratio)
    return power_of_compressor(air, specific_heat, warm - temperature, mechanical_efficiency)


def filling_through_orifice(
    coefficient: float, diameter: float, pressure_drop: float, density: float, swept_flow: float
) -> float:
    """Air measured by an orifice before the inlet, over the air that the pistons make room for."""
    air = orifice_flow(diameter, pressure_drop, density, coefficient) * density
    return filling_of_cylinders(air, density, swept_flow)


AIR = {"coefficient": 0.6, "diameter": 7.5 * CM, "pressure_drop": 0.041 * 1000 * 9.81, "density": 101_300 / (287 * 288)}

PUBLISHED = [
    Published("h14", mean_pressure_at_torque, {"torque": 120.0, "bore": 0.09, "stroke": 0.1, "cylinders": 4.0}, 5.93,
        BAR, f"{GUPTA} 16.3", "published", within=0.005, formula="mean_pressure_of_torque"),
    Published("h15", power_of_torque, {"torque": 160 * 0.35, "speed": 3000 * RPM}, 17.593, KW, f"{GUPTA} 16.4",
        "published", within=0.001),
    Published("h16", mean_pressure_of_engine, {"power": 17.593 * KW, "bore": 0.06, "stroke": 0.085, "cylinders": 4.0,
        "speed": 3000 * RPM}, 7.32, BAR, f"{GUPTA} 16.4", "published", within=0.005, formula="mean_pressure_of_power"),
    Published("h17", fuel_for_power, {"fuel_flow": 6.6 * LITRE / HOUR * 780, "power": 17.593 * KW}, 0.293, KG_KWH,
        f"{GUPTA} 16.4", "published", within=0.0005),
    Published("h18", power_of_torque, {"torque": 40 * 9.81 * 0.55, "speed": 4500 * RPM}, 101.7, KW,
        f"{GUPTA} 16.6, with 9.81 m/s2", "published", within=0.05),
    Published("h20", efficiency_of_fuel, {"consumption": 0.4 * KG_KWH, "heating_value": 43000000.0}, 20.9, 0.01,
        f"{MATHUR} 1.4", "published", within=0.05),
    Published("h21", air_for_power, {"power": 35 * KW, "consumption": 0.4 * KG_KWH, "air_fuel_ratio": 14.0}, 196.0,
        1/HOUR, f"{MATHUR} 1.4", "published", within=0.01),
    Published("h22", mean_pressure_of_engine, {"power": 36 * KW, "bore": 0.11, "stroke": 0.13, "cylinders": 4.0,
        "speed": 2250 * RPM}, 3.885, BAR, f"{MATHUR} 18.1", "published", within=0.001,
        formula="mean_pressure_of_power"),
    Published("h23", power_of_supercharger, {"power": 735 * KW, "consumption": 0.35 * KG_KWH, "air_fuel_ratio": 12.8,
        "temperature": 325.0, "pressure_ratio": 1.6, "efficiency": 0.7, "mechanical_efficiency": 0.9,
        "specific_heat": 1005.0, "exponent": 1.4}, 90.47, KW, RAJPUT, "published", within=0.02,
        formula="power_of_compressor"),
    Published("h29", mean_pressure_of_torque, {"torque": FOOT * LBF, "swept": INCH3}, 150.796, PSI, DERIVED,
        "worked out", share=1e-05),
    Published("h30", power_of_torque, {"torque": 800 * FOOT * LBF, "speed": 7000 * RPM}, 1066.24, HP, DERIVED,
        "worked out", share=1e-05),
    Published("o06", filling_through_orifice, {"coefficient": 0.6, "diameter": 7.5 * CM,
        "pressure_drop": 0.041 * 1000 * 9.81, "density": 101300 / (287 * 288), "swept_flow": 0.0926597}, 0.7329, 1.0,
        "the inputs of Mathur and Sharma, example 18.1, divided as they should be; with its 9.81 m/s2", "worked out",
        within=0.0001, formula="filling_of_cylinders"),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_output_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


def test_a_printed_error_is_caught_by_its_dimension() -> None:
    """o05, Mathur and Sharma, example 18.1, in FOSSEE's companion (published): a filling of 0.898.

    It divides a flow of mass by a flow of volume: that is a density, 0.898 kg/m3, and no share of anything.
    """
    kinds = {"air": MASS_FLOW, "swept": FLOW, "outside": DENSITY}
    assert dimension_of(read("air / swept"), kinds.__getitem__) == DENSITY
    assert dimension_of(read("filling_of_cylinders(air, outside, swept)"), kinds.__getitem__) == NUMBER
    flow = orifice_flow(AIR["diameter"], AIR["pressure_drop"], AIR["density"], AIR["coefficient"])
    assert flow * AIR["density"] / 0.0926597 == pytest.approx(0.898, abs=0.001)


def test_horsepower_is_torque_times_speed_over_5252() -> None:
    """u15 (worked out): 33,000 ft lbf a minute are a horsepower."""
    assert HP / power_of_torque(FOOT * LBF, RPM) == pytest.approx(5252.113122, rel=1e-9)


def test_fuel_by_the_pound_and_by_the_gram() -> None:
    """u16 (worked out): 1 lb/hp h is 608.2774 g/kW h."""
    assert fuel_for_power(POUND / HOUR, HP) / (1e-3 * KG_KWH) == pytest.approx(608.2774, rel=1e-6)


RANGES = [
    Range(power_of_torque, {"torque": 100.0, "speed": 300.0}, ("torque >= 0", "speed >= 0")),
    Range(mean_pressure_of_torque, {"torque": 100.0, "swept": 2e-3}, ("torque >= 0", "swept > 0")),
    Range(
        mean_pressure_of_power, {"power": 1e5, "swept": 2e-3, "speed": 700.0}, ("power >= 0", "swept > 0", "speed > 0")
    ),
    Range(fuel_for_power, {"fuel_flow": 0.01, "power": 1e5}, ("fuel_flow >= 0", "power > 0")),
    Range(efficiency_of_fuel, {"consumption": 8e-8, "heating_value": 43e6}, ("consumption > 0", "heating_value > 0")),
    Range(
        air_for_power,
        {"power": 1e5, "consumption": 8e-8, "air_fuel_ratio": 13.0},
        ("power >= 0", "consumption > 0", "air_fuel_ratio > 0"),
    ),
    Range(
        charge_temperature,
        {"inlet_temperature": 300.0, "pressure_ratio": 2.0, "efficiency": 0.7, "exponent": 1.4},
        (
            "inlet_temperature > 0",
            "pressure_ratio >= 1",
            "pressure_ratio <= 10",
            "efficiency > 0",
            "efficiency <= 1",
            "exponent > 1",
            "exponent <= 1.67",
        ),
    ),
    Range(
        power_of_compressor,
        {"air_flow": 0.3, "specific_heat": 1005.0, "rise": 90.0, "mechanical_efficiency": 0.9},
        (
            "air_flow >= 0",
            "specific_heat > 0",
            "rise >= 0",
            "rise <= 500",
            "mechanical_efficiency > 0",
            "mechanical_efficiency <= 1",
        ),
    ),
    Range(
        filling_of_cylinders,
        {"air_flow": 0.1, "density": 1.2, "swept_flow": 0.1},
        ("air_flow >= 0", "density > 0", "swept_flow > 0"),
    ),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


@given(st.floats(1.0, 1000.0), st.floats(1e-4, 1e-2), st.floats(10.0, 1000.0))
def test_torque_and_power_tell_the_same_mean_pressure(torque: float, swept: float, speed: float) -> None:
    """The work of two turns over the volume swept once in them."""
    by_power = mean_pressure_of_power(power_of_torque(torque, speed), swept, speed)
    assert by_power == pytest.approx(mean_pressure_of_torque(torque, swept))
    assert by_power * swept == pytest.approx(torque * 4 * math.pi)


@given(st.floats(1e3, 1e6), st.floats(0.15, 0.45))
def test_the_fuel_of_an_efficiency_gives_it_back(power: float, efficiency: float) -> None:
    heating_value = 43e6
    consumption = fuel_for_power(power / efficiency / heating_value, power)
    assert efficiency_of_fuel(consumption, heating_value) == pytest.approx(efficiency)


@pytest.mark.parametrize("pressure_ratio", [1.2, 2.0, 3.0])
def test_a_perfect_compressor_warms_air_as_real_air_at_one_entropy(pressure_ratio: float) -> None:
    """CoolProp's air (published library): k = 1.4 is right within 0.5 % of the temperature up to 3 to 1."""
    entropy = PropsSI("S", "T", 300.0, "P", 1e5, "Air")
    real = PropsSI("T", "P", pressure_ratio * 1e5, "S", entropy, "Air")
    assert charge_temperature(300.0, pressure_ratio, 1.0, 1.4) == pytest.approx(real, rel=0.005)


@given(st.floats(1.0, 4.0), st.floats(0.5, 0.95))
def test_a_worse_compressor_warms_the_charge_more(pressure_ratio: float, efficiency: float) -> None:
    perfect, worse = (charge_temperature(300.0, pressure_ratio, e, 1.4) - 300.0 for e in (1.0, efficiency))
    assert worse == pytest.approx(perfect / efficiency, abs=1e-9)
