"""Many builds side by side: the list of all that picks allow, and a few compared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from configurator.appraise import appraise, priced, tallied
from configurator.build import Build
from configurator.case import PRICE, Case
from configurator.catalogue.rules import STANDINGS
from configurator.completing import build_of, complete
from configurator.load.codes import build_code
from configurator.quote import Totals


class Row(NamedTuple):
    """One build of a list."""

    picks: Mapping[str, str]
    standing: str
    code: str
    net: Decimal
    tallies: Mapping[str, str]


class Column(NamedTuple):
    """One build of a comparison."""

    name: str
    build: Build
    totals: Totals
    working_days: int
    tallies: Mapping[str, str]
    margins: Mapping[str, str]


class Comparison(NamedTuple):
    """Builds side by side; `differing` are the choices in which they differ."""

    columns: tuple[Column, ...]
    differing: tuple[str, ...]


def list_builds(case: Case, sort: str = "", free_only: bool = False) -> Iterator[Row]:
    """Every build that the picks allow, lazily.

    By a tally ("price", "mass"), least first, or in the space's own order.
    """
    picked = case.picked()
    ordered = picked.k_cheapest(sort, free=free_only) if sort else None
    builds = (build for _, build in ordered) if ordered else picked.builds(free_only=free_only)
    for build in builds:
        picks = case.book.picks(build)
        standing = STANDINGS[picked.judge(build)]
        yield Row(picks, standing, build_code(case.family, picks, ()), priced(case, picks).net, tallied(case, picks))


def sorts(case: Case) -> tuple[str, ...]:
    """What a list can be sorted by."""
    return (PRICE, *(tally.id for tally in case.family.tallies))


def compare_cases(cases: Sequence[tuple[str, Case]]) -> Comparison:
    """The completed builds of several possible cases of one family, side by side."""
    columns = []
    for name, case in cases:
        completed = complete(case, case.picked())
        appraisal = appraise(case, completed.picks)
        build = build_of(case, completed, appraisal.checked.standing)
        margins = {check.rule: check.margin for check in appraisal.checked.checks if check.margin}
        columns.append(Column(name, build, appraisal.totals, appraisal.promise.planned, appraisal.tallies, margins))
    picks = [column.build.picks for column in columns]
    differing = tuple(choice for choice in picks[0] if len({one[choice] for one in picks}) > 1)
    return Comparison(tuple(columns), differing)
