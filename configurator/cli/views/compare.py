"""Builds side by side: what each comes to, then only that in which they differ."""

from __future__ import annotations

from collections.abc import Iterator

from configurator import explain
from configurator.catalogue.shops import Family
from configurator.cli.page import Cell, Line, Part, columns
from configurator.cli.views import Reader
from configurator.listing import Comparison


def comparison_page(family: Family, comparison: Comparison, reader: Reader) -> Iterator[Line]:
    """One column a build, after the names of what is compared."""
    yield from columns(
        [*_sums(family, comparison), *_choices(family, comparison), *_margins(family, comparison)], reader.width
    )


def _sums(family: Family, comparison: Comparison) -> Iterator[list[Cell]]:
    builds = comparison.columns
    first = builds[0].totals.net
    yield ["", *(Part(build.name, "label") for build in builds)]
    yield ["net", *(f"{explain.sum_of(build.totals.net)} {build.totals.currency}" for build in builds)]
    yield ["", *(Part(explain.difference_of(build.totals.net - first), "quiet") for build in builds)]
    yield ["ready", *(explain.days_of(build.working_days) for build in builds)]
    yield ["standing", *(explain.STANDING_WORDS[build.build.standing] or "free" for build in builds)]
    for tally in family.tallies:
        yield [explain.in_sentence(tally.label), *(build.tallies[tally.id] for build in builds)]


def _choices(family: Family, comparison: Comparison) -> Iterator[list[Cell]]:
    for choice in comparison.differing:
        labels = [explain.label_of(family, choice, build.build.picks[choice]) for build in comparison.columns]
        yield [explain.in_sentence(family.choices[choice].label), *labels]


def _margins(family: Family, comparison: Comparison) -> Iterator[list[Cell]]:
    """Margins of the limits that are not equally near for all; a build that the limit does not concern has none."""
    rules = dict.fromkeys(rule for build in comparison.columns for rule in build.margins)
    for rule in rules:
        margins = [build.margins.get(rule, "") for build in comparison.columns]
        if len(set(margins)) > 1:
            label = family.rules[rule].label or rule.replace("_", " ")
            yield [f"margin, {explain.in_sentence(label)}", *(margin or "-" for margin in margins)]
