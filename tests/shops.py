"""Shops made from Python values, so that a test says only what it is about.

    shop = shop_of(
        choice("cooling", "jacketed", "solid"),
        choice("use", "street", "drag"),
        rule("solid_is_for_drag", when={"cooling": "solid"}, then={"use": "drag"}),
    )
    assert space_of(shop).count() == (3, 0)

Every maker below gives an entry: the kind of a table and what it says, as in a shop's TOML. What is left out is filled
in with what every shop must say: its name, terms, one family, a calendar and a price list without prices.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

import tomli_w

from configurator.catalogue.shops import Family, Shop
from configurator.load.assemble import assemble
from configurator.load.shop import read_shop
from configurator.rulebook import tabled
from configurator.space import Space, compile_space

Told = dict[str, Any]
Entry = tuple[str, Told]

TERMS: Told = {
    "validity": "30 days",
    "deposit": "50 %",
    "rounding": "half_up",
    "rounding_level": "total",
    "tax": {"label": "VAT", "rate": "19 %"},
}
USUAL_TABLES: dict[str, Told] = {
    "family": {"id": "family", "label": "Family"},
    "calendar": {"id": "works", "label": "Works", "week": ["Mon", "Tue", "Wed", "Thu", "Fri"]},
    "price_list": {"id": "prices", "from": date(2026, 1, 1), "currency": "EUR"},
}


def choice(id: str, *options: str | Told, asks: str = "want", **says: Any) -> Entry:
    """A choice in words. An option is its id, or all that it says: {"id": "solid", "facts": {...}}."""
    told = [{"id": option} if isinstance(option, str) else option for option in options]
    told = [{"label": one["id"], **one} for one in told]
    return "choice", {"id": id, "label": id, "asks": asks, "option": told, **says}


def number(id: str, values: Sequence[int], unit: str, **says: Any) -> Entry:
    """A numeric choice that lists these whole values of a unit, and takes any whole value between them as asked."""
    legal = {"unit": unit, "from": f"{min(values)} {unit}", "to": f"{max(values)} {unit}", "step": f"1 {unit}"}
    listed = [{"is": f"{value} {unit}"} for value in values]
    return "choice", {"id": id, "label": id, "asks": "want", **legal, "option": listed, **says}


def rule(id: str, **says: Any) -> Entry:
    """A rule in any of its forms; `because` and `basis` are filled in."""
    return "rule", {"id": id, "because": f"{id.replace('_', ' ')}.", "basis": "common practice", **says}


def figure(id: str, formula: str) -> Entry:
    """A figure."""
    return "figure", {"id": id, "formula": formula}


def price(id: str, amount: str, **says: Any) -> Entry:
    """A line of the one price list."""
    return "price", {"id": id, "list": "prices", "text": id, "amount": amount, **says}


def fact(value: str) -> Told:
    """A fact with the basis that most have."""
    return {"is": value, "basis": "family data"}


def text_of(*entries: Entry) -> str:
    """The TOML of a shop that holds these entries."""
    told: dict[str, Any] = {"shop": {"id": "shop", "name": "Shop", "demo": True, "currency": "EUR", "zone": "UTC"}}
    told["shop"]["terms"] = TERMS
    for kind, says in entries:
        told.setdefault(kind, []).append(says)
    for kind, says in USUAL_TABLES.items():
        told.setdefault(kind, [says])
    return tomli_w.dumps(told)


def folder_of(folder: Path, *entries: Entry) -> Path:
    """Writes the shop into a folder, as a user would keep it."""
    (folder / "shop.toml").write_text(text_of(*entries), encoding="utf-8")
    return folder


def shop_of(*entries: Entry) -> Shop:
    """The shop as read from its TOML."""
    return assemble(read_shop({"shop.toml": text_of(*entries).encode()}, {}))


def family_of(shop: Shop) -> Family:
    """The one family of a shop of one family."""
    (family,) = shop.families.values()
    return family


def space_of(shop: Shop) -> Space:
    """The builds of the one family that its rules allow."""
    book = tabled(family_of(shop))
    return compile_space(book.sizes, book.tables)

