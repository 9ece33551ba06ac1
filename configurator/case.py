"""An enquiry laid out for work.

Its family's rulebook and space, widened by what only this enquiry asks, and the picks that bind.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from configurator.catalogue.choices import Choice, Option
from configurator.catalogue.shops import Family, Shop
from configurator.catalogue.trade import PriceList
from configurator.enquiry import Enquiry
from configurator.price import price_terms
from configurator.rulebook import Rulebook, as_asked, with_duty
from configurator.space import Space, compile_space
from configurator.tallies import fact_tally, tally_of
from configurator.units import read_quantity

PRICE = "price"
"""The space's tally of the net total in minor units, extras left out."""


class Case(NamedTuple):
    """An enquiry on the bench.

    `space` has nothing picked; `bound` are the picks that bind, `taken` those among them that nobody told.
    """

    shop: Shop
    family: Family
    prices: PriceList
    enquiry: Enquiry
    book: Rulebook
    space: Space
    bound: Mapping[str, str]
    taken: tuple[str, ...]

    def numbers(self, picks: Mapping[str, str]) -> dict[int, int]:
        """Picks as the space counts them."""
        return dict(self.book.numbered(choice, option) for choice, option in picks.items())

    def picked(self) -> Space:
        """The space under the picks that bind."""
        return self.space.pick_all(self.numbers(self.bound))

    def have(self, choice: str) -> bool:
        """Whether the choice asks for a fact about what the caller owns."""
        return self.family.choices[choice].asks == "have"


def compile_family(
    shop: Shop, prices: PriceList, book: Rulebook, quantity: int = 1, order: Sequence[int] | None = None
) -> Space:
    """The space of a family under one price list, for a quantity; with a known order the search for one is spared."""
    price = tally_of(book, PRICE, price_terms(prices, shop.terms, quantity))
    sums = [fact_tally(book, tally.id, tally.grain) for tally in book.vocabulary.family.tallies]
    return compile_space(book.sizes, book.tables, [price, *sums], order)


def lay_out(shop: Shop, prices: PriceList, book: Rulebook, space: Space, enquiry: Enquiry) -> Case:
    """Lay an enquiry out over its family's compiled rulebook and space.

    What is asked as no list has it, a duty and a quantity change the tables or the tally: the space is then compiled
    anew, in the order that is known already.
    """
    family = shop.families[enquiry.family]
    told = {choice: pick.option for choice, pick in enquiry.picks.items()}
    taken = {
        choice.id: choice.taken_as
        for choice in family.choices.values()
        if choice.taken_as and choice.id not in told and all(misfit.choice != choice.id for misfit in enquiry.misfits)
    }
    case = Case(shop, family, prices, enquiry, book, space, {**told, **taken}, tuple(taken))
    unlisted = {choice: (option,) for choice, option in told.items() if not _listed(family.choices[choice], option)}
    return widened(case, unlisted)


def _listed(choice: Choice, option: str) -> bool:
    return any(one.id == option for one in choice.options)


def widened(case: Case, unlisted: Mapping[str, Iterable[str]]) -> Case:
    """The case with further values of numeric choices as options, and with the rules that its duty makes judgeable."""
    book = with_duty(case.book, case.enquiry.duty)
    for choice, texts in unlisted.items():
        options = [option_as_asked(case.family.choices[choice], text) for text in texts]
        known = {option.id for option in book.options[book.choices.index(choice)]}
        book = as_asked(book, choice, [one for one in options if one.id not in known], case.enquiry.duty)
    if book == case.book and case.enquiry.quantity == 1:
        return case
    space = compile_family(case.shop, case.prices, book, case.enquiry.quantity, case.space.order)
    return case._replace(book=book, space=space)


def option_as_asked(choice: Choice, text: str) -> Option:
    """A value of a numeric choice that no list has, as an option."""
    assert choice.range is not None
    return Option(text, text, value=read_quantity(text, choice.range.unit))
