"""A search for one build, down the choices and back, that never asks the same question twice.

What remains of all rules before a choice is one integer. A remainder that was seen to lead nowhere, or to a build, is
remembered: by the search itself, and, once the rule that it leaves out can no longer be told from one that is kept, by
all searches over the same layers. So a thousand searches cost little more than ten.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from configurator.faults import NotKnown
from configurator.space.remainders import Reading

MOST_REMAINDERS = 300_000
"""Remainders that one search may meet; more is given up as not known."""

_NOWHERE = -1

_Waiting = tuple[int, int, Iterator[int]]  # both remainders before a layer, and the options left to try


class _Field(NamedTuple):
    """Where a rule's remainder stands in the integer, and what each option makes of it in one layer."""

    rule: str
    shift: int
    mask: int
    moves: tuple[tuple[int, ...], ...]


class Layers:
    """Rules read in the order of some layers. `options` has those of each layer, in the order of trying them."""

    def __init__(self, options: Sequence[Sequence[int]], readings: Mapping[str, Reading]) -> None:
        self.options = options
        self.first = {rule: reading.layers[0] for rule, reading in readings.items()}
        self.ways: list[dict[int, int]] = [{} for _ in options]
        self._beginning: list[list[_Field]] = [[] for _ in options]
        self._going_on: list[list[_Field]] = [[] for _ in options]
        self._touched = [0] * len(options)
        self._steps: list[dict[int, list[int]]] = [{} for _ in options]
        self._begun: dict[int, list[int]] = {}
        shift = 0
        for rule, reading in readings.items():
            bits = reading.most.bit_length()
            mask = (1 << bits) - 1
            for layer, moves in zip(reading.layers, reading.moves, strict=True):
                fields = self._going_on if layer != reading.layers[0] else self._beginning
                fields[layer].append(_Field(rule, shift, mask, moves))
                self._touched[layer] |= mask << shift
            shift += bits

    def search(self, without: str, picks: Mapping[int, int], asked: Reading | None) -> list[int] | None:
        """The options by layer of a build that keeps every rule but `without`, has the picks, and is what is asked.

        None if there is none; NotKnown past the cap.
        """
        return _Search(self, without, picks, asked).path()

    def step(self, layer: int, state: int, option: int, without: str) -> int:
        """The remainder after an option, or -1 where a rule other than `without` is broken."""
        touched = self._touched[layer]
        read = state & touched
        if self.first.get(without) == layer:
            row = self._row(layer, read, self._begin(layer, without))
        else:
            steps = self._steps[layer]
            found = steps.get(read)
            row = found if found is not None else steps.setdefault(read, self._row(layer, read, self._begin(layer)))
        after = row[option]
        return after if after < 0 else state & ~touched | after

    def _begin(self, layer: int, without: str = "") -> list[int]:
        """By option, the remainders of the rules that begin in the layer: the same for every state."""
        if not without and layer in self._begun:
            return self._begun[layer]
        row = [0] * len(self.options[layer])
        for field in self._beginning[layer]:
            if field.rule != without:
                _take_in(row, field, 0)
        if not without:
            self._begun[layer] = row
        return row

    def _row(self, layer: int, read: int, begun: Sequence[int]) -> list[int]:
        """By option, the remainders of all rules of the layer. What is settled has nothing more to ask."""
        row = list(begun)
        for field in self._going_on[layer]:
            remainder = read >> field.shift & field.mask
            if remainder:
                _take_in(row, field, remainder)
        return row


def _take_in(row: list[int], field: _Field, remainder: int) -> None:
    shift = field.shift
    for option, move in enumerate(field.moves[remainder]):
        if move < 0:
            row[option] = _NOWHERE
        elif move and row[option] >= 0:
            row[option] |= move << shift


class _Search:
    """One search. Its keys are a remainder of the rules, and one of what is asked beside them."""

    def __init__(self, layers: Layers, without: str, picks: Mapping[int, int], asked: Reading | None) -> None:
        self.layers, self.without, self.picks = layers, without, picks
        self.asked = dict(zip(asked.layers, asked.moves, strict=True)) if asked else {}
        # Past the first choice that the missing rule speaks of, a rule left out looks like one that is kept.
        self.shared = max(layers.first.get(without, -1), asked.layers[0] if asked else -1, *picks, -1) + 1
        self.own: dict[tuple[int, int, int], int] = {}
        self.met = 0

    def path(self) -> list[int] | None:
        """The options by layer of the first build that will do."""
        last = len(self.layers.options)
        waiting: list[_Waiting] = [(0, 0, self.choices(0))] if last else []
        taken: list[int] = []
        while waiting:
            layer = len(waiting) - 1
            state, beside, options = waiting[-1]
            for option in options:
                after, more = self.move(layer, state, beside, option)
                known = _NOWHERE if after < 0 else self.known(layer + 1, after, more)
                if known is None:
                    taken.append(option)
                    waiting.append((after, more, self.choices(layer + 1)))
                    break
                if known >= 0:
                    return self.finish([*taken, option], waiting, after, more)
            else:
                self.learn(layer, state, beside, _NOWHERE)
                waiting.pop()
                del taken[-1:]
        return None if last else []

    def choices(self, layer: int) -> Iterator[int]:
        """The options to try in a layer."""
        picked = self.picks.get(layer)
        return iter(self.layers.options[layer]) if picked is None else iter((picked,))

    def move(self, layer: int, state: int, beside: int, option: int) -> tuple[int, int]:
        """Both remainders after an option; the first is -1 where the option will not do."""
        if layer in self.asked:
            beside = self.asked[layer][beside][option]
            if beside < 0:
                return _NOWHERE, 0
        return self.layers.step(layer, state, option, self.without), beside

    def known(self, layer: int, state: int, beside: int) -> int | None:
        """The way on from here (any number at the end), -1 for a dead end, None where nobody knows yet."""
        if layer == len(self.layers.options):
            return 0
        if layer >= self.shared and not beside:
            return self.layers.ways[layer].get(state)
        return self.own.get((layer, state, beside))

    def learn(self, layer: int, state: int, beside: int, way: int) -> None:
        """Remember the way on from here."""
        self.met += 1
        if self.met > MOST_REMAINDERS:
            raise NotKnown(f"more than {MOST_REMAINDERS:,} combinations while looking for a build that breaks one rule")
        if layer >= self.shared and not beside:
            self.layers.ways[layer][state] = way
        else:
            self.own[layer, state, beside] = way

    def finish(self, path: list[int], waiting: Sequence[_Waiting], state: int, beside: int) -> list[int]:
        """The whole path, once it has come to where the way on is known; all of it is remembered."""
        for layer, (before, asked, _) in enumerate(waiting):
            self.learn(layer, before, asked, path[layer])
        for layer in range(len(path), len(self.layers.options)):
            way = self.known(layer, state, beside)
            assert way is not None
            path.append(way)
            state, beside = self.move(layer, state, beside, way)
        return path
