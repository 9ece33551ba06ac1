"""What a shop charges and how it works, judged and taken down in plain form."""

from __future__ import annotations

from collections.abc import Sequence
from graphlib import CycleError, TopologicalSorter
from typing import Any

from configurator.faults import Fault
from configurator.load.lexicon import Lexicon, Plain, filled, plain_place
from configurator.load.options import label_of
from configurator.load.shapes import ShopFile
from configurator.load.tables import Table
from configurator.load.trade_shapes import Calendar, Operation, Outside, Price, PriceList, ShopHead, Terms
from configurator.load.words import suggest
from configurator.money import ROUNDINGS, minor_digits

WEEK = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def price_lists(lexicon: Lexicon, tables: ShopFile, currency: str) -> list[Plain]:
    """A family's price lists by id, each with its prices by id."""
    ids = {one.id for one in tables.price_list}
    for price in sorted(tables.price, key=lambda price: price.at()):
        if price.list not in ids:
            way_out = suggest(price.list, ids, "price lists")
            lexicon.fault(price, ("list",), f"there is no price list {price.list}", way_out)
    since: dict[Any, PriceList] = {}
    taken = []
    for one in sorted(tables.price_list, key=lambda one: one.id):
        other = since.setdefault(one.from_, one)
        if other is not one:
            wrong = f"price list {other.id} holds from the same day"
            lexicon.fault(one, ("from",), wrong, "let one begin on another day")
        prices = sorted((price for price in tables.price if price.list == one.id), key=lambda price: price.id)
        in_force = one.currency or currency
        taken.append(
            filled(
                id=one.id,
                since=one.from_.isoformat(),
                currency=in_force,
                prices=[_price(lexicon, price, in_force) for price in prices],
                place=plain_place(one),
            )
        )
    return taken


def _price(lexicon: Lexicon, price: Price, currency: str) -> Plain:
    digits = _digits(currency)
    if digits is not None and round(price.amount, digits) != price.amount:
        lexicon.fault(price, ("amount",), f"is finer than {currency} can be paid", f"write at most {digits} decimals")
    return filled(
        id=price.id,
        text=price.text,
        amount=str(price.amount),
        when=lexicon.conditions(price, ("when",), price.when, picks_only=True),
        per=price.per,
        own=price.own,
        place=plain_place(price),
    )


def _digits(currency: str) -> int | None:
    try:
        return minor_digits(currency)
    except ValueError:
        return None


class RouteReading:
    """The operations, outside work and materials of one family on their way into plain form."""

    def __init__(self, lexicon: Lexicon, tables: ShopFile, centres: Sequence[str]) -> None:
        self.lexicon, self.tables, self.centres = lexicon, tables, centres
        self.steps: dict[str, Table] = {one.id: one for one in tables.material}
        self.steps |= {one.id: one for one in tables.outside}
        self.steps |= {one.id: one for one in tables.operation}

    def plain(self) -> Plain:
        """The three kinds of steps, each by id."""
        taken = {
            "operations": [self._operation(one) for one in _by_id(self.tables.operation)],
            "outside": [self._waiting(one) for one in _by_id(self.tables.outside)],
            "materials": [self._waiting(one) for one in _by_id(self.tables.material)],
        }
        self._no_circles()
        return filled(**taken)

    def _operation(self, one: Operation) -> Plain:
        fault = self.lexicon.fault
        if one.adds:
            self._adding(one)
        elif not one.centre:
            fault(one, ("centre",), "is missing", "say at which centre it is done, or whose hours it adds to")
        elif one.centre not in self.centres:
            fault(one, ("centre",), f"there is no centre {one.centre}", suggest(one.centre, self.centres, "centres"))
        hours = {"set_up": str(one.set_up), "run": str(one.run)}
        return filled(id=one.id, label=label_of(one), centre=one.centre, adds=one.adds, **hours, **self._links(one))

    def _adding(self, one: Operation) -> None:
        """Whether there is an operation that its hours can join."""
        into = self.steps.get(one.adds)
        if not isinstance(into, Operation) or into.adds:
            known = [other.id for other in self.tables.operation if not other.adds]
            wrong = f"{one.adds} is no operation with hours of its own"
            self.lexicon.fault(one, ("adds",), wrong, suggest(one.adds, known, "operations"))
        for key, written in (("centre", one.centre), ("after", one.after)):
            if written:
                way_out = "its hours join the other operation, where and when that is done"
                self.lexicon.fault(one, (key,), "does not go with `adds`", way_out)

    def _waiting(self, one: Any) -> Plain:
        return filled(id=one.id, label=label_of(one), working_days=str(one.working_days), **self._links(one))

    def _links(self, one: Any) -> Plain:
        """What all steps have: when they are needed, what they come after, where they are written."""
        after = getattr(one, "after", [])
        for name in after:
            if name not in self.steps:
                self.lexicon.fault(one, ("after",), f"there is no step {name}", suggest(name, self.steps, "steps"))
        when = self.lexicon.conditions(one, ("when",), one.when, picks_only=True)
        return {"when": when, "after": sorted(set(after)), "place": plain_place(one)}

    def _no_circles(self) -> None:
        before = {id: sorted(_before(step)) for id, step in sorted(self.steps.items())}
        ring = circle_in(before)
        if ring:
            wrong = f"these wait for each other in a circle: {', '.join(ring)}"
            self.lexicon.fault(self.steps[ring[0]], ("after",), wrong, "take one of them out of another's `after`")


def _before(step: Table) -> list[str]:
    if isinstance(step, Operation):
        return [step.adds] if step.adds else step.after
    return step.after if isinstance(step, Outside) else []


def _by_id(tables: Sequence[Any]) -> list[Any]:
    return sorted(tables, key=lambda table: table.id)


def circle_in(before: dict[str, list[str]]) -> list[str]:
    """The members of a circle among things that come before each other, from its least; empty where there is none."""
    try:
        TopologicalSorter(before).prepare()
    except CycleError as circle:
        ring = list(reversed(circle.args[1]))[1:]
        least = ring.index(min(ring))
        return ring[least:] + ring[:least]
    return []


def centres(tables: ShopFile) -> dict[str, Plain]:
    """The work centres by id."""
    return {
        one.id: filled(
            id=one.id,
            label=label_of(one),
            machines=one.machines,
            hours_a_day=str(one.hours_a_day),
            efficiency=str(one.efficiency),
            committed_hours=str(one.committed_hours),
            place=plain_place(one),
        )
        for one in _by_id(tables.centre)
    }


def centre_faults(tables: ShopFile) -> list[Fault]:
    """Centres that no work could ever leave."""
    faults = []
    for one in tables.centre:
        for key, value in (("hours_a_day", one.hours_a_day), ("efficiency", one.efficiency)):
            if value == 0 or value > 24:
                wrong = "no day has so many hours" if value else "no work would ever be done there"
                faults.append(Fault(one.at(key), f"centre.{key}", wrong, "write more than nothing, and at most 24 h"))
    return faults


def calendar(given: Sequence[Calendar]) -> tuple[Plain, list[Fault]]:
    """The calendar; without one, Monday to Friday, which its label says."""
    if not given:
        week = {"id": "five_days", "label": "Monday to Friday, no holidays", "week": [0, 1, 2, 3, 4], "holidays": {}}
        return {**week, "place": ["", 0, 0]}, []
    one = given[0]
    holidays: dict[str, str] = {}
    faults = []
    for holiday in one.holidays:
        day = holiday.date.isoformat()
        if day in holidays:
            faults.append(Fault(holiday.at("date"), "calendar.holidays", f"{day} stands twice", "take one away"))
        holidays[day] = holiday.label
    week_days = sorted({WEEK.index(day) for day in one.week})
    plain = {"id": one.id, "label": label_of(one), "week": week_days, "holidays": dict(sorted(holidays.items()))}
    return {**plain, "place": plain_place(one)}, faults


def head(shop: ShopHead) -> tuple[Plain, list[Fault]]:
    """The shop's own table."""
    faults = []
    if _digits(shop.currency) is None:
        wrong = f"{shop.currency} is not a currency that is known here"
        faults.append(Fault(shop.at("currency"), "shop.currency", wrong, "write its three letters: EUR, GBP, USD"))
    if not _is_zone(shop.zone):
        wrong = f"{shop.zone} is not a time zone"
        faults.append(Fault(shop.at("zone"), "shop.zone", wrong, "write it like Europe/Berlin"))
    if shop.terms.rounding not in ROUNDINGS:
        way_out = suggest(shop.terms.rounding, ROUNDINGS, "roundings")
        faults.append(Fault(shop.terms.at("rounding"), "shop.terms.rounding", "is no way of rounding", way_out))
    plain = filled(
        id=shop.id,
        name=shop.name,
        demo=shop.demo,
        currency=shop.currency,
        zone=shop.zone,
        terms=_terms(shop.terms, shop),
        place=plain_place(shop),
    )
    return plain, faults


def _terms(terms: Terms, shop: ShopHead) -> Plain:
    return {
        "validity_days": terms.validity,
        "deposit": str(terms.deposit),
        "rounding": terms.rounding,
        "rounding_level": terms.rounding_level,
        "tax": {"label": terms.tax.label, "rate": str(terms.tax.rate)},
        "not_included": shop.not_included,
        "to_confirm": shop.to_confirm,
        "clock_starts": shop.clock_starts,
    }


def _is_zone(zone: str) -> bool:
    """Whether the zone is known; where the machine has no list of zones, any is taken."""
    from zoneinfo import ZoneInfo, available_timezones

    try:
        ZoneInfo(zone)
    except (ValueError, OSError, LookupError):
        return not available_timezones()
    return True
