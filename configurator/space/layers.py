"""Compiling tables into a diagram, layer by layer.

Down: the state before a layer is what remains of every table that is open there, packed as bit fields into one integer.
Tables with no choice in a layer keep their field untouched, so a choice costs nothing to the tables that do not speak
of it. Up: states from which no build is reached fall away, and states with the same edges become one node.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from configurator.faults import NotKnown
from configurator.space.diagram import Diagram
from configurator.space.remainders import Reading

_NOWHERE = -1


class Part(NamedTuple):
    """A table or a term as the diagram takes it in. A term adds `amounts[character]` to `tally`; a table has no
    amounts.
    """

    reading: Reading
    tally: int = 0
    amounts: tuple[int, ...] | None = None


class _Field(NamedTuple):
    """Where a part's remainder stands in the state, and its moves in one layer."""

    shift: int
    mask: int
    moves: tuple[tuple[int, ...], ...]
    part: Part


_Paid = tuple[int, ...]  # an amount for each tally; empty where there is none
_Step = tuple[int, _Paid]  # the fields after a layer, or _NOWHERE, and what is paid on the way


class _Layer(NamedTuple):
    """States of one layer after the way down: for each, one edge an option, to a state of the next layer, and what that
    edge pays.
    """

    edges: list[int]
    paid: list[_Paid]


def build_diagram(sizes: Sequence[int], parts: Sequence[Part], tallies: int, cap: int) -> Diagram:
    """The diagram of the builds that all parts allow; `sizes` by layer.

    Raises NotKnown when the way down meets more than `cap` states.
    """
    return _fold(sizes, _unfold(sizes, _place(len(sizes), parts), tallies, cap), tallies)


def empty_diagram(sizes: Sequence[int], tallies: int) -> Diagram:
    """The diagram of no builds at all."""
    return Diagram(tuple(sizes), (0,) * (len(sizes) + 1), ((),) * len(sizes), ({},) * tallies)


def _place(layers: int, parts: Sequence[Part]) -> list[list[_Field]]:
    """The fields that each layer reads."""
    fields: list[list[_Field]] = [[] for _ in range(layers)]
    shift = 0
    for part in parts:
        bits = part.reading.most.bit_length()
        for layer, moves in zip(part.reading.layers, part.reading.moves, strict=True):
            fields[layer].append(_Field(shift, (1 << bits) - 1, moves, part))
        shift += bits
    return fields


def _unfold(sizes: Sequence[int], fields: list[list[_Field]], tallies: int, cap: int) -> list[_Layer]:
    """The way down: all states that are reached, layer by layer."""
    layers = []
    states = [0]
    met = 1
    for size, read in zip(sizes, fields, strict=True):
        touched = 0
        for field in read:
            touched |= field.mask << field.shift
        kept = ~touched
        steps: dict[int, list[_Step]] = {}
        numbers: dict[int, int] = {}
        edges: list[int] = []
        paid: list[_Paid] = []
        for state in states:
            before = state & touched
            row = steps.get(before)
            if row is None:
                row = steps[before] = [_step(read, before, option, tallies) for option in range(size)]
            rest = state & kept
            for after, price in row:
                if after >= 0:
                    edges.append(numbers.setdefault(rest | after, len(numbers)))
                else:
                    edges.append(_NOWHERE)
                paid.append(price)
        layers.append(_Layer(edges, paid))
        states = list(numbers)
        met += len(states)
        if met > cap:
            raise NotKnown(f"more than {cap} states while compiling")
    return layers


def _step(fields: list[_Field], before: int, option: int, tallies: int) -> _Step:
    """What one option makes of the fields that its layer reads."""
    after = 0
    paid = [0] * tallies
    for shift, mask, moves, part in fields:
        move = moves[(before >> shift) & mask][option]
        if move > 0:
            after |= move << shift
        elif move < 0:
            if part.amounts is None:
                return _NOWHERE, ()
            paid[part.tally] += part.amounts[-move]
    return after, tuple(paid) if any(paid) else ()


def _fold(sizes: Sequence[int], layers: list[_Layer], tallies: int) -> Diagram:
    """The way up: dead ends dropped, equal states merged."""
    widths = [1]
    edges: list[tuple[int, ...]] = []
    extras: list[dict[int, list[int]]] = [{} for _ in range(tallies)]
    node_of = [0, _NOWHERE]  # by state, and last for the edge to nowhere
    for layer in range(len(sizes) - 1, -1, -1):
        size = sizes[layer]
        below = [node_of[state] for state in layers[layer].edges]
        paid = layers[layer].paid
        paying = any(paid)
        numbers: dict[tuple[object, ...], int] = {}
        node_of = []
        kept: list[int] = []
        nowhere = (_NOWHERE,) * size
        for start in range(0, len(below), size):
            children = tuple(below[start : start + size])
            if children == nowhere:
                node_of.append(_NOWHERE)
                continue
            key: tuple[object, ...] = children
            if paying:
                prices = paid[start : start + size]
                key = (children, *(price if child >= 0 else () for child, price in zip(children, prices, strict=True)))
            number = numbers.get(key)
            if number is None:
                number = numbers[key] = len(numbers)
                kept.append(start)
            node_of.append(number)
        node_of.append(_NOWHERE)
        widths.append(len(numbers))
        edges.append(tuple([child for start in kept for child in below[start : start + size]]))
        if paying:
            _note_extras(extras, layer, [price for start in kept for price in paid[start : start + size]], edges[-1])
    if not widths[-1]:
        return empty_diagram(sizes, tallies)
    return Diagram(tuple(sizes), tuple(reversed(widths)), tuple(reversed(edges)), tuple(extras))


def _note_extras(
    extras: Sequence[dict[int, list[int]]], layer: int, paid: Sequence[_Paid], edges: Sequence[int]
) -> None:
    """Split what a layer's edges pay by tally; a tally that is paid nothing in a layer has no entry for it."""
    for tally, by_layer in enumerate(extras):
        amounts = [price[tally] if price and child >= 0 else 0 for price, child in zip(paid, edges, strict=True)]
        if any(amounts):
            by_layer[layer] = amounts
