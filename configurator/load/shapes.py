"""The shape of every table that a shop's files may hold. Whether one table fits the others is judged elsewhere.

A key that is not listed here is a fault. Each table knows where it was written, so that whatever is found wrong with it
later can be shown with its line.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, PlainValidator

from configurator.load.readings import (
    Blocks,
    Columns,
    Day,
    Id,
    Mark,
    Marks,
    Names,
    Net,
    QuantityText,
    Text,
    Texts,
    UnitSymbol,
    Written,
)
from configurator.load.tables import Table
from configurator.load.trade_shapes import Calendar, Centre, Material, Operation, Outside, Price, PriceList, ShopHead
from configurator.units import Misread

Basis = Literal["published", "common practice", "family data", "from memory"]
Standing = Literal["impossible", "by_arrangement", "advice"]
STANDINGS = ("impossible", "by_arrangement", "advice")


def _then(value: Any) -> dict[str, Any] | str:
    if (isinstance(value, dict) and value) or (isinstance(value, str) and value in STANDINGS):
        return value
    raise Misread("is no consequence", f'write {{ choice = "option" }}, or one of {", ".join(STANDINGS)}')


Then = Annotated[dict[str, Any] | str, PlainValidator(_then)]


class Kept(Table):
    """A table of what the shop keeps to itself. Only its id is demanded; nothing that a customer sees depends on it."""

    model_config = ConfigDict(extra="allow")
    id: Mark


class Fact(Table):
    """A figure with what it rests on."""

    is_: QuantityText = Field(alias="is")
    basis: Basis = "family data"
    source: Text = ""


class Option(Table):
    """One answer to a choice: `id` for a choice in words, `is` for a numeric one."""

    id: Id = ""
    is_: QuantityText = Field("", alias="is")
    label: Text = ""
    aliases: Texts = []
    help: Text = ""
    facts: dict[Id, Fact] = {}
    measures: dict[Id, QuantityText] = {}
    tolerance: dict[Id, QuantityText] = {}
    asks_for: Names = []
    refused_with: Id = ""


class FurtherOption(Option):
    """An option written apart from its choice, behind the others, so that a variant can be one new file."""

    family: Id = ""
    choice: Id


class Choice(Table):
    """A thing to settle."""

    family: Id = ""
    id: Id
    asks: Literal["have", "want"]
    label: Text = ""
    heading: Text = ""
    aliases: Texts = []
    help: Text = ""
    usual: Any = None
    taken_as: Written = ""
    derive: dict[Id, Text] = {}
    unit: UnitSymbol | None = None
    from_: QuantityText = Field("", alias="from")
    to: QuantityText = ""
    step: QuantityText = ""
    option: list[Option] = []


class Family(Table):
    """One engine family. `rules` names the shipped rule files that it wants."""

    id: Id
    label: Text = ""
    rules: Marks = []
    facts: dict[Id, Fact] = {}
    headings: Texts = []


class Donor(Table):
    """What a crank, block, gearbox or head of one original engine variant has."""

    family: Id = ""
    id: Mark
    label: Text = ""
    part: Literal["crank", "block", "gearbox", "head"]
    has: dict[Id, Written] = Field(min_length=1)


class Duty(Table):
    """A number about what the engine will do, or another fact of the caller."""

    family: Id = ""
    id: Id
    unit: UnitSymbol
    from_: QuantityText = Field(alias="from")
    to: QuantityText
    label: Text = ""
    help: Text = ""
    plain_is: Literal["", "gauge", "absolute"] = ""


class Tally(Table):
    """A quantity that adds up over the options' facts of its name."""

    family: Id = ""
    id: Id
    label: Text = ""
    unit: UnitSymbol


class Figure(Table):
    """A quantity worked out by a formula."""

    family: Id = ""
    id: Id
    formula: Text
    label: Text = ""
    unit: UnitSymbol = ""


class Rule(Table):
    """A rule in any of its three forms: what goes together, what fits as a table, a limit."""

    family: Id = ""
    id: Id
    label: Text = ""
    when: dict[Id, Any] = {}
    if_: Text = Field("", alias="if")
    then: Then | None = None
    otherwise: Standing = "impossible"
    columns: Columns | None = None
    rows: list[list[Any]] | None = None
    by_arrangement: Any = None
    figure: Id = ""
    free: Text = ""
    beyond: Standing = "impossible"
    advice: Text = ""
    judged: Literal["nominal", "low", "high"] = "nominal"
    uncertainty: Text = ""
    unit: UnitSymbol = ""
    because: Text
    basis: Basis
    source: Text = ""
    caution: Text = ""
    say: Text = ""
    needs: Names = []
    passes: list[dict[Id, Any]] = []
    fails: list[dict[Id, Any]] = []
    author: Text = ""
    date: Day | None = None


class Expected(Table):
    """An enquiry, in a file of its own or written here, and the answer that must come out."""

    family: Id = ""
    id: Mark
    why: Text
    verdict: Literal["free", "by_arrangement", "impossible", "not_known"]
    net: Net = ""
    enquiry: Text = ""
    have: dict[Id, Any] = {}
    want: dict[Id, Any] = {}
    duty: dict[Id, Any] = {}
    quantity: Blocks | None = None


class RuleFile(Table):
    """A shipped rule file: rules and figures of one subject, for whatever family names it."""

    figure: list[Figure] = []
    rule: list[Rule] = []


class ShopFile(RuleFile):
    """A shop's file: any tables, in any number."""

    family: list[Family] = []
    shop: ShopHead | None = None
    choice: list[Choice] = []
    option: list[FurtherOption] = []
    donor: list[Donor] = []
    duty: list[Duty] = []
    tally: list[Tally] = []
    price_list: list[PriceList] = []
    price: list[Price] = []
    operation: list[Operation] = []
    outside: list[Outside] = []
    material: list[Material] = []
    centre: list[Centre] = []
    calendar: list[Calendar] = []
    expected: list[Expected] = []
    margin: dict[str, Any] | None = None
    rate: list[Kept] = []
    supplier: list[Kept] = []
    authority: list[Kept] = []
    cost: list[Kept] = []
