"""What every subject is held to: published values with their source, and the range of each argument."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

import pytest

from configurator.engineering.bounds import OutOfRange

Work = Callable[..., float]


class Published(NamedTuple):
    """A value that a book, a table or another library gives, with all that was put in, in SI.

    `figure` is in `unit`, and so is `within`; `share` is a tolerance relative to the figure. The tolerance is what the
    printed digits leave open. status: "published" (read in the source), "worked out" (from a definition or from
    published figures), "from memory". `formula` names what is tested where `work` puts several functions together.
    """

    id: str
    work: Work
    inputs: Mapping[str, Any]
    figure: float
    unit: float
    source: str
    status: str
    within: float = 0.0
    share: float = 0.0
    formula: str = ""

    def found(self) -> float:
        """What the function gives, in the unit of the figure."""
        return self.work(**self.inputs) / self.unit

    def holds(self) -> None:
        """Fails where the function is farther from the figure than the tolerance."""
        assert self.found() == pytest.approx(self.figure, abs=self.within or 0.0, rel=self.share or 0.0)

    def difference(self) -> float:
        """How far the function is from the figure, as a share of the figure."""
        return abs(self.found() - self.figure) / abs(self.figure)

    def name(self) -> str:
        """The function that is tested."""
        return self.formula or self.work.__name__

    def __str__(self) -> str:
        return self.id


class Range(NamedTuple):
    """An example of a function's arguments, in SI, and the bounds of each: "pitch > 0", "share <= 1"."""

    work: Work
    example: Mapping[str, float]
    bounds: tuple[str, ...]

    def holds(self) -> None:
        """Fails unless the example is taken, and each bound is taken or refused as it says, and beyond it refused."""
        assert math.isfinite(self.work(**self.example))
        for text in self.bounds:
            argument, sign, number = re.split(" (<=|>=|<|>) ", text)
            bound, step = float(number), (1 if sign[0] == ">" else -1) * (abs(float(number)) * 1e-9 or 1e-12)
            taken, refused = (bound, bound - step) if sign.endswith("=") else (bound + step, bound)
            self.work(**{**self.example, argument: taken})
            self.refuses(argument, refused)

    def refuses(self, argument: str, value: float) -> OutOfRange:
        """The refusal of a value, which must name the argument and its value; fails where there is none."""
        refused = self.refuses_because(argument, {argument: value})
        assert refused.value == value or math.isnan(value)
        return refused

    def refuses_because(self, argument: str, changed: Mapping[str, float]) -> OutOfRange:
        """The refusal, naming an argument, of the example with some values changed; fails where there is none."""
        with pytest.raises(OutOfRange) as refused:
            self.work(**{**self.example, **changed})
        assert refused.value.argument == argument, f"{changed}: {refused.value}"
        return refused.value

    def __str__(self) -> str:
        return self.work.__name__
