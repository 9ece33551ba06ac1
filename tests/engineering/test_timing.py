"""The timing belt under a higher deck, held against its own geometry. No published values: worked by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from configurator.engineering.timing import belt_length, cam_lag_of_deck, path_added_by_deck
from tests.engineering.quantities import DEGREE, MM
from tests.engineering.worked import Published, Range

HAND = "geometry, by hand"

PUBLISHED = [
    Published("equal", belt_length, {"centre_distance": 0.4, "crank_teeth": 20.0, "cam_teeth": 20.0, "pitch": 8 * MM},
        960.0, MM, f"{HAND}: two runs of 400 mm and 20 teeth of 8 mm", "worked out", within=1e-9),
    Published("handbook", belt_length, {"centre_distance": 0.4, "crank_teeth": 20.0, "cam_teeth": 40.0,
        "pitch": 8 * MM}, 1041.621, MM, "handbook approximation 2 C + pi/2 (D + d) + (D - d)^2 / (4 C), from memory",
        "worked out", within=0.01),
    Published("path", path_added_by_deck, {"deck_rise": 8 * MM}, 16.0, MM, HAND, "worked out", within=1e-9),
    Published("lag", cam_lag_of_deck, {"deck_rise": 8 * MM, "cam_teeth": 40.0, "pitch": 8 * MM}, 9.0, DEGREE,
        f"{HAND}: 8 / (40 x 8) x 360; 18 of the crank", "worked out", within=1e-9),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_timing_agrees_with_the_hand(value: Published) -> None:
    value.holds()


RANGES = [
    Range(
        belt_length,
        {"centre_distance": 0.4, "crank_teeth": 20.0, "cam_teeth": 40.0, "pitch": 8e-3},
        ("crank_teeth >= 6", "cam_teeth >= 20", "pitch > 0"),
    ),
    Range(path_added_by_deck, {"deck_rise": 8e-3}, ("deck_rise >= 0",)),
    Range(
        cam_lag_of_deck,
        {"deck_rise": 8e-3, "cam_teeth": 40.0, "pitch": 8e-3},
        ("deck_rise >= 0", "cam_teeth >= 6", "pitch > 0"),
    ),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


def test_pulleys_that_touch_are_refused() -> None:
    """Radii 20 x 8 / (2 pi) = 25.46 mm and 50.93 mm: 76.39 mm between centres."""
    touching = 60 * 8 * MM / (2 * math.pi)
    assert RANGES[0].refuses("centre_distance", touching * (1 - 1e-9)).wanted == "more than 76.3944 mm"
    assert belt_length(touching * (1 + 1e-9), 20.0, 40.0, 8 * MM) > 0


@given(st.floats(0.2, 0.8), st.floats(10.0, 30.0), st.floats(0.0, 30.0))
def test_the_belt_is_as_long_as_the_hull_of_its_pulleys(distance: float, crank: float, more: float) -> None:
    """Independent: the length round a convex body is the integral of its support function over a turn."""
    pitch = 8 * MM
    small, large = crank * pitch / (2 * math.pi), (crank + more) * pitch / (2 * math.pi)

    def support(angle: float) -> float:
        return max(small, large + distance * math.cos(angle))

    turn = math.acos((small - large) / distance)  # where the belt leaves one pulley for the other
    round_hull = quad(support, 0, turn)[0] + quad(support, turn, math.pi)[0]
    assert belt_length(distance, crank, crank + more, pitch) == pytest.approx(2 * round_hull, rel=1e-6)


@given(st.floats(0.25, 0.6), st.floats(1e-3, 0.02))
def test_twice_the_rise_is_a_little_more_than_the_belt_needs(distance: float, rise: float) -> None:
    """Pulleys of 20 and 40 teeth of 8 mm: the runs lean by a few degrees, and 1 % is the most that it makes."""
    longer = belt_length(distance + rise, 20.0, 40.0, 8 * MM) - belt_length(distance, 20.0, 40.0, 8 * MM)
    assert 0.99 * path_added_by_deck(rise) < longer < path_added_by_deck(rise)
