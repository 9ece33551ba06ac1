"""What a shop charges and how it works: price lists, routes, work centres, the calendar, the terms."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from configurator.catalogue.conditions import When
from configurator.faults import Place


class Price(NamedTuple):
    """One possible line of a quote. `per` is "block" (times the quantity) or "order" (once)."""

    id: str
    text: str
    amount: Decimal
    when: When = ()
    per: str = "block"
    own: bool = False  # the shop's own work, which may be discounted
    place: Place = Place("")


class PriceList(NamedTuple):
    """Prices that hold from a date on, in one currency."""

    id: str
    since: date
    currency: str
    prices: tuple[Price, ...]
    place: Place = Place("")


class Operation(NamedTuple):
    """Work at a centre: hours of set-up once, hours of run for each block, after other operations, materials or
    outside work.

    One that `adds` has no centre of its own: its hours join the operation that it names.
    """

    id: str
    label: str
    centre: str
    set_up: Decimal
    run: Decimal
    when: When = ()
    after: tuple[str, ...] = ()
    adds: str = ""
    place: Place = Place("")


class Outside(NamedTuple):
    """Work done elsewhere, in working days."""

    id: str
    label: str
    working_days: Decimal
    when: When = ()
    after: tuple[str, ...] = ()
    place: Place = Place("")


class Material(NamedTuple):
    """Stock that must be in before the operations that name it can start, in working days from the start of the
    clock.
    """

    id: str
    label: str
    working_days: Decimal
    when: When = ()
    place: Place = Place("")


class Centre(NamedTuple):
    """A work centre.

    Its machines, the hours a day of one machine, what share of them is worked, what is promised already.
    """

    id: str
    label: str
    machines: int
    hours_a_day: Decimal
    efficiency: Decimal
    committed_hours: Decimal
    place: Place = Place("")


class Calendar(NamedTuple):
    """The days on which the shop works: weekdays (0 is Monday) less the named holidays."""

    id: str
    label: str
    week: tuple[int, ...]
    holidays: Mapping[date, str]
    place: Place = Place("")


class Tax(NamedTuple):
    """A tax on the net total: its name and rate (0.20 is twenty per cent)."""

    label: str
    rate: Decimal


class Terms(NamedTuple):
    """What a quote of this shop says beside its lines."""

    validity_days: int
    deposit: Decimal  # a share of the gross total
    rounding: str  # a mode that `money` knows by name
    rounding_level: str  # "line", "category" or "total"
    tax: Tax
    not_included: tuple[str, ...]
    to_confirm: tuple[str, ...]
    clock_starts: tuple[str, ...]
