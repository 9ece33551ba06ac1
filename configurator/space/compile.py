"""Compiling tables and tallies into a space."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from configurator.faults import NotKnown
from configurator.space.diagram import Diagram
from configurator.space.layers import Part, build_diagram, empty_diagram
from configurator.space.model import Model
from configurator.space.order import likely_orders
from configurator.space.remainders import ALLOWED, amount_cells, free_cells, is_settled, possible_cells, read_cells
from configurator.space.space import Space
from configurator.space.tables import BY_ARRANGEMENT, Table, Tally, check_shapes

# Of the orders that promise most, how many are compiled to see.
_TRIED = 4


def compile_space(
    sizes: Sequence[int],
    tables: Sequence[Table],
    tallies: Sequence[Tally] = (),
    order: Sequence[int] | None = None,
    cap: int = 200_000,
) -> Space:
    """The space of all builds over choices with so many options, under the standings of the tables, with the tallies to
    sweep.

    `order` is the order in which the diagram settles the choices; without it a good one is searched for. Raises
    NotKnown where more than `cap` states are met for either diagram, ValueError where the shapes do not fit together.
    """
    check_shapes(sizes, tables, tallies)
    if order is not None:
        if sorted(order) != list(range(len(sizes))):
            raise ValueError("an order names every choice once")
        return Space.bare(_compile(sizes, tables, tallies, order, cap))
    smallest: Model | None = None
    for likely in likely_orders(sizes, tables, tallies)[:_TRIED]:
        try:
            model = _compile(sizes, tables, tallies, likely, cap)
        except NotKnown:
            continue
        if smallest is None or _nodes(model) < _nodes(smallest):
            smallest = model
    if smallest is None:
        raise NotKnown(f"the rules need more than {cap} states in every order tried")
    return Space.bare(smallest)


def _compile(
    sizes: Sequence[int], tables: Sequence[Table], tallies: Sequence[Tally], order: Sequence[int], cap: int
) -> Model:
    layer_of = sorted(range(len(order)), key=order.__getitem__)
    terms = _term_parts(sizes, tallies, layer_of)

    def diagram(cells_of: Callable[[bytes], str]) -> Diagram:
        by_layer = [sizes[choice] for choice in order]
        parts = list(terms)
        for table in tables:
            cells = cells_of(table.standings)
            if not is_settled(cells):
                parts.append(Part(read_cells(cells, table.scope, sizes, layer_of)))
            elif cells[0] != ALLOWED:
                return empty_diagram(by_layer, len(tallies))
        return build_diagram(by_layer, parts, len(tallies), cap)

    possible = diagram(possible_cells)
    arranged = any(BY_ARRANGEMENT in table.standings for table in tables)
    return Model(sizes, order, tables, tallies, possible, diagram(free_cells) if arranged else possible)


def _term_parts(sizes: Sequence[int], tallies: Sequence[Tally], layer_of: Sequence[int]) -> list[Part]:
    """The terms that take part in the states: those over several choices whose amounts differ."""
    parts = []
    for number, tally in enumerate(tallies):
        for term in tally.terms:
            cells, amounts = amount_cells(term.amounts)
            if len(term.scope) > 1 and not is_settled(cells):
                parts.append(Part(read_cells(cells, term.scope, sizes, layer_of), number, amounts))
    return parts


def _nodes(model: Model) -> int:
    return model.possible.nodes + model.free.nodes
