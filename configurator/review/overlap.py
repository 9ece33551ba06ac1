"""What two versions of a family have in common: both their rules over the choices and options that both have.

A choice of one side only is left out of the comparison: a build of the common choices stands there as well as its best
completion does. So what is compared are builds that a caller could ask of either side in the same words.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import product
from math import prod
from typing import NamedTuple

from configurator.faults import NotKnown
from configurator.rulebook import WIDEST, Rulebook
from configurator.space import FREE, Table
from configurator.space.tables import row_of


class Side(NamedTuple):
    """One side's rules over the common choices: `whole` over all its options, `tables` over the common ones."""

    sizes: tuple[int, ...]
    whole: tuple[Table, ...]
    tables: tuple[Table, ...]


class Overlap(NamedTuple):
    """Common choices and options, in the order of ids and of the new side; the rules of both sides over them."""

    choices: tuple[str, ...]
    options: tuple[tuple[str, ...], ...]
    old: Side
    new: Side

    @property
    def sizes(self) -> tuple[int, ...]:
        """How many common options each common choice has."""
        return tuple(len(options) for options in self.options)

    def picks(self, build: Sequence[int]) -> dict[str, str]:
        """A build of the common choices as option ids by choice."""
        return {id: self.options[number][build[number]] for number, id in enumerate(self.choices)}


def meet(old: Rulebook, new: Rulebook) -> Overlap:
    """The overlap of two rulebooks. NotKnown where too much hangs on a choice of one side to leave it out."""
    before, after = _ids(old), _ids(new)
    common = {id: tuple(one for one in options if one in before.get(id, ())) for id, options in after.items()}
    common = {id: options for id, options in common.items() if options}
    return Overlap(tuple(common), tuple(common.values()), _side(old, common), _side(new, common))


def _ids(book: Rulebook) -> dict[str, tuple[str, ...]]:
    options = (tuple(option.id for option in options) for options in book.options)
    return dict(zip(book.choices, options, strict=True))


def _side(book: Rulebook, common: Mapping[str, Sequence[str]]) -> Side:
    tables, sizes, options = list(book.tables), book.sizes, _ids(book)
    lonely = {number for number, choice in enumerate(book.choices) if choice not in common}
    while lonely:
        choice = min(lonely, key=lambda one: (len(_around(tables, one)), one))
        tables = _left_out(tables, sizes, choice, book.choices[choice])
        lonely.remove(choice)
    place = {book.choices.index(id): number for number, id in enumerate(common)}
    kept = [[options[id].index(one) for one in common[id]] for id in common]
    whole = [table._replace(scope=tuple(place[choice] for choice in table.scope)) for table in tables]
    sizes = tuple(len(options[id]) for id in common)
    return Side(sizes, tuple(whole), tuple(_cut_down(table, sizes, kept) for table in whole))


def _around(tables: Sequence[Table], choice: int) -> tuple[int, ...]:
    """The choices that rules tie to one."""
    return tuple(sorted({other for table in tables if choice in table.scope for other in table.scope} - {choice}))


def _left_out(tables: Sequence[Table], sizes: Sequence[int], choice: int, id: str) -> list[Table]:
    """The tables with one choice settled as well as it can be: those over it become one over the choices around it."""
    over = [table for table in tables if choice in table.scope]
    rest = [table for table in tables if choice not in table.scope]
    scope = _around(tables, choice)
    if not over:
        return rest
    if prod(sizes[other] for other in scope) > WIDEST:
        raise NotKnown(f"too many rules hang on {id}, which one side does not have, to leave it out of the comparison")
    build = [0] * len(sizes)

    def worst(option: int) -> int:
        build[choice] = option
        return max(table.standings[row_of(table.scope, sizes, build)] for table in over)

    said = bytearray()
    for row in product(*(range(sizes[other]) for other in scope)):
        for other, option in zip(scope, row, strict=True):
            build[other] = option
        said.append(min(map(worst, range(sizes[choice])), default=FREE))
    return [*rest, Table(f"choice {id}", scope, bytes(said))]


def _cut_down(table: Table, sizes: Sequence[int], kept: Sequence[Sequence[int]]) -> Table:
    """The table over some options of each choice, in their new order."""
    if all(list(kept[choice]) == list(range(sizes[choice])) for choice in table.scope):
        return table
    build = [0] * len(sizes)
    said = bytearray()
    for row in product(*(kept[choice] for choice in table.scope)):
        for choice, option in zip(table.scope, row, strict=True):
            build[choice] = option
        said.append(table.standings[row_of(table.scope, sizes, build)])
    return table._replace(standings=bytes(said))
