"""The diagram held against a search through all builds, on random catalogues."""

from __future__ import annotations

from itertools import combinations
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from configurator.space import Table, compile_space
from configurator.space.plain import plain_builds
from tests.catalogues import Catalogue, agrees, catalogues


@given(catalogues())
def test_the_builds_left_are_those_of_the_plain_search_and_of_trying_all(catalogue: Catalogue) -> None:
    left = catalogue.left()
    listed = list(catalogue.picked().builds())
    assert sorted(listed) == sorted(left)
    assert sorted(catalogue.picked().builds(free_only=True)) == sorted(build for build in left if not left[build])
    assert sorted(plain_builds(catalogue.sizes, catalogue.tables, catalogue.picks)) == sorted(left.items())


@given(catalogues())
def test_builds_are_counted_by_their_standing(catalogue: Catalogue) -> None:
    standings = list(catalogue.left().values())
    space = catalogue.picked()
    assert space.count() == (standings.count(0), standings.count(1))
    assert space.possible() == bool(standings)
    assert space.any_free() == (0 in standings)
    assert all(space.judge(build) == standing for build, standing in catalogue.left().items())


@given(catalogues())
def test_every_option_stands_as_the_best_build_that_has_it_with_its_own_pick_lifted(catalogue: Catalogue) -> None:
    possible = catalogue.possible()
    expected = []
    for choice, size in enumerate(catalogue.sizes):
        others = {other: option for other, option in catalogue.picks.items() if other != choice}
        best = [2] * size
        for build, standing in possible.items():
            if agrees(build, others):
                best[build[choice]] = min(best[build[choice]], standing)
        expected.append(bytes(best))
    space = catalogue.picked()
    assert space.standings() == expected
    assert [
        bytes(space.standing_of(choice, option) for option in range(size))
        for choice, size in enumerate(catalogue.sizes)
    ] == expected


@given(catalogues(), st.booleans())
def test_builds_come_by_amount_and_then_by_option(catalogue: Catalogue, free: bool) -> None:
    space = catalogue.picked()
    for tally in catalogue.tallies:
        left = [build for build, standing in catalogue.left().items() if not (free and standing)]
        ranked = sorted((catalogue.amount(tally, build), build) for build in left)
        assert list(space.k_cheapest(tally.id, free)) == ranked
        assert space.cheapest(tally.id, free) == (ranked[0] if ranked else None)
        dearest = max(ranked, key=lambda one: (one[0], [-option for option in one[1]]), default=None)
        assert space.dearest(tally.id, free) == dearest
        assert space.range(tally.id, free) == ((ranked[0][0], ranked[-1][0]) if ranked else None)
        assert all(space.amount(tally.id, build) == amount for amount, build in ranked)


@given(catalogues())
def test_give_ups_are_all_smallest_sets_of_picks_that_free_a_build(catalogue: Catalogue) -> None:
    found = catalogue.picked().give_ups()
    assert found.exact
    assert len(found) == len(set(found))
    assert set(found) == catalogue.give_ups()


@given(catalogues())
def test_conflicts_are_all_smallest_sets_of_picks_that_leave_no_build(catalogue: Catalogue) -> None:
    found = catalogue.picked().conflicts()
    assert found.exact
    assert set(found) == catalogue.conflicts()
    assert list(found) == sorted(catalogue.conflicts(), key=lambda some: (len(some), sorted(some)))


@given(catalogues())
def test_the_rules_behind_a_conflict_are_the_fewest_and_the_first_by_name(catalogue: Catalogue) -> None:
    space = catalogue.picked()
    for conflict in space.conflicts():
        picks = {choice: catalogue.picks[choice] for choice in conflict}
        builds = [build for build in catalogue.all_builds() if agrees(build, picks)]
        broken = [{table.name for table in catalogue.tables if catalogue.cell(table, build) == 2} for build in builds]
        names = sorted(table.name for table in catalogue.tables)
        fewest = next(
            some
            for size in range(len(names) + 1)
            for some in combinations(names, size)
            if all(broke.intersection(some) for broke in broken)
        )
        assert space.rules_behind(picks) == fewest


@given(catalogues(), st.randoms(use_true_random=False))
def test_the_order_of_the_layers_changes_no_answer(catalogue: Catalogue, random: Random) -> None:
    order = list(range(len(catalogue.sizes)))
    random.shuffle(order)
    other = compile_space(catalogue.sizes, catalogue.tables, catalogue.tallies, order).pick_all(catalogue.picks)
    space = catalogue.picked()
    assert other.order == tuple(order)
    assert other.count() == space.count()
    assert other.standings() == space.standings()
    assert list(other.k_cheapest("price")) == list(space.k_cheapest("price"))
    assert other.give_ups() == space.give_ups()
    assert other.conflicts() == space.conflicts()


@given(catalogues(), st.permutations(range(8)))
def test_the_order_of_the_picks_changes_no_answer(catalogue: Catalogue, turns: list[int]) -> None:
    space = catalogue.space()
    for choice in turns:
        if choice in catalogue.picks:
            space = space.pick(choice, catalogue.picks[choice])
    assert space.picks == catalogue.picks
    assert space.count() == catalogue.picked().count()
    assert space.standings() == catalogue.picked().standings()


@given(catalogues(), st.data())
def test_lifting_a_pick_restores_what_was_before_it(catalogue: Catalogue, data: st.DataObject) -> None:
    before = catalogue.picked()
    choice = data.draw(st.integers(0, len(catalogue.sizes) - 1))
    before = before.unpick(choice)
    after = before.pick(choice, data.draw(st.integers(0, catalogue.sizes[choice] - 1))).unpick(choice)
    assert after.picks == before.picks
    assert after.count() == before.count()
    assert after.standings() == before.standings()
    assert sorted(after.builds()) == sorted(before.builds())


@given(catalogues())
def test_picking_leaves_what_a_table_of_the_pick_alone_would_leave(catalogue: Catalogue) -> None:
    narrow = [
        Table(
            f"pick_{choice}",
            (choice,),
            bytes(0 if other == option else 2 for other in range(catalogue.sizes[choice])),
        )
        for choice, option in catalogue.picks.items()
    ]
    afresh = compile_space(catalogue.sizes, [*catalogue.tables, *narrow], catalogue.tallies)
    space = catalogue.picked()
    assert afresh.count() == space.count()
    assert sorted(afresh.builds()) == sorted(space.builds())
    assert afresh.cheapest("price") == space.cheapest("price")
    assert afresh.range("mass", free=True) == space.range("mass", free=True)


@given(catalogues(), st.data())
def test_one_more_table_never_adds_a_build_and_a_second_copy_takes_none(
    catalogue: Catalogue, data: st.DataObject
) -> None:
    if not catalogue.tables:
        return
    dropped = data.draw(st.sampled_from(catalogue.tables))
    fewer = [table for table in catalogue.tables if table is not dropped]
    builds = set(catalogue.space().builds())
    assert builds <= set(compile_space(catalogue.sizes, fewer).builds())
    twice = compile_space(catalogue.sizes, [*catalogue.tables, dropped])
    assert twice.count() == catalogue.space().count()
