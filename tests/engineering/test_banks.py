"""The banks of a V engine, held against vectors. No published values: worked by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.engineering.banks import height_of_banks, spread_of_banks
from tests.engineering.quantities import DEGREE, MM
from tests.engineering.worked import Published, Range

HAND = "geometry, by hand: a 90 degree V, 10 mm of deck"

PUBLISHED = [
    Published("spread", spread_of_banks, {"deck_rise": 10 * MM, "half_angle": 45 * DEGREE}, 14.14, MM, HAND,
        "worked out", within=0.005),
    Published("height", height_of_banks, {"deck_rise": 10 * MM, "half_angle": 45 * DEGREE}, 7.07, MM, HAND,
        "worked out", within=0.005),
    Published("spread/60", spread_of_banks, {"deck_rise": 10 * MM, "half_angle": 30 * DEGREE}, 10.0, MM,
        "geometry, by hand: a 60 degree V", "worked out", within=1e-9),
    Published("height/60", height_of_banks, {"deck_rise": 10 * MM, "half_angle": 30 * DEGREE}, 8.660254, MM,
        "geometry, by hand: a 60 degree V", "worked out", within=1e-6),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_banks_agree_with_the_hand(value: Published) -> None:
    value.holds()


BOUNDS = ("deck_rise >= 0", "half_angle >= 0", f"half_angle <= {math.pi / 2!r}")
RANGES = [
    Range(spread_of_banks, {"deck_rise": 0.01, "half_angle": 0.7}, BOUNDS),
    Range(height_of_banks, {"deck_rise": 0.01, "half_angle": 0.7}, BOUNDS),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


@given(st.floats(0.0, 0.02), st.floats(0.0, 90.0))
def test_the_heads_move_as_vectors_along_their_bores(rise: float, degrees: float) -> None:
    half = math.radians(degrees)
    left, right = (rise * np.array([side * math.sin(half), math.cos(half)]) for side in (-1, 1))
    assert spread_of_banks(rise, half) == pytest.approx(float((right - left)[0]), abs=1e-15)
    assert height_of_banks(rise, half) == pytest.approx(float(right[1]), abs=1e-15)
