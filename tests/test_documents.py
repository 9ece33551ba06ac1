"""What leaves the program: text safe to show, files saved whole, JSON, CSV and TOML held against their own readers."""

from __future__ import annotations

import csv
import io
import json
import os
import tomllib
import unicodedata
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator import desk, shipped
from configurator.answer import Answer
from configurator.answering import answer_case
from configurator.desk import Desk, open_shop
from configurator.documents.characters import columns_of, visible
from configurator.documents.json_of import answer_json, exactly, limit_json, quantity_json
from configurator.documents.json_quotes import quote_json
from configurator.documents.new_shop import write_shop
from configurator.documents.saving import Refused, save
from configurator.documents.table_of import build_rows, csv_lines, json_lines, row_json
from configurator.documents.toml_of import enquiry_toml
from configurator.enquiry import Enquiry, Extra
from configurator.listing import list_builds
from configurator.load.enquiry import gather
from configurator.load.sheets import Spoken
from configurator.quote import Quote
from configurator.review.lint import lint
from configurator.units import Quantity, read_quantity
from tests.cases import case_of
from tests.shops import choice, family_of, figure, number, price, rule, shop_of

DAY = date(2026, 11, 25)

# Text to show


@pytest.mark.parametrize(
    ("hostile", "shown"),
    [
        # terminal control sequences: ECMA-48, and the operating system commands of xterm (from memory)
        ("\x1b]0;owned\x07", r"\x1b]0;owned\x07"),
        ("\x1b]52;c;cm0gLXJm\x07", r"\x1b]52;c;cm0gLXJm\x07"),
        ("\x1b[2J\x1b[H", r"\x1b[2J\x1b[H"),
        ("\x9b31m", r"\x9b31m"),
        ("A\rTOTAL 1.00", r"A\x0dTOTAL 1.00"),
        ("a\b\b", r"a\x08\x08"),
        ("\x7f", r"\x7f"),
        # direction overrides: Boucher and Anderson, "Trojan Source" (CVE-2021-42574)
        ("price \u202e00.9", r"price \u{202e}00.9"),
        ("\u2066x\u2069", r"\u{2066}x\u{2069}"),
        ("a\u200bb\ufeff", r"a\u{200b}b\u{feff}"),
        ("a\u2028b", r"a\u{2028}b"),
        (os.fsdecode(b"\xff.toml"), r"\u{dcff}.toml"),
    ],
)
def test_what_a_terminal_would_obey_is_written_out(hostile: str, shown: str) -> None:
    assert visible(hostile) == shown


def test_ordinary_text_stays_as_it_is() -> None:
    for text in ("Dry deck, 236.0 mm", "Zoë's V8", "Öl 20 °C", "日本のエンジン", "e\u0301", "50 £"):
        assert visible(text) == text


def test_a_pile_of_marks_is_written_out() -> None:
    assert visible("a" + "\u0301" * 500).count("\u0301") == 4


@given(st.text())
def test_whatever_is_shown_holds_nothing_to_obey(text: str) -> None:
    shown = visible(text)
    assert not {unicodedata.category(character) for character in shown} & {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert visible(shown) == shown


@pytest.mark.parametrize(
    ("text", "columns"),
    [("deck", 4), ("日本", 4), ("e\u0301", 1), ("ｆｕｌｌ", 8), ("Öl", 2), ("", 0)],
)
def test_widths_are_counted_in_columns(text: str, columns: int) -> None:
    """Unicode Standard Annex 11: wide and fullwidth characters take two columns."""
    assert columns_of(text) == columns


# Files


def test_a_file_is_saved_whole(tmp_path: Path) -> None:
    save(tmp_path / "a.toml", b"x = 1\n")
    assert (tmp_path / "a.toml").read_bytes() == b"x = 1\n"
    assert [path.name for path in tmp_path.iterdir()] == ["a.toml"]


def test_a_file_that_is_there_is_replaced_only_when_asked(tmp_path: Path) -> None:
    target = tmp_path / "a.toml"
    save(target, b"old")
    with pytest.raises(Refused, match="is there already; --force"):
        save(target, b"new")
    assert target.read_bytes() == b"old"
    save(target, b"new", force=True)
    assert target.read_bytes() == b"new"
    assert len(list(tmp_path.iterdir())) == 1


def test_a_link_is_never_written_through(tmp_path: Path) -> None:
    elsewhere, link = tmp_path / "elsewhere", tmp_path / "link"
    elsewhere.write_bytes(b"precious")
    link.symlink_to(elsewhere)
    with pytest.raises(Refused):
        save(link, b"new")
    save(link, b"new", force=True)
    assert elsewhere.read_bytes() == b"precious"
    assert not link.is_symlink()
    assert link.read_bytes() == b"new"


def test_a_dangling_link_counts_as_a_file(tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    with pytest.raises(Refused):
        save(tmp_path / "link", b"new")
    assert not (tmp_path / "nowhere").exists()


@pytest.mark.parametrize("name", ["missing/a.toml", ".", "a\0b"])
def test_what_cannot_be_saved_is_refused_in_a_sentence(tmp_path: Path, name: str) -> None:
    with pytest.raises(Refused):
        save(tmp_path / name, b"new")


def test_a_write_that_fails_leaves_no_half_a_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "a.toml"
    save(target, b"old")

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(Refused, match="No space left on device"):
        save(target, b"new", force=True)
    assert target.read_bytes() == b"old"
    assert len(list(tmp_path.iterdir())) == 1


# JSON

BLOCK = shop_of(
    choice("cooling", "jacketed", "solid", usual="jacketed"),
    choice("use", "street", "drag", usual="street"),
    choice("head", "open", "closed", asks="have"),
    number("bore", [80, 85, 90], "mm", usual="80 mm"),
    figure("wall", "(94 mm - bore) / 2"),
    rule("solid_is_for_drag", when={"cooling": "solid"}, then={"use": "drag"}),
    rule("wall_holds", figure="wall", free=">= 5 mm", by_arrangement=">= 4 mm", unit="mm"),
    rule("mind_the_heat", when={"use": "drag"}, then="advice"),
    price("base", "9800.00"),
    price("solid", "-600.00", when={"cooling": "solid"}),
)


def answered(**picks: str) -> Answer:
    return answer_case(case_of(BLOCK, picks))


def keys_of(document: Any) -> Iterator[str]:
    if isinstance(document, dict):
        for key, value in document.items():
            yield key
            yield from keys_of(value)
    elif isinstance(document, list):
        for value in document:
            yield from keys_of(value)


def texts_of(document: Any) -> Iterator[str]:
    if isinstance(document, dict):
        for value in document.values():
            yield from texts_of(value)
    elif isinstance(document, list):
        for value in document:
            yield from texts_of(value)
    elif isinstance(document, str):
        yield document


def test_an_answer_is_one_document_with_its_schema() -> None:
    document = json.loads(json.dumps(answer_json(answered(bore="85 mm"))))
    assert document["schema"] == 1
    assert document["verdict"] == "by_arrangement"
    assert document["builds"] == {"free": 0, "by_arrangement": 6}
    assert document["choices"]["bore"] == {
        "picked": "85 mm",
        "settled": None,
        "options": {"80 mm": "free", "85 mm": "by_arrangement", "90 mm": "closed"},
    }
    assert document["still_to_settle"] == ["head", "cooling", "use"]
    assert document["price"] == {"least": "9200.00", "greatest": "9800.00", "currency": "EUR"}
    assert document["sign_offs"][0]["rule"] == "wall_holds"
    (check,) = document["checks"]
    assert check["value"] == {"value": 4.5, "unit": "mm"}
    assert check["limit"] == {"text": "at least 5.0 mm", "least": {"value": 5.0, "unit": "mm"}, "greatest": None}
    assert check["margin"] == {"value": -0.5, "unit": "mm"}


def test_a_no_carries_its_conflicts_and_its_ways_out() -> None:
    document = answer_json(answered(cooling="solid", use="street"))
    (conflict,) = document["conflicts"]
    assert conflict["between"] == {"cooling": "solid", "use": "street"}
    assert conflict["rules"] == ["solid_is_for_drag"]
    assert [way["change"] for way in document["ways_out"]] == [{"cooling": "jacketed"}, {"use": "drag"}]
    assert [(way["net"], way["difference"]) for way in document["ways_out"]] == [
        ("9800.00", "0.00"),
        ("9200.00", "-600.00"),
    ]
    assert document["build"] is None


def test_the_customer_sees_no_id_of_a_rule() -> None:
    for picks in ({"cooling": "solid", "use": "street"}, {"bore": "85 mm", "use": "drag"}):
        ours, theirs = answer_json(answered(**picks)), answer_json(answered(**picks), customer=True)
        assert {"rule"} <= set(keys_of(ours)) or {"rules"} <= set(keys_of(ours))
        assert not {"rule", "rules", "scope"} & set(keys_of(theirs))
        assert not set(family_of(BLOCK).rules) & set(texts_of(theirs))


@pytest.mark.parametrize(
    ("text", "document"),
    [
        ("94.0 mm", {"value": 94.0, "unit": "mm"}),
        ("8000 rpm", {"value": 8000, "unit": "rpm"}),
        ("-0.25 mm", {"value": -0.25, "unit": "mm"}),
        ("1.8 bar gauge", {"value": 1.8, "unit": "bar gauge"}),
        ("1.644", {"value": 1.644, "unit": ""}),
        ("", None),
        ("soon", {"text": "soon"}),
    ],
)
def test_a_quantity_is_a_number_and_its_unit(text: str, document: Any) -> None:
    assert quantity_json(text) == document


@pytest.mark.parametrize(
    ("text", "least", "greatest"),
    [
        ("at least 2.5 mm", 2.5, None),
        ("more than 2.5 mm", 2.5, None),
        ("at most 25 m/s", None, 25),
        ("less than 25 m/s", None, 25),
        ("-0.25 mm to 0.75 mm", -0.25, 0.75),
        ("exactly 0.0 mm", 0.0, 0.0),
    ],
)
def test_a_limit_has_its_two_ends(text: str, least: float | None, greatest: float | None) -> None:
    document = limit_json(text)
    assert document is not None
    ends = [document[end] and document[end]["value"] for end in ("least", "greatest")]
    assert ends == [least, greatest]
    assert document["text"] == text


@pytest.fixture(scope="module")
def tarnwick() -> Desk:
    return open_shop(shipped.demo_folder() / "tarnwick")


def quoted(tarnwick: Desk, *words: str, **says: Any) -> Quote:
    enquiry, _ = gather(tarnwick.shop, (), (), Spoken(words, **says))
    found = desk.quote(tarnwick, enquiry, DAY)
    assert isinstance(found, Quote)
    return found


def test_a_quote_adds_up_in_its_document(tarnwick: Desk) -> None:
    document = quote_json(quoted(tarnwick, "cooling=dry_deck", "deck=tall"))
    amounts = [Decimal(line["amount"]) for line in document["lines"]]
    assert sum(amounts) == Decimal(document["net"])
    assert Decimal(document["net"]) + Decimal(document["tax"]) == Decimal(document["gross"])
    assert document["promise"]["working_days"] == {"p50": None, "p80": None, "p90": None}
    assert document["promise"]["dates"] is None
    assert document["valid_until"] == "2026-12-25"


def test_the_hash_covers_what_the_customer_is_shown_and_nothing_else(tarnwick: Desk) -> None:
    once, again = (quoted(tarnwick, "cooling=dry_deck") for _ in range(2))
    assert once.hash == again.hash
    assert once.hash != quoted(tarnwick, "cooling=dry_deck", customer="Ann").hash
    assert once.hash != quoted(tarnwick, "cooling=jacketed").hash


# CSV and JSON lines

# OWASP ASVS 5.0, 1.2.10, and "CSV Injection" of the OWASP pages (from memory), the full-width forms added
FORMULAS = ["=1+1", "+1+1", "-2+3", "@SUM(1)", "\t=1+1", "\r=1", "＝1+1", "＋1", "－1", "＠x"]


@pytest.mark.parametrize("text", FORMULAS)
def test_no_text_starts_a_formula(text: str) -> None:
    (line,) = csv_lines([[text]])
    ((cell,),) = csv.reader([line])
    assert cell.startswith("'")


def test_numbers_stand_as_numbers_even_below_nothing() -> None:
    (line,) = csv_lines([["solid", Decimal("-600.00"), 3]])
    assert line == '"solid",-600.00,3\r\n'


def test_another_separator_splits_no_text() -> None:
    (line,) = csv_lines([[";=1+1", 'a "b", c']])
    assert next(csv.reader([line])) == [";=1+1", 'a "b", c']
    assert line.startswith('";=1+1"')


def test_rows_of_builds_read_back_as_the_builds_they_were() -> None:
    family, case = family_of(BLOCK), case_of(BLOCK, {"bore": "80 mm"})
    text = "".join(csv_lines(build_rows(family, list_builds(case))))
    read = list(csv.DictReader(io.StringIO(text)))
    documents = [json.loads(line) for line in json_lines(map(row_json, list_builds(case)))]
    assert len(read) == len(documents) == 6
    for row, document in zip(read, documents, strict=True):
        assert {id: row[id] for id in family.choices} == document["picks"]
        assert (row["net"], row["code"], row["standing"]) == (document["net"], document["code"], document["standing"])


# TOML


def gathered(tarnwick: Desk, text: bytes) -> Enquiry:
    return gather(tarnwick.shop, [("saved.toml", text)], (), Spoken())[0]


def said_in(enquiry: Enquiry) -> dict[str, Any]:
    """All that an enquiry says, without the places where it stood."""
    return enquiry._asdict() | {
        "picks": {id: (pick.option, pick.known, dict(pick.measured)) for id, pick in sorted(enquiry.picks.items())},
        "misfits": sorted((misfit.choice, misfit.given, misfit.kind) for misfit in enquiry.misfits),
        "extras": [extra[:4] for extra in enquiry.extras],
    }


@pytest.mark.parametrize(
    "spoken",
    [
        Spoken(),
        Spoken(("cooling=dry_deck", "use=circuit"), family="tnw5", quantity=3, customer='Ann "the V" \u202e O\'Hara'),
        Spoken(measured=("crank_flange.chord=42.3mm,bolts=5", "main_width=0.8701 in")),
        Spoken(looked=("bellhousing=seven_hole",), assumed=("head_holes=closed",)),
        Spoken(("bore=84.3mm",), duty=("power=215hp", "boost=1.8bar")),
        Spoken(("bore=102mm", "manifold=keep")),
    ],
)
def test_a_saved_enquiry_reads_back_as_it_was_said(tarnwick: Desk, spoken: Spoken) -> None:
    enquiry, _ = gather(tarnwick.shop, (), (), spoken)
    family = tarnwick.shop.families[enquiry.family]
    assert said_in(gathered(tarnwick, enquiry_toml(family, enquiry))) == said_in(enquiry)


def test_a_saved_enquiry_keeps_its_extra_lines_and_its_list(tarnwick: Desk) -> None:
    extra = Extra("Engraving", Decimal("180.00"), "asked for", "Sam")
    enquiry = Enquiry("tnw5", {}, extras=(extra,), list="2026-06")
    text = enquiry_toml(tarnwick.shop.families["tnw5"], enquiry)
    assert said_in(gathered(tarnwick, text)) == said_in(enquiry)


def test_a_measurement_that_fits_nothing_is_taken_again_not_written_down(tarnwick: Desk) -> None:
    enquiry, _ = gather(tarnwick.shop, (), (), Spoken(measured=("main_width=24mm",)))
    assert enquiry.misfits
    text = enquiry_toml(tarnwick.shop.families["tnw5"], enquiry)
    assert tomllib.loads(text.decode()) == {"family": "tnw5"}


@given(
    st.decimals(Decimal("0.001"), Decimal("9999"), places=5),
    st.sampled_from(["mm", "in", "kW", "hp", "C", "bar gauge"]),
)
def test_a_quantity_is_written_with_all_its_digits(value: Decimal, unit: str) -> None:
    quantity = read_quantity(f"{value} {unit}")
    assert read_quantity(exactly(quantity)) == quantity


def test_a_count_is_written_without_a_stray_space() -> None:
    assert exactly(Quantity(Decimal(5), "bolts")) == "5 bolts"
    assert exactly(Quantity(Decimal(5), "")) == "5"


# The first shop


def test_a_first_shop_is_without_fault_and_keeps_its_promises(tmp_path: Path) -> None:
    written = write_shop(tmp_path / "mine")
    assert {path.name for path in written} == {"shop.toml", "block.toml", "works.toml", "first.toml"}
    findings = lint(open_shop(tmp_path / "mine"), DAY)
    assert findings.findings == ()
    assert (findings.examples, findings.expected) == (4, 1)


def test_a_first_shop_writes_over_nothing(tmp_path: Path) -> None:
    (tmp_path / "works.toml").write_text("mine")
    with pytest.raises(Refused, match=r"works\.toml is there already"):
        write_shop(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["works.toml"]
    write_shop(tmp_path, force=True)
    assert (tmp_path / "works.toml").read_text() != "mine"
