"""The order in which a diagram settles the choices, which decides its size.

A layer is at most as wide as the product of the distinct remainders of the tables that are open there, and how many
remainders a table has depends only on which of its choices are settled. So orders are compared by the sum of those
products, without compiling any: some are built choice by choice, each next one keeping its layer narrow, and then every
choice is tried in all places and left where the sum is least (sifting; Rudell, "Dynamic variable ordering for ordered
binary decision diagrams", ICCAD 1993).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from math import exp2, log2, prod
from operator import add

from configurator.space.remainders import amount_cells, cut, is_settled
from configurator.space.tables import IMPOSSIBLE, Table, Tally

# How many of the greedy orders (one for each first choice) are sifted, the most rounds of moving all choices, and the
# least gain that counts as one.
_SIFTED = 12
_ROUNDS = 6
_WORTHWHILE = 1e-9

# Past this logarithm a layer is out of reach anyway; the sum of the widths must stay a float.
_GREATEST_WIDTH = 500.0

_DEAD = chr(IMPOSSIBLE)
_SETTLED = ""  # stands for all remainders that have nothing more to ask


class _Voice:
    """What one table or term adds to the width of a layer."""

    def __init__(self, cells: str, scope: Sequence[int], sizes: Sequence[int], dead: str | None) -> None:
        self.choices = sum(1 << choice for choice in scope)
        self._scope = scope
        self._sizes = sizes
        self._dead = dead
        self._remainders: dict[int, frozenset[str]] = {0: frozenset([cells])}

    def width(self, settled: int) -> float:
        """The logarithm of the number of distinct remainders once these choices (bits) are settled."""
        return log2(max(1, len(self._after(settled & self.choices))))

    def _after(self, settled: int) -> frozenset[str]:
        found = self._remainders.get(settled)
        if found is None:
            last = settled.bit_length() - 1
            stride = prod(self._sizes[choice] for choice in self._scope if choice > last)
            parts = set()
            for remainder in self._after(settled ^ 1 << last):
                for part in cut(remainder, self._sizes[last], stride) if remainder else [_SETTLED]:
                    if part and not is_settled(part):
                        parts.add(part)
                    elif part[:1] != self._dead:
                        parts.add(_SETTLED)
            found = self._remainders[settled] = frozenset(parts)
        return found


class _Search:
    """Orders of the choices, and the sum of the widths of their layers."""

    def __init__(self, sizes: Sequence[int], voices: Sequence[_Voice]) -> None:
        self._choices = range(len(sizes))
        self._voices = [[voice for voice in voices if voice.choices >> choice & 1] for choice in self._choices]
        self._near = [0] * len(sizes)
        for choice in self._choices:
            for voice in self._voices[choice]:
                self._near[choice] |= voice.choices
        self._growths: list[dict[int, float]] = [{} for _ in sizes]

    def growth(self, choice: int, settled: int) -> float:
        """By how much settling the choice widens the next layer against its own, as a logarithm."""
        near = settled & self._near[choice]
        growth = self._growths[choice].get(near)
        if growth is None:
            growth = sum(voice.width(near | 1 << choice) - voice.width(near) for voice in self._voices[choice])
            self._growths[choice][near] = growth = round(growth, 9)  # alike on every machine
        return growth

    def greedy(self, first: int) -> list[int]:
        """An order that begins with `first` and takes next what widens least; ties go to the lower choice."""
        order = [first]
        settled = 1 << first
        left = [choice for choice in self._choices if choice != first]
        while left:
            best = min(left, key=lambda choice: self.growth(choice, settled))
            left.remove(best)
            order.append(best)
            settled |= 1 << best
        return order

    def cost(self, order: Sequence[int]) -> float:
        """The sum of the widths of all layers."""
        cost, width, settled = 0.0, 0.0, 0
        for choice in order:
            width += self.growth(choice, settled)
            settled |= 1 << choice
            cost += _breadth(width)
        return cost

    def sift(self, order: Sequence[int]) -> list[int]:
        """The order after every choice was moved to its best place, in rounds until nothing improves."""
        order = list(order)
        cost = self.cost(order)
        for _ in range(_ROUNDS):
            before = cost
            for choice in self._choices:
                order, cost = self._move(order, choice, cost)
            if cost >= before:
                break
        return order

    def _move(self, order: list[int], choice: int, cost: float) -> tuple[list[int], float]:
        """The best of the orders that differ in the place of one choice, and its cost."""
        rest = [other for other in order if other != choice]
        width, settled = 0.0, 0
        without, within = [], [_breadth(self.growth(choice, 0))]
        for other in rest:
            width += self.growth(other, settled)
            settled |= 1 << other
            without.append(_breadth(width))
            within.append(_breadth(width + self.growth(choice, settled)))
        # Above its place the layers are as wide as without the choice settled, from its place on as with it.
        above = [0.0, *accumulate(without)]
        below = list(accumulate(reversed(within)))
        costs = list(map(add, above, reversed(below)))
        place = min(range(len(costs)), key=costs.__getitem__)
        if costs[place] > cost * (1 - _WORTHWHILE):
            return order, cost
        return [*rest[:place], choice, *rest[place:]], costs[place]


def _breadth(width: float) -> float:
    return exp2(min(width, _GREATEST_WIDTH))


def likely_orders(sizes: Sequence[int], tables: Sequence[Table], tallies: Sequence[Tally]) -> list[tuple[int, ...]]:
    """Different orders that promise small diagrams, the most promising first; at least one."""
    if not sizes:
        return [()]
    voices = [_Voice(table.standings.decode("latin-1"), table.scope, sizes, _DEAD) for table in tables]
    for tally in tallies:
        for term in tally.terms:
            if len(term.scope) > 1:
                voices.append(_Voice(amount_cells(term.amounts)[0], term.scope, sizes, None))
    search = _Search(sizes, voices)
    begun = sorted((search.greedy(first) for first in range(len(sizes))), key=search.cost)
    orders = {tuple(search.sift(order)) for order in begun[:_SIFTED]}
    return sorted(orders, key=lambda order: (round(search.cost(order), 3), order))
