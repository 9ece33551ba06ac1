"""The table of what a formula may call, held against the functions themselves, and the language that calls them."""

from __future__ import annotations

import inspect
import json
import math
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from decimal import Decimal
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from configurator import shipped
from configurator.dimensions import (
    AREA,
    DIFFERENCE,
    EXPANSION,
    KINEMATIC_VISCOSITY,
    LENGTH,
    NUMBER,
    PRESSURE,
    TEMPERATURE,
    Dimension,
)
from configurator.engineering.bounds import OutOfRange
from configurator.engineering.names import ENTRIES, find_work
from configurator.language import FUNCTIONS, Uncomputable, dimension_of, evaluate, read
from configurator.units import UNITS, Misread
from tests.engineering.worked import Published, Range

SUBJECTS = sorted({entry.module for entry in ENTRIES.values()})
TESTS = {subject: import_module(f"tests.engineering.test_{subject}") for subject in [*SUBJECTS, "materials"]}
RANGES: dict[str, Range] = {
    range.work.__name__: range for tests in TESTS.values() for range in getattr(tests, "RANGES", ())
}
PUBLISHED: list[Published] = [value for tests in TESTS.values() for value in tests.PUBLISHED]


@pytest.mark.parametrize("name", ENTRIES)
def test_an_entry_has_the_arguments_of_its_function(name: str) -> None:
    work, entry = find_work(name), ENTRIES[name]
    assert work.__module__ == f"configurator.engineering.{entry.module}"
    assert list(inspect.signature(work).parameters) == list(entry.arguments)
    assert "Source: " in str(work.__doc__).replace("\n    ", " ") or "source as for" in str(work.__doc__)


@pytest.mark.parametrize("subject", SUBJECTS)
def test_every_formula_of_a_subject_can_be_called(subject: str) -> None:
    """All but what only checks its arguments."""
    module = import_module(f"configurator.engineering.{subject}")
    here = {
        name
        for name, thing in vars(module).items()
        if inspect.isfunction(thing) and thing.__module__ == module.__name__
    }
    assert {name for name in here if not name.startswith(("_", "check_"))} == {
        name for name, entry in ENTRIES.items() if entry.module == subject
    }


def test_every_formula_has_a_published_or_worked_value_and_a_range() -> None:
    tested = {value.name() for value in PUBLISHED}
    by_property = {"clearance_when_cold", "rise_to_clearance", "mass_for_time", "share_of_pump", "rise_of_coolant",
                   "speed_at_piston_speed", "proud_through_gasket", "hot_gain_through_head", "absolute_of_gauge",
                   "gauge_of_absolute", "charge_temperature", "filling_of_cylinders", "interference_when_hot",
                   "load_over_area"}  # fmt: skip
    assert set(ENTRIES) - tested - by_property == set()
    assert set(RANGES) == set(ENTRIES)


def refusals(name: str) -> Iterator[tuple[str, OutOfRange]]:
    """Each argument of a function in turn put out of every range."""
    for argument in ENTRIES[name].arguments:
        for value in (math.nan, math.inf, -math.inf):
            with pytest.raises(OutOfRange) as refused:
                RANGES[name].work(**{**RANGES[name].example, argument: value})
            yield argument, refused.value


@pytest.mark.parametrize("name", ENTRIES)
def test_what_is_no_number_is_refused_in_a_unit_of_the_arguments_kind(name: str) -> None:
    for argument, refused in refusals(name):
        shown = UNITS[refused.unit].dimension
        if refused.argument == argument:
            assert shown == ENTRIES[name].arguments[argument], argument
        else:  # a difference of two temperatures, or one argument bounded by another
            assert refused.argument in (*ENTRIES[name].arguments, "rise"), argument


WITH_CONSTANTS = {
    "length_of_6061": NUMBER, "expansion_of_6061": EXPANSION, "seating_width": LENGTH, "seating_diameter": LENGTH,
    "slope_of_viscosity": NUMBER, "viscosity_at": KINEMATIC_VISCOSITY, "metric_shear_area": AREA,
    "engagement_for_load": LENGTH,
}  # fmt: skip
"""Formulas that hold in one system of units only, for they have constants with a dimension; and what they give."""


@pytest.mark.parametrize("name", ENTRIES)
def test_the_result_has_the_dimension_that_the_table_says(name: str) -> None:
    """Independent of the table's word for it: length, mass and time are each measured by a gauge that is off by a
    factor, and the result must come out off by the same factors to the powers of its dimension.

    A formula is the same in all systems of units, unless it holds constants with a dimension.
    """
    if name in WITH_CONSTANTS:
        assert ENTRIES[name].result == WITH_CONSTANTS[name]
        return
    entry, example = ENTRIES[name], RANGES[name].example
    base = find_work(name)(**example)
    for axis, factor in (("length", 1.01), ("mass", 1.03), ("time", 0.98)):

        def scale(dimension: Dimension, axis: str = axis, factor: float = factor) -> float:
            return float(factor ** getattr(dimension, axis))

        changed = {argument: value * scale(entry.arguments[argument]) for argument, value in example.items()}
        assert find_work(name)(**changed) == pytest.approx(base * scale(entry.result), rel=1e-9, abs=1e-30), axis


# The language.
def nameless(name: str) -> Any:
    """The value or dimension of a name in a formula that has none."""
    raise KeyError(name)


def test_a_formula_calls_engineering_by_name_and_checks_its_units() -> None:
    text = "5 * orifice_flow(jet, oil_pressure, 850 kg/m3, 0.75) / pump"
    kinds = {"jet": LENGTH, "oil_pressure": PRESSURE, "pump": UNITS["L/min"].dimension}
    values = {"jet": Decimal("0.0015"), "oil_pressure": Decimal(300000), "pump": UNITS["L/min"].to_si(Decimal(45))}
    assert str(dimension_of(read(text), kinds.__getitem__)) == "a plain number"
    assert float(evaluate(read(text), values.__getitem__)) == pytest.approx(0.23475, abs=1e-5)
    with pytest.raises(Misread, match="its argument 2 is a length, where a pressure is wanted"):
        dimension_of(read("orifice_flow(jet, jet, 850 kg/m3, 0.75)"), kinds.__getitem__)


def test_a_temperature_is_no_rise() -> None:
    with pytest.raises(Misread, match="its argument 3 is a temperature, where a difference of temperatures is wanted"):
        dimension_of(read("growth_of(228 mm, 23.6 um/m K, 90 C)"), nameless)
    assert dimension_of(read("growth_of(228 mm, 23.6 um/m K, 90 C - 20 C)"), nameless) == LENGTH
    assert (TEMPERATURE.point, DIFFERENCE.point) == (True, False)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("mean_speed_of_piston(0 mm, 8000 rpm)", "the stroke is 0 mm, and must be more than 0 mm"),
        ("orifice_flow(1.5 mm, 3 bar, 850 kg/m3, 7.5)",
         "the coefficient is 7.5, and must be more than 0 and at most 1"),
        ("growth_of(228 mm, 23.6 um/m K, 900 K)", "the rise is 900 K, and must be at least -300 K and at most 500 K"),
        ("metric_shear_area(12 mm, 1.3 mm, 18 mm)",
         "the pitch is 1.3 mm, and must be 1 mm or 1.25 mm or 1.5 mm or 1.75 mm or 2 mm"),
        ("compressed_pressure(1 bar, 90, 1.32)", "the ratio is 90, and must be at least 1 and at most 30"),
    ],
)  # fmt: skip
def test_what_is_out_of_range_is_uncomputable_in_a_plain_sentence(text: str, said: str) -> None:
    with pytest.raises(Uncomputable) as trouble:
        evaluate(read(text), nameless)
    assert str(trouble.value) == said


def test_a_result_comes_back_to_twelve_digits() -> None:
    assert str(evaluate(read("swept_volume(82 mm, 90 mm, 5)"), nameless)) == "0.00237645776281"


def test_an_unknown_function_is_told_what_there_is() -> None:
    with pytest.raises(Misread) as refused:
        read("orifice_flaw(1 mm)")
    assert refused.value.way_out == "There are abs, cos, max, min, sin, sqrt, tan, and the formulas of engineering."


def test_every_entry_is_a_function_of_the_language_with_as_many_arguments() -> None:
    for name, entry in ENTRIES.items():
        function = FUNCTIONS[name]
        assert function.least == function.most == len(entry.arguments)
        assert function.dimension(list(entry.arguments.values())) == entry.result


def names_in(value: Any) -> Iterator[str]:
    """Every key and every id of a shop's file."""
    if isinstance(value, dict):
        yield from value
        yield from (value["id"],) if isinstance(value.get("id"), str) else ()
        value = list(value.values())
    for inner in value if isinstance(value, list) else ():
        yield from names_in(inner)


@pytest.mark.parametrize(
    "folder", [shipped.rules_folder(), shipped.demo_folder()], ids=lambda folder: Path(folder).name
)
def test_no_shipped_name_is_the_name_of_a_function(folder: Path) -> None:
    for file in folder.rglob("*.toml"):
        assert set(names_in(tomllib.loads(file.read_text(encoding="utf-8")))) & set(FUNCTIONS) == set(), file.name


def test_reading_a_formula_imports_no_subject() -> None:
    asked = "import json, sys; from configurator.language import read; read('growth_of(length, expansion, rise)'); "
    told = "print(json.dumps(sorted(name for name in sys.modules if name.startswith('configurator.engineering.'))))"
    run = subprocess.run([sys.executable, "-c", asked + told], capture_output=True, text=True, check=True)
    assert json.loads(run.stdout) == ["configurator.engineering.names"]


@pytest.mark.parametrize("subject", SUBJECTS)
def test_a_subject_imports_nothing_but_mathematics(subject: str) -> None:
    source = inspect.getsource(import_module(f"configurator.engineering.{subject}"))
    lines = [line.split()[1] for line in source.splitlines() if line.startswith(("import ", "from "))]
    allowed = {"__future__", "math", "typing", "collections.abc"}
    assert {line for line in lines if line not in allowed and not line.startswith("configurator.engineering.")} == set()
