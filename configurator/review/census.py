"""How large a family's space is, and which of its choices hang together."""

from __future__ import annotations

from configurator.case import Case
from configurator.review.findings import Census


def take_census(case: Case) -> Census:
    """Count the builds of a family, and the largest group of choices that its rules tie together."""
    family = case.family
    free, by_arrangement = case.space.count()
    group = {number: number for number in range(len(case.book.choices))}

    def head(number: int) -> int:
        while group[number] != number:
            number = group[number]
        return number

    tied: set[int] = set()
    for table in case.book.tables:
        if len(table.scope) > 1:
            tied.update(table.scope)
        for number in table.scope[1:]:
            group[head(number)] = head(table.scope[0])
    heads = [head(number) for number in tied]
    component = max((heads.count(one) for one in heads), default=0)
    untied = tuple(choice for number, choice in enumerate(case.book.choices) if number not in tied)
    return Census(
        family.id, family.label, len(case.book.choices), len(family.rules), free, by_arrangement, component, untied
    )
