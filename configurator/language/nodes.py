"""What a formula is once it is read: a tree of these kinds of node and no other. Every node keeps its own text."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from configurator.dimensions import Dimension


class Number(NamedTuple):
    """A number as written, in SI base units."""

    text: str
    value: Decimal
    dimension: Dimension


class Name(NamedTuple):
    """A fact, a numeric choice, a duty or a figure; the text is its id."""

    text: str


class Negative(NamedTuple):
    """Minus a quantity."""

    text: str
    of: Quantitative


class Sum(NamedTuple):
    """The first term, then the others with their signs, "+" or "-"."""

    text: str
    first: Quantitative
    others: tuple[tuple[str, Quantitative], ...]


class Product(NamedTuple):
    """The first factor, then the others with their signs, "*" or "/"."""

    text: str
    first: Quantitative
    others: tuple[tuple[str, Quantitative], ...]


class Call(NamedTuple):
    """A function of `functions.FUNCTIONS` and its arguments."""

    text: str
    function: str
    arguments: tuple[Quantitative, ...]


class Compared(NamedTuple):
    """Two quantities and the sign between them: < <= > >=."""

    text: str
    left: Quantitative
    sign: str
    right: Quantitative


class Not(NamedTuple):
    """The question turned round."""

    text: str
    of: Question


class Both(NamedTuple):
    """Questions joined by `and`: all hold."""

    text: str
    parts: tuple[Question, ...]


class Either(NamedTuple):
    """Questions joined by `or`: at least one holds."""

    text: str
    parts: tuple[Question, ...]


Quantitative = Number | Name | Negative | Sum | Product | Call
Question = Compared | Not | Both | Either
QUESTIONS = (Compared, Not, Both, Either)


class Formula(NamedTuple):
    """A text of the language with its tree and the names in it, each once, in the order in which they appear."""

    text: str
    tree: Quantitative | Question
    names: tuple[str, ...]

    @property
    def is_question(self) -> bool:
        """Whether the answer is yes or no, not a quantity."""
        return isinstance(self.tree, QUESTIONS)


class Comparison(NamedTuple):
    """What a value is held against: a bound below, one above, or both. A bound is itself allowed unless it is open."""

    text: str
    low: Formula | None
    low_open: bool
    high: Formula | None
    high_open: bool
    names: tuple[str, ...]
