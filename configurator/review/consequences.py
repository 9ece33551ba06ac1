"""What an edit does to enquiries that are known: the shop's expected answers, and quotes that were kept."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import Any, NamedTuple

from configurator.appraise import priced
from configurator.catalogue.shops import Expected, Family
from configurator.catalogue.steps import step_of
from configurator.completing import complete
from configurator.desk import Desk, answer, lay
from configurator.documents.reading import read_quote
from configurator.enquiry import Enquiry, Pick
from configurator.faults import Fault, Faulty, Place
from configurator.load.enquiry import enquiry_of
from configurator.quote import Quote
from configurator.review.expectations import net_of, told
from configurator.units import Misread, read_quantity

NOT_OFFERED = "not_offered"


class Outcome(NamedTuple):
    """What an enquiry comes to: its verdict ("not_offered" where it cannot be asked) and the net of its usual build."""

    verdict: str
    net: str = ""


class Shift(NamedTuple):
    """An enquiry that comes out otherwise, by the id of its expected answer or the name of its quote.

    `broke` says that the new version itself expects another answer.
    """

    about: str
    family: str
    place: Place
    before: Outcome
    after: Outcome
    broke: bool = False


class Kept(NamedTuple):
    """A quote that was kept, and what it is called."""

    name: str
    quote: Quote


def scenario_shifts(old: Desk, new: Desk, today: date) -> Iterator[Shift]:
    """The expected answers of either version that come out otherwise, and those of the new that are not as expected."""
    for family, expected in _scenarios(old, new):
        before, after = (_expected_outcome(desk, expected, today) for desk in (old, new))
        wanted = told(expected.verdict, expected.net)
        standing = expected in new.shop.families[family].expected if family in new.shop.families else False
        broke = standing and wanted != told(after.verdict, after.net if expected.net else "")
        if before != after or broke:
            yield Shift(expected.id, family, expected.place, before, after, broke)


def _scenarios(old: Desk, new: Desk) -> Iterator[tuple[str, Expected]]:
    """Every expected answer once, as the new version has it where both do."""
    for id in sorted({*old.shop.families, *new.shop.families}):
        known: dict[str, Expected] = {}
        for desk in (old, new):
            family = desk.shop.families.get(id)
            known |= {one.id: one for one in family.expected} if family else {}
        yield from ((id, known[name]) for name in sorted(known))


def _expected_outcome(desk: Desk, expected: Expected, today: date) -> Outcome:
    try:
        enquiry = enquiry_of(expected.enquiry, desk.shop, expected.place)
        found = outcome_of(desk, enquiry, today)
        if found.verdict == "impossible" and expected.net:
            return Outcome(found.verdict, net_of(answer(desk, enquiry, today)))
        return found
    except Faulty:
        return Outcome(NOT_OFFERED)


def outcome_of(desk: Desk, enquiry: Enquiry, today: date) -> Outcome:
    """What an enquiry comes to. Faulty where it cannot be asked."""
    case = lay(desk, enquiry, today)
    picked = case.picked()
    if enquiry.misfits or not picked.possible():
        return Outcome("impossible")
    net = priced(case, complete(case, picked).picks).net
    return Outcome("free" if picked.any_free() else "by_arrangement", str(net))


def read_kept(name: str, document: Any) -> Kept:
    """A quote as `blocks quote --json` wrote it. Faulty, naming it, for anything else, and for one that was changed."""
    if not isinstance(document, dict):
        way_out = "keep here what blocks quote --json wrote, and nothing else"
        raise Faulty([Fault(Place(name), "", "is no quote", way_out)])
    return Kept(name, read_quote(document, name))


def quote_shifts(old: Desk, new: Desk, quotes: Iterable[Kept]) -> Iterator[Shift]:
    """The kept quotes whose builds come out otherwise, each asked on its own day, at its list, duty and quantity."""
    for name, quote in quotes:
        before, after = _quote_outcome(old, quote), _quote_outcome(new, quote)
        if before != after:
            yield Shift(name, quote.answer.enquiry.family, Place(name), before, after)


def _quote_outcome(desk: Desk, quote: Quote) -> Outcome:
    enquiry, build = quote.answer.enquiry, quote.answer.build
    family = desk.shop.families.get(enquiry.family)
    picks = build.picks if build else {}
    if family is None or not all(_offers(family, choice, option) for choice, option in picks.items()):
        return Outcome(NOT_OFFERED)
    told = {id: enquiry.picks.get(id, Pick(option)) for id, option in picks.items()}
    listed = quote.totals.list if any(prices.id == quote.totals.list for prices in family.price_lists) else ""
    duty = {id: value for id, value in enquiry.duty.items() if id in family.duties}
    try:
        return outcome_of(desk, enquiry._replace(picks=told, duty=duty, list=listed), quote.dated)
    except Faulty:
        return Outcome(NOT_OFFERED)


def _offers(family: Family, choice: str, option: str) -> bool:
    """Whether the family has the option, or takes the value as asked."""
    known = family.choices.get(choice)
    if known is None or any(one.id == option for one in known.options):
        return known is not None
    try:
        return (
            known.range is not None and step_of(known.range, read_quantity(option, known.range.unit).value) is not None
        )
    except Misread:
        return False
