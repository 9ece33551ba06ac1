"""What a space was compiled to, before any pick."""

from __future__ import annotations

from collections.abc import Sequence
from math import prod

from configurator.space.diagram import Diagram
from configurator.space.reasons import Rules
from configurator.space.sweeps import Keys
from configurator.space.tables import Build, Table, Tally


class Model:
    """What a space was compiled to: two diagrams, of the builds that are possible and of those that are free, with what
    they came from.
    """

    def __init__(
        self,
        sizes: Sequence[int],
        order: Sequence[int],
        tables: Sequence[Table],
        tallies: Sequence[Tally],
        possible: Diagram,
        free: Diagram,
    ) -> None:
        self.sizes = tuple(sizes)
        self.order = tuple(order)
        self.tables = tuple(tables)
        self.tallies = tuple(tallies)
        self.possible = possible
        self.free = free
        self.layer_of = tuple(sorted(range(len(order)), key=order.__getitem__))
        self.rules = Rules(self.sizes, self.order, self.tables)
        self._number_of = {tally.id: number for number, tally in enumerate(self.tallies)}
        self._keys: dict[tuple[str, bool, int], Keys] = {}

    def tally(self, tally_id: str) -> Tally:
        """The tally of that id; KeyError if there is none."""
        return self.tallies[self._number_of[tally_id]]

    def keys(self, tally_id: str, free: bool, sign: int) -> Keys:
        """The tally's weights as keys for sweeping one of the diagrams, least first for sign 1 and greatest first for
        sign -1.
        """
        wanted = (tally_id, free, sign)
        if wanted not in self._keys:
            self._keys[wanted] = self._make_keys(tally_id, free, sign)
        return self._keys[wanted]

    def _make_keys(self, tally_id: str, free: bool, sign: int) -> Keys:
        scale = sign * prod(self.sizes)
        digit = prod(self.sizes)
        start = 0
        of: list[list[int]] = [[] for _ in self.sizes]
        for choice, size in enumerate(self.sizes):
            digit //= size
            of[self.layer_of[choice]] = [option * digit for option in range(size)]
        for term in self.tally(tally_id).terms:
            if len(set(term.amounts)) == 1:
                start += scale * term.amounts[0]
            elif len(term.scope) == 1:
                layer = self.layer_of[term.scope[0]]
                of[layer] = [key + scale * amount for key, amount in zip(of[layer], term.amounts, strict=True)]
        extras = (self.free if free else self.possible).extras[self._number_of[tally_id]]
        return Keys(start, of, {layer: [scale * amount for amount in amounts] for layer, amounts in extras.items()})

    def build_of(self, key: int, sign: int) -> tuple[int, Build]:
        """The amount and the build that a key stands for."""
        amount, number = divmod(key, prod(self.sizes))
        build = []
        for size in reversed(self.sizes):
            number, option = divmod(number, size)
            build.append(option)
        return sign * amount, tuple(reversed(build))
