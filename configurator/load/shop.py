"""A shop's files read into one plain table: all is checked, all faults come at once, no order of files matters."""

from __future__ import annotations

from collections.abc import Mapping
from operator import itemgetter
from typing import Any

from configurator.faults import Fault, Faulty, Place
from configurator.load.complaints import shaped
from configurator.load.families import FamilyReading, choices_of
from configurator.load.lexicon import Plain, filled
from configurator.load.merge import Merged, Source, merge
from configurator.load.rules import choices_in
from configurator.load.shapes import RuleFile, ShopFile
from configurator.load.text import read_toml
from configurator.load.trade import calendar, centre_faults, centres, head

ENQUIRIES = "enquiries/"
"""Files under this folder are enquiries, read only where an expected answer names them."""


def read_shop(files: Mapping[str, bytes], shipped: Mapping[str, bytes]) -> Plain:
    """Read a shop's files, by name, and the shipped rule files, into the plain form that `assemble` takes.

    It is made of texts, numbers, lists and dicts, and can be kept as JSON. Faulty with every fault that can be found
    at once: what one table says of another is judged only when every table has its shape.
    """
    faults: list[Fault] = []
    sources: list[Source] = []
    trade: dict[str, RuleFile] = {}
    for name in sorted(files):
        if not name.startswith(ENQUIRIES):
            try:
                sources.append(_source(name, files[name]))
            except Faulty as faulty:
                faults.extend(faulty.faults)
    for name in sorted(shipped):
        try:
            document = read_toml(name, shipped[name])
            trade[name.rsplit("/", 1)[-1].removesuffix(".toml")] = shaped(document, document.data, RuleFile)
        except Faulty as faulty:
            faults.extend(faulty.faults)
    if faults:
        raise Faulty(faults)
    merged = merge(sources)
    plain = _plain(merged, trade, files)
    if merged.faults:
        raise Faulty(merged.faults)
    return plain


def _source(name: str, data: bytes) -> Source:
    """One file of the shop; if it holds a single family, its tables are that family's unless they say otherwise."""
    document = read_toml(name, data)
    tables = dict(document.data)
    family = tables.pop("family") if isinstance(tables.get("family"), str) else ""
    found = shaped(document, tables, ShopFile)
    own = found.family[0].id if len(found.family) == 1 else ""
    return Source(found, family or own)


def _plain(merged: Merged, trade: Mapping[str, RuleFile], files: Mapping[str, bytes]) -> Plain:
    """The whole shop; what is wrong with it is added to the faults that are known already."""
    shop = merged.shop
    if shop.shop is None or not merged.families:
        lacking = "[shop]" if shop.shop is None else "[[family]]"
        place = Place(min(files, default="shop.toml"), 1, 1)
        merged.faults.append(Fault(place, "", f"no file of the shop has the table {lacking}", f"write {lacking}"))
        return {}
    foreign = _foreign(merged, trade)
    elsewhere = foreign.union(*map(choices_of, merged.tables.values()))
    families = {}
    for id, family in sorted(merged.families.items()):
        reading = FamilyReading(family, merged, trade, files, elsewhere)
        try:
            families[id] = reading.plain()
            merged.faults.extend(reading.lexicon.faults)
        except Faulty as faulty:
            merged.faults.extend(faulty.faults)
    headed, wrong_head = head(shop.shop)
    working, wrong_days = calendar(shop.calendar)
    merged.faults.extend([*wrong_head, *wrong_days, *centre_faults(shop)])
    return {
        "shop": headed,
        "families": families,
        "centres": centres(shop),
        "calendar": working,
        "foreign": sorted(foreign),
        "kept_back": _kept_back(shop),
    }


def _foreign(merged: Merged, trade: Mapping[str, RuleFile]) -> set[str]:
    """The choices that shipped rules speak of though no family of the shop has them."""
    spoken = {name for file in trade.values() for rule in file.rule for name in choices_in(rule)}
    duties = {duty.id for tables in merged.tables.values() for duty in tables.duty}
    return spoken.difference(duties, *map(choices_of, merged.tables.values()))


def _kept_back(shop: ShopFile) -> Plain:
    """What the shop keeps to itself, as texts; no fault is looked for in it, and nothing else may depend on it."""
    kept = {
        kind: sorted(
            (_texts({"id": one.id, **(one.model_extra or {})}) for one in getattr(shop, kind)), key=itemgetter("id")
        )
        for kind in ("rate", "supplier", "authority", "cost")
    }
    return filled(**kept, margin=_texts(shop.margin or {}))


def _texts(given: Mapping[str, Any]) -> Plain:
    return {str(key): str(value) for key, value in given.items()}
