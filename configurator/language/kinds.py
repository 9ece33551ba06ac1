"""The dimension of a formula from those of its names: a millimetre is never added to a kilogram."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from typing import Final

from configurator.dimensions import TEMPERATURE, Dimension
from configurator.language import nodes
from configurator.language.functions import FUNCTIONS
from configurator.units import Misread

Dimensions = Callable[[str], Dimension]


class Answer(Enum):
    """What a question has instead of a dimension."""

    YES_OR_NO = "yes or no"


BOOLEAN: Final = Answer.YES_OR_NO


def dimension_of(formula: nodes.Formula, dimension: Dimensions) -> Dimension | Answer:
    """The dimension of a formula from those of its names, or BOOLEAN for a question; Misread where dimensions clash."""
    tree = formula.tree
    if isinstance(tree, nodes.QUESTIONS):
        _check(tree, dimension)
        return BOOLEAN
    return _of(tree, dimension)


def check_comparison(comparison: nodes.Comparison, subject: Dimension, dimension: Dimensions) -> None:
    """Misread where a bound of the comparison is not of the subject's dimension."""
    for bound in (comparison.low, comparison.high):
        if bound is not None and (found := dimension_of(bound, dimension)) != subject:
            raise Misread(f"{bound.text!r} is {found}, and is compared with {subject}", "Compare like with like.")


def _check(node: nodes.Question, dimension: Dimensions) -> None:
    match node:
        case nodes.Compared(text, left, _, right):
            one, other = _of(left, dimension), _of(right, dimension)
            if one != other:
                raise Misread(f"{text!r} compares {one} with {other}", "Compare like with like.")
        case nodes.Not(_, of):
            _check(of, dimension)
        case nodes.Both(_, parts) | nodes.Either(_, parts):
            for part in parts:
                _check(part, dimension)


def _of(node: nodes.Quantitative, dimension: Dimensions) -> Dimension:
    match node:
        case nodes.Number():
            return node.dimension
        case nodes.Name(name):
            return dimension(name)
        case nodes.Negative(_, of):
            return _not_a_point(_of(of, dimension), of.text)
        case nodes.Sum():
            return _of_sum(node, dimension)
        case nodes.Product(_, first, others):
            found = _not_a_point(_of(first, dimension), first.text)
            for sign, other in others:
                factor = _not_a_point(_of(other, dimension), other.text)
                found = found.times(factor) if sign == "*" else found.over(factor)
            return found
        case nodes.Call(text, function, arguments):
            given = [_of(argument, dimension) for argument in arguments]
            try:
                return FUNCTIONS[function].dimension(given)
            except Misread as misread:
                raise Misread(f"{text!r}: {misread.wrong}", misread.way_out) from None


def _of_sum(node: nodes.Sum, dimension: Dimensions) -> Dimension:
    """Like with like; a temperature takes a difference, and two temperatures subtracted give one."""
    found = _of(node.first, dimension)
    for sign, other in node.others:
        term = _of(other, dimension)
        difference = term._replace(point=False)
        if found.point and term.point and sign == "-":
            found = difference
        elif found.point and term.point:
            raise Misread(f"{node.text!r} adds two temperatures", "Add a difference, in K, to a temperature.")
        elif term.point and sign == "+" and found == difference:
            found = TEMPERATURE
        elif found._replace(point=False) != term:
            verb = "added to" if sign == "+" else "taken from"
            wrong = f"{other.text!r} is {term} and cannot be {verb} {found}"
            raise Misread(wrong, f"Look at the units in {node.text!r}.")
    return found


def _not_a_point(found: Dimension, text: str) -> Dimension:
    if found.point:
        wrong = f"{text!r} is a temperature on a scale, which cannot be multiplied, divided or turned round"
        raise Misread(wrong, "Take a difference of temperatures first.")
    return found
