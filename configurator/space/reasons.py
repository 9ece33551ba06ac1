"""The fewest rules that forbid some picks together.

Every set of rules that forbids the picks must take a rule from every correction set: the rules that some build with
those picks breaks, all others being kept. So the fewest are found from below (Ignatiev, Previti, Liffiton,
Marques-Silva, "Smallest MUS extraction with minimal hitting set dualization", CP 2015): take the smallest set that hits
all correction sets known so far; if those rules alone forbid the picks they are the answer, else a build that keeps
them shows another correction set.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from configurator.faults import NotKnown
from configurator.space.diagram import members
from configurator.space.remainders import FORBIDDEN, Reading, is_settled, possible_cells, read_cells
from configurator.space.tables import IMPOSSIBLE, Build, Table, row_of

# Dead ends of one search for a build that keeps a handful of rules, and steps of one search for the rules to try: a few
# dozen are usual.
MOST_STEPS = 50_000


class Rules:
    """Tables by the name of their rule (a rule may have several), ready to say which of them forbid given picks."""

    def __init__(self, sizes: Sequence[int], order: Sequence[int], tables: Sequence[Table]) -> None:
        self.sizes = sizes
        self.order = order
        self.names = sorted({table.name for table in tables})
        self.tables: list[list[Table]] = [[] for _ in self.names]
        number = {name: rule for rule, name in enumerate(self.names)}
        for table in tables:
            self.tables[number[table.name]].append(table)
        self._layer_of = [order.index(choice) for choice in range(len(sizes))]
        self._over = [0] * len(sizes)
        for rule, spoken in enumerate(self.tables):
            for table in spoken:
                for choice in table.scope:
                    self._over[choice] |= 1 << rule
        self._readings: dict[int, list[Reading] | None] = {}

    def fewest_behind(self, picks: Mapping[int, int], builds: Iterable[Build]) -> tuple[str, ...]:
        """The fewest rules that forbid the picks together; of equally few, the first by name.

        `builds` are any builds to start from, best those that break little. Raises ValueError where the picks can hold
        together, NotKnown where the search meets its cap.
        """
        near: Build = (0,) * len(self.sizes)
        corrections = []
        for build in builds:
            near = self._with_picks(build, picks)
            corrections.append(self._broken(near))
        while True:
            if 0 in corrections:
                raise ValueError("these picks can hold together")
            candidate = first_hitting_set(corrections)
            kept = self._keep(candidate, picks, near)
            if kept is None:
                return tuple([self.names[rule] for rule in candidate])
            corrections.append(self._mend(kept, picks, sum(1 << rule for rule in candidate)))

    def _with_picks(self, build: Build, picks: Mapping[int, int]) -> Build:
        return tuple([picks.get(choice, option) for choice, option in enumerate(build)])

    def _broken(self, build: Sequence[int], among: int = -1) -> int:
        """The rules, of those among these bits, that find the build impossible."""
        broken = 0
        for rule in range(len(self.tables)) if among < 0 else members(among):
            for table in self.tables[rule]:
                if table.standings[row_of(table.scope, self.sizes, build)] == IMPOSSIBLE:
                    broken |= 1 << rule
                    break
        return broken

    def _mend(self, build: Build, picks: Mapping[int, int], kept: int) -> int:
        """The rules that the build still breaks once no change of one open choice makes them fewer, and keeps the rest.

        The fewer a correction set holds, the more it tells.
        """
        options = list(build)
        broken = self._broken(options)
        while True:
            better = self._mended(options, broken, picks, kept)
            if better is None:
                return broken
            broken = better

    def _mended(self, options: list[int], broken: int, picks: Mapping[int, int], kept: int) -> int | None:
        """What is still broken after the first change of one option that leaves less; the change is made."""
        for choice in sorted(
            {choice for rule in members(broken) for table in self.tables[rule] for choice in table.scope}
        ):
            if choice in picks:
                continue
            usual = options[choice]
            for option in range(self.sizes[choice]):
                options[choice] = option
                now = broken & ~self._over[choice] | self._broken(options, self._over[choice])
                if not now & kept and now.bit_count() < broken.bit_count():
                    return now
            options[choice] = usual
        return None

    def _keep(self, rules: Iterable[int], picks: Mapping[int, int], near: Build) -> Build | None:
        """A build with the picks that keeps these rules, as much like `near` as can be had; None if there is none."""
        readings: list[Reading] = []
        for rule in rules:
            found = self._readings_of(rule)
            if found is None:
                return None
            readings.extend(found)
        touched: dict[int, list[tuple[int, tuple[tuple[int, ...], ...]]]] = {}
        for index, reading in enumerate(readings):
            for layer, moves in zip(reading.layers, reading.moves, strict=True):
                touched.setdefault(layer, []).append((index, moves))
        layers = sorted(touched)
        build = list(self._with_picks(near, picks))
        dead_ends: set[tuple[int, tuple[int, ...]]] = set()

        def settle(at: int, states: tuple[int, ...]) -> bool:
            if at == len(layers):
                return True
            if (at, states) in dead_ends:
                return False
            choice = self.order[layers[at]]
            usual = build[choice]
            others = () if choice in picks else (option for option in range(self.sizes[choice]) if option != usual)
            for option in (usual, *others):
                after = list(states)
                for index, moves in touched[layers[at]]:
                    after[index] = moves[states[index]][option]
                if min(after) >= 0 and settle(at + 1, tuple(after)):
                    build[choice] = option
                    return True
            if len(dead_ends) == MOST_STEPS:
                raise NotKnown("too many dead ends while looking for the fewest rules behind a conflict")
            dead_ends.add((at, states))
            return False

        return tuple(build) if settle(0, (0,) * len(readings)) else None

    def _readings_of(self, rule: int) -> list[Reading] | None:
        """The rule's tables read in the order of the layers; None where one of them forbids everything."""
        if rule not in self._readings:
            readings: list[Reading] = []
            for table in self.tables[rule]:
                cells = possible_cells(table.standings)
                if not is_settled(cells):
                    readings.append(read_cells(cells, table.scope, self.sizes, self._layer_of))
                elif cells[0] == FORBIDDEN:
                    return None
            self._readings[rule] = readings
        return self._readings[rule]


def first_hitting_set(sets: Sequence[int]) -> tuple[int, ...]:
    """The smallest set of numbers that shares one with each of `sets` (bits, none empty); of equally small ones, the
    first in order. Raises NotKnown past the cap of steps.
    """
    steps = 0

    def hit(sets: Sequence[int], least: int, size: int) -> tuple[int, ...] | None:
        """The first `size` numbers or fewer, none below `least`, that hit all of `sets`."""
        nonlocal steps
        steps += 1
        if steps > MOST_STEPS:
            raise NotKnown("too many combinations of rules while looking for the fewest behind a conflict")
        if not sets:
            return ()
        if _apart(sets) > size:
            return None
        for number in range(least, min(sets).bit_length()):
            missed = [bits >> number + 1 << number + 1 for bits in sets if not bits >> number & 1]
            if len(missed) == len(sets) or 0 in missed:
                continue
            found = hit(missed, number + 1, size - 1)
            if found is not None:
                return (number, *found)
        return None

    size = _apart(sets)
    while (found := hit(sets, 0, size)) is None:
        size += 1
    return found


def _apart(sets: Sequence[int]) -> int:
    """How many of the sets can be told apart at once (greedily, smallest first): as many numbers are needed to hit them
    all.
    """
    seen = apart = 0
    for bits in sorted(sets, key=int.bit_count):
        if not bits & seen:
            seen |= bits
            apart += 1
    return apart
