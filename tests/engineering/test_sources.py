"""`SOURCES.md` names every formula, the values that it is tested by, and the largest difference that the tests find."""

from __future__ import annotations

from pathlib import Path

import pytest

import configurator.engineering
from configurator.engineering.names import ENTRIES
from tests.engineering.test_names import PUBLISHED

SOURCES = Path(configurator.engineering.__path__[0], "SOURCES.md")


def row_of(name: str) -> tuple[str, str]:
    """What the table must say of a function: the ids of its values, and its largest difference from them."""
    values = [value for value in PUBLISHED if value.name() == name]
    if not values:
        return "by properties", "-"
    largest = max(value.difference() for value in values)
    return ", ".join(value.id for value in values), "none" if largest < 1e-7 else f"{100 * largest:.1g} %"


def rows() -> dict[str, list[str]]:
    """The rows of the tables of functions, by the function's name."""
    cells = [
        [cell.strip() for cell in line.strip("|\n").split("|")]
        for line in SOURCES.read_text(encoding="utf-8").splitlines()
        if line.startswith("| `")
    ]
    return {row[0].strip("`"): row for row in cells if len(row) == 6}


def test_every_formula_has_one_row_and_there_are_no_others() -> None:
    assert list(rows()) == list(ENTRIES)


@pytest.mark.parametrize("name", ENTRIES)
def test_a_row_tells_the_values_and_the_largest_difference(name: str) -> None:
    _, formula, source, basis, ids, difference = rows()[name]
    assert (ids, difference) == row_of(name)
    assert formula and source and basis


def test_the_values_that_are_not_used_are_told_with_the_reason() -> None:
    told = SOURCES.read_text(encoding="utf-8").split("## Published values that no function gives")[1]
    unused = ("h07", "h10", "h31", "x14", "o05")
    assert all(f"{id} (" in told or f"- {id}: " in told for id in unused)
    assert set(unused) & {value.id for value in PUBLISHED} == set()
