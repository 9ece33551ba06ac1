"""Choices, their options and facts: what there is to settle, and what each answer brings with it."""

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from configurator.catalogue.conditions import When
from configurator.faults import Place
from configurator.units import Quantity


class Fact(NamedTuple):
    """A figure that a family or an option carries, with what it rests on."""

    value: Quantity
    basis: str = "family data"
    source: str = ""
    place: Place = Place("")


class Option(NamedTuple):
    """One answer to a choice. `value` is set for options of a numeric choice only; their id is the value's text."""

    id: str
    label: str
    aliases: tuple[str, ...] = ()
    facts: Mapping[str, Fact] = {}
    value: Quantity | None = None
    measures: Mapping[str, Quantity] = {}
    tolerance: Mapping[str, Quantity] = {}
    asks_for: tuple[str, ...] = ()
    refused_with: str = ""
    help: str = ""
    place: Place = Place("")


class Usual(NamedTuple):
    """The option that a want takes when nobody speaks of it, under a condition."""

    when: When
    option: str


class Range(NamedTuple):
    """The legal values of a numeric choice: least and greatest, both inclusive, on a grid of steps from the least."""

    unit: str
    least: Quantity
    greatest: Quantity
    step: Quantity


class Choice(NamedTuple):
    """A thing to settle: a have (a fact about what the caller owns) or a want (a wish that can be given up)."""

    id: str
    label: str
    asks: str  # "have" or "want"
    options: tuple[Option, ...]
    heading: str = ""
    aliases: tuple[str, ...] = ()
    help: str = ""
    usual: tuple[Usual, ...] = ()
    taken_as: str = ""
    derive: Mapping[str, str] = {}
    range: Range | None = None
    place: Place = Place("")

    def option(self, id: str) -> Option:
        """The option with this id; KeyError where there is none."""
        for option in self.options:
            if option.id == id:
                return option
        raise KeyError(id)


class Donor(NamedTuple):
    """An original engine variant, for one part of it: what a crank, block, gearbox or head of that variant has."""

    id: str
    label: str
    part: str
    has: Mapping[str, str]
    place: Place = Place("")


class Duty(NamedTuple):
    """A number about what the engine will be asked to do, or another fact of the caller, and its plausible range.

    `plain_is` ("gauge" or "absolute") says how a pressure that names neither is read; without it the word is demanded.
    """

    id: str
    label: str
    unit: str
    least: Quantity
    greatest: Quantity
    help: str = ""
    plain_is: str = ""
    place: Place = Place("")


class Tally(NamedTuple):
    """A quantity that adds up over the picked options' facts of the same name.

    Mass, for one. `grain` is its integer step.
    """

    id: str
    label: str
    unit: str
    grain: Decimal = Decimal("0.001")
    place: Place = Place("")
