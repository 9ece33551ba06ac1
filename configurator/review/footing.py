"""What rules stand on: figures that no rule works out, limits that rest on memory, rules that speak of too much."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import prod

from configurator import language
from configurator.catalogue.choices import Fact
from configurator.catalogue.conditions import Condition
from configurator.catalogue.names import Vocabulary
from configurator.catalogue.rules import Implication, Limit, Rule
from configurator.catalogue.shops import Family
from configurator.limits import names_in
from configurator.review.bench import Bench
from configurator.review.findings import Finding
from configurator.rulebook import WIDEST, reach_of

WIDE = WIDEST // 5
"""Combinations from which on a rule is worth splitting; a rule of more than WIDEST cannot be tabled at all."""


def find_unused(bench: Bench) -> Iterator[Finding]:
    """Figures that neither a rule nor a figure in use works with."""
    family = bench.family
    used = _behind((name for rule in family.rules.values() for name in names_of(rule)), family)
    for figure in family.figures.values():
        if figure.id not in used:
            yield Finding(figure.place, figure.id, "no rule works with it", "use it, or take it away", "unused")


def find_memories(bench: Bench) -> Iterator[Finding]:
    """Limits whose numbers are from memory: their own, or those of facts that they work with."""
    family = bench.family
    for rule in family.rules.values():
        if isinstance(rule.body, Limit):
            names = _behind(names_in(rule.body), family)
            recalled = sorted(name for name in names for fact in _facts(name, family) if fact.basis == "from memory")
            if recalled or rule.basis == "from memory":
                what = f"rests on {', '.join(dict.fromkeys(recalled))}" if recalled else "rests on what was"
                way_out = "look it up, and write basis and source beside it"
                yield Finding(rule.place, rule.id, f"{what} from memory", way_out, "from memory")


def find_wide(bench: Bench) -> Iterator[Finding]:
    """Rules that speak of very many combinations: slow to table, and hard to read."""
    vocabulary = Vocabulary(bench.family)
    sizes = dict(zip(bench.case.book.choices, bench.case.book.sizes, strict=True))
    for rule in bench.family.rules.values():
        choices = reach_of(rule, vocabulary).choices
        rows = prod(sizes[choice] for choice in choices)
        if rows > WIDE:
            wrong = f"speaks of {rows:,} combinations of {', '.join(sorted(choices))}"
            way_out = f"split it: put what it works out into a figure of fewer choices; {WIDEST:,} are the most"
            yield Finding(rule.place, rule.id, wrong, way_out, "wide")


def names_of(rule: Rule) -> Iterator[str]:
    """Every name that a rule's formulas and comparisons speak of."""
    body = rule.body
    conditions: tuple[Condition, ...] = body.when
    if isinstance(body, Limit):
        yield from names_in(body)
    if isinstance(body, Implication):
        conditions += body.then
        yield from language.read(body.condition).names if body.condition else ()
    for one in conditions:
        if one.comparison:
            yield from (one.name, *language.read_comparison(one.comparison).names)


def _behind(names: Iterable[str], family: Family) -> set[str]:
    """The names, and those behind the figures among them."""
    left, seen = list(names), set[str]()
    while left:
        name = left.pop()
        if name not in seen:
            seen.add(name)
            if name in family.figures:
                left += language.read(family.figures[name].formula).names
    return seen


def _facts(name: str, family: Family) -> Iterator[Fact]:
    if name in family.facts:
        yield family.facts[name]
    for choice in family.choices.values():
        for option in choice.options:
            if name in option.facts:
                yield option.facts[name]
