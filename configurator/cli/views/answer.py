"""How an answer reads: the answer in a sentence, then why, then what would help, then figures, then what is still to
say.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from configurator import explain
from configurator.answer import Answer, Conflict, WayOut
from configurator.catalogue.shops import Family
from configurator.cli.page import Cell, Line, Part, columns, entry, prose
from configurator.cli.views import Reader
from configurator.cli.views.checks import checks_lines
from configurator.enquiry import Enquiry
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
    said = []
    for choice, pick in enquiry.picks.items():
        measured = [f"{name.replace('_', ' ')} {echo(value)}" for name, value in pick.measured.items()]
        known = ", ".join((pick.known, *measured) if pick.known not in ("", "told") else measured)
        said.append(explain.named(family, choice, pick.option) + (f" ({known})" if known else ""))
    said += [f"{explain.in_sentence(family.duties[id].label)} {echo(value)}" for id, value in enquiry.duty.items()]
    if enquiry.quantity != 1:
        said.append(f"{enquiry.quantity} blocks")
    return prose("; ".join(said), room.width) if said else []


def _no(family: Family, answer: Answer, room: Reader) -> Iterator[Line]:
    for misfit in answer.misfits:
        yield from entry("because", prose(explain.misfit_words(family, misfit), room.width))
    for conflict in answer.conflicts:
        yield from entry("because", _conflict(family, conflict, room))
    yield from entry("ways out", columns(_ways(family, answer.ways_out), room.width, "<>>>"))
    said = explain.spoken(family, answer)
    yield from entry("say", prose(f'"{said}"', room.width) if said else [])


def _conflict(family: Family, conflict: Conflict, room: Reader) -> Iterator[Line]:
    yield from prose(explain.clash_words(family, conflict), room.width)
    limits = {check.rule: check for check in conflict.limits}
    for id, because in zip(conflict.rules, conflict.because, strict=True):
        yield from prose(f"{because} ({explain.basis_of(family.rules[id])})", room.width, room.note(id))
        if id in limits:
            yield from prose(explain.limit_words(limits[id]), room.width)


def _ways(family: Family, ways: Iterable[WayOut]) -> Iterator[list[Cell]]:
    for way in ways:
        if way.net is None or way.working_days is None:
            yield [explain.way_words(family, way)]
            continue
        yield [
            explain.way_words(family, way),
            f"{explain.sum_of(way.net)} net",
            explain.difference_of(way.difference or way.net - way.net),
            explain.days_of(way.working_days),
            explain.STANDING_WORDS[way.standing],
        ]
        if way.also:
            brought = explain.listed(explain.named(family, also.choice, also.option) for also in way.also)
            yield [Part(f"brings: {brought}", "quiet")]


def _yes(family: Family, answer: Answer, room: Reader, reasons: Mapping[str, str]) -> Iterator[Line]:
    yield from entry("price", _price(answer, room))
    yield from entry("sign-off", _signatures(answer, room), "care")
    yield from entry("without", _freer(family, answer, room))
    yield from checks_lines(family, answer.checks, room)
    yield from entry(
        "advice", (line for note in answer.advice for line in prose(note.because, room.width, room.note(note.rule)))
    )
    yield from entry("settled", _settled(family, answer, room, reasons))
    yield from assumed_lines(family, answer, room)
    yield from settle_lines(family, answer, room)
    if answer.build:
        yield from entry("code", prose(answer.build.code, room.width))


def _price(answer: Answer, room: Reader) -> list[Line]:
    if answer.price is None:
        return []
    least, greatest = explain.sum_of(answer.price.least), explain.sum_of(answer.price.greatest)
    if least == greatest:
        return prose(f"{least} {answer.price.currency} net, whatever else is settled", room.width)
    return prose(f"from {least} to {greatest} {answer.price.currency} net, by what else is settled", room.width)


def _signatures(answer: Answer, room: Reader) -> Iterator[Line]:
    for sign_off in answer.sign_offs:
        yield from prose(sign_off.because, room.width, room.note(sign_off.rule))


def _freer(family: Family, answer: Answer, room: Reader) -> list[Line]:
    if answer.freer is None:
        return []
    change = explain.named_all(family, answer.freer.change)
    difference = explain.difference_of(answer.freer.difference)
    price = f"{explain.sum_of(answer.freer.net)} net{f', {difference}' if difference else ''}"
    return prose(f"without a signature: {change}, {price}", room.width)


def _settled(family: Family, answer: Answer, room: Reader, reasons: Mapping[str, str]) -> Iterator[Line]:
    for id, standing in answer.choices.items():
        if standing.settled and not standing.picked:
            reason = f", {reasons[id]}" if id in reasons else ""
            yield from prose(f"{explain.named(family, id, standing.settled)}{reason}", room.width)


def assumed_lines(family: Family, answer: Answer, room: Reader) -> Iterator[Line]:
    """What nobody asked for: haves that are taken to be so until told, wants that are completed as is usual."""
    yield from entry("taken as", _assumed(family, answer, room, "have"))
    yield from entry("as usual", _assumed(family, answer, room, "want"))


def settle_lines(family: Family, answer: Answer, room: Reader) -> Iterator[Line]:
    """What only the caller knows and has not said, with how to find it out."""
    yield from entry("to settle", columns(_to_settle(family, answer), room.width))


def _assumed(family: Family, answer: Answer, room: Reader, asks: str) -> list[Line]:
    names = [
        explain.named(family, choice, option)
        for choice, option in answer.assumed.items()
        if family.choices[choice].asks == asks and not answer.choices[choice].settled
    ]
    return prose("; ".join(names), room.width) if names else []


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
