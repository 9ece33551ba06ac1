"""What is said of an answer, compared as whole sentences over small shops."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from configurator import explain
from configurator.answer import Answer, Check
from configurator.answering import answer_case
from configurator.catalogue.shops import Family, Shop
from configurator.enquiry import Misfit
from tests.cases import case_of
from tests.shops import choice, family_of, figure, number, price, rule, shop_of

BLOCK = shop_of(
    choice(
        "cooling",
        {"id": "jacketed", "label": "Jacketed"},
        {"id": "dry_deck", "label": "Dry deck"},
        {"id": "solid", "label": "Solid"},
        label="Cooling",
        usual="jacketed",
    ),
    choice("use", {"id": "street", "label": "Street"}, {"id": "drag", "label": "Drag"}, label="Use", usual="street"),
    choice("feed", {"id": "none", "label": "None"}, {"id": "kit", "label": "Feed kit"}, label="Feed", usual="none"),
    choice(
        "head",
        {"id": "open", "label": "Open holes, as cast"},
        {"id": "closed", "label": "Closed holes"},
        asks="have",
        label="Head",
        help="Turn it over. Look for round holes.",
    ),
    choice("studs", {"id": "m11", "label": "M11"}, {"id": "m12", "label": "M12"}, label="V belt studs", usual="m11"),
    number("bore", [80, 85, 90], "mm", label="Bore", usual="80 mm"),
    figure("wall", "(94 mm - bore) / 2"),
    rule("solid_is_for_drag", when={"cooling": "solid"}, then={"use": "drag"}, say="Solid is for drag. No road."),
    rule("dry_deck_is_fed", when={"cooling": "dry_deck"}, then={"feed": "kit"}),
    rule("wall_holds", figure="wall", free=">= 5 mm", by_arrangement=">= 4 mm", unit="mm", label="Liner wall"),
    price("base", "9800.00"),
    price("deck", "650.00", when={"cooling": "dry_deck"}),
    price("kit", "260.50", when={"feed": "kit"}),
)
FAMILY = family_of(BLOCK)


def answered(shop: Shop = BLOCK, **picks: str) -> Answer:
    return answer_case(case_of(shop, picks))


@pytest.mark.parametrize(
    ("choice", "option", "said"),
    [
        ("cooling", "dry_deck", "cooling dry deck"),
        ("feed", "none", "no feed"),
        ("feed", "kit", "feed kit"),
        ("head", "open", "head: open holes, as cast"),
        ("studs", "m12", "V belt studs: M12"),
        ("bore", "83 mm", "bore 83 mm"),
    ],
)
def test_a_pick_is_called_by_its_labels(choice: str, option: str, said: str) -> None:
    assert explain.named(FAMILY, choice, option) == said


@pytest.mark.parametrize(
    ("names", "said"),
    [
        ((), ""),
        (("a",), "a"),
        (("a", "b"), "a and b"),
        (("a", "b", "c"), "a, b and c"),
        (("a, as cast", "b"), "a, as cast; and b"),
    ],
)
def test_a_list_stays_a_list_where_its_names_have_commas(names: tuple[str, ...], said: str) -> None:
    assert explain.listed(names) == said


def test_a_no_is_said_with_the_rules_own_words() -> None:
    assert explain.headline(FAMILY, answered(cooling="solid", use="street")) == "No: solid is for drag."


def test_a_question_to_the_caller_is_no_reason() -> None:
    asking = shop_of(
        choice("a", "x", "y"),
        choice("b", "u", "v"),
        rule("r", when={"a": "x"}, then={"b": "u"}, say="Would you look again?"),
        price("base", "1.00"),
    )
    said = explain.headline(family_of(asking), answered(asking, a="x", b="v"))
    assert said == "No: a x does not go with b v."


def test_what_is_left_out_is_missed_by_its_name() -> None:
    answer = answered(cooling="dry_deck", feed="none")
    assert explain.headline(FAMILY, answer) == "No: cooling dry deck does not go without feed."


def test_a_pick_that_no_block_has_cannot_be_built() -> None:
    assert explain.headline(FAMILY, answered(bore="90 mm")) == "No: bore 90 mm cannot be built."


def test_a_yes_names_its_price_and_its_days() -> None:
    assert explain.headline(FAMILY, answered()) == "Yes: it can be built for 9,800.00 EUR net in 0 working days."


def test_a_block_by_arrangement_waits_for_a_signature() -> None:
    said = explain.headline(FAMILY, answered(bore="85 mm"))
    assert said.startswith("By arrangement: ")
    assert said.endswith(", once an engineer has signed for it.")


def test_what_was_not_checked_is_never_a_plain_yes() -> None:
    answer = answered()._replace(not_checked=("wall_holds",))
    assert explain.headline(FAMILY, answer).endswith(", as far as it was checked.")


def test_a_search_that_met_its_cap_is_neither_yes_nor_no() -> None:
    assert explain.headline(FAMILY, answered()._replace(verdict="not_known")).startswith("Not known: ")


def test_the_caller_is_offered_the_first_two_ways_out_with_their_prices() -> None:
    said = explain.spoken(FAMILY, answered(cooling="solid", use="street"))
    assert said == (
        "Solid is for drag. No road. I can do it for 9,800 EUR net with cooling jacketed, "
        "or for 10,710.50 EUR net with cooling dry deck."
    )


def test_who_asks_for_what_can_be_had_needs_no_excuse() -> None:
    assert explain.spoken(FAMILY, answered()) == ""


def test_a_have_is_otherwise_only_if_it_is_so_in_truth() -> None:
    heads = shop_of(
        choice("deck", "dry", "wet"),
        choice("head", "open", "closed", asks="have"),
        rule("r", when={"deck": "dry"}, then={"head": "closed"}),
        price("base", "1.00"),
    )
    answer = answered(heads, deck="dry", head="open")
    said = [explain.way_words(family_of(heads), way) for way in answer.ways_out]
    assert said == ["deck wet", "only if in truth head closed"]


@pytest.mark.parametrize(
    ("kind", "given", "nearest", "said"),
    [
        ("none", "81 mm", ("80 mm",), "Bore 81 mm fits nothing we know. Nearest: 80 mm. Measure once more."),
        ("two", "82 mm", ("80 mm", "85 mm"), "Bore 82 mm fits 80 mm and 85 mm alike."),
        ("outside", "99 mm", ("90 mm",), "Bore 99 mm is outside what we make: 80.0 mm to 90.0 mm in steps of 1.0 mm."),
        ("outside", "80.5 mm", ("80 mm", "81 mm"), "Bore 80.5 mm lies between our steps. Nearest: 80 mm or 81 mm."),
        ("clash", "80 mm and 85 mm", (), "Bore was measured twice, and 80 mm and 85 mm cannot both be."),
        ("not_offered", "80 mm", (), "Bore is not offered for the Family."),
    ],
)
def test_what_no_option_answers_is_a_no_with_the_nearest(
    kind: str, given: str, nearest: tuple[str, ...], said: str
) -> None:
    assert explain.misfit_words(FAMILY, Misfit("bore", given, kind, nearest)).startswith(said)


def test_a_choice_of_another_family_is_named_all_the_same() -> None:
    said = explain.misfit_words(FAMILY, Misfit("cam_pulley", "fixed", "not_offered"))
    assert said == "Cam pulley is not offered for the Family."


def check(**says: Any) -> Check:
    plain = Check("r", "Wall", "1.5 mm", "at least 2.0 mm", "", "free", "pass", False, "", "family data", "", (), "")
    return plain._replace(**says)


@pytest.mark.parametrize(
    ("margin", "said", "signed"),
    [
        ("0.5 mm", "0.5 mm to spare", "+0.5 mm"),
        ("-0.5 mm", "0.5 mm beyond", "-0.5 mm"),
        ("0.0 mm", "0.0 mm to spare", "0.0 mm"),
        ("", "", ""),
    ],
)
def test_a_margin_says_on_which_side_of_the_limit_it_lies(margin: str, said: str, signed: str) -> None:
    assert explain.margin_words(check(margin=margin)) == said
    assert explain.signed_margin(check(margin=margin)) == signed


def test_a_limit_is_read_with_its_value() -> None:
    words = explain.limit_words(check(margin="-0.5 mm"))
    assert words == "Wall 1.5 mm, wanted at least 2.0 mm: 0.5 mm beyond"


def test_money_and_days_are_written_as_in_a_letter() -> None:
    assert explain.sum_of(Decimal("11130.00")) == "11,130.00"
    assert explain.said_sum(Decimal("11130.00")) == "11,130"
    assert explain.said_sum(Decimal("260.50")) == "260.50"
    assert explain.difference_of(Decimal("-180.00")) == "-180.00"
    assert explain.difference_of(Decimal("1330.00")) == "+1,330.00"
    assert explain.difference_of(Decimal("0.00")) == ""
    assert explain.days_of(1) == "1 working day"
    assert explain.days_of(27) == "27 working days"
    assert explain.day_of(date(2026, 6, 6)) == "6 June 2026"


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("Turn it over. Look for holes.", "Turn it over."),
        ("Is it 3.5 mm? Look.", "Is it 3.5 mm?"),
        ("one line\nand another", "one line and another"),
        ("", ""),
    ],
)
def test_the_first_sentence_ends_at_its_own_mark(text: str, first: str) -> None:
    assert explain.first_sentence(text) == first


def test_what_only_the_caller_knows_is_settled_first() -> None:
    assert explain.to_settle(FAMILY, answered())[0] == "head"
    assert explain.help_of(FAMILY, "head") == "Turn it over."


def test_a_published_rule_names_its_source() -> None:
    family: Family = family_of(
        shop_of(
            choice("a", "x", "y"),
            rule("known", when={"a": "x"}, then="advice", basis="published", source="ISO 1:2022"),
            rule("habit", when={"a": "y"}, then="advice"),
        )
    )
    assert explain.basis_of(family.rules["known"]) == "published: ISO 1:2022"
    assert explain.basis_of(family.rules["habit"]) == "common practice"
