"""A second opinion: the same builds found by plain search, with nothing shared but the tables themselves."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from configurator.space.tables import FREE, IMPOSSIBLE, Build, Table


def plain_builds(
    sizes: Sequence[int], tables: Sequence[Table], picks: Mapping[int, int] | None = None
) -> Iterator[tuple[Build, int]]:
    """Every build that the tables allow under the picks, with its standing, in no promised order."""
    picks = picks or {}
    if any(not table.scope and table.standings[0] == IMPOSSIBLE for table in tables):
        return
    for build in _solutions(sizes, tables, picks):
        standings = [_standing(table, sizes)(*[build[choice] for choice in table.scope]) for table in tables]
        yield build, max(standings, default=FREE)


def _solutions(sizes: Sequence[int], tables: Sequence[Table], picks: Mapping[int, int]) -> Iterator[Build]:
    if not sizes:
        yield ()
        return
    from constraint import Problem  # type: ignore[import-untyped]  # five times the start of a bare interpreter, and wanted only to prove a catalogue

    problem = Problem()
    for choice, size in enumerate(sizes):
        problem.addVariable(choice, [picks[choice]] if choice in picks else list(range(size)))
    for table in tables:
        if table.scope:
            problem.addConstraint(_allows(_standing(table, sizes)), table.scope)
    for solution in problem.getSolutionIter():
        yield tuple(solution[choice] for choice in range(len(sizes)))


def _standing(table: Table, sizes: Sequence[int]) -> Callable[..., int]:
    """The table as a function of the options of its scope."""

    def standing(*options: int) -> int:
        row = 0
        for choice, option in zip(table.scope, options, strict=True):
            row = row * sizes[choice] + option
        return table.standings[row]

    return standing


def _allows(standing: Callable[..., int]) -> Callable[..., bool]:
    return lambda *options: standing(*options) != IMPOSSIBLE
