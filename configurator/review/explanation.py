"""One rule explained: what it says, where it stands, what it excludes alone and together with the others."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import islice, product
from math import prod
from typing import NamedTuple

from configurator.catalogue.rules import BY_ARRANGEMENT, FREE, IMPOSSIBLE, STANDINGS, Rule
from configurator.catalogue.shops import Family
from configurator.desk import Desk, lay
from configurator.enquiry import Enquiry
from configurator.faults import Fault, Faulty, NotKnown
from configurator.load.sheets import COMMAND_LINE
from configurator.load.words import suggest
from configurator.review.bench import usual_build
from configurator.review.difference import Difference, compare
from configurator.review.overlap import meet
from configurator.review.sentences import sentence_of
from configurator.rulebook import Rulebook, reach_of
from configurator.space import Build, Table, compile_space

SHOWN = 8
"""Combinations that are shown; the others are counted."""


class Excluded(NamedTuple):
    """A combination that the rule does not leave free, with the standing that it gives."""

    picks: Mapping[str, str]
    standing: str


class Explanation(NamedTuple):
    """A rule explained. Where it waits for a duty, only its sentence, its scope and what it waits for are told.

    Of `combinations` in its scope it finds `refused` impossible and `signed` by arrangement: if it were the only rule,
    that would be `alone` of `all_builds` refused. `cost` is the difference that it makes beside all others, with the
    options other than usual of the nearest build that shows it. `others` are rules that refuse the same, where it costs
    nothing.
    """

    rule: Rule
    family: Family
    sentence: str
    scope: tuple[str, ...]
    waits_for: tuple[str, ...]
    combinations: int = 0
    refused: int = 0
    signed: int = 0
    alone: int = 0
    all_builds: int = 0
    excluded: tuple[Excluded, ...] = ()
    cost: Difference | None = None
    nearest: Mapping[str, Mapping[str, str]] = {}
    others: tuple[str, ...] = ()


def explain_rule(desk: Desk, id: str, today: date, family: str = "") -> tuple[Explanation, ...]:
    """Explain a rule in every family that has it, or in one. Faulty, with the nearest, where there is none."""
    families = [one for one in desk.shop.families.values() if family in ("", one.id)]
    known = {rule for one in families for rule in one.rules}
    if id not in known:
        raise Faulty([Fault(COMMAND_LINE, id, "there is no such rule", suggest(id, known, "rules"))])
    return tuple(_explain(desk, one, one.rules[id], today) for one in families if id in one.rules)


def _explain(desk: Desk, family: Family, rule: Rule, today: date) -> Explanation:
    case = lay(desk, Enquiry(family.id, {}), today)
    book = case.book
    scope = tuple(sorted(reach_of(rule, book.vocabulary).choices))
    said = Explanation(rule, family, sentence_of(rule, family), scope, book.unchecked.get(rule.id, ()))
    table = next((table for table in book.tables if table.name == rule.id), None)
    if table is None:
        return said
    others = book._replace(tables=tuple(one for one in book.tables if one is not table))
    usual, refused, total = usual_build(case), table.standings.count(IMPOSSIBLE), prod(book.sizes)
    cost = compare(meet(others, book), case.space.order, usual, usual)
    changes = any(number for (before, after), number in cost.moves.items() if before != after)
    return said._replace(
        combinations=len(table.standings),
        refused=refused,
        signed=table.standings.count(BY_ARRANGEMENT),
        alone=refused * total // len(table.standings),
        all_builds=total,
        excluded=tuple(islice(_excluded(table, book), SHOWN)),
        cost=cost,
        nearest={change: _unusual(book, build, usual) for change, build in cost.witnesses.items()},
        others=() if changes else _also_refusing(others, case.space.order, table),
    )


def _excluded(table: Table, book: Rulebook) -> Iterator[Excluded]:
    """The combinations that are not free, in the order of the table."""
    rows = product(*(book.options[choice] for choice in table.scope))
    ids = [book.choices[choice] for choice in table.scope]
    for row, standing in zip(rows, table.standings, strict=True):
        if standing != FREE:
            yield Excluded({id: option.id for id, option in zip(ids, row, strict=True)}, STANDINGS[standing])


def _unusual(book: Rulebook, build: Build, usual: Build) -> dict[str, str]:
    picks, as_usual = book.picks(build), book.picks(usual)
    return {choice: option for choice, option in picks.items() if option != as_usual[choice]}


def _also_refusing(others: Rulebook, order: Sequence[int], table: Table) -> tuple[str, ...]:
    """The rules that refuse, without this one, what it refuses: the fewest for each of some combinations, together."""
    space = compile_space(others.sizes, others.tables, (), order)
    rows = zip(product(*(range(others.sizes[choice]) for choice in table.scope)), table.standings, strict=True)
    refused = (dict(zip(table.scope, row, strict=True)) for row, standing in rows if standing == IMPOSSIBLE)
    behind: set[str] = set()
    for picks in islice(refused, SHOWN):
        try:
            behind.update(space.rules_behind(picks))
        except NotKnown:
            continue
    return tuple(sorted(behind))
