"""What would change if one choice changed.

The builds next to a build, each completed, checked, priced and planned anew.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from configurator.appraise import Appraisal, appraise
from configurator.case import Case
from configurator.completing import CLOSED, complete
from configurator.quote import FromTo, TradeOff


def trade_offs(case: Case, picks: Mapping[str, str], here: Appraisal) -> tuple[TradeOff, ...]:
    """Each other option of each want of the build, with what it changes: standing, net, days, tallies and what comes
    with it.

    The enquiry's own picks stay; what nobody asked for is completed anew.
    """
    return tuple(_neighbours(case, picks, here))


def _neighbours(case: Case, picks: Mapping[str, str], here: Appraisal) -> Iterator[TradeOff]:
    space = case.picked()
    for number, choice in enumerate(case.book.choices):
        if case.have(choice):
            continue
        kinds = space.standings_of(number)
        lifted = space.unpick(number)
        for option, kind in enumerate(kinds):
            id = case.book.options[number][option].id
            if kind == CLOSED or id == picks[choice]:
                continue
            there = complete(case, lifted.pick(number, option)).picks
            yield _compared(case, choice, id, picks, there, here)


def _compared(
    case: Case, choice: str, option: str, picks: Mapping[str, str], there: Mapping[str, str], here: Appraisal
) -> TradeOff:
    appraisal = appraise(case, there)
    also = {one: there[one] for one in there if one != choice and there[one] != picks[one]}
    return TradeOff(
        choice=choice,
        option=option,
        standing=appraisal.checked.standing,
        net=appraisal.totals.net,
        difference=appraisal.totals.net - here.totals.net,
        working_days=appraisal.promise.planned,
        days_difference=appraisal.promise.planned - here.promise.planned,
        tallies=appraisal.tallies,
        also=also,
    )


def per_answer(case: Case, choice: str) -> dict[str, Appraisal]:
    """What the build comes to under each answer that an open have can still get."""
    space = case.picked()
    number = case.book.choices.index(choice)
    return {
        case.book.options[number][option].id: appraise(case, complete(case, space.pick(number, option)).picks)
        for option, kind in enumerate(space.standings_of(number))
        if kind != CLOSED
    }


def from_to(answers: Mapping[str, Appraisal]) -> FromTo:
    """The net totals between which an open have leaves the build."""
    nets = [appraisal.totals.net for appraisal in answers.values()]
    return FromTo(min(nets), max(nets))


def makes_a_difference(answers: Mapping[str, Appraisal]) -> bool:
    """Whether the answers differ in price, days, tallies or standing."""
    told = {
        (one.totals.net, one.promise.planned, tuple(one.tallies.items()), one.checked.standing)
        for one in answers.values()
    }
    return len(told) > 1
