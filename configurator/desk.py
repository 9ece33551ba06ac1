"""The flow, from an enquiry to an answer and a quote: read this file first.

A shop's folder is read and compiled once; what comes out is kept in the cache under a hash of all that went in. An
enquiry is then laid out over its family's rulebook and space (`case`), answered (`answering`) and quoted (`quoting`).
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

from configurator import __version__, cache
from configurator.answer import Answer
from configurator.case import Case, compile_family, lay_out
from configurator.catalogue.names import Vocabulary
from configurator.catalogue.shops import Family, Shop
from configurator.catalogue.trade import PriceList
from configurator.enquiry import Enquiry
from configurator.load.assemble import assemble
from configurator.price import price_list_on
from configurator.quote import Quote
from configurator.rulebook import Rulebook, tabled
from configurator.shipped import rules_folder
from configurator.space import Space


class Desk(NamedTuple):
    """A shop that is ready to answer.

    `key` names it in the cache; `digest` covers all of it that a customer may see.
    """

    shop: Shop
    key: str
    digest: str
    unchecked: Mapping[str, Mapping[str, tuple[str, ...]]]


def open_shop(folder: Path) -> Desk:
    """Open a shop's folder, from the cache where nothing has changed. Faulty with every fault of its files."""
    return open_files(toml_files(folder), toml_files(rules_folder()))


def open_files(files: Mapping[str, bytes], shipped: Mapping[str, bytes]) -> Desk:
    """The same from the bytes of its files and of the shipped rule files, by name, wherever they were kept."""
    key = cache.key_of(files, shipped)
    kept = cache.fetch(key)
    ready = json.loads(kept) if kept else None
    if ready is None:
        ready = compile_shop(files, shipped)
        cache.keep(key, json.dumps(ready, ensure_ascii=False).encode(errors="surrogatepass"))  # a file's name is bytes
    unchecked = {id: {rule: tuple(names) for rule, names in rules.items()} for id, rules in ready["unchecked"].items()}
    return Desk(assemble(ready["plain"]), key, ready["digest"], unchecked)


def toml_files(folder: Path) -> dict[str, bytes]:
    """The TOML files of a folder, of its rules and of the enquiries that its expected answers name, by their names
    within it.
    """
    found = sorted(path for part in ("", "rules/", "enquiries/") for path in folder.glob(f"{part}*.toml"))
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


def compile_shop(files: Mapping[str, bytes], shipped: Mapping[str, bytes]) -> dict[str, Any]:
    """Read, check and table a shop: what the cache keeps of it. Faulty with every fault."""
    from configurator.load.shop import read_shop

    plain = read_shop(files, shipped)
    shop = assemble(plain)
    check_shop(shop)
    digest = sha256(json.dumps(_public(plain), sort_keys=True, default=str).encode()).hexdigest()
    unchecked = {id: tabled(family).unchecked for id, family in shop.families.items()}
    return {"plain": plain, "digest": digest, "unchecked": unchecked}


def _public(plain: Any) -> Any:
    """What a customer may see of a shop, wherever in its files it stands."""
    if isinstance(plain, dict):
        return {key: _public(value) for key, value in plain.items() if key not in ("kept_back", "place")}
    return [_public(value) for value in plain] if isinstance(plain, list | tuple) else plain


def check_shop(shop: Shop) -> None:
    """Check the names and units of all formulas. Faulty with every fault."""
    from configurator.faults import Faulty
    from configurator.load.formulas import check_formulas

    faults = [fault for family in shop.families.values() for fault in check_formulas(family)]
    if faults:
        raise Faulty(faults)


def ready(desk: Desk, family: Family, prices: PriceList) -> tuple[Rulebook, Space]:
    """A family's rulebook and space under a price list, from the cache where they are kept."""
    key = f"{desk.key}-{family.id}-{prices.id}"
    kept = cache.fetch(key)
    if kept:
        space = Space.from_bytes(kept)
        options = tuple(choice.options for choice in family.choices.values())
        choices = tuple(family.choices)
        return Rulebook(Vocabulary(family), choices, options, space.tables, desk.unchecked[family.id]), space
    book = tabled(family)
    space = compile_family(desk.shop, prices, book)
    cache.keep(key, space.to_bytes())
    return book, space


def lay(desk: Desk, enquiry: Enquiry, today: date) -> Case:
    """Lay an enquiry out at the price list of the day, or at the list that it names."""
    family = desk.shop.families[enquiry.family]
    prices = price_list_on(family, today, enquiry.list)
    book, space = ready(desk, family, prices)
    return lay_out(desk.shop, prices, book, space, enquiry)


def answer(desk: Desk, enquiry: Enquiry, today: date) -> Answer:
    """Can it be built, what does it cost, when; and if not, why not and what would help."""
    from configurator.answering import answer_case

    return answer_case(lay(desk, enquiry, today))


def quote(desk: Desk, enquiry: Enquiry, today: date, started: date | None = None) -> Quote | Answer:
    """The quote for an enquiry, or the answer that says why there is none."""
    from configurator.answering import answer_case
    from configurator.documents.json_quotes import quote_hash
    from configurator.quoting import quote_case

    case = lay(desk, enquiry, today)
    found = answer_case(case)
    if found.build is None:
        return found
    quoted = quote_case(case, found, today, started, versions(desk, case))
    return quoted._replace(hash=quote_hash(quoted))


def versions(desk: Desk, case: Case) -> dict[str, str]:
    """What a quote rests on.

    The tool, the shop's files as far as customers may see them, the price list, the calendar.
    """
    return {
        "tool": __version__,
        "shop": desk.digest[:16],
        "price_list": case.prices.id,
        "calendar": desk.shop.calendar.id,
    }


def list_builds(
    desk: Desk, enquiry: Enquiry, today: date, sort: str = "", free_only: bool = False
) -> Iterator[Any]:
    """Every build that the picks allow, lazily, as rows of `listing`."""
    from configurator import listing

    return listing.list_builds(lay(desk, enquiry, today), sort, free_only)


def compare(desk: Desk, enquiries: Sequence[tuple[str, Enquiry]], today: date) -> Any:
    """The completed builds of several enquiries, side by side."""
    from configurator import listing

    return listing.compare_cases([(name, lay(desk, enquiry, today)) for name, enquiry in enquiries])
