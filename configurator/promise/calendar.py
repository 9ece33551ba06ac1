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
    """So many working days after `day`, or after the next working day where it is none. Faulty past the year 9999."""
    day = first_working_day(calendar, day)
    for _ in range(days):
        day = first_working_day(calendar, _next(calendar, day))
    return day


def _next(calendar: Calendar, day: date) -> date:
    if day == date.max:
        wrong = f"no working day is left up to {day.isoformat()}"
        way_out = "look at the days of its week, and at the hours that the centres have committed"
        raise Faulty([Fault(calendar.place, calendar.id, wrong, way_out)])
    return day + ONE_DAY
