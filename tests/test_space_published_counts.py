"""Counts that others have published, at the level of tables."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations, product

import pytest

from configurator.space import Space, Table, compile_space
from configurator.space.plain import plain_builds


def table(name: str, scope: Sequence[int], sizes: Sequence[int], allows: Callable[..., bool]) -> Table:
    rows = product(*[range(sizes[choice]) for choice in scope])
    return Table(name, tuple(scope), bytes(0 if allows(*row) else 2 for row in rows))


def unlike(pairs: Sequence[tuple[int, int]], sizes: Sequence[int]) -> list[Table]:
    return [table(f"{one}_unlike_{other}", (one, other), sizes, lambda a, b: a != b) for one, other in pairs]


def builds_of(sizes: Sequence[int], tables: Sequence[Table]) -> int:
    """How many builds the diagram counts; the plain search must list as many."""
    free, by_arrangement = compile_space(sizes, tables).count()
    assert by_arrangement == 0
    assert sum(1 for _ in plain_builds(sizes, tables)) == free
    return free


@pytest.mark.parametrize(("side", "ways"), [(4, 2), (5, 10), (6, 4), (8, 92)])
def test_queens_that_do_not_attack_each_other(side: int, ways: int) -> None:
    # OEIS A000170
    sizes = [side] * side
    tables = [
        table(
            f"{left}_{right}",
            (left, right),
            sizes,
            lambda a, b, apart=right - left: a != b and abs(a - b) != apart,
        )
        for left, right in combinations(range(side), 2)
    ]
    assert builds_of(sizes, tables) == ways


@pytest.mark.parametrize(("colours", "ways"), [(2, 0), (3, 18), (4, 768)])
def test_colourings_of_the_map_of_australia(colours: int, ways: int) -> None:
    # Russell and Norvig, Artificial Intelligence: A Modern Approach, chapter on constraint satisfaction: the map and
    # its nine borders, with 18 colourings in 3 colours (six for the mainland, three for Tasmania). From memory; the
    # counts also follow from the map's chromatic polynomial, k x k (k - 1) (k - 2)^4.
    west, north, south, queensland, new_south, victoria = range(6)
    borders = [
        (west, north),
        (west, south),
        (north, south),
        (north, queensland),
        (south, queensland),
        (south, new_south),
        (south, victoria),
        (queensland, new_south),
        (new_south, victoria),
    ]
    sizes = [colours] * 7
    assert colours * colours * (colours - 1) * (colours - 2) ** 4 == ways
    assert builds_of(sizes, unlike(borders, sizes)) == ways


def test_latin_squares_of_order_four() -> None:
    # OEIS A002860
    cells = [(row, column) for row in range(4) for column in range(4)]
    pairs = [
        (one, other)
        for one, other in combinations(range(16), 2)
        if cells[one][0] == cells[other][0] or cells[one][1] == cells[other][1]
    ]
    sizes = [4] * 16
    assert builds_of(sizes, unlike(pairs, sizes)) == 576


def pigeons(birds: int, holes: int) -> Space:
    sizes = [holes] * birds
    return compile_space(sizes, unlike(list(combinations(range(birds), 2)), sizes))


def test_five_pigeons_do_not_fit_four_holes_and_every_pair_is_to_blame() -> None:
    # The pigeonhole principle; leaving any one pair out lets two birds share, so all ten pairs are needed.
    space = pigeons(5, 4)
    assert space.count() == (0, 0)
    assert list(space.give_ups()) == []
    assert list(space.conflicts()) == [frozenset()]
    assert len(space.rules_behind({})) == 10
    assert pigeons(4, 4).count() == (24, 0)


CALLS, GPS, SCREEN, MEDIA, CAMERA, MP3 = range(6)
BASIC, COLOUR, HIGH = range(3)
PHONE_SIZES = [2, 2, 3, 2, 2, 2]


def phone() -> list[Table]:
    return [
        table("calls_always", (CALLS,), PHONE_SIZES, lambda calls: calls == 1),
        table("media_is_camera_or_mp3", (MEDIA, CAMERA, MP3), PHONE_SIZES, lambda m, c, p: m == (c or p)),
        table("camera_requires_high", (SCREEN, CAMERA), PHONE_SIZES, lambda screen, c: not c or screen == HIGH),
        table("gps_excludes_basic", (GPS, SCREEN), PHONE_SIZES, lambda gps, screen: not gps or screen != BASIC),
    ]


def test_the_mobile_phone_model_has_fourteen_products() -> None:
    # Benavides, Segura, Ruiz-Cortes, "Automated analysis of feature models 20 years later", Information Systems 35 (6),
    # 2010: the phone model of figure 1 and its 14 products. The model is drawn from memory; the counts by option were
    # enumerated by hand from it.
    assert builds_of(PHONE_SIZES, phone()) == 14
    space = compile_space(PHONE_SIZES, phone())
    having = {"gps": (GPS, 1), "basic": (SCREEN, BASIC), "high": (SCREEN, HIGH), "media": (MEDIA, 1), "mp3": (MP3, 1)}
    counts = {name: space.pick(choice, option).count()[0] for name, (choice, option) in having.items()}
    assert counts == {"gps": 6, "basic": 2, "high": 8, "media": 9, "mp3": 7}


def test_a_camera_leaves_only_the_high_screen() -> None:
    # The same model: a camera forces the high screen and media.
    standings = compile_space(PHONE_SIZES, phone()).pick(CAMERA, 1).standings()
    assert standings[SCREEN] == bytes([2, 2, 0])
    assert standings[MEDIA] == bytes([2, 0])


def test_the_phone_without_a_screen_for_its_gps_is_explained_by_all_four_rules() -> None:
    # The same paper explains a dead GPS; here by the choice of the screen and the three exclusions.
    exclusions = [
        table(f"gps_excludes_{name}", (GPS, SCREEN), PHONE_SIZES, lambda gps, screen, out=out: not gps or screen != out)
        for name, out in (("colour", COLOUR), ("high", HIGH))
    ]
    space = compile_space(PHONE_SIZES, [*phone(), *exclusions])
    assert space.count() == (8, 0)
    assert space.standings()[GPS] == bytes([0, 2])
    assert space.rules_behind({GPS: 1}) == ("gps_excludes_basic", "gps_excludes_colour", "gps_excludes_high")
