"""Rules: what goes together, the standing that each combination gets, and why."""

from collections.abc import Mapping
from typing import NamedTuple

from configurator.catalogue.conditions import When
from configurator.faults import Place

FREE, BY_ARRANGEMENT, IMPOSSIBLE = 0, 1, 2
STANDINGS = ("free", "by_arrangement", "impossible")
"""Standings by their number: the worst of several is the greatest."""


class Implication(NamedTuple):
    """When `when` and `condition` hold, `then` must hold too, else the combination stands as `otherwise`.

    With `then` empty the combination itself stands as `otherwise` ("advice" included).
    """

    when: When
    condition: str  # the formula of `if`, or ""
    then: When
    otherwise: str


class Table(NamedTuple):
    """The combinations of `columns` that are free or by arrangement; every other combination stands as `otherwise`.

    A cell lists the options that it allows; the empty tuple allows any.
    """

    when: When
    columns: tuple[str, ...]
    rows: tuple[tuple[tuple[str, ...], ...], ...]
    by_arrangement: tuple[tuple[tuple[str, ...], ...], ...]
    otherwise: str


class Limit(NamedTuple):
    """A figure held against thresholds, tried in the order free, by_arrangement, beyond; all are texts of the language.

    `judged` names the side of the band of `uncertainty` that is compared: nominal, low or high.
    """

    when: When
    figure: str
    free: str
    by_arrangement: str
    beyond: str
    advice: str
    judged: str
    uncertainty: str
    unit: str  # the unit in which value, limit and margin are shown; "" shows the unit of the figure


class Example(NamedTuple):
    """Picks (and duties, and facts of the caller) that a rule must pass or fail."""

    picks: Mapping[str, str]
    place: Place = Place("")


class Rule(NamedTuple):
    """A rule with everything that its reader may ask of it."""

    id: str
    body: Implication | Table | Limit
    because: str
    basis: str
    source: str = ""
    caution: str = ""
    label: str = ""
    say: str = ""
    needs: tuple[str, ...] = ()
    passes: tuple[Example, ...] = ()
    fails: tuple[Example, ...] = ()
    place: Place = Place("")


class Figure(NamedTuple):
    """A quantity derived by a formula from facts of the picked options, the family and the duty."""

    id: str
    formula: str
    label: str = ""
    unit: str = ""
    place: Place = Place("")
