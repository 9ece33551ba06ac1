"""A family's rules laid out to be tried: its space, its usual build, and its rules with any one of them left out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from configurator.case import Case, option_as_asked
from configurator.catalogue.shops import Family
from configurator.completing import complete
from configurator.desk import Desk, lay
from configurator.enquiry import Enquiry
from configurator.faults import Faulty
from configurator.review.alone import Others
from configurator.review.examples import combination, speaks_of
from configurator.rulebook import Rulebook, as_asked
from configurator.space import BY_ARRANGEMENT, Build, Table


class Bench(NamedTuple):
    """`case` has the listed options, with nothing asked; `book` and `tables` have the values that examples name too.

    `usual` is the build of a caller who asks for nothing; where the rules leave none, the first options. `possible` and
    `free` search with one rule left out, the others being at least possible, or all free.
    """

    family: Family
    case: Case
    book: Rulebook
    tables: Mapping[str, Table]
    usual: Build
    possible: Others
    free: Others


def lay_bench(desk: Desk, family: Family, today: date) -> Bench:
    """Lay out a family's rules at the price list of the day."""
    return bench_of(lay(desk, Enquiry(family.id, {}), today))


def bench_of(case: Case) -> Bench:
    """Lay out the rules of a case in which nothing is asked."""
    book, usual = _with_examples(case), usual_build(case)
    possible = free = Others(book.sizes, book.tables, case.space.order, usual)
    if any(BY_ARRANGEMENT in table.standings for table in book.tables):
        free = Others(book.sizes, book.tables, case.space.order, usual, free_only=True)
    return Bench(case.family, case, book, {table.name: table for table in book.tables}, usual, possible, free)


def usual_build(case: Case) -> Build:
    """The build of a caller who asks for nothing, in numbers; where the rules leave none, the first options."""
    book = case.book
    if not case.space.possible():
        return (0,) * len(book.choices)
    picked = case.picked()
    completed = complete(case, picked if picked.possible() else case.space)
    return tuple([book.numbered(choice, completed.picks[choice])[1] for choice in book.choices])


def _with_examples(case: Case) -> Rulebook:
    """The rulebook with the values of numeric choices that only examples name: rules show on them what they do."""
    book = case.book
    for choice, option in sorted(set(_unlisted(case.family))):
        try:
            book = as_asked(book, choice, [option_as_asked(case.family.choices[choice], option)], {})
        except Faulty:
            continue  # the example says so itself when it is tried
    return book


def _unlisted(family: Family) -> Iterator[tuple[str, str]]:
    for rule in family.rules.values():
        for example in (*rule.passes, *rule.fails):
            if speaks_of(example, family):
                for choice, option in combination(example, family)[0].items():
                    if option not in family.choices[choice].options:
                        yield choice, option.id
