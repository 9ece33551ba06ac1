"""Expected answers asked again: what an enquiry comes to, and whether that is what its shop expects."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from configurator.answer import Answer
from configurator.catalogue.shops import Expected
from configurator.desk import Desk, answer
from configurator.faults import Faulty
from configurator.load.enquiry import enquiry_of
from configurator.review.findings import Finding


def check_expected(desk: Desk, expected: Expected, today: date) -> Iterator[Finding]:
    """An expected answer that comes out otherwise, with what was expected and what came out."""
    try:
        found = answer(desk, enquiry_of(expected.enquiry, desk.shop, expected.place), today)
    except Faulty as faulty:
        wrong = f"its enquiry cannot be read: {faulty.faults[0].wrong}"
        yield Finding(expected.place, expected.id, wrong, "", "expected")
        return
    wanted, got = told(expected.verdict, expected.net), told(found.verdict, net_of(found) if expected.net else "")
    if wanted != got:
        way_out = f"it stands there because: {expected.why}"
        yield Finding(expected.place, expected.id, f"expected {wanted}, came out {got}", way_out, "expected")


def told(verdict: str, net: str) -> str:
    """A verdict with its net, as it is compared and said: "free, 9800.00 net"."""
    return f"{verdict}, {Decimal(net.replace(',', ''))} net" if net else verdict


def net_of(found: Answer) -> str:
    """The net of the completed build; of an impossible enquiry that of its first way out."""
    if found.net is not None:
        return str(found.net)
    return next((str(way.net) for way in found.ways_out if way.net is not None), "")
