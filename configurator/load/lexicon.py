"""The words of one family: which choices, options and names its tables may speak, and how that is taken down.

Whatever a table gets wrong is noted as a fault, so that one reading finds all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any, NamedTuple

from configurator import language
from configurator.catalogue.choices import Range
from configurator.catalogue.steps import neighbours, option_id, step_of
from configurator.faults import Fault, Faulty
from configurator.load.tables import Table
from configurator.load.text import MOST_FAULTS
from configurator.load.words import suggest
from configurator.units import Misread, Quantity, read_quantity

Plain = dict[str, Any]
"""A table in the form that is kept: texts, numbers, lists and dicts only."""


class Words(NamedTuple):
    """A choice as others speak of it: the ids of its options, and its range if it is numeric."""

    options: tuple[str, ...]
    legal: Range | None


class Lexicon:
    """What one family's tables may speak of, and the faults of those that speak of something else.

    `values` are the facts, duties and figures, which comparisons may be about as they may about numeric choices;
    `elsewhere` the choices that only other families or shipped rules know. A `lenient` reading, of a shipped rule,
    passes over options that this family lacks.
    """

    def __init__(
        self, family: str, choices: Mapping[str, Words], values: Iterable[str], elsewhere: Iterable[str]
    ) -> None:
        self.family = family
        self.choices = choices
        self.values = frozenset(values)
        self.elsewhere = frozenset(elsewhere)
        self.faults: list[Fault] = []

    def fault(self, table: Table, key: Sequence[str | int], wrong: str, way_out: str) -> None:
        """Note what is wrong with a key of a table. Faulty when that makes a hundred: nobody reads more at once."""
        name = ".".join(part for part in key if isinstance(part, str))
        self.faults.append(Fault(table.at(*key), name, wrong, way_out))
        if len(self.faults) >= MOST_FAULTS:
            raise Faulty(self.faults)

    def option(self, table: Table, key: Sequence[str | int], choice: str, value: Any, lenient: bool = False) -> str:
        """The id of the option meant, "" where there is none. A value of a numeric choice need not be a listed one."""
        words = self.choices[choice]
        if isinstance(value, (int, Decimal)) and not isinstance(value, bool):
            value = str(value)
        if not isinstance(value, str):
            self.fault(table, key, f"is no option of {choice}", "write the id of an option between quotes")
            return ""
        if words.legal:
            return self._numeric(table, key, words.legal, value, lenient)
        if value not in words.options:
            if not lenient:
                way_out = suggest(value, words.options, f"options of {choice}")
                self.fault(table, key, f"{choice} has no option {value}", way_out)
            return ""
        return value

    def _numeric(self, table: Table, key: Sequence[str | int], legal: Range, text: str, lenient: bool) -> str:
        try:
            quantity = read_quantity(text, legal.unit, legal.least, legal.greatest)
        except Misread as trouble:
            self.fault(table, key, trouble.wrong, trouble.way_out)
            return ""
        if step_of(legal, quantity.value) is None:
            if not lenient:
                wrong = f"{text} is not within {legal.least} to {legal.greatest} by steps of {legal.step}"
                self.fault(table, key, wrong, f"the nearest is {' or '.join(neighbours(legal, quantity.value))}")
            return ""
        return option_id(legal, quantity.value)

    def is_value(self, name: str) -> bool:
        """Whether the name stands for a quantity: a fact, a duty, a figure, a numeric choice."""
        return name in self.values or (name in self.choices and self.choices[name].legal is not None)

    def conditions(
        self,
        table: Table,
        key: Sequence[str | int],
        given: Mapping[str, Any],
        lenient: bool = False,
        picks_only: bool = False,
    ) -> list[list[Any]]:
        """A `when` or a `then` as [name, options, negated, comparison]; `picks_only`: it may speak of choices alone."""
        taken = []
        for name in sorted(given):
            where = (*key, name)
            if name in self.choices:
                taken.append(self._of_choice(table, where, name, given[name], lenient))
            elif name in self.values and not picks_only:
                taken.append([name, [], False, self.comparison(table, where, given[name])])
            else:
                self.unknown(table, where, name, picks_only)
        return taken

    def unknown(self, table: Table, key: Sequence[str | int], name: str, picks_only: bool = False) -> None:
        """Note a name that this family does not know, or may not speak of here."""
        if name in self.values:
            self.fault(table, key, f"{name} is no choice", "here only choices may be spoken of")
        elif name in self.elsewhere:
            way_out = f'give the family that choice, or let the rule say `needs = ["{name}"]`'
            self.fault(table, key, f"{name} is no choice of {self.family}, though another family knows it", way_out)
        else:
            known = set(self.choices) if picks_only else {*self.choices, *self.values}
            self.fault(table, key, f"{self.family} knows no {name}", suggest(name, known, "names"))

    def _of_choice(self, table: Table, key: Sequence[str | int], choice: str, value: Any, lenient: bool) -> list[Any]:
        if self.choices[choice].legal and isinstance(value, str) and is_comparison(value):
            return [choice, [], False, self.comparison(table, key, value)]
        negated = isinstance(value, dict)
        if negated:
            if set(value) != {"not"}:
                self.fault(table, key, "is no condition", 'write { not = "option" } or { not = ["option", "other"] }')
                return [choice, [], True, ""]
            value, key = value["not"], (*key, "not")
        values = value if isinstance(value, list) else [value]
        if not values:
            self.fault(table, key, "names no option", "name at least one")
        options = [self.option(table, key, choice, one, lenient) for one in values]
        return [choice, sorted({option for option in options if option}), negated, ""]

    def comparison(self, table: Table, key: Sequence[str | int], text: Any) -> str:
        """A comparison, checked for its grammar; "" where it has none."""
        if not isinstance(text, str):
            self.fault(table, key, "is not a comparison", 'write one between quotes: ">= 4.0 mm"')
            return ""
        return text if self.reads(table, key, language.read_comparison, text) else ""

    def formula(self, table: Table, key: Sequence[str | int], text: str) -> tuple[str, ...]:
        """The names in a formula that is checked for its grammar."""
        return language.read(text).names if self.reads(table, key, language.read, text) else ()

    def reads(self, table: Table, key: Sequence[str | int], reader: Any, text: str) -> bool:
        """Whether a text of the language reads well; noted where it does not."""
        try:
            reader(text)
        except Misread as trouble:
            self.fault(table, key, trouble.wrong, trouble.way_out)
            return False
        return True

    def quantity(
        self, table: Table, key: Sequence[str | int], text: str, unit: str = "", plain_is: str = ""
    ) -> Quantity | None:
        """A quantity; noted and None where the text is none."""
        try:
            return read_quantity(text, unit, plain_is=plain_is)
        except Misread as trouble:
            self.fault(table, key, trouble.wrong, trouble.way_out)
            return None


def is_comparison(text: str) -> bool:
    """Whether a text about a numeric choice compares, rather than names a value."""
    return text.lstrip()[:1] in ("<", ">") or " to " in text


def plain_quantity(quantity: Quantity) -> list[str]:
    """A quantity as it is kept: its value in SI units, and the unit in which it is shown."""
    return [str(quantity.value), quantity.unit]


def plain_place(table: Table) -> list[Any]:
    """A place as it is kept."""
    place = table.at()
    return [place.file, place.line, place.column]


def filled(**fields: Any) -> Plain:
    """A plain table without its empty fields."""
    return {key: value for key, value in fields.items() if value not in ("", [], {}, None, False)}
