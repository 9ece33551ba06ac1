"""What a run of lint saw: what is to be mended, how large the space of each family is, and what is worth a thought."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from configurator import explain
from configurator.cli.page import MARGIN, Line, Part, entry, prose
from configurator.documents.json_of import SCHEMA
from configurator.review.findings import Census, Finding, Findings, Proof


def findings_page(findings: Findings, width: int) -> Iterator[Line]:
    """The verdict first, with what is to be mended; then how large the space is; then what is worth a thought."""
    ran = f"{findings.examples} examples and {findings.expected} expected answers were run."
    faults, remarks = len(findings.findings), len(findings.remarks)
    verdict = f"{faults} finding{'' if faults == 1 else 's'} to mend." if faults else "Nothing to mend."
    yield from prose(f"{verdict} {ran}", width, style="no" if faults else "yes")
    for finding in findings.findings:
        yield from _finding(finding, width)
    for census in findings.census:
        proofs = (proof for proof in findings.proofs if proof.family == census.family)
        yield from entry(census.family, _census(census, next(proofs, None), width - MARGIN))
    if remarks:
        yield from prose(f"Worth a thought ({remarks}):", width, style="care")
    for finding in findings.remarks:
        yield from _finding(finding, width)


def findings_json(findings: Findings) -> dict[str, Any]:
    """The same as a document."""
    return {
        "schema": SCHEMA,
        "examples": findings.examples,
        "expected": findings.expected,
        "census": [census_json(census) for census in findings.census],
        "findings": [finding_json(one) for one in findings.findings],
        "remarks": [finding_json(one) for one in findings.remarks],
        "proofs": [proof._asdict() for proof in findings.proofs],
    }


def seen_json(seen: Census | Finding | Proof) -> dict[str, Any]:
    """One thing that was seen, as a line of a stream; its key says what it is."""
    if isinstance(seen, Census):
        return {"census": census_json(seen)}
    if isinstance(seen, Proof):
        return {"proof": seen._asdict()}
    return {"finding" if seen.grave else "remark": finding_json(seen)}


def finding_json(one: Finding) -> dict[str, Any]:
    """A finding as JSON."""
    return {
        "file": one.place.file,
        "line": one.place.line or None,
        "column": one.place.column or None,
        "kind": one.kind,
        "about": one.about,
        "wrong": one.wrong,
        "way_out": one.way_out,
        "build": dict(one.build),
    }


def census_json(census: Census) -> dict[str, Any]:
    """A census as JSON."""
    return census._asdict() | {"untied": list(census.untied)}


def _finding(finding: Finding, width: int) -> Iterator[Line]:
    yield from prose(f"{finding.place}: {finding.about}: {finding.wrong}", width)
    if finding.build:
        picks = " ".join(f"{id}={option.replace(' ', '')}" for id, option in finding.build.items())
        yield from ((Part("  "), *line) for line in prose(picks, width - 2, style="quiet"))
    if finding.way_out:
        yield from ((Part("  "), *line) for line in prose(finding.way_out, width - 2))


def _census(census: Census, proof: Proof | None, width: int) -> Iterator[Line]:
    size = f"{census.free:,} builds free and {census.by_arrangement:,} by arrangement"
    yield from prose(f"{census.label}: {census.choices} choices, {census.rules} rules; {size}", width)
    tied = f"the largest group of choices that rules tie together has {census.component}"
    yield from prose(f"{tied}; tied to none: {explain.listed(census.untied) or 'no choice'}", width)
    if proof:
        where = "all of them" if proof.whole else f"{proof.parts} parts of it, taken at random"
        yield from prose(f"held against plain search in {where}: {proof.builds:,} builds compared", width)
