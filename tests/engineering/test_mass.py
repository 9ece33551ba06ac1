"""Mass, held against definitions and the balance of an axle."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.engineering.mass import front_load_of_mass, front_share_after, mass_of_chips, mass_of_volume
from configurator.engineering.materials import DENSITY, find_property
from tests.engineering.quantities import CM3, MM
from tests.engineering.worked import Published, Range

DERIVED = "definition, worked out"
AXLES = "balance of moments, worked out"

PUBLISHED = [
    Published("m01", mass_of_volume, {"volume": 20000 * CM3, "density": 2700.0}, 54.0, 1.0, DERIVED, "worked out",
        share=1e-09),
    Published("m03", front_load_of_mass, {"added": -45.0, "behind_front_axle": 0.2, "wheelbase": 2.7}, -41.66667, 1.0,
        AXLES, "worked out", share=1e-06),
    Published("m04", front_share_after, {"vehicle": 1500.0, "front_share": 0.55, "added": -45.0,
        "behind_front_axle": 0.2, "wheelbase": 2.7}, 0.538373, 1.0, AXLES, "worked out", share=1e-06),
    Published("m05", mass_of_chips, {"stock_length": 450 * MM, "stock_width": 520 * MM, "stock_height": 480 * MM,
        "density": 2700.0, "left": 62.0}, 241.264, 1.0, DERIVED, "worked out", share=1e-06),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_mass_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


def test_aluminium_is_three_eighths_of_iron() -> None:
    """m02 (worked out from published densities): 2.7 / 7.2 = 0.375 for the same volume; a block's walls are thicker."""
    aluminium, iron = (find_property(metal, DENSITY).value for metal in ("aluminium 6061", "grey iron G3000"))
    assert mass_of_volume(1.0, aluminium) / mass_of_volume(1.0, iron) == pytest.approx(0.375, rel=1e-9)


AXLE = {"added": -45.0, "behind_front_axle": 0.2, "wheelbase": 2.7}
RANGES = [
    Range(mass_of_volume, {"volume": 0.02, "density": 2700.0}, ("volume >= 0", "density > 0")),
    Range(
        mass_of_chips,
        {"stock_length": 0.5, "stock_width": 0.5, "stock_height": 0.4, "density": 1000.0, "left": 60.0},
        ("left >= 0", "left <= 100"),
    ),
    Range(front_load_of_mass, AXLE, ("wheelbase > 0",)),
    Range(
        front_share_after,
        {"vehicle": 1500.0, "front_share": 0.55, **AXLE},
        ("front_share >= 0", "front_share <= 1", "added > -1500", "wheelbase > 0"),
    ),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


@pytest.mark.parametrize("argument", ["stock_length", "stock_width", "stock_height", "density"])
def test_a_billet_has_a_size_and_a_mass(argument: str) -> None:
    RANGES[1].refuses(argument, 0.0)


def test_a_vehicle_has_a_mass() -> None:
    RANGES[3].refuses("vehicle", 0.0)


@given(
    st.floats(500.0, 3000.0), st.floats(0.3, 0.7), st.floats(-200.0, 200.0), st.floats(-1.0, 4.0), st.floats(2.0, 4.0)
)
def test_the_axles_carry_what_they_carried_and_what_was_added(
    vehicle: float, share: float, added: float, behind: float, wheelbase: float
) -> None:
    """Forces and moments about the front axle as two equations: the loads of both axles."""
    mass = vehicle + added
    moment = vehicle * (1 - share) * wheelbase + added * behind
    front, _ = np.linalg.solve(np.array([[1.0, 1.0], [0.0, wheelbase]]), np.array([mass, moment]))
    assert front_share_after(vehicle, share, added, behind, wheelbase) == pytest.approx(front / mass)
    assert front_load_of_mass(added, behind, wheelbase) == pytest.approx(front - vehicle * share, abs=1e-9)


@given(st.floats(0.1, 1.0), st.floats(0.1, 1.0), st.floats(0.1, 1.0), st.floats(0.0, 1.0))
def test_chips_and_block_are_the_billet(length: float, width: float, height: float, share: float) -> None:
    billet = mass_of_volume(length * width * height, 2700.0)
    assert mass_of_chips(length, width, height, 2700.0, share * billet) == pytest.approx((1 - share) * billet, abs=1e-9)
