"""A shop's rules put to the test. The checks stand in a list: a new one is one entry more."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

from configurator.catalogue.shops import Family
from configurator.desk import Desk
from configurator.faults import NotKnown
from configurator.review.bench import Bench, lay_bench
from configurator.review.census import take_census
from configurator.review.coverage import asked_of, find_uncovered
from configurator.review.examples import check_examples, speaks_of
from configurator.review.expectations import check_expected
from configurator.review.findings import Census, Finding, Findings, Proof, Told, silent
from configurator.review.footing import find_memories, find_unused, find_wide
from configurator.review.options import find_dead, find_forced, find_together
from configurator.review.trials import Trial, judge_trial, try_rules

SOUND: tuple[Callable[[Bench], Iterator[Finding]], ...] = (find_unused, find_memories, find_wide)
"""Checks that make sense whatever the rules leave."""

OF_BUILDS: tuple[Callable[[Bench], Iterator[Finding]], ...] = (find_dead, find_forced, find_together)
"""Checks that make sense only where some build is left."""


Seen = Census | Finding | Proof


def lint(desk: Desk, today: date, proving: bool = False, told: Told = silent) -> Findings:
    """Look a shop over: what must be mended, what is worth a thought, and how large its families are."""
    seen = list(look_over(desk, today, proving, told))
    found = sorted((one for one in seen if isinstance(one, Finding)), key=lambda one: one[:5])
    families = desk.shop.families.values()
    return Findings(
        tuple(one for one in seen if isinstance(one, Census)),
        sum(_examples_of(family) for family in families),
        sum(len(family.expected) for family in families),
        tuple(one for one in found if one.grave),
        tuple(one for one in found if not one.grave),
        tuple(one for one in seen if isinstance(one, Proof)),
    )


def look_over(desk: Desk, today: date, proving: bool = False, told: Told = silent) -> Iterator[Seen]:
    """The same, told one by one as it is seen."""
    for family in desk.shop.families.values():
        told(f"{family.id}: laying out the rules")
        bench = lay_bench(desk, family, today)
        yield take_census(bench.case)
        for rule in family.rules.values():
            yield from check_examples(rule, bench.book.vocabulary)
        for number, expected in enumerate(family.expected, 1):
            told(f"{family.id}: asking expected answer {number:,} of {len(family.expected):,}")
            yield from check_expected(desk, expected, today)
        for check in SOUND:
            yield from check(bench)
        yield from _of_builds(bench, desk, told)
        if proving:
            from configurator.review.proof import prove

            yield from prove(bench.case, told)


def _of_builds(bench: Bench, desk: Desk, told: Told) -> Iterator[Finding]:
    """What can be said only where some build is left; if none is, the fewest rules that see to that."""
    if not bench.case.space.possible():
        yield _no_build(bench)
        return
    for check in OF_BUILDS:
        told(f"{bench.family.id}: looking at the options")
        yield from check(bench)
    trials = []
    for one in try_rules(bench, told):
        if isinstance(one, Trial):
            trials.append(one)
            yield from judge_trial(bench, one)
        else:
            yield one
    told(f"{bench.family.id}: looking for rules without an example")
    yield from find_uncovered(bench, trials, asked_of(bench, desk.shop))


def _no_build(bench: Bench) -> Finding:
    family = bench.family
    try:
        behind = ", ".join(bench.case.space.rules_behind({}))
    except NotKnown:
        behind = "so many rules that the fewest of them are not known"
    wrong = f"no build is left; refused by {behind}"
    return Finding(family.place, family.id, wrong, "mend one of these rules", "no build")


def _examples_of(family: Family) -> int:
    rules = family.rules.values()
    return sum(speaks_of(example, family) for rule in rules for example in (*rule.passes, *rule.fails))
