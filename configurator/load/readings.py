"""The kinds of value that a shop's tables hold, each read from TOML into what it means."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, datetime
from decimal import Decimal
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator

from configurator.money import read_amount
from configurator.units import Misread, Quantity, find_unit, number_in, read_quantity

LONGEST_ID, LONGEST_TEXT = 60, 2000
MOST_BLOCKS = 10_000


def _id(value: Any) -> str:
    if isinstance(value, str) and len(value) <= LONGEST_ID and re.fullmatch(r"[a-z][a-z0-9_]*", value):
        return value
    raise Misread("is no id", "an id is small letters, digits and underscores, and begins with a letter: dry_deck")


def _mark(value: Any) -> str:
    if isinstance(value, str) and len(value) <= LONGEST_ID and re.fullmatch(r"[a-z0-9][a-z0-9_.-]*", value):
        return value
    raise Misread("is no id", "an id is small letters, digits, underscores, hyphens and points: price_2, 2026-06")


def _text(value: Any) -> str:
    if not isinstance(value, str) or not value.strip():
        raise Misread("is not a text", 'write it between quotes: "..."')
    if len(value) > LONGEST_TEXT:
        raise Misread(f"is longer than {LONGEST_TEXT:,} characters", "say it shorter")
    return value


def _written(value: Any) -> str:
    """The text of a quantity; a bare number is let through as its own text, for counts."""
    if isinstance(value, (int, Decimal)) and not isinstance(value, bool):
        return str(value)
    if not isinstance(value, str):
        raise Misread("is not a quantity", 'write a number with its unit between quotes: "94.0 mm"')
    return value


def _quantity_text(value: Any) -> str:
    text = _written(value)
    read_quantity(text)
    return text


def _quantity(unit: str) -> Callable[[Any], Quantity]:
    def read(value: Any) -> Quantity:
        if not isinstance(value, str):
            raise Misread("is not a quantity", f'write a number with its unit between quotes: "8 {unit}"')
        quantity = read_quantity(value, unit)
        if quantity.value < 0:
            raise Misread(f"{value!r} is negative", "write nothing, or more")
        return quantity

    return read


def _hours(value: Any) -> Decimal:
    return number_in(_quantity("h")(value).value, "h")


def _share(value: Any) -> Decimal:
    if not isinstance(value, str) or not value.strip().endswith("%"):
        raise Misread("is not a share", 'write it as "50 %"')
    share = _quantity("%")(value).value
    if share > 1:
        raise Misread(f"{value!r} is more than the whole", "write at most 100 %")
    return share


def _working_days(value: Any) -> Decimal:
    if isinstance(value, bool) or not isinstance(value, (int, Decimal)) or not 0 <= value <= 1000:
        raise Misread("is not a number of working days", "write a number from 0 to 1000 without quotes: 5 or 2.5")
    return Decimal(value)


def _validity(value: Any) -> int:
    days = number_in(_quantity("day")(value).value, "day")
    if days != days.to_integral_value() or not 1 <= days <= 3650:
        raise Misread(f"{value!r} is no number of whole days", 'write it as "30 days"')
    return int(days)


def _amount(value: Any) -> Decimal:
    if not isinstance(value, str):
        raise Misread("is not an amount of money", 'write it between quotes: "420.00"')
    return read_amount(value)


def _net(value: Any) -> str:
    return str(_amount(value))


def _day(value: Any) -> date:
    if isinstance(value, datetime) or not isinstance(value, date):
        raise Misread("is not a date", "write it without quotes: 2026-06-01")
    return value


def _unit(value: Any) -> str:
    if not isinstance(value, str):
        raise Misread("is not a unit", 'write its symbol between quotes: "mm"')
    return find_unit(value).symbol if value.strip() else ""


def _truth(value: Any) -> bool:
    if not isinstance(value, bool):
        raise Misread("is neither true nor false", "write true or false without quotes")
    return value


def _one_or_more(value: Any) -> Any:
    return value if isinstance(value, list) else [value]


Id = Annotated[str, PlainValidator(_id)]
"""A name of the shop's own that formulas and picks speak: snake_case."""
Mark = Annotated[str, PlainValidator(_mark)]
"""A name that only tables speak: digits, hyphens and points are fine too ("2026-06")."""
Text = Annotated[str, PlainValidator(_text)]
Written = Annotated[str, PlainValidator(_written)]
"""An option or a quantity, told apart later, against its choice."""
QuantityText = Annotated[str, PlainValidator(_quantity_text)]
"""A quantity whose unit is judged later."""
Hours = Annotated[Decimal, PlainValidator(_hours)]
Share = Annotated[Decimal, PlainValidator(_share)]
WorkingDays = Annotated[Decimal, PlainValidator(_working_days)]
Validity = Annotated[int, PlainValidator(_validity)]
Amount = Annotated[Decimal, PlainValidator(_amount)]
Net = Annotated[str, PlainValidator(_net)]
"""An amount that is kept as its text."""
Day = Annotated[date, PlainValidator(_day)]
UnitSymbol = Annotated[str, PlainValidator(_unit)]
Truth = Annotated[bool, PlainValidator(_truth)]
Machines = Annotated[int, Field(strict=True, ge=1, le=1000)]
Blocks = Annotated[int, Field(strict=True, ge=1, le=MOST_BLOCKS)]
Columns = Annotated[list[Id], Field(min_length=1, max_length=12)]
Names = Annotated[list[Id], BeforeValidator(_one_or_more)]
Marks = Annotated[list[Mark], BeforeValidator(_one_or_more)]
Texts = Annotated[list[Text], BeforeValidator(_one_or_more)]
