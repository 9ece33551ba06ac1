"""Builds that keep all rules but one: what shows that the one is needed, or that it never was."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from configurator.review.descent import Layers
from configurator.space import IMPOSSIBLE, Build, Table
from configurator.space.remainders import ALLOWED, Reading, free_cells, is_settled, possible_cells, read_cells


class Others:
    """A family's rules, any one of which may be left out. `free_only` asks of the others that they give free.

    Of the builds that will do, one much like `like` is found: its options are tried first.
    """

    def __init__(
        self, sizes: Sequence[int], tables: Sequence[Table], order: Sequence[int], like: Build, free_only: bool = False
    ) -> None:
        self._sizes, self._order, self._like = sizes, order, like
        self._layer_of = sorted(range(len(order)), key=order.__getitem__)
        self._options = [_first(like[choice], sizes[choice]) for choice in order]
        self._readings: dict[str, Reading] = {}
        self._over: list[list[str]] = [[] for _ in order]
        self._refusing_all: set[str] = set()
        for table in tables:
            cells = free_cells(table.standings) if free_only else possible_cells(table.standings)
            if not is_settled(cells):
                self._readings[table.name] = read_cells(cells, table.scope, sizes, self._layer_of)
                for choice in table.scope:
                    self._over[self._layer_of[choice]].append(table.name)
            elif cells[0] != ALLOWED:
                self._refusing_all.add(table.name)
        self._all = Layers(self._options, self._readings)

    def build(self, without: str, picks: Mapping[int, int] | None = None, where: Table | None = None) -> Build | None:
        """A build with the picks that keeps every rule but one, and is not impossible in the table `where`.

        None if there is none; NotKnown past the cap.
        """
        asked, picked = None, {self._layer_of[choice]: option for choice, option in (picks or {}).items()}
        cells = possible_cells(where.standings) if where else ALLOWED
        if self._refusing_all - {without} or (is_settled(cells) and cells[0] != ALLOWED):
            return None
        if where and not is_settled(cells):
            asked = read_cells(cells, where.scope, self._sizes, self._layer_of)
        if self._refused_nearby(without, picked, asked):
            return None
        path = self._all.search(without, picked, asked)
        return None if path is None else tuple([path[layer] for layer in self._layer_of])

    def _refused_nearby(self, without: str, picks: Mapping[int, int], asked: Reading | None) -> bool:
        """Whether rules that share a choice with what is asked refuse it already: the usual end, and soon found."""
        centre = {*picks, *(asked.layers if asked else ())}
        near = {rule: self._readings[rule] for layer in sorted(centre) for rule in self._over[layer]}
        near.pop(without, None)
        layers = sorted(centre.union(*(reading.layers for reading in near.values())))
        place = {layer: at for at, layer in enumerate(layers)}
        closer = {rule: _moved(reading, place) for rule, reading in near.items()}
        few = Layers([self._options[layer] for layer in layers], closer)
        picked = {place[layer]: option for layer, option in picks.items()}
        return few.search("", picked, _moved(asked, place) if asked else None) is None


def opposite(table: Table, least: int = IMPOSSIBLE) -> Table:
    """The table that forbids what this one does not: possible is only what it gives `least` or worse."""
    turned = bytes(0 if standing >= least else IMPOSSIBLE for standing in range(3)).ljust(256, b"\0")
    return Table(f"not {table.name}", table.scope, table.standings.translate(turned))


def _moved(reading: Reading, place: Mapping[int, int]) -> Reading:
    return Reading(tuple([place[layer] for layer in reading.layers]), reading.moves)


def _first(option: int, size: int) -> list[int]:
    return [option, *(other for other in range(size) if other != option)]
