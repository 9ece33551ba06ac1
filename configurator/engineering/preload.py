"""Preload in service: what heat adds to it, and what share of a load outside a bolt feels."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, positive, within
from configurator.engineering.expansion import check_warming


def hot_gain_of_preload(
    stud_area: float,
    member_area: float,
    stud_modulus: float,
    member_modulus: float,
    stud_expansion: float,
    member_expansion: float,
    rise: float,
) -> float:
    """What warming adds to a stud's preload where what it clamps is of one metal: (a' - a) dT / (1/(A E) + 1/(A' E')).

    areas in m2 and moduli in Pa, above 0 (the clamped area is a guess: some 30 % of uncertainty); expansions in 1/K, 0
    to 100e-6; rise in K, -300 to 500, taken alike for both. Gives N, below 0 where the stud grows more.
    Source: compatibility of two elastic bars; the form is that of aircraft structures manuals.
    """
    positive("stud_area", stud_area, "mm2")
    positive("member_area", member_area, "mm2")
    positive("stud_modulus", stud_modulus, "GPa")
    positive("member_modulus", member_modulus, "GPa")
    check_warming(stud_expansion, rise, "stud_expansion")
    check_warming(member_expansion, rise, "member_expansion")
    give = 1 / (stud_area * stud_modulus) + 1 / (member_area * member_modulus)
    return (member_expansion - stud_expansion) * rise / give


def hot_gain_through_head(
    stud_area: float,
    stud_modulus: float,
    stud_expansion: float,
    head_length: float,
    head_area: float,
    head_modulus: float,
    head_expansion: float,
    block_length: float,
    block_area: float,
    block_modulus: float,
    block_expansion: float,
    rise: float,
) -> float:
    """The same where a stud goes through a head of one metal into a block of another: an iron head on aluminium.

    lengths in m (of the grip in head and block), areas in m2, moduli in Pa, all above 0; expansions in 1/K, 0 to
    100e-6; rise in K, -300 to 500, alike for all. Gives N. Source: as `hot_gain_of_preload`, the grip summed by length.
    """
    grown, give = 0.0, 0.0
    for part, length, area, modulus, expansion in (
        ("head", head_length, head_area, head_modulus, head_expansion),
        ("block", block_length, block_area, block_modulus, block_expansion),
        ("stud", head_length + block_length, stud_area, stud_modulus, stud_expansion),
    ):
        positive(f"{part}_length", length, "mm")
        positive(f"{part}_area", area, "mm2")
        positive(f"{part}_modulus", modulus, "GPa")
        check_warming(expansion, rise, f"{part}_expansion")
        grown += length * expansion * rise * (-1 if part == "stud" else 1)
        give += length / (area * modulus)
    return grown / give


def share_of_load(diameter: float, length: float, modulus: float, member_length: float, member_modulus: float) -> float:
    """The share C of a load outside that a bolt feels, the rest only easing what it clamps: kb / (kb + km).

    kb = pi/4 d^2 E/L; km = pi E' d / (2 ln(5 (l + 0.5 d)/(l + 2.5 d))), cones of 45 degrees under head and nut.
    diameter, length of the bolt, member_length in m, moduli in Pa, all above 0. Gives a number. Source: Shigley,
    Mechanical Engineering Design, simplified frusta; Jindal, Machine Design, chapter 9.
    """
    positive("diameter", diameter, "mm")
    positive("length", length, "mm")
    positive("modulus", modulus, "GPa")
    positive("member_length", member_length, "mm")
    positive("member_modulus", member_modulus, "GPa")
    bolt = math.pi / 4 * diameter**2 * modulus / length
    cones = 5 * (member_length + 0.5 * diameter) / (member_length + 2.5 * diameter)
    members = math.pi * member_modulus * diameter / (2 * math.log(cones))
    return bolt / (bolt + members)


def stress_under_load(preload: float, load_share: float, load: float, area: float) -> float:
    """The stress in a bolt under a load outside, while the joint stays closed: (F + C P) / A.

    preload and load a bolt in N, from 0; load_share C from 0 to 1 (see `share_of_load`); area in m2, above 0. Gives Pa.
    Source: Shigley, Mechanical Engineering Design; Jindal, Machine Design, chapter 9.
    """
    not_negative("preload", preload, "N")
    within("load_share", load_share, "", least=0.0, most=1.0)
    not_negative("load", load, "N")
    positive("area", area, "mm2")
    return (preload + load_share * load) / area


def bolts_for_load(
    load_share: float, load: float, safety: float, area: float, proof_stress: float, preload_share: float
) -> float:
    """How many bolts hold a load within their proof stress: C P n / (A Sp (1 - share)), to be rounded up.

    load_share C from 0 to 1; the whole load in N, from 0; safety from 1; area in m2 and proof_stress in Pa, above 0;
    preload_share of the proof stress, from 0, below 1. Gives a number. Source: Jindal, Machine Design, chapter 31.
    """
    within("load_share", load_share, "", least=0.0, most=1.0)
    not_negative("load", load, "N")
    within("safety", safety, "", least=1.0)
    positive("area", area, "mm2")
    positive("proof_stress", proof_stress, "MPa")
    within("preload_share", preload_share, "", least=0.0, below=1.0)
    return load_share * load * safety / (area * proof_stress * (1 - preload_share))
