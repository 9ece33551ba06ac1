"""The one judge of limits: a value and its thresholds -> standing, verdict, margin, near.

Tabling a limit over options and printing it for a build both call `judge`, so that what prunes is what is printed.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import NamedTuple

from configurator import language
from configurator.catalogue.rules import BY_ARRANGEMENT, FREE, IMPOSSIBLE, Limit

BEYOND = {"impossible": IMPOSSIBLE, "by_arrangement": BY_ARRANGEMENT, "advice": FREE}
OF_VALUE = " of value"

Values = Callable[[str], Decimal]


class Judged(NamedTuple):
    """A limit held against one value, all in SI units.

    `compared` is the value on the judged side of the band, `threshold` the comparison that the margin is measured to
    (free where it holds, else the last that might have admitted the value). `margin` is negative where that
    comparison is broken. `advised` says that the limit is crossed into advice, `noted` that its `advice` comparison
    holds.
    """

    standing: int
    value: Decimal
    compared: Decimal
    band: Decimal
    threshold: str
    margin: Decimal
    near: bool
    advised: bool
    noted: bool


def judge(limit: Limit, values: Values) -> Judged:
    """Hold the limit's figure against its thresholds.

    names.Missing where a value is not given, language.Uncomputable where the arithmetic fails.
    """
    value = values(limit.figure)
    band = band_of(limit, value, values)
    compared = value + {"low": -band, "high": band}.get(limit.judged, Decimal(0))
    standing, threshold, advised = _standing(limit, compared, values)
    margin = _margin(threshold, compared, values) if threshold else -_margin(limit.advice, compared, values)
    near = band > 0 and any(
        value - band <= bound <= value + band
        for text in (limit.free, limit.by_arrangement)
        if text
        for bound in _bounds(text, values)
    )
    noted = bool(limit.advice) and language.compares(language.read_comparison(limit.advice), compared, values)
    return Judged(standing, value, compared, band, threshold, margin, near, advised, noted)


def _standing(limit: Limit, compared: Decimal, values: Values) -> tuple[int, str, bool]:
    if not limit.free or language.compares(language.read_comparison(limit.free), compared, values):
        return FREE, limit.free, False
    if limit.by_arrangement and language.compares(language.read_comparison(limit.by_arrangement), compared, values):
        return BY_ARRANGEMENT, limit.free, False
    return BEYOND[limit.beyond], limit.by_arrangement or limit.free, limit.beyond == "advice"


def band_of(limit: Limit, value: Decimal, values: Values) -> Decimal:
    """The half width of the band: a quantity of the figure's kind, or a share of the value ("25 % of value")."""
    if not limit.uncertainty:
        return Decimal(0)
    if limit.uncertainty.endswith(OF_VALUE):
        share = language.evaluate(language.read(limit.uncertainty.removesuffix(OF_VALUE)), values)
        return abs(value) * share
    return language.evaluate(language.read(limit.uncertainty), values)


def _bounds(text: str, values: Values) -> list[Decimal]:
    comparison = language.read_comparison(text)
    return [language.evaluate(bound, values) for bound in (comparison.low, comparison.high) if bound is not None]


def _margin(text: str, value: Decimal, values: Values) -> Decimal:
    """How far the value lies inside the comparison; negative outside."""
    comparison = language.read_comparison(text)
    room = []
    if comparison.low is not None:
        room.append(value - language.evaluate(comparison.low, values))
    if comparison.high is not None:
        room.append(language.evaluate(comparison.high, values) - value)
    return min(room)


def texts_of(limit: Limit) -> list[str]:
    """The comparisons that a limit holds its figure against."""
    return [text for text in (limit.free, limit.by_arrangement, limit.advice) if text]


def names_in(limit: Limit) -> tuple[str, ...]:
    """Every name that a limit speaks of: its figure, the names in its thresholds and in its band."""
    names = [limit.figure]
    for text in texts_of(limit):
        names.extend(language.read_comparison(text).names)
    if limit.uncertainty:
        names.extend(language.read(limit.uncertainty.removesuffix(OF_VALUE)).names)
    return tuple(names)
