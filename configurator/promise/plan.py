"""The planned days of one order: its route laid behind the hours that every work centre has promised already.

Reckoned in fractions, so that work which fills a day exactly does not spill into the next.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from configurator.catalogue.shops import Shop
from configurator.catalogue.trade import Centre, Operation
from configurator.promise.calendar import add_working_days, first_working_day
from configurator.quote import Promise, Span
from configurator.route import Step, behind, hours_of


class Visit(NamedTuple):
    """A step in time, in working days from the start of the clock, and the step that it waited for last ("": none)."""

    step: Step
    start: Fraction
    finish: Fraction
    waited_for: str


def plan(shop: Shop, steps: Sequence[Step], quantity: int, started: date | None = None) -> Promise:
    """When a batch of identical blocks is ready, from its route (`route.route_of`) and the shop's load.

    `planned` counts whole working days from the start of the clock. With `started`, the day on which the conditions of
    the clock are met, `dates` has "start" (rolled forward to a working day) and "planned"; without it there are no
    dates. `bottleneck` is the centre whose queue the last finish goes back to, the one to relieve for an earlier date;
    "" where no queue delays the order.
    """
    visits = _visits(shop.centres, steps, quantity)
    last = max(visits.values(), key=lambda visit: visit.finish, default=None)
    planned = math.ceil(last.finish) if last else 0
    dates = None
    if started is not None:
        start = first_working_day(shop.calendar, started)
        dates = {"start": start, "planned": add_working_days(shop.calendar, start, planned)}
    spans = tuple(sorted((_span(visit) for visit in visits.values()), key=lambda span: (span.start, span.finish)))
    bottleneck = _queued_for(visits, last) if last else ""
    return Promise(shop.terms.clock_starts, planned, None, None, None, dates, spans, bottleneck)


def _visits(centres: Mapping[str, Centre], steps: Sequence[Step], quantity: int) -> dict[str, Visit]:
    """Each step as early as the steps before it and its centre allow.

    A centre takes the operations of this order one at a time, in the order of the route, whichever is ready first: only
    a fixed order makes sure that more work or a longer queue never brings a date forward. Where whatever is ready goes
    first, it may (R. L. Graham, "Bounds on multiprocessing timing anomalies", 1969).
    """
    free = {id: (_queue(centre), "") for id, centre in centres.items()}
    visits: dict[str, Visit] = {}
    for step in steps:
        waits = [(visits[before].finish, before) for before in behind(step)]
        if isinstance(step, Operation):
            waits.append(free[step.centre])
            days = Fraction(hours_of(step, quantity)) / _daily_hours(centres[step.centre])
        else:
            days = Fraction(step.working_days)
        start, waited_for = max(waits, key=lambda wait: wait[0], default=(Fraction(0), ""))
        visits[step.id] = Visit(step, start, start + days, waited_for)
        if isinstance(step, Operation):
            free[step.centre] = (start + days, step.id)
    return visits


def _daily_hours(centre: Centre) -> Fraction:
    """The hours that one machine of the centre really works on a working day."""
    return Fraction(centre.hours_a_day) * Fraction(centre.efficiency)


def _queue(centre: Centre) -> Fraction:
    """The working days until all machines of the centre have worked off what is promised already."""
    return Fraction(centre.committed_hours) / (centre.machines * _daily_hours(centre))


def _queued_for(visits: Mapping[str, Visit], visit: Visit) -> str:
    """The centre whose queue a visit goes back to: what waits for no step, yet does not start at once, is queued."""
    while visit.waited_for:
        visit = visits[visit.waited_for]
    return visit.step.centre if isinstance(visit.step, Operation) and visit.start > 0 else ""


def _span(visit: Visit) -> Span:
    step = visit.step
    centre = step.centre if isinstance(step, Operation) else ""
    return Span(step.id, step.label, centre, _days(visit.start), _days(visit.finish))


def _days(days: Fraction) -> Decimal:
    """A time to the hundredth of a day, a few minutes, for showing."""
    return Decimal(round(days * 100)).scaleb(-2)
