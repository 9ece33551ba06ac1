"""Preload in service, held against textbook examples, and against springs solved as a system of equations."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from configurator.engineering.preload import (
    bolts_for_load,
    hot_gain_of_preload,
    hot_gain_through_head,
    share_of_load,
    stress_under_load,
)
from tests.engineering.quantities import GPA, KN, MM, MM2, MPA
from tests.engineering.worked import Published, Range

JINDAL = "Jindal, Machine Design, in FOSSEE's textbook companion, example"
STUD = {"stud_area": 92.07 * MM2, "member_area": 1200 * MM2, "stud_modulus": 207 * GPA, "member_modulus": 69 * GPA}


def stress_in_the_middle_of_cones(preload_stress: float, load: float, area: float, **joint: float) -> float:
    """Example 9-4 in one: the share of the load by the cones, then the stress that comes on top."""
    return stress_under_load(preload_stress * area, share_of_load(**joint), load, area)


PUBLISHED = [
    Published("q06", stress_under_load, {"preload": 120 * KN, "load_share": 0.35, "load": 30 * KN, "area": 245 * MM2},
        532.65, MPA, f"{JINDAL} 9-6", "published", within=0.01),
    Published("q24", hot_gain_of_preload, {"stud_area": 92.07 * MM2, "member_area": 1200 * MM2,
        "stud_modulus": 207 * GPA, "member_modulus": 69 * GPA, "stud_expansion": 1.23e-05,
        "member_expansion": 2.36e-05, "rise": 80.0}, 14005.2, 1.0,
        "two elastic bars; the form stands in aircraft structures manuals", "worked out", share=0.0001),
    Published("q27", stress_in_the_middle_of_cones, {"preload_stress": 105 * MPA, "load": 20 * KN, "area": 245 * MM2,
        "diameter": 20 * MM, "length": 84 * MM, "modulus": 205 * GPA, "member_length": 80 * MM,
        "member_modulus": 105 * GPA}, 123.28, MPA, f"{JINDAL} 9-4", "published", within=0.01, formula="share_of_load"),
    Published("s21", bolts_for_load, {"load_share": 0.322, "load": 200 * KN, "safety": 2.0, "area": 192 * MM2,
        "proof_stress": 600 * MPA, "preload_share": 0.75}, 4.47, 1.0, f"{JINDAL} 31-1", "published", within=0.01),
]  # fmt: skip


@pytest.mark.parametrize("value", PUBLISHED, ids=str)
def test_preload_agrees_with_what_is_published(value: Published) -> None:
    value.holds()


LAYERS = {
    "stud_area": 9e-5, "stud_modulus": 2.07e11, "stud_expansion": 12.3e-6,
    "head_length": 0.06, "head_area": 1e-3, "head_modulus": 9e10, "head_expansion": 11.4e-6,
    "block_length": 0.09, "block_area": 1.2e-3, "block_modulus": 6.9e10, "block_expansion": 23.6e-6, "rise": 80.0,
}  # fmt: skip
RANGES = [
    Range(
        hot_gain_of_preload,
        {**STUD, "stud_expansion": 12.3e-6, "member_expansion": 23.6e-6, "rise": 80.0},
        (
            "stud_area > 0",
            "member_area > 0",
            "stud_modulus > 0",
            "member_modulus > 0",
            "stud_expansion >= 0",
            "stud_expansion <= 100e-6",
            "member_expansion >= 0",
            "member_expansion <= 100e-6",
            "rise >= -300",
            "rise <= 500",
        ),
    ),
    Range(
        hot_gain_through_head,
        LAYERS,
        (
            *(f"{name} > 0" for name in LAYERS if not name.endswith(("expansion", "rise"))),
            *(f"{name} >= 0" for name in LAYERS if name.endswith("expansion")),
            *(f"{name} <= 100e-6" for name in LAYERS if name.endswith("expansion")),
            "rise >= -300",
            "rise <= 500",
        ),
    ),
    Range(
        share_of_load,
        {"diameter": 20e-3, "length": 84e-3, "modulus": 2e11, "member_length": 80e-3, "member_modulus": 1e11},
        ("diameter > 0", "length > 0", "modulus > 0", "member_length > 0", "member_modulus > 0"),
    ),
    Range(
        stress_under_load,
        {"preload": 1e5, "load_share": 0.3, "load": 1e4, "area": 1e-4},
        ("preload >= 0", "load_share >= 0", "load_share <= 1", "load >= 0", "area > 0"),
    ),
    Range(
        bolts_for_load,
        {"load_share": 0.3, "load": 1e5, "safety": 2.0, "area": 1e-4, "proof_stress": 6e8, "preload_share": 0.75},
        (
            "load_share >= 0",
            "load_share <= 1",
            "load >= 0",
            "safety >= 1",
            "area > 0",
            "proof_stress > 0",
            "preload_share >= 0",
            "preload_share < 1",
        ),
    ),
]


@pytest.mark.parametrize("range", RANGES, ids=str)
def test_what_is_out_of_range_is_refused_by_name(range: Range) -> None:
    range.holds()


def springs(**joint: float) -> float:
    """Independent: equilibrium and lengths of stud, head and block as one system of linear equations.

    Unknown are the force F (pull in the stud, push in the others) and the stretch of each part.
    """
    stud = joint["head_length"] + joint["block_length"]
    rise, rows, right = joint["rise"], [], []
    for column, (part, length, sign) in enumerate(
        (("stud", stud, 1), ("head", joint["head_length"], -1), ("block", joint["block_length"], -1)), 1
    ):
        row = [0.0] * 4
        row[0] = -sign * length / (joint[f"{part}_area"] * joint[f"{part}_modulus"])
        row[column] = 1.0
        rows.append(row)
        right.append(length * joint[f"{part}_expansion"] * rise)
    rows.append([0.0, 1.0, -1.0, -1.0])  # the stud stays as long as what it goes through
    right.append(0.0)
    return float(np.linalg.solve(np.array(rows), np.array(right))[0])


@given(
    st.floats(0.01, 0.2), st.floats(0.01, 0.2), st.floats(5e-6, 25e-6), st.floats(5e-6, 25e-6), st.floats(-60.0, 200.0)
)
def test_the_hot_gain_is_that_of_springs_that_grow(
    head: float, block: float, head_expansion: float, block_expansion: float, rise: float
) -> None:
    joint = {
        **LAYERS,
        "head_length": head,
        "block_length": block,
        "head_expansion": head_expansion,
        "block_expansion": block_expansion,
        "rise": rise,
    }
    assert hot_gain_through_head(**joint) == pytest.approx(springs(**joint), rel=1e-6, abs=1e-3)


@given(st.floats(0.01, 0.2), st.floats(0.01, 0.2))
def test_a_head_of_the_blocks_metal_is_as_if_there_were_one_member(head: float, block: float) -> None:
    one = hot_gain_of_preload(**STUD, stud_expansion=12.3e-6, member_expansion=23.6e-6, rise=80.0)
    both = hot_gain_through_head(
        STUD["stud_area"], STUD["stud_modulus"], 12.3e-6,
        head, STUD["member_area"], STUD["member_modulus"], 23.6e-6,
        block, STUD["member_area"], STUD["member_modulus"], 23.6e-6, 80.0,
    )  # fmt: skip
    assert both == pytest.approx(one)


@given(st.floats(0.0, 300.0), st.floats(0.1, 100.0))
def test_hotter_aluminium_never_slackens_a_steel_stud(rise: float, hotter: float) -> None:
    gain = [
        hot_gain_of_preload(**STUD, stud_expansion=12.3e-6, member_expansion=23.6e-6, rise=r)
        for r in (rise, rise + hotter)
    ]
    assert gain[1] > gain[0]


@given(st.floats(5e-3, 25e-3), st.floats(1.0, 10.0))
def test_the_members_give_as_cones_added_up_slice_by_slice(diameter: float, grip: float) -> None:
    """Two cones of 45 degrees from a washer of 1.5 d, each slice a ring; the bolt a plain bar."""
    length, bolt, clamped = grip * diameter, 2e11, 1e11
    ring = lambda x: 1 / (clamped * math.pi / 4 * ((1.5 * diameter + 2 * x) ** 2 - diameter**2))  # noqa: E731
    give = 2 * quad(ring, 0, length / 2)[0]
    stiff = bolt * math.pi / 4 * diameter**2 / length
    assert share_of_load(diameter, length, bolt, length, clamped) == pytest.approx(stiff / (stiff + 1 / give), rel=1e-6)


@given(st.floats(0.0, 1.0), st.floats(0.0, 0.9), st.floats(1.0, 3.0), st.floats(1e3, 1e6))
def test_as_many_bolts_as_wanted_are_just_at_their_proof_stress(
    share: float, preload: float, safety: float, load: float
) -> None:
    area, proof = 1e-4, 8e8
    bolts = bolts_for_load(share, load, safety, area, proof, preload)
    if bolts > 1e-6:
        assert stress_under_load(preload * proof * area, share, safety * load / bolts, area) == pytest.approx(proof)
