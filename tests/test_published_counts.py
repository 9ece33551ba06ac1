"""Problems with published counts, told in the rule language and counted by the diagram.

Each goes the whole way, TOML text -> shop -> tables -> space, and together they use every form of rule: implications,
formulas, tables, limits over figures. Where a count is small it is also found by plain search.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product
from typing import Any

import pytest

from configurator.rulebook import Rulebook, tabled
from configurator.space import Space, compile_space
from configurator.space.plain import plain_builds
from tests.shops import Entry, choice, fact, family_of, figure, number, rule, shop_of, space_of

UNIT = "teeth"  # a counting unit: the puzzles count plain things


def counted(*entries: Entry) -> int:
    """The number of builds; none of the puzzles knows anything by arrangement."""
    free, by_arrangement = space_of(shop_of(*entries)).count()
    assert by_arrangement == 0
    return free


def booked(*entries: Entry) -> tuple[Rulebook, Space]:
    book = tabled(family_of(shop_of(*entries)))
    return book, compile_space(book.sizes, book.tables)


def differ(one: str, other: str) -> Entry:
    """Two numbers are not the same; the language has no `==`, so their distance is asked for."""
    return rule(f"{one}_is_not_{other}", **{"if": f"abs({one} - {other}) <= 0", "then": "impossible"})


# Queens on a board, no two in one row or on one diagonal: OEIS A000170.


def queens(side: int) -> Iterator[Entry]:
    for column in range(side):
        yield number(f"queen_{column}", range(1, side + 1), UNIT)
    for left, right in combinations(range(side), 2):
        apart = f"abs(queen_{left} - queen_{right})"
        attacked = f"{apart} <= 0 or abs({apart} - {right - left}) <= 0"
        yield rule(f"attack_{left}_{right}", **{"if": attacked, "then": "impossible"})


@pytest.mark.parametrize(("side", "ways"), [(4, 2), (5, 10), (6, 4), (8, 92)])
def test_queens_stand_as_often_as_published(side: int, ways: int) -> None:
    assert counted(*queens(side)) == ways


# The map of Australia, with Tasmania alone. The nine borders are those of Russell and Norvig, Artificial Intelligence:
# A Modern Approach; the counts are recalled from there and confirmed by enumeration.

BORDERS = ("sa wa", "sa nt", "sa q", "sa nsw", "sa v", "wa nt", "nt q", "q nsw", "nsw v")


def australia(colours: int) -> Iterator[Entry]:
    shades = ("red", "green", "blue", "white")[:colours]
    for region in ("wa", "nt", "sa", "q", "nsw", "v", "t"):
        yield choice(region, *shades)
    for border in BORDERS:
        one, other = border.split()
        rows = [[shade, [unlike for unlike in shades if unlike != shade]] for shade in shades]
        yield rule(f"{one}_meets_{other}", columns=[one, other], rows=rows)


@pytest.mark.parametrize(("colours", "ways"), [(2, 0), (3, 18), (4, 768)])
def test_the_map_of_australia_is_coloured_as_often_as_published(colours: int, ways: int) -> None:
    assert counted(*australia(colours)) == ways


# Latin squares of order 4: OEIS A002860.


def latin_square(side: int) -> Iterator[Entry]:
    letters = [f"letter_{letter}" for letter in "abcdefgh"[:side]]
    cells = list(product(range(side), repeat=2))
    for row, column in cells:
        yield choice(f"cell_{row}{column}", *letters)
    for (row, column), (r, c) in combinations(cells, 2):
        if row == r or column == c:
            for letter in letters:
                when, then = {f"cell_{row}{column}": letter}, {f"cell_{r}{c}": {"not": [letter]}}
                yield rule(f"once_{row}{column}_{r}{c}_{letter}", when=when, then=then)


def test_latin_squares_of_order_four_are_as_many_as_published() -> None:
    assert counted(*latin_square(3)) == 12
    assert counted(*latin_square(4)) == 576


# The magic square of order 3 is unique up to its eight turnings and mirrorings (the Lo Shu; common knowledge).


def magic_square() -> Iterator[Entry]:
    cells = [f"cell_{row}{column}" for row, column in product(range(3), repeat=2)]
    lines = [cells[0:3], cells[3:6], cells[6:9], cells[0::3], cells[1::3], cells[2::3], cells[0::4], cells[2:7:2]]
    for cell in cells:
        yield number(cell, range(1, 10), UNIT)
    for one, other in combinations(cells, 2):
        yield differ(one, other)
    for place, line in enumerate(lines):
        yield figure(f"line_{place}", " + ".join(line))
        yield rule(f"line_{place}_is_fifteen", figure=f"line_{place}", free=f"15 {UNIT} to 15 {UNIT}")


def test_the_magic_square_of_order_three_has_its_eight_forms() -> None:
    assert counted(*magic_square()) == 8


# SEND + MORE = MONEY (H. E. Dudeney, Strand Magazine, July 1924; recalled): one solution, MONEY = 10652.

SEND_MORE_MONEY = (
    ("ones", "d + e - y - 10 * carry_1"),
    ("tens", "carry_1 + n + r - e - 10 * carry_2"),
    ("hundreds", "carry_2 + e + o - n - 10 * carry_3"),
    ("thousands", "carry_3 + s + m - o - 10 * m"),
)


def send_more_money() -> Iterator[Entry]:
    for letter in "sendmory":
        yield number(letter, range(1 if letter in "sm" else 0, 10), UNIT)
    for carry in ("carry_1", "carry_2", "carry_3"):
        yield number(carry, range(2), UNIT)
    for one, other in combinations("sendmory", 2):
        yield differ(one, other)
    for place, formula in SEND_MORE_MONEY:
        yield figure(place, formula)
        yield rule(f"{place}_add_up", figure=place, free=f"0 {UNIT} to 0 {UNIT}")


def test_send_and_more_make_money_in_one_way() -> None:
    book, space = booked(*send_more_money())
    (build,) = space.builds()
    digits = {letter: option.split()[0] for letter, option in book.picks(build).items()}
    assert "".join(digits[letter] for letter in "money") == "10652"


# The mobile phone of Benavides, Segura and Ruiz-Cortes, Information Systems 35 (2010), figure 1: 14 products
# (recalled). The parts of the fourteen were enumerated by hand.


def phone() -> Iterator[Entry]:
    yield choice("calls", "yes")
    yield choice("screen", "basic", "colour", "high")
    for feature in ("gps", "media", "camera", "mp3"):
        yield choice(feature, "no", "yes")
    yield rule("camera_is_media", when={"camera": "yes"}, then={"media": "yes"})
    yield rule("mp3_is_media", when={"mp3": "yes"}, then={"media": "yes"})
    yield rule("media_is_one_of_them", when={"media": "yes", "camera": "no", "mp3": "no"}, then="impossible")
    yield rule("camera_wants_a_high_screen", when={"camera": "yes"}, then={"screen": "high"})
    yield rule("gps_excludes_basic", when={"gps": "yes", "screen": "basic"}, then="impossible")


def test_the_phone_has_its_fourteen_products() -> None:
    book, space = booked(*phone())
    assert space.count() == (14, 0)
    parts = {"calls=yes": 14, "gps=yes": 6, "screen=basic": 2, "screen=colour": 4, "screen=high": 8, "media=yes": 9}
    parts |= {"camera=yes": 4, "mp3=yes": 7}
    for pick, builds in parts.items():
        assert space.pick(*book.numbered(*pick.split("="))).count() == (builds, 0), pick


def test_asking_for_gps_closes_the_basic_screen_of_the_phone() -> None:
    book, space = booked(*phone())
    screen, basic = book.numbered("screen", "basic")
    assert space.pick(*book.numbered("gps", "yes")).standing_of(screen, basic) == 2
    assert space.standing_of(screen, basic) == 0


# Five options at 500, 500, 800, 500 and 2,600 for a budget of 3,000: the example of U. Junker, "QuickXplain", AAAI
# 2004 (the budget is printed in its sequel of 2007). Its four conflicts and two relaxations follow by enumeration.
# Money is no unit of a formula, so the costs are told as grams.

COSTS = {"one": 500, "two": 500, "three": 800, "four": 500, "five": 2_600}


def five_options() -> Iterator[Entry]:
    for name, cost in COSTS.items():
        without: dict[str, Any] = {"id": "no", "facts": {f"cost_{name}": fact("0 g")}}
        with_it: dict[str, Any] = {"id": "yes", "facts": {f"cost_{name}": fact(f"{cost} g")}}
        yield choice(name, without, with_it)
    yield figure("cost", " + ".join(f"cost_{name}" for name in COSTS))
    yield rule("budget", figure="cost", free="<= 3000 g")


def test_the_five_options_together_cost_what_was_published() -> None:
    assert sum(COSTS.values()) == 4_900


def test_the_five_options_conflict_in_the_four_ways_that_follow() -> None:
    book, space = booked(*five_options())
    picked = space.pick_all(dict(book.numbered(name, "yes") for name in COSTS))
    found = picked.conflicts()
    assert found.exact
    conflicts = {frozenset(book.choices[number] for number in conflict) for conflict in found}
    assert conflicts == {frozenset((cheap, "five")) for cheap in ("one", "two", "three", "four")}


def test_the_five_options_have_the_two_relaxations_that_follow() -> None:
    book, space = booked(*five_options())
    picked = space.pick_all(dict(book.numbered(name, "yes") for name in COSTS))
    found = picked.give_ups()
    assert found.exact
    kept = {frozenset(COSTS) - {book.choices[number] for number in given_up} for given_up in found}
    assert kept == {frozenset(("one", "two", "three", "four")), frozenset(("five",))}


# Five pigeons do not go into four holes, one to each; four go in 4! ways.


def pigeons(birds: int, holes: int) -> Iterator[Entry]:
    names = [f"hole_{hole}" for hole in range(holes)]
    for bird in range(birds):
        yield choice(f"bird_{bird}", *names)
    for (one, other), hole in product(combinations(range(birds), 2), names):
        alone = {f"bird_{one}": hole, f"bird_{other}": hole}
        yield rule(f"alone_{one}_{other}_{hole}", when=alone, then="impossible")


def test_five_pigeons_do_not_go_into_four_holes() -> None:
    assert counted(*pigeons(4, 4)) == 24
    assert counted(*pigeons(5, 4)) == 0


SMALL = {"queens": queens(5), "australia": australia(3), "phone": phone(), "pigeons": pigeons(4, 4)}


@pytest.mark.parametrize("puzzle", SMALL)
def test_plain_search_finds_the_same_builds(puzzle: str) -> None:
    book, space = booked(*SMALL[puzzle])
    assert {build for build, _ in plain_builds(book.sizes, book.tables, {})} == set(space.builds())
