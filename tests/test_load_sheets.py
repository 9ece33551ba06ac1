"""Enquiry files and build codes say what words say; what is badly written in them is told by key and line."""

from __future__ import annotations

from decimal import Decimal

import pytest

from configurator.enquiry import Extra
from configurator.faults import Faulty, Place
from configurator.load.codes import build_code
from configurator.load.enquiry import Spoken, enquiry_of, gather
from tests.callers import SHOP, faults_of, hear, options

WHOLE = """\
family = "family"
customer = "An invented customer"
quantity = 3
list = "prices"
[have]
crank_flange = { bolts = 5, chord = "42.3 mm", known = "measured" }
main_width = { is = "22.1 mm", known = "looked" }
saddle = "cut"
[want]
cooling = "dry_deck"
bore = "84.9 mm"
belt = { is = 2 }
[duty]
power = "160 kW"
[[extra]]
text = "Engraving"
amount = "180.00"
reason = "Asked for"
by = "Sales"
"""


def test_an_enquiry_file_says_it_all() -> None:
    enquiry = hear(text=WHOLE)
    assert options(enquiry) == {
        "crank_flange": "five_bolt",
        "main_width": "narrow",
        "saddle": "cut",
        "cooling": "dry_deck",
        "bore": "84.9 mm",
        "belt": "2 teeth",
    }
    assert [pick.known for pick in enquiry.picks.values()] == ["measured", "looked", "told", "", "", ""]
    assert (enquiry.customer, enquiry.quantity, enquiry.list) == ("An invented customer", 3, "prices")
    assert enquiry.extras == (Extra("Engraving", Decimal("180.00"), "Asked for", "Sales", Place("e.toml")),)
    assert not enquiry.misfits


def test_an_expected_answer_asks_as_a_file_does() -> None:
    data = {"family": "family", "want": {"bore": "84.9 mm"}, "have": {"saddle": {"is": "cut", "known": "looked"}}}
    enquiry = enquiry_of(data, SHOP, Place("shop.toml", 7))
    assert options(enquiry) == {"saddle": "cut", "bore": "84.9 mm"}
    with pytest.raises(Faulty, match=r"shop\.toml:7: want\.bor"):
        enquiry_of({"want": {"bor": "84.9 mm"}}, SHOP, Place("shop.toml", 7))


@pytest.mark.parametrize(
    ("text", "key", "line"),
    [
        ("wants = 1", "wants", 1),
        ("family = 5", "family", 1),
        ("quantity = 0", "quantity", 1),
        ("quantity = 10001", "quantity", 1),
        ("quantity = true", "quantity", 1),
        ("quantity = 1.5", "quantity", 1),
        ('quantity = "2"', "quantity", 1),
        ('list = "old"', "list", 1),
        ("want = 3", "want", 1),
        ("[want]\ncooling = true", "want.cooling", 2),
        ("[want]\ncooling = 2026-01-01", "want.cooling", 2),
        ("[want]\ncooling = ['solid']", "want.cooling", 2),
        ("[want]\ncooling = {}", "want.cooling", 2),
        ('[want]\ncooling = { is = "solid", known = "told" }', "want.cooling.known", 2),
        ('[want]\nmain_width = "wide"', "want.main_width", 2),
        ('[have]\ncooling = "solid"', "have.cooling", 2),
        ('[have]\nmain_width = { is = "wide", width = "26 mm" }', "have.main_width", 2),
        ('[have]\nmain_width = { is = { width = "26 mm" } }', "have.main_width", 2),
        ('[have]\nmain_width = { is = "wide", known = "guessed" }', "have.main_width.known", 2),
        ('[have]\nmain_width = { is = "wide", known = 3 }', "have.main_width.known", 2),
        ("[have]\nmain_width = { width = true }", "have.main_width", 2),
        ("[have]\nmain_width = { width = nan }", "have.main_width.width", 2),
        ('[duty]\npower = { is = "1 kW" }', "duty.power", 2),
        ("[duty]\npower = 160", "duty.power", 2),
        ("extra = 3", "extra", 1),
        ("[[extra]]\ntext = 'x'", "extra", 1),
        ("[[extra]]\ntext = 'x'\namount = 180.0\nreason = 'r'\nby = 'b'", "extra", 1),
        ("[[extra]]\ntext = 'x'\namount = '1,5'\nreason = 'r'\nby = 'b'", "extra.amount", 3),
        ("[[extra]]\ntext = 'x'\namount = '1.005'\nreason = 'r'\nby = 'b'", "extra.amount", 3),
        ("[[extra]]\ntext = 'x'\namount = '1e9'\nreason = 'r'\nby = 'b'", "extra.amount", 3),
        ("[[extra]]\ntext = 'x'\namount = '1'\nreason = 'r'\nby = 'b'\nnett = '1'", "extra.nett", 6),
        ("[want", "", 1),
    ],
)
def test_a_badly_written_enquiry_is_told_by_key_and_line(text: str, key: str, line: int) -> None:
    (fault,) = faults_of(text=text)
    assert (fault.place.file, fault.place.line, fault.key) == ("e.toml", line, key)


@pytest.mark.parametrize("quantity", [0, -1, 10_001])
def test_a_quantity_is_a_number_of_blocks(quantity: int) -> None:
    (fault,) = faults_of(quantity=quantity)
    assert fault.key == "--quantity"


def test_a_build_code_takes_the_place_of_picks_and_may_be_followed_by_some() -> None:
    family = SHOP.families["family"]
    code = build_code(family, {"cooling": "solid", "bore": "84.9 mm", "saddle": "cut"}, ("saddle",))
    enquiry, notices = gather(SHOP, [], [code], Spoken(words=("cooling=dry_deck", "main_width=wide")))
    assert options(enquiry) == {"bore": "84.9 mm", "cooling": "dry_deck", "main_width": "wide"}
    assert len(notices) == 1


def test_a_word_that_is_no_code_is_a_fault_that_says_what_a_code_looks_like() -> None:
    with pytest.raises(Faulty) as caught:
        gather(SHOP, [], ["solid"], Spoken())
    (fault,) = caught.value.faults
    assert (fault.key, fault.way_out) == ("solid", "a code of this shop begins with FAMILY")
