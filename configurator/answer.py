"""The answer to an enquiry: can it be built, what is open, why not, what would help, what it costs and when."""

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from configurator.build import Build
from configurator.enquiry import Enquiry, Misfit


class Check(NamedTuple):
    """The printed line of a limit.

    Quantities are texts with their unit; `margin` is negative where the limit is crossed.
    """

    rule: str
    label: str
    value: str
    limit: str
    margin: str
    standing: str  # free, by_arrangement, impossible, advice
    verdict: str  # pass, fail, not_checked
    near: bool
    uncertainty: str
    basis: str
    source: str
    missing: tuple[str, ...]
    caution: str


class Conflict(NamedTuple):
    """A smallest set of picks that cannot hold together, the fewest rules that say so, and the limits among them."""

    between: Mapping[str, str]
    rules: tuple[str, ...]
    because: tuple[str, ...]
    limits: tuple[Check, ...] = ()


class Altered(NamedTuple):
    """A choice that a completed build had to settle otherwise than usual, and the price lines that this brings."""

    choice: str
    option: str
    lines: tuple[str, ...] = ()


class WayOut(NamedTuple):
    """A smallest change that makes the enquiry possible, with what it costs, when, and what else it brings.

    `kind` is "change" (a wish given up), "only_if" (a have that would have to be otherwise in truth) or "measure_again"
    (a measured have: no price, no days). `also` lists what else the completed build alters against the first way
    out's wish.
    """

    change: Mapping[str, str]
    kind: str
    standing: str
    net: Decimal | None = None
    difference: Decimal | None = None
    working_days: int | None = None
    also: tuple[Altered, ...] = ()


class SignOff(NamedTuple):
    """A rule that puts the build by arrangement.

    A named engineer signs for it; void when a choice in its scope changes.
    """

    rule: str
    because: str
    scope: tuple[str, ...]


class Note(NamedTuple):
    """Advice: it changes nothing, and is said."""

    rule: str
    because: str


class Standing(NamedTuple):
    """How a choice stands in an answer.

    Its pick if any, its one option left if settled, and the kind of every option.
    """

    picked: str
    settled: str
    options: Mapping[str, str]  # free, by_arrangement or closed


class Freer(NamedTuple):
    """The cheapest change of completed wants that makes a build by arrangement free."""

    change: Mapping[str, str]
    net: Decimal
    difference: Decimal


class PriceRange(NamedTuple):
    """Net totals of the cheapest and the dearest build that the picks still allow."""

    least: Decimal
    greatest: Decimal
    currency: str


class Answer(NamedTuple):
    """The whole answer. `build` is the completed build, None where the enquiry is impossible."""

    enquiry: Enquiry
    verdict: str  # free, by_arrangement, impossible, not_known
    not_checked: tuple[str, ...]
    counted: str  # exact, at_least
    free: int
    by_arrangement: int
    choices: Mapping[str, Standing]
    build: Build | None
    assumed: Mapping[str, str]
    freer: Freer | None
    still_to_settle: tuple[str, ...]
    misfits: tuple[Misfit, ...]
    conflicts: tuple[Conflict, ...]
    ways_out: tuple[WayOut, ...]
    sign_offs: tuple[SignOff, ...]
    advice: tuple[Note, ...]
    checks: tuple[Check, ...]
    price: PriceRange | None
    net: Decimal | None
    working_days: int | None
    currency: str  # of every amount in the answer
