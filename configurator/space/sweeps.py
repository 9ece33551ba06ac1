"""Questions answered by one sweep over a narrowed diagram, from the end to the start, each in its own algebra.

Counting adds; the cheapest build takes the least of sums. To order builds that tie, a build's own number (its options
read as the digits of one number, choice 0 the greatest digit) stands below its amount in one integer: key = amount x
builds + number. Keys add up along a path as amounts do, no two builds share one, and a key tells both its amount and
its build. So every order here is by amount, then by build.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
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

    A build leaves the best path of some node by taking that node's next best edge: every build does so in one way only.
    What waits in the heap is such a leave, with the key of the best build beyond it, so the next build is always at
    hand.
    """
    if not view.possible:
        return
    potentials = _potentials(view, keys)
    layers = len(view.settled)
    arcs = [dict(nodes) for nodes in view.arcs()]
    ranks: list[dict[int, list[tuple[int, int]]]] = [{} for _ in range(layers)]

    def ranked(layer: int, node: int) -> list[tuple[int, int]]:
        """(best key from this node on, node of the next layer) by edge, best first."""
        found = ranks[layer].get(node)
        if found is None:
            weights = _edge_weights(view, keys, layer, node)
            below = potentials[layer + 1]
            found = ranks[layer][node] = sorted(
                (weights[option] + below[child], child) for option, child in arcs[layer][node]
            )
        return found

    yield keys.start + potentials[0][0]
    heap: list[tuple[int, int, int, int, int]] = []  # key, layer, node, spent above it, rank of the edge to take

    def leave(layer: int, node: int, spent: int) -> None:
        """Note the second best edge of every node on the best path from here."""
        for at in range(layer, layers):
            edges = ranked(at, node)
            if len(edges) > 1:
                heappush(heap, (spent + edges[1][0], at, node, spent, 1))
            best, child = edges[0]
            spent += best - potentials[at + 1][child]
            node = child

    leave(0, 0, keys.start)
    while heap:
        key, layer, node, spent, rank = heappop(heap)
        yield key
        edges = ranked(layer, node)
        if rank + 1 < len(edges):
            heappush(heap, (spent + edges[rank + 1][0], layer, node, spent, rank + 1))
        taken, child = edges[rank]
        leave(layer + 1, child, spent + taken - potentials[layer + 1][child])


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
