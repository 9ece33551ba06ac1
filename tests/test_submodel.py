"""Fourteen choices and seven rules, counted four ways: by hand, by the diagram, by plain search and build by build.

The sum by hand. Flange, bellhousing and width leave (4 - 1) x 2 = 6 ways; deck with its belt 2; jets 2; gasket with its
groove 2; caps 2; studs 2: 6 x 32 = 192. What is left are cooling, head holes, feed and use: jacketed 3 x 5 (open
without or with a feed, closed with one), dry deck 1 x 5, solid 2 x 1: 22. 192 x 22 = 4,224.
"""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest

from configurator.catalogue.names import Reckoner
from configurator.catalogue.rules import FREE
from configurator.load.assemble import assemble
from configurator.load.shop import read_shop
from configurator.rulebook import Rulebook, speak, tabled
from configurator.space import Space, compile_space
from configurator.space.plain import plain_builds
from tests.shops import family_of

FILE = Path(__file__).parent / "data" / "shops" / "submodel" / "shop.toml"
FAMILY = family_of(assemble(read_shop({"shop.toml": FILE.read_bytes()}, {})))
BUILDS = 4_224
PARTS = {
    "cooling": {"jacketed": 2_880, "dry_deck": 960, "solid": 384},
    "use": {"street": 768, "circuit": 768, "drag": 1_152, "endurance": 768, "tow": 768},
}


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return tabled(FAMILY)


@pytest.fixture(scope="module")
def space(book: Rulebook) -> Space:
    return compile_space(book.sizes, book.tables)


def test_the_sum_by_hand_comes_to_the_same() -> None:
    fit, doubled = (2 * 2 - 1) * 2, 2**5
    assert fit * doubled * (3 * 5 + 1 * 5 + 2 * 1) == BUILDS
    assert all(sum(parts.values()) == BUILDS for parts in PARTS.values())


def test_the_diagram_counts_the_builds(space: Space) -> None:
    assert space.count() == (BUILDS, 0)


@pytest.mark.parametrize(("choice", "option"), [(choice, option) for choice in PARTS for option in PARTS[choice]])
def test_the_diagram_counts_the_builds_under_a_pick(book: Rulebook, space: Space, choice: str, option: str) -> None:
    assert space.pick(*book.numbered(choice, option)).count() == (PARTS[choice][option], 0)


def test_the_diagram_lists_the_builds_that_plain_search_finds(book: Rulebook, space: Space) -> None:
    plain = {build for build, _ in plain_builds(book.sizes, book.tables, {})}
    assert len(plain) == BUILDS
    assert set(space.builds()) == plain


def test_asking_every_rule_about_every_build_leaves_the_same_builds(book: Rulebook, space: Space) -> None:
    silent = Reckoner(book.vocabulary, {}, {})  # no rule here speaks of a number
    rules = list(FAMILY.rules.values())
    left = set()
    for build in product(*(range(size) for size in book.sizes)):
        options = {id: book.options[number][build[number]] for number, id in enumerate(book.choices)}
        if all(speak(rule, options, silent).standing == FREE for rule in rules):
            left.add(build)
    assert len(left) == BUILDS
    assert left == set(space.builds())
