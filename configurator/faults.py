"""What can be wrong, and where. The four kinds of error, never mixed:

1. A `Fault` is a badly written file, pick or flag. Faults are values, gathered and shown at once, wrapped in `Faulty`.
2. A conflict is an impossible wish. It is an answer (`answer.Conflict`), not an error.
3. A failed check is data in the answer (`answer.Check`).
4. A bug is an ordinary traceback behind --debug; otherwise one line that says that it is ours.

`NotKnown` is the honest end of a search that met its cap: never a guess.
"""

from collections.abc import Iterable
from typing import NamedTuple


class Place(NamedTuple):
    """Where in the text something stands: a file's name, with line and column counted from 1 (0: not known)."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}" if self.line else self.file


class Fault(NamedTuple):
    """One thing that is badly written: where, which key, what is wrong, and the way out, in words for a salesman."""

    place: Place
    key: str
    wrong: str
    way_out: str = ""

    def __str__(self) -> str:
        head = f"{self.place}: {self.key}: {self.wrong}" if self.key else f"{self.place}: {self.wrong}"
        return f"{head}\n  {self.way_out}" if self.way_out else head


class Faulty(Exception):
    """Raised once for all the faults of a text; the command line shows them and exits 2."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__("\n".join(str(fault) for fault in self.faults))


class NotKnown(Exception):
    """A question met its cap of time or size before its answer; the command line exits 4."""
