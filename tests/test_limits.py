"""The one judge of limits: at the limit is inside, the band says near, the judged side decides."""

from __future__ import annotations

from decimal import Decimal

import pytest

from configurator.catalogue.rules import BY_ARRANGEMENT, FREE, IMPOSSIBLE, Limit
from configurator.limits import Judged, judge
from configurator.units import read_quantity

FACTS = {
    "least_web": "4.0 mm",
    "free_wall": "2.5 mm",
    "least_wall": "2.0 mm",
    "free_height": "31.0 mm",
    "least_height": "28.0 mm",
    "least_gap": "3.0 mm",
    "free_share": "25 %",
    "greatest_share": "35 %",
}
"""Family data of the invented demo shops."""


def judged(value: str, free: str, by_arrangement: str = "", **says: str) -> Judged:
    limit = Limit(
        when=(),
        figure="value",
        free=free,
        by_arrangement=by_arrangement,
        beyond=says.get("beyond", "impossible"),
        advice=says.get("advice", ""),
        judged=says.get("judged", "nominal"),
        uncertainty=says.get("uncertainty", ""),
        unit="",
    )
    values = {name: read_quantity(text).value for name, text in {**FACTS, "value": value}.items()}
    return judge(limit, values.__getitem__)


@pytest.mark.parametrize(
    ("value", "free"),
    [
        ("2.5 mm", ">= free_wall"),
        ("4.0 mm", ">= least_web"),
        ("31.0 mm", ">= free_height"),
        ("3.0 mm", ">= least_gap"),  # 87.9 - 84.9, the gap between neighbouring grooves at the largest bore
        ("25.0 %", "<= free_share"),
        ("0.0 mm", "0.0 mm to 0.75 mm"),
        ("0.75 mm", "0.0 mm to 0.75 mm"),
    ],
)
def test_a_value_at_its_limit_is_inside(value: str, free: str) -> None:
    assert judged(value, free).standing == FREE
    assert judged(value, free).margin == 0


def test_a_strict_limit_leaves_its_own_value_outside() -> None:
    assert judged("4.0 mm", "> least_web").standing == IMPOSSIBLE
    assert judged("4.0 mm", "< least_web").standing == IMPOSSIBLE


def test_the_margin_is_to_the_free_threshold_until_even_an_arrangement_is_out_of_reach() -> None:
    free, signed = ">= free_height", ">= least_height"
    assert judged("32.0 mm", free, signed)[0:1] == (FREE,)
    assert judged("32.0 mm", free, signed).margin == Decimal("0.001")
    assert judged("30.0 mm", free, signed).standing == BY_ARRANGEMENT
    assert judged("30.0 mm", free, signed).margin == Decimal("-0.001")
    assert judged("26.0 mm", free, signed).standing == IMPOSSIBLE
    assert judged("26.0 mm", free, signed).margin == Decimal("-0.002")


def test_a_check_is_near_when_a_threshold_lies_in_the_band_on_either_side() -> None:
    assert judged("23.5 %", "<= free_share", "<= greatest_share", uncertainty="10 % of value").near
    assert judged("26 %", "<= free_share", "<= greatest_share", uncertainty="2 %").near
    assert not judged("23.5 %", "<= free_share", "<= greatest_share", uncertainty="1 %").near
    assert judged("34 %", "<= free_share", "<= greatest_share", uncertainty="1 %").near
    assert not judged("25 %", "<= free_share").near


def test_the_low_side_is_judged_where_the_rule_says_so() -> None:
    nominal = judged("2.2 mm", ">= least_wall", uncertainty="0.3 mm")
    low = judged("2.2 mm", ">= least_wall", uncertainty="0.3 mm", judged="low")
    high = judged("1.8 mm", ">= least_wall", uncertainty="0.3 mm", judged="high")
    assert (nominal.standing, low.standing, high.standing) == (FREE, IMPOSSIBLE, FREE)
    assert low.compared == Decimal("0.0019")


def test_beyond_advice_the_build_stays_free_and_is_advised_against() -> None:
    found = judged("26 %", "<= free_share", beyond="advice")
    assert (found.standing, found.advised) == (FREE, True)
    assert not judged("25 %", "<= free_share", beyond="advice").advised


def test_an_advice_comparison_is_a_note_and_changes_nothing() -> None:
    found = judged("38.3 mm", ">= free_height", advice="> 38.0 mm")
    assert (found.standing, found.noted, found.advised) == (FREE, True, False)
    assert not judged("38.0 mm", ">= free_height", advice="> 38.0 mm").noted


def test_a_limit_that_only_advises_measures_its_margin_to_the_advice() -> None:
    assert judged("36.0 mm", "", advice="> 38.0 mm").margin == Decimal("0.002")
    assert judged("38.5 mm", "", advice="> 38.0 mm").margin == Decimal("-0.0005")
