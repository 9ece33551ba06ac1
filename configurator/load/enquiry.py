"""An enquiry, gathered from files, build codes, words and flags: what a caller wants, has, and how that is known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from configurator.catalogue.shops import Family, Shop
from configurator.enquiry import Enquiry
from configurator.faults import Fault, Faulty, Place
from configurator.load.codes import read_code
from configurator.load.hearing import Hearing
from configurator.load.sheets import COMMAND_LINE, Sheet, Told, sheet_of_data, sheet_of_text, sheet_of_words
from configurator.load.sheets import Spoken as Spoken
from configurator.load.words import alike, suggest
from configurator.units import Misread


def gather(
    shop: Shop, texts: Sequence[tuple[str, bytes]], codes: Sequence[str], spoken: Spoken
) -> tuple[Enquiry, tuple[str, ...]]:
    """One enquiry from files (name and bytes), build codes and words, in that order; the later replace the earlier.

    `without` drops what files and codes say, before the words are heard. Gives the enquiry, and notices of what was
    replaced. Faulty with every fault; also where nothing says which family is meant and more than one would do.
    """
    sheets = _sheets(shop, texts, codes, spoken)
    family = _family_said(shop, sheets) or _family_meant(shop, sheets, spoken.without)
    hearing = _heard(shop, family, sheets, spoken.without)
    if hearing.faults:
        raise Faulty(hearing.faults)
    return _enquiry(hearing, sheets), tuple(hearing.notices)


def enquiry_of(data: Mapping[str, Any], shop: Shop, place: Place) -> Enquiry:
    """The enquiry of a plain form that a shop keeps, as of an expected answer; faults are placed where that stands."""
    sheet = sheet_of_data(data, place.file, lambda _: place, shop.currency)
    hearing = _heard(shop, _family_said(shop, [sheet]) or _family_meant(shop, [sheet], ()), [sheet], ())
    if hearing.faults:
        raise Faulty(hearing.faults)
    return _enquiry(hearing, [sheet])


def _sheets(shop: Shop, texts: Sequence[tuple[str, bytes]], codes: Sequence[str], spoken: Spoken) -> list[Sheet]:
    """What each source says; the words come last. Faulty with the faults of all sources."""
    makers = [partial(sheet_of_text, name, data, shop.currency) for name, data in texts]
    makers += [partial(_sheet_of_code, code, shop) for code in codes]
    makers += [partial(sheet_of_words, spoken)]
    sheets: list[Sheet] = []
    faults: list[Fault] = []
    for make in makers:
        try:
            sheets.append(make())
        except Faulty as faulty:
            faults.extend(faulty.faults)
    if faults:
        raise Faulty(faults)
    return sheets


def _sheet_of_code(code: str, shop: Shop) -> Sheet:
    try:
        read = read_code(code, shop)
    except Misread as trouble:
        raise Faulty([Fault(COMMAND_LINE, code[:100], trouble.wrong, trouble.way_out)]) from None
    choices = shop.families[read.family].choices
    # A code does not say how a have is known, so nobody may take it for told.
    known = {id: "assumed" if choices[id].asks == "have" else "" for id in read.picks}
    picks = (
        Told(id, option, COMMAND_LINE.file, lambda: COMMAND_LINE, code, "", known[id])
        for id, option in read.picks.items()
    )
    return Sheet(read.family, tuple(picks))


def _heard(shop: Shop, family: Family, sheets: Sequence[Sheet], without: Sequence[str]) -> Hearing:
    """The family's understanding of all sheets; the last of them, of words, comes after `without`."""
    hearing = Hearing(shop, family)
    for sheet in sheets[:-1]:
        hearing.hear(sheet)
    for word in without:
        hearing.forget(word)
    hearing.hear(sheets[-1])
    return hearing


def _family_said(shop: Shop, sheets: Sequence[Sheet]) -> Family | None:
    """The family that the sheets name, if any does. Faulty where they name two, or one that the shop does not have."""
    said: Family | None = None
    for sheet in sheets:
        if not sheet.family:
            continue
        word = alike(sheet.family)
        found = next((one for one in shop.families.values() if word in (alike(one.id), alike(one.label))), None)
        if found is None:
            way_out = suggest(sheet.family, shop.families, "families")
            raise Faulty([Fault(sheet.where(), _key(sheet), f"there is no family {sheet.family}", way_out)])
        if said and found is not said:
            wrong = f"{said.id} and {found.id} are both named"
            way_out = "an enquiry is for one family: take the other away"
            raise Faulty([Fault(sheet.where(), _key(sheet), wrong, way_out)])
        said = found
    return said


def _key(sheet: Sheet) -> str:
    return "--family" if sheet.where() == COMMAND_LINE else "family"


def _family_meant(shop: Shop, sheets: Sequence[Sheet], without: Sequence[str]) -> Family:
    """The only family, or the only one that knows all that was said. Faulty, naming them, where there is none."""
    families = list(shop.families.values())
    if len(families) == 1:
        return families[0]
    hearings = [_heard(shop, family, sheets, without) for family in families]
    fitting = [hearing.family for hearing in hearings if not hearing.faults and not _not_offered(hearing)]
    if len(fitting) == 1:
        return fitting[0]
    everywhere = set.intersection(*({fault.key for fault in hearing.faults} for hearing in hearings))
    if everywhere:
        raise Faulty(fault for fault in hearings[0].faults if fault.key in everywhere)
    wrong = "does not say for which family it is"
    names = ", ".join(family.id for family in fitting or families)
    raise Faulty(
        [Fault(sheets[0].where(), "family", wrong, f"say --family, or write family = at its top: one of {names}")]
    )


def _not_offered(hearing: Hearing) -> bool:
    return any(misfit.kind == "not_offered" for misfit in hearing.misfits.values())


def _enquiry(hearing: Hearing, sheets: Sequence[Sheet]) -> Enquiry:
    quantities = [sheet.quantity for sheet in sheets if sheet.quantity is not None]
    customers = [sheet.customer for sheet in sheets if sheet.customer]
    return Enquiry(
        family=hearing.family.id,
        picks=hearing.picks,
        duty=hearing.duty,
        misfits=tuple(hearing.misfits.values()),
        extras=tuple(extra for sheet in sheets for extra in sheet.extras),
        quantity=quantities[-1] if quantities else 1,
        customer=customers[-1] if customers else "",
        list=_price_list(hearing.family, sheets),
    )


def _price_list(family: Family, sheets: Sequence[Sheet]) -> str:
    """The price list that a sheet names, the last if several do. Faulty for one that the family does not have."""
    known = [one.id for one in family.price_lists]
    named = [sheet for sheet in sheets if sheet.list]
    if named and named[-1].list not in known:
        wrong = f"there is no price list {named[-1].list}"
        raise Faulty([Fault(named[-1].where(), "list", wrong, suggest(named[-1].list, known, "price lists"))])
    return named[-1].list if named else ""
