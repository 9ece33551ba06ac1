"""The options of a choice and their facts, judged and taken down in plain form."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from configurator.catalogue.choices import Range
from configurator.dimensions import NUMBER, Dimension
from configurator.load.lexicon import Lexicon, Plain, filled, plain_place, plain_quantity
from configurator.load.shapes import Choice, Fact, Option
from configurator.load.tables import Table
from configurator.load.words import alike, suggest
from configurator.units import Misread, read_quantity


def label_of(table: Any) -> str:
    """What a table is called on screen and paper: its label, or its id in words."""
    if table.label:
        return str(table.label)
    words = table.id.replace("_", " ")
    return str(words[:1].upper() + words[1:])


class OptionReading:
    """The options of one choice on their way into plain form; `duties` are those of the family."""

    def __init__(self, lexicon: Lexicon, choice: Choice, duties: Iterable[str]) -> None:
        self.lexicon, self.choice, self.duties = lexicon, choice, tuple(duties)
        self.legal: Range | None = lexicon.choices[choice.id].legal

    def options(self, options: Sequence[Option], kinds: Mapping[str, Dimension]) -> list[Plain]:
        """All of them that can be told apart; `kinds` are the dimensions that the family's tallies ask of facts."""
        taken: dict[str, Plain] = {}
        spoken_apart(self.lexicon, options, "option")
        self._of_one_kind(options, dict(kinds))
        for option in options:
            plain = self._option(option)
            if plain and plain["id"] in taken and self.legal:
                self._fault(option, "is", f"{plain['id']} stands twice", "take one of them away")
            elif plain:
                taken[plain["id"]] = plain
        return list(taken.values())

    def _fault(self, option: Table, key: str, wrong: str, way_out: str) -> None:
        self.lexicon.fault(option, (key,), wrong, way_out)

    def _option(self, option: Option) -> Plain | None:
        for duty in option.asks_for:
            if duty not in self.duties:
                self._fault(option, "asks_for", f"there is no duty {duty}", suggest(duty, self.duties, "duties"))
        id = self._id(option)
        measures = self._measures(option)
        tolerance = self._tolerance(option, measures)
        given = facts(self.lexicon, option.facts)
        if not id:
            return None
        return filled(
            id=id,
            label=option.label or (id if self.legal else label_of(option)),
            aliases=option.aliases,
            facts=given,
            value=plain_quantity(read_quantity(id, self.legal.unit)) if self.legal else None,
            measures=measures,
            tolerance=tolerance,
            asks_for=option.asks_for,
            refused_with=option.refused_with,
            help=option.help,
            place=plain_place(option),
        )

    def _id(self, option: Option) -> str:
        """An option of a numeric choice is called by its value; "" where it has none, or what it should not have."""
        if self.choice.unit is None:
            if option.is_ or not option.id:
                wrong = "an option of a choice in words has an id, and no value"
                self._fault(option, "is" if option.is_ else "id", wrong, 'write id = "..."')
            return option.id
        if option.id or not option.is_:
            wrong = "an option of a numeric choice has a value, and no id"
            self._fault(option, "id" if option.id else "is", wrong, 'write is = "..."')
            return ""
        return self.lexicon.option(option, ("is",), self.choice.id, option.is_) if self.legal else ""

    def _measures(self, option: Option) -> Plain:
        measures = {}
        for name, text in sorted(option.measures.items()):
            quantity = self.lexicon.quantity(option, ("measures", name), text)
            if quantity is None:
                continue
            measures[name] = plain_quantity(quantity)
            if quantity.dimension != NUMBER and name not in option.tolerance:
                way_out = f'write tolerance = {{ {name} = "..." }}'
                self.lexicon.fault(option, ("measures", name), "has no tolerance", way_out)
        if measures and (self.choice.asks == "want" or self.choice.unit is not None):
            self._fault(option, "measures", "only options of a have in words are measured", "take the measures away")
        return measures

    def _tolerance(self, option: Option, measures: Plain) -> Plain:
        tolerance = {}
        for name, text in sorted(option.tolerance.items()):
            key = ("tolerance", name)
            if name not in measures:
                self.lexicon.fault(option, key, "is not among the measures", suggest(name, measures, "measures"))
                continue
            quantity = self.lexicon.quantity(option, key, text, measures[name][1])
            if quantity and quantity.value < 0:
                self.lexicon.fault(option, key, "is below zero", "write how far off a measurement may be")
            if quantity:
                tolerance[name] = plain_quantity(quantity)
        return tolerance

    def _of_one_kind(self, options: Sequence[Option], kinds: dict[str, Dimension]) -> None:
        """Facts and measures of one name are of one dimension on all options of a choice, and as their tally says."""
        for option in options:
            named = [("facts", name, fact.is_) for name, fact in option.facts.items()]
            named += [("measures", name, text) for name, text in option.measures.items()]
            for key, name, text in sorted(named):
                kind = _dimension(text)
                if kind is not None and kinds.setdefault(name, kind) != kind:
                    wrong = f"{text} is {kind}, elsewhere it is {kinds[name]}"
                    self.lexicon.fault(option, (key, name), wrong, "let it be of one kind everywhere")


def facts(lexicon: Lexicon, given: Mapping[str, Fact]) -> Plain:
    """Facts in plain form, each with what it rests on."""
    taken = {}
    for name, fact in sorted(given.items()):
        quantity = lexicon.quantity(fact, ("is",), fact.is_)
        if fact.basis == "published" and not fact.source:
            lexicon.fault(fact, ("source",), "is missing for what is published", "name the source, or change the basis")
        if quantity:
            place = plain_place(fact)
            taken[name] = filled(value=plain_quantity(quantity), basis=fact.basis, source=fact.source, place=place)
    return taken


def spoken_apart(lexicon: Lexicon, tables: Iterable[Any], kind: str) -> None:
    """Two choices of a family, or two options of a choice, must not answer to the same word."""
    heard: dict[str, Any] = {}
    for table in sorted(tables, key=lambda table: table.at()):
        for word in sorted({alike(one) for one in (table.id, table.label, *table.aliases) if one}):
            other = heard.setdefault(word, table)
            if other is not table:
                wrong = f"the {kind} at {other.at()} answers to {word!r} too"
                lexicon.fault(table, ("id",), wrong, "give one of them another word")


def _dimension(text: str) -> Dimension | None:
    try:
        return read_quantity(text).dimension
    except Misread:
        return None
