"""Options that are not what they seem: in no build, in every build, or only ever together with others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from configurator.completing import CLOSED
from configurator.faults import NotKnown
from configurator.review.bench import Bench
from configurator.review.findings import Finding
from configurator.rulebook import Rulebook
from configurator.space import Space

Had = tuple[int, int]
"""A choice and its option, in numbers."""


def find_dead(bench: Bench) -> Iterator[Finding]:
    """Options that no build has, with the fewest rules that refuse each and those that alone stand in its way; and
    options kept only to be refused that builds have.
    """
    for number, kinds in enumerate(bench.case.space.standings()):
        choice = bench.case.book.choices[number]
        for position, kind in enumerate(kinds):
            option = bench.case.book.options[number][position]
            about = f"{choice}={option.id}"
            if kind == CLOSED and not option.refused_with:
                way_out = 'mend the rule, take the option away, or keep it to be refused with refused_with = "RULE"'
                wrong = f"no build has this option; {_why_dead(bench, (number, position))}"
                yield Finding(option.place, about, wrong, way_out, "dead option")
            if kind != CLOSED and option.refused_with:
                wrong = f"is kept to be refused with {option.refused_with}, but builds have it"
                yield Finding(option.place, about, wrong, "take refused_with away, or mend the rule", "live option")


def _why_dead(bench: Bench, option: Had) -> str:
    try:
        behind = bench.case.space.rules_behind(dict([option]))
        cures = cures_of(bench, option, behind)
    except NotKnown:
        return "which rules refuse it is not known: the search met its cap"
    said = f"refused by {', '.join(behind)}"
    if len(behind) == 1:
        return said
    cure = f"it would come back without {' or '.join(cures)}" if cures else "no one rule less would bring it back"
    return f"{said}; {cure}"


def cures_of(bench: Bench, option: Had, behind: Sequence[str]) -> tuple[str, ...]:
    """The rules, of those behind a dead option, of which any one need only go for it to have a build."""
    return tuple(rule for rule in behind if bench.possible.build(rule, dict([option])) is not None)


def find_forced(bench: Bench) -> Iterator[Finding]:
    """Choices that look free, and that every build settles alike."""
    for number, position in forced(bench.case.space):
        choice = bench.family.choices[bench.case.book.choices[number]]
        option = bench.case.book.options[number][position].id
        if sum(not one.refused_with for one in choice.options) > 1:
            wrong = f"looks free, and every build has {option}"
            yield Finding(choice.place, choice.id, wrong, "mend the rules, or take the choice away", "forced")


def forced(space: Space) -> list[Had]:
    """The options that every build has, of choices with more than one."""
    settled = (_settled(kinds) if len(kinds) > 1 else None for kinds in space.standings())
    return [(number, option) for number, option in enumerate(settled) if option is not None]


def find_together(bench: Bench) -> Iterator[Finding]:
    """Options that only ever come together; of choices that settle each other in all their options, once."""
    book, kinds = bench.case.book, bench.case.space.standings()

    def choices_of(group: Sequence[Had]) -> tuple[int, ...]:
        return tuple(number for number, _ in group)

    for numbers, groups in groupby(sorted(together(bench.case.space), key=choices_of), key=choices_of):
        sets = list(groups)
        several = [", ".join(_named(book, *one) for one in had) for had in sets]
        wrong = f"only ever come together: {'; '.join(several)}"
        settles = all(len(kinds[number]) - kinds[number].count(CLOSED) == len(sets) for number in numbers)
        way_out = "each settles the other: if they are one thing, one choice might do" if settles else ""
        choices = [book.choices[number] for number in numbers]
        yield Finding(bench.family.choices[choices[0]].place, ", ".join(choices), wrong, way_out, "together")


def together(space: Space) -> list[tuple[Had, ...]]:
    """All largest sets of options that are had by the same builds; those in every build, or in none, are left out."""
    open_options = [[option for option, kind in enumerate(kinds) if kind != CLOSED] for kinds in space.standings()]
    brings: dict[Had, set[Had]] = {}
    for number, options in enumerate(open_options):
        for option in options if len(options) > 1 else ():
            kinds = space.pick(number, option).standings()
            settled = ((other, _settled(one)) for other, one in enumerate(kinds) if len(open_options[other]) > 1)
            brings[number, option] = {(other, one) for other, one in settled if one is not None and other != number}
    groups = {tuple(sorted({had, *(one for one in brought if had in brings[one])})) for had, brought in brings.items()}
    return sorted(group for group in groups if len(group) > 1)


def _named(book: Rulebook, number: int, option: int) -> str:
    return f"{book.choices[number]}={book.options[number][option].id}"


def _settled(kinds: bytes) -> int | None:
    left = [option for option, kind in enumerate(kinds) if kind != CLOSED]
    return left[0] if len(left) == 1 else None
