"""The space of all builds that the rules allow, under picks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from configurator.space.causes import Causes, find_causes
from configurator.space.diagram import OPEN
from configurator.space.model import Model
from configurator.space.narrowed import Narrowed, whole
from configurator.space.packed import pack, unpack
from configurator.space.sweeps import count, least_key, list_builds, ranked_keys
from configurator.space.tables import FREE, Build, Table, Tally, row_of


class Space:
    """All builds that the tables allow under the picks. Picking gives another space; none ever changes."""

    __slots__ = ("_causes", "_free", "_model", "_possible", "_settled")

    def __init__(self, model: Model, settled: Sequence[int], possible: Narrowed, free: Narrowed) -> None:
        self._model = model
        self._settled = settled
        self._possible = possible
        self._free = free
        self._causes: tuple[Causes, Causes] | None = None

    @classmethod
    def bare(cls, model: Model) -> Space:
        """The space of a compiled model, without picks."""
        possible = whole(model.possible)
        free = possible if model.free is model.possible else whole(model.free)
        return cls(model, (OPEN,) * len(model.sizes), possible, free)

    @classmethod
    def from_bytes(cls, data: bytes) -> Space:
        """The space that `to_bytes` wrote, ready without compiling; ValueError where the bytes are damaged."""
        model, settled = unpack(data)
        picks = {model.order[layer]: option for layer, option in enumerate(settled) if option != OPEN}
        return cls.bare(model).pick_all(picks)

    def to_bytes(self) -> bytes:
        """The space with its tables, tallies, diagrams and picks, for a cache."""
        return pack(self._model, self._settled)

    @property
    def sizes(self) -> tuple[int, ...]:
        """How many options each choice has."""
        return self._model.sizes

    @property
    def order(self) -> tuple[int, ...]:
        """The choices in the order of the diagram's layers; worth keeping for the next time the same tables are
        compiled.
        """
        return self._model.order

    @property
    def tables(self) -> tuple[Table, ...]:
        """The tables that it was compiled from."""
        return self._model.tables

    @property
    def tallies(self) -> tuple[Tally, ...]:
        """The tallies that it was compiled with."""
        return self._model.tallies

    @property
    def picks(self) -> Mapping[int, int]:
        """The option picked for each choice that is picked."""
        settled = self._settled
        return {choice: settled[layer] for choice, layer in enumerate(self._model.layer_of) if settled[layer] != OPEN}

    def pick(self, choice: int, option: int) -> Space:
        """The space with one more pick; an earlier pick of the same choice is replaced."""
        return self.pick_all({choice: option})

    def pick_all(self, picks: Mapping[int, int]) -> Space:
        """The space with these picks as well as its own, which they replace where they meet; ValueError for an option
        that is not there.
        """
        sizes = self._model.sizes
        for choice, option in picks.items():
            if not (0 <= choice < len(sizes) and 0 <= option < sizes[choice]):
                raise ValueError(f"choice {choice} has no option {option}")
        return self._settle(picks)

    def unpick(self, choice: int) -> Space:
        """The space with the pick of one choice lifted."""
        return self._settle({choice: OPEN})

    def _settle(self, changes: Mapping[int, int]) -> Space:
        model = self._model
        settled = list(self._settled)
        for choice, option in changes.items():
            settled[model.layer_of[choice]] = option
        changed = [layer for layer, option in enumerate(settled) if option != self._settled[layer]]
        if not changed:
            return self
        first, last = changed[0], changed[-1]
        possible = self._possible.settle(settled, first, last)
        free = possible if self._free is self._possible else self._free.settle(settled, first, last)
        return Space(model, settled, possible, free)

    def possible(self) -> bool:
        """Whether any build is left."""
        return self._possible.possible

    def any_free(self) -> bool:
        """Whether any build is left that no table gives less than free."""
        return self._free.possible

    def count(self) -> tuple[int, int]:
        """How many builds are left that are free, and how many that are by arrangement; exact."""
        free = count(self._free)
        return free, (0 if self._free is self._possible else count(self._possible) - free)

    def standings(self) -> list[bytes]:
        """For each choice the standing of each option, judged under the picks of all other choices.

        0: some free build has it; 1: only builds by arrangement have it; 2: none has it.
        """
        return [self._standings_of(layer) for layer in self._model.layer_of]

    def standings_of(self, choice: int) -> bytes:
        """The standings of the options of one choice, as in `standings`."""
        return self._standings_of(self._model.layer_of[choice])

    def standing_of(self, choice: int, option: int) -> int:
        """The standing of one option under the picks of all other choices, as in `standings`."""
        return self._standings_of(self._model.layer_of[choice])[option]

    def _standings_of(self, layer: int) -> bytes:
        possible, free = self._possible, self._free
        up, free_up = possible.up[layer + 1], free.up[layer + 1]
        images = possible.diagram.images(layer, possible.down[layer])
        free_images = free.diagram.images(layer, free.down[layer])
        # The last image is that of any option, and not asked for.
        pairs = zip(images, free_images, strict=True)
        return bytes([0 if free_image & free_up else 1 if image & up else 2 for image, free_image in pairs][:OPEN])

    def judge(self, build: Sequence[int]) -> int:
        """The standing of one build, whatever the picks: the worst that any table gives it."""
        sizes = self._model.sizes
        return max((table.standings[row_of(table.scope, sizes, build)] for table in self._model.tables), default=FREE)

    def amount(self, tally_id: str, build: Sequence[int]) -> int:
        """What a build adds up to in a tally; KeyError for a tally that is not there."""
        return self._model.tally(tally_id).amount(self._model.sizes, build)

    def cheapest(self, tally_id: str, free: bool = False) -> tuple[int, Build] | None:
        """The least amount and the first build that has it, of all that are left (or are left and free); None if none
        is.
        """
        return self._extreme(tally_id, free, 1)

    def dearest(self, tally_id: str, free: bool = False) -> tuple[int, Build] | None:
        """The greatest amount and the first build that has it; as `cheapest`."""
        return self._extreme(tally_id, free, -1)

    def _extreme(self, tally_id: str, free: bool, sign: int) -> tuple[int, Build] | None:
        keys = self._model.keys(tally_id, free, sign)
        view = self._free if free else self._possible
        return self._model.build_of(least_key(view, keys), sign) if view.possible else None

    def k_cheapest(self, tally_id: str, free: bool = False) -> Iterator[tuple[int, Build]]:
        """All builds that are left by amount, and those of one amount in ascending order; each is found as it is asked
        for.
        """
        keys = self._model.keys(tally_id, free, 1)
        for key in ranked_keys(self._free if free else self._possible, keys):
            yield self._model.build_of(key, 1)

    def range(self, tally_id: str, free: bool = False) -> tuple[int, int] | None:
        """The least and the greatest amount of the builds that are left; None if none is."""
        least, greatest = self.cheapest(tally_id, free), self.dearest(tally_id, free)
        return (least[0], greatest[0]) if least and greatest else None

    def builds(self, free_only: bool = False) -> Iterator[Build]:
        """All builds that are left, in an order that depends only on the model."""
        return list_builds(self._free if free_only else self._possible, self._model.layer_of)

    def give_ups(self) -> Causes:
        """All smallest sets of picks whose lifting leaves a build.

        One empty set where a build is left anyway; none at all where the tables leave no build whatever is lifted.
        """
        return self._find_causes()[0]

    def conflicts(self) -> Causes:
        """All smallest sets of picks that leave no build.

        None at all where a build is left; one empty set where the tables leave no build whatever is lifted.
        """
        return self._find_causes()[1]

    def _find_causes(self) -> tuple[Causes, Causes]:
        if self._causes is None:
            self._causes = find_causes(self._possible, self._model.order)
        return self._causes

    def rules_behind(self, conflict: Mapping[int, int]) -> tuple[str, ...]:
        """The names of the fewest tables that forbid these picks together; of equally few, the first by name.

        Raises ValueError where the picks can hold together, NotKnown where the search meets its cap.
        """
        # Builds that held together until the last pick break little: only rules that speak of that pick.
        held = Space.bare(self._model).pick_all(conflict)
        nearly = [held.unpick(choice)._possible.first_build() for choice in conflict]
        layer_of = self._model.layer_of
        return self._model.rules.fewest_behind(
            conflict, [tuple([path[layer] for layer in layer_of]) for path in nearly if path is not None]
        )
