"""What a run of lint saw: each finding with its place, then how large the space of each family is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from configurator import explain
from configurator.cli.page import MARGIN, Line, Part, entry, prose
from configurator.documents.json_of import SCHEMA
from configurator.review.lint import Census, Findings


def findings_page(findings: Findings, width: int) -> Iterator[Line]:
    """What is to be mended first; nothing to mend is said in so many words."""
    for finding in findings.findings:
        yield from prose(f"{finding.place}: {finding.about}: {finding.wrong}", width)
        if finding.way_out:
            yield from ((Part("  "), *line) for line in prose(finding.way_out, width - 2))
    number = len(findings.findings)
    verdict = f"{explain.many(number, 'finding')}." if number else "Nothing to mend."
    examples, expected = explain.many(findings.examples, "example"), explain.many(findings.expected, "expected answer")
    ran = f"Run: {examples} and {expected}."
    yield from prose(f"{verdict} {ran}", width, style="no" if number else "yes")
    for census in findings.census:
        yield from entry(census.family, _census(census, width - MARGIN))


def findings_json(findings: Findings) -> dict[str, Any]:
    """The same as a document."""
    return {
        "schema": SCHEMA,
        "examples": findings.examples,
        "expected": findings.expected,
        "census": [census._asdict() | {"untied": list(census.untied)} for census in findings.census],
        "findings": [
            {
                "file": one.place.file,
                "line": one.place.line or None,
                "about": one.about,
                "wrong": one.wrong,
                "way_out": one.way_out,
            }
            for one in findings.findings
        ],
    }


def _census(census: Census, width: int) -> Iterator[Line]:
    size = f"{census.free:,} builds free and {census.by_arrangement:,} by arrangement"
    yield from prose(
        f"{census.label}: {explain.many(census.choices, 'choice')}, {explain.many(census.rules, 'rule')}; {size}", width
    )
    tied = f"the largest group of choices that rules tie together has {census.component}"
    yield from prose(f"{tied}; tied to none: {explain.listed(census.untied) or 'no choice'}", width)
