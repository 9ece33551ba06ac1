"""Thick cylinders and fits, held against textbook examples and against equilibrium."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from configurator.engineering.cylinders import (
    bore_growth_under_pressure,
    force_to_press_out,
    hoop_in_sleeve,
    hoop_stress,
    interference_for_fit,
    interference_when_hot,
    pressure_for_hoop,
    pressure_of_fit,
    radial_stress,
)
from tests.engineering.quantities import GPA, KN, MM, MPA
from tests.engineering.worked import Published, Range

BORESI = "Boresi and Schmidt, Advanced Mechanics of Materials, in FOSSEE's textbook companion, example"
UGURAL = "Ugural and Fenster, Advanced Strength and Applied Elasticity, in FOSSEE's textbook companion, example"
SHAFT = "steel shaft in a cast iron disc: problem published, answer worked out (102.4 kN from memory)"


def hoop_with_residual(residual: float, **wall: float) -> float:
    """A shrunk cylinder under pressure: the two hoop stresses add up."""
    return residual + hoop_stress(**wall)


def bore_radius_growth(**wall: float) -> float:
    """What the book gives: of the radius."""
    return bore_growth_under_pressure(**wall) / 2


def pressure_of_warm_fit(interference: float, rise: float, expansions: tuple[float, float], **fit: float) -> float:
    """Less interference when warm, and the pressure that it leaves."""
    left = interference_when_hot(interference, fit["interface"], *expansions, rise)
    return pressure_of_fit(left, **fit)


PUBLISHED = [
    Published("l01", hoop_stress, {"pressure_gauge": 300 * MPA, "inner": 20 * MM, "outer": 100 * MM, "at": 20 * MM},
        325.0, MPA, f"{BORESI} 11.1", "published", within=0.01),
    Published("l02", hoop_stress, {"pressure_gauge": 300 * MPA, "inner": 20 * MM, "outer": 100 * MM, "at": 50 * MM},
        62.5, MPA, f"{BORESI} 11.1", "published", within=0.01),
    Published("l03", radial_stress, {"pressure_gauge": 300 * MPA, "inner": 20 * MM, "outer": 100 * MM, "at": 50 * MM},
        -37.5, MPA, f"{BORESI} 11.1", "published", within=0.01),
    Published("l04", bore_radius_growth, {"pressure_gauge": 150 * MPA, "inner": 200 * MM, "outer": 800 * MM,
        "modulus": 72 * GPA, "poisson": 0.33}, 0.3, MM, f"{BORESI} 11.2", "published", within=0.005,
        formula="bore_growth_under_pressure"),
    Published("l05", pressure_of_fit, {"interference": 0.2 * MM, "inner": 300 * MM, "interface": 400 * MM,
        "outer": 500 * MM, "sleeve_modulus": 200 * GPA, "sleeve_poisson": 0.3, "hub_modulus": 200 * GPA,
        "hub_poisson": 0.3}, 12.3, MPA, f"{UGURAL} 8.3 (its line with 0.3076 MPa has a stray division by 8)",
        "published", within=0.05),
    Published("l06", hoop_stress, {"pressure_gauge": 12.3 * MPA, "inner": 400 * MM, "outer": 500 * MM, "at": 400 * MM},
        56.03, MPA, f"{UGURAL} 8.3", "published", within=0.01),
    Published("l07", hoop_in_sleeve, {"fit_pressure": 12.3 * MPA, "inner": 300 * MM, "interface": 400 * MM}, -56.23,
        MPA, f"{UGURAL} 8.3", "published", within=0.01),
    Published("l09", hoop_in_sleeve, {"fit_pressure": 188.97 * MPA, "inner": 20 * MM, "interface": 50 * MM}, -449.92,
        MPA, f"{BORESI} 11.3", "published", within=0.05),
    Published("l10", hoop_with_residual, {"residual": -449.92 * MPA, "pressure_gauge": 300 * MPA, "inner": 20 * MM,
        "outer": 100 * MM, "at": 20 * MM}, -124.92, MPA, f"{BORESI} 11.3", "published", within=0.01,
        formula="hoop_stress"),
    Published("l12", pressure_for_hoop, {"stress": 30 * MPA, "inner": 100 * MM, "outer": 250 * MM}, 21.72, MPA, SHAFT,
        "worked out", within=0.005),
    Published("l13", interference_for_fit, {"fit_pressure": 21.724 * MPA, "inner": 50 * MM, "interface": 100 * MM,
        "outer": 250 * MM, "sleeve_modulus": 210 * GPA, "sleeve_poisson": 0.3, "hub_modulus": 70 * GPA,
        "hub_poisson": 0.25}, 0.03238, 2*MM, f"{SHAFT}; the book's is radial", "worked out", within=2e-05),
    Published("l14", force_to_press_out, {"fit_pressure": 21.724 * MPA, "interface": 100 * MM, "length": 100 * MM,
        "friction": 0.15}, 102.37, KN, SHAFT, "worked out", within=0.05),
    Published("l16", pressure_of_warm_fit, {"interference": 0.08 * MM, "rise": 40.0, "expansions": (1.14e-05,
        2.36e-05), "inner": 100 * MM, "interface": 106 * MM, "outer": 130 * MM, "sleeve_modulus": 110 * GPA,
        "sleeve_poisson": 0.26, "hub_modulus": 69 * GPA, "hub_poisson": 0.33}, 1.1566, MPA,
        "iron sleeve in aluminium, 40 K: both terms of the fit matter", "worked out", share=0.001,
        formula="pressure_of_fit"),
    Published("l17", pressure_for_hoop, {"stress": 250 * MPA, "inner": 300 * MM, "outer": 400 * MM}, 70.0, MPA,
        f"{UGURAL} 8.1", "published", within=0.01),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_cylinders_agree_with_what_is_published(value: Published) -> None:
    value.holds()


WALL = {"pressure_gauge": 1e7, "inner": 0.08, "outer": 0.1}
OF_WALL = ("pressure_gauge >= 0", "inner > 0", "inner < 0.1", "outer > 0.08")
METALS = {"sleeve_modulus": 1.1e11, "sleeve_poisson": 0.26, "hub_modulus": 6.9e10, "hub_poisson": 0.33}
FIT = {"inner": 0.1, "interface": 0.106, "outer": 0.13, **METALS}
OF_FIT = (
    "inner >= 0",
    "interface > 0.1",
    "outer > 0.106",
    "sleeve_modulus > 0",
    "sleeve_poisson >= 0",
    "sleeve_poisson < 0.5",
    "hub_modulus > 0",
    "hub_poisson >= 0",
    "hub_poisson < 0.5",
)
RANGES = [
    Range(hoop_stress, {**WALL, "at": 0.09}, ("pressure_gauge >= 0", "at >= 0.08", "at <= 0.1")),
    Range(radial_stress, {**WALL, "at": 0.09}, ("pressure_gauge >= 0", "at >= 0.08", "at <= 0.1")),
    Range(
        pressure_for_hoop, {"stress": 3e7, "inner": 0.08, "outer": 0.1}, ("stress >= 0", "inner > 0", "outer > 0.08")
    ),
    Range(
        bore_growth_under_pressure,
        {**WALL, "modulus": 1e11, "poisson": 0.3},
        ("pressure_gauge >= 0", "inner > 0", "outer > 0.08", "modulus > 0", "poisson >= 0", "poisson < 0.5"),
    ),
    Range(interference_for_fit, {"fit_pressure": 1e6, **FIT}, ("fit_pressure >= 0", *OF_FIT)),
    Range(pressure_of_fit, {"interference": 1e-4, **FIT}, ("interference >= 0", *OF_FIT)),
    Range(
        interference_when_hot,
        {"interference": 1e-4, "interface": 0.1, "sleeve_expansion": 11e-6, "hub_expansion": 23e-6, "rise": 80.0},
        (
            "interference >= 0",
            "interface > 0",
            "sleeve_expansion >= 0",
            "sleeve_expansion <= 100e-6",
            "hub_expansion >= 0",
            "hub_expansion <= 100e-6",
            "rise >= -300",
            "rise <= 500",
        ),
    ),
    Range(
        hoop_in_sleeve,
        {"fit_pressure": 1e6, "inner": 0.1, "interface": 0.106},
        ("fit_pressure >= 0", "inner > 0", "interface > 0.1"),
    ),
    Range(
        force_to_press_out,
        {"fit_pressure": 1e6, "interface": 0.1, "length": 0.1, "friction": 0.1},
        ("fit_pressure >= 0", "interface > 0", "length > 0", "friction >= 0", "friction <= 1"),
    ),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


@pytest.mark.parametrize("range", RANGES[:2], ids=str)
def test_a_wall_has_an_inside_and_an_outside(range: Range) -> None:
    range.refuses("inner", 0.0)
    assert range.refuses("outer", 0.08).wanted == "more than 80 mm"


WALLS = st.tuples(st.floats(0.05, 0.2), st.floats(1.02, 5.0), st.floats(0.0, 1.0))


@given(WALLS)
def test_the_wall_is_in_balance(wall: tuple[float, float, float]) -> None:
    """Half a cylinder: the hoop stress over both walls carries the pressure on the bore; so does every ring."""
    inner, ratio, share = wall
    outer, p = inner * ratio, 1e7
    carried = 2 * quad(lambda r: hoop_stress(p, inner, outer, min(max(2 * r, inner), outer)), inner / 2, outer / 2)[0]
    assert carried == pytest.approx(p * inner, rel=1e-6)
    at = inner + share * (outer - inner)
    assert hoop_stress(p, inner, outer, at) + radial_stress(p, inner, outer, at) == pytest.approx(
        2 * p * inner**2 / (outer**2 - inner**2), rel=1e-6
    )
    assert radial_stress(p, inner, outer, inner) == pytest.approx(-p)
    assert radial_stress(p, inner, outer, outer) == 0


@given(WALLS)
def test_the_thin_wall_reads_too_low_at_the_bore(wall: tuple[float, float, float]) -> None:
    inner, ratio, _ = wall
    outer = inner * ratio
    assert hoop_stress(1e7, inner, outer, inner) > 1e7 * inner / (outer - inner)


@given(WALLS, st.floats(1e5, 1e8))
def test_the_pressure_for_a_hoop_gives_that_hoop(wall: tuple[float, float, float], stress: float) -> None:
    inner, outer = wall[0], wall[0] * wall[1]
    assert hoop_stress(pressure_for_hoop(stress, inner, outer), inner, outer, inner) == pytest.approx(stress)


@given(WALLS, st.floats(0.0, 0.49))
def test_a_bore_opens_by_the_strain_at_its_skin(wall: tuple[float, float, float], poisson: float) -> None:
    """Hooke's law with the stress along a closed cylinder: strain = (hoop - v (radial + along)) / E."""
    inner, outer, p, modulus = wall[0], wall[0] * wall[1], 1e7, 7e10
    along = p * inner**2 / (outer**2 - inner**2)
    strain = (hoop_stress(p, inner, outer, inner) - poisson * (-p + along)) / modulus
    assert bore_growth_under_pressure(p, inner, outer, modulus, poisson) == pytest.approx(inner * strain)


def fit_by_displacements(interference: float, inner: float, interface: float, outer: float, **metal: float) -> float:
    """Independent: u = A r + B / r in sleeve and hub (plane stress), and four conditions as a system of equations."""
    a, b, c = inner / 2, interface / 2, outer / 2

    def stress(modulus: float, poisson: float, r: float) -> list[float]:
        return [modulus / (1 - poisson), -modulus / (1 + poisson) / r**2]

    sleeve = metal["sleeve_modulus"], metal["sleeve_poisson"]
    hub = metal["hub_modulus"], metal["hub_poisson"]
    rows = np.array([
        [*stress(*sleeve, a), 0.0, 0.0],
        [0.0, 0.0, *stress(*hub, c)],
        [*stress(*sleeve, b), *(-x for x in stress(*hub, b))],
        [-b, -1 / b, b, 1 / b],
    ])  # fmt: skip
    scale = np.abs(rows).max(axis=1)
    first, second = np.linalg.solve(rows / scale[:, None], np.array([0.0, 0.0, 0.0, interference / 2]) / scale)[:2]
    return -float(np.dot(stress(*sleeve, b), [first, second]))


@given(WALLS, WALLS)
def test_a_fit_presses_as_two_bodies_that_must_meet(
    one: tuple[float, float, float], other: tuple[float, float, float]
) -> None:
    inner = one[0]
    interface = inner * one[1]
    fit = {"inner": inner, "interface": interface, "outer": interface * other[1], **METALS}
    pressed = pressure_of_fit(1e-4, **fit)
    assert pressed == pytest.approx(fit_by_displacements(1e-4, **fit), rel=1e-5)
    assert interference_for_fit(pressed, **fit) == pytest.approx(1e-4)
    assert hoop_in_sleeve(pressed, inner, interface) == pytest.approx(
        -pressed * 2 / (1 - (inner / interface) ** 2), rel=1e-9
    )


@given(st.floats(0.0, 2e-4), st.floats(0.0, 200.0), st.floats(0.1, 50.0))
def test_hotter_never_tightens_an_iron_liner_in_aluminium(interference: float, rise: float, hotter: float) -> None:
    left = [interference_when_hot(interference, 0.088, 11.4e-6, 23.6e-6, r) for r in (rise, rise + hotter)]
    assert left[1] < left[0] <= interference


def test_a_plain_liner_of_six_hundredths_by_hand_lets_go_at_ninety_degrees() -> None:
    """88 mm x (23.6 - 11.4) um/m K x 70 K = 0.0752 mm: of 0.060 mm 0.015 are missing, of 0.100 mm 0.025 are left."""
    assert interference_when_hot(0.060 * MM, 88 * MM, 11.4e-6, 23.6e-6, 70.0) == pytest.approx(-0.0151520 * MM)
    assert interference_when_hot(0.100 * MM, 88 * MM, 11.4e-6, 23.6e-6, 70.0) == pytest.approx(0.0248480 * MM)


def test_a_sleeve_is_pushed_out_against_the_friction_on_its_whole_skin() -> None:
    """pi x 0.1 m x 0.2 m x 1 MPa x 0.1 = 6283 N."""
    assert force_to_press_out(1 * MPA, 0.1, 0.2, 0.1) == pytest.approx(2000 * math.pi)
