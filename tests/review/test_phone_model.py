"""The mobile phone of Benavides, Segura and Ruiz-Cortés, "Automated analysis of feature models 20 years later",
Information Systems 35 (2010), figure 1, told in rules. The model is recalled from memory and has the 14 products that
are printed there; every other number below was enumerated here, by trying all builds one by one.
"""

from __future__ import annotations

from typing import Any

import pytest

from configurator.desk import Desk
from configurator.review.options import cures_of, forced, together
from configurator.review.trials import Trial, is_pointless, try_rule
from tests.review.desks import bench_at, desk_of, family_at, on_the_family, standings
from tests.shops import Entry, choice, rule

FEATURES = ("calls", "screen", "basic", "colour", "high", "gps", "media", "camera", "mp3")

RULES: dict[str, dict[str, Any]] = {
    "calls_always": {"when": {"calls": "no"}, "then": "impossible"},
    "screen_always": {"when": {"screen": "no"}, "then": "impossible"},
    "one_kind_of_screen": {
        "columns": ["basic", "colour", "high"],
        "rows": [["yes", "no", "no"], ["no", "yes", "no"], ["no", "no", "yes"]],
    },
    "camera_is_media": {"when": {"camera": "yes"}, "then": {"media": "yes"}},
    "mp3_is_media": {"when": {"mp3": "yes"}, "then": {"media": "yes"}},
    "media_is_one_of_them": {"when": {"media": "yes", "camera": "no", "mp3": "no"}, "then": "impossible"},
    "camera_wants_high": {"when": {"camera": "yes"}, "then": {"high": "yes"}},
    "gps_excludes_basic": {"when": {"gps": "yes", "basic": "yes"}, "then": "impossible"},
}
NOT_HIGH: dict[str, Any] = {"when": {"gps": "yes", "high": "yes"}, "then": "impossible"}
NOT_COLOUR: dict[str, Any] = {"when": {"gps": "yes", "colour": "yes"}, "then": "impossible"}


def phone(**changes: dict[str, Any] | None) -> Desk:
    """The phone, with rules more, other or (None) fewer."""
    entries: list[Entry] = [choice(feature, "no", "yes") for feature in FEATURES]
    told = {id: says for id, says in {**RULES, **changes}.items() if says}
    return desk_of(*entries, *(rule(id, **says) for id, says in told.items()))


def count(desk: Desk) -> int:
    return bench_at(desk).case.space.count()[0]


def trial(desk: Desk, id: str) -> Trial:
    bench = bench_at(desk)
    return try_rule(bench, bench.family.rules[id])


def test_the_phone_has_fourteen_products() -> None:
    assert count(phone()) == 14  # printed in the paper
    assert sum(standing == 0 for standing in standings(family_at(phone())).values()) == 14


def test_a_partial_phone_has_two_products() -> None:
    case = bench_at(phone()).case
    wanted = {"calls": "yes", "gps": "yes", "colour": "no", "camera": "no"}
    assert case.space.pick_all(case.numbers(wanted)).count() == (2, 0)


def test_gps_without_any_screen_to_go_with_is_dead() -> None:
    desk = phone(not_high=NOT_HIGH, not_colour=NOT_COLOUR)
    bench = bench_at(desk)
    number, option = bench.book.numbered("gps", "yes")
    assert bench.case.space.standing_of(number, option) == 2
    assert count(desk) == 8


def test_the_death_of_gps_has_one_explanation_and_four_cures() -> None:
    bench = bench_at(phone(not_high=NOT_HIGH, not_colour=NOT_COLOUR))
    gps = bench.book.numbered("gps", "yes")
    behind = bench.case.space.rules_behind(dict([gps]))
    assert set(behind) == {"one_kind_of_screen", "gps_excludes_basic", "not_high", "not_colour"}
    # Each of the four alone would bring it back, so every explanation holds all four: there is no other smallest one,
    # and the four single rules are all the smallest diagnoses.
    assert set(cures_of(bench, gps, behind)) == set(behind)


def test_a_rule_that_makes_mp3_mandatory_forces_mp3_and_media() -> None:
    bench = bench_at(phone(mp3_always={"when": {"calls": "yes"}, "then": {"mp3": "yes"}}))
    found = {bench.book.choices[number] for number, _ in forced(bench.case.space)}
    assert found == {"calls", "screen", "mp3", "media"}


def test_what_every_phone_has_is_calls_and_screen() -> None:
    bench = bench_at(phone())
    assert {bench.book.choices[number] for number, _ in forced(bench.case.space)} == {"calls", "screen"}
    assert together(bench.case.space) == []


@pytest.mark.parametrize(
    ("given", "dead", "needed"),
    [
        ({"gps": "yes"}, {"basic"}, set()),
        ({"camera": "yes"}, {"basic", "colour"}, {"high", "media"}),
    ],
)
def test_one_feature_closes_some_and_brings_others(given: dict[str, str], dead: set[str], needed: set[str]) -> None:
    case = bench_at(phone()).case
    picked = case.space.pick_all(case.numbers(given))
    always = {"calls", "screen"}
    kinds = dict(zip(case.book.choices, picked.standings(), strict=True))
    assert {id for id, (_, yes) in kinds.items() if yes == 2} == dead
    assert {id for id, (no, _) in kinds.items() if no == 2} - always - set(given) == needed


def test_a_camera_that_excludes_a_basic_screen_says_nothing_new() -> None:
    assert is_pointless(trial(phone(new={"when": {"camera": "yes", "basic": "yes"}, "then": "impossible"}), "new"))


def test_every_rule_of_the_phone_has_a_near_miss() -> None:
    assert [id for id in RULES if trial(phone(), id).near_miss is None] == []


MP3_WANTS_HIGH = {"when": {"mp3": "yes"}, "then": {"high": "yes"}}

# The kinds of edit are those of Thüm, Batory and Kästner, "Reasoning about edits to feature models", ICSE 2009.
EDITS: dict[str, tuple[dict[str, Any], str, int, int]] = {
    "specialization": ({"new": {"when": {"camera": "yes"}, "then": {"mp3": "yes"}}}, "removes", 0, 2),
    "generalization": ({"camera_wants_high": None}, "adds", 6, 0),
    "a weaker rule": (
        {"camera_wants_high": {"when": {"camera": "yes", "basic": "yes"}, "then": "impossible"}}, "adds", 4, 0,
    ),
    "arbitrary": ({"camera_wants_high": None, "new": MP3_WANTS_HIGH}, "both", 3, 3),
    "refactoring": ({"new": {"when": {"camera": "yes", "basic": "yes"}, "then": "impossible"}}, "same", 0, 0),
}  # fmt: skip


@pytest.mark.parametrize("kind", EDITS)
def test_an_edit_of_the_phone_has_its_kind_and_its_counts(kind: str) -> None:
    changes, expected, added, removed = EDITS[kind]
    found = on_the_family(phone(), phone(**changes)).difference
    assert found is not None
    assert (found.kind, found.added.possible, found.removed.possible) == (expected, added, removed)


@pytest.mark.parametrize("kind", EDITS)
def test_the_witnesses_of_an_edit_are_on_one_side_only(kind: str) -> None:
    changes, _, added, removed = EDITS[kind]
    new = phone(**changes)
    found = on_the_family(phone(), new)
    before, after = standings(family_at(phone())), standings(family_at(new))
    assert set(found.witnesses) == {name for name, number in (("added", added), ("removed", removed)) if number}
    for change, witness in found.witnesses.items():
        build = tuple(witness.picks.items())
        assert (before[build], after[build]) == ((2, 0) if change == "added" else (0, 2))
