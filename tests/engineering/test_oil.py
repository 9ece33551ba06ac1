"""Oil, held against textbook orifices, the fluids library, ASTM D341 and SAE J300."""

from __future__ import annotations

import math

import fluids
import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.engineering.oil import OIL_GRADES, orifice_flow, share_of_pump, slope_of_viscosity, viscosity_at
from tests.engineering.quantities import BAR, CELSIUS, GALLON, INCH, LITRE, MINUTE, MM, MM2_S, MPA_S, PSI
from tests.engineering.worked import Published, Range

ESPOSITO = "Esposito, Fluid Power with Applications, example 8.4, in FOSSEE's textbook companion"
FLUIDS = "ISO 5167 with the coefficient of Reader-Harris and Gallagher, as fluids works it out"
D341 = "ASTM D341, a worked sheet with T = t + 273"
WALTHER = "ASTM D341, worked out with T = t + 273.15"
GALLON_A_MINUTE, LITRE_A_MINUTE = GALLON / MINUTE, LITRE / MINUTE
VG100 = {
    "first_viscosity": 100e-6,
    "first_temperature": 40 + CELSIUS,
    "second_viscosity": 11 * MM2_S,
    "second_temperature": 100 + CELSIUS,
}


def mass_through_orifice_in_pipe(
    pipe: float, diameter: float, before: float, after: float, density: float, viscosity: float
) -> float:
    """The coefficients of the standard, for how the jet narrows and (k = 1.33) stretches, and the flow of mass."""
    stretch = fluids.flow_meter.orifice_expansibility(pipe, diameter, before, after, 1.33)
    wide = stretch / math.sqrt(1 - (diameter / pipe) ** 4)
    flow = 1.0
    for _ in range(20):
        standard = fluids.flow_meter.C_Reader_Harris_Gallagher(pipe, diameter, density, viscosity, flow, taps="D")
        flow = orifice_flow(diameter, before - after, density, standard * wide) * density
    return flow


PUBLISHED = [
    Published("o01", orifice_flow, {"diameter": 1 * INCH, "pressure_drop": 100 * PSI, "density": 900.0,
        "coefficient": 0.8}, 252.0, GALLON_A_MINUTE, f"{ESPOSITO}: 252 by the rounded factor 38.1", "published",
        within=1.0),
    Published("o02", orifice_flow, {"diameter": 0.0254, "pressure_drop": 689475.73, "density": 900.0,
        "coefficient": 0.8}, 252.0, GALLON_A_MINUTE, ESPOSITO, "published", within=1.6),
    Published("o03", mass_through_orifice_in_pipe, {"pipe": 0.07366, "diameter": 0.05, "before": 200000.0,
        "after": 183000.0, "density": 999.1, "viscosity": 0.0011}, 7.70233803573, 1.0, FLUIDS, "published",
        share=1e-06, formula="orifice_flow"),
    Published("o04", orifice_flow, {"diameter": 1.5 * MM, "pressure_drop": 3 * BAR, "density": 850.0,
        "coefficient": 0.75}, 2.11276, LITRE_A_MINUTE, "Bernoulli, worked out", "worked out", share=1e-05),
    Published("o19", viscosity_at, {"temperature": 70 + CELSIUS, "first_viscosity": 100 * MM2_S,
        "first_temperature": 40 + CELSIUS, "second_viscosity": 11 * MM2_S, "second_temperature": 100 + CELSIUS},
        27.0174, MM2_S, WALTHER, "worked out", share=0.0001),
    Published("o20", viscosity_at, {"temperature": 130 + CELSIUS, "first_viscosity": 100 * MM2_S,
        "first_temperature": 40 + CELSIUS, "second_viscosity": 11 * MM2_S, "second_temperature": 100 + CELSIUS},
        5.7487, MM2_S, WALTHER, "worked out", share=0.0001),
    Published("o23", slope_of_viscosity, {"first_viscosity": 32 * MM2_S, "first_temperature": 313.0,
        "second_viscosity": 5.4 * MM2_S, "second_temperature": 373.0}, 3.7449, 1.0, D341, "published", within=5e-05),
    Published("o25", viscosity_at, {"temperature": 353.0, "first_viscosity": 32 * MM2_S, "first_temperature": 313.0,
        "second_viscosity": 5.4 * MM2_S, "second_temperature": 373.0}, 8.5, MM2_S, D341, "published", within=0.05),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_oil_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


@pytest.mark.parametrize(
    ("id", "grade", "least", "below", "sheared"),
    [
        ("o07", "20", 6.9, 9.3, 2.6),
        ("o08", "30", 9.3, 12.5, 2.9),
        ("o09", "40", 12.5, 16.3, 3.5),
        ("o10", "50", 16.3, 21.9, 3.7),
    ],
)
def test_grades_are_those_of_the_standard(id: str, grade: str, least: float, below: float, sheared: float) -> None:
    """SAE J300, 2015 (published): mm2/s at 100 C, tolerance 0.05, and mPa s at 150 C under high shear."""
    found = OIL_GRADES[grade]
    assert found.least / MM2_S == pytest.approx(least, abs=0.05), id
    assert found.below / MM2_S == pytest.approx(below), id
    assert found.least_sheared / MPA_S == pytest.approx(sheared), id


RANGES = [
    Range(
        orifice_flow,
        {"diameter": 1.5e-3, "pressure_drop": 3e5, "density": 850.0, "coefficient": 0.75},
        ("diameter > 0", "pressure_drop >= 0", "density > 0", "coefficient > 0", "coefficient <= 1"),
    ),
    Range(
        share_of_pump,
        {"jets": 5.0, "jet_flow": 4e-5, "pump_flow": 7e-4},
        ("jets >= 0", "jet_flow >= 0", "pump_flow > 0"),
    ),
    Range(
        slope_of_viscosity,
        {**VG100},
        (
            "first_viscosity <= 1e-2",
            "second_viscosity >= 2e-6",
            "second_viscosity < 100e-6",
            "first_temperature >= 230",
            "second_temperature > 313.15",
            "second_temperature <= 480",
        ),
    ),
    Range(viscosity_at, {"temperature": 373.15, **VG100}, ("first_temperature >= 230",)),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


def test_the_temperature_asked_for_is_one_of_an_engine() -> None:
    """At either end the oil below still is an oil: the one for frost is thin, the one for heat thick."""
    thin = {
        "first_viscosity": 8e-6,
        "first_temperature": 313.0,
        "second_viscosity": 2.5e-6,
        "second_temperature": 373.0,
    }
    thick = {"first_viscosity": 5e-4, "first_temperature": 373.0, "second_viscosity": 5e-5, "second_temperature": 433.0}
    Range(viscosity_at, {"temperature": 300.0, **thin}, ("temperature >= 230",)).holds()
    Range(viscosity_at, {"temperature": 420.0, **thick}, ("temperature <= 480",)).holds()


@pytest.mark.parametrize(("temperature", "hundred"), [(230.0, 11e-6), (480.0, 5e-6)])
def test_a_viscosity_beyond_the_formula_is_refused(temperature: float, hundred: float) -> None:
    """VG 100 is grease at -43 C; an oil of 5 mm2/s at 100 C is at 207 C thinner than the constant 0.7 is good for."""
    changed = {"temperature": temperature, "second_viscosity": hundred}
    refused = RANGES[3].refuses_because("viscosity", changed)
    assert refused.wanted == "at least 2 mm2/s and at most 10000 mm2/s"


@pytest.mark.parametrize("viscosity", [2e-6, 1e-2])
def test_a_viscosity_at_the_end_of_the_formula_is_still_given(viscosity: float) -> None:
    ends = {
        "first_viscosity": 9.9e-3,
        "first_temperature": 280.0,
        "second_viscosity": 2.1e-6,
        "second_temperature": 400.0,
    }
    lowest, highest = 230.0, 480.0
    slope = slope_of_viscosity(**ends)
    double = math.log10(math.log10(viscosity * 1e6 + 0.7))
    start = math.log10(math.log10(ends["first_viscosity"] * 1e6 + 0.7))
    temperature = 280.0 * 10 ** ((start - double) / slope)
    assert lowest < temperature < highest
    inward = temperature * (1 + (1e-6 if viscosity > 1e-3 else -1e-6))
    assert viscosity_at(inward, **ends) == pytest.approx(viscosity, rel=1e-3)


@given(st.floats(240.0, 420.0), st.floats(0.5, 20.0))
def test_hotter_oil_is_thinner_and_runs_through_the_points_known(temperature: float, hotter: float) -> None:
    oil = {
        "first_viscosity": 60e-6,
        "first_temperature": 313.15,
        "second_viscosity": 9e-6,
        "second_temperature": 373.15,
    }
    if temperature > 270:
        assert viscosity_at(temperature + hotter, **oil) < viscosity_at(temperature, **oil)
    assert viscosity_at(313.15, **oil) == pytest.approx(60e-6)
    assert viscosity_at(373.15, **oil) == pytest.approx(9e-6)


@given(st.floats(0.5e-3, 5e-3), st.floats(1e-5, 1e-3), st.floats(1.0, 8.0))
def test_a_larger_jet_never_lowers_its_share(diameter: float, larger: float, jets: float) -> None:
    oil = {"pressure_drop": 3 * BAR, "density": 850.0, "coefficient": 0.75}
    shares = [
        share_of_pump(jets, orifice_flow(size, **oil), 45 * LITRE_A_MINUTE) for size in (diameter, diameter + larger)
    ]
    assert shares[1] > shares[0]


def test_five_jets_by_hand_take_under_a_quarter_of_the_large_pump() -> None:
    """5 x 2.113 = 10.56 of 45 L/min: 23.5 %; of the small pump's 32 it is 33.0 %."""
    jet = orifice_flow(1.5 * MM, 3 * BAR, 850.0, 0.75)
    assert round(100 * share_of_pump(5.0, jet, 45 * LITRE_A_MINUTE), 1) == 23.5
    assert round(100 * share_of_pump(5.0, jet, 32 * LITRE_A_MINUTE), 1) == 33.0


@given(st.floats(1e4, 1e7), st.floats(700.0, 1100.0))
def test_the_jet_has_the_speed_that_its_pressure_gives(pressure: float, density: float) -> None:
    """Bernoulli: half the density times the speed squared is the pressure."""
    speed = orifice_flow(2 * MM, pressure, density, 1.0) / (math.pi * MM**2)
    assert density * speed**2 / 2 == pytest.approx(pressure)
