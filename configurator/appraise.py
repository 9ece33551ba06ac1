"""One build appraised: its checks, its lines and its days."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from configurator.case import Case
from configurator.checks import Checked, check
from configurator.price import totals
from configurator.promise import plan
from configurator.quote import Promise, Totals
from configurator.route import route_of
from configurator.units import UNITS, show


class Appraisal(NamedTuple):
    """What one build comes to. `tallies` are texts with their unit: mass, for one."""

    checked: Checked
    totals: Totals
    promise: Promise
    tallies: Mapping[str, str]


def appraise(case: Case, picks: Mapping[str, str], started: date | None = None) -> Appraisal:
    """Check, price and plan a whole build: an option id for every choice of the case's family."""
    return Appraisal(
        check(case.book, picks, case.enquiry.duty), priced(case, picks), planned(case, picks, started), tallied(case,
        picks)
    )


def priced(case: Case, picks: Mapping[str, str]) -> Totals:
    """The lines and totals of a build, the enquiry's quantity and extra lines included."""
    enquiry = case.enquiry
    return totals(case.family, case.prices, case.shop.terms, picks, enquiry.quantity, enquiry.extras)


def planned(case: Case, picks: Mapping[str, str], started: date | None = None) -> Promise:
    """When the enquiry's quantity of a build is ready."""
    return plan(case.shop, route_of(case.family, picks), case.enquiry.quantity, started)


def tallied(case: Case, picks: Mapping[str, str]) -> dict[str, str]:
    """The family's tallies of a build, each as a text with its unit."""
    chosen = case.book.chosen(picks)
    sums = {}
    for tally in case.family.tallies:
        facts = (option.facts[tally.id].value.value for option in chosen.values() if tally.id in option.facts)
        sums[tally.id] = show(sum(facts, Decimal(0)), tally.unit) if tally.unit in UNITS else ""
    return sums
