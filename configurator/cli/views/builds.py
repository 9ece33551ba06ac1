"""A list of builds: what each comes to, and where it departs from what is usual."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from configurator import explain
from configurator.answer import Answer
from configurator.catalogue.shops import Family
from configurator.cli.page import Cell, Line, Part, columns, prose
from configurator.cli.views import Reader
from configurator.listing import Row


def count_words(free: int, by_arrangement: int) -> str:
    """How many builds there are, in numbers that are exact."""
    return f"{explain.many(free + by_arrangement, 'build')}: {free:,} free, {by_arrangement:,} by arrangement."


def builds_page(
    family: Family, answer: Answer, rows: Sequence[Row], offset: int, currency: str, reader: Reader
) -> Iterator[Line]:
    """A page of a list. Each build is told by what it has other than the usual completion of the same picks."""
    yield from prose(count_words(answer.free, answer.by_arrangement), reader.width)
    if not rows:
        yield from prose("None of them is on this page.", reader.width)
        return
    usual = answer.build.picks if answer.build else {}
    departures = [{id: option for id, option in row.picks.items() if usual.get(id) != option} for row in rows]
    common = dict(set(departures[0].items()).intersection(*(one.items() for one in departures)))
    if common and len(rows) > 1:
        shared = {id: option for id, option in departures[0].items() if id in common}
        yield from prose(f"Unlike the usual, all on this page: {explain.named_all(family, shared)}.", reader.width)
        departures = [{id: option for id, option in one.items() if id not in common} for one in departures]
    heads = ("", f"net, {currency}", *(tally.id.replace("_", " ") for tally in family.tallies), "")
    table: list[list[Cell]] = [[Part(head, "quiet") for head in heads]]
    for number, (row, departs) in enumerate(zip(rows, departures, strict=True), offset + 1):
        words = "; ".join(filter(None, (explain.STANDING_WORDS[row.standing], explain.named_all(family, departs))))
        table.append(
            [f"{number}", explain.sum_of(row.net), *(row.tallies[tally.id] for tally in family.tallies), words]
        )
        table.append([Part(row.code, "quiet")])
    yield from columns(table, reader.width, ">" * (2 + len(family.tallies)))
