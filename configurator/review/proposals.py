"""Examples for a rule that has none: one that it passes and one that it alone refuses, near to what is usual."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product
from typing import NamedTuple

from configurator.catalogue.names import Reckoner
from configurator.catalogue.rules import FREE, IMPOSSIBLE, Rule
from configurator.review.bench import Bench
from configurator.review.trials import condition_table, try_rule
from configurator.rulebook import speak
from configurator.space import Build, Table

Picks = Mapping[str, str]


class Proposal(NamedTuple):
    """Picks over the rule's choices; empty where there is no such build, or where the rule waits for a duty."""

    passes: Picks
    fails: Picks


def propose(bench: Bench, rule: Rule) -> Proposal:
    """An example of each kind. NotKnown past the cap of the search."""
    if rule.id not in bench.tables:
        return Proposal({}, {})
    said = _said(bench, rule)
    near_miss = try_rule(bench, rule).near_miss
    fails = near_miss or _kept(bench, rule, said, worse=True)
    return Proposal(*(_over_scope(bench, rule, build) for build in (_passing(bench, rule, said), fails)))


def _said(bench: Bench, rule: Rule) -> Table:
    """The rule's table with what it advises against as impossible too."""
    book, scope = bench.book, bench.tables[rule.id].scope
    ids = [book.choices[number] for number in scope]
    rows = (dict(zip(ids, row, strict=True)) for row in product(*(book.options[number] for number in scope)))
    found = (speak(rule, row, Reckoner(book.vocabulary, row, {})) for row in rows)
    return Table(rule.id, scope, bytes(IMPOSSIBLE if one.advised or one.standing else FREE for one in found))


def _passing(bench: Bench, rule: Rule, said: Table) -> Build | None:
    """A build that meets the rule's condition, if it has one, and passes."""
    condition = condition_table(bench.book, rule)
    if condition is not None and condition.scope != said.scope:
        condition = _widened(bench, condition, said.scope)
    if condition is not None:
        pairs = zip(said.standings, condition.standings, strict=True)
        both = bytes(FREE if not worse and held else IMPOSSIBLE for worse, held in pairs)
        found = bench.possible.build("", where=said._replace(standings=both))
        if found is not None:
            return found
    return _kept(bench, rule, said, worse=False)


def _widened(bench: Bench, table: Table, scope: tuple[int, ...]) -> Table:
    """The same table over more choices."""
    sizes = bench.book.sizes
    places = [scope.index(choice) for choice in table.scope]
    cells = dict(zip(product(*(range(sizes[choice]) for choice in table.scope)), table.standings, strict=True))
    rows = product(*(range(sizes[choice]) for choice in scope))
    return Table(table.name, scope, bytes(cells[tuple(row[place] for place in places)] for row in rows))


def _kept(bench: Bench, rule: Rule, said: Table, worse: bool) -> Build | None:
    """A build that the other rules allow, and that this one passes, or does not."""
    turned = said.standings if not worse else bytes(IMPOSSIBLE - one for one in said.standings)
    return bench.possible.build(rule.id, where=said._replace(standings=turned))


def _over_scope(bench: Bench, rule: Rule, build: Build | None) -> Picks:
    if build is None:
        return {}
    picks = bench.book.picks(build)
    return {bench.book.choices[number]: picks[bench.book.choices[number]] for number in bench.tables[rule.id].scope}
