"""When a build is ready: working days, the critical path, the queues of the work centres."""

from __future__ import annotations

import calendar as weekdays
import math
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import holidays
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.catalogue.shops import Shop
from configurator.catalogue.trade import Calendar, Centre, Material, Operation, Outside, Tax, Terms
from configurator.faults import Faulty, Place
from configurator.promise import plan
from configurator.promise.calendar import add_working_days, first_working_day, is_working
from configurator.quote import Promise
from configurator.route import Step, behind

MONDAY_TO_FRIDAY = Calendar("plain", "Monday to Friday", (0, 1, 2, 3, 4), {})
FEDERAL = MONDAY_TO_FRIDAY._replace(holidays=dict(holidays.country_holidays("US", years=2026)))


def works(*centres: Centre, calendar: Calendar = MONDAY_TO_FRIDAY) -> Shop:
    """A shop that has nothing but centres and a calendar."""
    terms = Terms(30, Decimal("0.5"), "half_up", "total", Tax("VAT", Decimal("0.20")), (), (), ("deposit cleared",))
    by_id = {centre.id: centre for centre in centres}
    return Shop("tarnwick", "Tarnwick", True, "GBP", "UTC", terms, {}, by_id, calendar, frozenset(), {})


def centre(id: str, committed: str = "0", machines: int = 1, hours: str = "8", efficiency: str = "1") -> Centre:
    return Centre(id, id, machines, Decimal(hours), Decimal(efficiency), Decimal(committed))


def work(id: str, at: str, hours: str, *after: str, set_up: str = "0") -> Operation:
    return Operation(id, id, at, Decimal(set_up), Decimal(hours), (), after)


# Working days


def test_the_first_working_day_of_october_2011_is_a_monday() -> None:
    """The example of numpy's own page on busday_offset: the 1st is a Saturday, so the 3rd."""
    assert first_working_day(MONDAY_TO_FRIDAY, date(2011, 10, 1)) == date(2011, 10, 3)


def test_the_second_sunday_of_may_2012_is_mothers_day() -> None:
    """The example of numpy's own page on busday_offset, in a week that has one working day."""
    sundays = MONDAY_TO_FRIDAY._replace(week=(6,))
    assert add_working_days(sundays, date(2012, 5, 1), 1) == date(2012, 5, 13)


def test_the_year_2011_has_two_hundred_and_sixty_weekdays() -> None:
    """The example of numpy's own page on busday_count: the 260th day after the first is the first of 2012."""
    assert add_working_days(MONDAY_TO_FRIDAY, date(2011, 1, 1), 260) == date(2012, 1, 2)
    assert np.busday_count("2011", "2012") == 260


def test_fifteen_working_days_from_friday_26_june_2026_end_on_20_july() -> None:
    """4 July 2026 is a Saturday: the federal holiday is kept on Friday the 3rd (5 U.S.C. 6103). Without it, 17 July."""
    assert date(2026, 7, 3) in FEDERAL.holidays
    assert add_working_days(FEDERAL, date(2026, 6, 26), 15) == date(2026, 7, 20)
    assert add_working_days(MONDAY_TO_FRIDAY, date(2026, 6, 26), 15) == date(2026, 7, 17)


def test_the_day_itself_is_a_working_day_or_the_next_is_taken() -> None:
    assert is_working(FEDERAL, date(2026, 7, 2))
    assert not is_working(FEDERAL, date(2026, 7, 3))
    assert add_working_days(FEDERAL, date(2026, 7, 3), 0) == date(2026, 7, 6)


def test_a_shop_that_never_works_is_a_fault_and_no_endless_search() -> None:
    never = MONDAY_TO_FRIDAY._replace(week=(), place=Place("works.toml", 3))
    with pytest.raises(Faulty, match=r"works\.toml:3: plain: no working day is left"):
        first_working_day(never, date(9999, 1, 1))


DAYS = st.dates(date(2020, 1, 1), date(2030, 12, 31))
CALENDARS = st.builds(
    lambda week, free: Calendar("any", "Any", tuple(sorted(week)), dict.fromkeys(free, "Free")),
    st.sets(st.integers(0, 6), min_size=1),
    st.sets(DAYS, max_size=12) | st.dates(date(2026, 1, 1), date(2026, 2, 1)).map(lambda day: {day}),
)


@given(CALENDARS, DAYS, st.integers(0, 60))
def test_working_days_are_those_of_numpy(calendar: Calendar, day: date, days: int) -> None:
    """numpy.busday_offset, with the roll that takes the next working day."""
    mask = [weekday in calendar.week for weekday in range(7)]
    theirs = np.busday_offset(day, days, roll="forward", weekmask=mask, holidays=list(calendar.holidays))
    assert add_working_days(calendar, day, days) == theirs.astype(date)


@given(CALENDARS, DAYS, st.integers(0, 40), st.integers(0, 70))
def test_another_holiday_never_makes_a_date_earlier(calendar: Calendar, day: date, days: int, until: int) -> None:
    more = calendar._replace(holidays={**calendar.holidays, day + timedelta(until): "Another"})
    assert add_working_days(more, day, days) >= add_working_days(calendar, day, days)


# Critical paths: centres that nobody else has work for, one for each activity


def endless(steps: Sequence[Operation]) -> Shop:
    """A shop with an idle centre for every operation; an hour of work takes a day."""
    return works(*(centre(step.centre, hours="1") for step in steps))


def activities(arrows: Mapping[str, int]) -> list[Operation]:
    """An arrow network, "1-3" with its days, as operations: each comes after all that end where it begins."""
    steps = []
    for arrow, days in arrows.items():
        begins = arrow.split("-")[0]
        steps.append(work(arrow, arrow, str(days), *(other for other in arrows if other.split("-")[1] == begins)))
    return steps


# B. W. Taylor, Introduction to Management Science, chapter on project management, as its solutions work them out.
SMALL = {"1-2": 7, "1-3": 10, "2-4": 6, "3-4": 5, "3-5": 4, "4-5": 3, "5-6": 2}
LARGE = {
    "1-2": 8, "1-3": 10, "1-4": 9, "2-5": 6, "2-6": 4, "3-5": 5, "4-5": 0,
    "4-7": 7, "5-7": 12, "5-8": 15, "6-9": 18, "7-8": 4, "8-9": 7,
}  # fmt: skip


def finish(arrows: Mapping[str, int]) -> int:
    steps = activities(arrows)
    return plan(endless(steps), steps, 1).planned


@pytest.mark.parametrize(("arrows", "expected"), [(SMALL, 20), (LARGE, 38)])
def test_the_finish_of_a_published_network_is_met(arrows: Mapping[str, int], expected: int) -> None:
    assert finish(arrows) == expected


@pytest.mark.parametrize(("arrows", "activity", "slack"), [(SMALL, "3-5", 4), (LARGE, "4-7", 11)])
def test_an_activity_may_grow_by_its_published_slack_and_no_more(
    arrows: Mapping[str, int], activity: str, slack: int
) -> None:
    assert finish({**arrows, activity: arrows[activity] + slack}) == finish(arrows)
    assert finish({**arrows, activity: arrows[activity] + slack + 1}) == finish(arrows) + 1


def test_the_construction_example_of_the_textbooks_takes_forty_four_weeks() -> None:
    """Hillier and Lieberman, Introduction to Operations Research; predecessors and the 44 weeks are from memory."""
    network = {
        "A": (2, ""), "B": (4, "A"), "C": (10, "B"), "D": (6, "C"), "E": (4, "C"), "F": (5, "E"), "G": (7, "D"),
        "H": (9, "EG"), "I": (7, "C"), "J": (8, "FI"), "K": (4, "J"), "L": (5, "J"), "M": (2, "H"), "N": (6, "KL"),
    }  # fmt: skip
    steps = [work(id, id, str(weeks), *after) for id, (weeks, after) in network.items()]
    promise = plan(endless(steps), steps, 1)
    assert promise.planned == 44
    assert [span.id for span in promise.spans if span.finish == 44] == ["N"]


# Routes of any shape, through any shop

HOURS = st.decimals(Decimal(0), Decimal(40), places=1)


@st.composite
def _routes(draw: st.DrawFn) -> list[Step]:
    steps: list[Step] = []
    for number in range(draw(st.integers(1, 7))):
        after = tuple(sorted(draw(st.sets(st.sampled_from([step.id for step in steps]))))) if steps else ()
        id = f"s{number}"
        kind = draw(st.sampled_from(("operation", "operation", "outside", "material")))
        if kind == "operation":
            at = draw(st.sampled_from(("saw", "five_axis", "bench")))
            steps.append(Operation(id, id, at, draw(HOURS), draw(HOURS), (), after))
        elif kind == "outside":
            steps.append(Outside(id, id, Decimal(draw(st.integers(0, 10))), (), after))
        else:
            steps.append(Material(id, id, Decimal(draw(st.integers(0, 10)))))
    return steps


CENTRES = st.tuples(
    *(
        st.builds(
            Centre,
            st.just(id),
            st.just(id),
            st.integers(1, 3),
            st.sampled_from((Decimal(7), Decimal(8), Decimal(16))),
            st.sampled_from((Decimal("0.75"), Decimal("0.8"), Decimal(1))),
            st.decimals(Decimal(0), Decimal(400), places=1),
        )
        for id in ("saw", "five_axis", "bench")
    )
)


def with_more(centres: Sequence[Centre], at: str, hours: Decimal) -> list[Centre]:
    return [one._replace(committed_hours=one.committed_hours + hours) if one.id == at else one for one in centres]


@given(_routes(), CENTRES, st.sampled_from(("saw", "five_axis", "bench")), HOURS, st.integers(1, 4))
def test_more_committed_hours_never_bring_a_date_forward(
    steps: list[Step], centres: tuple[Centre, ...], at: str, hours: Decimal, quantity: int
) -> None:
    before = plan(works(*centres), steps, quantity).planned
    assert plan(works(*with_more(centres, at, hours)), steps, quantity).planned >= before


@given(_routes(), CENTRES, st.integers(1, 4))
def test_another_block_never_brings_a_date_forward(
    steps: list[Step], centres: tuple[Centre, ...], quantity: int
) -> None:
    assert plan(works(*centres), steps, quantity + 1).planned >= plan(works(*centres), steps, quantity).planned


@given(_routes(), CENTRES)
def test_only_a_queue_at_the_bottleneck_moves_the_date(steps: list[Step], centres: tuple[Centre, ...]) -> None:
    promise = plan(works(*centres), steps, 1)
    if promise.bottleneck:
        one = next(one for one in centres if one.id == promise.bottleneck)
        five_days = 5 * one.machines * one.hours_a_day * one.efficiency
        assert plan(works(*with_more(centres, one.id, five_days)), steps, 1).planned == promise.planned + 5
    else:
        idle = [one._replace(committed_hours=Decimal(0)) for one in centres]
        assert plan(works(*idle), steps, 1).planned == promise.planned


@given(_routes(), CENTRES, st.integers(1, 4))
def test_nothing_starts_before_what_it_waits_for_and_a_centre_does_one_thing_at_a_time(
    steps: list[Step], centres: tuple[Centre, ...], quantity: int
) -> None:
    promise = plan(works(*centres), steps, quantity)
    spans = {span.id: span for span in promise.spans}
    for step in steps:
        assert all(spans[step.id].start >= spans[before].finish for before in behind(step))
    for one in centres:
        here = [span for span in promise.spans if span.centre == one.id]
        queue = Fraction(one.committed_hours) / one.machines / Fraction(one.hours_a_day) / Fraction(one.efficiency)
        assert all(Fraction(span.start) > queue - Fraction(1, 100) for span in here)
        assert all(early.finish <= late.start for early, late in pairwise(here))
    assert promise.planned - 1 < max(span.finish for span in promise.spans) <= promise.planned


def ways(steps: Mapping[str, Step], end: str) -> Iterator[list[str]]:
    """Every way through the network that ends at this step."""
    before = behind(steps[end])
    for way in [way for step in before for way in ways(steps, step)] if before else [[]]:
        yield [*way, end]


@given(_routes())
def test_an_idle_shop_with_centres_enough_takes_the_longest_way_through_the_route(steps: list[Step]) -> None:
    """Held against the sum of every single way, listed one by one."""
    apart: list[Step] = [step._replace(centre=step.id) if isinstance(step, Operation) else step for step in steps]
    shop = works(*(centre(step.id) for step in apart if isinstance(step, Operation)))
    days = {
        step.id: (step.set_up + step.run) / 8 if isinstance(step, Operation) else step.working_days for step in apart
    }
    by_id = {step.id: step for step in apart}
    longest = max(sum(days[id] for id in way) for end in by_id for way in ways(by_id, end))
    assert plan(shop, apart, 1).planned == math.ceil(longest)


# Queues, batches, the clock


def test_a_centre_is_free_when_its_machines_have_worked_off_what_is_promised() -> None:
    """64 h on one machine of 8 h at 80 % are 10 days, on two 5; then 6.4 h of work take one day more."""
    rough = [work("rough", "five_axis", "6.4")]
    for machines, expected in ((1, 11), (2, 6)):
        busy = centre("five_axis", "64", machines=machines, efficiency="0.80")
        assert plan(works(busy), rough, 1).planned == expected


def test_the_queue_is_the_work_in_progress_over_the_throughput() -> None:
    """J. D. C. Little, 1961: work in progress = throughput x lead time. 12 blocks at 1.5 a week wait 8 weeks."""
    hours_of_a_block, blocks_a_week = Decimal(20), Decimal("1.5")
    hours_a_day = blocks_a_week * hours_of_a_block / 5
    busy = centre("five_axis", str(12 * hours_of_a_block), hours=str(hours_a_day))
    (span,) = plan(works(busy), [work("rough", "five_axis", "20")], 1).spans
    assert span.start == 40


def test_work_that_fills_its_last_day_does_not_spill_into_the_next() -> None:
    """Three thirds of a day are one day: 17 h at 8 h x 85 % are two and a half days, six times 17 h are fifteen."""
    steps = [work(f"pass_{number}", "hone", "17", *[f"pass_{number - 1}"][: number - 1]) for number in range(1, 7)]
    assert plan(works(centre("hone", efficiency="0.85")), steps, 1).planned == 15
    thirds = [work(f"t{number}", "saw", "1", *[f"t{number - 1}"][:number]) for number in range(3)]
    assert plan(works(centre("saw", hours="3")), thirds, 1).planned == 1


def test_set_up_is_shared_by_a_batch() -> None:
    """3 h once and 9 h a block: 12 h and 30 h of a 6 h day."""
    steps = [work("rough", "five_axis", "9", set_up="3")]
    shop = works(centre("five_axis", hours="6"))
    assert [plan(shop, steps, blocks).planned for blocks in (1, 3)] == [2, 5]


def test_the_bottleneck_is_the_centre_whose_queue_holds_the_order_up() -> None:
    """The saw's long queue passes while the machine behind it is busier still: only relief there brings it forward."""
    steps = [work("saw", "saw", "8"), work("rough", "five_axis", "8", "saw")]
    shop = works(centre("saw", "80"), centre("five_axis", "96"))
    promise = plan(shop, steps, 1)
    assert (promise.bottleneck, promise.planned) == ("five_axis", 13)
    assert plan(works(centre("saw", "80"), centre("five_axis")), steps, 1).bottleneck == "saw"
    assert plan(works(centre("saw"), centre("five_axis")), steps, 1).bottleneck == ""


def test_material_that_is_late_makes_a_short_queue_no_bottleneck() -> None:
    steps: list[Step] = [Material("billet", "Billet", Decimal(10)), work("saw", "saw", "8", "billet")]
    promise = plan(works(centre("saw", "16")), steps, 1)
    assert (promise.planned, promise.bottleneck) == (11, "")


def test_no_date_is_named_until_the_clock_has_started() -> None:
    steps = [Outside("relief", "Stress relief", Decimal(15))]
    promise = plan(works(calendar=FEDERAL), steps, 1)
    assert (promise.planned, promise.dates) == (15, None)
    assert promise.clock_starts == ("deposit cleared",)


def test_the_date_is_counted_on_the_shops_calendar_from_the_day_the_clock_starts() -> None:
    steps = [Outside("relief", "Stress relief", Decimal(15))]
    promise = plan(works(calendar=FEDERAL), steps, 1, date(2026, 6, 26))
    assert promise.dates == {"start": date(2026, 6, 26), "planned": date(2026, 7, 20)}


def test_a_clock_that_starts_on_a_free_day_starts_on_the_next_working_day() -> None:
    assert weekdays.day_name[date(2026, 6, 27).weekday()] == "Saturday"
    promise = plan(works(calendar=FEDERAL), [Outside("relief", "Stress relief", Decimal(1))], 1, date(2026, 6, 27))
    assert promise.dates == {"start": date(2026, 6, 29), "planned": date(2026, 6, 30)}


def test_chances_are_not_claimed_before_the_spread_is_known() -> None:
    promise = plan(works(centre("saw")), [work("saw", "saw", "1")], 1)
    assert (promise.p50, promise.p80, promise.p90) == (None, None, None)


def test_a_build_that_needs_no_work_is_ready_at_once() -> None:
    assert plan(works(), [], 1) == Promise(("deposit cleared",), 0, None, None, None, None, (), "")
