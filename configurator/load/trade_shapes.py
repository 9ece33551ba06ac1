"""The shape of the tables that say what a shop charges, how it works and on what terms."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, Literal

from pydantic import Field

from configurator.load.readings import (
    Amount,
    Day,
    Hours,
    Id,
    Machines,
    Mark,
    Marks,
    Share,
    Text,
    Texts,
    Truth,
    Validity,
    WorkingDays,
)
from configurator.load.tables import Table


class PriceList(Table):
    """Prices that hold from a date on; without a family, for every family of the shop."""

    family: Id = ""
    id: Mark
    from_: Day = Field(alias="from")
    currency: Text = ""


class Price(Table):
    """One possible line of a quote."""

    family: Id = ""
    id: Mark
    list: Mark
    when: dict[Id, Any] = {}
    text: Text
    amount: Amount
    per: Literal["block", "order"] = "block"
    own: Truth = False


class Operation(Table):
    """Work at a centre, or hours that join another operation."""

    family: Id = ""
    id: Mark
    label: Text = ""
    centre: Mark = ""
    set_up: Hours = Decimal(0)
    run: Hours = Decimal(0)
    when: dict[Id, Any] = {}
    after: Marks = []
    adds: Mark = ""


class Outside(Table):
    """Work done elsewhere."""

    family: Id = ""
    id: Mark
    label: Text = ""
    working_days: WorkingDays
    when: dict[Id, Any] = {}
    after: Marks = []


class Material(Table):
    """Stock that must be in first."""

    family: Id = ""
    id: Mark
    label: Text = ""
    working_days: WorkingDays
    when: dict[Id, Any] = {}


class Centre(Table):
    """A work centre."""

    id: Mark
    label: Text = ""
    machines: Machines
    hours_a_day: Hours
    efficiency: Share
    committed_hours: Hours = Decimal(0)


class Holiday(Table):
    """A day on which the shop is shut."""

    date: Day
    label: Text


class Calendar(Table):
    """The days on which the shop works."""

    id: Mark
    label: Text = ""
    week: list[Literal["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]] = Field(min_length=1)
    holidays: list[Holiday] = []


class Tax(Table):
    """A tax on the net total."""

    label: Text
    rate: Share


class Terms(Table):
    """What every quote says beside its lines."""

    validity: Validity
    deposit: Share
    rounding: Text
    rounding_level: Literal["line", "category", "total"]
    tax: Tax


class ShopHead(Table):
    """The shop itself."""

    id: Mark
    name: Text
    demo: Truth = False
    currency: Text
    zone: Text
    terms: Terms
    not_included: Texts = []
    to_confirm: Texts = []
    clock_starts: Texts = []
