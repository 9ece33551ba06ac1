"""Quotes as JSON documents: what `json_of` says of their answer, with lines, totals, promise and terms.

The shop's edition holds the whole quote, so that `reading` finds every value of it again. The customer's leaves out
what is the shop's own: the enquiry as it was read, the way through the shop, which lines are its own.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from hashlib import sha256

from configurator.documents.json_of import Json, answer_json, money_json, quantity_json
from configurator.enquiry import Enquiry, Extra, Pick
from configurator.faults import Place
from configurator.quote import FromTo, Line, Promise, Quote, Span, Totals, TradeOff
from configurator.units import Quantity


def quote_json(quote: Quote, customer: bool = False) -> Json:
    """The document of `blocks quote --json`: the answer's, with lines, totals, promise and terms."""
    document = (
        answer_json(quote.answer, customer)
        | _totals(quote.totals, customer)
        | {
            "from_to": {choice: _from_to(span) for choice, span in quote.from_to.items()},
            "promise": _promise(quote.promise, customer),
            "trade_offs": [_trade_off(trade_off) for trade_off in quote.trade_offs],
            "assumed": dict(quote.assumed),
            "not_included": list(quote.not_included),
            "to_confirm": list(quote.to_confirm),
            "cautions": list(quote.cautions),
            "dated": quote.dated.isoformat(),
            "valid_until": quote.valid_until.isoformat(),
            "subject_to": list(quote.subject_to),
            "tallies": {id: quantity_json(text) for id, text in quote.tallies.items()},
            "draft": _draft(quote, customer),
            "versions": dict(quote.versions),
            "hash": quote.hash,
        }
    )
    if customer:
        return document
    document["enquiry"] = _enquiry(quote.answer.enquiry)
    return document | {"document_hash": document_hash(document)}


def quote_hash(quote: Quote) -> str:
    """A hash over everything that the customer's edition of a quote shows: the same quote, the same hash, on any
    machine.
    """
    return document_hash(quote_json(quote._replace(hash=""), customer=True))


def document_hash(document: Json) -> str:
    """A hash over all that a document says but this hash itself, however it is laid out: it tells whether anything was
    changed since.
    """
    said = {key: value for key, value in document.items() if key != "document_hash"}
    return sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()


def _totals(totals: Totals, customer: bool) -> Json:
    return {
        "lines": [_line(line, customer) for line in totals.lines],
        "net": money_json(totals.net),
        "tax": money_json(totals.tax),
        "tax_label": totals.tax_label,
        "tax_rate": str(totals.tax_rate),
        "gross": money_json(totals.gross),
        "currency": totals.currency,
        "deposit": money_json(totals.deposit),
        "list": totals.list,
        "rounding": totals.rounding,
        "rounding_level": totals.rounding_level,
    }


def _line(line: Line, customer: bool) -> Json:
    document: Json = {
        "id": line.id,
        "text": line.text,
        "quantity": line.quantity,
        "each": money_json(line.each),
        "amount": money_json(line.amount),
        "because": dict(line.because),
        "per": line.per,
    }
    return document if customer else document | {"own": line.own}


def _from_to(span: FromTo) -> Json:
    return {"least": money_json(span.least), "greatest": money_json(span.greatest)}


def _promise(promise: Promise, customer: bool) -> Json:
    document: Json = {
        "clock_starts": list(promise.clock_starts),
        "planned": promise.planned,
        "working_days": {"p50": promise.p50, "p80": promise.p80, "p90": promise.p90},
        "dates": {key: day.isoformat() for key, day in promise.dates.items()} if promise.dates else None,
    }
    if customer:
        return document
    return document | {"spans": [_span(span) for span in promise.spans], "bottleneck": promise.bottleneck}


def _span(span: Span) -> Json:
    return span._asdict() | {"start": str(span.start), "finish": str(span.finish)}


def _trade_off(trade_off: TradeOff) -> Json:
    return {
        "change": {trade_off.choice: trade_off.option},
        "standing": trade_off.standing,
        "net": money_json(trade_off.net),
        "difference": money_json(trade_off.difference),
        "working_days": trade_off.working_days,
        "days_difference": trade_off.days_difference,
        "tallies": {id: quantity_json(text) for id, text in trade_off.tallies.items()},
        "also": dict(trade_off.also),
    }


def _draft(quote: Quote, customer: bool) -> list[str]:
    """Why it is a draft: rules to be signed for, choices and facts to be settled. Customers read reasons."""
    reasons = {sign_off.rule: sign_off.because for sign_off in quote.answer.sign_offs} if customer else {}
    return [reasons.get(name, name) for name in quote.draft]


def _enquiry(enquiry: Enquiry) -> Json:
    """The enquiry as it was read. It has no misfits: with one there is no quote."""
    return {
        "family": enquiry.family,
        "picks": {choice: _pick(pick) for choice, pick in enquiry.picks.items()},
        "duty": _exact(enquiry.duty),
        "extras": [_extra(extra) for extra in enquiry.extras],
        "quantity": enquiry.quantity,
        "customer": enquiry.customer,
        "list": enquiry.list,
    }


def _pick(pick: Pick) -> Json:
    return pick._asdict() | {"measured": _exact(pick.measured), "place": _place(pick.place)}


def _extra(extra: Extra) -> Json:
    return extra._asdict() | {"amount": money_json(extra.amount), "place": _place(extra.place)}


def _exact(quantities: Mapping[str, Quantity]) -> Json:
    """Quantities to their last digit, as values in SI base units and the units in which they were said."""
    return {name: {"si": str(quantity.value), "unit": quantity.unit} for name, quantity in quantities.items()}


def _place(place: Place) -> list[str | int]:
    return list(place)
