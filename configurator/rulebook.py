"""Rules and limits turned into what the space takes: tables of standings.

`speak` is the plain evaluator: what one rule says of one combination. Tables are made by asking it for every
combination in the rule's scope, so a table and a printed check can never differ.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product
from math import prod
from typing import NamedTuple

from configurator import language
from configurator.catalogue.choices import Option
from configurator.catalogue.conditions import Condition, When
from configurator.catalogue.names import Missing, Reach, Reckoner, Vocabulary
from configurator.catalogue.rules import FREE, IMPOSSIBLE, STANDINGS, Implication, Limit, Rule, Table
from configurator.catalogue.shops import Family
from configurator.faults import Fault, Faulty
from configurator.limits import Judged, judge, names_in
from configurator.space import Table as Standings
from configurator.units import Quantity

WIDEST = 50_000
"""Rows of one table after narrowing; a rule that needs more is split by a figure."""

Options = Mapping[str, Option]


class Said(NamedTuple):
    """What a rule says of one combination: the standing, whether it advises, and the limit judged, if it is one."""

    standing: int
    advised: bool = False
    judged: Judged | None = None


SILENT = Said(FREE)


class Rulebook(NamedTuple):
    """A family's rules as tables over its choices, which are numbered in the order of their ids.

    `unchecked` names the rules that speak of a duty nobody has given yet, with the missing names: they remove nothing.
    """

    vocabulary: Vocabulary
    choices: tuple[str, ...]
    options: tuple[tuple[Option, ...], ...]
    tables: tuple[Standings, ...]
    unchecked: Mapping[str, tuple[str, ...]]

    @property
    def sizes(self) -> tuple[int, ...]:
        """How many options each choice has."""
        return tuple(len(options) for options in self.options)

    def numbered(self, choice: str, option: str) -> tuple[int, int]:
        """The numbers of a choice and of its option; KeyError where either is unknown."""
        number = self.choices.index(choice) if choice in self.choices else -1
        for position, one in enumerate(self.options[number] if number >= 0 else ()):
            if one.id == option:
                return number, position
        raise KeyError(f"{choice}={option}")

    def picks(self, build: Sequence[int]) -> dict[str, str]:
        """A build in numbers, as option ids by choice id."""
        return {choice: self.options[number][build[number]].id for number, choice in enumerate(self.choices)}

    def chosen(self, picks: Mapping[str, str]) -> dict[str, Option]:
        """Picks as options."""
        chosen = {}
        for choice, option in picks.items():
            number, position = self.numbered(choice, option)
            chosen[choice] = self.options[number][position]
        return chosen


def speak(rule: Rule, options: Options, values: Reckoner) -> Said:
    """What the rule says of these options. Missing where it needs a duty or a choice that is not given."""
    body = rule.body
    if not all_hold(body.when, options, values):
        return SILENT
    if isinstance(body, Limit):
        judged = judge(body, values)
        return Said(judged.standing, judged.advised or judged.noted, judged)
    if isinstance(body, Table):
        return _speak_table(body, options)
    if body.condition and not language.holds(language.read(body.condition), values):
        return SILENT
    if body.then and all_hold(body.then, options, values):
        return SILENT
    return _otherwise(body.otherwise)


def _speak_table(body: Table, options: Options) -> Said:
    def lists(rows: Iterable[Sequence[Sequence[str]]]) -> bool:
        return any(all(not cell or id in cell for cell, id in zip(row, ids, strict=True)) for row in rows)

    ids = [options[column].id for column in body.columns]
    if lists(body.rows):
        return SILENT
    return _otherwise("by_arrangement" if lists(body.by_arrangement) else body.otherwise)


def _otherwise(standing: str) -> Said:
    return Said(FREE, advised=True) if standing == "advice" else Said(STANDINGS.index(standing))


def all_hold(when: When, options: Options, values: Reckoner) -> bool:
    """Whether every condition holds.

    Those on options are asked first, so that they spare the others a missing value.
    """
    return all(one.allows(options[one.name].id) for one in when if not one.comparison) and all(
        language.compares(language.read_comparison(one.comparison), values(one.name), values)
        for one in when
        if one.comparison
    )


def reach_of(rule: Rule, vocabulary: Vocabulary) -> Reach:
    """The choices and duties that a rule depends on."""
    body = rule.body
    choices: set[str] = set()
    names: list[str] = list(names_in(body)) if isinstance(body, Limit) else []
    conditions: tuple[Condition, ...] = body.when
    if isinstance(body, Table):
        choices.update(body.columns)
    if isinstance(body, Implication):
        conditions += body.then
        names += language.read(body.condition).names if body.condition else ()
    for condition in conditions:
        if condition.comparison:
            names += (condition.name, *language.read_comparison(condition.comparison).names)
        else:
            choices.add(condition.name)
    reach = vocabulary.reach(names)
    return Reach(reach.choices | choices, reach.duties)


def tabled(family: Family, duty: Mapping[str, Quantity] = {}) -> Rulebook:
    """All rules of a family as tables over the listed options. Faulty for a rule that cannot be tabled."""
    choices = tuple(family.choices)
    options = tuple(choice.options for choice in family.choices.values())
    empty = Rulebook(Vocabulary(family), choices, options, (), dict.fromkeys(family.rules, ()))
    return with_duty(empty, duty)


def with_duty(book: Rulebook, duty: Mapping[str, Quantity]) -> Rulebook:
    """The rulebook with tables for those unchecked rules whose duties are all given now."""
    rules = book.vocabulary.family.rules
    tables, unchecked, wide = list(book.tables), {}, []
    for id in book.unchecked:
        reach = reach_of(rules[id], book.vocabulary)
        missing = tuple(sorted(name for name in reach.duties if name not in duty))
        if missing:
            unchecked[id] = missing
        elif prod(len(book.options[number]) for number in _scope(book, reach)) > WIDEST:
            wide.append(id)
        else:
            tables.append(_table(book, rules[id], reach, duty, book.options))
    for id in wide:
        narrowed = _narrowed(book, tables)
        tables.append(_table(book, rules[id], reach_of(rules[id], book.vocabulary), duty, narrowed))
    return book._replace(tables=tuple(sorted(tables, key=lambda table: table.name)), unchecked=unchecked)


def _scope(book: Rulebook, reach: Reach) -> tuple[int, ...]:
    return tuple(number for number, choice in enumerate(book.choices) if choice in reach.choices)


def _table(
    book: Rulebook,
    rule: Rule,
    reach: Reach,
    duty: Mapping[str, Quantity],
    kept: Sequence[Sequence[Option]],
) -> Standings:
    """The rule's table over the full scope.

    Combinations of options that are not `kept` stay free, being refused elsewhere.
    """
    scope = _scope(book, reach)
    rows = prod(len(kept[number]) for number in scope)
    if rows > WIDEST:
        way_out = "split it: put what it works out into a figure of fewer choices, or give it a narrower `when`"
        wrong = f"speaks of {rows:,} combinations, over {WIDEST:,}"
        raise Faulty([Fault(rule.place, f"rule {rule.id}", wrong, way_out)])
    if all(len(kept[number]) == len(book.options[number]) for number in scope):
        return Standings(rule.id, scope, bytes(_standings(book, rule, scope, kept, duty)))
    few = product(*(kept[number] for number in scope))
    said = dict(zip(few, _standings(book, rule, scope, kept, duty), strict=True))
    full = product(*(book.options[number] for number in scope))
    return Standings(rule.id, scope, bytes(said.get(row, FREE) for row in full))


def _standings(
    book: Rulebook, rule: Rule, scope: Sequence[int], options: Sequence[Sequence[Option]], duty: Mapping[str, Quantity]
) -> Iterator[int]:
    ids = [book.choices[number] for number in scope]
    for row in product(*(options[number] for number in scope)):
        chosen = dict(zip(ids, row, strict=True))
        try:
            yield speak(rule, chosen, Reckoner(book.vocabulary, chosen, duty)).standing
        except (Missing, language.Uncomputable) as trouble:
            wanted = ", ".join(f"{id}={option.id}" for id, option in chosen.items())
            wrong = f"{trouble.name} has no value" if isinstance(trouble, Missing) else str(trouble)
            way_out = f"give every option a value, or exclude the option by the rule's `when`; it happens with {wanted}"
            raise Faulty([Fault(rule.place, f"rule {rule.id}", wrong, way_out)]) from trouble


def _narrowed(book: Rulebook, tables: Sequence[Standings]) -> list[tuple[Option, ...]]:
    """The options that no table refuses outright, to a fixed point."""
    kept = [list(range(size)) for size in book.sizes]
    changed = True
    while changed:
        changed = False
        for table in tables:
            alive: list[set[int]] = [set() for _ in table.scope]
            for row in product(*(kept[number] for number in table.scope)):
                if table.standings[_rank(row, table.scope, book.sizes)] != IMPOSSIBLE:
                    for position, option in enumerate(row):
                        alive[position].add(option)
            for position, number in enumerate(table.scope):
                if len(alive[position]) < len(kept[number]):
                    kept[number] = sorted(alive[position])
                    changed = True
    return [tuple(book.options[number][option] for option in options) for number, options in enumerate(kept)]


def _rank(row: Sequence[int], scope: Sequence[int], sizes: Sequence[int]) -> int:
    rank = 0
    for option, number in zip(row, scope, strict=True):
        rank = rank * sizes[number] + option
    return rank


def slices(
    book: Rulebook,
    choice: str,
    option: Option,
    duty: Mapping[str, Quantity],
    kept: Sequence[Sequence[Option]] | None = None,
) -> dict[str, bytes]:
    """What each tabled rule over a choice says of one more option of it: standings over the rest of the rule's scope.

    `kept` narrows the other choices to some of their options.
    """
    number = book.choices.index(choice)
    single = tuple((option,) if other == number else options for other, options in enumerate(kept or book.options))
    rules = book.vocabulary.family.rules
    return {
        table.name: bytes(_standings(book, rules[table.name], table.scope, single, duty))
        for table in book.tables
        if number in table.scope
    }


def as_asked(book: Rulebook, choice: str, options: Sequence[Option], duty: Mapping[str, Quantity]) -> Rulebook:
    """The rulebook with further options of a numeric choice, behind the listed ones; only its rules are tabled anew."""
    for option in options:
        book = _with_option(book, book.choices.index(choice), option, slices(book, choice, option, duty))
    return book


def _with_option(book: Rulebook, number: int, option: Option, said: Mapping[str, bytes]) -> Rulebook:
    sizes = book.sizes

    def longer(table: Standings) -> Standings:
        if table.name not in said:
            return table
        inner = prod(sizes[other] for other in table.scope if other > number)
        block = inner * sizes[number]
        old, new = table.standings, said[table.name]
        blocks = range(len(old) // block)
        return table._replace(
            standings=b"".join(old[i * block : (i + 1) * block] + new[i * inner : (i + 1) * inner] for i in blocks)
        )

    options = tuple((*own, option) if other == number else own for other, own in enumerate(book.options))
    return book._replace(options=options, tables=tuple(longer(table) for table in book.tables))
