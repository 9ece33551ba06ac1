"""Spaces of nothing, of one thing and of very many things; what is refused; and what is left when a cap is met."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice, product

import pytest
from hypothesis import given

from configurator.faults import NotKnown
from configurator.space import BY_ARRANGEMENT, IMPOSSIBLE, Space, Table, Tally, Term, causes, compile_space, diagram
from configurator.space.plain import plain_builds
from tests.catalogues import Catalogue, catalogues

NO_TALLY = Tally("price", ())


def test_no_choices_make_one_build() -> None:
    space = compile_space([], [], [Tally("price", (Term((), (7,)),))])
    assert space.count() == (1, 0)
    assert list(space.builds()) == [()]
    assert list(space.k_cheapest("price")) == [(7, ())]
    assert space.dearest("price") == (7, ())
    assert space.standings() == []
    assert list(space.give_ups()) == [frozenset()]
    assert list(space.conflicts()) == []
    assert list(plain_builds([], [])) == [((), 0)]


def test_one_choice_without_tables_is_open() -> None:
    space = compile_space([3], [], [NO_TALLY])
    assert sorted(space.builds()) == [(0,), (1,), (2,)]
    assert space.pick(0, 1).count() == (1, 0)
    assert space.pick(0, 1).standings() == [bytes(3)]


def test_a_table_over_nothing_speaks_of_every_build() -> None:
    arranged = compile_space([2, 2], [Table("stop", (), bytes([BY_ARRANGEMENT]))])
    assert arranged.count() == (0, 4)
    assert arranged.standings() == [bytes([1, 1]), bytes([1, 1])]


def test_a_table_that_forbids_everything_is_behind_the_conflict_of_nothing() -> None:
    tables = [Table("never", (), bytes([IMPOSSIBLE])), Table("other", (0,), bytes([2, 0]))]
    space = compile_space([2, 2], tables, [NO_TALLY]).pick_all({0: 1, 1: 0})
    assert not space.possible()
    assert space.standings() == [bytes([2, 2]), bytes([2, 2])]
    assert space.cheapest("price") is None
    assert space.range("price") is None
    assert list(space.builds()) == []
    assert list(space.k_cheapest("price")) == []
    assert list(space.give_ups()) == []
    assert list(space.conflicts()) == [frozenset()]
    assert space.rules_behind({}) == ("never",)
    assert list(plain_builds([2, 2], tables)) == []


def test_a_pick_that_no_build_has_is_closed_and_a_conflict_by_itself() -> None:
    space = compile_space([3, 2], [Table("no_third", (0,), bytes([0, 0, 2]))]).pick(0, 2)
    assert space.standing_of(0, 2) == 2
    assert space.standings() == [bytes([0, 0, 2]), bytes([2, 2])]
    assert list(space.conflicts()) == [frozenset([0])]
    assert space.rules_behind({0: 2}) == ("no_third",)


def test_picks_that_can_hold_together_have_no_rules_behind_them() -> None:
    space = compile_space([2, 2], [Table("not_both", (0, 1), bytes([0, 0, 0, 2]))])
    with pytest.raises(ValueError, match="can hold together"):
        space.rules_behind({0: 1, 1: 0})


def test_a_rule_of_several_tables_counts_once() -> None:
    tables = [
        Table("split", (0, 1), bytes([0, 0, 2, 0])),
        Table("split", (1, 2), bytes([0, 0, 2, 0])),
        Table("apart_a", (0, 1), bytes([0, 0, 2, 0])),
        Table("apart_b", (1, 2), bytes([0, 0, 2, 0])),
    ]
    space = compile_space([2, 2, 2], tables).pick_all({0: 1, 2: 0})
    assert space.rules_behind({0: 1, 2: 0}) == ("split",)


def test_a_new_pick_replaces_the_one_before() -> None:
    space = compile_space([3, 2], [Table("rule", (0, 1), bytes([2, 0, 0, 0, 0, 2]))]).pick(0, 0)
    assert space.pick(0, 2).picks == {0: 2}
    assert space.pick(0, 2).standings() == compile_space([3, 2], space.tables).pick(0, 2).standings()
    assert space.picks == {0: 0}


def test_counts_stay_exact_where_floats_do_not() -> None:
    # 60 choices of four, of which the first and the last are not both 0: 4^60 - 4^58, far past 2^53.
    space = compile_space([4] * 60, [Table("rule", (0, 59), bytes([2]) + bytes(15))])
    assert space.count() == (4**60 - 4**58, 0)


def test_the_next_cheapest_of_very_many_builds_is_at_hand() -> None:
    sizes = [4] * 60
    tally = Tally("price", tuple(Term((choice,), (0, 1, 10, 100)) for choice in range(60)))
    space = compile_space(sizes, [Table("rule", (0, 59), bytes([2]) + bytes(15))], [tally])
    amounts = [amount for amount, _ in islice(space.k_cheapest("price"), 63)]
    # Choice 0 or 59 must cost 1; then one more of the other 59 each time, and 58 with the first two swapped.
    assert amounts == [1] * 2 + [2] * 61
    assert space.range("price") == (1, 6000)


def test_shared_endings_of_a_long_listing_make_whole_builds() -> None:
    listed = list(compile_space([5, 3, 4, 5, 2, 5, 3], []).builds())
    assert len(listed) == len(set(listed)) == 9000
    assert set(listed) == set(product(*map(range, [5, 3, 4, 5, 2, 5, 3])))


def hard_tables(choices: int) -> list[Table]:
    """Tables that no order keeps narrow: every two choices share one."""
    unlike = bytes(2 if one == other else 0 for one in range(6) for other in range(6))
    return [Table(f"{a}_{b}", (a, b), unlike) for a in range(choices) for b in range(a + 1, choices)]


@pytest.mark.parametrize("order", [None, tuple(range(12))])
def test_past_the_cap_a_space_is_not_known(order: Sequence[int] | None) -> None:
    with pytest.raises(NotKnown):
        compile_space([6] * 12, hard_tables(12), order=order, cap=50)


@pytest.mark.parametrize(
    ("sizes", "table"),
    [
        ([2, 0], Table("t", (0,), bytes(2))),
        ([2, 2], Table("t", (1, 0), bytes(4))),
        ([2, 2], Table("t", (0, 0), bytes(4))),
        ([2, 2], Table("t", (0, 2), bytes(4))),
        ([2, 2], Table("t", (0, 1), bytes(3))),
        ([2, 2], Table("t", (0,), bytes([0, 3]))),
    ],
)
def test_shapes_that_do_not_fit_are_refused(sizes: list[int], table: Table) -> None:
    with pytest.raises(ValueError):
        compile_space(sizes, [table])


def test_amounts_orders_and_picks_that_do_not_fit_are_refused() -> None:
    with pytest.raises(ValueError):
        compile_space([2], [], [Tally("price", (Term((0,), (0, 2**60)),))])
    with pytest.raises(ValueError):
        compile_space([2], [], [NO_TALLY, NO_TALLY])
    with pytest.raises(ValueError):
        compile_space([2, 2], [], order=[0, 0])
    for choice, option in ((0, 2), (0, -1), (-1, 0), (1, 0)):
        with pytest.raises(ValueError):
            compile_space([2], []).pick(choice, option)


@given(catalogues())
def test_past_the_cap_of_sets_causes_say_so_and_are_still_right(catalogue: Catalogue) -> None:
    whole, most = catalogue.picked(), causes.MOST_SETS
    causes.MOST_SETS = 1
    try:
        cut = catalogue.picked()
        give_ups, conflicts = cut.give_ups(), cut.conflicts()
    finally:
        causes.MOST_SETS = most
    assert set(give_ups) <= set(whole.give_ups())
    assert set(conflicts) <= catalogue.conflicts()
    assert bool(give_ups) == bool(whole.give_ups())
    assert bool(conflicts) == bool(whole.conflicts())
    if set(give_ups) < set(whole.give_ups()):
        assert not give_ups.exact
    if set(conflicts) < set(whole.conflicts()):
        assert not conflicts.exact


@given(catalogues())
def test_live_sets_that_were_forgotten_are_found_again(catalogue: Catalogue) -> None:
    space, kept = catalogue.space(), diagram.KEPT_IMAGES
    diagram.KEPT_IMAGES = 1
    try:
        for choice, option in catalogue.picks.items():
            space = space.pick(choice, option)
            space.standings()
        assert space.standings() == catalogue.picked().standings()
    finally:
        diagram.KEPT_IMAGES = kept
    assert sorted(space.builds()) == sorted(catalogue.left())


def test_a_space_handed_on_is_not_changed_by_what_is_asked_of_its_children() -> None:
    space = compile_space([2, 2, 2], [Table("rule", (0, 2), bytes([0, 2, 2, 1]))])
    before = space.standings(), space.count()
    children: list[Space] = [space.pick(0, 1), space.pick(2, 0), space.pick_all({0: 0, 2: 1})]
    assert [child.count() for child in children] == [(0, 2), (2, 0), (0, 0)]
    assert (space.standings(), space.count()) == before
