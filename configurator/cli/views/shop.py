"""What a shop's folder holds, in a few lines."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from configurator import explain
from configurator.catalogue.shops import Family, Shop
from configurator.cli.page import MARGIN, Line, entry, prose
from configurator.documents.json_of import SCHEMA


def shop_page(shop: Shop, width: int) -> Iterator[Line]:
    """The shop and its families, counted; nobody sees it before every file has been read without a fault."""
    yield from prose(f"{shop.name}: nothing is badly written.", width, style="yes")
    for family in shop.families.values():
        yield from entry(family.id, prose(_counted(family), width - MARGIN))


def shop_json(shop: Shop) -> dict[str, Any]:
    """The same as a document."""
    families = {
        family.id: {
            "label": family.label,
            "choices": len(family.choices),
            "rules": len(family.rules),
            "price_lists": {prices.id: prices.since.isoformat() for prices in family.price_lists},
        }
        for family in shop.families.values()
    }
    return {"schema": SCHEMA, "shop": shop.id, "name": shop.name, "demo": shop.demo, "families": families}


def _counted(family: Family) -> str:
    options = sum(len(choice.options) for choice in family.choices.values())
    counts = (
        explain.many(len(family.choices), "choice"),
        explain.many(options, "option"),
        explain.many(len(family.rules), "rule"),
        explain.many(len(family.figures), "figure"),
        explain.many(len(family.operations), "operation"),
        *(f"{explain.many(len(prices.prices), 'price')} in list {prices.id}" for prices in family.price_lists),
    )
    return f"{family.label}: {', '.join(counts)}"
