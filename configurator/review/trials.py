"""Every rule tried alone: does its condition ever hold, and what would slip through if it vanished?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from math import prod
from typing import NamedTuple

from configurator.catalogue.names import Reckoner
from configurator.catalogue.rules import BY_ARRANGEMENT, FREE, IMPOSSIBLE, STANDINGS, Implication, Limit, Rule
from configurator.faults import NotKnown
from configurator.review.alone import opposite
from configurator.review.bench import Bench
from configurator.review.findings import Finding, Told
from configurator.rulebook import WIDEST, Rulebook, reach_of, speak
from configurator.space import Build, Table


class Trial(NamedTuple):
    """One rule, tried. `near_miss` is a build that this rule alone gives `standing`, all others giving better.

    `idle` says that no build that the other rules allow meets the rule's condition.
    """

    rule: Rule
    near_miss: Build | None = None
    standing: int = FREE
    idle: bool = False


def try_rules(bench: Bench, told: Told) -> Iterator[Trial | Finding]:
    """Try every rule that can be judged without a duty; a finding for one whose search met its cap."""
    rules = [bench.family.rules[id] for id in bench.tables]
    for number, rule in enumerate(rules, 1):
        told(f"{bench.family.id}: trying rule {number:,} of {len(rules):,}")
        try:
            yield try_rule(bench, rule)
        except NotKnown as trouble:
            wrong = f"whether it changes anything is not known: {trouble}"
            yield Finding(rule.place, rule.id, wrong, "split it, or the rules around it", "not known")


def try_rule(bench: Bench, rule: Rule) -> Trial:
    """Try one rule that has a table. NotKnown past the cap of the search."""
    table = bench.tables[rule.id]
    for standing, others in ((IMPOSSIBLE, bench.possible), (BY_ARRANGEMENT, bench.free)):
        if standing in table.standings:
            found = others.build(rule.id, where=opposite(table, standing))
            if found is not None:
                return Trial(rule, found, standing)
    condition = None if _only_forbids(rule) else condition_table(bench.book, rule)
    idle = condition is not None and bench.possible.build(rule.id, where=opposite(condition)) is None
    return Trial(rule, idle=idle)


def _only_forbids(rule: Rule) -> bool:
    """Whether the condition is itself what the rule forbids: where others forbid it too, the rule is just pointless."""
    body = rule.body
    return isinstance(body, Implication) and not body.then and body.otherwise == "impossible"


def condition_table(book: Rulebook, rule: Rule) -> Table | None:
    """Where the rule's condition holds, as a table that finds it impossible there; None where it has no condition."""
    body = rule.body
    if not body.when and not (isinstance(body, Implication) and body.condition):
        return None
    formula = body.condition if isinstance(body, Implication) else ""
    asking = rule._replace(body=Implication(body.when, formula, (), "impossible"))
    reach = reach_of(asking, book.vocabulary)
    scope = tuple(number for number, choice in enumerate(book.choices) if choice in reach.choices)
    if reach.duties or prod(len(book.options[number]) for number in scope) > WIDEST:
        return None
    ids = [book.choices[number] for number in scope]
    rows = (dict(zip(ids, row, strict=True)) for row in product(*(book.options[number] for number in scope)))
    said = bytes(speak(asking, row, Reckoner(book.vocabulary, row, {})).standing for row in rows)
    return Table(rule.id, scope, said)


def is_pointless(trial: Trial) -> bool:
    """Whether the rule could go without any answer being different; a rule that advises never is."""
    return trial.near_miss is None and not trial.idle and not advises(trial.rule)


def advises(rule: Rule) -> bool:
    """Whether the rule has something to say that changes no standing."""
    body = rule.body
    if isinstance(body, Limit):
        return body.beyond == "advice" or bool(body.advice)
    return body.otherwise == "advice"


def judge_trial(bench: Bench, trial: Trial) -> Iterator[Finding]:
    """What is wrong with a rule as it was tried: a condition that never holds, or nothing that it changes."""
    rule = trial.rule
    if trial.idle:
        wrong = "its condition can never hold: no build that the other rules allow meets it"
        yield Finding(rule.place, rule.id, wrong, "mend the condition, or take the rule away", "condition")
    elif is_pointless(trial):
        standings = bench.tables[rule.id].standings
        worst = max(standings)
        if worst == FREE:
            wrong, way_out = "all listed options pass it", "keep it for values that are asked for, or take it away"
        else:
            wrong = f"changes nothing: whatever it gives {STANDINGS[worst].replace('_', ' ')}, other rules give too"
            way_out = "take it away, or keep it for its reason; of rules that say the same only one may go"
        yield Finding(rule.place, rule.id, wrong, way_out, "pointless")
