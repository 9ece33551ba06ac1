"""Rules that no example would miss: each of their examples is refused by other rules as well, or there is none.

An example catches the loss of a rule if, with the rule gone, it comes out otherwise. What would catch it is a near
miss: a build that this rule alone refuses.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from configurator.catalogue.rules import BY_ARRANGEMENT, FREE, IMPOSSIBLE
from configurator.catalogue.shops import Expected, Shop
from configurator.faults import Faulty
from configurator.load.enquiry import enquiry_of
from configurator.review.alone import Others
from configurator.review.bench import Bench
from configurator.review.examples import combination, speaks_of
from configurator.review.findings import Finding
from configurator.review.trials import Trial
from configurator.space import Table
from configurator.space.tables import row_of

Picks = Mapping[int, int]


class Asked(NamedTuple):
    """The picks of an expected answer that is not free, and the standing that it expects."""

    picks: Picks
    standing: int


def asked_of(bench: Bench, shop: Shop) -> tuple[Asked, ...]:
    """The expected answers of a family that a rule's loss could change, as far as they ask without a duty."""
    found = (_asked(bench, shop, one) for one in bench.family.expected)
    return tuple(one for one in found if one)


def _asked(bench: Bench, shop: Shop, expected: Expected) -> Asked | None:
    standing = {"impossible": IMPOSSIBLE, "by_arrangement": BY_ARRANGEMENT}.get(expected.verdict, FREE)
    try:
        enquiry = enquiry_of(expected.enquiry, shop, expected.place)
        if standing == FREE or enquiry.duty or enquiry.misfits:
            return None
        told = {choice: pick.option for choice, pick in enquiry.picks.items()}
        taken = {id: one.taken_as for id, one in bench.family.choices.items() if one.taken_as}
        return Asked(dict(bench.book.numbered(*pick) for pick in (taken | told).items()), standing)
    except (Faulty, KeyError):
        return None  # said of the expected answer itself


def is_covered(bench: Bench, trial: Trial, expected: Iterable[Asked]) -> bool:
    """Whether some example, or some expected answer, would come out otherwise without the rule."""
    table = bench.tables[trial.rule.id]
    for example in trial.rule.fails:
        if speaks_of(example, bench.family):
            options, _ = combination(example, bench.family)
            try:
                picks = dict(bench.book.numbered(id, option.id) for id, option in options.items())
                standing = table.standings[_row(table, bench, picks)]
            except KeyError:
                continue  # an example that does not say enough is a finding of its own
            if standing != FREE and _others(bench, standing).build(trial.rule.id, picks) is not None:
                return True
    return any(_others(bench, one.standing).build(trial.rule.id, one.picks) is not None for one in expected)


def _others(bench: Bench, standing: int) -> Others:
    return bench.possible if standing == IMPOSSIBLE else bench.free


def _row(table: Table, bench: Bench, picks: Picks) -> int:
    build = [picks[choice] if choice in table.scope else 0 for choice in range(len(bench.book.choices))]
    return row_of(table.scope, bench.book.sizes, build)


def find_uncovered(bench: Bench, trials: Iterable[Trial], expected: Iterable[Asked]) -> Iterator[Finding]:
    """Each rule that does something and that no example would miss, with the near miss that would."""
    expected = tuple(expected)
    for trial in trials:
        if trial.near_miss is not None and not is_covered(bench, trial, expected):
            rule, build = trial.rule, bench.book.picks(trial.near_miss)
            usual = bench.book.picks(bench.usual)
            scope = {bench.book.choices[number] for number in bench.tables[rule.id].scope}
            shown = {id: option for id, option in build.items() if id in scope or option != usual[id]}
            why = "its examples of fails break other rules as well" if rule.fails else "it has no example of fails"
            spoken = ", ".join(f'{id} = "{build[id]}"' for id in build if id in scope)
            wrong = f"no example would be missed if it vanished: {why}"
            yield Finding(rule.place, rule.id, wrong, f"add to fails: {{ {spoken} }}", "uncovered", shown)
