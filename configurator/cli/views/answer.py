"""How an answer reads: the answer in a sentence, then why, then what would help, then figures, then what is still to
say.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from configurator import explain
from configurator.answer import Answer, Check, Conflict, Note, SignOff, WayOut
from configurator.catalogue.shops import Family
from configurator.cli.page import Cell, Line, Part, columns, entry, prose
from configurator.cli.views import Reader
from configurator.cli.views.checks import checks_lines
from configurator.enquiry import Enquiry, Pick
from configurator.units import echo

_TONE = {"free": "yes", "by_arrangement": "care", "impossible": "no", "not_known": "care"}


def answer_page(
    family: Family, answer: Answer, reader: Reader, reasons: Mapping[str, str] | None = None
) -> Iterator[Line]:
    """The whole answer to an enquiry. `reasons` says of settled choices what settled them."""
    yield from prose(explain.headline(family, answer), reader.width, style=_TONE[answer.verdict])
    room = reader.beside_margin()
    yield from entry("asked", asked_lines(family, answer.enquiry, room))
    if answer.verdict == "impossible":
        yield from _no(family, answer, room)
    else:
        yield from _yes(family, answer, room, reasons or {})


def asked_lines(family: Family, enquiry: Enquiry, room: Reader) -> list[Line]:
    """What was asked, read back: picks with how they are known, and the duty."""
    said = [_asked(family, choice, pick) for choice, pick in enquiry.picks.items()]
    said += [f"{misfit.choice.replace('_', ' ')} {misfit.given}" for misfit in enquiry.misfits]
    said += [f"{explain.in_sentence(family.duties[id].label)} {echo(value)}" for id, value in enquiry.duty.items()]
    said += [f"{enquiry.quantity} blocks"] if enquiry.quantity != 1 else []
    return prose("; ".join(said), room.width) if said else []


def _asked(family: Family, choice: str, pick: Pick) -> str:
    known = [pick.known] if pick.known not in ("", "told") else []
    known += [f"{name.replace('_', ' ')} {echo(value)}" for name, value in pick.measured.items()]
    return explain.named(family, choice, pick.option) + (f" ({', '.join(known)})" if known else "")


def _no(family: Family, answer: Answer, room: Reader) -> Iterator[Line]:
    for misfit in answer.misfits[1:]:
        yield from entry("because", prose(explain.misfit_words(family, misfit), room.width))
    for misfit in answer.misfits:
        if misfit.kind != "not_offered":
            yield from entry("look", prose(family.choices[misfit.choice].help, room.width))
    yield from _conflicts(family, answer, room)
    yield from entry("ways out", columns(_ways(family, answer.ways_out, answer.currency), room.width, "<>>>"))
    said = explain.spoken(family, answer)
    yield from entry("say", prose(f'"{said}"', room.width) if said else [])


def _conflicts(family: Family, answer: Answer, room: Reader) -> Iterator[Line]:
    """Which picks clash, where that is not all that was asked, and why. A reason that was given is not given again."""
    given: set[str] = set()
    for conflict in answer.conflicts:
        new = [rule for rule in _reasons_of(conflict) if rule[0] not in given]
        clash = _between(family, answer, conflict)
        lines = [line for rule in new for line in _reason(family, *rule, room)]
        if not new:
            lines = prose(f"{clash.removesuffix('.')}, for the same reason.", room.width)
        elif set(conflict.between) != set(answer.enquiry.picks):
            lines = [*prose(clash, room.width), *lines]
        if 0 < len(new) < len(conflict.rules):
            lines += prose("The rest as above.", room.width)
        yield from entry("because", lines)
        given.update(conflict.rules)


def _reasons_of(conflict: Conflict) -> Iterator[tuple[str, str, Check | None]]:
    limits = {check.rule: check for check in conflict.limits}
    for rule, because in zip(conflict.rules, conflict.because, strict=True):
        yield rule, because, limits.get(rule)


def _reason(family: Family, rule: str, because: str, limit: Check | None, room: Reader) -> list[Line]:
    lines = prose(f"{because} ({explain.basis_of(family.rules[rule])})", room.width, room.note(rule))
    return lines + (prose(f"{explain.limit_words(limit)}.", room.width) if limit else [])


def _between(family: Family, answer: Answer, conflict: Conflict) -> str:
    taken = [choice for choice in conflict.between if choice not in answer.enquiry.picks]
    words = explain.begun(explain.clash_words(family, conflict))
    return f"{words} Taken to be so, as nobody has said: {explain.missing_words(family, taken)}." if taken else words


def _ways(family: Family, ways: Sequence[WayOut], currency: str) -> Iterator[list[Cell]]:
    if any(way.net is not None for way in ways):
        yield [Part(head, "quiet") for head in ("instead", f"net, {currency}", "difference", "working days")]
    for way in ways:
        if way.net is None or way.working_days is None:
            yield [explain.way_words(family, way), "", "", ""]
            continue
        difference = explain.difference_of(way.difference or way.net - way.net)
        yield [explain.way_words(family, way), explain.sum_of(way.net), difference, str(way.working_days)]
        brought = explain.listed(explain.named(family, also.choice, also.option) for also in way.also)
        remarks = [explain.STANDING_WORDS[way.standing], f"brings: {brought}" if brought else ""]
        if any(remarks):
            yield [Part("; ".join(filter(None, remarks)), "quiet")]


def _yes(family: Family, answer: Answer, room: Reader, reasons: Mapping[str, str]) -> Iterator[Line]:
    yield from entry("price", _price(answer, room))
    yield from entry("sign-off", _reasons(family, answer, answer.sign_offs, room), "care")
    yield from entry("or free", _freer(family, answer, room))
    yield from entry("advice", _reasons(family, answer, answer.advice, room), "care")
    said = {sign_off.rule for sign_off in answer.sign_offs} | {note.rule for note in answer.advice}
    yield from checks_lines(family, [check for check in answer.checks if check.rule not in said], room)
    yield from entry("settled", _settled(family, answer, room, reasons))
    yield from settle_lines(family, answer, room)
    yield from assumed_lines(family, answer, room)
    if answer.build:
        yield from entry("code", prose(answer.build.code, room.width))


def _price(answer: Answer, room: Reader) -> list[Line]:
    if answer.price is None:
        return []
    least, greatest = explain.sum_of(answer.price.least), explain.sum_of(answer.price.greatest)
    if least == greatest:
        return prose(f"{least} {answer.price.currency} net, whatever else is settled", room.width)
    return prose(f"from {least} to {greatest} {answer.price.currency} net, by what else is settled", room.width)


def _reasons(family: Family, answer: Answer, rules: Iterable[SignOff | Note], room: Reader) -> Iterator[Line]:
    """What an engineer signs for, or what is advised: the reason, and the figures where it is a limit."""
    limits = {check.rule: check for check in answer.checks}
    for one in rules:
        figures = f" Here: {explain.in_sentence(explain.limit_words(limits[one.rule]))}." if one.rule in limits else ""
        yield from prose(one.because + figures, room.width, room.note(one.rule))


def _freer(family: Family, answer: Answer, room: Reader) -> list[Line]:
    if answer.freer is None:
        return []
    change = explain.named_all(family, answer.freer.change)
    net = f"{explain.sum_of(answer.freer.net)} {answer.currency} net"
    difference = explain.difference_of(answer.freer.difference) or "the same"
    return prose(f"{change}: {net} ({difference}), and nobody has to sign", room.width)


def _settled(family: Family, answer: Answer, room: Reader, reasons: Mapping[str, str]) -> Iterator[Line]:
    """What the picks leave no choice in; what the family never leaves a choice in goes without saying."""
    for id, reason in reasons.items():
        yield from prose(f"{explain.named(family, id, answer.choices[id].settled)}, {reason}", room.width)


def assumed_lines(family: Family, answer: Answer, room: Reader) -> Iterator[Line]:
    """What nobody asked for: haves that are taken to be so until told, wants that are completed as is usual."""
    yield from entry("taken as", _assumed(family, answer, room, "have"))
    yield from entry("as usual", _assumed(family, answer, room, "want"))


def settle_lines(family: Family, answer: Answer, room: Reader) -> Iterator[Line]:
    """What only the caller knows and has not said, with how to find it out."""
    yield from entry("to settle", columns(_to_settle(family, answer), room.width))


def _assumed(family: Family, answer: Answer, room: Reader, asks: str) -> list[Line]:
    """By heading, so that one finds what one looks for; what is left out stands together at the end."""
    by_heading: dict[str, list[str]] = {heading: [] for heading in family.headings}
    without = []
    for id, option in answer.assumed.items():
        choice = family.choices[id]
        if choice.asks != asks or (answer.choices[id].settled and not answer.choices[id].picked):
            continue
        if explain.is_none(family, id, option):
            without.append(explain.in_sentence(choice.label))
        else:
            by_heading.setdefault(choice.heading, []).append(explain.named(family, id, option))
    rows: list[list[Cell]] = [[heading, "; ".join(names)] for heading, names in by_heading.items() if names]
    if without:
        rows.append(["Without", "; ".join(without)])
    return columns([[Part(str(heading), "quiet"), names] for heading, names in rows], room.width)


def _to_settle(family: Family, answer: Answer) -> Iterator[list[Cell]]:
    """What only the caller knows. Wishes that are open stand under what is usual."""
    reckoned = answer.build.reckoned if answer.build else ()
    for id in explain.to_settle(family, answer):
        choice = family.choices.get(id)
        if choice is None:
            yield [explain.missing_words(family, (id,)), explain.help_of(family, id)]
        elif choice.asks == "have":
            reckoned_as = (
                f" Reckoned as if {explain.named(family, id, answer.build.picks[id])}."
                if answer.build and id in reckoned
                else ""
            )
            yield [choice.label, explain.first_sentence(choice.help) + reckoned_as]
