"""A family's choices, options and facts, judged and taken down in plain form."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from configurator.catalogue.choices import Range
from configurator.catalogue.steps import option_id, step_of
from configurator.dimensions import NUMBER
from configurator.load.lexicon import Lexicon, Plain, Words, filled, plain_place, plain_quantity
from configurator.load.shapes import Choice, Fact, Option, ShopFile
from configurator.load.tables import Table
from configurator.load.words import alike, suggest
from configurator.units import UNITS, Misread, read_quantity

MOST_STEPS = 100_000


def words_of(choice: Choice, options: Sequence[Option]) -> Words:
    """How others may speak of a choice. What is wrong with it is not said here."""
    try:
        legal = _range(choice)
        if legal:
            values = [read_quantity(option.is_, legal.unit, legal.least, legal.greatest).value for option in options]
            return Words(tuple(option_id(legal, value) for value in values), legal)
    except (Misread, ArithmeticError):
        return Words((), None)
    return Words(tuple(option.id for option in options), None)


def options_of(choice: Choice, tables: ShopFile) -> list[Option]:
    """The options in their order: as written with the choice, then those written apart, by id."""
    apart = [option for option in tables.option if option.choice == choice.id]
    return [*choice.option, *sorted(apart, key=lambda option: (option.id, option.is_))]


def label_of(table: Any) -> str:
    """What a table is called on screen and paper: its label, or its id in words."""
    label: str = table.label or table.id.replace("_", " ")
    return label if table.label else label[:1].upper() + label[1:]


def _range(choice: Choice) -> Range | None:
    if choice.unit is None:
        return None
    least, greatest, step = (read_quantity(text, choice.unit) for text in (choice.from_, choice.to, choice.step))
    if not least.value < greatest.value:
        raise Misread("`to` is not above `from`", "write the least value in `from`, the greatest in `to`")
    if step.value <= 0 or (greatest.value - least.value) / step.value > MOST_STEPS:
        raise Misread(f"{choice.step} is no step for it", f"a step is above zero; a range has at most {MOST_STEPS:,}")
    legal = Range(choice.unit, least, greatest, step)
    if read_quantity(option_id(legal, least.value), choice.unit).value != least.value:
        raise Misread("has more decimals than the step", "choose a `from` that the step's decimals can write")
    if step_of(legal, greatest.value) is None:
        raise Misread("is not a whole number of steps from `from` to `to`", "choose a `to` that a step falls on")
    return legal


class ChoiceReading:
    """The choices of one family on their way into plain form."""

    def __init__(self, lexicon: Lexicon, tables: ShopFile, headings: Sequence[str]) -> None:
        self.lexicon, self.tables, self.headings = lexicon, tables, headings
        self.duties = {duty.id for duty in tables.duty}
        self.identifying = {name for donor in tables.donor for name in donor.has}

    def choices(self) -> dict[str, Plain]:
        """All choices by id, in the order of their ids."""
        known = {choice.id for choice in self.tables.choice}
        for option in self.tables.option:
            if option.choice not in known:
                self._fault(
                    option, "choice", f"there is no choice {option.choice}", suggest(option.choice, known, "choices")
                )
        self._spoken_apart(self.tables.choice, "choice")
        return {choice.id: self._choice(choice) for choice in sorted(self.tables.choice, key=lambda choice: choice.id)}

    def _fault(self, table: Table, key: str, wrong: str, way_out: str) -> None:
        self.lexicon.fault(table, (key,), wrong, way_out)

    def _choice(self, choice: Choice) -> Plain:
        options = options_of(choice, self.tables)
        legal = self.lexicon.choices[choice.id].legal
        self._own_keys(choice, options)
        if choice.heading and self.headings and choice.heading not in self.headings:
            self._fault(
                choice, "heading", "is none of the family's", suggest(choice.heading, self.headings, "headings")
            )
        plain_options = [plain for option in options if (plain := self._option(choice, option, legal))]
        self._spoken_apart(options, "option")
        self._dimensions(options)
        return filled(
            id=choice.id,
            label=label_of(choice),
            asks=choice.asks,
            options=plain_options,
            heading=choice.heading,
            aliases=choice.aliases,
            help=choice.help,
            usual=self._usual(choice),
            taken_as=self._taken_as(choice),
            derive=self._derive(choice, options),
            range=[legal.unit, *(plain_quantity(one) for one in legal[1:])] if legal else None,
            place=plain_place(choice),
        )

    def _own_keys(self, choice: Choice, options: Sequence[Option]) -> None:
        """A numeric choice has a unit, a range and a step; a choice in words has none of them."""
        numeric = [key for key, text in (("from", choice.from_), ("to", choice.to), ("step", choice.step)) if text]
        if choice.unit is None and numeric:
            self._fault(choice, numeric[0], "stands without a unit", "a numeric choice says unit, from, to and step")
        if choice.unit is not None:
            for key in {"from", "to", "step"} - set(numeric):
                self._fault(choice, key, "is missing", "a numeric choice says unit, from, to and step")
            if len(numeric) == 3:
                self._range_reads(choice)
        if not options:
            self._fault(choice, "option", "the choice has no option", "write at least one [[choice.option]]")

    def _range_reads(self, choice: Choice) -> None:
        try:
            _range(choice)
        except Misread as trouble:
            self._fault(choice, "from", trouble.wrong, trouble.way_out)
        except ArithmeticError:
            self._fault(choice, "step", "cannot be reckoned with", "write an ordinary number with its unit")

    def _option(self, choice: Choice, option: Option, legal: Range | None) -> Plain | None:
        value = None
        if choice.unit is None:
            id = option.id
            if not id or option.is_:
                self._fault(
                    option, "id" if not id else "is", "does not fit a choice in words", "an option of it has an id"
                )
        else:
            if option.id or not option.is_:
                self._fault(
                    option, "id" if option.id else "is", "does not fit a numeric choice", "its options say `is`"
                )
            id = self.lexicon.option(option, ("is",), choice.id, option.is_) if legal and option.is_ else ""
            value = plain_quantity(read_quantity(id, choice.unit)) if id else None
        for duty in option.asks_for:
            if duty not in self.duties:
                self._fault(option, "asks_for", f"there is no duty {duty}", suggest(duty, self.duties, "duties"))
        measures = self._measures(choice, option)
        if not id:
            return None
        return filled(
            id=id,
            label=option.label or (id if value else label_of(option)),
            aliases=option.aliases,
            facts=facts(self.lexicon, option.facts),
            value=value,
            measures=measures,
            tolerance=self._tolerance(option, measures),
            asks_for=option.asks_for,
            refused_with=option.refused_with,
            help=option.help,
            place=plain_place(option),
        )

    def _measures(self, choice: Choice, option: Option) -> Plain:
        measures = {}
        for name, text in sorted(option.measures.items()):
            quantity = self.lexicon.quantity(option, ("measures", name), text)
            if quantity is None:
                continue
            measures[name] = plain_quantity(quantity)
            if quantity.dimension != NUMBER and name not in option.tolerance:
                self.lexicon.fault(
                    option, ("measures", name), "has no tolerance", f'write tolerance = {{ {name} = "..." }}'
                )
        if measures and (choice.asks == "want" or choice.unit is not None):
            self._fault(option, "measures", "only options of a have in words are measured", "take the measures away")
        return measures

    def _tolerance(self, option: Option, measures: Plain) -> Plain:
        tolerance = {}
        for name, text in sorted(option.tolerance.items()):
            if name not in measures:
                way_out = suggest(name, measures, "measures")
                self.lexicon.fault(option, ("tolerance", name), "is not among the measures", way_out)
                continue
            quantity = self.lexicon.quantity(option, ("tolerance", name), text, measures[name][1])
            if quantity and quantity.value < 0:
                self.lexicon.fault(
                    option, ("tolerance", name), "is below zero", "write how far off a measurement may be"
                )
            if quantity:
                tolerance[name] = plain_quantity(quantity)
        return tolerance

    def _usual(self, choice: Choice) -> list[list[Any]]:
        if choice.usual is None:
            return []
        if choice.asks == "have":
            self._fault(choice, "usual", "a have is never filled by likelihood", "use taken_as, or leave it open")
            return []
        given = choice.usual if isinstance(choice.usual, list) else [{"is": choice.usual}]
        usual = []
        for number, one in enumerate(given):
            if not isinstance(one, dict) or not set(one) <= {"when", "is"} or not isinstance(one.get("when", {}), dict):
                self.lexicon.fault(
                    choice, ("usual", number), "is no usual option", 'write { when = {...}, is = "option" }'
                )
                continue
            when = self.lexicon.conditions(choice, ("usual", number, "when"), one.get("when", {}), picks_only=True)
            option = self.lexicon.option(choice, ("usual",), choice.id, one.get("is"))
            usual.append([when, option])
        return usual

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

    def _dimensions(self, options: Sequence[Option]) -> None:
        """Facts and measures of one name are of one kind on all options of a choice, and as their tally says."""
        kinds = {tally.id: UNITS[tally.unit].dimension for tally in self.tables.tally}
        for option in options:
            named = [("facts", name, fact.is_) for name, fact in option.facts.items()]
            named += [("measures", name, text) for name, text in option.measures.items()]
            for key, name, text in sorted(named):
                kind = _dimension(text)
                if kind is not None and kinds.setdefault(name, kind) != kind:
                    self.lexicon.fault(
                        option, (key, name), f"{text} is {kind}, elsewhere it is {kinds[name]}", "use one kind"
                    )

    def _spoken_apart(self, tables: Iterable[Any], kind: str) -> None:
        """Two choices, or two options of one, must not answer to the same word."""
        heard: dict[str, Any] = {}
        for table in sorted(tables, key=lambda table: table.at()):
            id = table.id or getattr(table, "is_", "")
            for word in sorted({alike(one) for one in (id, table.label, *table.aliases) if one}):
                other = heard.setdefault(word, table)
                if other is not table:
                    self._fault(
                        table, "id", f"the {kind} at {other.at()} answers to {word} too", "give one another word"
                    )


def facts(lexicon: Lexicon, given: dict[str, Fact]) -> Plain:
    """Facts in plain form, each with what it rests on."""
    taken = {}
    for name, fact in sorted(given.items()):
        quantity = lexicon.quantity(fact, ("is",), fact.is_)
        if (fact.basis == "published") != bool(fact.source):
            lexicon.fault(
                fact,
                ("source",),
                "goes with the basis published, and only with it",
                "name the source, or change the basis",
            )
        if quantity:
            place = plain_place(fact)
            taken[name] = filled(value=plain_quantity(quantity), basis=fact.basis, source=fact.source, place=place)
    return taken


def _dimension(text: str) -> Any:
    try:
        return read_quantity(text).dimension
    except Misread:
        return None
