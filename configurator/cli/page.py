"""A page of plain text: entries with a label in the margin, columns that line up, and the one door through which text
is shown.

A page is a list of lines, a line a tuple of parts, a part a text and the name of its style. Nothing here draws boxes,
and a style only repeats what the words say. Widths are counted in columns of the terminal, not in characters. Tables
are laid out here too, by the same few functions: that keeps one look and one door, and the start of the program quick.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Sequence
from itertools import zip_longest
from typing import Any, NamedTuple, TextIO

from configurator.documents.characters import columns_of, visible

MARGIN = 12
"""Columns of the margin that holds the labels of entries."""

GAP = 2
"""Columns between the columns of a table."""

_COLOURS = {"yes": "1;32", "no": "1;31", "care": "33", "label": "1", "quiet": "2"}


class Part(NamedTuple):
    """A stretch of text in one style."""

    text: str
    style: str = ""


Line = tuple[Part, ...]
Cell = str | Part


def page_width() -> int:
    """The width to write for: the terminal's, but no wider than reads well; 80 where there is no terminal."""
    try:
        columns = int(os.environ.get("COLUMNS") or os.get_terminal_size(1).columns)
    except (OSError, ValueError):
        columns = 80
    return max(50, min(columns, 100))


def wrap(text: str, width: int) -> list[str]:
    """The text in lines of at most so many columns, broken between words, or inside one that is wider than a line.

    Spaces before the text indent all of its lines.
    """
    indent = " " * (len(text) - len(text.lstrip(" ")))
    lines, line = [], indent
    for word in visible(text.replace("\n", " ").replace("\t", " ")).split():
        if line != indent and columns_of(line) + 1 + columns_of(word) > width:
            lines.append(line)
            line = indent
        line = f"{line} {word}" if line != indent else f"{indent}{word}"
        while columns_of(line) > max(width, len(indent) + 1):
            head = _head(line, width)
            lines.append(head)
            line = indent + line[len(head) :]
    return [*lines, line]


def _head(text: str, width: int) -> str:
    """The longest beginning that is no wider; at least one character, or it would never end."""
    end = len(text)
    while end > 1 and columns_of(text[:end]) > width:
        end -= 1
    return text[:end]


def prose(text: str, width: int, note: str = "", style: str = "") -> list[Line]:
    """A paragraph. The note, for the few who look for it, ends at the right edge of the last line, or of one more."""
    lines: list[Line] = [(Part(line, style),) for line in wrap(text, width)]
    if note:
        room = width - sum(columns_of(part.text) for part in lines[-1]) - columns_of(note)
        if room >= GAP:
            lines[-1] = (*lines[-1], Part(" " * room), Part(note, "quiet"))
        else:
            lines.append((Part(" " * max(0, width - columns_of(note))), Part(note, "quiet")))
    return lines


def entry(label: str, body: Iterable[Line], style: str = "label") -> list[Line]:
    """Lines with a label in the margin beside the first, or above it where it is long; nothing without lines."""
    lines = list(body)
    if not lines:
        return []
    beside = Part(f"  {label}".ljust(MARGIN), style)
    if columns_of(label) + GAP >= MARGIN:
        return [(beside,), *((Part(" " * MARGIN), *line) for line in lines)]
    return [(beside, *lines[0]), *((Part(" " * MARGIN), *line) for line in lines[1:])]


def columns(rows: Iterable[Sequence[Cell]], width: int, align: str = "") -> list[Line]:
    """Rows of cells in columns, as wide as their widest cell, with `>` in `align` for a column that ends flush at the
    right.

    Where they do not fit, the widest columns that start flush at the left are narrowed and their cells wrapped. A row
    of one cell belongs beneath the row before it: it is written across all columns, indented.
    """
    table = [[Part(cell) if isinstance(cell, str) else cell for cell in row] for row in rows]
    widths = _widths([row for row in table if len(row) > 1], width, align)
    page: list[Line] = []
    for row in table:
        if len(row) == 1:
            page += [(Part("  "), *line) for line in prose(row[0].text, width - 2, style=row[0].style)]
        else:
            page += _laid_out(row, widths, align)
    return page


def _widths(table: Sequence[Sequence[Part]], width: int, align: str) -> list[int]:
    widths = [
        max(columns_of(visible(part.text)) for part in column) for column in zip_longest(*table, fillvalue=Part(""))
    ]
    while sum(widths) + GAP * (len(widths) - 1) > width:
        narrowed = max(
            (at for at in range(len(widths)) if align[at : at + 1] != ">"), key=widths.__getitem__, default=-1
        )
        if narrowed < 0 or widths[narrowed] <= 8:
            break
        widths[narrowed] -= 1
    return widths


def _laid_out(row: Sequence[Part], widths: Sequence[int], align: str) -> list[Line]:
    wrapped = [wrap(part.text, max(1, width)) for part, width in zip(row, widths, strict=False)]
    lines: list[Line] = []
    for texts in zip_longest(*wrapped, fillvalue=""):
        line: list[Part] = []
        for at, text in enumerate(texts):
            room = " " * (widths[at] - columns_of(text))
            pad = f"{room}{text}" if align[at : at + 1] == ">" else f"{text}{room}"
            line += [Part(pad, row[at].style), Part(" " * GAP)]
        lines.append(tuple(line[:-1]))
    return lines


def show(page: Iterable[Line], stream: TextIO | None = None) -> None:
    """Write the page out: the only place where a text of ours, or of a file, reaches a terminal."""
    stream = stream or sys.stdout
    coloured = stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    for line in page:
        stream.write(_written(line, coloured) + "\n")


def _written(line: Line, coloured: bool) -> str:
    texts = [visible(part.text) for part in line]
    while texts and not texts[-1].strip():
        texts.pop()
    if texts:
        texts[-1] = texts[-1].rstrip()
    if not coloured:
        return "".join(texts)
    return "".join(
        f"\x1b[{_COLOURS[part.style]}m{text}\x1b[0m" if part.style else text
        for part, text in zip(line, texts, strict=False)
    )


def stop_writing() -> None:
    """Whoever read our answer has seen enough and closed the pipe: what is left goes nowhere, without a complaint."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def notice(text: str) -> None:
    """A word beside the answer, for whoever sits there: to the error stream."""
    show([(Part(line),) for line in wrap(text, page_width())], sys.stderr)


def write_json(document: Any) -> None:
    """Write a document as JSON, in ASCII: whatever it holds, no terminal will obey it."""
    import json

    sys.stdout.write(json.dumps(document, indent=2).replace("\x7f", "\\u007f") + "\n")
