"""Desks over small shops, and what all builds tried in turn say of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

from hypothesis import strategies as st

from configurator.catalogue.shops import Family
from configurator.desk import Desk, open_files
from configurator.review.bench import Bench, lay_bench
from configurator.review.effect import Effect, FamilyEffect, effect
from tests.cases import all_builds
from tests.shops import Entry, choice, family_of, price, rule, text_of

DAY = date(2026, 11, 25)

Picks = tuple[tuple[str, str], ...]
"""A build that can be put in a set."""


def desk_of(*entries: Entry) -> Desk:
    """A desk over a shop in one file; it asks a price, as a shop must."""
    return open_files({"shop.toml": text_of(*entries, price("block", "100.00")).encode()}, {})


def family_at(desk: Desk) -> Family:
    return family_of(desk.shop)


def bench_at(desk: Desk) -> Bench:
    return lay_bench(desk, family_at(desk), DAY)


def effect_of(old: Desk, new: Desk) -> Effect:
    return effect(old, new, DAY)


def on_the_family(old: Desk, new: Desk) -> FamilyEffect:
    (found,) = effect_of(old, new).families
    return found


def standings(family: Family) -> dict[Picks, int]:
    """Every build with its standing, by asking each rule."""
    return {tuple(picks.items()): standing for picks, standing in all_builds(family)}


def without(family: Family, id: str) -> Family:
    return family._replace(rules={one: rule for one, rule in family.rules.items() if one != id})


# Random models of up to five choices and fourteen options.


@st.composite
def choices(draw: st.DrawFn, least: int = 2) -> dict[str, list[str]]:
    sizes = draw(st.lists(st.integers(1, 4), min_size=least, max_size=5).filter(lambda sizes: sum(sizes) <= 14))
    return {f"c{number}": [f"o{one}" for one in range(size)] for number, size in enumerate(sizes)}


@st.composite
def rules(draw: st.DrawFn, id: str, options: dict[str, list[str]]) -> Entry:
    """An implication or a table over two or three choices; most forbid, some put by arrangement."""
    scope = draw(st.lists(st.sampled_from(sorted(options)), min_size=2, max_size=3, unique=True))
    otherwise = draw(st.sampled_from(["impossible", "impossible", "by_arrangement"]))
    if draw(st.booleans()):
        conditions = {one: draw(st.sampled_from(options[one])) for one in scope}
        last = {scope[-1]: conditions.pop(scope[-1])}
        return rule(id, when=conditions, then=last, otherwise=otherwise)
    cell = st.one_of(st.just("*"), st.sampled_from(sorted({one for some in options.values() for one in some})))
    rows = draw(st.lists(st.tuples(*(cell.filter(fitting(options[one])) for one in scope)), min_size=1, max_size=4))
    return rule(id, columns=scope, rows=[list(row) for row in rows], otherwise=otherwise)


def fitting(options: list[str]) -> Callable[[str], bool]:
    return lambda cell: cell == "*" or cell in options


@st.composite
def models(draw: st.DrawFn) -> list[Entry]:
    """The entries of a shop."""
    options = draw(choices())
    some = [draw(rules(f"r{number}", options)) for number in range(draw(st.integers(0, 6)))]
    return [*(choice(id, *ids, usual=draw(st.sampled_from(ids))) for id, ids in options.items()), *some]


@st.composite
def edits(draw: st.DrawFn) -> tuple[list[Entry], list[Entry]]:
    """A shop's entries before and after an edit of its rules, its options and its choices."""
    options = draw(choices(least=3))
    known = [draw(rules(f"r{number}", options)) for number in range(draw(st.integers(0, 6)))]
    return _side(draw, options, known), _side(draw, options, known)


def _side(draw: st.DrawFn, options: dict[str, list[str]], known: list[Entry]) -> list[Entry]:
    dropped = draw(st.sampled_from(["", "", *sorted(options)[1:]]))
    shorter = draw(st.sampled_from(["", "", *sorted(options)]))
    kept = {id: ids[:-1] if id == shorter and len(ids) > 1 else ids for id, ids in options.items() if id != dropped}
    return [*(choice(id, *ids) for id, ids in kept.items()), *_fitting_rules(draw, known, kept)]


def _fitting_rules(draw: st.DrawFn, known: list[Entry], kept: dict[str, list[str]]) -> Iterator[Entry]:
    """Some of the rules that the options at hand can speak."""
    for kind, says in known:
        spoken = {**says.get("when", {}), **says.get("then", {})}
        listed = {(column, row[place]) for place, column in enumerate(says.get("columns", ())) for row in says["rows"]}
        pairs = {*spoken.items(), *((column, cell) for column, cell in listed if cell != "*")}
        at_hand = all(option in kept.get(one, ()) for one, option in pairs)
        if at_hand and all(one in kept for one in says.get("columns", ())) and draw(st.integers(0, 3)):
            yield kind, says
