"""The layered diagram of all builds that tables allow.

Layer after layer one choice is settled. A node of a layer stands for everything that the options before it still matter
for; it has one edge an option, to a node of the next layer, or none where that option leads to no build. Every path
from the one node of the first layer to the one node after the last layer is a build, and every build is one path. A
diagram without builds has no nodes at all.

Sets of nodes of one layer are integers, bit by bit: union and intersection are single operations.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from operator import or_

OPEN = -1  # in place of an option: any of them

# Images of live sets are kept, since picks come back to the same ones; past this many a layer forgets its own.
KEPT_IMAGES = 4096


class Diagram:
    """A layered diagram, never changed once made.

    `sizes[layer]` options; `widths[layer]` nodes (one layer more than choices: the end); `edges[layer][node * size +
    option]` the node of the next layer, or -1; `extras[tally][layer][node * size + option]` the amount that tally adds
    on that edge, for the layers where it does.
    """

    __slots__ = ("_above", "_below", "_images", "_origins", "edges", "extras", "sizes", "widths")

    def __init__(
        self,
        sizes: Sequence[int],
        widths: Sequence[int],
        edges: Sequence[Sequence[int]],
        extras: Sequence[Mapping[int, Sequence[int]]],
    ) -> None:
        self.sizes = sizes
        self.widths = widths
        self.edges = edges
        self.extras = extras
        layers = len(sizes)
        self._below: list[list[tuple[int, ...]]] = [[] for _ in range(layers)]
        self._above: list[list[tuple[int, ...]]] = [[] for _ in range(layers)]
        self._images: list[dict[int, tuple[int, ...]]] = [{} for _ in range(layers)]
        self._origins: list[dict[int, tuple[int, ...]]] = [{} for _ in range(layers)]

    @property
    def nodes(self) -> int:
        """How many nodes the diagram has, its end among them."""
        return sum(self.widths)

    def images(self, layer: int, live: int) -> tuple[int, ...]:
        """The nodes of the next layer that the `live` nodes reach, by option; last (index OPEN) by any option."""
        kept = self._images[layer]
        images = kept.get(live)
        if images is None:
            if not self._below[layer]:
                self._below[layer] = self._rows_below(layer)
            images = _remember(kept, live, _union(self._below[layer], live, self.sizes[layer]))
        return images

    def origins(self, layer: int, live: int) -> tuple[int, ...]:
        """The nodes of `layer` that reach the `live` nodes of the next, by option; last (index OPEN) by any option."""
        kept = self._origins[layer]
        origins = kept.get(live)
        if origins is None:
            if not self._above[layer]:
                self._above[layer] = self._rows_above(layer)
            origins = _remember(kept, live, _union(self._above[layer], live, self.sizes[layer]))
        return origins

    def _rows_below(self, layer: int) -> list[tuple[int, ...]]:
        size, edges = self.sizes[layer], self.edges[layer]
        bits = [1 << child if child >= 0 else 0 for child in edges]
        return [_with_union(bits[start : start + size]) for start in range(0, len(bits), size)]

    def _rows_above(self, layer: int) -> list[tuple[int, ...]]:
        size = self.sizes[layer]
        rows = [[0] * size for _ in range(self.widths[layer + 1])]
        for place, child in enumerate(self.edges[layer]):
            if child >= 0:
                node, option = divmod(place, size)
                rows[child][option] |= 1 << node
        return [_with_union(row) for row in rows]


def members(nodes: int) -> list[int]:
    """The numbers in a set of nodes, ascending."""
    found = []
    while nodes:
        lowest = nodes & -nodes
        found.append(lowest.bit_length() - 1)
        nodes ^= lowest
    return found


def _with_union(row: list[int]) -> tuple[int, ...]:
    anything = 0
    for bits in row:
        anything |= bits
    return (*row, anything)


def _union(rows: list[tuple[int, ...]], live: int, size: int) -> tuple[int, ...]:
    """Column by column the union of the rows that `live` names."""
    if not live:
        return (0,) * (size + 1)
    first, *rest = members(live)
    union = rows[first]
    for node in rest:
        union = tuple(map(or_, union, rows[node]))
    return union


def _remember(kept: dict[int, tuple[int, ...]], live: int, row: tuple[int, ...]) -> tuple[int, ...]:
    if len(kept) >= KEPT_IMAGES:
        kept.clear()
    kept[live] = row
    return row
