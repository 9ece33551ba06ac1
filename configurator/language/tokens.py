"""From a text to its tokens: numbers with their units, names and signs."""

from __future__ import annotations

import re
from typing import NamedTuple

from configurator.units import UNITS, Misread

LONGEST = 1000
COMPARING = ("<", "<=", ">", ">=")
_WORDS = ("and", "or", "not", "to")
_TOKEN = r"([0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]{1,3})?)|([a-z][a-z0-9_]*)|(<=|>=|[-+*/(),<>])"
_BY_LENGTH = sorted((symbol for symbol in UNITS if symbol), key=len, reverse=True)


class Token(NamedTuple):
    """A number (with its unit), a name, a sign (words such as `and` among them) or the end, and where it stands."""

    kind: str
    text: str
    start: int
    end: int
    unit: str = ""


def split(text: str) -> list[Token]:
    """The tokens of a text, the end last; Misread for a mark that belongs to none, and past the greatest length."""
    if len(text) > LONGEST:
        raise Misread(f"the formula is longer than {LONGEST} characters", "Split it into figures, and use their names.")
    token_at = re.compile(_TOKEN).match
    tokens: list[Token] = []
    at = 0
    while at < len(text):
        if text[at] == " ":
            at += 1
            continue
        match = token_at(text, at)
        if match is None:
            raise _foreign(text[at])
        number, name, _ = match.groups()
        kind = "number" if number else "name" if name and name not in _WORDS else "sign"
        token = Token(kind, match.group(), at, match.end())
        tokens.append(_with_unit(text, token) if number else token)
        at = tokens[-1].end
    return [*tokens, Token("end", "the end", at, at)]


def _with_unit(text: str, number: Token) -> Token:
    """The number with the longest unit that stands after it, if one does."""
    at = number.end
    while text[at : at + 1] == " ":
        at += 1
    for symbol in _BY_LENGTH:
        end = at + len(symbol)
        # "5 min(a, b)" is no time, "5 m/stroke" no speed: a letter, digit or bracket that follows is not the unit's.
        if text.startswith(symbol, at) and not re.match(r"[A-Za-z0-9_(]", text[end : end + 1]):
            return number._replace(end=end, unit=symbol)
    return number


_INSTEAD = {
    "=": "A quantity is never met exactly: write <= or >=. Nothing can be assigned.",
    "^": "There are no powers: write x * x.",
    ".": "A point stands only inside a number, with a digit before it: 0.5.",
    "'": "A formula has no texts.",
    '"': "A formula has no texts.",
    "%": "A per cent sign stands after a number: 25 %.",
    "\n": "Write it on one line.",
}


def _foreign(mark: str) -> Misread:
    plain = "A formula is made of numbers with units, names in small letters, + - * / ( ), < <= > >=, and, or, not."
    return Misread(f"{mark!r} has no place in a formula", _INSTEAD.get(mark, plain))
