"""Small random catalogues of tables and tallies, with every question about them answered by trying all builds."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations, product
from math import prod
from typing import NamedTuple

from hypothesis import strategies as st

from configurator.space import Build, Space, Table, Tally, Term, compile_space

# The most builds of a random catalogue: few enough to try them all, many times over.
MOST_BUILDS = 600

# Half of the cells of a random table are free, the rest by arrangement or impossible; shrinking makes them free.
STANDING_OF_BYTE = bytes(0 if byte < 128 else 1 if byte < 180 else 2 for byte in range(256))


@lru_cache
def rows_of(sizes: tuple[int, ...], scope: tuple[int, ...]) -> dict[tuple[int, ...], int]:
    """The row of every combination of a scope's options, counted off one by one."""
    return {row: number for number, row in enumerate(product(*[range(sizes[choice]) for choice in scope]))}


class Catalogue(NamedTuple):
    """Tables, tallies and picks, with the answers that a search through all builds gives."""

    sizes: tuple[int, ...]
    tables: tuple[Table, ...]
    tallies: tuple[Tally, ...]
    picks: dict[int, int]

    def space(self) -> Space:
        return compile_space(self.sizes, self.tables, self.tallies)

    def picked(self) -> Space:
        return self.space().pick_all(self.picks)

    def all_builds(self) -> list[Build]:
        return list(product(*[range(size) for size in self.sizes]))

    def standing(self, build: Build) -> int:
        return max((self.cell(table, build) for table in self.tables), default=0)

    def cell(self, table: Table, build: Build) -> int:
        return table.standings[rows_of(self.sizes, table.scope)[tuple(build[choice] for choice in table.scope)]]

    def amount(self, tally: Tally, build: Build) -> int:
        rows = [(term, tuple(build[choice] for choice in term.scope)) for term in tally.terms]
        return sum(term.amounts[rows_of(self.sizes, term.scope)[row]] for term, row in rows)

    def possible(self) -> dict[Build, int]:
        """Every build that is not impossible, with its standing; picks left aside."""
        standings = {build: self.standing(build) for build in self.all_builds()}
        return {build: standing for build, standing in standings.items() if standing < 2}

    def left(self) -> dict[Build, int]:
        """Every build that is not impossible and agrees with the picks, with its standing."""
        return {build: standing for build, standing in self.possible().items() if agrees(build, self.picks)}

    def give_ups(self) -> set[frozenset[int]]:
        """The smallest sets of picks in the way of some build."""
        in_the_way = [
            frozenset(choice for choice, option in self.picks.items() if build[choice] != option)
            for build in self.possible()
        ]
        return smallest(in_the_way)

    def conflicts(self) -> set[frozenset[int]]:
        """The smallest sets of picks that no build has together."""
        possible = self.possible()
        clashing = [
            some
            for some in subsets(sorted(self.picks))
            if not any(agrees(build, {choice: self.picks[choice] for choice in some}) for build in possible)
        ]
        return smallest(clashing)


def agrees(build: Build, picks: dict[int, int]) -> bool:
    return all(build[choice] == option for choice, option in picks.items())


def smallest(sets: list[frozenset[int]]) -> set[frozenset[int]]:
    """Those that contain no other of them."""
    return {one for one in sets if not any(other < one for other in sets)}


def subsets(choices: list[int]) -> list[frozenset[int]]:
    return [frozenset(some) for size in range(len(choices) + 1) for some in combinations(choices, size)]


@st.composite
def sizes(draw: st.DrawFn, least: int = 2, most: int = 8) -> tuple[int, ...]:
    """Two to eight choices of one to five options, `MOST_BUILDS` builds at the most."""
    drawn: list[int] = []
    for _ in range(draw(st.integers(least, most))):
        drawn.append(draw(st.integers(1, max(1, min(5, MOST_BUILDS // prod(drawn))))))
    return tuple(drawn)


@st.composite
def scopes(draw: st.DrawFn, choices: int, widest: int = 4) -> tuple[int, ...]:
    drawn = draw(st.sets(st.integers(0, choices - 1), max_size=min(widest, choices)))
    return tuple(sorted(drawn))


@st.composite
def cells(draw: st.DrawFn, sizes: tuple[int, ...], scope: tuple[int, ...]) -> bytes:
    count = prod(sizes[choice] for choice in scope)
    return draw(st.binary(min_size=count, max_size=count))


@st.composite
def tables(draw: st.DrawFn, sizes: tuple[int, ...], name: str) -> Table:
    # A table over no choice forbids everything or nothing: wanted now and then, and not in every other catalogue.
    scope = draw(scopes(len(sizes))) or draw(scopes(len(sizes)))
    return Table(name, scope, draw(cells(sizes, scope)).translate(STANDING_OF_BYTE))


@st.composite
def tallies(draw: st.DrawFn, sizes: tuple[int, ...], name: str) -> Tally:
    terms = []
    for _ in range(draw(st.integers(0, 5))):
        scope = draw(scopes(len(sizes), widest=3))
        terms.append(Term(scope, tuple(byte % 8 - 2 for byte in draw(cells(sizes, scope)))))
    return Tally(name, tuple(terms))


@st.composite
def catalogues(draw: st.DrawFn) -> Catalogue:
    drawn = draw(sizes())
    names = [f"rule_{number}" for number in range(draw(st.integers(0, 7)))]
    picked = draw(st.sets(st.integers(0, len(drawn) - 1)))
    return Catalogue(
        drawn,
        tuple(draw(tables(drawn, name)) for name in names),
        (draw(tallies(drawn, "price")), draw(tallies(drawn, "mass"))),
        {choice: draw(st.integers(0, drawn[choice] - 1)) for choice in sorted(picked)},
    )
