"""Evidence: what was measured on the caller's parts, held against what the options of a choice measure.

All that is given must match an option, each within its tolerance; what can be worked out from it counts as given. A
value that fits no option, or two, is never rounded to one.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from configurator import language
from configurator.catalogue.choices import Choice, Option
from configurator.dimensions import NUMBER
from configurator.load.words import suggest
from configurator.units import Misread, Quantity, read_quantity, twelve_digits

Measured = Mapping[str, Quantity]


class Match(NamedTuple):
    """The options that what was measured fits; where it is none, the nearest ones. `given` says it in words."""

    options: tuple[str, ...]
    nearest: tuple[str, ...]
    given: str


def names_measured(choice: Choice) -> tuple[str, ...]:
    """What can be measured of a choice: the measures of its options, and what others of them are worked out from."""
    names = [name for option in choice.options for name in option.measures]
    names += [name for formula in choice.derive.values() for name in language.read(formula).names]
    return tuple(dict.fromkeys(names))


def read_measured(choice: Choice, given: Mapping[str, object]) -> dict[str, Quantity]:
    """Measurements as quantities. Misread for a name that is not measured here, or a value of the wrong kind."""
    known = names_measured(choice)
    units = {name: quantity.unit for option in choice.options for name, quantity in option.measures.items()}
    taken = {}
    for name, value in given.items():
        if name not in known:
            raise Misread(f"{name} is not measured of {choice.id}", suggest(name, known, "measures"))
        taken[name] = read_quantity(text_of(value), units.get(name, ""))
    return taken


def text_of(value: object) -> str:
    """A value as it might have been spoken. Misread for what nobody can mean: true, a list, a date."""
    if isinstance(value, str):
        return value
    if isinstance(value, (int, Decimal)) and not isinstance(value, bool):
        return str(value)
    raise Misread("is neither a text nor a number", 'write it between quotes: "22.1 mm"')


def sole_measure(choice: Choice, text: str) -> str:
    """The measure that a bare quantity must be of, the only one of its kind. Misread where that is not one."""
    kinds = {name: quantity.dimension for option in choice.options for name, quantity in option.measures.items()}
    dimension = read_quantity(text).dimension
    fitting = [name for name, kind in kinds.items() if kind == dimension]
    if len(fitting) != 1:
        names = ", ".join(fitting or kinds)
        raise Misread(
            f"{text!r} does not say what was measured", f"name it: {choice.id}.NAME, where NAME is one of {names}"
        )
    return fitting[0]


def is_count_alone(measured: Measured) -> bool:
    """Whether nothing but counts is given: that is looking, not measuring."""
    return all(quantity.dimension == NUMBER for quantity in measured.values())


def match(choice: Choice, measured: Measured) -> Match:
    """The options that fit. Misread where something that should be worked out cannot be."""
    derived = _derived(choice, measured)
    whole = {**measured, **derived}
    apart = {option.id: misses for option in choice.options if (misses := _misses(option, whole)) is not None}
    fitting = tuple(id for id, misses in apart.items() if not misses)
    nearest = _nearest({id: misses for id, misses in apart.items() if misses})
    return Match(fitting, fitting or nearest, _told(measured, derived))


def _misses(option: Option, whole: Measured) -> dict[str, Decimal] | None:
    """How far off each measure is that does not match; None where the option has none of what was measured."""
    common = [name for name in option.measures if name in whole]
    misses = {}
    for name in common:
        apart = twelve_digits(abs(whole[name].value - option.measures[name].value))
        within = option.tolerance[name].value if name in option.tolerance else Decimal(0)
        if apart > twelve_digits(within):
            misses[name] = apart
    return misses if common else None


def _nearest(apart: Mapping[str, Mapping[str, Decimal]]) -> tuple[str, ...]:
    """The options that the fewest measures speak against; of those against the same measures, the least far off."""
    fewest = min((len(misses) for misses in apart.values()), default=0)
    least: dict[tuple[str, ...], list[Decimal]] = {}
    for misses in apart.values():
        if len(misses) == fewest:
            least[tuple(misses)] = min(least.get(tuple(misses), [*misses.values()]), [*misses.values()])
    return tuple(id for id, misses in apart.items() if least.get(tuple(misses)) == [*misses.values()])


def _derived(choice: Choice, measured: Measured) -> dict[str, Quantity]:
    """What can be worked out from what is given, by the choice's own formulas, as often as that brings more."""
    derived: dict[str, Quantity] = {}
    units = {name: quantity.unit for option in choice.options for name, quantity in option.measures.items()}
    for _ in choice.derive:
        for name, text in choice.derive.items():
            known = {**measured, **derived}
            formula = language.read(text)
            if name not in known and set(formula.names) <= set(known):
                derived[name] = Quantity(_worked_out(formula, known, choice, name), units[name])
    return derived


def _worked_out(formula: language.Formula, known: Measured, choice: Choice, name: str) -> Decimal:
    wanted = next(option.measures[name].dimension for option in choice.options if name in option.measures)
    found = language.dimension_of(formula, lambda given: known[given].dimension)
    if found != wanted:
        raise Misread(
            f"{name} would come out as {found}, where {wanted} is wanted", "look at the units of what was measured"
        )
    try:
        return language.evaluate(formula, lambda given: known[given].value)
    except language.Uncomputable as trouble:
        raise Misread(f"{name} cannot be worked out: {trouble}", "look at what was measured") from None


def _told(measured: Measured, derived: Measured) -> str:
    if len(measured) == 1 and not derived:
        (only,) = measured.items()
        return str(only[1]) if only[1].dimension != NUMBER else f"{only[0].replace('_', ' ')} {only[1]}"
    told = ", ".join(f"{name.replace('_', ' ')} {quantity}" for name, quantity in measured.items())
    so = ", ".join(f"{name.replace('_', ' ')} {quantity}" for name, quantity in derived.items())
    return f"{told}, so {so}" if so else told
