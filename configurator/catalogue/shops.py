"""A shop and the families it makes blocks for: everything that its files say, frozen."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from configurator.catalogue.choices import Choice, Donor, Duty, Fact, Tally
from configurator.catalogue.rules import Figure, Rule
from configurator.catalogue.trade import Calendar, Centre, Material, Operation, Outside, PriceList, Terms
from configurator.faults import Place


class Expected(NamedTuple):
    """An enquiry and the answer that must come out; run by `blocks rules lint`."""

    id: str
    why: str
    enquiry: Mapping[str, Any]  # the plain form of an enquiry file
    verdict: str
    net: str = ""
    place: Place = Place("")


class Family(NamedTuple):
    """One engine family.

    Choices, donors, duties and the rest stand in the order of their ids, options in their own order.
    """

    id: str
    label: str
    facts: Mapping[str, Fact]
    choices: Mapping[str, Choice]
    donors: tuple[Donor, ...]
    duties: Mapping[str, Duty]
    figures: Mapping[str, Figure]
    rules: Mapping[str, Rule]
    tallies: tuple[Tally, ...]
    price_lists: tuple[PriceList, ...]
    operations: tuple[Operation, ...]
    outside: tuple[Outside, ...]
    materials: tuple[Material, ...]
    expected: tuple[Expected, ...]
    headings: tuple[str, ...] = ()
    place: Place = Place("")


class Shop(NamedTuple):
    """One maker's folder, read. `kept_back` holds cost rates, suppliers and authority: read, kept, shown to nobody."""

    id: str
    name: str
    demo: bool
    currency: str
    zone: str
    terms: Terms
    families: Mapping[str, Family]
    centres: Mapping[str, Centre]
    calendar: Calendar
    foreign: frozenset[str]  # choices that shipped rules know though no family here offers them
    kept_back: Mapping[str, Any]
    place: Place = Place("")
