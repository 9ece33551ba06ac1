"""Why picks leave no build: the smallest sets of picks to give up, and the smallest sets that cannot hold together.

The two are each other's hitting sets (Reiter, "A theory of diagnosis from first principles", Artificial Intelligence
32, 1987): giving up a set helps only if it takes a pick from every conflict, and a conflict holds only if it keeps a
pick of every give-up. Sets of picks are integers here, a bit for each layer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from configurator.space.diagram import OPEN, Diagram, members
from configurator.space.narrowed import Narrowed

# Past this many sets at one node the largest are let go, and the answer says that it is not exact.
MOST_SETS = 1000


class Causes(tuple[frozenset[int], ...]):
    """Sets of choices, smallest first, then by their choices. Each is right, and smallest of its kind.

    `exact` says whether none is missing.
    """

    exact: bool

    def __new__(cls, sets: Iterable[frozenset[int]], exact: bool) -> Causes:
        causes = super().__new__(cls, sorted(sets, key=lambda choices: (len(choices), sorted(choices))))
        causes.exact = exact
        return causes


def find_causes(view: Narrowed, order: Sequence[int]) -> tuple[Causes, Causes]:
    """All smallest sets of picks whose lifting leaves a build, and all smallest sets of picks that leave none.

    Where a build is left as it is, nothing need be lifted (one empty set) and nothing clashes (no set); where even
    lifting everything leaves no build it is the other way round.
    """
    give_ups, swept = _sweep_give_ups(view.diagram, view.settled)
    conflicts, hit = _hitting_sets(give_ups)
    if not (swept and hit):
        # Where sets were let go, one that is left need not be a smallest, nor a hitting set of the rest a conflict.
        everything = sum(1 << layer for layer, option in enumerate(view.settled) if option != OPEN)

        def helps(lifted: int) -> bool:
            return _left_without(view, lifted)

        def clashes(held: int) -> bool:
            return not helps(everything & ~held)

        give_ups = [_shrink(given, helps) for given in give_ups]
        conflicts = [_shrink(held, clashes) for held in [*conflicts, everything] if clashes(held)]
    return _as_choices(give_ups, swept, order), _as_choices(conflicts, swept and hit, order)


def _sweep_give_ups(diagram: Diagram, settled: Sequence[int]) -> tuple[list[int], bool]:
    """Smallest give-ups, and whether none was let go: one sweep, at each node the smallest sets that the layers from
    there on need.
    """
    if not diagram.widths[0]:
        return [], True
    picked = [layer for layer, option in enumerate(settled) if option != OPEN]
    bottom = picked[-1] + 1 if picked else 0
    below: list[tuple[int, ...]] = [(0,)] * diagram.widths[bottom]
    exact = True
    for layer in range(bottom - 1, -1, -1):
        size, edges, pick = diagram.sizes[layer], diagram.edges[layer], settled[layer]
        known: dict[tuple[tuple[int, ...], ...], tuple[int, ...]] = {}
        here = []
        for start in range(0, len(edges), size):
            reached = tuple([below[child] if child >= 0 else () for child in edges[start : start + size]])
            sets = known.get(reached)
            if sets is None:
                sets, whole = _smallest(_join(reached, pick, layer))
                known[reached] = sets
                exact = exact and whole
            here.append(sets)
        below = here
    return list(below[0]), exact


def _join(reached: Sequence[tuple[int, ...]], pick: int, layer: int) -> set[int]:
    """The give-ups of a node from those its edges reach: the picked edge is had for nothing, any other costs giving the
    pick up.
    """
    joined = {given for sets in set(reached) for given in sets}
    if pick == OPEN:
        return joined
    return {given | 1 << layer for given in joined}.union(reached[pick])


def _smallest(sets: Iterable[int]) -> tuple[tuple[int, ...], bool]:
    """The sets that contain no other of them, and whether all of those are there."""
    kept: list[int] = []
    for candidate in sorted(sets, key=lambda bits: (bits.bit_count(), bits)):
        for smaller in kept:
            if smaller & candidate == smaller:
                break
        else:
            if len(kept) == MOST_SETS:
                return tuple(kept), False
            kept.append(candidate)
    return tuple(kept), True


def _hitting_sets(family: Sequence[int]) -> tuple[list[int], bool]:
    """All smallest sets that share something with every set of the family, which is taken in one by one (Berge,
    Hypergraphs, 1989).
    """
    hitting = [0]
    exact = True
    for given in family:
        hit = [held for held in hitting if held & given]
        grown = {held | 1 << element for held in hitting if not held & given for element in members(given)}
        smallest, whole = _smallest([*hit, *grown])
        hitting = list(smallest)
        exact = exact and whole
    return hitting, exact


def _left_without(view: Narrowed, lifted: int) -> bool:
    """Whether a build is left once the picks of these layers are lifted."""
    settled = tuple([OPEN if lifted >> layer & 1 else option for layer, option in enumerate(view.settled)])
    return view.settle(settled, 0, len(settled) - 1).possible


def _shrink(held: int, enough: Callable[[int], bool]) -> int:
    """A set within `held` that is still enough, and of which nothing can be left out."""
    for element in members(held):
        less = held & ~(1 << element)
        if enough(less):
            held = less
    return held


def _as_choices(found: Iterable[int], exact: bool, order: Sequence[int]) -> Causes:
    return Causes({frozenset([order[layer] for layer in members(bits)]) for bits in found}, exact)
