"""What a space is compiled from: tables of standings and tallies of amounts, over choices known by their index.

A choice is an index into `sizes`, an option an index below the choice's size, a build one option for every choice.
Cells stand row-major over their scope: the last choice of the scope runs fastest. The numbers of the standings are
ordered: the worst of several is their maximum.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import prod
from typing import NamedTuple

FREE, BY_ARRANGEMENT, IMPOSSIBLE = 0, 1, 2

Build = tuple[int, ...]

# Sums of amounts along the edges of a diagram are kept in 64 bits; no quote comes near this.
GREATEST_AMOUNT = 2**48


class Table(NamedTuple):
    """The standing that one rule gives to every combination of its choices.

    `scope` holds choices in ascending order, `standings` one byte a combination: 0 free, 1 by arrangement, 2
    impossible. An empty scope has one combination, and speaks of every build.
    """

    name: str
    scope: tuple[int, ...]
    standings: bytes


class Term(NamedTuple):
    """One part of a tally: an amount for every combination of the choices of `scope` (ascending)."""

    scope: tuple[int, ...]
    amounts: tuple[int, ...]


class Tally(NamedTuple):
    """A quantity that adds up over a build: the sum of its terms, in whole numbers of whatever unit the caller counts
    in.
    """

    id: str
    terms: tuple[Term, ...]

    def amount(self, sizes: Sequence[int], build: Sequence[int]) -> int:
        """What the build adds up to."""
        return sum(term.amounts[row_of(term.scope, sizes, build)] for term in self.terms)


def row_of(scope: Sequence[int], sizes: Sequence[int], build: Sequence[int]) -> int:
    """The cell of a table over `scope` that speaks of `build`."""
    row = 0
    for choice in scope:
        row = row * sizes[choice] + build[choice]
    return row


def check_shapes(sizes: Sequence[int], tables: Sequence[Table], tallies: Sequence[Tally]) -> None:
    """Raise ValueError where a size, scope, standing or amount is not what the shapes above promise."""
    if any(size < 1 for size in sizes):
        raise ValueError("every choice has at least one option")
    for table in tables:
        _check_scope(f"table {table.name!r}", table.scope, sizes, len(table.standings))
        if table.standings.translate(None, b"\x00\x01\x02"):
            raise ValueError(f"table {table.name!r}: a standing is 0, 1 or 2")
    if len({tally.id for tally in tallies}) < len(tallies):
        raise ValueError("two tallies share an id")
    for tally in tallies:
        for term in tally.terms:
            _check_scope(f"tally {tally.id!r}", term.scope, sizes, len(term.amounts))
            if any(abs(amount) > GREATEST_AMOUNT for amount in term.amounts):
                raise ValueError(f"tally {tally.id!r}: an amount is beyond {GREATEST_AMOUNT}")


def _check_scope(whose: str, scope: tuple[int, ...], sizes: Sequence[int], cells: int) -> None:
    if any(not 0 <= choice < len(sizes) for choice in scope) or any(a >= b for a, b in pairwise(scope)):
        raise ValueError(f"{whose}: the scope {scope} is not an ascending run of choices")
    if cells != prod(sizes[choice] for choice in scope):
        raise ValueError(f"{whose}: {cells} cells do not fill the scope {scope}")
