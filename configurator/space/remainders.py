"""Tables read choice by choice: what is left of a table once the options of its first choices are known.

The cells of a table are a text of one character each: text is cut, joined and compared faster than any other sequence.
Reading an option cuts a text into the part that still speaks; equal parts are one remainder. A remainder whose cells
are all alike has nothing more to ask: it is settled, and its character tells what it came to. Character 0 says
"nothing": allowed in a table, no amount in a term.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

ALLOWED, FORBIDDEN = "\0", "\1"

_POSSIBLE = bytes.maketrans(b"\x00\x01\x02", b"\x00\x00\x01")
_FREE = bytes.maketrans(b"\x00\x01\x02", b"\x00\x01\x01")


def possible_cells(standings: bytes) -> str:
    """ALLOWED where a build is possible, FORBIDDEN where it is not."""
    return standings.translate(_POSSIBLE).decode("latin-1")


def free_cells(standings: bytes) -> str:
    """ALLOWED where a build is free, FORBIDDEN where it is by arrangement or impossible."""
    return standings.translate(_FREE).decode("latin-1")


def amount_cells(amounts: Sequence[int]) -> tuple[str, tuple[int, ...]]:
    """Amounts as cells, with the amount that each character stands for; character 0 stands for 0."""
    codes = {0: 0}
    cells = "".join([chr(codes.setdefault(amount, len(codes))) for amount in amounts])
    return cells, tuple(codes)


def is_settled(cells: str) -> bool:
    """Whether all cells are alike."""
    return cells.count(cells[0]) == len(cells)


def cut(cells: str, size: int, stride: int) -> list[str]:
    """The cells left for each option of a choice of `size` options whose neighbours stand `stride` cells apart."""
    block = size * stride
    if block == len(cells):
        return [cells[start : start + stride] for start in range(0, block, stride)]
    if stride == 1:
        return [cells[option::size] for option in range(size)]
    starts = range(0, len(cells), block)
    return [
        "".join([cells[start + offset : start + offset + stride] for start in starts])
        for offset in range(0, block, stride)
    ]


class Reading(NamedTuple):
    """A table read in a given order. `moves[depth][remainder][option]` is, before the choice in `layers[depth]` is read
    in state `remainder`, the remainder after it (above 0), or minus the character that the table has come to (0 or
    below).

    Remainder 0 is where reading begins at depth 0, and a settled table at any other depth.
    """

    layers: tuple[int, ...]
    moves: tuple[tuple[tuple[int, ...], ...], ...]

    @property
    def most(self) -> int:
        """The greatest remainder number at any depth."""
        return max((len(level) for level in self.moves), default=1) - 1


def read_cells(cells: str, scope: Sequence[int], sizes: Sequence[int], layer_of: Sequence[int]) -> Reading:
    """Read a table's cells (not all alike) in the order of the layers."""
    left = list(scope)
    levels: list[tuple[tuple[int, ...], ...]] = []
    texts = [cells]
    for choice in sorted(scope, key=layer_of.__getitem__):
        at = left.index(choice)
        del left[at]
        stride = 1
        for later in left[at:]:
            stride *= sizes[later]
        rows, texts = _read_choice(texts, sizes[choice], stride)
        if levels:
            rows.insert(0, (0,) * sizes[choice])
        levels.append(tuple(rows))
    return Reading(tuple(sorted(layer_of[choice] for choice in scope)), tuple(levels))


def _read_choice(texts: list[str], size: int, stride: int) -> tuple[list[tuple[int, ...]], list[str]]:
    """One row of moves for each text, and the distinct texts that remain, numbered from 1."""
    numbers: dict[str, int] = {}
    remaining: list[str] = []
    rows = []
    for text in texts:
        row = []
        for part in cut(text, size, stride):
            number = numbers.get(part)
            if number is None:
                if is_settled(part):
                    number = -ord(part[0])
                else:
                    remaining.append(part)
                    number = len(remaining)
                numbers[part] = number
            row.append(number)
        rows.append(tuple(row))
    return rows, remaining
