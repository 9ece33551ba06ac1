"""A family's choices, judged and taken down in plain form."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from configurator.catalogue.choices import Range
from configurator.catalogue.steps import option_id, step_of
from configurator.load.lexicon import Lexicon, Plain, Words, filled, plain_place, plain_quantity
from configurator.load.options import OptionReading, label_of, spoken_apart
from configurator.load.shapes import Choice, Option, ShopFile
from configurator.load.tables import Table
from configurator.load.trade import circle_in
from configurator.load.words import suggest
from configurator.units import UNITS, Misread, read_quantity

MOST_STEPS = 100_000
NUMERIC = "a numeric choice says unit, from, to and step"


def words_of(choice: Choice, options: Sequence[Option]) -> Words:
    """How others may speak of a choice. What is wrong with it is not said here."""
    if choice.unit is None:
        return Words(tuple(option.id for option in options), None)
    try:
        legal = _range(choice)
    except (Misread, ArithmeticError):
        return Words((), None)
    values = []
    for option in options:
        try:
            values.append(read_quantity(option.is_, legal.unit, legal.least, legal.greatest).value)
        except Misread:
            continue
    return Words(tuple(option_id(legal, value) for value in values), legal)


def _range(choice: Choice) -> Range:
    """The range of a numeric choice. Misread for one that is none, ArithmeticError for one out of all bounds."""
    unit = choice.unit or ""
    least, greatest, step = (read_quantity(text, unit) for text in (choice.from_, choice.to, choice.step))
    if not least.value < greatest.value:
        raise Misread("`to` is not above `from`", "write the least value in `from`, the greatest in `to`")
    if step.value <= 0 or (greatest.value - least.value) / step.value > MOST_STEPS:
        raise Misread(f"{choice.step} is no step for it", f"a step is above zero; a range has at most {MOST_STEPS:,}")
    legal = Range(unit, least, greatest, step)
    if read_quantity(option_id(legal, least.value), unit).value != least.value:
        raise Misread("has more decimals than the step", "choose a `from` that the step's decimals can write")
    if step_of(legal, greatest.value) is None:
        raise Misread("is not a whole number of steps from `from` to `to`", "choose a `to` that a step falls on")
    return legal


def options_of(choice: Choice, tables: ShopFile) -> list[Option]:
    """The options in their order: as written with the choice, then those written apart, by id."""
    apart = [option for option in tables.option if option.choice == choice.id]
    return [*choice.option, *sorted(apart, key=lambda option: (option.id, option.is_))]


class ChoiceReading:
    """The choices of one family on their way into plain form."""

    def __init__(self, lexicon: Lexicon, tables: ShopFile, headings: Sequence[str]) -> None:
        self.lexicon, self.tables, self.headings = lexicon, tables, headings
        self.identifying = {name for donor in tables.donor for name in donor.has}

    def choices(self) -> dict[str, Plain]:
        """All choices by id, in the order of their ids."""
        known = {choice.id for choice in self.tables.choice}
        for option in self.tables.option:
            if option.choice not in known:
                way_out = suggest(option.choice, known, "choices")
                self._fault(option, "choice", f"there is no choice {option.choice}", way_out)
        spoken_apart(self.lexicon, self.tables.choice, "choice")
        self._usual_without_circles()
        return {choice.id: self._choice(choice) for choice in sorted(self.tables.choice, key=lambda choice: choice.id)}

    def _fault(self, table: Table, key: str, wrong: str, way_out: str) -> None:
        self.lexicon.fault(table, (key,), wrong, way_out)

    def _choice(self, choice: Choice) -> Plain:
        options = options_of(choice, self.tables)
        legal = self.lexicon.choices[choice.id].legal
        self._own_keys(choice)
        if not options:
            self._fault(choice, "option", "the choice has no option", "write at least one [[choice.option]]")
        if choice.heading and self.headings and choice.heading not in self.headings:
            way_out = suggest(choice.heading, self.headings, "headings")
            self._fault(choice, "heading", "is none of the family's headings", way_out)
        kinds = {tally.id: UNITS[tally.unit].dimension for tally in self.tables.tally}
        reading = OptionReading(self.lexicon, choice, [duty.id for duty in self.tables.duty])
        return filled(
            id=choice.id,
            label=label_of(choice),
            asks=choice.asks,
            options=reading.options(options, kinds),
            heading=choice.heading,
            aliases=choice.aliases,
            help=choice.help,
            usual=self._usual(choice),
            taken_as=self._taken_as(choice),
            derive=self._derive(choice, options),
            range=[legal.unit, *(plain_quantity(one) for one in legal[1:])] if legal else None,
            place=plain_place(choice),
        )

    def _own_keys(self, choice: Choice) -> None:
        """A numeric choice has a unit, a range and a step; a choice in words has none of them."""
        written = [key for key, text in (("from", choice.from_), ("to", choice.to), ("step", choice.step)) if text]
        if choice.unit is None:
            for key in written:
                self._fault(choice, key, "stands without a unit", NUMERIC)
            return
        for key in sorted({"from", "to", "step"} - set(written)):
            self._fault(choice, key, "is missing", NUMERIC)
        try:
            if len(written) == 3:
                _range(choice)
        except Misread as trouble:
            self._fault(choice, "from", trouble.wrong, trouble.way_out)
        except ArithmeticError:
            self._fault(choice, "step", "cannot be reckoned with", "write an ordinary number with its unit")

    def _usual(self, choice: Choice) -> list[list[Any]]:
        if choice.usual is None:
            return []
        if choice.asks == "have":
            self._fault(choice, "usual", "a have is never filled by likelihood", "use taken_as, or leave it open")
            return []
        usual = []
        for number, one in enumerate(_usual_cases(choice)):
            key = ("usual", number)
            if not isinstance(one, dict) or not set(one) <= {"when", "is"} or not isinstance(one.get("when", {}), dict):
                self.lexicon.fault(choice, key, "is no usual option", 'write { when = {...}, is = "option" }')
                continue
            when = self.lexicon.conditions(choice, (*key, "when"), one.get("when", {}), picks_only=True)
            usual.append([when, self.lexicon.option(choice, ("usual",), choice.id, one.get("is"))])
        return usual

    def _usual_without_circles(self) -> None:
        """What is usual of one want may ask what was picked of another, but not each of the other in turn."""
        by_id = {choice.id: choice for choice in sorted(self.tables.choice, key=lambda choice: choice.id)}
        asked = {
            id: sorted({name for one in _usual_cases(choice) for name in _names_asked(one) if name in by_id})
            for id, choice in by_id.items()
        }
        if ring := circle_in(asked):
            wrong = f"these ask for each other in a circle: {', '.join(ring)}"
            self._fault(by_id[ring[0]], "usual", wrong, "let one of them be usual without asking")

    def _taken_as(self, choice: Choice) -> str:
        if not choice.taken_as:
            return ""
        if choice.asks == "want":
            self._fault(choice, "taken_as", "a want is not taken as anything", "use usual")
        if choice.id in self.identifying:
            wrong = "a choice that identifies a donor is never taken as anything"
            self._fault(choice, "taken_as", wrong, "leave it open until somebody looks")
        return self.lexicon.option(choice, ("taken_as",), choice.id, choice.taken_as)

    def _derive(self, choice: Choice, options: Sequence[Option]) -> dict[str, str]:
        measured = {name for option in options for name in option.measures}
        for name, formula in sorted(choice.derive.items()):
            self.lexicon.formula(choice, ("derive", name), formula)
            if name not in measured:
                way_out = suggest(name, measured, "measures")
                self.lexicon.fault(choice, ("derive", name), "is no measure of its options", way_out)
        return dict(sorted(choice.derive.items()))


def _usual_cases(choice: Choice) -> list[Any]:
    if choice.usual is None:
        return []
    return choice.usual if isinstance(choice.usual, list) else [{"is": choice.usual}]


def _names_asked(case: Any) -> list[str]:
    when = case.get("when") if isinstance(case, dict) else None
    return list(when) if isinstance(when, dict) else []
