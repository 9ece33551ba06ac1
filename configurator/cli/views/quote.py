"""A quote on paper of plain text: what you get, what it costs, when, what to confirm; then lines, checks and terms."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from configurator import explain
from configurator.catalogue.shops import Family, Shop
from configurator.cli.page import Cell, Line, Part, columns, entry, prose
from configurator.cli.views import Reader
from configurator.cli.views.answer import assumed_lines, settle_lines
from configurator.cli.views.checks import checks_lines
from configurator.cli.views.instead import instead_lines
from configurator.enquiry import Enquiry
from configurator.quote import Promise, Quote
from configurator.units import echo


def quote_page(shop: Shop, family: Family, quote: Quote, reader: Reader) -> Iterator[Line]:
    """The whole quote; the first half page is what its reader has to know."""
    room = reader.beside_margin()
    answer = quote.answer
    yield from _head(shop, family, quote, reader)
    yield from entry("you get", _you_get(family, quote, room))
    yield from entry("total", _total(quote, room))
    yield from entry("ready", _ready(shop, quote.promise, room))
    yield from entry("confirm", _numbered(quote.to_confirm, room))
    yield from entry("draft", _draft(family, quote, room), "care")
    yield from entry("lines", columns(_lines(quote), room.width, "<>>"))
    yield from entry("you have", columns(_you_have(family, answer.enquiry), room.width))
    yield from settle_lines(family, answer, room)
    yield from entry("open", columns(_open(family, quote), room.width))
    yield from assumed_lines(family, answer, room)
    yield from entry("duty", columns(_duty(family, answer.enquiry), room.width, "<>"))
    yield from checks_lines(family, answer.checks, room, whole=True)
    yield from entry("advice", _advice(quote, room))
    yield from entry("mind", _numbered(quote.cautions, room))
    yield from entry("not in it", _numbered(quote.not_included, room))
    yield from entry("instead", instead_lines(family, quote, room))
    yield from entry("rests on", prose(_versions(quote), room.width))
    yield from entry("code", prose(answer.build.code if answer.build else "", room.width))
    yield from entry("hash", prose(quote.hash, room.width))


def _head(shop: Shop, family: Family, quote: Quote, reader: Reader) -> Iterator[Line]:
    kind = "Draft of a quote" if quote.draft else "Quote"
    whom = f" for {quote.answer.enquiry.customer}" if quote.answer.enquiry.customer else ""
    tone = "care" if quote.draft else "yes"
    yield from prose(f"{kind}{whom}: {family.label}, from {shop.name}", reader.width, style=tone)
    days = f"{explain.day_of(quote.dated)}, holds until {explain.day_of(quote.valid_until)}"
    yield from prose(days, reader.width)


def _you_get(family: Family, quote: Quote, room: Reader) -> list[Line]:
    enquiry = quote.answer.enquiry
    wants = [pick for pick in enquiry.picks.items() if family.choices[pick[0]].asks == "want"]
    names = [explain.named(family, choice, pick.option) for choice, pick in wants] or ["everything as usual"]
    blocks = [f"{enquiry.quantity} blocks"] if enquiry.quantity != 1 else []
    sums = [f"{explain.in_sentence(tally.label)} {quote.tallies[tally.id]}" for tally in family.tallies]
    return prose("; ".join((*blocks, *names, *sums)), room.width)


def _you_have(family: Family, enquiry: Enquiry) -> Iterator[list[Cell]]:
    for choice, pick in enquiry.picks.items():
        if family.choices[choice].asks == "have":
            measured = [f"{name.replace('_', ' ')} {echo(value)}" for name, value in pick.measured.items()]
            known = ", ".join((pick.known, *measured))
            yield [family.choices[choice].label, explain.label_of(family, choice, pick.option), known]


def _duty(family: Family, enquiry: Enquiry) -> Iterator[list[Cell]]:
    for id, value in enquiry.duty.items():
        yield [family.duties[id].label, echo(value)]


def _total(quote: Quote, room: Reader) -> list[Line]:
    totals = quote.totals
    rows: list[list[Cell]] = [
        ["net", explain.sum_of(totals.net), totals.currency],
        [totals.tax_label, explain.sum_of(totals.tax), ""],
        [Part("to pay", "label"), Part(explain.sum_of(totals.gross), "label"), ""],
        ["deposit", explain.sum_of(totals.deposit), "with the order"],
    ]
    return columns(rows, room.width, "<><")


def _ready(shop: Shop, promise: Promise, room: Reader) -> Iterator[Line]:
    yield from prose(
        f"{explain.days_of(promise.planned)} planned, from the day on which the last of these is true:", room.width
    )
    yield from _numbered(promise.clock_starts, room)
    if promise.dates:
        days = "; ".join(f"{name.replace('_', ' ')} {explain.day_of(day)}" for name, day in promise.dates.items())
        yield from prose(days, room.width)
    if promise.bottleneck and not room.customer:
        yield from prose(f"longest wait: {shop.centres[promise.bottleneck].label}", room.width)


def _numbered(texts: Iterable[str], room: Reader) -> Iterator[Line]:
    for number, text in enumerate(texts, 1):
        first, *rest = prose(text, room.width - 4)
        yield (Part(f"{number:>2}. "), *first)
        yield from ((Part("    "), *line) for line in rest)


def _draft(family: Family, quote: Quote, room: Reader) -> Iterator[Line]:
    """Why it cannot be offered as it stands: what is to be signed for, then what is to be settled."""
    signed_for = {sign_off.rule: sign_off.because for sign_off in quote.answer.sign_offs}
    for name in quote.draft:
        if name in signed_for:
            yield from prose(f"to be signed for: {explain.in_sentence(signed_for[name])}", room.width, room.note(name))
    unsettled = [name for name in quote.draft if name not in signed_for]
    if unsettled:
        yield from prose(f"to be settled: {explain.missing_words(family, unsettled)}", room.width)
    if quote.subject_to:
        yield from prose(f"subject to: {explain.missing_words(family, quote.subject_to)}", room.width)


def _lines(quote: Quote) -> Iterator[list[Cell]]:
    for line in quote.totals.lines:
        many = f"{line.quantity} x {explain.sum_of(line.each)}" if line.quantity != 1 else ""
        yield [line.text, many, explain.sum_of(line.amount)]
    yield [Part(f"net, {quote.totals.currency}", "label"), "", Part(explain.sum_of(quote.totals.net), "label")]


def _open(family: Family, quote: Quote) -> Iterator[list[Cell]]:
    for choice, span in quote.from_to.items():
        least, greatest = explain.sum_of(span.least), explain.sum_of(span.greatest)
        differs = (
            f"from {least} to {greatest} {quote.totals.currency} net"
            if least != greatest
            else f"{least} {quote.totals.currency} net; what else comes with it differs"
        )
        yield [family.choices[choice].label, f"{differs}, by the answer"]


def _advice(quote: Quote, room: Reader) -> Iterator[Line]:
    for note in quote.answer.advice:
        yield from prose(note.because, room.width, room.note(note.rule))


def _versions(quote: Quote) -> str:
    return "; ".join(f"{name.replace('_', ' ')} {version}" for name, version in quote.versions.items())
