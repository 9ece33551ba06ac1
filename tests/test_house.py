"""The house stands as planned: its floors, the size of its rooms, what lies at the door, what a quick answer loads."""

from __future__ import annotations

import ast
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from importlinter.cli import lint_imports

ROOT = Path(__file__).parents[1]
MODULES = sorted((ROOT / "configurator").rglob("*.py"))

ALLOWED_AT_THE_DOOR = {
    "README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml", "requirements.lock",
    "configurator", "rules", "catalog-demo", "tests",
}  # fmt: skip

LONG_MODULES: dict[str, str] = {}
"""Modules that may pass 300 lines, each with the reason."""

LONG_FUNCTIONS: dict[str, str] = {}
"""Functions that may pass 40 lines, as module:function, each with the reason."""

NOT_NOUNS_OF_THE_TRADE = {"utils", "helpers", "common", "core", "manager", "base", "misc"}

SLOW = ("pydantic", "pydantic_core", "rich", "numpy", "constraint", "tree_sitter", "tomlkit", "dataclasses", "difflib",
        "babel", "holidays", "configurator.load.shapes", "configurator.space.plain")  # fmt: skip
"""What a warm `check` has no use for; each costs a good part of an interpreter's start, or several."""


def test_every_module_imports_only_from_the_floors_below(capsys: pytest.CaptureFixture[str]) -> None:
    code = lint_imports(config_filename=str(ROOT / "pyproject.toml"), no_cache=True)
    assert code == 0, capsys.readouterr().out


def test_the_door_holds_only_what_was_agreed() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True)
    if listed.returncode:
        pytest.skip("not a checkout")
    names = {line.split("/")[0] for line in listed.stdout.splitlines()}
    assert {name for name in names if not name.startswith(".")} - ALLOWED_AT_THE_DOOR == set()


def test_no_module_passes_three_hundred_lines() -> None:
    lengths = {str(path.relative_to(ROOT)): len(path.read_text(encoding="utf-8").splitlines()) for path in MODULES}
    assert {name: length for name, length in lengths.items() if length > 300 and name not in LONG_MODULES} == {}


def test_no_function_passes_forty_lines() -> None:
    long = {}
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                name, length = f"{path.relative_to(ROOT)}:{node.name}", length_of(node)
                if length > 40 and name not in LONG_FUNCTIONS:
                    long[name] = length
    assert long == {}


def length_of(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function without its docstring and its decorators."""
    body = function.body[1:] if ast.get_docstring(function) else function.body
    head = function.body[0].lineno - function.lineno
    return head + (function.end_lineno or 0) - body[0].lineno + 1 if body else head


def test_modules_are_named_with_nouns_of_the_trade() -> None:
    assert [path for path in MODULES if path.stem in NOT_NOUNS_OF_THE_TRADE] == []


def test_every_public_thing_says_what_it_is() -> None:
    silent = []
    for path in MODULES:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        if tree.body and not ast.get_docstring(tree):
            silent.append(str(path.relative_to(ROOT)))
        for node in tree.body:
            if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
                silent += [] if ast.get_docstring(node) else [f"{path.relative_to(ROOT)}:{node.name}"]
    assert silent == []


WARM = """
import sys
from configurator.cli import main
try:
    main()
finally:
    print(*sys.modules, file=sys.stderr)
"""


@pytest.mark.parametrize("picks", [("cooling=dry_deck", "use=circuit"), ("cooling=solid", "use=street")])
def test_a_warm_answer_imports_no_slow_library(picks: tuple[str, ...]) -> None:
    check(picks)
    warm = check(picks)
    assert json.loads(warm.stdout)["verdict"] in ("free", "by_arrangement", "impossible")
    loaded = set(warm.stderr.split())
    assert "configurator.desk" in loaded
    assert loaded & set(SLOW) == set()


def check(picks: tuple[str, ...]) -> subprocess.CompletedProcess[str]:
    """Asks the demo shop once, away from the checkout, and lists the modules that were loaded on stderr."""
    command = [sys.executable, "-c", WARM, "check", *picks, "--json"]
    away = os.environ["BLOCKS_CACHE"]
    return subprocess.run(command, cwd=away, capture_output=True, text=True, stdin=subprocess.DEVNULL)
