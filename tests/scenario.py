"""A scenario: one command line of a salesman's story, why it is asked, and the whole text that must come back.

Scenarios are data, `tests/scenarios/*.toml`:

    why = "Solid carries no heat away: the caller hears what he can have for the road instead."
    shop = "tarnwick"                        # or brindlow, the demo shops
    args = ["check", "cooling=solid", "use=street"]
    exit = 1
    must_say = ["9,800.00"]                  # what the trade says about it, whatever the wording
    must_not_say = ["impossible"]
    expected = '''...'''                     # the whole of stdout

`must_say` and `must_not_say` are written by hand and compared with line breaks taken as spaces. `expected` is the
program's own text, read by someone before it was kept; `python -m tests.rewrite_scenarios` renews it.
"""

from __future__ import annotations

import io
import os
import re
import tomllib
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import NamedTuple
from unittest.mock import patch

from configurator import shipped
from configurator.cli import main

FOLDER = Path(__file__).parent / "scenarios"
TODAY = "2026-11-25"
FINGERPRINT = re.compile(r"\b(shop|hash)( +)[0-9a-f]{16,64}\b")
"""The hashes on a quote. They change with every word of the shop's files and tell a reader nothing: kept as #."""
DATED = ("builds", "check", "compare", "options", "quote")
"""Commands whose answer may depend on the day; a scenario lives on one day for ever."""


class Scenario(NamedTuple):
    """One file of `tests/scenarios`; `expected` is "" where nobody has read and kept a text yet."""

    name: str
    why: str
    shop: str
    args: tuple[str, ...]
    exit: int
    must_say: tuple[str, ...]
    must_not_say: tuple[str, ...]
    expected: str = ""


class Heard(NamedTuple):
    """What a command gave back: its exit code, the answer on stdout, the notices on stderr."""

    exit: int
    said: str
    noticed: str


def read(path: Path) -> Scenario:
    """The scenario of a file; a key that it lacks, or one too many, is the test's own error."""
    told = tomllib.loads(path.read_text(encoding="utf-8"))
    unknown = set(told) - set(Scenario._fields)
    assert not unknown, f"{path.name}: {', '.join(sorted(unknown))} is no part of a scenario"
    return Scenario(
        path.stem,
        told["why"],
        told["shop"],
        tuple(told["args"]),
        told["exit"],
        tuple(told.get("must_say", ())),
        tuple(told.get("must_not_say", ())),
        told.get("expected", ""),
    )


def every_scenario() -> list[Scenario]:
    """All scenarios, in the order of their names."""
    return [read(path) for path in sorted(FOLDER.glob("*.toml"))]


def run(scenario: Scenario, folder: Path | None = None, more: tuple[str, ...] = ()) -> Heard:
    """Runs the scenario's command on its demo shop, or on the shop in `folder`, with further words at its end."""
    shop = folder or shipped.demo_folder() / scenario.shop
    dated = ("--date", TODAY) if scenario.args[0] in DATED else ()
    heard = say("--shop", str(shop), *scenario.args, *dated, *more)
    return heard._replace(said=FINGERPRINT.sub(r"\1\2#", heard.said))


def say(*words: str) -> Heard:
    """Runs the command line in this process, on a terminal of eighty columns without colour."""
    said, noticed = io.StringIO(), io.StringIO()
    with redirect_stdout(said), redirect_stderr(noticed), patch.dict(os.environ, {"COLUMNS": "80", "NO_COLOR": "1"}):
        code = main(words)
    return Heard(code, said.getvalue(), noticed.getvalue())
