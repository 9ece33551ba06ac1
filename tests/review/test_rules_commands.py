"""`blocks rules` from the command line: what is said, as a page and as JSON, and the exit codes."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest

from configurator.cli import main
from tests.shops import Entry, choice, folder_of, price, rule

COOLING = choice("cooling", "jacketed", "solid", label="Cooling")
USE = choice("use", "street", "drag", label="Use")
SOLID = rule(
    "solid_is_for_drag",
    when={"cooling": "solid"},
    then={"use": "drag"},
    passes=[{"cooling": "solid", "use": "drag"}],
    fails=[{"cooling": "solid", "use": "street"}],
)
ASKED: Entry = (
    "expected",
    {"id": "solid_street", "why": "Asked.", "want": {"cooling": "solid", "use": "street"}, "verdict": "free"},
)


def made(folder: Path, *entries: Entry) -> Path:
    folder.mkdir()
    return folder_of(folder, COOLING, USE, price("block", "1.00"), *entries)


@pytest.fixture
def old(tmp_path: Path) -> Path:
    return made(tmp_path / "old")


@pytest.fixture
def new(tmp_path: Path) -> Path:
    return made(tmp_path / "new", SOLID)


def asked(capsys: pytest.CaptureFixture[str], *words: str | Path) -> tuple[int, str, str]:
    code = main([str(word) for word in words])
    said = capsys.readouterr()
    return code, said.out, said.err


def told(capsys: pytest.CaptureFixture[str], *words: str | Path) -> tuple[int, Any]:
    code, out, _ = asked(capsys, *words, "--json")
    return code, json.loads(out)


def test_lint_leaves_zero_with_remarks_and_one_with_faults(
    tmp_path: Path, new: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, seen = told(capsys, "rules", "lint", "--shop", new, "--prove")
    assert (code, seen["findings"], seen["proofs"][0]["whole"]) == (0, [], True)
    again = rule("again", when={"cooling": "solid", "use": "street"}, then="impossible")
    code, seen = told(capsys, "rules", "lint", "--shop", made(tmp_path / "twice", SOLID, again))
    assert code == 1
    assert {one["kind"] for one in seen["findings"]} == {"example"}
    assert {one["about"] for one in seen["remarks"] if one["kind"] == "pointless"} == {"again", "solid_is_for_drag"}
    assert all(one["line"] and one["column"] for one in seen["findings"] + seen["remarks"])


def test_lint_streams_what_it_sees_a_line_each(new: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = asked(capsys, "rules", "lint", "--shop", new, "--jsonl", "--prove")
    assert code == 0
    assert [list(json.loads(line)) for line in out.splitlines()] == [["census"], ["proof"]]


def test_an_effect_ends_in_five_where_answers_change_and_in_zero_where_none_does(
    old: Path, new: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, found = told(capsys, "rules", "effect", old, new)
    difference = found["families"]["family"]["difference"]
    assert (code, difference["kind"], difference["removed"]) == (5, "removes", {"free": 1, "by_arrangement": 0})
    assert difference["witnesses"]["removed"]["unusual"] == {"cooling": "solid"}
    code, found = told(capsys, "rules", "effect", old, old)
    assert (code, found["changed"]) == (0, False)


def test_without_a_second_version_the_shop_as_it_stands_is_the_new_one(
    old: Path, new: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, _ = asked(capsys, "rules", "effect", old, "--shop", new)
    assert code == 5
    assert "the edit removes builds and adds none" in out
    assert "1 build becomes impossible: 1 free, 0 by arrangement" in out


def test_an_effect_ends_in_one_where_an_expected_answer_broke(
    tmp_path: Path, old: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    broken = made(tmp_path / "broken", SOLID, ASKED)
    code, out, _ = asked(capsys, "rules", "effect", old, broken)
    assert code == 1
    assert "Broken: solid_street" in out


def test_kept_quotes_are_read_from_a_folder(
    tmp_path: Path, old: Path, new: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = tmp_path / "kept"
    kept.mkdir()
    _, out, _ = asked(capsys, "quote", "cooling=solid", "use=street", "--shop", old, "--json")
    (kept / "solid.json").write_text(out)
    code, found = told(capsys, "rules", "effect", old, new, "--quotes", kept)
    assert code == 5
    (shift,) = found["quotes"]
    assert (shift["before"]["verdict"], shift["after"]["verdict"]) == ("free", "impossible")
    (kept / "bad.json").write_text("{")
    code, faults = told(capsys, "rules", "effect", old, new, "--quotes", kept)
    assert code == 2
    assert faults["faults"][0]["file"].endswith("bad.json")


def test_what_is_neither_folder_nor_revision_ends_in_two(old: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = asked(capsys, "rules", "effect", "nowhere", "--shop", old)
    assert code == 2
    assert "nowhere" in err


def test_a_rule_is_explained(new: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = asked(capsys, "rules", "explain", "solid_is_for_drag", "--shop", new)
    assert code == 0
    assert "With cooling solid, only use drag will do; anything else is impossible." in out
    code, found = told(capsys, "rules", "explain", "solid_is_for_drag", "--shop", new)
    assert found["families"]["family"]["beside_the_others"] == {"removed": 1, "signed": 0}
    code, _, err = asked(capsys, "rules", "explain", "solid_is_for_dra", "--shop", new)
    assert code == 2
    assert "did you mean solid_is_for_drag?" in err


def test_a_rule_is_tried(old: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, found = told(capsys, "rules", "try", "--when", "cooling=solid", "--then", "use=drag", "--shop", old)
    assert (code, found["families"]["family"]["difference"]["removed"]["free"]) == (5, 1)
    code, _, err = asked(capsys, "rules", "try", "--when", "cooling=sollid", "--then", "use=drag", "--shop", old)
    assert code == 2
    assert "did you mean solid?" in err


ADD = (
    "--when",
    "cooling=solid",
    "--then",
    "use=drag",
    "--id",
    "r",
    "--because",
    "It is hot.",
    "--basis",
    "family data",
)


def test_a_rule_is_written_only_where_that_was_agreed(old: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = asked(capsys, "rules", "add", *ADD, "--shop", old)
    assert code == 5
    assert "--yes writes it" in err
    assert not (old / "rules").exists()
    code, found = told(capsys, "rules", "add", *ADD, "--shop", old, "--yes")
    assert (code, found["saved"], found["file"]) == (0, True, "rules/family.toml")
    assert found["text"] == (old / "rules" / "family.toml").read_text()


def test_a_rule_that_breaks_an_expected_answer_is_not_written_even_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = made(tmp_path / "shop", ASKED)
    code, _, err = asked(capsys, "rules", "add", *ADD, "--shop", shop, "--yes")
    assert code == 1
    assert "Not written" in err
    assert not (shop / "rules").exists()


def test_the_demo_is_not_written_to(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    code, _, err = asked(capsys, "rules", "add", *ADD, "--yes")
    assert code == 2
    assert "shop new" in err


def test_what_flags_did_not_say_is_asked_for_at_a_terminal(
    old: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("configurator.cli.rules_draft._at_terminal", lambda: True)
    said = ["cooling=solid", "use=drag", "solid_is_for_drag", "It gets hot.", "common practice", "y"]
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join([*said, ""])))
    code, out, err = asked(capsys, "rules", "add", "--shop", old)
    assert code == 0
    assert "1 build becomes impossible" in out
    assert "Write it to rules/family.toml?" in err
    assert 'when = { cooling = "solid" }' in (old / "rules" / "family.toml").read_text()


def test_a_rule_that_is_not_wanted_after_all_is_not_written(
    old: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("configurator.cli.rules_draft._at_terminal", lambda: True)
    monkeypatch.setattr("sys.stdin", io.StringIO("n\n"))
    code, _, err = asked(capsys, "rules", "add", *ADD, "--shop", old)
    assert code == 5
    assert "Not written" in err
    assert not (old / "rules").exists()
