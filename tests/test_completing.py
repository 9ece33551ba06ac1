"""From picks to an answer: what is completed, what is reckoned, and how ways out are found, by example."""

from __future__ import annotations

from decimal import Decimal

from configurator.answering import answer_case
from configurator.enquiry import Enquiry
from tests.cases import case_of
from tests.shops import choice, family_of, figure, number, price, rule, shop_of


def test_an_empty_enquiry_is_possible_and_takes_what_is_usual() -> None:
    shop = shop_of(choice("cooling", "jacketed", "solid", usual="jacketed"), price("base", "9800.00"))
    answer = answer_case(case_of(shop))
    assert answer.enquiry == Enquiry(family_of(shop).id, {})
    assert answer.verdict == "free"
    assert answer.assumed == {"cooling": "jacketed"}
    assert answer.net == Decimal("9800.00")


def test_a_have_is_never_filled_by_likelihood_but_reckoned_and_left_to_settle() -> None:
    shop = shop_of(choice("main_width", "narrow", "wide", asks="have"), price("base", "9800.00"))
    answer = answer_case(case_of(shop))
    assert answer.build is not None
    assert answer.build.reckoned == ("main_width",)
    assert "main_width" in answer.still_to_settle
    assert "main_width" not in answer.assumed


def test_a_usual_option_yields_to_the_best_standing_then_to_the_cheapest() -> None:
    shop = shop_of(
        choice("cooling", "jacketed", "solid"),
        choice("head_work", "none", "close", "weld", "plug", usual="none"),
        rule("solid_needs_closed_holes", when={"cooling": "solid"}, then={"head_work": {"not": ["none"]}}),
        rule("welding_is_signed_for", when={"head_work": "weld"}, then="by_arrangement"),
        price("weld", "1.00", when={"head_work": "weld"}),
        price("close", "420.00", when={"head_work": "close"}),
        price("plug", "380.00", when={"head_work": "plug"}),
    )
    assert answer_case(case_of(shop, {"cooling": "jacketed"})).assumed == {"head_work": "none"}
    assert answer_case(case_of(shop, {"cooling": "solid"})).assumed == {"head_work": "plug"}


def test_a_measured_have_is_never_given_up_but_measured_again_without_a_price() -> None:
    shop = shop_of(
        choice("crank_flange", "five_bolt", "eight_bolt", asks="have"),
        choice("main_width", "narrow", "wide", asks="have"),
        rule("no_such_crank", when={"crank_flange": "five_bolt"}, then={"main_width": "narrow"}),
        price("base", "9800.00"),
    )
    known = {"main_width": "measured"}
    answer = answer_case(case_of(shop, {"crank_flange": "five_bolt", "main_width": "wide"}, known))
    ways = [(dict(way.change), way.kind, way.net) for way in answer.ways_out]
    assert ways == [
        ({"crank_flange": "eight_bolt"}, "only_if", Decimal("9800.00")),
        ({"main_width": "narrow"}, "measure_again", None),
    ]


def test_the_ways_out_of_a_number_are_the_nearest_that_work_to_its_step() -> None:
    shop = shop_of(
        number("bore", [76, 82, 90], "mm"),
        choice("seal", "ring", "sheet"),
        figure("gap", "87.9 mm - bore"),
        rule("groove_gap", when={"seal": "ring"}, figure="gap", free=">= 3.4 mm", by_arrangement=">= 2.9 mm"),
        price("base", "9800.00"),
    )
    answer = answer_case(case_of(shop, {"bore": "88 mm", "seal": "ring"}))
    changes = [(dict(way.change), way.standing) for way in answer.ways_out]
    assert changes == [
        ({"bore": "84 mm"}, "free"),
        ({"seal": "sheet"}, "free"),
        ({"bore": "85 mm"}, "by_arrangement"),
    ]
    limit = answer.conflicts[0].limits[0]
    assert (limit.value, limit.limit, limit.margin) == ("-0.1 mm", "at least 2.9 mm", "-3.0 mm")


def test_a_have_that_only_another_reckoned_one_closes_is_reckoned_too() -> None:
    shop = shop_of(
        choice("bellhousing", "seven_hole", "nine_hole", asks="have"),
        choice("ring_gear", "teeth_128", "teeth_132", asks="have"),
        rule("starter_meets_the_ring", columns=["bellhousing", "ring_gear"], rows=[["seven_hole", "teeth_128"]],
             by_arrangement=[["nine_hole", "teeth_132"]]),
        price("base", "9800.00"),
    )  # fmt: skip
    answer = answer_case(case_of(shop))
    assert answer.build is not None
    assert answer.build.reckoned == ("bellhousing", "ring_gear")
    assert not set(answer.build.reckoned) - set(answer.still_to_settle)
