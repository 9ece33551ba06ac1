"""Each kind of finding, on the smallest shop that has it; what is as it should be is not found."""

from __future__ import annotations

from typing import Any

import pytest

from configurator.desk import Desk
from configurator.review.findings import FAULTS, REMARKS, Finding
from configurator.review.lint import lint, look_over
from tests.review.desks import DAY, desk_of
from tests.shops import Entry, choice, fact, figure, number, rule

COOLING = choice("cooling", "jacketed", "dry_deck", "solid")
USE = choice("use", "street", "drag")
HOLES = choice("holes", "open", "closed")
PASSES = {"passes": [{"cooling": "solid", "use": "drag"}], "fails": [{"cooling": "solid", "use": "street"}]}


def solid(**says: Any) -> Entry:
    return rule("solid_is_for_drag", **{"when": {"cooling": "solid"}, "then": {"use": "drag"}, **PASSES, **says})


def found(desk: Desk, kind: str) -> list[Finding]:
    return [one for one in look_over(desk, DAY) if isinstance(one, Finding) and one.kind == kind]


def kinds(*entries: Entry) -> set[str]:
    return {one.kind for one in look_over(desk_of(*entries), DAY) if isinstance(one, Finding)}


def test_a_rule_with_examples_that_are_its_own_brings_nothing_up() -> None:
    assert kinds(COOLING, USE, solid()) == set()


def test_every_kind_is_either_to_be_mended_or_worth_a_thought() -> None:
    assert not FAULTS.keys() & REMARKS.keys()


def test_faults_and_remarks_stand_apart_and_name_their_line() -> None:
    seen = lint(desk_of(COOLING, USE, solid(passes=[]), figure("unused", "1 mm")), DAY)
    assert [(one.kind, one.about) for one in seen.findings] == [("example", "solid_is_for_drag")]
    assert [(one.kind, one.about) for one in seen.remarks] == [("unused", "unused")]
    assert all(one.place.line > 0 and one.place.column > 0 for one in (*seen.findings, *seen.remarks))


def test_rules_that_leave_no_build_are_named_and_nothing_else_is_looked_for() -> None:
    never = rule("never", when={"use": ["street", "drag"]}, then="impossible")
    (one,) = found(desk_of(USE, never), "no build")
    assert "refused by never" in one.wrong
    assert not {"dead option", "pointless", "condition"} & kinds(USE, never)


def test_a_dead_option_names_the_rules_and_those_that_alone_stand_in_its_way() -> None:
    one_way = rule("solid_is_not_for_drag", when={"cooling": "solid"}, then={"use": "street"})
    (one,) = found(desk_of(COOLING, USE, solid(), one_way), "dead option")
    assert one.about == "cooling=solid"
    assert "refused by solid_is_for_drag, solid_is_not_for_drag" in one.wrong
    assert "come back without solid_is_for_drag or solid_is_not_for_drag" in one.wrong


def test_an_option_kept_to_be_refused_is_not_dead() -> None:
    kept = choice("cooling", "jacketed", {"id": "solid", "refused_with": "no_solid"})
    refused = rule("no_solid", when={"cooling": "solid"}, then="impossible")
    assert not {"dead option", "forced"} & kinds(kept, refused)


def test_an_option_kept_to_be_refused_that_builds_have_is_found() -> None:
    kept = choice("cooling", "jacketed", {"id": "solid", "refused_with": "solid_is_for_drag"})
    assert [one.about for one in found(desk_of(kept, USE, solid()), "live option")] == ["cooling=solid"]


def test_a_condition_that_other_rules_never_let_hold_is_to_be_mended() -> None:
    no_solid = rule("no_solid", when={"cooling": "solid"}, then="impossible")
    (one,) = found(desk_of(COOLING, USE, no_solid, solid()), "condition")
    assert one.about == "solid_is_for_drag"


def test_a_rule_that_forbids_what_others_forbid_is_pointless_and_not_a_fault() -> None:
    again = rule("again", when={"cooling": "solid", "use": "street"}, then="impossible")
    names = {one.about for one in found(desk_of(COOLING, USE, solid(), again), "pointless")}
    assert names == {"again", "solid_is_for_drag"}
    assert "condition" not in kinds(COOLING, USE, solid(), again)


def test_a_rule_that_only_changes_a_standing_is_not_pointless() -> None:
    signed = rule("signed", when={"cooling": "solid"}, then="by_arrangement")
    assert "pointless" not in kinds(COOLING, USE, signed)


def test_advice_is_never_pointless() -> None:
    advice = rule("advice", when={"cooling": "solid"}, then="advice")
    assert "pointless" not in kinds(COOLING, advice)


def test_a_limit_that_listed_values_pass_and_an_example_breaks_is_not_pointless() -> None:
    bore = number("bore", [80, 81, 90], "mm")
    wall = rule("wall", figure="bore", free="<= 90 mm", passes=[{"bore": "80 mm"}], fails=[{"bore": "91 mm"}])
    wider = ("choice", {**bore[1], "to": "95 mm"})
    assert "pointless" not in kinds(wider, wall)
    assert "pointless" in kinds(wider, ("rule", {**wall[1], "fails": []}))


def test_a_choice_that_every_build_settles_alike_is_forced() -> None:
    always = rule("always_drag", when={"cooling": ["jacketed", "dry_deck", "solid"]}, then={"use": "drag"})
    assert [one.about for one in found(desk_of(COOLING, USE, always), "forced")] == ["use"]


def test_options_that_come_only_together_are_told_once() -> None:
    both_ways = rule("holes_go_with_use", columns=["holes", "use"], rows=[["open", "street"], ["closed", "drag"]])
    (one,) = found(desk_of(HOLES, USE, both_ways), "together")
    assert one.about == "holes, use"
    assert "each settles the other" in one.way_out


@pytest.mark.parametrize("kind", ["passes", "fails"])
def test_an_example_that_does_not_come_out_is_found_where_it_stands(kind: str) -> None:
    other = {"passes": "fails", "fails": "passes"}[kind]
    (one,) = found(desk_of(COOLING, USE, solid(**{kind: PASSES[other]})), "example")
    assert "should" in one.wrong


def test_a_rule_whose_examples_break_another_rule_too_gets_a_near_miss() -> None:
    both = {"cooling": "solid", "use": "street", "holes": "open"}
    closed = rule(
        "solid_wants_closed_holes",
        when={"cooling": "solid"},
        columns=["holes", "use"],
        rows=[["closed", "*"]],
        passes=[{"cooling": "solid", "holes": "closed", "use": "drag"}],
        fails=[both],
    )
    (one,) = found(desk_of(COOLING, USE, HOLES, solid(), closed), "uncovered")
    assert one.about == "solid_wants_closed_holes"
    assert dict(one.build) == {"cooling": "solid", "holes": "open", "use": "drag"}
    assert 'cooling = "solid", holes = "open", use = "drag"' in one.way_out
    better = ("rule", {**closed[1], "fails": [both, dict(one.build)]})
    assert "uncovered" not in kinds(COOLING, USE, HOLES, solid(), better)


def test_an_expected_answer_covers_a_rule_that_has_no_example_of_fails() -> None:
    asked = ("expected", {"id": "e", "why": "It is asked.", "want": PASSES["fails"][0], "verdict": "impossible"})
    bare = solid(fails=[])
    assert "uncovered" in kinds(COOLING, USE, bare)
    assert "uncovered" not in kinds(COOLING, USE, bare, asked)


def test_an_expected_answer_that_comes_out_otherwise_is_to_be_mended() -> None:
    asked = ("expected", {"id": "e", "why": "It is asked.", "want": {"cooling": "solid"}, "verdict": "impossible"})
    (one,) = found(desk_of(COOLING, USE, solid(), asked), "expected")
    assert (one.about, one.wrong) == ("e", "expected impossible, came out free")


def test_a_figure_behind_a_figure_in_use_is_in_use() -> None:
    bore = number("bore", [80, 90], "mm")
    half, wall = figure("half", "bore / 2"), figure("wall", "half - 10 mm")
    limit = rule("thick", figure="wall", free=">= 30 mm", passes=[{"bore": "80 mm"}], fails=[])
    assert "unused" not in kinds(bore, half, wall, limit)
    assert {one.about for one in found(desk_of(bore, half, wall), "unused")} == {"half", "wall"}


def test_a_limit_on_a_figure_from_memory_says_so() -> None:
    options = [{"id": one, "facts": {"mass": {**fact("30 kg"), "basis": "from memory"}}} for one in ("thin", "thick")]
    light = rule("light", figure="mass", free="<= 40 kg")
    (one,) = found(desk_of(choice("wall", *options), light), "from memory")
    assert (one.about, one.wrong) == ("light", "rests on mass from memory")


def test_a_rule_that_speaks_of_very_much_is_wide() -> None:
    columns = [f"c{number}" for number in range(7)]
    wide = rule("wide", columns=columns, rows=[["*"] * 6 + ["w"]])
    (one,) = found(desk_of(*(choice(id, "w", "x", "y", "z") for id in columns), wide), "wide")
    assert "16,384 combinations" in one.wrong


def test_plain_search_proves_a_small_space_whole() -> None:
    (proof,) = lint(desk_of(COOLING, USE, solid()), DAY, proving=True).proofs
    assert (proof.whole, proof.parts, proof.builds) == (True, 1, 5)
