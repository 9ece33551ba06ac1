"""Every analysis of random models against all builds tried in turn, and metamorphic relations between models.

The relations follow the idea of Segura, Hierons, Benavides and Ruiz-Cortés (metamorphic testing of analyses of feature
models, 2010; recalled): an edit whose effect on the builds is known beforehand needs no other oracle.
"""

from __future__ import annotations

from itertools import combinations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from configurator.catalogue.shops import Family
from configurator.review.alone import Others
from configurator.review.bench import Bench
from configurator.review.options import cures_of, find_dead, forced, together
from configurator.review.proof import agrees
from configurator.review.trials import try_rule
from tests.review.desks import bench_at, desk_of, edits, family_at, models, on_the_family, standings, without
from tests.shops import Entry, choice, rule

IMPOSSIBLE = 2


def built(family: Family) -> list[dict[str, str]]:
    return [dict(picks) for picks, standing in standings(family).items() if standing < IMPOSSIBLE]


def check_options(bench: Bench) -> None:
    family, book = bench.family, bench.case.book
    builds = built(family)
    had = {
        (number, option): frozenset(at for at, build in enumerate(builds) if build[id] == one.id)
        for number, id in enumerate(book.choices)
        for option, one in enumerate(book.options[number])
    }
    everywhere = frozenset(range(len(builds)))
    dead = {f"{book.choices[number]}={book.options[number][one].id}" for (number, one), some in had.items() if not some}
    assert {finding.about for finding in find_dead(bench)} == dead
    several = {pair for pair in had if book.sizes[pair[0]] > 1}
    assert set(forced(bench.case.space)) == ({one for one in several if had[one] == everywhere} if builds else set())
    groups: dict[frozenset[int], list[tuple[int, int]]] = {}
    for one, some in had.items():
        if some and some != everywhere:
            groups.setdefault(some, []).append(one)
    assert together(bench.case.space) == sorted(tuple(sorted(some)) for some in groups.values() if len(some) > 1)


def check_cures(bench: Bench) -> None:
    """The rules behind a dead option refuse it together and none is idle among them; its cures are all there are."""
    family, book = bench.family, bench.case.book
    for number, kinds in enumerate(bench.case.space.standings()):
        for option in (option for option, kind in enumerate(kinds) if kind == IMPOSSIBLE):
            id, one = book.choices[number], book.options[number][option].id
            behind = bench.case.space.rules_behind({number: option})

            def lives(rules: set[str], id: str = id, one: str = one) -> bool:
                kept = family._replace(rules={rule: family.rules[rule] for rule in rules})
                return any(build[id] == one for build in built(kept))

            assert not lives(set(behind))
            for rules in combinations(behind, len(behind) - 1):
                assert lives(set(rules))
            cures = {rule for rule in family.rules if lives(set(family.rules) - {rule})}
            assert set(cures_of(bench, (number, option), behind)) == cures


def check_rules(bench: Bench) -> None:
    family = bench.family
    with_all = standings(family)
    for id, one in family.rules.items():
        rest = standings(without(family, id))
        trial = try_rule(bench, one)
        assert (trial.near_miss is None) == (rest == with_all), id
        if trial.near_miss is not None:
            build = tuple(bench.book.picks(trial.near_miss).items())
            assert with_all[build] == trial.standing > rest[build]
        elif one.body.when:
            meets = [dict(picks) for picks, standing in rest.items() if standing < IMPOSSIBLE]
            holds = any(all(key.allows(picks[key.name]) for key in one.body.when) for picks in meets)
            assert trial.idle == (not holds)


def check_model(entries: list[Entry]) -> None:
    bench = bench_at(desk_of(*entries))
    check_options(bench)
    check_cures(bench)
    check_rules(bench)
    assert agrees(bench.case.space)


@given(models())
def test_every_analysis_of_a_random_model_is_what_all_builds_say(entries: list[Entry]) -> None:
    check_model(entries)


@pytest.mark.long
@settings(max_examples=5_000)
@given(models())
def test_every_analysis_of_five_thousand_random_models_is_what_all_builds_say(entries: list[Entry]) -> None:
    check_model(entries)


def check_edit(before: list[Entry], after: list[Entry]) -> None:
    old, new = desk_of(*before), desk_of(*after)
    found = on_the_family(old, new)
    assert found.difference is not None
    was, now = common(family_at(old), family_at(new)), common(family_at(new), family_at(old))
    moves = dict.fromkeys(found.difference.moves, 0)
    for build, standing in was.items():
        if (standing, now[build]) in moves:
            moves[standing, now[build]] += 1
    assert dict(found.difference.moves) == moves
    usual = {"added": new, "freed": new, "removed": old, "signed": old}
    for change, witness in found.witnesses.items():
        build = tuple(witness.picks.items())
        names = ("free", "by_arrangement", "impossible")
        assert (witness.old, witness.new) == (names[was[build]], names[now[build]])
        as_usual = bench_at(usual[change])
        habit = as_usual.book.picks(as_usual.usual)
        alike = [one for one in was if same_change(change, was[one], now[one])]
        assert far(build, habit) == min(far(one, habit) for one in alike)


def same_change(change: str, before: int, after: int) -> bool:
    if change in ("added", "removed"):
        better, worse = (after, before) if change == "added" else (before, after)
        return worse == IMPOSSIBLE > better
    return (before, after) == ((1, 0) if change == "freed" else (0, 1))


def far(build: tuple[tuple[str, str], ...], usual: dict[str, str]) -> int:
    return sum(usual.get(choice) != option for choice, option in build)


def common(family: Family, other: Family) -> dict[tuple[tuple[str, str], ...], int]:
    """The builds of the common choices and options, each with the standing of its best completion."""
    best: dict[tuple[tuple[str, str], ...], int] = {}
    shared = {
        id: {option.id for option in one.options} & {option.id for option in other.choices[id].options}
        for id, one in family.choices.items()
        if id in other.choices
    }
    for picks, standing in standings(family).items():
        if all(option in shared.get(choice, (option,)) for choice, option in picks):
            build = tuple((choice, option) for choice, option in picks if choice in shared)
            best[build] = min(standing, best.get(build, IMPOSSIBLE))
    return best


@given(edits())
def test_the_effect_of_a_random_edit_is_what_all_builds_say(pair: tuple[list[Entry], list[Entry]]) -> None:
    check_edit(*pair)


@pytest.mark.long
@settings(max_examples=2_000)
@given(edits())
def test_the_effects_of_two_thousand_edits_are_what_all_builds_say(
    pair: tuple[list[Entry], list[Entry]],
) -> None:
    check_edit(*pair)


def counted(entries: list[Entry]) -> int:
    return sum(bench_at(desk_of(*entries)).case.space.count())


@given(models())
def test_a_choice_that_hangs_on_an_option_adds_the_builds_that_have_the_option(entries: list[Entry]) -> None:
    case = bench_at(desk_of(*entries)).case
    whole, having = sum(case.space.count()), sum(case.space.pick(0, 0).count())
    child = [choice("child", "no", "yes"), rule("child_wants_parent", when={"child": "yes"}, then={"c0": "o0"})]
    assert counted([*entries, *child]) == whole + having


@given(models())
def test_a_rule_written_twice_changes_nothing_and_both_are_found_pointless(entries: list[Entry]) -> None:
    twice = [(kind, {**says, "id": f"again_{says['id']}"}) for kind, says in entries if kind == "rule"]
    assert counted([*entries, *twice]) == counted(entries)
    bench = bench_at(desk_of(*entries, *twice))
    assert all(try_rule(bench, one).near_miss is None for one in bench.family.rules.values())


@given(models(), st.randoms(use_true_random=False))
def test_the_order_of_a_file_changes_nothing(entries: list[Entry], chance: Random) -> None:
    shuffled = list(entries)
    chance.shuffle(shuffled)
    assert counted(shuffled) == counted(entries)


@given(models())
def test_other_names_change_nothing(entries: list[Entry]) -> None:
    renamed = [(kind, {**says, "id": f"z_{says['id']}"} if kind == "rule" else says) for kind, says in entries]
    old, new = desk_of(*entries), desk_of(*renamed)
    found = on_the_family(old, new)
    assert found.difference is not None
    assert found.difference.kind == "same"
    assert found.witnesses == {}


@given(models())
def test_the_builds_with_a_condition_and_those_without_it_are_all_builds(entries: list[Entry]) -> None:
    case = bench_at(desk_of(*entries)).case
    options = range(case.space.sizes[0])
    assert sum(sum(case.space.pick(0, option).count()) for option in options) == sum(case.space.count())


@given(models())
def test_one_rule_more_never_adds_a_build(entries: list[Entry]) -> None:
    fewer = entries[:-1] if entries[-1][0] == "rule" else entries
    assert counted(entries) <= counted(fewer)


def test_a_rule_that_refuses_everything_leaves_no_build_that_keeps_the_others() -> None:
    bench = bench_at(desk_of(choice("a", "x", "y"), rule("never", when={"a": ["x", "y"]}, then="impossible")))
    others = Others(bench.book.sizes, bench.book.tables, (0,), (0,))
    assert others.build("") is None
    assert others.build("never") == (0,)
