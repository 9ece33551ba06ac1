"""A build that shows a change, asked of both versions' rules one by one: no table and no diagram is trusted here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product
from math import prod
from typing import NamedTuple

from configurator.catalogue.choices import Option
from configurator.catalogue.names import Reckoner
from configurator.catalogue.rules import FREE, STANDINGS
from configurator.faults import NotKnown
from configurator.rulebook import Rulebook, speak

MOST_COMPLETIONS = 500
"""Completions, by choices that one side alone has, that are asked."""


class Said(NamedTuple):
    """A build's standing, the worst that any rule gives it, and the rules that give it."""

    standing: int
    rules: tuple[str, ...]


class Witness(NamedTuple):
    """A build that was confirmed to change: its options by choice, those other than usual, both standings, and the
    rules that give the worse of the two.
    """

    picks: Mapping[str, str]
    unusual: Mapping[str, str]
    old: str
    new: str
    rules: tuple[str, ...]


def bear_witness(old: Rulebook, new: Rulebook, picks: Mapping[str, str], usual: Mapping[str, str]) -> Witness:
    """Ask the rules of both versions for a build of their common choices. NotKnown where there is too much to ask."""
    before, after = ask(old, picks), ask(new, picks)
    unusual = {choice: option for choice, option in picks.items() if usual.get(choice) != option}
    worse = max(before, after, key=lambda said: said.standing)
    return Witness(picks, unusual, STANDINGS[before.standing], STANDINGS[after.standing], worse.rules)


def ask(book: Rulebook, picks: Mapping[str, str]) -> Said:
    """What the rules say of a build, but those that wait for a duty; of choices not picked, the best completion."""
    return min(_completions(book, picks), key=lambda said: said.standing)


def _completions(book: Rulebook, picks: Mapping[str, str]) -> Iterator[Said]:
    open_options = [
        [option for option in options if picks.get(choice, option.id) == option.id]
        for choice, options in zip(book.choices, book.options, strict=True)
    ]
    if prod(map(len, open_options)) > MOST_COMPLETIONS:
        raise NotKnown("a build that shows the change has too many completions to ask the rules for each")
    for row in product(*open_options):
        yield _ask_all(book, dict(zip(book.choices, row, strict=True)))


def _ask_all(book: Rulebook, options: Mapping[str, Option]) -> Said:
    values, rules = Reckoner(book.vocabulary, options, {}), book.vocabulary.family.rules
    said = {id: speak(rule, options, values).standing for id, rule in rules.items() if id not in book.unchecked}
    worst = max(said.values(), default=FREE)
    return Said(worst, tuple(id for id, standing in said.items() if standing == worst) if worst else ())
