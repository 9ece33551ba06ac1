"""What a look at a shop's rules brings up: faults, which must be mended, and remarks, which are worth a thought."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from configurator.faults import Place

FAULTS = {
    "no build": "the rules leave no build at all",
    "dead option": "no build has the option",
    "live option": "the option is kept only to be refused, and builds have it",
    "condition": "the condition of a rule can never hold",
    "example": "an example beside a rule is missing, or does not come out as it stands",
    "expected": "an expected answer comes out otherwise",
    "proof": "plain search finds other builds than the diagram",
}
"""Kinds of finding that nobody should quote on: the exit code is 1.

Units that clash, and figures that are published and name no source, are refused before: when the files are read.
"""

REMARKS = {
    "pointless": "the rule changes nothing that the other rules do not do already",
    "uncovered": "no example would be missed if the rule vanished",
    "forced": "the choice looks free, and every build has the same option",
    "together": "options that only ever come together",
    "unused": "the figure is worked out by no rule",
    "wide": "the rule speaks of very many combinations",
    "from memory": "a figure that a limit rests on is from memory: look it up",
    "not known": "the search met its cap before an answer",
}
"""Kinds of finding that may be as they should be: the exit code is 0."""

Told = Callable[[str], None]
"""Whoever waits is told how far the work has come."""


class Finding(NamedTuple):
    """One thing that an engineer should look at: where, about what, what is wrong, and what to do.

    `kind` is one of FAULTS or REMARKS; `build` is a build, or as much of one as matters, that shows it.
    """

    place: Place
    about: str
    wrong: str
    way_out: str = ""
    kind: str = ""
    build: Mapping[str, str] = {}

    @property
    def grave(self) -> bool:
        """Whether it is a fault."""
        return self.kind in FAULTS


class Census(NamedTuple):
    """How large a family's space is, and how its choices hang together: `component` counts the largest tied group."""

    family: str
    label: str
    choices: int
    rules: int
    free: int
    by_arrangement: int
    component: int
    untied: tuple[str, ...]


class Proof(NamedTuple):
    """How far plain search has confirmed a family's diagram: in all of its builds, or in so many parts of them."""

    family: str
    whole: bool
    parts: int
    builds: int


class Findings(NamedTuple):
    """What a run of lint saw. Nothing to mend where `findings` is empty; `remarks` are worth a thought."""

    census: tuple[Census, ...]
    examples: int
    expected: int
    findings: tuple[Finding, ...]
    remarks: tuple[Finding, ...] = ()
    proofs: tuple[Proof, ...] = ()


def silent(text: str) -> None:
    """Tell nobody."""
