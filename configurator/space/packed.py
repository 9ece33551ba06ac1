"""A compiled space as bytes, for the cache: little-endian arrays behind a short head, ready to use as they are read.

Head: the mark, a CRC-32 of all that follows, and the lengths of the first two sections. Sections: whole numbers of 64
bits (shapes, amounts, picks), edges of 32 bits, and text (names and standings). They hold the same things in the same
order as `pack` writes them.
"""

from __future__ import annotations

import sys
from array import array
from collections.abc import Sequence
from math import prod
from struct import Struct
from zlib import crc32

from configurator.space.diagram import OPEN, Diagram
from configurator.space.model import Model
from configurator.space.tables import Table, Tally, Term, check_shapes

_MARK = b"builds01"
_HEAD = Struct("<8sIII")


def pack(model: Model, settled: Sequence[int]) -> bytes:
    """The model and the picks on it as bytes."""
    numbers: list[int] = [len(model.sizes), *model.sizes, *model.order, *settled, len(model.tables)]
    text = bytearray()
    for table in model.tables:
        name = table.name.encode()
        numbers += [len(name), len(table.scope), *table.scope]
        text += name + table.standings
    numbers.append(len(model.tallies))
    for tally in model.tallies:
        name = tally.id.encode()
        numbers += [len(name), len(tally.terms)]
        text += name
        for term in tally.terms:
            numbers += [len(term.scope), *term.scope, *term.amounts]
    diagrams = [model.possible] if model.free is model.possible else [model.possible, model.free]
    numbers.append(len(diagrams))
    edges = array("i")
    for diagram in diagrams:
        numbers += diagram.widths
        for extras in diagram.extras:
            numbers.append(len(extras))
            for layer, amounts in extras.items():
                numbers += [layer, *amounts]
        for row in diagram.edges:
            edges.extend(row)
    body = _little(array("q", numbers)).tobytes() + _little(edges).tobytes() + text
    return _HEAD.pack(_MARK, crc32(body), len(numbers), len(edges)) + body


def unpack(data: bytes) -> tuple[Model, list[int]]:
    """The model and the picks (by layer) that `pack` wrote; ValueError where the bytes are not what it wrote."""
    _require(len(data) >= _HEAD.size, "first bytes")
    mark, checksum, numbers, edges = _HEAD.unpack_from(data)
    body = memoryview(data)[_HEAD.size :]
    _require(mark == _MARK and crc32(body) == checksum and len(body) >= 8 * numbers + 4 * edges, "bytes")
    return _Reader(body, numbers, edges).model()


class _Reader:
    """The three sections of packed bytes, read from front to back."""

    def __init__(self, body: memoryview, numbers: int, edges: int) -> None:
        text = 8 * numbers + 4 * edges
        self._numbers = _little(array("q", bytes(body[: 8 * numbers])))
        self._edges = _little(array("i", bytes(body[8 * numbers : text])))
        self._text = bytes(body[text:])
        self._number = self._edge = self._letter = 0

    def model(self) -> tuple[Model, list[int]]:
        choices = self._one()
        sizes, order, settled = self._take(choices), self._take(choices), self._take(choices)
        _require(sorted(order) == list(range(choices)), "layers")
        by_layer = [sizes[choice] for choice in order]
        _require(all(OPEN <= option < size for option, size in zip(settled, by_layer, strict=True)), "picks")
        tables = [self._table(sizes) for _ in range(self._one())]
        tallies = [self._tally(sizes) for _ in range(self._one())]
        check_shapes(sizes, tables, tallies)
        diagrams = self._one()
        _require(diagrams in (1, 2), "diagrams")
        possible = self._diagram(by_layer, len(tallies))
        free = self._diagram(by_layer, len(tallies)) if diagrams == 2 else possible
        ends = (self._number, self._edge, self._letter)
        _require(ends == (len(self._numbers), len(self._edges), len(self._text)), "lengths")
        return Model(sizes, order, tables, tallies, possible, free), settled

    def _one(self) -> int:
        return self._take(1)[0]

    def _take(self, count: int) -> list[int]:
        start = self._number
        self._number = start + count
        _require(count >= 0 and self._number <= len(self._numbers), "numbers")
        return self._numbers[start : self._number].tolist()

    def _take_text(self, count: int) -> bytes:
        start = self._letter
        self._letter = start + count
        _require(count >= 0 and self._letter <= len(self._text), "text")
        return self._text[start : self._letter]

    def _table(self, sizes: Sequence[int]) -> Table:
        letters, choices = self._take(2)
        scope = self._take(choices)
        name = self._take_text(letters).decode()
        return Table(name, tuple(scope), self._take_text(_cells(scope, sizes)))

    def _tally(self, sizes: Sequence[int]) -> Tally:
        letters, terms = self._take(2)
        return Tally(self._take_text(letters).decode(), tuple([self._term(sizes) for _ in range(terms)]))

    def _term(self, sizes: Sequence[int]) -> Term:
        scope = self._take(self._one())
        return Term(tuple(scope), tuple(self._take(_cells(scope, sizes))))

    def _diagram(self, sizes: Sequence[int], tallies: int) -> Diagram:
        widths = self._take(len(sizes) + 1)
        _require(widths[0] == widths[-1] and widths[-1] in (0, 1), "widths")
        extras = []
        for _ in range(tallies):
            by_layer = {}
            for _ in range(self._one()):
                layer = self._one()
                _require(0 <= layer < len(sizes), "amounts")
                by_layer[layer] = self._take(widths[layer] * sizes[layer])
            extras.append(by_layer)
        edges = []
        for size, width, below in zip(sizes, widths, widths[1:], strict=False):
            start = self._edge
            self._edge = start + size * width
            row = self._edges[start : self._edge]
            _require(width >= 0 and self._edge <= len(self._edges), "edges")
            _require(not row or -1 <= min(row) <= max(row) < below, "edges")
            edges.append(row)
        return Diagram(sizes, widths, edges, extras)


def _require(sound: bool, what: str) -> None:
    if not sound:
        raise ValueError(f"the {what} of a packed space are damaged")


def _cells(scope: Sequence[int], sizes: Sequence[int]) -> int:
    _require(all(0 <= choice < len(sizes) for choice in scope), "scopes")
    return prod([sizes[choice] for choice in scope])


def _little(numbers: array[int]) -> array[int]:
    """The array as it stands in little-endian bytes, or back."""
    if sys.byteorder == "big":
        numbers = numbers[:]
        numbers.byteswap()
    return numbers
