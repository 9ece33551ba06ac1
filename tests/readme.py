"""The README as a reader follows it, command by command, in one folder and on one day.

In its ```console blocks a line that begins with "$ " is a command, and what follows up to the next is what it shows:
the notices, then the answer. A ```toml block is the file that the line above it names. Renew what the commands
show with

    python -m tests.readme

and read every line of the change (`git diff README.md`) before it is committed.
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import chdir
from pathlib import Path
from typing import NamedTuple
from unittest.mock import patch

from tests.scenario import DATED, FINGERPRINT, TODAY, say

PAGE = Path(__file__).parent.parent / "README.md"
SHOP = "catalog-demo/tarnwick"
"""The shop that the README has its reader take for the tour."""
_BLOCK = re.compile(r"^(?:`(?P<file>[^`\n]+)`\n\n)?```(?P<kind>[a-z]+)\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL)
_COMMAND = re.compile(r"^\$ (?P<line>.+)\n(?P<shown>(?:(?!\$ ).*\n)*)", re.MULTILINE)


class Block(NamedTuple):
    """A fenced block: its kind, its text, where that lies in the page, and the file it is to be written to, or ""."""

    kind: str
    body: str
    start: int
    end: int
    file: str


class Step(NamedTuple):
    """One command of the page, with what the page shows of it and what it gives today."""

    line: str
    shown: str
    given: str
    exit: int


def blocks_of(page: str) -> list[Block]:
    """The fenced blocks of the page, in their order."""
    return [Block(it["kind"], it["body"], *it.span("body"), it["file"] or "") for it in _BLOCK.finditer(page)]


def follow(page: str) -> Iterator[tuple[Block, list[Step]]]:
    """Does what the page says, in a new folder that holds the demo shops; every console block with its steps."""
    own = {"BLOCKS_SHOP": SHOP, "BLOCKS_CACHE": "cache", "BLOCKS_FOR": ""}
    with tempfile.TemporaryDirectory() as place, chdir(place), patch.dict(os.environ, own):
        shutil.copytree(PAGE.parent / "catalog-demo", "catalog-demo")
        for block in blocks_of(page):
            if block.file:
                Path(block.file).write_text(block.body, encoding="utf-8")
            if block.kind == "console":
                yield block, [_take(it["line"], it["shown"]) for it in _COMMAND.finditer(block.body)]


def renewed(page: str) -> str:
    """The page, with what its commands show today."""
    parts, done = [], 0
    for block, steps in follow(page):
        parts += [page[done : block.start], "".join(f"$ {step.line}\n{step.given}" for step in steps)]
        done = block.end
    return "".join([*parts, page[done:]])


def _take(line: str, shown: str) -> Step:
    """Runs a command of the page; only its own kinds are understood, so that nothing else is ever run."""
    command, _, cut = line.partition(" | ")
    program, *words = shlex.split(command)
    if program == "cp":
        (recursive, source, target) = words
        assert recursive == "-r"
        shutil.copytree(source, target)
        return Step(line, shown, "", 0)
    assert program == "blocks", f"the README may show blocks and cp, not {program}"
    dated = ("--date", TODAY) if any(word in DATED for word in words) else ()
    heard = say(*words, *dated)
    return Step(line, shown, heard.noticed + _cut(FINGERPRINT.sub("#", heard.said), cut), heard.exit)


def _cut(said: str, cut: str) -> str:
    """What `head -3` or `tail -3` leaves of the text; all of it for ""."""
    if not cut:
        return said
    end, count = cut.split(" -")
    lines = said.splitlines(keepends=True)
    return "".join({"head": lines[: int(count)], "tail": lines[-int(count) :]}[end])


def main() -> int:
    """Writes what the commands show today into the page; CI may not."""
    if os.environ.get("CI"):
        print("What the README shows is renewed by hand and read by someone, not by CI.", file=sys.stderr)
        return 1
    page = PAGE.read_text(encoding="utf-8")
    PAGE.write_text(renewed(page), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
