"""Working days: counted on the shop's week, less its named holidays."""

from __future__ import annotations

from datetime import date, timedelta

from configurator.catalogue.trade import Calendar
from configurator.faults import Fault, Faulty

ONE_DAY = timedelta(days=1)


def is_working(calendar: Calendar, day: date) -> bool:
    """Whether the shop works on this day."""
    return day.weekday() in calendar.week and day not in calendar.holidays


def first_working_day(calendar: Calendar, day: date) -> date:
    """The day itself if the shop works on it, else the next day on which it does. Faulty where there is none."""
    while not is_working(calendar, day):
        day = _next(calendar, day)
    return day


def add_working_days(calendar: Calendar, day: date, days: int) -> date:
    """The day that lies so many working days after the first working day on or after `day`. Faulty past the year 9999."""
    day = first_working_day(calendar, day)
    for _ in range(days):
        day = first_working_day(calendar, _next(calendar, day))
    return day


def _next(calendar: Calendar, day: date) -> date:
    if day == date.max:
        wrong = f"no working day is left up to {day.isoformat()}"
        raise Faulty([Fault(calendar.place, calendar.id, wrong, "look at the week, and at the hours that are committed")])
    return day + ONE_DAY
