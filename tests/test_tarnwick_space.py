"""The Tarnwick demo family at full size.

How many builds it has, how its choices hang together, and plain search's opinion.
"""

from __future__ import annotations

import os
import random
from datetime import date
from decimal import Decimal
from functools import cache

import pytest

from configurator import desk
from configurator.case import Case
from configurator.enquiry import Enquiry
from configurator.review.findings import Findings
from configurator.review.lint import lint
from configurator.shipped import demo_folder
from configurator.space import Space
from configurator.space.plain import plain_builds

DAY = date(2026, 11, 25)
FEWEST, MOST = 1_000, 100_000
NARROWINGS = 200 if os.environ.get("BLOCKS_LONG") else 20


@cache
def tarnwick() -> desk.Desk:
    return desk.open_shop(demo_folder() / "tarnwick")


@cache
def nothing_asked() -> Case:
    return desk.lay(tarnwick(), Enquiry("tnw5", {}), DAY)


@cache
def linted() -> Findings:
    return lint(tarnwick(), DAY)


def narrowed(seed: int) -> Space:
    """The space under random picks that leave between FEWEST and MOST builds."""
    chance = random.Random(seed)
    space = nothing_asked().space
    wanted = round(FEWEST * (MOST / FEWEST) ** chance.random())
    choices = list(range(len(space.sizes)))
    chance.shuffle(choices)
    for choice in choices:
        open_options = [option for option, kind in enumerate(space.standings_of(choice)) if kind != 2]
        tried = space.pick(choice, chance.choice(open_options))
        if sum(tried.count()) >= FEWEST:
            space = tried
        if sum(space.count()) <= wanted:
            break
    return space


@pytest.mark.parametrize("seed", range(NARROWINGS))
def test_a_random_narrowing_has_the_builds_that_plain_search_finds(seed: int) -> None:
    space = narrowed(seed)
    free, by_arrangement = space.count()
    assert FEWEST <= free + by_arrangement <= MOST
    searched = dict(plain_builds(space.sizes, space.tables, space.picks))
    assert set(space.builds()) == set(searched)
    assert sum(standing == 0 for standing in searched.values()) == free
    assert len(searched) == free + by_arrangement


def test_tarnwick_has_more_than_a_thousand_million_builds_free_and_by_arrangement_counted_apart() -> None:
    free, by_arrangement = nothing_asked().space.count()
    assert free > 10**9
    assert by_arrangement > 0


def test_at_least_twenty_choices_hang_together_and_at_most_eight_are_tied_by_none() -> None:
    (census,) = linted().census
    assert census.choices >= 30
    assert census.component >= 20
    assert len(census.untied) <= 8


def test_lint_finds_nothing_to_mend_and_no_dead_option() -> None:
    assert linted().findings == ()
    assert linted().examples > 100


def test_an_empty_enquiry_is_possible_and_free_and_costs_what_is_usual() -> None:
    answer = desk.answer(tarnwick(), Enquiry("tnw5", {}), DAY)
    assert (answer.verdict, answer.net) == ("free", Decimal("9800.00"))
    assert answer.build is not None
    assert answer.build.standing == "free"
