"""`when`: what must hold of a build, of the duty or of a figure before something is said."""

from typing import NamedTuple


class Condition(NamedTuple):
    """One key of a `when` or a `then`: the name holds one of these options, or none of them, or compares as written.

    `comparison` is the text of a comparison ("> 0 bar") and excludes `options`; it may speak of a numeric choice, a
    fact, a figure or a duty. Values of numeric choices in `options` are option ids ("84.9 mm").
    """

    name: str
    options: tuple[str, ...] = ()
    negated: bool = False
    comparison: str = ""

    def allows(self, option: str) -> bool:
        """Whether the option passes; only for conditions without a comparison."""
        return (option in self.options) is not self.negated


When = tuple[Condition, ...]
"""All conditions hold together; the empty tuple always holds."""
