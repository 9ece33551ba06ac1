"""The shop's edition of a quote, read back into the very quote that it was written from."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

from configurator.answer import Answer, Check, Freer, Note, PriceRange, SignOff, Standing
from configurator.build import Build
from configurator.documents.json_of import SCHEMA, Json
from configurator.documents.json_quotes import document_hash
from configurator.enquiry import Enquiry, Extra, Pick
from configurator.faults import Fault, Faulty, Place
from configurator.quote import FromTo, Line, Promise, Quote, Span, Totals, TradeOff
from configurator.units import Quantity


def read_quote(document: Json, name: str = "the quote") -> Quote:
    """The quote that `quote_json` wrote into this document, as parsed from its JSON; `name` is what a fault calls it.

    Faulty for another schema, for a customer's edition, which does not hold the whole quote, and for a document of
    which anything was changed since it was written.
    """
    _look_over(document, name)
    return Quote(
        answer=_answer(document),
        totals=_totals(document),
        promise=_promise(document["promise"]),
        trade_offs=tuple(_trade_off(told) for told in document["trade_offs"]),
        from_to={choice: _from_to(told) for choice, told in document["from_to"].items()},
        assumed=document["assumed"],
        not_included=tuple(document["not_included"]),
        to_confirm=tuple(document["to_confirm"]),
        cautions=tuple(document["cautions"]),
        dated=date.fromisoformat(document["dated"]),
        valid_until=date.fromisoformat(document["valid_until"]),
        draft=tuple(document["draft"]),
        versions=document["versions"],
        hash=document["hash"],
        subject_to=tuple(document["subject_to"]),
        tallies=_shown_all(document["tallies"]),
    )


def _look_over(document: Json, name: str) -> None:
    """Refuse what is not the whole quote, exactly as it was written."""
    if document.get("schema") != SCHEMA:
        key, wrong, way_out = "schema", f"is not {SCHEMA}", "read it with the version that wrote it"
    elif "document_hash" not in document:
        key, wrong, way_out = "document_hash", "is missing", "take the shop's edition of a quote, not the customer's"
    elif document["document_hash"] != document_hash(document):
        key, wrong, way_out = "document_hash", "the document was changed since it was written", "quote the job again"
    else:
        return
    raise Faulty([Fault(Place(name), key, wrong, way_out)])


def _answer(document: Json) -> Answer:
    """The answer of a quote: it has a build, and so neither misfits nor conflicts nor ways out."""
    freer, price = document["freer"], document["price"]
    return Answer(
        enquiry=_enquiry(document["enquiry"]),
        verdict=document["verdict"],
        not_checked=tuple(document["not_checked"]),
        counted=document["counted"],
        free=document["builds"]["free"],
        by_arrangement=document["builds"]["by_arrangement"],
        choices={id: _standing(told) for id, told in document["choices"].items()},
        build=_build(document),
        assumed=document["assumed"],
        freer=Freer(freer["change"], Decimal(freer["net"]), Decimal(freer["difference"])) if freer else None,
        still_to_settle=tuple(document["still_to_settle"]),
        misfits=(),
        conflicts=(),
        ways_out=(),
        sign_offs=tuple(SignOff(told["rule"], told["because"], tuple(told["scope"])) for told in document["sign_offs"]),
        advice=tuple(Note(**told) for told in document["advice"]),
        checks=tuple(_check(told) for told in document["checks"]),
        price=PriceRange(Decimal(price["least"]), Decimal(price["greatest"]), price["currency"]) if price else None,
        net=Decimal(document["net"]),
        working_days=document["working_days"],
        currency=document["currency"],
    )


def _enquiry(told: Json) -> Enquiry:
    return Enquiry(
        family=told["family"],
        picks={choice: _pick(pick) for choice, pick in told["picks"].items()},
        duty=_quantities(told["duty"]),
        extras=tuple(_extra(extra) for extra in told["extras"]),
        quantity=told["quantity"],
        customer=told["customer"],
        list=told["list"],
    )


def _pick(told: Json) -> Pick:
    return Pick(told["option"], told["known"], _quantities(told["measured"]), Place(*told["place"]))


def _extra(told: Json) -> Extra:
    return Extra(told["text"], Decimal(told["amount"]), told["reason"], told["by"], Place(*told["place"]))


def _quantities(told: Json) -> dict[str, Quantity]:
    return {name: Quantity(Decimal(quantity["si"]), quantity["unit"]) for name, quantity in told.items()}


def _standing(told: Json) -> Standing:
    return Standing(told["picked"] or "", told["settled"] or "", told["options"])


def _build(document: Json) -> Build:
    told = document["build"]
    assumed, reckoned = tuple(sorted(document["assumed"])), tuple(document["reckoned"])
    return Build(document["family"], told["picks"], told["standing"], told["code"], assumed, reckoned)


def _check(told: Json) -> Check:
    texts = {key: _shown(told[key]) for key in ("value", "margin", "uncertainty")}
    limit = told["limit"]["text"] if told["limit"] else ""
    return Check(**told | texts | {"limit": limit, "missing": tuple(told["missing"])})


def _shown(told: Json | None) -> str:
    """A quantity as it was shown before it was taken apart."""
    if told is None:
        return ""
    if "text" in told:
        return str(told["text"])
    return f"{Decimal(str(told['value'])):f} {told['unit']}".rstrip()


def _shown_all(told: Json) -> dict[str, str]:
    return {name: _shown(quantity) for name, quantity in told.items()}


def _totals(document: Json) -> Totals:
    return Totals(
        lines=tuple(_line(told) for told in document["lines"]),
        net=Decimal(document["net"]),
        tax_label=document["tax_label"],
        tax=Decimal(document["tax"]),
        gross=Decimal(document["gross"]),
        deposit=Decimal(document["deposit"]),
        currency=document["currency"],
        list=document["list"],
        tax_rate=Decimal(document["tax_rate"]),
        rounding=document["rounding"],
        rounding_level=document["rounding_level"],
    )


def _line(told: Json) -> Line:
    return Line(**told | _amounts(told, "each", "amount"))


def _promise(told: Json) -> Promise:
    dates = told["dates"] and {key: date.fromisoformat(day) for key, day in told["dates"].items()}
    return Promise(
        clock_starts=tuple(told["clock_starts"]),
        planned=told["planned"],
        **told["working_days"],
        dates=dates,
        spans=tuple(Span(**span | _amounts(span, "start", "finish")) for span in told["spans"]),
        bottleneck=told["bottleneck"],
    )


def _trade_off(told: Json) -> TradeOff:
    ((choice, option),) = told["change"].items()
    plain = {key: value for key, value in told.items() if key != "change"}
    tallies = {"tallies": _shown_all(told["tallies"])}
    return TradeOff(choice=choice, option=option, **plain | _amounts(told, "net", "difference") | tallies)


def _from_to(told: Json) -> FromTo:
    return FromTo(**_amounts(told, "least", "greatest"))


def _amounts(told: Mapping[str, str], *keys: str) -> dict[str, Decimal]:
    return {key: Decimal(told[key]) for key in keys}
