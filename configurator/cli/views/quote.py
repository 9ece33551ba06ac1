"""A quote on paper of plain text: what you get, what it costs, when, what to confirm; then lines, checks and terms."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from configurator import explain
from configurator.catalogue.shops import Family, Shop
from configurator.cli.page import Cell, Line, Part, columns, entry, prose
from configurator.cli.views import Reader
from configurator.cli.views.answer import asked_lines, assumed_lines, settle_lines
from configurator.cli.views.checks import checks_lines
from configurator.quote import Promise, Quote


def quote_page(shop: Shop, family: Family, quote: Quote, reader: Reader) -> Iterator[Line]:
    """The whole quote; the first half page is what its reader has to know."""
    room = reader.beside_margin()
    yield from _head(shop, family, quote, reader)
    yield from entry(
        "you get", asked_lines(family, quote.answer.enquiry, room) or prose("everything as usual", room.width)
    )
    yield from entry("total", _total(quote, room))
    yield from entry("ready", _ready(quote.promise, room))
    yield from entry("confirm", _numbered(quote.to_confirm, room))
    yield from entry("draft", _draft(family, quote, room), "care")
    yield from entry("lines", columns(_lines(quote), room.width, "<>>>"))
    yield from entry("open", columns(_open(family, quote), room.width))
    yield from checks_lines(family, quote.answer.checks, room, whole=True)
    yield from _advice(quote, room)
    yield from assumed_lines(family, quote.answer, room)
    yield from settle_lines(family, quote.answer, room)
    yield from entry("instead", columns(_trade_offs(family, quote), room.width, "<>>"))
    yield from entry("not in it", _numbered(quote.not_included, room))
    yield from entry("mind", _numbered(quote.cautions, room))
    yield from entry("rests on", _versions(quote, room))


def _head(shop: Shop, family: Family, quote: Quote, reader: Reader) -> Iterator[Line]:
    kind = "Draft of a quote" if quote.draft else "Quote"
    whom = f" for {quote.answer.enquiry.customer}" if quote.answer.enquiry.customer else ""
    yield from prose(f"{kind}{whom}: {family.label}, {shop.name}", reader.width, style="care" if quote.draft else "yes")
    yield from prose(f"{quote.dated.isoformat()}, holds until {quote.valid_until.isoformat()}", reader.width)


def _total(quote: Quote, room: Reader) -> Iterator[Line]:
    totals = quote.totals
    rows: list[list[Cell]] = [
        ["net", explain.sum_of(totals.net), totals.currency],
        [totals.tax_label, explain.sum_of(totals.tax), ""],
        [Part("to pay", "label"), Part(explain.sum_of(totals.gross), "label"), ""],
        ["deposit", explain.sum_of(totals.deposit), "of it, with the order"],
    ]
    yield from columns(rows, room.width, "<><")
    for id, tally in quote.tallies.items():
        yield from prose(f"{id.replace('_', ' ')} {tally}", room.width)


def _ready(promise: Promise, room: Reader) -> Iterator[Line]:
    yield from prose(
        f"{explain.days_of(promise.planned)} planned, from the day on which the last of these is true:", room.width
    )
    yield from _numbered(promise.clock_starts, room)
    if promise.dates:
        days = "; ".join(f"{name.replace('_', ' ')} {day.isoformat()}" for name, day in promise.dates.items())
        yield from prose(days, room.width)
    if promise.bottleneck and not room.customer:
        yield from prose(f"longest wait: {promise.bottleneck}", room.width)


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
    yield [Part("net", "label"), "", Part(explain.sum_of(quote.totals.net), "label")]


def _open(family: Family, quote: Quote) -> Iterator[list[Cell]]:
    for choice, span in quote.from_to.items():
        label = family.choices[choice].label
        yield [label, f"from {explain.sum_of(span.least)} to {explain.sum_of(span.greatest)} net, as the answer may be"]


def _advice(quote: Quote, room: Reader) -> Iterator[Line]:
    for note in quote.answer.advice:
        yield from entry("advice", prose(note.because, room.width, room.note(note.rule)))


def _trade_offs(family: Family, quote: Quote) -> Iterator[list[Cell]]:
    for trade in quote.trade_offs:
        days = (
            f"{abs(trade.days_difference)} days {'later' if trade.days_difference > 0 else 'sooner'}"
            if trade.days_difference
            else ""
        )
        sums = [text for id, text in trade.tallies.items() if text != quote.tallies.get(id)]
        remarks = "; ".join(filter(None, (*sums, explain.STANDING_WORDS[trade.standing])))
        yield [
            explain.named(family, trade.choice, trade.option),
            explain.difference_of(trade.difference),
            days,
            remarks,
        ]
        if trade.also:
            yield [Part(f"brings: {explain.named_all(family, trade.also)}", "quiet")]


def _versions(quote: Quote, room: Reader) -> Iterator[Line]:
    versions = "; ".join(f"{name.replace('_', ' ')} {version}" for name, version in quote.versions.items())
    yield from prose(versions, room.width)
    yield from prose(f"hash {quote.hash}", room.width)
    if quote.answer.build:
        yield from prose(f"code {quote.answer.build.code}", room.width)
