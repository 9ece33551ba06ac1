"""A shop's plain form turned into the frozen values that all else works with. Plain code: it runs at every start."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Any, TypeVar

from configurator.catalogue.choices import Choice, Donor, Duty, Fact, Option, Range, Tally, Usual
from configurator.catalogue.conditions import Condition, When
from configurator.catalogue.rules import Example, Figure, Implication, Limit, Rule, Table
from configurator.catalogue.shops import Expected, Family, Shop
from configurator.catalogue.trade import (
    Calendar,
    Centre,
    Material,
    Operation,
    Outside,
    Price,
    PriceList,
    Tax,
    Terms,
)
from configurator.faults import Place
from configurator.units import Quantity

Plain = Mapping[str, Any]
Value = TypeVar("Value")

_NONE: Mapping[str, Any] = {}


def assemble(plain: Plain) -> Shop:
    """The shop of a plain form that `read_shop` made; nothing is checked a second time."""
    head = plain["shop"]
    return Shop(
        head["id"],
        head["name"],
        head.get("demo", False),
        head["currency"],
        head["zone"],
        _terms(head["terms"]),
        {id: _family(one) for id, one in plain["families"].items()},
        {id: _centre(one) for id, one in plain["centres"].items()},
        _calendar(plain["calendar"]),
        frozenset(plain["foreign"]),
        plain["kept_back"],
        Place(*head["place"]),
    )


def _family(one: Plain) -> Family:
    return Family(
        one["id"],
        one["label"],
        _facts(one.get("facts", _NONE)),
        {id: _choice(choice) for id, choice in one.get("choices", _NONE).items()},
        _each(_donor, one.get("donors")),
        {id: _duty(duty) for id, duty in one.get("duties", _NONE).items()},
        {id: _figure(figure) for id, figure in one.get("figures", _NONE).items()},
        {id: _rule(rule) for id, rule in one.get("rules", _NONE).items()},
        _each(_tally, one.get("tallies")),
        _each(_price_list, one.get("price_lists")),
        _each(_operation, one.get("operations")),
        _each(_outside, one.get("outside")),
        _each(_material, one.get("materials")),
        _each(_expected, one.get("expected")),
        tuple(one.get("headings", ())),
        Place(*one["place"]),
    )


def _each(make: Callable[[Plain], Value], tables: Sequence[Plain] | None) -> tuple[Value, ...]:
    return tuple([make(table) for table in tables]) if tables else ()


def _quantity(pair: Sequence[str]) -> Quantity:
    return Quantity(Decimal(pair[0]), pair[1])


def _quantities(tables: Mapping[str, Sequence[str]]) -> dict[str, Quantity]:
    return {name: Quantity(Decimal(value), unit) for name, (value, unit) in tables.items()}


def _facts(tables: Mapping[str, Plain]) -> dict[str, Fact]:
    return {
        name: Fact(_quantity(one["value"]), one["basis"], one.get("source", ""), Place(*one["place"]))
        for name, one in tables.items()
    }


def _when(conditions: Sequence[Sequence[Any]] | None) -> When:
    if not conditions:
        return ()
    return tuple([Condition(name, tuple(options), negated, text) for name, options, negated, text in conditions])


def _choice(one: Plain) -> Choice:
    get = one.get
    legal = get("range")
    return Choice(
        one["id"],
        one["label"],
        one["asks"],
        tuple([_option(option) for option in get("options", ())]),
        get("heading", ""),
        tuple(get("aliases", ())),
        get("help", ""),
        tuple([Usual(_when(when), option) for when, option in get("usual", ())]),
        get("taken_as", ""),
        get("derive", _NONE),
        Range(legal[0], *[_quantity(bound) for bound in legal[1:]]) if legal else None,
        Place(*one["place"]),
    )


def _option(one: Plain) -> Option:
    get = one.get
    facts, value, measures = get("facts"), get("value"), get("measures")
    return Option(
        one["id"],
        one["label"],
        tuple(get("aliases", ())),
        _facts(facts) if facts else _NONE,
        _quantity(value) if value else None,
        _quantities(measures) if measures else _NONE,
        _quantities(get("tolerance", _NONE)) if measures else _NONE,
        tuple(get("asks_for", ())),
        get("refused_with", ""),
        get("help", ""),
        Place(*one["place"]),
    )


def _donor(one: Plain) -> Donor:
    return Donor(one["id"], one["label"], one["part"], one.get("has", _NONE), Place(*one["place"]))


def _duty(one: Plain) -> Duty:
    least, greatest = _quantity(one["least"]), _quantity(one["greatest"])
    words = (one.get("help", ""), one.get("plain_is", ""))
    return Duty(one["id"], one["label"], one.get("unit", ""), least, greatest, *words, Place(*one["place"]))


def _tally(one: Plain) -> Tally:
    return Tally(one["id"], one["label"], one.get("unit", ""), place=Place(*one["place"]))


def _figure(one: Plain) -> Figure:
    return Figure(one["id"], one["formula"], one.get("label", ""), one.get("unit", ""), Place(*one["place"]))


def _rule(one: Plain) -> Rule:
    get = one.get
    return Rule(
        one["id"],
        _BODIES[one["form"]](one),
        one["because"],
        one["basis"],
        get("source", ""),
        get("caution", ""),
        get("label", ""),
        get("say", ""),
        tuple(get("needs", ())),
        _each(_example, get("passes")),
        _each(_example, get("fails")),
        Place(*one["place"]),
    )


def _example(one: Plain) -> Example:
    return Example(one["picks"], Place(*one["place"]))


def _implication(one: Plain) -> Implication:
    return Implication(_when(one.get("when")), one.get("condition", ""), _when(one.get("then")), one["otherwise"])


def _table(one: Plain) -> Table:
    rows, arranged = _rows(one.get("rows", ())), _rows(one.get("by_arrangement", ()))
    return Table(_when(one.get("when")), tuple(one["columns"]), rows, arranged, one["otherwise"])


def _rows(rows: Sequence[Sequence[Sequence[str]]]) -> tuple[tuple[tuple[str, ...], ...], ...]:
    return tuple([tuple([tuple(cell) for cell in row]) for row in rows])


def _limit(one: Plain) -> Limit:
    get = one.get
    thresholds = (get("free", ""), get("by_arrangement", ""), get("beyond", ""), get("advice", ""))
    return Limit(
        _when(get("when")), one["figure"], *thresholds, get("judged", ""), get("uncertainty", ""), get("unit", "")
    )


_BODIES: Mapping[str, Callable[[Plain], Implication | Table | Limit]] = {
    "implication": _implication,
    "table": _table,
    "limit": _limit,
}


def _price_list(one: Plain) -> PriceList:
    since = date.fromisoformat(one["since"])
    return PriceList(one["id"], since, one["currency"], _each(_price, one.get("prices")), Place(*one["place"]))


def _price(one: Plain) -> Price:
    amount, when = Decimal(one["amount"]), _when(one.get("when"))
    return Price(one["id"], one["text"], amount, when, one["per"], one.get("own", False), Place(*one["place"]))


def _operation(one: Plain) -> Operation:
    hours = (Decimal(one["set_up"]), Decimal(one["run"]))
    when, after, adds = _when(one.get("when")), tuple(one.get("after", ())), one.get("adds", "")
    place = Place(*one["place"])
    return Operation(one["id"], one["label"], one.get("centre", ""), *hours, when, after, adds, place)


def _outside(one: Plain) -> Outside:
    days, when, after = Decimal(one["working_days"]), _when(one.get("when")), tuple(one.get("after", ()))
    return Outside(one["id"], one["label"], days, when, after, Place(*one["place"]))


def _material(one: Plain) -> Material:
    days, when = Decimal(one["working_days"]), _when(one.get("when"))
    return Material(one["id"], one["label"], days, when, Place(*one["place"]))


def _expected(one: Plain) -> Expected:
    place = Place(*one["place"])
    return Expected(one["id"], one["why"], one["enquiry"], one["verdict"], one.get("net", ""), place)


def _centre(one: Plain) -> Centre:
    hours, efficiency, committed = (Decimal(one[key]) for key in ("hours_a_day", "efficiency", "committed_hours"))
    return Centre(one["id"], one["label"], one["machines"], hours, efficiency, committed, Place(*one["place"]))


def _calendar(one: Plain) -> Calendar:
    holidays = {date.fromisoformat(day): label for day, label in one["holidays"].items()}
    return Calendar(one["id"], one["label"], tuple(one["week"]), holidays, Place(*one["place"]))


def _terms(one: Plain) -> Terms:
    tax = Tax(one["tax"]["label"], Decimal(one["tax"]["rate"]))
    lists = (tuple(one[key]) for key in ("not_included", "to_confirm", "clock_starts"))
    return Terms(one["validity_days"], Decimal(one["deposit"]), one["rounding"], one["rounding_level"], tax, *lists)
