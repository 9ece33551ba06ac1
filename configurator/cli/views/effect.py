"""The effect of an edit: what is added, removed and signed for in each family, and which known enquiries change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from configurator import explain
from configurator.catalogue.shops import Family, Shop
from configurator.cli.page import MARGIN, Line, entry, prose
from configurator.documents.json_of import SCHEMA
from configurator.review.consequences import Outcome, Shift
from configurator.review.difference import CHANGES, Counts, Difference
from configurator.review.effect import Effect, FamilyEffect
from configurator.review.witnesses import Witness

KINDS = {
    "same": "adds no build and removes none",
    "removes": "removes builds and adds none",
    "adds": "adds builds and removes none",
    "both": "adds builds and removes others",
}
BECAME = {
    "added": ("becomes possible", "become possible"),
    "removed": ("becomes impossible", "become impossible"),
    "freed": ("needs no signature any more", "need no signature any more"),
    "signed": ("becomes by arrangement", "become by arrangement"),
}
"""What happens to one build, and to several."""

MOST = 20
"""Known enquiries that are shown; the rest are counted, and stand in the JSON."""


def effect_page(effect: Effect, old: Shop, new: Shop, width: int) -> Iterator[Line]:
    """The whole effect, family by family; then the enquiries; last the verdict."""
    for family in effect.families:
        yield from _family(family, (new if family.family in new.families else old).families[family.family], width)
    for said, ids in (("new", effect.families_added), ("gone", effect.families_gone)):
        if ids:
            yield from prose(f"The family {explain.listed(ids)} is {said}.", width)
    yield from entry("expected", _shifts(effect.scenarios, width - MARGIN))
    yield from entry("quotes", _shifts(effect.quotes, width - MARGIN))
    yield from prose(*_verdict(effect, width))


def _verdict(effect: Effect, width: int) -> tuple[str, int, str, str]:
    broken = [shift.about for shift in effect.scenarios if shift.broke]
    if broken:
        return f"Broken: {explain.listed(broken)} {_is(broken)} expected otherwise.", width, "", "no"
    if effect.unknown:
        return "Not all of it is known.", width, "", "care"
    if effect.changed:
        return "The edit changes answers; what is expected still holds.", width, "", "care"
    same = "What can be built is the same. Prices and days are compared by expected answers and quotes only."
    return same, width, "", "yes"


def _is(names: Iterable[str]) -> str:
    return "is" if len(tuple(names)) == 1 else "are"


def _family(found: FamilyEffect, family: Family, width: int) -> Iterator[Line]:
    if found.difference is None:
        yield from prose(f"{found.label}: the difference is not known: {found.unknown}.", width, style="care")
    else:
        apart = found.difference.old_apart.possible or found.difference.new_apart.possible
        among = "of the builds that both versions know, " if apart else ""
        yield from prose(f"{found.label}: {among}the edit {KINDS[found.difference.kind]}.", width)
        yield from _difference(found, found.difference, family, width)
    yield from entry("edited", _edited(found, width - MARGIN))
    room = width - MARGIN
    yield from entry("pointless", prose(", ".join(found.pointless), room) if found.pointless else ())
    yield from entry("dead", prose(", ".join(found.dead), room) if found.dead else ())


def _difference(found: FamilyEffect, difference: Difference, family: Family, width: int) -> Iterator[Line]:
    room = width - MARGIN
    yield from entry("before", prose(_counted(difference.old), room))
    yield from entry("now", prose(_counted(difference.new), room))
    for change, moves in CHANGES.items():
        number = sum(difference.moves[move] for move in moves)
        if number:
            yield from entry(change, _change(change, number, difference, found.witnesses[change], family, room))
    for side, counts in (("before", difference.old_apart), ("now", difference.new_apart)):
        if counts.possible:
            text = f"{_counted(counts)} {side} have an option that the other version lacks, and are not compared"
            yield from entry("apart", prose(text, room))


def _change(
    change: str, number: int, difference: Difference, witness: Witness, family: Family, room: int
) -> Iterator[Line]:
    split = {"added": difference.added, "removed": difference.removed}.get(change)
    of_them = f": {split.free:,} free, {split.by_arrangement:,} by arrangement" if split else ""
    one, several = BECAME[change]
    yield from prose(f"1 build {one}{of_them}" if number == 1 else f"{number:,} builds {several}{of_them}", room)
    known = {id: option for id, option in witness.unusual.items() if id in family.choices}
    shown = f"with {explain.named_all(family, known)}" if known else "the usual build"
    yield from prose(f"nearest to the usual: {shown}", room, ", ".join(witness.rules))


def _edited(found: FamilyEffect, room: int) -> Iterator[Line]:
    words = {
        "choices_added": "new choices (left out of the comparison)",
        "choices_gone": "choices gone (left out of the comparison)",
        "options_added": "new options",
        "options_gone": "options gone",
        "rules_added": "new rules",
        "rules_gone": "rules gone",
        "rules_altered": "rules written otherwise",
        "waiting": "of these wait for a duty, and are not counted",
    }
    for field, said in words.items():
        ids = getattr(found.edited, field)
        if ids:
            yield from prose(f"{said}: {', '.join(ids)}", room)


def _counted(counts: Counts) -> str:
    return f"{counts.possible:,} builds: {counts.free:,} free, {counts.by_arrangement:,} by arrangement"


def _shifts(shifts: tuple[Shift, ...], room: int) -> Iterator[Line]:
    for shift in shifts[:MOST]:
        broke = "; the answer expected is another" if shift.broke else ""
        text = f"{shift.about}: {_outcome(shift.before)} before, {_outcome(shift.after)} now{broke}"
        yield from prose(text, room, str(shift.place))
    if len(shifts) > MOST:
        yield from prose(f"and {len(shifts) - MOST:,} more", room)


def _outcome(outcome: Outcome) -> str:
    words = outcome.verdict.replace("_", " ")
    return f"{words}, {outcome.net} net" if outcome.net else words


def effect_json(effect: Effect) -> dict[str, Any]:
    """The same as a document."""
    return {
        "schema": SCHEMA,
        "changed": effect.changed,
        "broke": effect.broke,
        "families": {family.family: _family_json(family) for family in effect.families},
        "families_added": list(effect.families_added),
        "families_gone": list(effect.families_gone),
        "expected": [_shift_json(shift) for shift in effect.scenarios],
        "quotes": [_shift_json(shift) for shift in effect.quotes],
    }


def difference_json(difference: Difference, witnesses: Mapping[str, Witness]) -> dict[str, Any]:
    """A difference as JSON: exact counts, and for each kind of change its number and its witness."""
    return {
        "kind": difference.kind,
        "counted": "exact",
        **{side: getattr(difference, side)._asdict() for side in ("old", "new", "old_apart", "new_apart")},
        "added": difference.added._asdict(),
        "removed": difference.removed._asdict(),
        **{change: sum(difference.moves[move] for move in CHANGES[change]) for change in ("freed", "signed")},
        "witnesses": {change: _witness_json(witness) for change, witness in witnesses.items()},
    }


def _family_json(found: FamilyEffect) -> dict[str, Any]:
    difference = found.difference
    return {
        "difference": difference_json(difference, found.witnesses) if difference else None,
        "not_known": found.unknown,
        "edited": {field: list(ids) for field, ids in found.edited._asdict().items()},
        "pointless": list(found.pointless),
        "dead": list(found.dead),
    }


def _witness_json(witness: Witness) -> dict[str, Any]:
    plain = {"picks": dict(witness.picks), "unusual": dict(witness.unusual), "rules": list(witness.rules)}
    return plain | {"old": witness.old, "new": witness.new}


def _shift_json(shift: Shift) -> dict[str, Any]:
    return {
        "id": shift.about,
        "family": shift.family,
        "file": shift.place.file,
        "line": shift.place.line or None,
        "before": {"verdict": shift.before.verdict, "net": shift.before.net or None},
        "after": {"verdict": shift.after.verdict, "net": shift.after.net or None},
        "broke": shift.broke,
    }
