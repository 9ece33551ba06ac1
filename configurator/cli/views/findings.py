"""What a run of lint saw: each finding with its place, then how large the space of each family is."""

from __future__ import annotations

from collections.abc import Iterator

from configurator import explain
from configurator.cli.page import MARGIN, Line, Part, entry, prose
from configurator.review.lint import Census, Findings


def findings_page(findings: Findings, width: int) -> Iterator[Line]:
    """What is to be mended first; nothing to mend is said in so many words."""
    for finding in findings.findings:
        yield from prose(f"{finding.place}: {finding.about}: {finding.wrong}", width)
        if finding.way_out:
            yield from ((Part("  "), *line) for line in prose(finding.way_out, width - 2))
    number = len(findings.findings)
    verdict = f"{number} finding{'' if number == 1 else 's'}." if number else "Nothing to mend."
    ran = f"{findings.examples} examples and {findings.expected} expected answers were run."
    yield from prose(f"{verdict} {ran}", width, style="no" if number else "yes")
    for census in findings.census:
        yield from entry(census.family, _census(census, width - MARGIN))


def _census(census: Census, width: int) -> Iterator[Line]:
    size = f"{census.free:,} builds free and {census.by_arrangement:,} by arrangement"
    yield from prose(f"{census.label}: {census.choices} choices, {census.rules} rules; {size}", width)
    tied = f"the largest group of choices that rules tie together has {census.component}"
    yield from prose(f"{tied}; tied to none: {explain.listed(census.untied) or 'no choice'}", width)
