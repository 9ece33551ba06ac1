"""Answers as JSON documents, each with a `schema` number. Quotes (`json_quotes`) and lists (`json_lists`) add to them.

Money is text ("9800.00"), a quantity is {"value": 94.0, "unit": "mm"}, a count of builds an integer, a date
"2026-06-26". The customer's edition is the same document less what is the shop's own: the ids of rules and what an
engineer's signature covers.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from configurator.answer import Answer, Check, Conflict, Freer, Note, PriceRange, SignOff, Standing, WayOut
from configurator.build import Build
from configurator.enquiry import Enquiry, Misfit, Pick
from configurator.units import Quantity, number_in

SCHEMA = 1

Json = dict[str, Any]

_QUANTITY = re.compile(r"(-?[0-9]+(?:\.[0-9]+)?)(?: (\S.*))?")
_LOW, _HIGH, _EXACTLY = ("at least ", "more than "), ("at most ", "less than "), "exactly "


def answer_json(answer: Answer, customer: bool = False) -> Json:
    """The document of `blocks check --json`."""
    return {
        "schema": SCHEMA,
        "family": answer.enquiry.family,
        "asked": _asked(answer.enquiry),
        "verdict": answer.verdict,
        "not_checked": _not_checked(answer, customer),
        "counted": answer.counted,
        "builds": {"free": answer.free, "by_arrangement": answer.by_arrangement},
        "choices": {id: _standing(standing) for id, standing in answer.choices.items()},
        "build": build_json(answer.build) if answer.build else None,
        "assumed": dict(answer.assumed),
        "reckoned": list(answer.build.reckoned) if answer.build else [],
        "freer": _freer(answer.freer) if answer.freer else None,
        "still_to_settle": list(answer.still_to_settle),
        "misfits": [_misfit(misfit) for misfit in answer.misfits],
        "conflicts": [_conflict(conflict, customer) for conflict in answer.conflicts],
        "ways_out": [_way_out(way) for way in answer.ways_out],
        "sign_offs": [_sign_off(sign_off, customer) for sign_off in answer.sign_offs],
        "advice": [_note(note, customer) for note in answer.advice],
        "checks": [_check(check, customer) for check in answer.checks],
        "price": _range(answer.price) if answer.price else None,
        "net": money_json(answer.net),
        "working_days": answer.working_days,
        "currency": answer.currency,
    }


def build_json(build: Build) -> Json:
    """A build: its picks, standing and code."""
    return {"picks": dict(build.picks), "standing": build.standing, "code": build.code}


def quantity_json(text: str) -> Json | None:
    """A quantity shown as "94.0 mm" taken apart; null where there is none. What is no quantity stands as `text`."""
    if not text:
        return None
    found = _QUANTITY.fullmatch(text)
    if found is None:
        return {"text": text}
    number, unit = found.groups(default="")
    return {"value": float(number) if "." in number else int(number), "unit": unit}


def exactly(quantity: Quantity) -> str:
    """A quantity with all its digits, where showing it would round: "42.3456 mm"."""
    return f"{number_in(quantity.value, quantity.unit).normalize():f} {quantity.unit}".strip()


def limit_json(text: str) -> Json | None:
    """A limit in words ("at least 2.5 mm", "0.0 mm to 0.75 mm") with its two ends as quantities."""
    if not text:
        return None
    if text.startswith(_EXACTLY):
        exact = quantity_json(text.removeprefix(_EXACTLY))
        return {"text": text, "least": exact, "greatest": exact}
    low, _, high = text.partition(" to ")
    for word in _LOW:
        low = low.removeprefix(word)
    if low.startswith(_HIGH):
        low, high = "", low.split(" ", 2)[2]
    return {"text": text, "least": quantity_json(low), "greatest": quantity_json(high)}


def _asked(enquiry: Enquiry) -> Json:
    """What was said, with how it is known: a quote stands on it as much as on the picks."""

    def pick_json(pick: Pick) -> Json:
        measured = {name: quantity_json(exactly(value)) for name, value in pick.measured.items()}
        return {"option": pick.option, "known": pick.known or None, "measured": measured}

    return {
        "customer": enquiry.customer,
        "quantity": enquiry.quantity,
        "picks": {choice: pick_json(pick) for choice, pick in sorted(enquiry.picks.items())},
        "duty": {id: quantity_json(exactly(value)) for id, value in sorted(enquiry.duty.items())},
    }


def _not_checked(answer: Answer, customer: bool) -> list[str]:
    """The rules that want a number nobody gave; to the customer, whom the ids tell nothing, the names of the checks."""
    if not customer:
        return list(answer.not_checked)
    return [check.label for check in answer.checks if check.rule in answer.not_checked]


def money_json(amount: Decimal | None) -> str | None:
    """An amount as text, with all its digits."""
    return None if amount is None else str(amount)


def _standing(standing: Standing) -> Json:
    return {
        "picked": standing.picked or None,
        "settled": standing.settled or None,
        "options": dict(standing.options),
    }


def _freer(freer: Freer) -> Json:
    return {"change": dict(freer.change), "net": money_json(freer.net), "difference": money_json(freer.difference)}


def _misfit(misfit: Misfit) -> Json:
    return {"choice": misfit.choice, "given": misfit.given, "kind": misfit.kind, "nearest": list(misfit.nearest)}


def _conflict(conflict: Conflict, customer: bool) -> Json:
    document: Json = {
        "between": dict(conflict.between),
        "because": list(conflict.because),
        "limits": [_check(check, customer) for check in conflict.limits],
    }
    return document if customer else document | {"rules": list(conflict.rules)}


def _way_out(way: WayOut) -> Json:
    return {
        "change": dict(way.change),
        "kind": way.kind,
        "net": money_json(way.net),
        "difference": money_json(way.difference),
        "working_days": way.working_days,
        "standing": way.standing,
        "also": [{"choice": also.choice, "option": also.option, "lines": list(also.lines)} for also in way.also],
    }


def _sign_off(sign_off: SignOff, customer: bool) -> Json:
    document: Json = {"because": sign_off.because}
    return document if customer else document | {"rule": sign_off.rule, "scope": list(sign_off.scope)}


def _note(note: Note, customer: bool) -> Json:
    return {"because": note.because} if customer else {"because": note.because, "rule": note.rule}


def _check(check: Check, customer: bool) -> Json:
    document: Json = check._asdict() | {
        "value": quantity_json(check.value),
        "limit": limit_json(check.limit),
        "margin": quantity_json(check.margin),
        "uncertainty": quantity_json(check.uncertainty),
        "missing": list(check.missing),
    }
    if customer:
        del document["rule"]
    return document


def _range(price: PriceRange) -> Json:
    return {"least": money_json(price.least), "greatest": money_json(price.greatest), "currency": price.currency}
