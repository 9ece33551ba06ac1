"""Cost rates, suppliers, authority and the floor are kept back: other figures there change no byte that anyone can get.

A search for known figures misses what is rounded, summed or hashed. So each demo shop is asked everything twice, before
and after all that it keeps back was changed, and the answers are compared byte for byte.
"""

from __future__ import annotations

import re
import shutil
import tomllib
from pathlib import Path

import pytest
from click.shell_completion import ShellComplete

from configurator import shipped
from configurator.cli.commands import blocks
from configurator.desk import open_shop
from tests.scenario import TODAY, Heard, say

KEPT_BACK = ("authority", "cost", "margin", "rate", "supplier")
SHOPS = {
    "tarnwick": ("cooling=dry_deck", "bore=84.3mm"),
    "brindlow": ("deck=tall", "bore=102.4mm"),
}
"""The demo shops, each with picks that bring lines, work and a value that no list has."""
COMMANDS = (
    (),
    ("--help",),
    ("check", "--help"),
    ("quote", "--help"),
    ("options",),
    ("options", "--json"),
    ("check",),
    ("check", "--json"),
    ("check", "cooling=solid", "use=street"),
    ("check", "cooling=solid", "use=street", "--json"),
    ("check", "PICKS"),
    ("check", "PICKS", "--json"),
    ("check", "PICKS", "--duty", "power=200kW", "--duty", "boost=1.0 bar", "--json"),
    ("quote", "PICKS"),
    ("quote", "PICKS", "--json"),
    ("builds", "PICKS", "--count"),
    ("compare", "PICKS", "--with", "cooling=solid", "--json"),
    ("check", "colling=solid"),
    ("check", "cooling=wet", "--json"),
    ("check", "bore=1,5"),
    ("quote", "--list", "none_of_ours"),
    ("chekc",),
)


@pytest.fixture(scope="module", params=sorted(SHOPS))
def shop(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of a demo shop, at one place for both askings: a file's name may be said in an answer."""
    name: str = request.param
    folder = tmp_path_factory.mktemp("shops") / name
    shutil.copytree(shipped.demo_folder() / name, folder)
    return folder


def ask_everything(folder: Path) -> dict[tuple[str, ...], Heard | list[str]]:
    """Every command, for the customer and for the shop: neither edition shows what is kept back.

    And what a shell completes.
    """
    picks = SHOPS[folder.name]
    shell = ShellComplete(blocks, {}, "blocks", "_BLOCKS_COMPLETE")
    heard: dict[tuple[str, ...], Heard | list[str]] = {}
    for start in ("", "c", "cooling="):
        completed = shell.get_completions(["--shop", str(folder), "check"], start)
        heard["completed", start] = [item.value for item in completed]
    for command in COMMANDS:
        words = [part for word in command for part in (picks if word == "PICKS" else (word,))]
        dated = ["--date", TODAY] if words and words[0] in ("check", "quote", "options", "builds", "compare") else []
        for reader in ("customer", "shop"):
            heard[reader, *command] = say("--shop", str(folder), "--for", reader, *words, *dated)
    return heard


def change_what_is_kept_back(folder: Path) -> int:
    """Puts another value in the place of every value kept back but ids; how many there were."""
    changed = 0
    for path in sorted(folder.glob("*.toml")):
        lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
        inside = False
        for number, line in enumerate(lines):
            if heading := re.match(r"\[+(\w+)", line):
                inside = heading[1] in KEPT_BACK
            elif inside and not line.startswith(("id ", "centre ")) and (value := re.search(r'"([^"]*)"', line)):
                lines[number] = line.replace(value[1], another(value[1]))
                changed += 1
        path.write_text("".join(lines), encoding="utf-8")
        tomllib.loads("".join(lines))
    return changed


def another(value: str) -> str:
    """Another value of the same kind: every digit moved on by one, a word turned round."""
    moved = re.sub(r"\d", lambda digit: str((int(digit[0]) + 1) % 10), value)
    return moved if moved != value else value[::-1]


def test_the_figures_kept_back_change_no_byte_of_any_answer(shop: Path) -> None:
    before, digest = ask_everything(shop), open_shop(shop).digest
    assert change_what_is_kept_back(shop) >= 10
    assert ask_everything(shop) == before
    assert open_shop(shop).digest == digest


def test_the_shop_does_read_what_it_keeps_back(shop: Path) -> None:
    """Or the test above would compare nothing with nothing."""
    kept = open_shop(shop).shop.kept_back
    assert {"rate", "supplier", "authority", "cost", "margin"} <= set(kept), kept
