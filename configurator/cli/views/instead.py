"""Trade-offs: what would change with each other option, under the headings of the family."""

from __future__ import annotations

from collections.abc import Iterator

from configurator import explain
from configurator.catalogue.shops import Family
from configurator.cli.page import Cell, Line, Part, columns, prose
from configurator.cli.views import Reader
from configurator.quote import Quote, TradeOff


def instead_lines(family: Family, quote: Quote, room: Reader) -> Iterator[Line]:
    """A row for each option that changes anything; those that change nothing stand together at the end."""
    by_heading: dict[str, list[TradeOff]] = {heading: [] for heading in family.headings}
    same = []
    for trade in quote.trade_offs:
        if trade.difference or trade.days_difference or trade.also or _remarks(quote, trade):
            by_heading.setdefault(family.choices[trade.choice].heading, []).append(trade)
        else:
            same.append(explain.named(family, trade.choice, trade.option))
    rows: list[list[Cell]] = []
    for heading, trades in by_heading.items():
        if trades:
            rows.append([Part(heading, "quiet"), "", "", ""])
            rows += [row for trade in trades for row in _rows(family, quote, trade)]
    yield from columns(rows, room.width, "<>>")
    if same:
        yield from prose(f"at no difference: {'; '.join(same)}", room.width)


def _rows(family: Family, quote: Quote, trade: TradeOff) -> Iterator[list[Cell]]:
    name = explain.named(family, trade.choice, trade.option)
    days = f"{trade.days_difference:+} {'day' if abs(trade.days_difference) == 1 else 'days'}"
    yield [name, explain.difference_of(trade.difference), days if trade.days_difference else "", _remarks(quote, trade)]
    if trade.also:
        yield [Part(f"brings: {explain.named_all(family, trade.also)}", "quiet")]


def _remarks(quote: Quote, trade: TradeOff) -> str:
    """Sums that come out otherwise, and a standing that is worse."""
    sums = [text for id, text in trade.tallies.items() if text != quote.tallies.get(id)]
    worse = trade.standing if trade.standing != (quote.answer.build.standing if quote.answer.build else "") else "free"
    return "; ".join(filter(None, (*sums, explain.STANDING_WORDS[worse])))
