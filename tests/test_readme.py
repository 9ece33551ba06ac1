"""The README shows what the program says; its recipe is the one that is tested, its set-up the one of `.ci/run`."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from configurator.cli import ends
from tests.readme import PAGE, SHOP, Step, blocks_of, follow
from tests.test_new_variant import FILE, VARIANT

TEXT = PAGE.read_text(encoding="utf-8")
CHECKS = (PAGE.parent / ".ci" / "run").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^\$ (.+)$", TEXT, re.MULTILINE)


@pytest.fixture(scope="module")
def steps() -> list[Step]:
    """The tour is taken once: its later commands stand on the files of the earlier."""
    return [step for _, taken in follow(TEXT) for step in taken]


def set_up() -> list[list[str]]:
    """The commands of the first block, each as the plain commands that it joins."""
    first = blocks_of(TEXT)[0]
    return [re.split(r" &&\s+", command.strip()) for command in first.body.split("\n\n")]


@pytest.mark.parametrize("at", range(len(COMMANDS)), ids=COMMANDS)
def test_a_command_shows_what_it_says_today(steps: list[Step], at: int) -> None:
    """Renew the shown texts with `python -m tests.readme`, and read the change."""
    step = steps[at]
    assert step.line == COMMANDS[at]
    assert step.exit in (ends.DONE, ends.NO), step.given
    assert step.given == step.shown


def test_no_command_stands_outside_a_block_that_is_run(steps: list[Step]) -> None:
    assert [step.line for step in steps] == COMMANDS
    assert sum(line.startswith("blocks ") for line in COMMANDS) > 10


def test_lines_fit_a_terminal_of_eighty_columns(steps: list[Step]) -> None:
    assert [line for step in steps for line in step.shown.splitlines() if len(line) > 80] == []


def test_the_recipe_for_a_new_variant_is_the_one_that_is_tested() -> None:
    (recipe,) = [block for block in blocks_of(TEXT) if block.kind == "toml"]
    assert (Path(recipe.file).name, recipe.body) == (FILE, VARIANT)


def test_two_commands_do_all_the_set_up() -> None:
    main_job, tests = set_up()
    program, command, enquiry = main_job[-1].split()
    assert (program, command) == (".venv/bin/blocks", "check")
    assert (PAGE.parent / enquiry).is_file()
    assert tests[-1] == ".venv/bin/python -m pytest -q"
    assert main_job[0] == tests[0] == "python3 -m venv --without-pip .venv"


def test_ci_does_the_set_up_that_the_readme_tells() -> None:
    """Word for word, with the room of `.ci/run` in place of `.venv`, and its Python in place of the machine's."""
    _, tests = set_up()
    told = [
        line.replace("python3 -m", '"$python" -m').replace(".venv/bin/python install", '"$room/bin/python" install')
        for line in tests[:-1]
    ]
    told[0] = told[0].replace(" .venv", ' "$room"')
    done = [line.strip() for line in CHECKS.splitlines()]
    assert [line for line in told if line not in done] == []
    assert any("python -m pytest -q" in line for line in done)


def test_the_tour_begins_with_the_shop_that_its_commands_are_run_on() -> None:
    (told,) = re.findall(r"^export BLOCKS_SHOP=(.+)$", TEXT, re.MULTILINE)
    assert told == SHOP


def test_every_exit_code_is_told_and_no_other() -> None:
    told = {int(code) for code in re.findall(r"^\| (\d+) \|", TEXT, re.MULTILINE)}
    assert told == {code for name, code in vars(ends).items() if name.isupper() and isinstance(code, int)}
