"""What an edit does beside its counts: choices of one side, rules that became pointless, enquiries that are known."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest

from configurator.desk import Desk
from configurator.desk import quote as quote_at
from configurator.documents.json_quotes import quote_json
from configurator.enquiry import Enquiry, Pick
from configurator.faults import Faulty, NotKnown
from configurator.quote import Quote
from configurator.review.consequences import Kept, quote_shifts, read_kept
from configurator.review.effect import FamilyEffect, effect
from configurator.review.overlap import meet
from tests.review.desks import DAY, bench_at, desk_of, effect_of, on_the_family
from tests.shops import Entry, choice, price, rule

COOLING = choice("cooling", "jacketed", "dry_deck", "solid", usual="jacketed")
USE = choice("use", "street", "drag", usual="street")
SOLID = rule("solid_is_for_drag", when={"cooling": "solid"}, then={"use": "drag"})
PAINT = choice("paint", "none", "red")


def counts(found: FamilyEffect) -> tuple[str, int, int]:
    assert found.difference is not None
    return found.difference.kind, found.difference.added.possible, found.difference.removed.possible


def test_no_edit_changes_nothing() -> None:
    found = effect_of(desk_of(COOLING, USE, SOLID), desk_of(COOLING, USE, SOLID))
    assert not found.changed
    assert counts(found.families[0]) == ("same", 0, 0)


def test_where_a_rule_stands_in_its_file_is_no_edit() -> None:
    found = on_the_family(desk_of(COOLING, USE, SOLID), desk_of(SOLID, USE, COOLING))
    assert found.edited.rules_altered == ()
    assert not found.changed


def test_a_new_rule_removes_builds_and_the_nearest_to_the_usual_shows_it() -> None:
    found = on_the_family(desk_of(COOLING, USE), desk_of(COOLING, USE, SOLID))
    assert counts(found) == ("removes", 0, 1)
    witness = found.witnesses["removed"]
    assert dict(witness.unusual) == {"cooling": "solid"}
    assert (witness.old, witness.new, witness.rules) == ("free", "impossible", ("solid_is_for_drag",))
    assert found.edited.rules_added == ("solid_is_for_drag",)


def test_a_rule_that_only_asks_for_a_signature_removes_nothing_and_is_counted_apart() -> None:
    signed = rule("solid_is_signed", when={"cooling": "solid"}, then="by_arrangement")
    found = on_the_family(desk_of(COOLING, USE), desk_of(COOLING, USE, signed))
    assert counts(found) == ("same", 0, 0)
    assert found.difference is not None
    assert found.difference.moves[0, 1] == 2
    assert (found.witnesses["signed"].old, found.witnesses["signed"].new) == ("free", "by_arrangement")
    back = on_the_family(desk_of(COOLING, USE, signed), desk_of(COOLING, USE))
    assert dict(back.witnesses["freed"].picks) == {"cooling": "solid", "use": "street"}


def test_builds_with_a_new_option_are_counted_apart() -> None:
    fewer = choice("cooling", "jacketed", "dry_deck", usual="jacketed")
    found = on_the_family(desk_of(fewer, USE), desk_of(COOLING, USE, SOLID))
    assert found.difference is not None
    assert counts(found) == ("same", 0, 0)
    assert found.difference.new_apart.free == 1
    assert found.edited.options_added == ("cooling=solid",)
    assert found.changed


def test_a_choice_of_one_side_is_left_out_at_its_best() -> None:
    red_is_for_drag = rule("red_is_for_drag", when={"paint": "red"}, then={"use": "drag"})
    found = on_the_family(desk_of(COOLING, USE), desk_of(COOLING, USE, PAINT, red_is_for_drag))
    assert counts(found) == ("same", 0, 0)
    assert found.edited.choices_added == ("paint",)
    never_street = rule("all_paint_is_for_drag", when={"paint": ["red", "none"]}, then={"use": "drag"})
    assert counts(on_the_family(desk_of(COOLING, USE), desk_of(COOLING, USE, PAINT, never_street))) == ("removes", 0, 3)


def test_a_choice_on_which_too_much_hangs_is_said_to_be_not_known() -> None:
    many = [choice(f"c{number}", *"abcdef") for number in range(7)]
    hangs = [rule(f"r{number}", when={"paint": "red"}, then={f"c{number}": "a"}) for number in range(7)]
    found = effect_of(desk_of(*many), desk_of(*many, PAINT, *hangs))
    assert found.unknown
    assert "paint" in found.families[0].unknown
    with pytest.raises(NotKnown):
        meet(bench_at(desk_of(*many)).book, bench_at(desk_of(*many, PAINT, *hangs)).book)


def test_a_rule_made_pointless_by_a_wider_one_is_named() -> None:
    wider = rule("solid_is_not_made", when={"cooling": "solid"}, then="impossible")
    found = on_the_family(desk_of(COOLING, USE, SOLID), desk_of(COOLING, USE, SOLID, wider))
    assert found.pointless == ("solid_is_for_drag",)
    assert found.dead == ("cooling=solid",)


def test_an_edit_of_a_rule_that_waits_for_a_duty_is_said_not_to_be_counted() -> None:
    duty = ("duty", {"id": "boost", "unit": "bar", "from": "0 bar", "to": "4 bar", "plain_is": "gauge"})
    boosted = rule("no_boost_on_solid", when={"cooling": "solid", "boost": "> 0 bar"}, then="impossible")
    found = on_the_family(desk_of(COOLING, USE, duty), desk_of(COOLING, USE, duty, boosted))
    assert found.edited.waiting == ("no_boost_on_solid",)
    assert counts(found) == ("same", 0, 0)


# Enquiries that are known.


def expected(id: str, verdict: str, net: str = "", **want: str) -> Entry:
    return "expected", {
        "id": id,
        "why": "It was asked.",
        "want": want,
        "verdict": verdict,
        **({"net": net} if net else {}),
    }


def test_an_expected_answer_that_comes_out_otherwise_is_broken() -> None:
    asked = expected("solid_street", "free", cooling="solid", use="street")
    found = effect_of(desk_of(COOLING, USE, asked), desk_of(COOLING, USE, asked, SOLID))
    (shift,) = found.scenarios
    assert (shift.about, shift.before.verdict, shift.after.verdict) == ("solid_street", "free", "impossible")
    assert found.broke


def test_an_expected_answer_changed_with_its_rule_shifts_and_is_not_broken() -> None:
    asked = {"cooling": "solid", "use": "street"}
    old = desk_of(COOLING, USE, expected("solid_street", "free", **asked))
    new = desk_of(COOLING, USE, SOLID, expected("solid_street", "impossible", **asked))
    found = effect_of(old, new)
    assert [shift.about for shift in found.scenarios] == ["solid_street"]
    assert not found.broke


def test_another_price_shifts_the_net_of_an_expected_answer_and_no_build() -> None:
    asked = expected("usual", "free", net="101.00")
    dearer = price("wax", "1.00")
    found = effect_of(desk_of(COOLING, asked), desk_of(COOLING, asked, dearer))
    (shift,) = found.scenarios
    assert (shift.before.net, shift.after.net, shift.broke) == ("100.00", "101.00", False)
    assert not found.families[0].changed
    assert found.changed


def kept(desk: Desk, name: str, **picks: str) -> Kept:
    """A quote as it comes back from where it was kept."""
    told = {id: Pick(option) for id, option in picks.items()}
    quote = quote_at(desk, Enquiry("family", told), DAY)
    assert isinstance(quote, Quote)
    return read_kept(name, json.loads(json.dumps(quote_json(quote))))


def test_a_kept_quote_that_the_edit_forbids_is_named_and_others_are_not() -> None:
    old = desk_of(COOLING, USE)
    quotes = [
        kept(old, "solid.json", cooling="solid", use="street"),
        kept(old, "usual.json"),
    ]
    (shift,) = effect(old, desk_of(COOLING, USE, SOLID), DAY, quotes).quotes
    assert (shift.about, shift.before.verdict, shift.after.verdict) == ("solid.json", "free", "impossible")


def test_a_kept_quote_whose_option_is_gone_is_not_offered_any_more() -> None:
    old = desk_of(COOLING, USE)
    quotes = [kept(old, "solid.json", cooling="solid")]
    (shift,) = quote_shifts(old, desk_of(choice("cooling", "jacketed", "dry_deck"), USE), quotes)
    assert shift.after.verdict == "not_offered"


def test_a_kept_quote_takes_what_is_usual_for_a_choice_that_is_new() -> None:
    old = desk_of(COOLING, USE)
    quotes = [kept(old, "usual.json")]
    red = price("red_paint", "5.00", when={"paint": "red"})
    assert list(quote_shifts(old, desk_of(COOLING, USE, PAINT, red), quotes)) == []


@pytest.mark.parametrize("document", [None, {}, [], "a quote", {"schema": 1}])
def test_what_is_no_quote_is_a_fault_that_names_it(document: Any) -> None:
    with pytest.raises(Faulty, match=r"x\.json"):
        read_kept("x.json", document)


def test_kept_quotes_are_taken_one_at_a_time() -> None:
    old, taken = desk_of(COOLING, USE), []

    def served() -> Iterator[Kept]:
        for name in ("first.json", "second.json"):
            taken.append(name)
            yield kept(old, name, cooling="solid", use="street")

    shifts = quote_shifts(old, desk_of(COOLING, USE, SOLID), served())
    assert next(shifts).about == "first.json"
    assert taken == ["first.json"]
