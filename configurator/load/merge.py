"""All tables of a shop's files, put where they belong: to the shop, or to one of its families.

Nothing depends on the order of files or tables: what is out of place is reported in the order of places, and every
later step goes by ids.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

from configurator.faults import Fault
from configurator.load.shapes import Family, ShopFile
from configurator.load.tables import Table
from configurator.load.words import suggest

OF_A_FAMILY = (
    "choice", "option", "donor", "duty", "tally", "figure", "rule",
    "price", "operation", "outside", "material", "expected",
)  # fmt: skip
OF_THE_SHOP = ("centre", "calendar", "rate", "supplier", "authority", "cost")


class Source(NamedTuple):
    """One file's tables, and the family to which those belong that do not say."""

    tables: ShopFile
    family: str


class Merged(NamedTuple):
    """The shop's own tables, its families, and the tables of each; a `ShopFile` here is a pile from any files."""

    shop: ShopFile
    families: dict[str, Family]
    tables: dict[str, ShopFile]
    faults: list[Fault]


def merge(sources: Iterable[Source]) -> Merged:
    """Sort out the tables of all files."""
    sources = sorted(sources, key=lambda source: source.tables.at())
    heads = [head for source in sources for head in source.tables.family]
    merged = Merged(ShopFile(), {head.id: head for head in reversed(heads)}, {}, [])
    merged.tables.update((id, ShopFile()) for id in sorted(merged.families))
    merged.faults.extend(_twice(heads, "family"))
    for source in sources:
        for kind in OF_THE_SHOP:
            getattr(merged.shop, kind).extend(getattr(source.tables, kind))
        for kind in OF_A_FAMILY:
            for table in getattr(source.tables, kind):
                _hand_over(merged, kind, table, table.family or source.family)
        for price_list in source.tables.price_list:
            family = price_list.family or source.family
            if family or len(merged.families) == 1:
                _hand_over(merged, "price_list", price_list, family)
            else:
                for tables in merged.tables.values():
                    tables.price_list.append(price_list)
    _take_heads(merged, sources)
    _find_twins(merged)
    return merged


def _hand_over(merged: Merged, kind: str, table: Any, family: str) -> None:
    """Give a table to its family; where the shop has but one, it need not say which."""
    if not family and len(merged.tables) == 1:
        (family,) = merged.tables
    if family in merged.tables:
        getattr(merged.tables[family], kind).append(table)
        return
    if not merged.tables:
        return  # said once, of the shop
    if family:
        key, wrong = "family", f"there is no family {family}"
    else:
        key, wrong = kind, "does not say to which family it belongs"
    merged.faults.append(Fault(table.at("family"), key, wrong, suggest(family, merged.tables, "families")))


def _take_heads(merged: Merged, sources: Sequence[Source]) -> None:
    """The tables that a shop has once: its head and its margin."""
    for key in ("shop", "margin"):
        having = [source.tables for source in sources if getattr(source.tables, key) is not None]
        if having:
            setattr(merged.shop, key, getattr(having[0], key))
        for other in having[1:]:
            wrong = f"stands here and at {having[0].at(key)}"
            merged.faults.append(Fault(other.at(key), key, wrong, "a shop has one: take the other away"))
    for calendar in merged.shop.calendar[1:]:
        wrong = f"a second calendar; the first is at {merged.shop.calendar[0].at()}"
        merged.faults.append(Fault(calendar.at(), "calendar", wrong, "a shop has one: take the other away"))


def _find_twins(merged: Merged) -> None:
    """The same id twice is a fault that names both places."""
    for kind in OF_THE_SHOP:
        merged.faults.extend(_twice(getattr(merged.shop, kind), kind))
    for tables in merged.tables.values():
        for kind in (*OF_A_FAMILY, "price_list"):
            if kind not in ("option", "price"):
                merged.faults.extend(_twice(getattr(tables, kind), kind))
        for prices in sorted({price.list for price in tables.price}):
            merged.faults.extend(_twice([price for price in tables.price if price.list == prices], "price"))
        steps = [*tables.operation, *tables.outside, *tables.material]
        merged.faults.extend(fault for fault in _twice(steps, "step") if fault not in merged.faults)


def _twice(tables: Sequence[Any], kind: str) -> list[Fault]:
    faults: list[Fault] = []
    first: dict[str, Table] = {}
    for table in sorted(tables, key=lambda table: table.at("id")):
        if table.id in first:
            wrong = f"{table.id} stands here and at {first[table.id].at('id')}"
            faults.append(Fault(table.at("id"), f"{kind}.id", wrong, "an id stands once: rename one, or take it away"))
        first.setdefault(table.id, table)
    return faults
