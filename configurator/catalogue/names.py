"""What a name in a formula means in a family, how far it reaches, and the value that it has in one build.

A name is a numeric choice, a fact of the picked option of one choice, a fact of the family, a duty, or a figure. A
name with two meanings is a fault, found when the shop is read; here the first meaning in that order would win.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import NamedTuple

from configurator import language
from configurator.catalogue.choices import Option
from configurator.catalogue.shops import Family
from configurator.dimensions import Dimension
from configurator.units import UNITS, Misread, Quantity


class Meaning(NamedTuple):
    """One meaning of a name.

    `kind` is choice, option fact, family fact, duty, figure or tally; `choice` is whose options say it.
    """

    kind: str
    choice: str = ""


class Reach(NamedTuple):
    """The choices and the duties that a formula depends on, through figures too."""

    choices: frozenset[str]
    duties: frozenset[str]


class Missing(Exception):
    """A value was asked of a name that nobody has given yet: a duty, or a choice that is not picked."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(name)


NOWHERE = Reach(frozenset(), frozenset())


class Vocabulary:
    """The names of one family. Reaches and dimensions of figures are worked out once and kept."""

    def __init__(self, family: Family) -> None:
        self.family = family
        self.meanings = _meanings(family)
        self._reaches: dict[str, Reach] = {}
        self._dimensions: dict[str, Dimension] = {}

    def reach(self, names: Iterable[str]) -> Reach:
        """How far these names reach together.

        KeyError for a name that means nothing, RecursionError for figures in a circle.
        """
        together = NOWHERE
        for name in names:
            one = self._reach(name)
            together = Reach(together.choices | one.choices, together.duties | one.duties)
        return together

    def _reach(self, name: str) -> Reach:
        if name not in self._reaches:
            meaning = self.meanings[name][0]
            if meaning.kind == "figure":
                reach = self.reach(language.read(self.family.figures[name].formula).names)
            elif meaning.choice:
                reach = Reach(frozenset((meaning.choice,)), frozenset())
            else:
                reach = Reach(frozenset(), frozenset((name,))) if meaning.kind == "duty" else NOWHERE
            self._reaches[name] = reach
        return self._reaches[name]

    def dimension(self, name: str) -> Dimension:
        """The dimension of what the name stands for. KeyError for a name that means nothing."""
        if name not in self._dimensions:
            self._dimensions[name] = self._dimension(name)
        return self._dimensions[name]

    def _dimension(self, name: str) -> Dimension:
        meaning = self.meanings[name][0]
        family = self.family
        if meaning.kind == "figure":
            found = language.dimension_of(language.read(family.figures[name].formula), self.dimension)
            if not isinstance(found, Dimension):
                raise Misread(f"{name!r} is a question, not a quantity", "Write what is to be worked out.")
            return found
        if meaning.kind == "duty":
            return UNITS[family.duties[name].unit].dimension
        if meaning.kind == "family fact":
            return UNITS[family.facts[name].value.unit].dimension
        if meaning.kind == "choice":
            legal = family.choices[name].range
            return UNITS[legal.unit if legal else ""].dimension
        options = family.choices[meaning.choice].options
        return next(UNITS[option.facts[name].value.unit].dimension for option in options if name in option.facts)


def _meanings(family: Family) -> Mapping[str, tuple[Meaning, ...]]:
    meanings: dict[str, tuple[Meaning, ...]] = {}

    def add(name: str, meaning: Meaning) -> None:
        if meaning not in meanings.get(name, ()):
            meanings[name] = (*meanings.get(name, ()), meaning)

    tallies = {tally.id for tally in family.tallies}
    for choice in family.choices.values():
        if choice.range:
            add(choice.id, Meaning("choice", choice.id))
        for option in choice.options:
            for name in option.facts:
                add(name, Meaning("tally") if name in tallies else Meaning("option fact", choice.id))
    for name in family.facts:
        add(name, Meaning("family fact"))
    for name in family.duties:
        add(name, Meaning("duty"))
    for name in family.figures:
        add(name, Meaning("figure"))
    return meanings


class Reckoner:
    """The value of each name, in SI units, for one combination of options and one duty.

    Each figure is worked out once.
    """

    def __init__(self, vocabulary: Vocabulary, options: Mapping[str, Option], duty: Mapping[str, Quantity]) -> None:
        self._vocabulary = vocabulary
        self._options = options
        self._duty = duty
        self._known: dict[str, Decimal] = {}

    def __call__(self, name: str) -> Decimal:
        """The value of a name.

        Missing where a duty or a pick is not given; language.Uncomputable where arithmetic fails.
        """
        known = self._known.get(name)
        if known is None:
            known = self._known[name] = self._work_out(name)
        return known

    def _work_out(self, name: str) -> Decimal:
        family = self._vocabulary.family
        meaning = self._vocabulary.meanings[name][0]
        if meaning.kind == "figure":
            return language.evaluate(language.read(family.figures[name].formula), self)
        if meaning.kind == "family fact":
            return family.facts[name].value.value
        if meaning.kind == "duty":
            if name not in self._duty:
                raise Missing(name)
            return self._duty[name].value
        option = self._options.get(meaning.choice)
        if option is None:
            raise Missing(meaning.choice)
        if meaning.kind == "choice":
            if option.value is None:
                raise Missing(name)
            return option.value.value
        if name not in option.facts:
            raise Missing(name)
        return option.facts[name].value.value
