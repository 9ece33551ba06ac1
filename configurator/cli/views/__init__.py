"""Values laid out as pages of text. A view takes values and a reader and gives lines; none of them prints or works
anything out.
"""

from __future__ import annotations

from typing import NamedTuple

from configurator.cli.page import MARGIN


class Reader(NamedTuple):
    """Who reads a page, and how wide it may be."""

    width: int = 80
    customer: bool = False

    def note(self, rule: str) -> str:
        """The id of a rule at the end of its line, where the engineer looks; a customer has no use for it."""
        return "" if self.customer else rule

    def beside_margin(self) -> Reader:
        """The same reader, with the room that an entry has beside its label."""
        return Reader(self.width - MARGIN, self.customer)
