"""Water and heat, held against textbook heat balances and the property library that the coolant's figures come from."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from configurator.engineering.cooling import (
    flow_for_heat,
    heat_of_flow,
    heat_to_water,
    mass_flow_for_heat,
    mass_for_time,
    rise_of_coolant,
    speed_in_lines,
    time_to_heat,
)
from configurator.engineering.materials import DENSITY, HEAT, find_property
from tests.engineering.quantities import BAR, CELSIUS, HOUR, KJ, KW, LITRE, MINUTE, MM
from tests.engineering.worked import Published, Range

RAJPUT = "Rajput, A Textbook of Internal Combustion Engines, example 15.1, in FOSSEE's textbook companion"
MATHUR = "Mathur and Sharma, Internal Combustion Engine, example 15.1, in FOSSEE's textbook companion"
GUPTA = "Gupta, Fundamentals of Internal Combustion Engines, example 16.10, in FOSSEE's textbook companion"
LITRE_A_MINUTE = LITRE / MINUTE
GLYCOL = "ethylene glycol 50 % by mass in water"


def flow_for_power(power: float, efficiency: float, share: float, specific_heat: float, rise: float) -> float:
    """From the power to the coolant's flow of mass."""
    return mass_flow_for_heat(heat_to_water(power, efficiency, share), specific_heat, rise)


PUBLISHED = [
    Published("c01", flow_for_power, {"power": 90 * KW, "efficiency": 0.25, "share": 0.32, "specific_heat": 4187.0,
        "rise": 27.0}, 3668.5, 1/HOUR, f"{RAJPUT}, petrol", "published", within=0.01, formula="heat_to_water"),
    Published("c02", flow_for_power, {"power": 90 * KW, "efficiency": 0.3, "share": 0.28, "specific_heat": 4187.0,
        "rise": 27.0}, 2674.95, 1/HOUR, f"{RAJPUT}, diesel", "published", within=0.01, formula="heat_to_water"),
    Published("c03", flow_for_power, {"power": 100 * KW, "efficiency": 0.31, "share": 0.26, "specific_heat": 4186.8,
        "rise": 30.0}, 2403.9, 1/HOUR, f"{MATHUR}, diesel", "published", within=0.1, formula="mass_flow_for_heat"),
    Published("c05", heat_of_flow, {"mass_flow": 80 / (30 * MINUTE), "specific_heat": 4180.0, "rise": 30.0}, 334.0,
        KJ/MINUTE, GUPTA, "published", within=0.5),
    Published("c11", flow_for_heat, {"heat": 300 * KW, "density": 1019.043, "specific_heat": 3615.75, "rise": 10.0},
        488.519, LITRE_A_MINUTE, "heat balance with the properties of 50 % glycol at 90 C by CoolProp", "worked out",
        share=0.0001),
    Published("c12", time_to_heat, {"mass": 60.0, "specific_heat": 896.0, "rise": 80.0, "heat": 40 * KW}, 107.52, 1.0,
        "heat balance of one lump, worked out", "worked out", share=1e-06),
    Published("line", speed_in_lines, {"flow": 240 * LITRE_A_MINUTE, "line_bore": 26 * MM, "lines": 2.0}, 3.767, 1.0,
        "240 L/min in two lines of 26 mm, by hand", "worked out", within=0.001),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_cooling_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


@pytest.mark.parametrize(
    ("id", "fluid", "property", "letter", "celsius", "figure"),
    [
        ("c06", "Water", DENSITY, "D", 90, 965.355),
        ("c07", "Water", HEAT, "C", 90, 4204.99),
        ("c08", "INCOMP::MEG[0.5]", DENSITY, "D", 90, 1019.043),
        ("c09", "INCOMP::MEG[0.5]", HEAT, "C", 90, 3615.75),
        ("c10", "INCOMP::MEG[0.5]", HEAT, "C", 20, 3312.04),
    ],
)
def test_coolants_are_as_the_property_library_has_them(
    id: str, fluid: str, property: str, letter: str, celsius: int, figure: float
) -> None:
    """CoolProp (published library: IAPWS-95 water; mixture model of glycol), at 2 bar, within 0.01 %."""
    kept = find_property(
        "water" if fluid == "Water" else GLYCOL, property, f"{celsius} C" + ", 2 bar absolute" * (fluid == "Water")
    )
    assert kept.value == figure, id
    assert PropsSI(letter, "T", celsius + CELSIUS, "P", 2 * BAR, fluid) == pytest.approx(figure, rel=1e-4), id


RANGES = [
    Range(
        heat_to_water,
        {"power": 1e5, "efficiency": 0.28, "share": 0.25},
        ("power >= 0", "efficiency > 0", "efficiency <= 1", "share >= 0", "share <= 1"),
    ),
    Range(
        mass_flow_for_heat,
        {"heat": 1e5, "specific_heat": 3600.0, "rise": 10.0},
        ("heat >= 0", "specific_heat > 0", "rise > 0", "rise <= 100"),
    ),
    Range(
        flow_for_heat,
        {"heat": 1e5, "density": 1020.0, "specific_heat": 3600.0, "rise": 10.0},
        ("heat >= 0", "density > 0", "specific_heat > 0", "rise > 0", "rise <= 100"),
    ),
    Range(
        rise_of_coolant,
        {"heat": 1e5, "flow": 4e-3, "density": 1020.0, "specific_heat": 3600.0},
        ("heat >= 0", "flow > 0", "density > 0", "specific_heat > 0"),
    ),
    Range(
        heat_of_flow,
        {"mass_flow": 1.0, "specific_heat": 3600.0, "rise": 10.0},
        ("mass_flow >= 0", "specific_heat > 0", "rise >= 0", "rise <= 100"),
    ),
    Range(
        speed_in_lines, {"flow": 4e-3, "line_bore": 0.026, "lines": 2.0}, ("flow >= 0", "line_bore > 0", "lines >= 1")
    ),
    Range(
        time_to_heat,
        {"mass": 41.0, "specific_heat": 896.0, "rise": 80.0, "heat": 2e5},
        ("mass > 0", "specific_heat > 0", "rise >= 0", "rise <= 500", "heat > 0"),
    ),
    Range(
        mass_for_time,
        {"time": 12.0, "heat": 2e5, "specific_heat": 896.0, "rise": 80.0},
        ("time >= 0", "heat >= 0", "specific_heat > 0", "rise > 0", "rise <= 500"),
    ),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


@given(st.floats(1e3, 1e6), st.floats(1.0, 50.0), st.floats(900.0, 1100.0), st.floats(3000.0, 4300.0))
def test_flow_rise_and_heat_tell_the_same(heat: float, rise: float, density: float, specific_heat: float) -> None:
    flow = flow_for_heat(heat, density, specific_heat, rise)
    assert rise_of_coolant(heat, flow, density, specific_heat) == pytest.approx(rise)
    assert heat_of_flow(flow * density, specific_heat, rise) == pytest.approx(heat)


@given(st.floats(1.0, 60.0), st.floats(0.1, 60.0), st.floats(1e4, 1e6))
def test_a_longer_pass_never_needs_less_metal(time: float, longer: float, heat: float) -> None:
    assert mass_for_time(time + longer, heat, 896.0, 80.0) > mass_for_time(time, heat, 896.0, 80.0)
    assert time_to_heat(mass_for_time(time, heat, 896.0, 80.0), 896.0, 80.0, heat) == pytest.approx(time)


def test_a_solid_block_by_hand_lasts_fourteen_seconds_at_450_kilowatts() -> None:
    """450 / 0.28 x 0.25 x 0.5 = 200.9 kW into 41 kg of 896 J/kg K over 80 K: 14.6 s."""
    heat = 0.5 * heat_to_water(450 * KW, 0.28, 0.25)
    assert round(heat / KW, 1) == 200.9
    assert round(time_to_heat(41.0, 896.0, 80.0, heat), 1) == 14.6


def test_the_lump_warms_as_its_differential_equation_says() -> None:
    """m c dT/dt = Q, solved step by step by scipy to where it has warmed by 80 K."""

    def warmed(_: float, rise: list[float]) -> float:
        return rise[0] - 80.0

    warmed.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(lambda _, rise: [40e3 / (60 * 896.0)], (0, 1000), [0.0], events=warmed)
    assert time_to_heat(60.0, 896.0, 80.0, 40e3) == pytest.approx(float(run.t_events[0][0]))


@given(st.floats(1.0, 8.0), st.floats(1e-3, 0.05))
def test_more_lines_run_slower(lines: float, flow: float) -> None:
    assert speed_in_lines(flow, 26 * MM, lines) == pytest.approx(speed_in_lines(flow, 26 * MM, 1.0) / lines)
