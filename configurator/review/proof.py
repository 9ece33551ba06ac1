"""The diagram held against plain search, which shares nothing with it but the rules' tables."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from configurator.case import Case
from configurator.completing import CLOSED
from configurator.review.findings import Finding, Proof, Told
from configurator.space import FREE, Space
from configurator.space.plain import plain_builds

MOST_WHOLE = 50_000
"""A space of so many builds is searched whole; of a larger one parts are."""

PARTS = 20
FEWEST, MOST = 200, 20_000
"""How many parts, and between how many builds each has."""


def prove(case: Case, told: Told) -> Iterator[Proof | Finding]:
    """Confirm a family's diagram, or show where plain search differs: a mistake of ours, not of the rules."""
    space, family = case.space, case.family
    whole = sum(space.count()) <= MOST_WHOLE
    parts = [space] if whole else [_part(space, Random(number)) for number in range(PARTS)]
    builds = 0
    for number, part in enumerate(parts, 1):
        told(f"{family.id}: proving part {number} of {len(parts)}")
        builds += sum(part.count())
        if not agrees(part):
            picks = {case.book.choices[choice]: case.book.options[choice][one].id for choice, one in part.picks.items()}
            wrong = "plain search finds other builds than the diagram"
            yield Finding(family.place, family.id, wrong, "this is a mistake of ours: please report it", "proof", picks)
    yield Proof(family.id, whole, len(parts), builds)


def agrees(space: Space) -> bool:
    """Whether plain search finds the same builds, with the same standings, and as many as were counted."""
    searched = dict(plain_builds(space.sizes, space.tables, space.picks))
    free = {build for build, standing in searched.items() if standing == FREE}
    found = set(space.builds()), set(space.builds(free_only=True))
    return found == (set(searched), free) and space.count() == (len(free), len(searched) - len(free))


def _part(space: Space, chance: Random) -> Space:
    """The space under random picks that leave between FEWEST and MOST builds, or as near as they can be brought to."""
    wanted = round(FEWEST * (MOST / FEWEST) ** chance.random())
    choices = list(range(len(space.sizes)))
    chance.shuffle(choices)
    for choice in choices:
        open_options = [option for option, kind in enumerate(space.standings_of(choice)) if kind != CLOSED]
        tried = space.pick(choice, chance.choice(open_options))
        if sum(tried.count()) >= FEWEST:
            space = tried
        if sum(space.count()) <= wanted:
            break
    return space
