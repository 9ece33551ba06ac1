"""What a build costs: the lines of a dated price list that apply to its picks, and what they come to.

Every amount is a Decimal in whole minor units of its currency. Each price is rounded once, by the piece, so that what
is printed can be checked by hand: amount = each x quantity, lines sum to the net, net + tax = gross, all exactly.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Context, Decimal, localcontext

from configurator.catalogue.conditions import When
from configurator.catalogue.shops import Family
from configurator.catalogue.trade import Price, PriceList, Terms
from configurator.catalogue.when import holds
from configurator.enquiry import Extra
from configurator.faults import Fault, Faulty, Place
from configurator.money import minor_units, round_money
from configurator.quote import Line, Totals

THE_ENQUIRY = Place("the enquiry")
"""Where a list or a day stands that was asked for: nobody's file is at fault."""

EXACT = Context(prec=100)
"""Wide enough for every sum and product of amounts, whatever context the caller works in."""


def price_list_on(family: Family, day: date, id: str = "") -> PriceList:
    """The price list with this id, else the latest that holds from `day` or before.

    Faulty where there is none, or where it has no price for the family. Two lists from one day are refused when the
    shop is read.
    """
    if id:
        chosen = next((listed for listed in family.price_lists if listed.id == id), None)
        place, wrong = THE_ENQUIRY, f"there is no price list {id!r} for {family.label}"
    else:
        begun = [listed for listed in family.price_lists if listed.since <= day]
        chosen = max(begun, key=lambda listed: listed.since, default=None)
        place, wrong = THE_ENQUIRY, f"no price list for {family.label} is in force on {day.isoformat()}"
    if chosen and not chosen.prices:
        place, wrong = chosen.place, f"price list {chosen.id} has no price for {family.label}"
    if chosen is None or not chosen.prices:
        lists = sorted(family.price_lists, key=lambda listed: (listed.since, listed.id))
        named = ", ".join(f"{listed.id} (from {listed.since.isoformat()})" for listed in lists if listed.prices)
        way_out = f"ask for one by its id: {named}" if named else f"give {family.label} prices"
        raise Faulty([Fault(place, "price_list", wrong, way_out)])
    return chosen


def totals(
    family: Family,
    price_list: PriceList,
    terms: Terms,
    picks: Mapping[str, str],
    quantity: int = 1,
    extras: Iterable[Extra] = (),
) -> Totals:
    """The lines and the sums of a number of identical blocks, in the currency of the list.

    Lines "per block" are taken `quantity` times, lines per order and extra lines once. The terms name how amounts are
    rounded, and whether the tax is rounded line by line; "category" and "total" are the same sum, for all lines stand
    under the one tax. The deposit is a share of the gross.
    """
    currency, mode = price_list.currency, terms.rounding
    with localcontext(EXACT):
        lines = (*_listed(family, price_list, mode, picks, quantity), *_written_in(extras, currency, mode))
        net = sum((line.amount for line in lines), Decimal(0))
        taxed = [line.amount for line in lines] if terms.rounding_level == "line" else [net]
        tax = sum((round_money(amount * terms.tax.rate, currency, mode) for amount in taxed), Decimal(0))
        gross = net + tax
        return Totals(
            lines=lines,
            net=round_money(net, currency, mode),
            tax_label=terms.tax.label,
            tax=round_money(tax, currency, mode),
            gross=round_money(gross, currency, mode),
            deposit=round_money(gross * terms.deposit, currency, mode),
            currency=currency,
            list=price_list.id,
            tax_rate=terms.tax.rate,
            rounding=mode,
            rounding_level=terms.rounding_level,
        )


def price_terms(price_list: PriceList, terms: Terms, quantity: int = 1) -> tuple[tuple[When, int], ...]:
    """Each price in whole minor units under its `when`, for the space to sum: those that apply come to the net exactly.

    Extra lines are not among them: they are the same for every build.
    """
    currency, mode = price_list.currency, terms.rounding
    return tuple(
        (price.when, minor_units(_each(price, currency, mode), currency) * _times(price, quantity))
        for price in price_list.prices
    )


def _listed(
    family: Family, price_list: PriceList, mode: str, picks: Mapping[str, str], quantity: int
) -> Iterable[Line]:
    for price in sorted(price_list.prices, key=lambda price: _reading_order(family, price)):
        if holds(price.when, picks, family):
            each, times = _each(price, price_list.currency, mode), _times(price, quantity)
            because = {condition.name: picks[condition.name] for condition in price.when}
            yield Line(price.id, price.text, times, each, each * times, because, price.per, price.own)


def _written_in(extras: Iterable[Extra], currency: str, mode: str) -> Iterable[Line]:
    """The lines that no catalogue holds, in the order in which they were written."""
    for number, extra in enumerate(extras, start=1):
        amount = round_money(extra.amount, currency, mode)
        yield Line(f"extra_{number}", extra.text, 1, amount, amount, {}, "order")


def _reading_order(family: Family, price: Price) -> tuple[bool, bool, int, str]:
    """What is always charged, then the rest as the family's headings stand, then what is charged once for the order."""
    headings = [family.choices[condition.name].heading for condition in price.when]
    ranks = [family.headings.index(heading) for heading in headings if heading in family.headings]
    return (price.per == "order", bool(price.when), min(ranks, default=len(family.headings)), price.id)


def _each(price: Price, currency: str, mode: str) -> Decimal:
    return round_money(price.amount, currency, mode)


def _times(price: Price, quantity: int) -> int:
    return quantity if price.per == "block" else 1
