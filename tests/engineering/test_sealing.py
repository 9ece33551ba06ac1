"""The head joint, held against the flange code, textbook covers and rings measured by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.engineering.sealing import (
    GASKETS,
    clamp_over_gas,
    gas_load,
    load_of_cover_bolts,
    load_to_hold,
    load_to_seat,
    proud_through_gasket,
    proud_under_gasket,
    seating_diameter,
    seating_width,
    squeeze_of_ring,
)
from configurator.engineering.threads import load_at_stress, stress_area
from tests.engineering.quantities import BAR, INCH, INCH2, KN, LBF, MM, MPA, PSI
from tests.engineering.worked import Published, Range

CODE = "ASME Boiler and Pressure Vessel Code VIII-1, appendix 2"
FLANGE = f"{CODE}: a sample flange, rule and sizes published, value worked out"
WENTZELL = "Wentzell, Machine Design, example 6-4, in FOSSEE's textbook companion"


def crush_of_wire(wire: float, groove_depth: float) -> float:
    """The share of a wire that stands proud, and is crushed if it is pressed down to the deck."""
    return proud_under_gasket(wire, groove_depth) / wire


PUBLISHED = [
    Published("s13", seating_width, {"contact_width": 0.75 * INCH}, 0.30619, INCH, FLANGE, "worked out", within=1e-05),
    Published("s14", seating_diameter, {"outer": 17.75 * INCH, "contact_width": 0.75 * INCH}, 17.1376, INCH, FLANGE,
        "worked out", within=0.0001),
    Published("s15", load_to_seat, {"width": 0.30619 * INCH, "diameter": 17.13763 * INCH,
        "seating_stress": 10000 * PSI}, 164849.0, LBF, FLANGE, "worked out", share=0.0001),
    Published("s16", load_to_hold, {"width": 0.30619 * INCH, "diameter": 17.13763 * INCH, "factor": 3.0,
        "pressure_gauge": 500 * PSI}, 164790.0, LBF, FLANGE, "worked out", share=0.0001),
    Published("s17", gas_load, {"pressure_gauge": 12 * MPA, "seal_diameter": 102 * MM}, 98055.4, 1.0,
        "definition of pressure", "worked out", share=1e-06),
    Published("s18", clamp_over_gas, {"studs": 4.0, "preload": 60 * KN, "lifting": 98.055 * KN}, 2.4476, 1.0,
        "definition", "worked out", share=0.0001),
    Published("s19", load_of_cover_bolts, {"bolts": 10.0, "preload": 115884 * LBF,
        "bolt_stiffness": 1.073 * INCH2 * 30000000.0 * PSI / (6 * INCH),
        "flange_stiffness": 50 * INCH2 * 30000000.0 * PSI / (6 * INCH),
        "lifting": 500 * PSI * math.pi / 4 * (20 * INCH) ** 2}, 1186593.41, LBF, WENTZELL, "published", within=1.0),
    Published("s22", squeeze_of_ring, {"section": 3.53 * MM, "gland_depth": 2.82 * MM}, 20.11, 0.01,
        "definition; section of ISO 3601", "worked out", within=0.01),
    Published("s23", crush_of_wire, {"wire": 1.04 * MM, "groove_depth": 0.86 * MM}, 17.308, 0.01,
        "definition; no published standard for receiver grooves", "worked out", within=0.001,
        formula="proud_under_gasket"),
    Published("s24", load_to_hold, {"width": 5 * MM, "diameter": 106 * MM, "factor": 4.75, "pressure_gauge": 12 * MPA},
        295712.0, 1.0, f"{CODE}: copper round a 100 mm bore, worked out", "worked out", share=1e-05),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_sealing_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


@pytest.mark.parametrize(
    ("ids", "gasket", "factor", "stress_psi"),
    [
        ("s01 s02", "flat soft copper or brass", 4.75, 13_000),
        ("s03 s04", "flat stainless", 6.5, 26_000),
        ("s05 s06", "corrugated soft copper or brass", 3.0, 4_500),
        ("s07 s08", "corrugated stainless", 3.75, 7_600),
        ("s09 s10", "flat soft aluminium", 4.0, 8_800),
        ("s11 s12", "spiral wound stainless", 3.0, 10_000),
    ],
)
def test_gasket_factors_are_those_of_the_code(ids: str, gasket: str, factor: float, stress_psi: float) -> None:
    """ASME Boiler and Pressure Vessel Code VIII-1, appendix 2, table 2-5.1 (published, in two reproductions)."""
    assert GASKETS[gasket].factor == factor, ids
    assert GASKETS[gasket].seating_stress / PSI == pytest.approx(stress_psi, abs=0.5), ids


RANGES = [
    Range(gas_load, {"pressure_gauge": 1e7, "seal_diameter": 0.0835}, ("pressure_gauge >= 0", "seal_diameter > 0")),
    Range(clamp_over_gas, {"studs": 4.0, "preload": 4e4, "lifting": 8e4}, ("studs > 0", "preload >= 0", "lifting > 0")),
    Range(
        load_of_cover_bolts,
        {"bolts": 10.0, "preload": 1e5, "bolt_stiffness": 1e9, "flange_stiffness": 1e10, "lifting": 1e5},
        ("bolts >= 1", "preload >= 0", "bolt_stiffness > 0", "flange_stiffness > 0", "lifting >= 0"),
    ),
    Range(seating_width, {"contact_width": 0.01}, ("contact_width > 0",)),
    Range(
        seating_diameter,
        {"outer": 0.1, "contact_width": 0.01},
        ("contact_width > 0", "contact_width < 0.05"),
    ),
    Range(
        load_to_seat,
        {"width": 5e-3, "diameter": 0.1, "seating_stress": 9e7},
        ("width > 0", "diameter > 0", "seating_stress >= 0"),
    ),
    Range(
        load_to_hold,
        {"width": 5e-3, "diameter": 0.1, "factor": 3.0, "pressure_gauge": 1e7},
        ("width > 0", "diameter > 0", "factor >= 0", "pressure_gauge >= 0"),
    ),
    Range(squeeze_of_ring, {"section": 3.5e-3, "gland_depth": 2.8e-3}, ("gland_depth > 0", "gland_depth <= 3.5e-3")),
    Range(
        proud_through_gasket,
        {"ring_height": 3.2e-3, "groove_depth": 2e-3, "gasket_thickness": 1.1e-3},
        ("ring_height > 0", "groove_depth >= 0", "gasket_thickness > 0"),
    ),
    Range(proud_under_gasket, {"wire": 1e-3, "groove_depth": 9e-4}, ("wire > 0", "groove_depth >= 0")),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


def test_a_gasket_and_a_ring_have_a_size() -> None:
    RANGES[4].refuses("outer", 0.0)
    RANGES[7].refuses("section", 0.0)


@given(st.floats(0.5e-3, 0.04))
def test_a_narrow_face_seats_in_its_middle_and_a_wide_one_farther_out(width: float) -> None:
    """The code works in inches: b0 up to a quarter inch is b itself, and the two branches meet there."""
    basic, found = width / 2, seating_width(width)
    if basic <= 0.25 * INCH:
        assert found == basic
        assert seating_diameter(0.2, width) == pytest.approx(0.2 - width)
    else:
        assert found / INCH == pytest.approx(0.5 * math.sqrt(basic / INCH))
        assert found < basic


def test_the_two_branches_of_the_width_meet_at_a_quarter_inch() -> None:
    assert seating_width(0.5 * INCH) == 0.25 * INCH
    assert seating_width(0.5 * INCH * (1 + 1e-9)) == pytest.approx(0.25 * INCH)
    assert seating_width(0.508 * INCH) == pytest.approx(0.5 * math.sqrt(0.254) * INCH)
    assert seating_width(1.0 * INCH) == pytest.approx(0.5 * math.sqrt(0.5) * INCH)


@pytest.mark.parametrize(("stud", "nominal", "low"), [("M11", 2.19, 1.64), ("M12", 3.43, 2.58)])
def test_studs_by_hand_at_150_bar(stud: str, nominal: float, low: float) -> None:
    """83.5 mm at 150 bar: 82.1 kN. Four M11 class 10.9 at 0.75 x 830 MPa: 44.99 kN each; M12 at 0.675 x 1240: 70.53."""
    gas = gas_load(150 * BAR, 83.5 * MM)
    assert round(gas / KN, 1) == 82.1
    area = {"M11": stress_area(11 * MM, 1.5 * MM), "M12": stress_area(12 * MM, 1.75 * MM)}[stud]
    preload = load_at_stress(area, {"M11": 830 * MPA, "M12": 0.9 * 1240 * MPA}[stud], 0.75)
    assert round(preload / KN, 2) == {"M11": 44.99, "M12": 70.53}[stud]
    assert round(clamp_over_gas(4.0, preload, gas), 2) == nominal
    assert round(clamp_over_gas(4.0, 0.75 * preload, gas), 2) == low


@given(st.floats(1.0, 20.0), st.floats(1e3, 1e6), st.floats(1e8, 1e10), st.floats(1e8, 1e11), st.floats(0.0, 1e6))
def test_cover_bolts_share_the_load_as_springs_side_by_side(
    bolts: float, preload: float, bolt: float, flange: float, lifting: float
) -> None:
    """The joint opens by x = P / (n kb + kf); the bolts stretch by it, the flange eases by it."""
    opened = lifting / (bolts * bolt + flange)
    found = load_of_cover_bolts(bolts, preload, bolt, flange, lifting)
    assert found == pytest.approx(bolts * (preload + bolt * opened))


def test_rings_through_and_under_a_gasket_are_two_designs() -> None:
    """By hand: 3.20 - 2.03 - 1.10 = 0.07 mm proud; by a gasket of 1.30 it never touches. A wire: 1.04 - 0.86."""
    assert proud_through_gasket(3.20 * MM, 2.03 * MM, 1.10 * MM) == pytest.approx(0.07 * MM)
    assert proud_through_gasket(3.20 * MM, 2.03 * MM, 1.30 * MM) == pytest.approx(-0.13 * MM)
    assert proud_under_gasket(1.04 * MM, 0.86 * MM) == pytest.approx(0.18 * MM)


@given(st.floats(0.0, 3e7), st.floats(1e4, 1e7), st.floats(0.05, 0.15))
def test_the_code_wants_more_than_the_gas_alone(pressure: float, more: float, diameter: float) -> None:
    wanted = load_to_hold(5e-3, diameter, 4.75, pressure + more)
    assert wanted > gas_load(pressure + more, diameter) > gas_load(pressure, diameter)
    assert load_to_hold(5e-3, diameter, 0.0, pressure) == gas_load(pressure, diameter)
