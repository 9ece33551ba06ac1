"""Two versions of a family's rules, build by build: how many each edit adds, removes and gives another standing.

Nothing is estimated and no build is listed: all counts come from spaces that hold both versions' tables together. A
build that both find possible is in the space of both; one that the old finds free and the new possible is in the space
of both once the old's "by arrangement" counts as impossible; the rest is subtraction.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from configurator.faults import NotKnown
from configurator.review.alone import opposite
from configurator.review.overlap import Overlap, Side
from configurator.space import BY_ARRANGEMENT, FREE, IMPOSSIBLE, Build, Space, Table, Tally, Term, compile_space

Moves = Mapping[tuple[int, int], int]
"""How many common builds go from one standing to another; those that are and stay impossible are not counted."""

KINDS = {
    (False, False): "same",
    (False, True): "removes",
    (True, False): "adds",
    (True, True): "both",
}
"""The kinds of edit, by whether builds are added and whether some are removed (Thüm, Batory, Kästner, "Reasoning about
edits to feature models", ICSE 2009, where they are called refactoring, specialization, generalization and arbitrary).
"""

CHANGES = {
    "added": ((IMPOSSIBLE, FREE), (IMPOSSIBLE, BY_ARRANGEMENT)),
    "removed": ((FREE, IMPOSSIBLE), (BY_ARRANGEMENT, IMPOSSIBLE)),
    "freed": ((BY_ARRANGEMENT, FREE),),
    "signed": ((FREE, BY_ARRANGEMENT),),
}
"""What may happen to a build, as moves from one standing to another."""


class Counts(NamedTuple):
    """How many builds are free, and how many by arrangement."""

    free: int
    by_arrangement: int

    @property
    def possible(self) -> int:
        """All of them."""
        return self.free + self.by_arrangement


class Difference(NamedTuple):
    """`old` and `new` count all builds of either side over the common choices; `apart` those among them with an option
    that the other side lacks. `witnesses` has one build, nearest to the usual one, for each kind of change that there
    is: added, removed, freed (no signature any more), signed (a signature from now on).
    """

    old: Counts
    new: Counts
    old_apart: Counts
    new_apart: Counts
    moves: Moves
    witnesses: Mapping[str, Build]

    @property
    def added(self) -> Counts:
        """Builds that were impossible."""
        return Counts(self.moves[IMPOSSIBLE, FREE], self.moves[IMPOSSIBLE, BY_ARRANGEMENT])

    @property
    def removed(self) -> Counts:
        """Builds that are impossible now, by the standing that they had."""
        return Counts(self.moves[FREE, IMPOSSIBLE], self.moves[BY_ARRANGEMENT, IMPOSSIBLE])

    @property
    def kind(self) -> str:
        """The kind of edit."""
        return KINDS[self.added.possible > 0, self.removed.possible > 0]


def compare(overlap: Overlap, order: Sequence[int], usual_old: Build, usual_new: Build) -> Difference:
    """All that differs. `order` is a likely order of the common choices, the usual builds those of either side.

    NotKnown past the cap of a space.
    """
    sizes, old, new = overlap.sizes, _distinct(overlap.old.tables), _distinct(overlap.new.tables)
    counted = _Counting(sizes, order)
    moves = counted.moves(old, new)
    return Difference(
        old=counted.whole(overlap.old),
        new=counted.whole(overlap.new),
        old_apart=counted.apart(overlap.old, old),
        new_apart=counted.apart(overlap.new, new),
        moves=moves,
        witnesses=dict(counted.witnesses(old, new, moves, usual_old, usual_new)),
    )


class _Counting:
    """Spaces over the same choices, in an order that was found once."""

    def __init__(self, sizes: Sequence[int], order: Sequence[int]) -> None:
        self.sizes, self.order = tuple(sizes), order
        self.known: dict[tuple[tuple[int, ...], frozenset[Table]], Counts] = {}

    def compile(self, sizes: Sequence[int], tables: Iterable[Table], tallies: Sequence[Tally] = ()) -> Space:
        tables = tuple(tables)
        try:
            return compile_space(sizes, tables, tallies, self.order)
        except NotKnown:
            space = compile_space(sizes, tables, tallies)
            self.order = space.order
            return space

    def count(self, tables: Iterable[Table], sizes: tuple[int, ...] = ()) -> Counts:
        sizes, tables = sizes or self.sizes, tuple(tables)
        key = sizes, frozenset(tables)
        if key not in self.known:
            self.known[key] = Counts(*self.compile(sizes, tables).count())
        return self.known[key]

    def whole(self, side: Side) -> Counts:
        return self.count(_distinct(side.whole), side.sizes)

    def apart(self, side: Side, common: Iterable[Table]) -> Counts:
        """Builds with an option that the other side lacks."""
        whole, among = self.whole(side), self.count(common)
        return Counts(whole.free - among.free, whole.by_arrangement - among.by_arrangement)

    def moves(self, old: Sequence[Table], new: Sequence[Table]) -> Moves:
        was, now, both = self.count(old), self.count(new), self.count(_distinct([*old, *new]))
        free_now_possible = self.count(_distinct([*map(_strict, old), *new])).possible
        possible_now_free = self.count(_distinct([*old, *map(_strict, new)])).possible
        return {
            (FREE, FREE): both.free,
            (FREE, BY_ARRANGEMENT): free_now_possible - both.free,
            (FREE, IMPOSSIBLE): was.free - free_now_possible,
            (BY_ARRANGEMENT, FREE): possible_now_free - both.free,
            (BY_ARRANGEMENT, BY_ARRANGEMENT): both.possible - free_now_possible - possible_now_free + both.free,
            (BY_ARRANGEMENT, IMPOSSIBLE): was.possible - both.possible - (was.free - free_now_possible),
            (IMPOSSIBLE, FREE): now.free - possible_now_free,
            (IMPOSSIBLE, BY_ARRANGEMENT): now.possible - both.possible - (now.free - possible_now_free),
        }

    def witnesses(
        self, old: Sequence[Table], new: Sequence[Table], moves: Moves, usual_old: Build, usual_new: Build
    ) -> Iterable[tuple[str, Build]]:
        """The nearest build of each kind of change: kept by one side, and given worse by a rule of one side only."""
        only_old, only_new = _without(old, new), _without(new, old)
        found = {
            "added": (IMPOSSIBLE, new, only_old, usual_new),
            "removed": (IMPOSSIBLE, old, only_new, usual_old),
            "freed": (BY_ARRANGEMENT, [*map(_strict, new), *old], only_old, usual_new),
            "signed": (BY_ARRANGEMENT, [*map(_strict, old), *new], only_new, usual_old),
        }
        for change, (least, keeping, breaking, usual) in found.items():
            if any(moves[move] for move in CHANGES[change]):
                yield change, self.nearest(keeping, breaking, least, usual)

    def nearest(self, keeping: Sequence[Table], breaking: Iterable[Table], least: int, usual: Build) -> Build:
        """Of the builds that keep some tables and that one of the others gives `least` or worse, the one with the
        fewest options other than usual; there must be one.
        """
        apart = zip(usual, self.sizes, strict=True)
        near = Tally("near", tuple(_distance(choice, *pair) for choice, pair in enumerate(apart)))
        found = []
        for table in breaking:
            if max(table.standings, default=FREE) >= least:
                space = self.compile(self.sizes, [*keeping, opposite(table, least)], [near])
                found += [build for build in [space.cheapest("near")] if build]
        return min(found)[1]


def _distance(choice: int, usual: int, size: int) -> Term:
    return Term((choice,), tuple(int(option != usual) for option in range(size)))


def _strict(table: Table) -> Table:
    """The table with what is by arrangement made impossible."""
    return table._replace(standings=table.standings.replace(b"\1", b"\2"))


def _distinct(tables: Iterable[Table]) -> tuple[Table, ...]:
    """The tables without those that say nothing, and without twins, whatever their names."""
    kept = {(table.scope, table.standings): table for table in tables if any(table.standings)}
    return tuple(kept.values())


def _without(tables: Iterable[Table], others: Iterable[Table]) -> list[Table]:
    """The tables that say what none of the others says."""
    said = {(table.scope, table.standings) for table in others}
    return [table for table in tables if (table.scope, table.standings) not in said]
