"""What a caller asks for: picks with their evidence, the duty, and lines that no catalogue holds."""

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from configurator.faults import Place
from configurator.units import Quantity

EVIDENCE = ("measured", "looked", "told", "assumed")
"""How a have is known, strongest first."""


class Pick(NamedTuple):
    """An option settled for a choice.

    `known` is the evidence of a have ("" for a want); `measured` what was measured.
    """

    option: str
    known: str = ""
    measured: Mapping[str, Quantity] = {}
    place: Place = Place("")


class Misfit(NamedTuple):
    """Something asked for that no option answers: a no, with the nearest answers, never a rounding.

    `kind` is "none" (a measurement fits no option), "two" (it fits several), "outside" (a number out of range or off
    its step), "clash" (two measured values disagree) or "not_offered" (another family knows this choice, this one
    does not).
    """

    choice: str
    given: str
    kind: str
    nearest: tuple[str, ...] = ()
    place: Place = Place("")


class Extra(NamedTuple):
    """A line that no catalogue holds: by arrangement, in the totals, with a reason and a name."""

    text: str
    amount: Decimal
    reason: str
    by: str
    place: Place = Place("")


class Enquiry(NamedTuple):
    """One caller's wish for one family. Picks stand in the order given; nothing depends on it."""

    family: str
    picks: Mapping[str, Pick]
    duty: Mapping[str, Quantity] = {}
    misfits: tuple[Misfit, ...] = ()
    extras: tuple[Extra, ...] = ()
    quantity: int = 1
    customer: str = ""
    list: str = ""  # the id of a price list, where not the one in force
