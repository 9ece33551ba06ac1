"""Whatever is written into an enquiry, a shop's file or a flag: a clear no at exit code 2, and nothing on the disk.

All of it goes in by the command line, as a user's would. What each string is an attack on stands with the list that
holds it: TOML with `test_load_text`, formulas with `test_language`. The numbers are those that Python's own readers
were seen to take, or to hang on (3.11). Terminal sequences are ECMA-48 and xterm's operating system commands (from
memory); the direction marks are those of Boucher and Anderson, "Trojan Source" (CVE-2021-42574).
"""

from __future__ import annotations

import json
import os
import unicodedata
from collections.abc import Mapping
from pathlib import Path

import pytest

from configurator.load.text import LONGEST_LINE
from tests.scenario import Heard, say
from tests.shops import choice, fact, figure, folder_of, number, price, rule, text_of
from tests.test_language import ATTACKS
from tests.test_load_text import HOSTILE, NOT_TOML

ENTRIES = (
    choice("cooling", "jacketed", {"id": "solid", "facts": {"mass": fact("41 kg")}}, usual="jacketed"),
    choice("head", "open", {"id": "closed", "measures": {"hole": "9 mm"}, "tolerance": {"hole": "1 mm"}}, asks="have"),
    number("bore", [80, 85, 90], "mm", usual="80 mm"),
    ("duty", {"id": "power", "label": "Power", "unit": "kW", "from": "10 kW", "to": "900 kW"}),
    figure("wall", "(94 mm - bore) / 2"),
    rule("wall_holds", figure="wall", free=">= 2 mm"),
    price("base", "9800.00"),
)
SPOILT_FILES = {**HOSTILE, **{name: text.encode() for name, text in NOT_TOML.items()}}


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small shop, with the caller standing in its folder."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "asked").mkdir()
    return folder_of(tmp_path, *ENTRIES)


def contents(folder: Path) -> Mapping[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def refused(shop: Path, *words: str) -> str:
    """What is said of words that must be refused: on the error stream, without a traceback, and nothing is written."""
    before = contents(shop)
    heard = say(*words)
    assert (heard.exit, heard.said) == (2, ""), (words, heard)
    assert "Traceback" not in heard.noticed
    assert_obeys_nothing(heard)
    assert contents(shop) == before
    where, *rest = heard.noticed.splitlines()
    assert where.strip(), heard
    assert rest and rest[-1].startswith("  "), "a way out stands beneath"
    return heard.noticed


def assert_obeys_nothing(heard: Heard) -> None:
    """No control, direction mark or invisible character reaches the terminal."""
    shown = (heard.said + heard.noticed).replace("\n", "")
    assert not [one for one in shown if unicodedata.category(one) in ("Cc", "Cf", "Cs", "Zl", "Zp")], heard


def test_the_shop_that_is_attacked_is_sound(shop: Path) -> None:
    assert say("shop", "check").exit == 0
    assert say("check", "bore=85 mm", "--measured", "head.hole=9.2mm", "--duty", "power=300 kW").exit == 0


# Files


@pytest.mark.parametrize("data", SPOILT_FILES.values(), ids=SPOILT_FILES.keys())
def test_a_spoilt_file_is_named_with_its_line_in_a_shop_and_as_an_enquiry(shop: Path, data: bytes) -> None:
    (shop / "asked" / "job.toml").write_bytes(data)
    assert refused(shop, "check", "asked/job.toml").startswith("asked/job.toml:")
    (shop / "rotten.toml").write_bytes(data)
    assert refused(shop, "shop", "check").startswith("rotten.toml:")


@pytest.mark.parametrize("word", [".", "/", "asked", "nowhere.toml", "../../etc/cron.d/x", "x" * 300 + ".toml"])
def test_what_is_no_file_of_an_enquiry_is_named(shop: Path, word: str) -> None:
    assert refused(shop, "check", word).startswith(word[:70])


# Formulas

BLANK = [text for text in ATTACKS if not text.strip()]


@pytest.mark.parametrize("text", [text for text in ATTACKS if "\ud800" not in text], ids=lambda text: ascii(text)[:40])
def test_a_formula_that_reaches_for_the_machine_is_refused_wherever_it_stands(shop: Path, text: str) -> None:
    evil = (
        figure("evil", text),
        rule("evil_limit", figure="wall", free=f">= {text}"),
        rule("evil_condition", when={"wall": f"> {text}"}, then="impossible"),
    )
    (shop / "shop.toml").write_text(text_of(*ENTRIES, *evil), encoding="utf-8")
    assert refused(shop, "shop", "check").startswith("shop.toml:")
    if len(text) < LONGEST_LINE and text not in BLANK:
        faults = json.loads(say("--json", "shop", "check").said)["faults"]
        keys = {fault["key"].removeprefix("figure.").removeprefix("rule.") for fault in faults}
        assert keys >= {"formula", "free", "when.wall"}


@pytest.mark.parametrize(
    ("formulas", "wrong"),
    [
        ({"a": "b", "b": "a"}, "circle"),
        ({"a": "a"}, "circle"),
        ({f"a{step}": f"a{step - 1} + a{step - 1}" for step in range(1, 61)} | {"a0": "bore"}, ""),
    ],
    ids=["two that need each other", "one that needs itself", "sixty that double"],
)
def test_formulas_that_never_end_are_refused_and_long_chains_are_not_worked_out_twice(
    shop: Path, formulas: Mapping[str, str], wrong: str
) -> None:
    (shop / "shop.toml").write_text(
        text_of(*ENTRIES, *(figure(id, text) for id, text in formulas.items())), encoding="utf-8"
    )
    if wrong:
        assert wrong in refused(shop, "shop", "check")
    else:
        assert say("check").exit == 0


@pytest.mark.parametrize("formula", ["bore / (bore - bore)", "sqrt(0 mm - bore) * 1", "bore / 0"])
def test_a_formula_without_a_value_never_lets_a_build_pass(shop: Path, formula: str) -> None:
    evil = (figure("evil", formula), rule("evil_limit", figure="evil", free="> 0"))
    (shop / "shop.toml").write_text(text_of(*ENTRIES, *evil), encoding="utf-8")
    heard = say("check")
    assert heard.exit in (1, 2)
    assert "Traceback" not in heard.noticed


# Numbers

NO_NUMBERS = [
    "nan",
    "inf",
    "-inf",
    "1e400",
    "1e-400",
    "1E+9999999",
    "0x10",
    "1_000",
    "１２",
    "١٢٣",
    "1,5",
    "1.234,56",
    "true",
    "9223372036854775808",
    "9" * 450,
    "9" * 5000,
    "0.1+0.2",
    "--5",
    "1..5",
]


@pytest.mark.parametrize("text", NO_NUMBERS, ids=lambda text: ascii(text)[:24])
def test_what_is_no_number_is_refused_wherever_a_caller_may_say_one(shop: Path, text: str) -> None:
    for unit in ("", " mm"):
        assert refused(shop, "check", f"bore={text}{unit}").startswith("bore: ")
    assert refused(shop, "check", "--duty", f"power={text} kW").startswith("--duty: ")
    assert refused(shop, "check", "--measured", f"head.hole={text} mm").startswith("--measured: ")
    for flag in ("--quantity", "--date", "--list", "--family", "--for"):
        assert refused(shop, "check", flag, text).startswith(f"{flag}:")


@pytest.mark.parametrize("text", [text for text in NO_NUMBERS if len(text) < LONGEST_LINE], ids=ascii)
def test_what_is_no_number_is_refused_in_an_enquiry_with_its_line(shop: Path, text: str) -> None:
    job = shop / "asked" / "job.toml"
    job.write_text(f'[want]\nbore = "{text} mm"\n[duty]\npower = "{text} kW"\n', encoding="utf-8")
    noticed = refused(shop, "check", "asked/job.toml")
    assert "asked/job.toml:2: want.bore: " in noticed
    assert "asked/job.toml:4: duty.power: " in noticed
    job.write_text(
        f"quantity = -{text.lstrip('-')}\n", encoding="utf-8"
    )  # 0x10 is sixteen in TOML; below nothing is no number
    assert refused(shop, "check", "asked/job.toml").startswith("asked/job.toml:1")


@pytest.mark.parametrize("text", [text for text in NO_NUMBERS if len(text) < LONGEST_LINE], ids=ascii)
def test_what_is_no_number_is_refused_in_a_shop_with_its_line(shop: Path, text: str) -> None:
    spoilt = text_of(*ENTRIES).replace("41 kg", f"{text} kg").replace('"9800.00"', f'"{text}"')
    (shop / "shop.toml").write_text(spoilt, encoding="utf-8")
    faults = json.loads(say("--json", "shop", "check").said)["faults"]
    lines = spoilt.splitlines()
    assert {lines[fault["line"] - 1].partition(" =")[0] for fault in faults} >= {"amount", "is"} or len(faults) >= 2
    assert refused(shop, "shop", "check").startswith("shop.toml:")


@pytest.mark.parametrize("text", ["25.4", "-0", " 1", "0"])
def test_a_bare_number_is_not_guessed_at(shop: Path, text: str) -> None:
    assert "Say which is meant" in refused(shop, "check", f"bore={text}")


# Text

OBEYED = [
    "\x1b]0;owned\x07",
    "\x1b]52;c;cm0gLXJm\x07",
    "\x1b]8;;http://x\x07ok\x1b]8;;\x07",
    "\x1b[2J\x1b[H",
    "\x1b[8m",
    "\x1b[6n",
    '\x1bP$q"p\x1b\\',
    "\x9b31m",
    "\x1bc",
    "A\rTOTAL 1.00",
    "\b\b\b",
    "\x07",
    "\x7f",
    "a\u2028b",
    "price \u202e00.9",
    "\u2066x\u2069",
    "a\u200bb",
    "\ufeffx",
    "a" + "\u0301" * 400,
]
SHOWN = {"\x1b": r"\x1b", "\x9b": r"\x9b", "\r": r"\x0d", "\b": r"\x08", "\x07": r"\x07", "\x7f": r"\x7f"}


@pytest.mark.parametrize("text", OBEYED, ids=ascii)
def test_what_a_terminal_would_obey_is_shown_written_out_in_a_fault(shop: Path, text: str) -> None:
    for words in ((text,), (f"cooling={text}",), (f"{text}=solid",), ("--family", text), ("--duty", f"{text}=1")):
        noticed = refused(shop, "check", *words).replace("\n", "")
        for obeyed, shown in SHOWN.items():
            assert obeyed not in text or shown in noticed or "longer than" in noticed


@pytest.mark.parametrize("text", OBEYED, ids=ascii)
def test_what_a_terminal_would_obey_is_shown_written_out_in_an_answer(shop: Path, text: str) -> None:
    labelled = [choice("use", {"id": "street", "label": text}, usual="street"), price("line", "1.00", text=f"x {text}")]
    (shop / "shop.toml").write_text(text_of(*ENTRIES, *labelled), encoding="utf-8")
    (shop / "asked" / "job.toml").write_text(f"customer = {json.dumps(text)}\n", encoding="utf-8")
    for command in ("options", "check", "quote", "builds"):
        heard = say(command, "asked/job.toml")
        assert heard.exit == 0, heard
        assert_obeys_nothing(heard)


@pytest.mark.parametrize("command", ["check", "options", "quote"])
def test_bytes_that_are_no_text_are_refused_as_a_customer_and_as_a_pick(shop: Path, command: str) -> None:
    """A command line is bytes; those that are no UTF-8 come in as half characters (PEP 383)."""
    text = os.fsdecode(b"Zo\xeb")
    assert refused(shop, command, "--customer", text).startswith("--customer: ")
    assert refused(shop, command, f"cooling={text}").startswith("cooling: ")


def test_a_file_whose_name_is_no_text_stands_in_a_shop_like_any_other(shop: Path) -> None:
    name = os.fsdecode(b"\xeb.toml")
    try:
        (shop / name).write_text("[[tally]]\nid = 'mass'\nunit = 'kg'\nlabel = 'Mass'\n")
    except OSError:
        pytest.skip("this file system takes no such name")
    assert say("check").exit == 0
    assert say("check").exit == 0, "kept in the cache, too"
    (shop / name).write_text("[[tally]]\n")
    assert refused(shop, "check").startswith(r"\u{dceb}.toml:1")


@pytest.mark.parametrize("name", ["-rf", "--force"])
def test_a_flag_is_no_name_to_save_under(shop: Path, name: str) -> None:
    assert "looks like a flag" in refused(shop, "check", f"--save={name}")
