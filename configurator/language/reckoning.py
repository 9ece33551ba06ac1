"""Working a formula out. Each text is turned once into nested functions; then only sums are left to do."""

from __future__ import annotations

import operator
from collections.abc import Callable
from decimal import Decimal, Overflow
from functools import lru_cache

from configurator.language import nodes
from configurator.language.functions import FUNCTIONS, Uncomputable
from configurator.language.grammar import read
from configurator.units import ARITHMETIC, twelve_digits

Values = Callable[[str], Decimal]
"""The value of a name in SI base units; what it raises reaches the caller."""


def evaluate(formula: nodes.Formula, values: Values) -> Decimal:
    """The quantity in SI base units; Uncomputable where it divides by zero, roots a negative number or overflows."""
    try:
        return _quantity(formula.text)(values)
    except ArithmeticError as trouble:
        raise _uncomputable(formula, trouble) from None


def holds(formula: nodes.Formula, values: Values) -> bool:
    """Whether a question is answered by yes. Uncomputable as for `evaluate`."""
    try:
        return _question(formula.text)(values)
    except ArithmeticError as trouble:
        raise _uncomputable(formula, trouble) from None


def compares(comparison: nodes.Comparison, value: Decimal, values: Values) -> bool:
    """Whether the value lies within the comparison's bounds, both sides rounded to twelve significant digits."""
    held = twelve_digits(value)
    if comparison.low is not None:
        low = twelve_digits(evaluate(comparison.low, values))
        if held < low or (comparison.low_open and held == low):
            return False
    if comparison.high is not None:
        high = twelve_digits(evaluate(comparison.high, values))
        if held > high or (comparison.high_open and held == high):
            return False
    return True


def _uncomputable(formula: nodes.Formula, trouble: ArithmeticError) -> Uncomputable:
    if isinstance(trouble, ZeroDivisionError):
        return Uncomputable(f"{formula.text!r} divides by zero")
    if isinstance(trouble, Overflow | OverflowError):
        return Uncomputable(f"{formula.text!r} grows beyond all bounds")
    return Uncomputable(f"{formula.text!r} takes the root of a negative number")


@lru_cache(maxsize=4096)
def _quantity(text: str) -> Callable[[Values], Decimal]:
    tree = read(text).tree
    if isinstance(tree, nodes.QUESTIONS):
        raise TypeError(f"{text!r} is a question: it holds or not, and has no value")
    return _reckoner(tree)


@lru_cache(maxsize=4096)
def _question(text: str) -> Callable[[Values], bool]:
    tree = read(text).tree
    if not isinstance(tree, nodes.QUESTIONS):
        raise TypeError(f"{text!r} is a quantity: it has a value, and does not hold or not")
    return _judge(tree)


def _reckoner(node: nodes.Quantitative) -> Callable[[Values], Decimal]:
    match node:
        case nodes.Number(_, number):
            return lambda values: number
        case nodes.Name(name):
            return lambda values: values(name)
        case nodes.Negative(_, of):
            turned = _reckoner(of)
            return lambda values: ARITHMETIC.minus(turned(values))
        case nodes.Sum(_, first, others) | nodes.Product(_, first, others):
            return _chain(_reckoner(first), [(_WORK[sign], _reckoner(other)) for sign, other in others])
        case nodes.Call(_, function, arguments):
            work, parts = FUNCTIONS[function].work, [_reckoner(argument) for argument in arguments]
            return lambda values: work(*[part(values) for part in parts])


def _chain(
    first: Callable[[Values], Decimal],
    others: list[tuple[Callable[[Decimal, Decimal], Decimal], Callable[[Values], Decimal]]],
) -> Callable[[Values], Decimal]:
    if len(others) == 1:
        work, second = others[0]
        return lambda values: work(first(values), second(values))

    def reckon(values: Values) -> Decimal:
        found = first(values)
        for work, other in others:
            found = work(found, other(values))
        return found

    return reckon


def _divide(one: Decimal, other: Decimal) -> Decimal:
    if not other:
        raise ZeroDivisionError
    return ARITHMETIC.divide(one, other)


_WORK = {"+": ARITHMETIC.add, "-": ARITHMETIC.subtract, "*": ARITHMETIC.multiply, "/": _divide}
_JUDGE = {"<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge}


def _judge(node: nodes.Question) -> Callable[[Values], bool]:
    match node:
        case nodes.Compared(_, left, sign, right):
            one, compare, other = _reckoner(left), _JUDGE[sign], _reckoner(right)
            return lambda values: bool(compare(twelve_digits(one(values)), twelve_digits(other(values))))
        case nodes.Not(_, of):
            turned = _judge(of)
            return lambda values: not turned(values)
        case nodes.Both(_, parts):
            every = [_judge(part) for part in parts]
            return lambda values: all(judge(values) for judge in every)
        case nodes.Either(_, parts):
            some = [_judge(part) for part in parts]
            return lambda values: any(judge(values) for judge in some)
