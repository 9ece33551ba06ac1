"""Whether a `when` that speaks only of choices, as that of a price or a step of a route does, holds for a build.

A rule's `when` may also speak of facts, figures and duties; the rulebook tables those.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from configurator import language
from configurator.catalogue.choices import Choice
from configurator.catalogue.conditions import Condition, When
from configurator.catalogue.shops import Family
from configurator.units import Quantity, read_quantity


def holds(when: When, picks: Mapping[str, str], family: Family) -> bool:
    """Whether every condition holds for these picks, `choice: option`, of the family; the empty `when` always does.

    A comparison ("> 92 mm") is of a numeric choice, and its bounds may name others. KeyError for a choice not picked.
    """
    return all(_condition_holds(condition, picks, family) for condition in when)


def _condition_holds(condition: Condition, picks: Mapping[str, str], family: Family) -> bool:
    if not condition.comparison:
        return condition.allows(picks[condition.name])

    def value(name: str) -> Decimal:
        return value_of(family.choices[name], picks[name]).value

    return language.compares(language.read_comparison(condition.comparison), value(condition.name), value)


def value_of(choice: Choice, option: str) -> Quantity:
    """What an option of a numeric choice measures. One as asked is not listed: its id is its value, "83.3 mm"."""
    for listed in choice.options:
        if listed.id == option and listed.value is not None:
            return listed.value
    return read_quantity(option, unit=choice.range.unit if choice.range else "")
