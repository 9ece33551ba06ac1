"""The way of a build through the shop: the materials, operations and outside work that it needs, in order of work."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from graphlib import TopologicalSorter
from typing import TypeAlias

from configurator.catalogue.shops import Family
from configurator.catalogue.trade import Material, Operation, Outside
from configurator.catalogue.when import holds
from configurator.faults import Fault, Faulty

Step: TypeAlias = Operation | Outside | Material
"""One step of a route. In a route `when` is empty, and `after` names steps of the same route only."""


def route_of(family: Family, picks: Mapping[str, str]) -> tuple[Step, ...]:
    """The steps of the build with these picks, each behind all that it waits for.

    The order depends on the family alone, never on hours or on what else is picked. An `after` that names something
    which this build does not need falls through to what that came after; hours that one operation adds to another are
    in the other's. Faulty where hours are added to an operation that this build does not have. A family whose steps
    wait for each other in a circle is refused when its shop is read.
    """
    every: list[Step] = [*family.materials, *family.outside, *family.operations]
    steps = {step.id: step for step in every}
    needed = {id for id, step in steps.items() if holds(step.when, picks, family)}
    added = [step for id, step in steps.items() if id in needed and isinstance(step, Operation) and step.adds]
    own = needed - {step.id for step in added}
    waits_for: dict[str, tuple[str, ...]] = {}
    for id in _order_of_work(steps):
        near = [(named,) if named in own else waits_for[named] for named in behind(steps[id])]
        waits_for[id] = tuple(sorted({step for several in near for step in several}))
    _add_hours(steps, own, added)
    return tuple(_settled(steps[id], waits_for[id]) for id in waits_for if id in own)


def behind(step: Step) -> tuple[str, ...]:
    """What a step waits for. Whoever waits for an operation that adds its hours waits for the one that they join."""
    if isinstance(step, Material):
        return ()
    if isinstance(step, Operation) and step.adds:
        return (step.adds,)
    return step.after


def hours_of(operation: Operation, quantity: int) -> Decimal:
    """The hours of a batch of identical blocks: set-up once, run for each."""
    return operation.set_up + operation.run * quantity


def _order_of_work(steps: Mapping[str, Step]) -> tuple[str, ...]:
    """All steps of the family, each behind those that it waits for, in whatever order they were written."""
    return tuple(TopologicalSorter({id: sorted(behind(steps[id])) for id in sorted(steps)}).static_order())


def _add_hours(steps: dict[str, Step], own: set[str], added: list[Operation]) -> None:
    for operation in added:
        into = steps[operation.adds]
        if operation.adds not in own or not isinstance(into, Operation):
            wrong = f"its hours are added to {operation.adds}, which is no operation of this build"
            way_out = f"give it a centre of its own, or a `when` that {operation.adds} shares"
            raise Faulty([Fault(operation.place, operation.id, wrong, way_out)])
        steps[into.id] = into._replace(set_up=into.set_up + operation.set_up, run=into.run + operation.run)


def _settled(step: Step, after: tuple[str, ...]) -> Step:
    return step._replace(when=()) if isinstance(step, Material) else step._replace(when=(), after=after)
