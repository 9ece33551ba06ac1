"""Rows of builds as CSV and as JSON lines, one row at a time, so that a long list streams."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from configurator.catalogue.shops import Family
from configurator.documents.characters import visible
from configurator.documents.json_of import quantity_json
from configurator.listing import Row

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\0", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""What a spreadsheet may take for the start of a formula (OWASP ASVS 5.0, 1.2.10), the full-width forms of it too."""


def csv_lines(rows: Iterable[Sequence[object]]) -> Iterator[str]:
    """The rows, heads among them, as lines of CSV (RFC 4180, line ends included).

    Numbers stand as numbers. Texts stand in quotation marks, so that no other separator splits them; one that a
    spreadsheet would run as a formula gets an apostrophe in front.
    """
    for row in rows:
        paper = io.StringIO(newline="")
        csv.writer(paper, quoting=csv.QUOTE_NONNUMERIC).writerow([_cell(value) for value in row])
        yield paper.getvalue()


def json_lines(rows: Iterable[Mapping[str, Any]]) -> Iterator[str]:
    """One JSON document a row, each in a line of its own."""
    for row in rows:
        yield json.dumps(row) + "\n"


def build_rows(family: Family, rows: Iterable[Row]) -> Iterator[Sequence[object]]:
    """Heads and rows for CSV: code, standing, net, the tallies with their unit in the head, then every choice."""
    tallies, choices = family.tallies, tuple(family.choices)
    yield ("code", "standing", "net", *(f"{tally.id} ({tally.unit})" for tally in tallies), *choices)
    for row in rows:
        sums = [(quantity_json(row.tallies.get(tally.id, "")) or {}).get("value", "") for tally in tallies]
        yield (row.code, row.standing, row.net, *sums, *(row.picks[choice] for choice in choices))


def row_json(row: Row) -> dict[str, Any]:
    """A build of a list as a document."""
    return {
        "code": row.code,
        "standing": row.standing,
        "net": str(row.net),
        "tallies": {id: quantity_json(text) for id, text in row.tallies.items()},
        "picks": dict(row.picks),
    }


def _cell(value: object) -> object:
    if not isinstance(value, str):
        return value
    text = visible(value)
    return f"'{text}" if value.startswith(_FORMULA) else text
