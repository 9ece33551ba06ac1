"""Numbers as people write them: bounded, in ASCII digits, and refused wherever they could be read in two ways."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_EVEN, Context, Decimal, DivisionByZero, InvalidOperation, Overflow

ARITHMETIC = Context(
    prec=28, rounding=ROUND_HALF_EVEN, Emin=-99, Emax=99, traps=[InvalidOperation, DivisionByZero, Overflow]
)
"""All sums with quantities are done here, whatever the caller's own decimal context is."""

LONGEST_TEXT, MOST_DIGITS, GREATEST_EXPONENT = 100, 30, 15
SAME_SIGNS = str.maketrans({"µ": "u", "μ": "u", "²": "2", "³": "3", "·": " ", "−": "-", "\u00a0": " "})


class Misread(ValueError):
    """A text that cannot be taken at its word: what is wrong with it, and how to write it instead."""

    def __init__(self, wrong: str, way_out: str = "") -> None:
        self.wrong, self.way_out = wrong, way_out
        super().__init__(f"{wrong}. {way_out}" if way_out else wrong)


_NUMBER = r"[0-9]+(?:\.[0-9]*)?(?:[eE][+-]?[0-9]{1,3})?|\.[0-9]+(?:[eE][+-]?[0-9]{1,3})?"
_FRACTION = r"(?:([0-9]+) +)?([0-9]+)/([0-9]+)"
_GROUPED = r"([1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?)"
_QUANTITY = rf"([+-]?)(?:{_FRACTION}|{_GROUPED}|({_NUMBER}))(.*)"


def split_number(text: str) -> tuple[Decimal, str]:
    """The number at the head of a text, and the unit as written after it."""
    plain = text.translate(SAME_SIGNS).strip()
    if len(plain) > LONGEST_TEXT:
        raise Misread(f"{plain[:20]!r}... is too long for a quantity", "Write a number and its unit.")
    match = re.fullmatch(_QUANTITY, plain, re.ASCII)
    if match is None:
        raise Misread(f"{text.strip()!r} is not a number with a unit", "Write it like 94.0 mm.")
    sign, whole, above, below, grouped, simple, rest = match.groups()
    if re.match(r"[.,'_0-9]", rest) or re.match(r"[eE][+-]?[0-9]", rest):
        raise Misread(
            f"{text.strip()!r} can be read in two ways", "Write it with a decimal point and no other mark: 1.5."
        )
    if above:
        number = ARITHMETIC.add(read_number(whole or "0"), _ratio(read_number(above), read_number(below)))
    else:
        number = read_number((grouped or simple).replace(",", ""))
    return (number.copy_negate() if sign == "-" else number), rest.strip()


def _ratio(above: Decimal, below: Decimal) -> Decimal:
    if not below:
        raise Misread("a fraction over nothing is no number", "Write it like 1/2 in.")
    return ARITHMETIC.divide(above, below)


def read_number(text: str) -> Decimal:
    """A plain unsigned number in ASCII digits with a decimal point; bounded, so that no later sum can hang."""
    if not re.fullmatch(_NUMBER, text):
        raise Misread(f"{text[:40]!r} is not a number", "Write it in digits, with a decimal point: 1.5.")
    if sum(mark.isdigit() for mark in text) > MOST_DIGITS:
        raise Misread(f"{text[:20]}... has more than {MOST_DIGITS} digits", "Round it.")
    number = Decimal(text)
    if abs(number.adjusted()) > GREATEST_EXPONENT:
        raise Misread(f"{text} is too great or too small to be meant", "Write it in a unit that fits it.")
    return number
