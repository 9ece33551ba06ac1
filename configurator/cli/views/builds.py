"""A list of builds: what each comes to, and where it departs from what is usual."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from configurator import explain
from configurator.answer import Answer
from configurator.catalogue.shops import Family
from configurator.cli.page import Cell, Line, Part, columns, prose
from configurator.cli.views import Reader
from configurator.listing import Row


def count_line(free: int, by_arrangement: int) -> Line:
    """How many builds there are, in numbers that are exact."""
    total = free + by_arrangement
    builds = "build" if total == 1 else "builds"
    return (Part(f"{total:,} {builds}: {free:,} free, {by_arrangement:,} by arrangement."),)


def builds_page(
    family: Family, answer: Answer, rows: Sequence[Row], offset: int, currency: str, reader: Reader
) -> Iterator[Line]:
    """A page of a list. Each build is told by what it has other than the usual completion of the same picks."""
    yield count_line(answer.free, answer.by_arrangement)
    if not rows:
        yield from prose("None of them is on this page.", reader.width)
        return
    usual = answer.build.picks if answer.build else {}
    heads: list[Cell] = [
        Part(text, "quiet") for text in ("", f"net, {currency}", *(tally.label.lower() for tally in family.tallies), "")
    ]
    align = ">" * (2 + len(family.tallies))
    yield from columns([heads, *_rows(family, rows, offset, usual)], reader.width, align)


def _rows(family: Family, rows: Iterable[Row], offset: int, usual: Mapping[str, str]) -> Iterator[list[Cell]]:
    for number, row in enumerate(rows, offset + 1):
        departs = explain.listed(
            explain.named(family, choice, option) for choice, option in row.picks.items() if usual.get(choice) != option
        )
        words = "; ".join(filter(None, (explain.STANDING_WORDS[row.standing], departs or "as usual")))
        yield [f"{number}", explain.sum_of(row.net), *(row.tallies[tally.id] for tally in family.tallies), words]
        yield [Part(row.code, "quiet")]
