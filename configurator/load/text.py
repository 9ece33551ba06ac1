"""TOML read within bounds: whatever the bytes, the end is a `Document` or a fault with its line, and soon.

The parser of the standard library is exact but not careful: it takes time by the square of a dotted key's length,
memory by the length of a number, stack by the depth of brackets. So the text is looked over first. It also gives no
positions: those are worked out by a second parser, the first time somebody asks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache
from itertools import islice
from typing import Any, NamedTuple

from configurator.faults import Fault, Faulty, Place

LARGEST = 1 << 20
MOST_PIECES = 100_000
LONGEST_LINE = 4000
DEEPEST_KEY = 8
DEEPEST_NEST = 16
LONGEST_NUMBER = 40
MOST_DIGITS = 15
MOST_FAULTS = 100
"""Faults of one kind that are told at once; nobody reads more."""

SPLIT_IT = "split it: a shop may have any number of files"

Path = tuple[str | int, ...]
"""The way to a value in a document: keys, and positions in arrays."""

_PIECES = re.compile(
    r'"""(?:[^"\\]++|\\.|"{1,2}+(?!"))*+"""'
    r"|'''(?:[^']++|'{1,2}+(?!'))*+'''"
    r'|(?P<unclosed>"""|\'\'\')'
    r'|"(?:[^"\\\n]++|\\[^\n])*+"'
    r"|'[^'\n]*+'"
    r"|#[^\n]*+"
    r"|(?P<bracket>[\[\]{}])"
    r"|(?P<bare>[A-Za-z0-9_+\-]++)"
    r"|(?P<dot>\.)"
    r"|(?P<space>[ \t]++)"
    r"|(?P<other>.)",
    re.DOTALL,
)
"""The text cut into strings, comments, brackets, bare words and the rest. Possessive quantifiers never back up."""


class Document(NamedTuple):
    """A TOML file as data, with the text it came from. Fractions are Decimals; dates are dates."""

    name: str
    data: dict[str, Any]
    text: str = ""

    def place(self, path: Path = ()) -> Place:
        """Where a value stands; for one that is not written, where the nearest table around it stands."""
        where = _places(self.text)
        while path and path not in where:
            path = path[:-1]
        line, column = where.get(path, (1, 1))
        return Place(self.name, line, column)


def read_toml(name: str, data: bytes) -> Document:
    """Read one file; `name` is what faults call it. Faulty for what is not TOML, or too large, too deep, too long."""
    text = _decoded(name, data)
    _look_over(name, text)
    document = Document(name, _parsed(name, text), text)
    faults = list(islice(_bad_numbers(document, document.data, ()), MOST_FAULTS))
    if faults:
        raise Faulty(faults)
    return document


def _decoded(name: str, data: bytes) -> str:
    if len(data) > LARGEST:
        raise _fault(Place(name), f"is larger than {LARGEST:,} bytes", SPLIT_IT)
    if data.startswith((b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")):
        raise _fault(Place(name, 1, 1), "begins with a byte order mark", "save the file as UTF-8 without one")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as trouble:
        before = data[: trouble.start]
        place = Place(name, before.count(b"\n") + 1, trouble.start - before.rfind(b"\n"))
        raise _fault(place, "is not UTF-8", "save the file as UTF-8") from None
    return text.replace("\r\n", "\n")


def _look_over(name: str, text: str) -> None:
    """Refuse what the parser would choke on. Quoted text and comments are stepped over."""
    number = 0
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            place = Place(name, number, LONGEST_LINE + 1)
            raise _fault(place, f"the line is longer than {LONGEST_LINE:,} characters", "break it into several")
    nest = dots = 0
    for count, piece in enumerate(_PIECES.finditer(text)):
        if count > MOST_PIECES:
            place = _at(name, text, piece.start())
            raise _fault(place, f"holds more than {MOST_PIECES:,} words and marks", SPLIT_IT)
        kind = piece.lastgroup
        if kind == "bracket":
            nest += 1 if piece.group() in "[{" else -1
            dots = 0
        elif kind == "dot":
            dots += 1
        elif kind == "other":
            dots = 0
        wrong = _too_much(kind or "", piece.group(), nest, dots)
        if wrong:
            raise _fault(_at(name, text, piece.start()), *wrong)


def _too_much(kind: str, piece: str, nest: int, dots: int) -> tuple[str, str] | None:
    if kind == "unclosed":
        return f"the text that opens with {piece} is never closed", f"close it with {piece}"
    if nest > DEEPEST_NEST:
        return f"brackets are nested more than {DEEPEST_NEST} deep", "close some of them"
    if dots >= DEEPEST_KEY:
        return f"a key has more than {DEEPEST_KEY} parts", "a key is one word, or a few with dots between"
    if kind == "bare" and len(piece) > LONGEST_NUMBER and piece[0] in "+-0123456789":
        return f"a number is longer than {LONGEST_NUMBER} characters", f"give at most {MOST_DIGITS} digits"
    if piece == "\0":
        return "holds a NUL byte", "this is not a text file"
    return None


def _parsed(name: str, text: str) -> dict[str, Any]:
    import tomllib  # slow to import, and not wanted where nothing but words is given

    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as trouble:
        place, wrong = _position(name, text, str(trouble))
        raise _fault(place, f"is not TOML: {wrong}", "look at this line and the one before it") from None
    except (ValueError, ArithmeticError, RecursionError, MemoryError):
        wrong = "cannot be read: a number or a date in it is impossible, or it is nested too deep"
        raise _fault(
            Place(name, 1, 1), wrong, "look for the longest number, and for dates such as 2026-02-30"
        ) from None


def _position(name: str, text: str, message: str) -> tuple[Place, str]:
    """The parser puts the place in its words: take it out again."""
    found = re.search(r" \(at (?:line (\d+), column (\d+)|end of document)\)$", message)
    wrong = message[: found.start()] if found else message
    wrong = wrong[:1].lower() + wrong[1:]
    if found and found.group(1):
        return Place(name, int(found.group(1)), int(found.group(2))), wrong
    return _at(name, text, len(text)), wrong


def _bad_numbers(document: Document, value: Any, path: Path) -> Iterator[Fault]:
    """Numbers that nobody can mean: nan, infinity, and those of more digits than a shop has use for."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _bad_numbers(document, inner, (*path, key))
    elif isinstance(value, list):
        for position, inner in enumerate(value):
            yield from _bad_numbers(document, inner, (*path, position))
    elif isinstance(value, Decimal) and not (value.is_finite() and abs(value.adjusted()) <= MOST_DIGITS):
        yield Fault(document.place(path), _key(path), f"{value} is no number to reckon with", "write a plain number")
    elif isinstance(value, int) and abs(value) >= 10**MOST_DIGITS:
        yield Fault(document.place(path), _key(path), f"has more than {MOST_DIGITS} digits", "write a smaller number")


def _key(path: Path) -> str:
    return ".".join(part for part in path if isinstance(part, str))


def _at(name: str, text: str, offset: int) -> Place:
    return Place(name, text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset))


def _fault(place: Place, wrong: str, way_out: str) -> Faulty:
    return Faulty([Fault(place, "", wrong, way_out)])


@lru_cache(maxsize=128)
def _places(text: str) -> dict[Path, tuple[int, int]]:
    """Line and column of every key and table; the parser's import is slow, so nobody pays for it unasked."""
    from configurator.load.places import places_in

    return places_in(text)
