"""Questions answered by one sweep over a narrowed diagram, from the end to the start, each in its own algebra.

Counting adds; the cheapest build takes the least of sums. To order builds that tie, a build's own number (its options
read as the digits of one number, choice 0 the greatest digit) stands below its amount in one integer: key = amount x
builds + number. Keys add up along a path as amounts do, no two builds share one, and a key tells both its amount and
its build. So every order here is by amount, then by build.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from heapq import heappop, heappush
from operator import itemgetter
from typing import NamedTuple

from configurator.space.narrowed import Narrowed
from configurator.space.tables import Build

# The last layers of a listing are laid out once and shared by every path that comes to them.
_LAID_OUT = 4096


class Keys(NamedTuple):
    """Weights of a tally as keys: `start`, and `of[layer][option]`; `extras[layer][edge]` more on the edges of some
    layers.
    """

    start: int
    of: Sequence[Sequence[int]]
    extras: Mapping[int, Sequence[int]]


def count(view: Narrowed) -> int:
    """How many builds are left, exactly."""
    if not view.possible:
        return 0
    below = [1]
    for layer in range(len(view.settled) - 1, -1, -1):
        here = [0] * view.diagram.widths[layer]
        for node, arcs in view.arcs()[layer]:
            here[node] = sum([below[child] for _, child in arcs])
        below = here
    return below[0]


def least_key(view: Narrowed, keys: Keys) -> int:
    """The least key of a build that is left; there must be one."""
    return keys.start + _potentials(view, keys)[0][0]


def ranked_keys(view: Narrowed, keys: Keys) -> Iterator[int]:
    """The keys of all builds that are left, ascending, found one at a time.

    A build follows the best edges of the nodes on its way, but for some where it takes one of a lower rank. What waits
    in the heap is a way down to a node, the rank of the edge to take there, and the key of the best build from there
    on: every build waits there once, and the next is always at hand.
    """
    if not view.possible:
        return
    potentials = _potentials(view, keys)
    arcs = [dict(nodes) for nodes in view.arcs()]

    @cache
    def ranked(layer: int, node: int) -> list[tuple[int, int]]:
        """(least key from this node on, node of the next layer) for each of its edges, best first."""
        weights, below = _edge_weights(view, keys, layer, node), potentials[layer + 1]
        return sorted((weights[option] + below[child], child) for option, child in arcs[layer][node])

    heap = [(keys.start + potentials[0][0], 0, 0, keys.start, 0)]  # key, layer, node, spent above it, rank
    while heap:
        key, layer, node, spent, rank = heappop(heap)
        yield key
        while layer < len(arcs):
            edges = ranked(layer, node)
            if rank + 1 < len(edges):
                heappush(heap, (spent + edges[rank + 1][0], layer, node, spent, rank + 1))
            least, child = edges[rank]
            spent += least - potentials[layer + 1][child]
            layer, node, rank = layer + 1, child, 0


def _potentials(view: Narrowed, keys: Keys) -> list[list[int]]:
    """By layer and node, the least key from there to the end (0 at nodes that lie on no build)."""
    below = [0]
    potentials = [below]
    for layer in range(len(view.settled) - 1, -1, -1):
        here = [0] * view.diagram.widths[layer]
        if layer in keys.extras:
            for node, arcs in view.arcs()[layer]:
                weights = _edge_weights(view, keys, layer, node)
                here[node] = min([weights[option] + below[child] for option, child in arcs])
        else:
            weights = keys.of[layer]
            for node, arcs in view.arcs()[layer]:
                here[node] = min([weights[option] + below[child] for option, child in arcs])
        below = here
        potentials.append(here)
    potentials.reverse()
    return potentials


def _edge_weights(view: Narrowed, keys: Keys, layer: int, node: int) -> Sequence[int]:
    """The key of each edge of one node, by option."""
    weights = keys.of[layer]
    if layer not in keys.extras:
        return weights
    size = len(weights)
    extra = keys.extras[layer][node * size : node * size + size]
    return [weight + more for weight, more in zip(weights, extra, strict=True)]


def list_builds(view: Narrowed, layer_of: Sequence[int]) -> Iterator[Build]:
    """All builds that are left, in the order of the diagram: by the option of its first layer, then its second, and so
    on.
    """
    if not view.possible:
        return
    arcs = [dict(nodes) for nodes in view.arcs()]
    cut, endings = _lay_out(view)
    arrange = itemgetter(*layer_of) if len(layer_of) > 1 else tuple[int, ...]
    waiting: list[tuple[int, Build]] = [(0, ())]
    while waiting:
        node, path = waiting.pop()
        if len(path) == cut:
            for ending in endings[node]:
                yield arrange(path + ending)
        else:
            waiting.extend([(child, (*path, option)) for option, child in reversed(arcs[len(path)][node])])


def _lay_out(view: Narrowed) -> tuple[int, dict[int, list[Build]]]:
    """A layer near the end and, for its nodes, all the ways from there to the end."""
    cut = len(view.settled)
    endings: dict[int, list[Build]] = {0: [()]}
    while cut:
        here = view.arcs()[cut - 1]
        if sum(len(endings[child]) for _, arcs in here for _, child in arcs) > _LAID_OUT:
            break
        cut -= 1
        endings = {node: [(option, *rest) for option, child in arcs for rest in endings[child]] for node, arcs in here}
    return cut, endings
