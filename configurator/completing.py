"""From picks to one whole build.

What nobody asked for takes its usual option, what nobody knows is reckoned and stays open.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from configurator.build import Build
from configurator.case import PRICE, Case
from configurator.catalogue.choices import Choice
from configurator.catalogue.shops import Family
from configurator.load.codes import build_code
from configurator.space import Space

CLOSED = 2


class Completed(NamedTuple):
    """One whole build in picks.

    `assumed` are the wants completed, `reckoned` the haves still open that were put at an answer.
    """

    picks: Mapping[str, str]
    assumed: tuple[str, ...]
    reckoned: tuple[str, ...]


def complete(case: Case, space: Space, free_only: bool = False) -> Completed:
    """Complete the picks of a possible space; with `free_only` no want is completed so that the build cannot be free.

    Wants first, those that others' `usual` reads before the others, else by id: the usual option where it still fits,
    else the best standing, then the cheapest, then the first listed. Then haves, at the first option that leaves the
    build free, else the first that fits; a have that the picks alone leave open is only reckoned.
    """
    book, asked = case.book, space
    picks = {book.choices[number]: book.options[number][option].id for number, option in space.picks.items()}
    assumed, reckoned = [], []
    for choice in _wants_in_order(case.family):
        if choice.id in picks:
            continue
        number = book.choices.index(choice.id)
        kinds = space.standings_of(number)
        option = _want(case, choice, number, space, picks, kinds, free_only)
        picks[choice.id] = book.options[number][option].id
        space = _settled(space, number, option, kinds)
        assumed.append(choice.id)
    for number, id in enumerate(book.choices):
        if id in picks:
            continue
        kinds = space.standings_of(number)
        option = min(range(len(kinds)), key=kinds.__getitem__)
        if _open_options(asked.standings_of(number)) > 1:
            reckoned.append(id)
        picks[id] = book.options[number][option].id
        space = _settled(space, number, option, kinds)
    return Completed(dict(sorted(picks.items())), tuple(sorted(assumed)), tuple(reckoned))


def _open_options(kinds: bytes) -> int:
    return len(kinds) - kinds.count(CLOSED)


def _settled(space: Space, number: int, option: int, kinds: bytes) -> Space:
    """The space with one more pick; an option that is the only one left narrows nothing and need not be picked."""
    return space if _open_options(kinds) == 1 else space.pick(number, option)


def _want(
    case: Case,
    choice: Choice,
    number: int,
    space: Space,
    picks: Mapping[str, str],
    kinds: bytes,
    free_only: bool,
) -> int:
    worst = 0 if free_only else 1
    usual = usual_option(choice, picks)
    if usual:
        option = case.book.numbered(choice.id, usual)[1]
        if kinds[option] <= worst:
            return option
    best = min(kinds)
    fitting = [option for option, kind in enumerate(kinds) if kind == best]
    if len(fitting) == 1:
        return fitting[0]

    def price(option: int) -> int:
        found = space.pick(number, option).cheapest(PRICE, free=best == 0)
        assert found is not None
        return found[0]

    return min(fitting, key=price)


def usual_option(choice: Choice, picks: Mapping[str, str]) -> str:
    """The option that the choice usually takes under these picks.

    "" where none is named. What is open meets no condition.
    """
    for usual in choice.usual:
        if all(one.name in picks and one.allows(picks[one.name]) for one in usual.when):
            return usual.option
    return ""


@lru_cache(maxsize=8)
def _order(wants: tuple[tuple[str, tuple[str, ...]], ...]) -> tuple[str, ...]:
    reads = dict(wants)
    order: dict[str, None] = {}

    def visit(id: str) -> None:
        if id in reads and id not in order:
            for name in reads[id]:
                visit(name)
            order[id] = None

    for id, _ in wants:
        visit(id)
    return tuple(order)


def _wants_in_order(family: Family) -> Iterator[Choice]:
    wants = tuple(
        (choice.id, tuple(sorted({one.name for usual in choice.usual for one in usual.when})))
        for choice in family.choices.values()
        if choice.asks == "want"
    )
    return (family.choices[id] for id in _order(wants))


def build_of(case: Case, completed: Completed, standing: str) -> Build:
    """The completed picks as a build, with its code; a have that nobody picked is open in the code, settled or not."""
    not_picked = (choice for choice in completed.picks if case.have(choice) and choice not in case.bound)
    code = build_code(case.family, completed.picks, tuple(not_picked))
    assumed = tuple(sorted((*case.taken, *completed.assumed)))
    return Build(case.family.id, completed.picks, standing, code, assumed, completed.reckoned)
