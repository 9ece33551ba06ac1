"""Enquiries laid out over small shops, and random shops to lay them out over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from itertools import product
from typing import Any

from hypothesis import strategies as st

from configurator.case import Case, compile_family, lay_out
from configurator.catalogue.names import Reckoner, Vocabulary
from configurator.catalogue.rules import FREE
from configurator.catalogue.shops import Family, Shop
from configurator.enquiry import Enquiry, Pick
from configurator.price import price_list_on
from configurator.rulebook import speak, tabled
from configurator.units import Quantity
from tests.shops import Entry, choice, family_of, price, rule, shop_of

DAY = date(2026, 11, 25)

Picks = Mapping[str, str]
NONE: Picks = {}


def case_of(shop: Shop, picks: Picks = NONE, known: Picks = NONE, **says: Any) -> Case:
    """An enquiry of the shop's one family, laid out; `known` gives the evidence of haves that are not just told."""
    family = family_of(shop)
    prices = price_list_on(family, DAY)
    book = tabled(family)
    enquiry = Enquiry(family.id, {one: _pick(family, one, option, known) for one, option in picks.items()}, **says)
    return lay_out(shop, prices, book, compile_family(shop, prices, book), enquiry)


def _pick(family: Family, choice: str, option: str, known: Mapping[str, str]) -> Pick:
    return Pick(option, known.get(choice, "told") if family.choices[choice].asks == "have" else "")


def all_builds(family: Family, duty: Mapping[str, Quantity] = {}) -> Iterator[tuple[dict[str, str], int]]:
    """Every combination of options with the worst that any rule says of it, by asking each rule in turn."""
    vocabulary = Vocabulary(family)
    for row in product(*(one.options for one in family.choices.values())):
        chosen = dict(zip(family.choices, row, strict=True))
        values = Reckoner(vocabulary, chosen, duty)
        standing = max((speak(one, chosen, values).standing for one in family.rules.values()), default=FREE)
        yield {id: option.id for id, option in chosen.items()}, standing


@st.composite
def shops(draw: st.DrawFn, least: int = 2, most: int = 5) -> Shop:
    """A shop of a few choices with random rules and prices, small enough to try every build."""
    sizes = draw(st.lists(st.integers(1, 4), min_size=least, max_size=most))
    options = {f"c{number}": [f"o{one}" for one in range(size)] for number, size in enumerate(sizes)}
    entries: list[Entry] = [draw(_choices(id, names)) for id, names in options.items()]
    entries += [draw(_rules(number, options)) for number in range(draw(st.integers(0, 5)))]
    entries += [draw(_prices(number, options)) for number in range(draw(st.integers(1, 5)))]
    return shop_of(*entries)


def _choices(id: str, options: list[str]) -> st.SearchStrategy[Entry]:
    want = st.sampled_from(options).map(lambda usual: choice(id, *options, usual=usual))
    have = st.just(choice(id, *options, asks="have"))
    taken = st.sampled_from(options).map(lambda option: choice(id, *options, asks="have", taken_as=option))
    return st.one_of(want, want, have, taken)


@st.composite
def _rules(draw: st.DrawFn, number: int, options: dict[str, list[str]]) -> Entry:
    scope = draw(st.lists(st.sampled_from(sorted(options)), min_size=2, max_size=3, unique=True))
    otherwise = draw(st.sampled_from(["impossible", "impossible", "by_arrangement", "advice"]))
    if draw(st.booleans()):
        conditions = {id: draw(_some(options[id])) for id in scope}
        last = {scope[-1]: conditions.pop(scope[-1])}
        return rule(f"r{number}", when=conditions, then=last, otherwise=otherwise)
    rows = st.tuples(*(st.one_of(st.just("*"), st.sampled_from(options[id])) for id in scope)).map(list)
    free = draw(st.lists(rows, min_size=1, max_size=4))
    signed = draw(st.lists(rows, max_size=2))
    return rule(f"r{number}", columns=scope, rows=free, by_arrangement=signed, otherwise=otherwise)


def _some(options: list[str]) -> st.SearchStrategy[Any]:
    one = st.sampled_from(options)
    several = st.lists(one, min_size=1, max_size=3, unique=True)
    return st.one_of(one, several, several.map(lambda names: {"not": names}))


@st.composite
def _prices(draw: st.DrawFn, number: int, options: dict[str, list[str]]) -> Entry:
    scope = draw(st.lists(st.sampled_from(sorted(options)), max_size=2, unique=True))
    when = {id: draw(st.sampled_from(options[id])) for id in scope}
    amount = draw(st.integers(-50_00, 500_00))
    return price(f"p{number}", f"{amount / 100:.2f}", when=when, per=draw(st.sampled_from(["block", "order"])))


@st.composite
def shops_and_picks(draw: st.DrawFn) -> tuple[Shop, dict[str, str]]:
    """A random shop, and picks for some of its choices."""
    shop = draw(shops())
    choices = family_of(shop).choices
    some = draw(st.lists(st.sampled_from(sorted(choices)), unique=True))
    return shop, {id: draw(st.sampled_from([option.id for option in choices[id].options])) for id in some}
