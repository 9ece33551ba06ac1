"""One rule explained: the sentence, where it stands, what it excludes alone and beside the others."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from configurator import explain
from configurator.catalogue.rules import Table
from configurator.catalogue.shops import Family
from configurator.cli.page import MARGIN, Cell, Line, Part, columns, entry, prose
from configurator.documents.json_of import SCHEMA
from configurator.review.difference import CHANGES, Difference
from configurator.review.explanation import Explanation
from configurator.review.sentences import rows_of


def explanation_page(found: Explanation, width: int) -> Iterator[Line]:
    """A page for one rule in one family."""
    rule, family, room = found.rule, found.family, width - MARGIN
    yield from prose(found.sentence, width)
    if isinstance(rule.body, Table):
        heads, *rows = rows_of(rule.body, family)
        table: list[Sequence[Cell]] = [[Part(head, "quiet") for head in heads], *rows]
        yield from ((Part("  "), *line) for line in columns(table, width - 2))
    yield from entry("because", prose(f"{rule.because} ({explain.basis_of(rule)})", room))
    yield from entry("stands", prose(f"{rule.place}, in {family.label}", room, rule.id))
    yield from entry("speaks of", prose(explain.listed(_label(choice, family) for choice in found.scope), room))
    if found.waits_for:
        waits = f"It waits for {explain.missing_words(family, found.waits_for)}: until then it excludes nothing."
        yield from entry("waits", prose(waits, room))
    if found.cost:
        yield from entry("excludes", _excluded(found, room))
        share = f"alone it would refuse {found.alone:,} of {found.all_builds:,} builds"
        yield from entry("alone", prose(share if found.alone else "alone it would refuse no build", room))
        yield from entry("beside", _cost(found, found.cost, room))


def _excluded(found: Explanation, room: int) -> Iterator[Line]:
    counts = f"{found.refused:,} impossible and {found.signed:,} by arrangement"
    yield from prose(f"of {found.combinations:,} combinations {counts}", room)
    for one in found.excluded:
        standing = explain.STANDING_WORDS[one.standing]
        yield from prose(f"  {standing}: {explain.named_all(found.family, one.picks)}", room)
    more = found.refused + found.signed - len(found.excluded)
    if more:
        yield from prose(f"  and {more:,} more", room)


def _cost(found: Explanation, cost: Difference, room: int) -> Iterator[Line]:
    words = {
        "removed": "builds that the other rules allow are impossible because of it",
        "signed": "builds that would be free are by arrangement because of it",
    }
    for change, said in words.items():
        number = sum(cost.moves[move] for move in CHANGES[change])
        if number:
            yield from prose(f"{number:,} {said}{_split(change, cost)}", room)
            yield from prose(f"nearest to the usual: {_unusual(found, found.nearest[change])}", room)
    if not found.nearest:
        also = f"; {explain.listed(found.others)} refuse{'s' if len(found.others) == 1 else ''} the same"
        yield from prose(f"it changes no build beside the other rules{also if found.others else ''}", room)


def _split(change: str, cost: Difference) -> str:
    removed = cost.removed
    return f" ({removed.free:,} free, {removed.by_arrangement:,} by arrangement)" if change == "removed" else ""


def _unusual(found: Explanation, picks: Mapping[str, str]) -> str:
    return f"with {explain.named_all(found.family, picks)}" if picks else "the usual build itself"


def _label(choice: str, family: Family) -> str:
    return explain.in_sentence(family.choices[choice].label)


def explanation_json(found: Sequence[Explanation]) -> dict[str, Any]:
    """The same as a document, by family."""
    return {"schema": SCHEMA, "families": {one.family.id: _json(one) for one in found}}


def _json(found: Explanation) -> dict[str, Any]:
    rule, cost = found.rule, found.cost
    changes = ("removed", "signed") if cost else ()
    beside = {change: sum(cost.moves[move] for move in CHANGES[change]) for change in changes if cost}
    return {
        "rule": rule.id,
        "file": rule.place.file,
        "line": rule.place.line or None,
        "sentence": found.sentence,
        "because": rule.because,
        "basis": rule.basis,
        "source": rule.source,
        "scope": list(found.scope),
        "waits_for": list(found.waits_for),
        "combinations": found.combinations,
        "impossible": found.refused,
        "by_arrangement": found.signed,
        "alone": {"refused": found.alone, "of": found.all_builds},
        "excluded": [{"picks": dict(one.picks), "standing": one.standing} for one in found.excluded],
        "beside_the_others": beside or None,
        "nearest": {change: dict(picks) for change, picks in found.nearest.items()},
        "also_refused_by": list(found.others),
    }
