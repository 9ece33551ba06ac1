"""The frozen answer: what is offered, for how much, by when, on which versions. Reproducible to the cent."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from configurator.answer import Answer


class Line(NamedTuple):
    """One line of a quote: `amount` is `each` times `quantity`. `because` names the picks that caused it."""

    id: str
    text: str
    quantity: int
    each: Decimal
    amount: Decimal
    because: Mapping[str, str]
    per: str = "block"
    own: bool = False


class Totals(NamedTuple):
    """What the lines come to. `net` + `tax` = `gross`, exactly, in the currency's minor unit.

    `rounding` names the mode, `rounding_level` what it was applied to: a price is reproducible only with both.
    """

    lines: tuple[Line, ...]
    net: Decimal
    tax_label: str
    tax: Decimal
    gross: Decimal
    deposit: Decimal
    currency: str
    list: str
    tax_rate: Decimal = Decimal(0)
    rounding: str = ""
    rounding_level: str = ""


class Span(NamedTuple):
    """The working days that one operation, outside process or material takes, from the start of the clock."""

    id: str
    label: str
    centre: str
    start: Decimal
    finish: Decimal


class Promise(NamedTuple):
    """When: `planned` working days after the clock starts. Chances stay None until the spread is simulated."""

    clock_starts: tuple[str, ...]
    planned: int
    p50: int | None
    p80: int | None
    p90: int | None
    dates: Mapping[str, date] | None
    spans: tuple[Span, ...]
    bottleneck: str


class TradeOff(NamedTuple):
    """What changes if one choice changes, worked out on the neighbouring build."""

    choice: str
    option: str
    standing: str
    net: Decimal
    difference: Decimal
    working_days: int
    days_difference: int
    tallies: Mapping[str, str]
    also: Mapping[str, str]


class FromTo(NamedTuple):
    """Net totals over the answers that an open have can still get."""

    least: Decimal
    greatest: Decimal


class Quote(NamedTuple):
    """A quote; `draft` says why it cannot be offered as it stands (empty: it can)."""

    answer: Answer
    totals: Totals
    promise: Promise
    trade_offs: tuple[TradeOff, ...]
    from_to: Mapping[str, FromTo]
    assumed: Mapping[str, str]
    not_included: tuple[str, ...]
    to_confirm: tuple[str, ...]
    cautions: tuple[str, ...]
    dated: date
    valid_until: date
    draft: tuple[str, ...]
    versions: Mapping[str, str]
    hash: str
    subject_to: tuple[str, ...] = ()  # open haves that change neither price, days, tallies nor standing
    tallies: Mapping[str, str] = {}
