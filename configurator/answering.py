"""A case -> its answer: possible or not, what is open, why not, what would help, what it costs and when."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from configurator.answer import Answer, Conflict, Freer, PriceRange, Standing, WayOut
from configurator.appraise import appraise, priced
from configurator.case import PRICE, Case
from configurator.checks import Checked
from configurator.completing import CLOSED, Completed, build_of, complete
from configurator.space import Space
from configurator.ways_out import conflicts_of, ways_out

KINDS = ("free", "by_arrangement", "closed")


def answer_case(case: Case) -> Answer:
    """The whole answer to an enquiry that is laid out. NotKnown past the cap of size or time."""
    picked = case.picked()
    if picked.possible() and not case.enquiry.misfits:
        return _yes(case, picked)
    return _no(case, picked)


def _yes(case: Case, picked: Space) -> Answer:
    completed = complete(case, picked)
    appraisal = appraise(case, completed.picks)
    free, by_arrangement = picked.count()
    choices = _choices(case, picked)
    assumed = {choice: completed.picks[choice] for choice in sorted((*case.taken, *completed.assumed))}
    return Answer(
        enquiry=case.enquiry,
        verdict="free" if picked.any_free() else "by_arrangement",
        not_checked=appraisal.checked.not_checked,
        counted="exact",
        free=free,
        by_arrangement=by_arrangement,
        choices=choices,
        build=build_of(case, completed, appraisal.checked.standing),
        assumed=assumed,
        freer=_freer(case, picked, completed, appraisal.checked, appraisal.totals.net),
        still_to_settle=_still_to_settle(case, choices, completed.picks),
        misfits=(),
        conflicts=(),
        ways_out=(),
        sign_offs=appraisal.checked.sign_offs,
        advice=appraisal.checked.advice,
        checks=appraisal.checked.checks,
        price=_range(case, picked),
        net=appraisal.totals.net,
        working_days=appraisal.promise.planned,
        currency=case.prices.currency,
    )


def _no(case: Case, picked: Space) -> Answer:
    conflicts: tuple[Conflict, ...] = ()
    ways: tuple[WayOut, ...] = ()
    after: Space | None = picked
    before = case
    if not picked.possible():
        conflicts = conflicts_of(case, picked)
        case, ways, after = ways_out(case, picked)
    free, by_arrangement = picked.count()
    choices = _choices(before, picked)
    if after is not None:
        in_conflict = {choice for conflict in conflicts for choice in conflict.between}
        later = _choices(case, after)
        choices = {id: choices[id] if id in in_conflict else later[id] for id in choices}
    return Answer(
        enquiry=case.enquiry,
        verdict="impossible",
        not_checked=(),
        counted="exact",
        free=0 if case.enquiry.misfits else free,
        by_arrangement=0 if case.enquiry.misfits else by_arrangement,
        choices=choices,
        build=None,
        assumed={choice: case.bound[choice] for choice in case.taken},
        freer=None,
        still_to_settle=_still_to_settle(case, choices, {}),
        misfits=case.enquiry.misfits,
        conflicts=conflicts,
        ways_out=ways,
        sign_offs=(),
        advice=(),
        checks=(),
        price=None,
        net=None,
        working_days=None,
        currency=case.prices.currency,
    )


def _choices(case: Case, space: Space) -> dict[str, Standing]:
    """How every choice stands.

    The values of a numeric choice that only this enquiry asks for stand behind the listed ones.
    """
    choices = {}
    for number, kinds in enumerate(space.standings()):
        id, options = case.book.choices[number], case.book.options[number]
        left = [option for option, kind in enumerate(kinds) if kind != CLOSED]
        pick = space.picks.get(number)
        choices[id] = Standing(
            picked="" if pick is None else options[pick].id,
            settled=options[left[0]].id if len(left) == 1 else "",
            options={option.id: KINDS[kind] for option, kind in zip(options, kinds, strict=True)},
        )
    return choices


def _freer(case: Case, picked: Space, completed: Completed, checked: Checked, net: Decimal) -> Freer | None:
    """What to settle otherwise for a build that needs no sign-off, where the picks allow one."""
    if checked.standing == "free" or not picked.any_free():
        return None
    better = complete(case, picked, free_only=True)
    change = {
        choice: option
        for choice, option in better.picks.items()
        if choice in completed.assumed and option != completed.picks[choice]
    }
    cost = priced(case, better.picks).net
    return Freer(change, cost, cost - net)


def _range(case: Case, picked: Space) -> PriceRange:
    """The nets of the cheapest and the dearest build left; both as `price` has them."""
    ends = []
    for found in (picked.cheapest(PRICE), picked.dearest(PRICE)):
        assert found is not None
        ends.append(priced(case, case.book.picks(found[1])))
    return PriceRange(ends[0].net, ends[1].net, ends[0].currency)


def _still_to_settle(case: Case, choices: Mapping[str, Standing], picks: Mapping[str, str]) -> tuple[str, ...]:
    """Open haves, then facts that picked options ask for, then open wants."""
    open_choices = [id for id, standing in choices.items() if not standing.picked and not standing.settled]
    haves = [id for id in open_choices if case.have(id)]
    wants = [id for id in open_choices if not case.have(id)]
    return (*haves, *asked_for(case, picks), *wants)


def asked_for(case: Case, picks: Mapping[str, str]) -> tuple[str, ...]:
    """Facts that options of a build ask for and that the enquiry does not state."""
    options = case.book.chosen(picks).values()
    return tuple(sorted({fact for option in options for fact in option.asks_for if fact not in case.enquiry.duty}))
