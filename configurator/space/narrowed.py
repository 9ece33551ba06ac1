"""A diagram under picks: which of its nodes still lie on a path from above, and which still lead to a build below."""

from __future__ import annotations

from collections.abc import Sequence

from configurator.space.diagram import OPEN, Diagram, members

Arcs = tuple[tuple[int, int], ...]  # (option, node of the next layer)


class Narrowed:
    """A diagram and its live nodes under `settled` (an option, or OPEN, for each layer). Never changed once made.

    `down[layer]` are the nodes that picks above the layer still reach, `up[layer]` those from which picks in and below
    it still reach a build. Neither looks at the other side, so `down[layer]` with `up[layer + 1]` is what a layer is
    judged by with its own pick lifted.
    """

    __slots__ = ("_arcs", "diagram", "down", "settled", "up")

    def __init__(self, diagram: Diagram, settled: Sequence[int], down: Sequence[int], up: Sequence[int]) -> None:
        self.diagram = diagram
        self.settled = settled
        self.down = down
        self.up = up
        self._arcs: list[list[tuple[int, Arcs]]] | None = None

    @property
    def possible(self) -> bool:
        """Whether a build is left."""
        return self.up[0] != 0

    def settle(self, settled: Sequence[int], first: int, last: int) -> Narrowed:
        """The same diagram under other picks, which differ from these in no layer outside `first` to `last`.

        The walk goes outward from there, and stops where a set of nodes no longer changes. Layers that are picked
        already let only their picked option through.
        """
        diagram = self.diagram
        down, up = list(self.down), list(self.up)
        live = down[first]
        for layer in range(first, len(settled)):
            live = diagram.images(layer, live)[settled[layer]]
            if live == down[layer + 1] and layer >= last:
                break
            down[layer + 1] = live
        live = up[last + 1]
        for layer in range(last, -1, -1):
            live = diagram.origins(layer, live)[settled[layer]]
            if live == up[layer] and layer <= first:
                break
            up[layer] = live
        return Narrowed(diagram, settled, down, up)

    def open_options(self, layer: int) -> list[bool]:
        """For each option of a layer, whether a build has it under the picks of all other layers."""
        up = self.up[layer + 1]
        return [image & up != 0 for image in self.diagram.images(layer, self.down[layer])[:OPEN]]

    def first_build(self) -> tuple[int, ...] | None:
        """A build that is left, by layer: in each the first option that leads to one; None if there is none."""
        if not self.possible:
            return None
        path, node = [], 0
        for layer, size in enumerate(self.diagram.sizes):
            start, below, picked = node * size, self.up[layer + 1], self.settled[layer]
            for option in range(size) if picked == OPEN else (picked,):
                node = self.diagram.edges[layer][start + option]
                if node >= 0 and below >> node & 1:
                    path.append(option)
                    break
        return tuple(path)

    def arcs(self) -> list[list[tuple[int, Arcs]]]:
        """By layer: each node that lies on a build, ascending, with its edges that do, in the order of the options."""
        if self._arcs is None:
            self._arcs = [self._arcs_of(layer) for layer in range(len(self.settled))]
        return self._arcs

    def _arcs_of(self, layer: int) -> list[tuple[int, Arcs]]:
        size, edges, picked = self.diagram.sizes[layer], self.diagram.edges[layer], self.settled[layer]
        below = self.up[layer + 1]
        options = range(size) if picked == OPEN else (picked,)
        found = []
        for node in members(self.down[layer] & self.up[layer]):
            start = node * size
            arcs = [(option, edges[start + option]) for option in options]
            found.append((node, tuple([arc for arc in arcs if arc[1] >= 0 and below >> arc[1] & 1])))
        return found


def whole(diagram: Diagram) -> Narrowed:
    """The diagram without picks: every node is live both ways."""
    live = [(1 << width) - 1 for width in diagram.widths]
    return Narrowed(diagram, (OPEN,) * len(diagram.sizes), live, live)
