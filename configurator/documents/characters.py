"""Text as it may safely be shown: what a terminal would obey, or a reader could not see, is written out in full."""

from __future__ import annotations

import unicodedata

_SPOKEN = frozenset(("Cc", "Cf", "Cs", "Zl", "Zp"))
"""Control, format (direction marks, zero width), surrogate, and the two separators that break a line."""

_MOST_MARKS = 4
"""So many combining marks in a row are a letter of some script; more are a stunt that buries the lines around it."""


def visible(text: str) -> str:
    """The text with every control, direction mark and invisible character as `\\x1b` or `\\u{202e}`, and piled-up marks
    too.

    Shown twice it stays the same, so each door may see to it without asking whether another has.
    """
    if text.isascii() and text.isprintable():
        return text
    shown, marks = [], 0
    for character in text:
        category = unicodedata.category(character)
        marks = marks + 1 if category in ("Mn", "Me") else 0
        shown.append(_written_out(character) if category in _SPOKEN or marks > _MOST_MARKS else character)
    return "".join(shown)


def columns_of(text: str) -> int:
    """How many columns of a terminal the text takes: wide characters two, combining marks none."""
    if text.isascii():
        return len(text)
    return sum(map(_columns, text))


def _columns(character: str) -> int:
    if unicodedata.category(character) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1


def _written_out(character: str) -> str:
    code = ord(character)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{{{code:x}}}"
