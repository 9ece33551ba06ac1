"""Checks as they are read: those that fail first, then near ones, then what could not be checked, then how many are
well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from configurator import explain
from configurator.answer import Check
from configurator.catalogue.shops import Family
from configurator.cli.page import Cell, Line, Part, columns, entry, prose
from configurator.cli.views import Reader


def checks_lines(family: Family, checks: Sequence[Check], room: Reader, whole: bool = False) -> Iterator[Line]:
    """The checks of a build; with `whole` those that pass are written out too."""
    failed = [check for check in checks if check.verdict == "fail"]
    passed = [check for check in checks if check.verdict == "pass"]
    near = [check for check in passed if check.near]
    well = [check for check in passed if not check.near]
    yield from entry("fails", _table(failed, room), "no")
    yield from entry("near", _table(near, room), "care")
    yield from entry("unchecked", _unchecked(family, checks, room), "care")
    if whole:
        yield from entry("passes", _table(well, room))
    elif well:
        yield from entry(
            "passes", prose(explain.many(len(well), "more check" if failed or near else "check"), room.width)
        )


def _table(checks: Iterable[Check], room: Reader) -> list[Line]:
    rows = list(_rows(checks, room))
    heads: list[Cell] = [Part(head, "quiet") for head in ("", "value", "limit", "margin")]
    return columns([heads, *rows] if rows else [], room.width, "<><>")


def _rows(checks: Iterable[Check], room: Reader) -> Iterator[list[Cell]]:
    for check in checks:
        yield [check.label, check.value, check.limit, explain.signed_margin(check)]
        standing = explain.STANDING_WORDS[check.standing]
        basis = f"published: {check.source}" if check.source else check.basis
        band = f"uncertain by {check.uncertainty}" if check.near and check.uncertainty else ""
        yield [Part("; ".join(filter(None, (standing, band, basis, room.note(check.rule)))), "quiet")]
        if check.caution and (check.near or check.verdict == "fail"):
            yield [check.caution]


def _unchecked(family: Family, checks: Iterable[Check], room: Reader) -> Iterator[Line]:
    """What could not be checked, by what is missing: one number often settles several."""
    wanting: dict[tuple[str, ...], list[str]] = {}
    for check in checks:
        if check.verdict == "not_checked":
            wanting.setdefault(check.missing, []).append(explain.in_sentence(check.label))
    for missing, labels in wanting.items():
        yield from prose(f"without {explain.duty_words(family, missing)}: {'; '.join(labels)}", room.width)
