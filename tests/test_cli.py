"""The command line from outside: what goes to which stream, which code it ends with, and what gets past no door."""

from __future__ import annotations

import csv
import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.shell_completion import ShellComplete
from rich.cells import cell_len

from configurator import __version__, shipped
from configurator.cli import check
from configurator.cli.commands import COMMANDS, blocks
from configurator.cli.page import Part, columns, entry, prose, show, wrap
from configurator.faults import NotKnown
from tests.scenario import TODAY, Heard, say

TARNWICK = str(shipped.demo_folder() / "tarnwick")
SOLID = ("cooling=solid", "use=street")


def ask(*words: str) -> Heard:
    """A command put to the Tarnwick demo shop."""
    return say("--shop", TARNWICK, *words)


def ask_json(*words: str) -> Any:
    return json.loads(ask(*words, "--json").said)


# Streams and codes


def test_what_can_be_built_ends_with_nothing_amiss() -> None:
    heard = ask("check", "use=street")
    assert heard.exit == 0
    assert heard.said.startswith("Yes")
    assert heard.noticed == ""


def test_a_no_is_an_answer_and_no_error() -> None:
    heard = ask("check", *SOLID)
    assert heard.exit == 1
    assert heard.said.startswith("No: solid is for drag only.")
    assert heard.noticed == ""


def test_a_fault_goes_beside_the_answer() -> None:
    heard = ask("check", "cooling=solit")
    assert heard.exit == 2
    assert heard.said == ""
    assert "did you mean solid?" in heard.noticed


def test_an_impossible_quote_is_the_answer_why() -> None:
    heard = ask("quote", *SOLID)
    assert heard.exit == 1
    assert heard.said == ask("check", *SOLID).said


def raising(error: BaseException) -> Any:
    def lay(*_: Any) -> Any:
        raise error

    return lay


@pytest.mark.parametrize(
    ("error", "code", "told"),
    [
        (NotKnown("more than 200,000 states"), 4, "Not known: more than 200,000 states"),
        (KeyboardInterrupt(), 130, "Stopped."),
        (OSError(28, "No space left on device"), 3, "could not be written: No space left on device"),
        (KeyError("x\x1b[2J"), 70, r"a mistake of ours, not of yours (KeyError: 'x\x1b[2J')"),
        (RecursionError("deep"), 70, "a mistake of ours"),
    ],
)
def test_every_end_has_its_code_and_its_sentence(
    error: BaseException, code: int, told: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(check, "lay", raising(error))
    heard = ask("check")
    assert heard.exit == code
    assert told in " ".join(heard.noticed.split())
    assert "Traceback" not in heard.noticed + heard.said


def test_a_mistake_of_ours_is_shown_whole_only_when_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(check, "lay", raising(ZeroDivisionError("ours")))
    assert "Traceback" in ask("check", "--debug").noticed
    document = ask_json("check")
    assert "ours" in document["bug"]


def test_who_stops_reading_gets_no_complaint() -> None:
    command = [sys.executable, "-m", "configurator", "--shop", TARNWICK, "builds", "--csv"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout and process.stderr
        process.stdout.readline()
        process.stdout.close()
        assert process.stderr.read() == b""
    assert process.returncode == 0


# Which shop


def test_without_a_shop_the_demo_answers_and_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    heard = say("check")
    assert heard.exit == 0
    assert "nothing in it is real" in " ".join(heard.noticed.split())


def test_the_nearest_shop_upward_answers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert say("shop", "new", str(tmp_path / "mine")).exit == 0
    below = tmp_path / "mine" / "enquiries"
    monkeypatch.chdir(below)
    heard = say("check", "first.toml")
    assert heard.exit == 0
    assert "5,000.00 GBP" in heard.said
    assert heard.noticed == ""


def test_the_flag_goes_before_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BLOCKS_SHOP", str(shipped.demo_folder() / "brindlow"))
    assert "BLW8" in say("check").said
    assert "TNW5" in say("check", "--shop", TARNWICK).said
    assert "TNW5" in say("--shop", TARNWICK, "check").said


def test_a_folder_without_a_shop_is_a_fault_with_a_way_out(tmp_path: Path) -> None:
    heard = say("--shop", str(tmp_path), "check")
    assert heard.exit == 2
    assert "has no shop.toml" in " ".join(heard.noticed.split())
    assert "blocks shop new DIR" in heard.noticed


# What was asked


def test_a_build_is_said_in_picks_a_file_a_code_or_standard_input(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    saved = tmp_path / "asked.toml"
    picks = ("cooling=dry_deck", "head_work=close", "feed=kit")
    heard = ask("check", *picks, "--save", str(saved))
    assert heard.exit == 0
    assert f"Saved {saved}." in " ".join(heard.noticed.split())
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(saved.read_bytes())))
    assert ask("check", str(saved)).said == heard.said == ask("check", "-").said
    code = ask_json("check", *picks)["build"]["code"]
    assert ask_json("check", code)["net"] == ask_json("check", *picks)["net"]


def test_a_later_pick_replaces_an_earlier_one_and_says_so(tmp_path: Path) -> None:
    saved = str(tmp_path / "asked.toml")
    ask("check", *SOLID, "--save", saved)
    heard = ask("check", saved, "cooling=jacketed")
    assert heard.exit == 0
    assert "replaces" in heard.noticed
    assert ask("check", saved, "--without", "use").exit == 0


def test_a_file_that_is_there_is_not_written_over(tmp_path: Path) -> None:
    saved = tmp_path / "asked.toml"
    saved.write_text("precious")
    heard = ask("check", "--save", str(saved))
    assert heard.exit == 3
    assert heard.said.startswith("Yes")
    assert "--force" in heard.noticed
    assert saved.read_text() == "precious"
    assert ask("check", "--save", str(saved), "--force").exit == 0
    assert saved.read_text() != "precious"


def test_what_was_measured_is_read_back_with_how_it_is_known() -> None:
    said = " ".join(ask("check", "--measured", "crank_flange.chord=42.3mm,bolts=5").said.split())
    assert "(measured, chord 42.3 mm, bolts 5)" in said


def test_horsepower_and_boost_are_echoed_as_they_were_taken() -> None:
    """215 hp of 550 ft lbf/s is 160.3 kW; boost is gauge by definition."""
    said = " ".join(ask("check", "--duty", "power=215hp", "--duty", "boost=1.8bar").said.split())
    assert "215 hp (160.3 kW)" in said
    assert "boost 1.8 bar gauge" in said


# Typing mistakes


@pytest.mark.parametrize(
    ("words", "answered"),
    [
        (("chekc",), "did you mean check?"),
        (("rules", "lnit"), "did you mean lint?"),
        (("check", "--messured", "x=1"), "did you mean --measured?"),
        (("check", "colling=solid"), "did you mean cooling?"),
        (("check", "--for", "custmer"), "did you mean customer?"),
        (("check", "--date", "06/07/26"), "write it like 2026-06-26"),
        (("check", "--date", "2026-02-30"), "write it like 2026-06-26"),
        (("check", "--quantity", "1.5"), "write a whole number"),
        (("check", "--quantity", "١٢"), "write a whole number"),
        (("check", "--list", "2026-07"), "did you mean 2026-06?"),
        (("check", "--save"), "something must stand behind this flag"),
        (("check", "--save", "--debug"), "looks like a flag"),
        (("check", "nosuch.toml"), "No such file or directory"),
        (("check", TARNWICK), "Is a directory"),
        (("check", "nosuch"), "is neither a pick, nor a file, nor a build code"),
        (("builds", "--sort", "prize"), "did you mean price?"),
        (("compare", "cooling=solid"), "two to four builds are wanted, not 1"),
        (("shop", "new"), "this is missing"),
    ],
)
def test_a_typing_mistake_is_answered_with_the_way_out(words: tuple[str, ...], answered: str) -> None:
    heard = ask(*words)
    assert heard.exit == 2
    assert heard.said == ""
    assert answered in " ".join(heard.noticed.split())
    document = json.loads(ask("--json", *words).said)
    assert document["schema"] == 1
    assert document["faults"][0]["wrong"]


def test_the_environment_is_held_to_the_same_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BLOCKS_FOR", "everyone")
    heard = ask("check")
    assert heard.exit == 2
    assert "BLOCKS_FOR" in heard.noticed


HOSTILE = ("\x1b]0;owned\x07", "\x9b31m", "A\rTOTAL 1.00", "\u202e00.9", "\x7f")


@pytest.mark.parametrize("hostile", HOSTILE)
def test_no_terminal_obeys_what_was_typed(hostile: str, tmp_path: Path) -> None:
    """In a pick, a name, a flag, a command and the path of a file, to either stream, as text and as JSON."""
    asked = [
        ("check", f"cooling={hostile}"),
        ("quote", "--customer", hostile),
        ("check", "--measured", f"main_width={hostile}"),
        ("check", f"--{hostile}"),
        (hostile,),
        ("check", f"{tmp_path}/{hostile}.toml"),
        ("check", "belt_of_ours", hostile),
    ]
    for words in asked:
        for form in ((), ("--json",)):
            heard = ask(*words, *form)
            assert heard.exit in (0, 2)
            assert not set(heard.said + heard.noticed) & set("\x1b\x07\x9b\r\u202e\x7f"), words


# Who reads


def test_the_customer_is_shown_nothing_that_is_the_shops_own() -> None:
    words = ("quote", "stroke=99mm", "rod=148mm", "deck=standard", "--quantity", "2")
    ours, theirs = ask(*words), ask(*words, "--for", "customer")
    rules = {check["rule"] for check in ask_json(*words)["checks"]}
    assert any(rule in ours.said for rule in rules)
    assert not [rule for rule in rules if rule in theirs.said + ask(*words, "--for", "customer", "--json").said]
    assert "Five-axis mill" in ours.said
    assert "Five-axis mill" not in theirs.said


def test_the_customer_hears_of_no_file_of_the_shop(tmp_path: Path) -> None:
    ask("shop", "new", str(tmp_path / "mine"))
    (tmp_path / "mine" / "works.toml").write_text('[[price]]\nid = "x"\n')
    ours = say("--shop", str(tmp_path / "mine"), "check")
    theirs = say("--shop", str(tmp_path / "mine"), "check", "--for", "customer")
    assert ours.exit == theirs.exit == 2
    assert "works.toml" in ours.noticed
    assert theirs.noticed == "the shop: its files cannot be read just now\n  Please ask the shop.\n"


def test_the_customers_own_file_is_named_to_him(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text('[want]\ncooling = "solit"\n')
    heard = ask("check", str(tmp_path / "mine.toml"), "--for", "customer")
    assert heard.exit == 2
    assert "mine.toml:2" in heard.noticed


# Commands


def test_every_command_has_its_help_and_is_what_its_name_says() -> None:
    for name in COMMANDS:
        heard = say(name, "-h")
        assert heard.exit == 0
        assert heard.said.startswith(f"Usage: blocks {name}")
    assert say().said == say("-h").said == say("--help").said
    assert say("--version").said == f"blocks {__version__}\n"


def test_options_lists_ids_and_says_what_closes_them() -> None:
    said = " ".join(ask("options", "use=street").said.split())
    assert "solid Solid cooling not with use street" in said or "solid Solid not with use street" in said
    alone = ask("options", "cooling").said
    assert "dry_deck" in alone
    assert "crank_flange" not in alone
    document = ask_json("options", "use=street", "cooling")
    assert document["choices"]["cooling"]["options"]["solid"]["not_with"] == {"use": "street"}


NARROW = ("cooling=jacketed", "use=street")


def test_builds_are_counted_paged_and_sorted() -> None:
    counted = ask_json("builds", *NARROW, "--count")
    assert counted["builds"]["free"] > 1_000_000
    first = ask_json("builds", *NARROW, "--sort", "price", "--limit", "3")["rows"]
    second = ask_json("builds", *NARROW, "--sort", "price", "--limit", "2", "--offset", "1")["rows"]
    assert first[1:] == second
    nets = [float(row["net"]) for row in first]
    assert nets == sorted(nets)
    assert "as usual" not in ask("builds", *NARROW, "--free", "--limit", "3").said.split("\n")[0]


def test_builds_stream_as_csv_and_as_json_lines() -> None:
    rows = list(csv.DictReader(io.StringIO(ask("builds", *NARROW, "--csv", "--limit", "4").said)))
    lines = [json.loads(line) for line in ask("builds", *NARROW, "--jsonl", "--limit", "4").said.splitlines()]
    assert [row["code"] for row in rows] == [line["code"] for line in lines]
    assert len(rows) == 4
    assert ask("builds", *SOLID, "--csv").exit == 1
    assert ask("builds", *SOLID).said == ask("check", *SOLID).said


def test_builds_compared_show_only_where_they_differ(tmp_path: Path) -> None:
    heard = ask("compare", "use=street", "--with", "cooling=dry_deck")
    assert heard.exit == 0
    assert "+1,330.00" in heard.said
    assert "Dry deck" in heard.said
    document = ask_json("compare", "use=street", "--with", "cooling=dry_deck")
    assert "cooling" in document["differing"]
    assert "use" not in document["differing"]
    assert [build["net"] for build in document["builds"]] == ["9800.00", "11130.00"]


def test_what_cannot_be_built_cannot_be_compared() -> None:
    heard = ask("compare", "use=street", "--with", "cooling=solid")
    assert heard.exit == 1
    assert "solid is for drag only" in heard.said


def test_a_quote_has_dates_only_once_its_clock_has_started() -> None:
    assert ask_json("quote", "--date", TODAY)["promise"]["dates"] is None
    dates = ask_json("quote", "--date", TODAY, "--started", TODAY)["promise"]["dates"]
    assert dates["start"] == TODAY


def test_a_quantity_is_for_the_whole() -> None:
    one, two = (ask_json("quote", "--date", TODAY, "--quantity", number) for number in ("1", "2"))
    assert (one["net"], two["net"]) == ("9800.00", "19600.00")


def test_lint_has_nothing_to_say_of_the_demo_shops() -> None:
    for name in ("tarnwick", "brindlow"):
        heard = say("--shop", str(shipped.demo_folder() / name), "rules", "lint", "--date", TODAY)
        assert heard.exit == 0, heard.said
        assert heard.said.startswith("Nothing to mend.")


def test_a_shop_looked_over_says_what_it_holds() -> None:
    heard = ask("shop", "check")
    assert heard.exit == 0
    assert "choices" in heard.said
    assert ask_json("shop", "check")["families"]["tnw5"]["price_lists"] == {"2026-06": "2026-06-01"}


# Completion


def completed(*words: str, start: str) -> list[str]:
    shell = ShellComplete(blocks, {}, "blocks", "_BLOCKS_COMPLETE")
    return [item.value for item in shell.get_completions(["--shop", TARNWICK, *words], start)]


def test_the_shell_completes_choices_options_duties_and_families() -> None:
    assert "cooling=" in completed("check", start="coo")
    assert completed("check", start="cooling=d") == ["cooling=dry_deck"]
    assert "power=" in completed("check", "--duty", start="po")
    assert "crank_flange" in completed("check", "--without", start="crank")
    assert completed("check", "--family", start="") == ["tnw5"]


def test_a_shell_that_cuts_words_at_the_equals_sign_is_served_too() -> None:
    assert completed("check", "cooling", "=", start="d") == ["dry_deck"]
    assert completed("check", "cooling=", start="so") == ["solid"]


def test_a_shop_that_cannot_be_read_completes_nothing(tmp_path: Path) -> None:
    shell = ShellComplete(blocks, {}, "blocks", "_BLOCKS_COMPLETE")
    assert shell.get_completions(["--shop", str(tmp_path), "check"], "coo") == []


# The page


@pytest.mark.parametrize("text", ["deck", "日本のエンジン", "ｆｕｌｌ", "e\u0301", "Öl 20 °C", "한국어"])
def test_widths_are_those_that_another_library_counts(text: str) -> None:
    (line,) = wrap(text, 40)
    ((part, *_),) = columns([[text, "x"]], 40)
    assert cell_len(part.text) == cell_len(line)


def test_long_text_is_wrapped_between_words_and_long_words_inside() -> None:
    assert wrap("one two three", 7) == ["one two", "three"]
    assert wrap("abcdefghij", 4) == ["abcd", "efgh", "ij"]
    assert wrap("  a b", 4) == ["  a", "  b"]
    assert wrap("", 10) == [""]
    assert all(cell_len(line) <= 9 for line in wrap("日本のエンジン" * 4, 9))


def written(lines: Any) -> str:
    stream = io.StringIO()
    show(lines, stream)
    return stream.getvalue()


def test_columns_line_up_and_the_widest_gives_way() -> None:
    page = written(columns([["name", "1.00"], ["a much longer name", "10.00"], ["beneath"]], 20, "<>"))
    assert page == "name            1.00\na much longer  10.00\nname\n  beneath\n"


def test_a_note_ends_at_the_right_edge_or_on_a_line_of_its_own() -> None:
    assert written(prose("short", 20, "id")) == "short             id\n"
    assert written(prose("twenty characters on", 20, "id")) == "twenty characters on\n                  id\n"


def test_a_label_stands_in_the_margin_or_above() -> None:
    assert written(entry("asked", prose("deck", 20))) == "  asked     deck\n"
    assert written(entry("a_long_family", prose("deck", 20))) == "  a_long_family\n            deck\n"
    assert entry("asked", []) == []


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_colour_only_repeats_what_the_words_say(monkeypatch: pytest.MonkeyPatch) -> None:
    line = (Part("No", "no"), Part(" \x1b[2J"))
    plain, coloured = Terminal(), Terminal()
    monkeypatch.setenv("NO_COLOR", "1")
    show([line], plain)
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setenv("TERM", "xterm")
    show([line], coloured)
    assert plain.getvalue() == "No \\x1b[2J\n"
    assert coloured.getvalue() == "\x1b[1;31mNo\x1b[0m \\x1b[2J\n"


def test_an_answer_fits_eighty_columns() -> None:
    for words in (("check", *SOLID), ("check", "--duty", "power=160kW"), ("quote",), ("options",), ("builds",)):
        assert max(map(cell_len, ask(*words).said.splitlines())) <= 80, words


# Quick to start


SLOW = ("constraint", "dataclasses", "difflib", "numpy", "pydantic", "rich", "tomlkit", "tomli_w", "tree_sitter")


def test_a_warm_check_loads_nothing_slow() -> None:
    ask("check", *SOLID)
    program = (
        "import sys; from configurator.cli import main; "
        f"main(['--shop', {TARNWICK!r}, 'check', 'cooling=solid', 'use=street']); "
        f"print(sorted(set(sys.modules) & set({SLOW!r})), file=sys.stderr)"
    )
    heard = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert heard.stderr == "[]\n"


def test_the_module_is_the_command() -> None:
    heard = subprocess.run(
        [sys.executable, "-m", "configurator", "--version"], capture_output=True, text=True, check=True, env=os.environ
    )
    assert heard.stdout == f"blocks {__version__}\n"


def test_the_shell_gets_the_whole_answer_and_its_exit_code() -> None:
    command = [sys.executable, "-m", "configurator", "--shop", TARNWICK, "check", *SOLID, "--date", TODAY]
    heard = subprocess.run(command, capture_output=True, text=True, env=os.environ)
    assert heard.returncode == 1
    assert heard.stdout == ask("check", *SOLID, "--date", TODAY).said


def test_a_build_code_comes_back_unchanged_and_tells_nothing_that_the_caller_did_not() -> None:
    first = ask_json("check", "cooling=dry_deck", "bore=84.7mm", "crank_flange=eight_bolt")
    again = ask_json("check", first["build"]["code"])
    assert again["build"]["code"] == first["build"]["code"]
    assert {pick["known"] for pick in again["asked"]["picks"].values()} == {"assumed", None}  # a want has no evidence


def test_the_rules_are_not_for_customers() -> None:
    for words in (("lint",), ("explain", "belt_reaches")):
        heard = ask("rules", *words, "--for", "customer")
        assert heard.exit == 2
        assert "belt_reaches" not in heard.said + heard.noticed


def test_a_customer_is_told_of_a_day_without_prices_and_not_of_the_shops_files() -> None:
    heard = ask("check", "--date", "2020-01-01", "--for", "customer")
    assert heard.exit == 2
    assert "no price list for Tarnwick TNW5 is in force on 2020-01-01" in " ".join(heard.noticed.split())
