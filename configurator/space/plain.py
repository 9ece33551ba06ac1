"""A second opinion: the same builds found by plain search, with nothing shared but the tables themselves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product

from configurator.space.tables import FREE, IMPOSSIBLE, Build, Table

Cells = dict[tuple[int, ...], int]


def plain_builds(
    sizes: Sequence[int], tables: Sequence[Table], picks: Mapping[int, int] | None = None
) -> Iterator[tuple[Build, int]]:
    """Every build that the tables allow under the picks, with its standing, in no promised order."""
    picks = picks or {}
    left = [_under(picks, table, sizes) for table in tables]
    if any(not scope and cells[()] == IMPOSSIBLE for scope, cells in left):
        return
    telling = [(scope, cells) for scope, cells in left if any(cells.values())]
    for build in _solutions(sizes, telling, picks):
        standings = [cells[tuple([build[choice] for choice in scope])] for scope, cells in telling]
        yield build, max(standings, default=FREE)


def _under(picks: Mapping[int, int], table: Table, sizes: Sequence[int]) -> tuple[tuple[int, ...], Cells]:
    """What the picks leave of a table: its open choices, and the standing of each combination of them."""
    scope = tuple(choice for choice in table.scope if choice not in picks)
    rows = product(*(range(sizes[choice]) for choice in table.scope))
    cells = {
        tuple(option for choice, option in zip(table.scope, row, strict=True) if choice not in picks): standing
        for row, standing in zip(rows, table.standings, strict=True)
        if all(picks.get(choice, option) == option for choice, option in zip(table.scope, row, strict=True))
    }
    return scope, cells


def _solutions(
    sizes: Sequence[int], tables: Sequence[tuple[tuple[int, ...], Cells]], picks: Mapping[int, int]
) -> Iterator[Build]:
    # Five times the start of a bare interpreter, and wanted only to prove a catalogue.
    from constraint import Problem  # type: ignore[import-untyped]

    free = [choice for choice in range(len(sizes)) if choice not in picks]
    if not free:
        yield tuple(picks[choice] for choice in range(len(sizes)))
        return
    problem = Problem()
    for choice in free:
        problem.addVariable(choice, list(range(sizes[choice])))
    for scope, cells in tables:
        if scope and IMPOSSIBLE in cells.values():
            problem.addConstraint(lambda *options, cells=cells: cells[options] != IMPOSSIBLE, scope)
    for solution in problem.getSolutionIter():
        solution |= picks
        yield tuple([solution[choice] for choice in range(len(sizes))])
