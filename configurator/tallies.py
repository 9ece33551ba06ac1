"""What adds up over a build, turned into what the space sums.

The prices that apply, and facts of options such as mass.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from itertools import product
from math import prod

from configurator.catalogue.conditions import When
from configurator.catalogue.names import Reckoner
from configurator.rulebook import Rulebook, all_hold
from configurator.space import Tally, Term


def tally_of(book: Rulebook, id: str, terms: Iterable[tuple[When, int]]) -> Tally:
    """Integer amounts that apply under conditions on choices, summed as the space sums them."""
    by_scope: dict[tuple[int, ...], list[int]] = {}
    for when, amount in terms:
        scope = tuple(sorted({book.choices.index(condition.name) for condition in when}))
        ids = [book.choices[number] for number in scope]
        sums = by_scope.setdefault(scope, [0] * prod(len(book.options[number]) for number in scope))
        for rank, row in enumerate(product(*(book.options[number] for number in scope))):
            chosen = dict(zip(ids, row, strict=True))
            if all_hold(when, chosen, Reckoner(book.vocabulary, chosen, {})):
                sums[rank] += amount
    return Tally(id, tuple(Term(scope, tuple(sums)) for scope, sums in sorted(by_scope.items())))


def fact_tally(book: Rulebook, fact: str, grain: Decimal) -> Tally:
    """The sum of the picked options' facts of one name, in whole grains of its SI unit.

    An option without it adds nothing.
    """
    terms = []
    for number, options in enumerate(book.options):
        if any(fact in option.facts for option in options):
            amounts = (option.facts[fact].value.value if fact in option.facts else Decimal(0) for option in options)
            terms.append(Term((number,), tuple(int((amount / grain).to_integral_value()) for amount in amounts)))
    return Tally(fact, tuple(terms))
