"""What a caller says becomes picks, misfits or faults: the three are never mixed, and nothing is rounded or guessed."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from configurator.enquiry import Misfit
from configurator.faults import Faulty, Place
from configurator.load.assemble import assemble
from configurator.load.enquiry import Spoken, gather
from configurator.load.shop import read_shop
from tests.callers import COOLING, SHOP, TWO, faults_of, hear, options
from tests.shops import rule, text_of


def test_words_are_found_by_id_label_or_alias_in_any_spelling() -> None:
    for word in ("cooling=dry_deck", "Cooling=Dry deck", "COOLING=dry-deck", "cooling = closed  deck"):
        assert options(hear(word)) == {"cooling": "dry_deck"}


def test_a_want_has_no_evidence_and_a_have_is_told_unless_said_otherwise() -> None:
    enquiry = hear("cooling=solid", "main_width=wide", looked=("crank_flange=eight_bolt",), assumed=("saddle=cut",))
    known = {choice: pick.known for choice, pick in enquiry.picks.items()}
    assert known == {"cooling": "", "main_width": "told", "crank_flange": "looked", "saddle": "assumed"}


@pytest.mark.parametrize(
    ("word", "key", "way_out"),
    [
        ("coolin=solid", "coolin", "did you mean cooling?"),
        ("cooling=sold", "cooling", "did you mean solid?"),
        ("cooling=red", "cooling", "the options of cooling are dry_deck, jacketed, solid"),
        ("power=160kW", "power", "say --duty power=..., or write it under [duty]"),
        ("bore=wide", "bore", "94.0 mm"),
        ("bore=84 kg", "bore", "mm"),
        ("bore=84,5 mm", "bore", "point"),
        ("bore=nan mm", "bore", "94.0 mm"),
        ("bore=1e400 mm", "bore", "a unit that fits it"),
        ("cooling", "cooling", "cooling=dry_deck"),
        ("=solid", "=solid", "cooling=dry_deck"),
        ("cooling=", "cooling=", "cooling=dry_deck"),
        ("cooling.width=3 mm", "cooling", "cooling ="),
        ("main_width.with=3 mm", "main_width", "did you mean width?"),
        ("main_width.width=3 kg", "main_width", "mm"),
        ("crank_flange=72 kg", "crank_flange", "bolts, circle"),
    ],
)
def test_what_nobody_knows_is_a_fault_with_the_nearest_word(word: str, key: str, way_out: str) -> None:
    (fault,) = faults_of(word)
    assert (str(fault.place), fault.key) == ("the command line", key)
    assert way_out in fault.way_out


def test_all_faults_of_all_words_come_at_once() -> None:
    assert len(faults_of("coolin=solid", "bore=x", duty=("powr=1 kW",), without=("belts",))) == 4


# Numbers.


@pytest.mark.parametrize(
    ("said", "option"),
    [
        ("84.9mm", "84.9 mm"),
        ("84.90 mm", "84.9 mm"),
        ("8.49 cm", "84.9 mm"),
        ("3 5/16 in", None),
        ("3.5 in", "88.9 mm"),  # 1 in = 25.4 mm exactly, by definition (international yard and pound agreement, 1959)
        ("76 mm", "76.0 mm"),
        ("90 mm", "90.0 mm"),
        ("stock", "82.0 mm"),
    ],
)
def test_a_number_on_the_grid_is_a_pick_listed_or_not(said: str, option: str | None) -> None:
    assert options(hear(f"bore={said}")) == ({"bore": option} if option else {})


@pytest.mark.parametrize(
    ("said", "given", "nearest"),
    [
        ("3.3 in", "3.3 in", ("83.8 mm", "83.9 mm")),  # 83.82 mm
        ("84.96 mm", "84.96 mm", ("85.0 mm", "84.9 mm")),
        ("90.1 mm", "90.1 mm", ("90.0 mm",)),
        ("75.9 mm", "75.9 mm", ("76.0 mm",)),
        ("-84 mm", "-84.0 mm", ("76.0 mm",)),
        ("12 m", "12 m", ("90.0 mm",)),
    ],
)
def test_a_number_off_the_grid_is_a_no_with_the_nearest_never_a_rounding(
    said: str, given: str, nearest: tuple[str, ...]
) -> None:
    enquiry = hear(f"bore={said}")
    assert options(enquiry) == {}
    assert enquiry.misfits == (Misfit("bore", given, "outside", nearest, Place("the command line")),)


def test_a_count_needs_no_unit_and_a_length_does() -> None:
    assert options(hear("belt=2")) == options(hear("belt=2 teeth")) == {"belt": "2 teeth"}
    assert options(hear(text="[want]\nbelt = 3\n")) == {"belt": "3 teeth"}
    assert options(hear("bore=84")) == {"bore": "84.0 mm"}  # no other unit of length would come near a bore


@given(st.decimals(min_value=-1000, max_value=1000, places=3, allow_nan=False))
def test_a_pick_of_a_number_is_worth_exactly_what_was_said(said: Decimal) -> None:
    enquiry = hear(f"bore={said} mm")
    on_grid = 76 <= said <= 90 and said % Decimal("0.1") == 0
    assert options(enquiry) == ({"bore": f"{said:.1f} mm"} if on_grid else {})
    assert len(enquiry.misfits) == (0 if on_grid else 1)


# Replacing and dropping.


def test_a_later_pick_replaces_the_earlier_and_a_notice_says_so() -> None:
    enquiry, notices = gather(
        SHOP, [("e.toml", b'[want]\ncooling = "solid"\n')], (), Spoken(words=("cooling=dry_deck",))
    )
    assert options(enquiry) == {"cooling": "dry_deck"}
    assert len(notices) == 1 and "solid" in notices[0] and "dry_deck" in notices[0]


def test_the_same_pick_again_is_no_replacement() -> None:
    _, notices = gather(SHOP, [("e.toml", b'[want]\ncooling = "solid"\n')], (), Spoken(words=("cooling=solid",)))
    assert notices == ()


def test_a_pick_that_fits_replaces_one_that_does_not() -> None:
    enquiry = hear("bore=84 mm", text='[want]\nbore = "99 mm"\n')
    assert (options(enquiry), enquiry.misfits) == ({"bore": "84.0 mm"}, ())


def test_without_drops_a_choice_or_a_duty_of_the_file() -> None:
    text = '[want]\ncooling = "solid"\nbore = "99 mm"\n[duty]\npower = "160 kW"\n'
    enquiry = hear(text=text, without=("Cooling", "bore", "power"))
    assert (enquiry.picks, enquiry.misfits, enquiry.duty) == ({}, (), {})


# Duties.


@pytest.mark.parametrize(
    ("said", "value", "shown"),
    [
        ("power=160kW", 160_000, "160 kW"),
        ("boost=1.8 bar", 180_000, "1.8 bar gauge"),
        ("boost=1.8 bar gauge", 180_000, "1.8 bar gauge"),
        ("oil=3 bar gauge", 300_000, "3 bar gauge"),
    ],
)
def test_a_duty_is_a_quantity_in_its_unit(said: str, value: int, shown: str) -> None:
    (quantity,) = hear(duty=(said,)).duty.values()
    assert (int(quantity.value), str(quantity)) == (value, shown)


@pytest.mark.parametrize(
    "said",
    [
        "power=160",
        "power=9 kW",
        "power=16000 kW",
        "power=160 mm",
        "boost=1.8 bar absolute",
        "oil=3 bar",
        "torque=5 N m",
        "power=1.5.2 kW",
    ],
)
def test_a_duty_that_cannot_be_meant_is_a_fault(said: str) -> None:
    (fault,) = faults_of(duty=(said,))
    assert fault.key == "--duty"


# Families.


def test_the_family_is_the_only_one_or_the_only_one_that_fits() -> None:
    assert hear("cooling=solid").family == "family"
    assert hear("manifold=wide", shop=TWO).family == "vee"
    assert hear("cooling=oil", shop=TWO).family == "vee"
    assert hear("cooling=solid", shop=TWO).family == "inline"


def test_where_two_families_fit_the_caller_is_asked() -> None:
    (fault,) = faults_of("cooling=jacketed", shop=TWO)
    assert "one of inline, vee" in fault.way_out


def test_a_slip_that_no_family_understands_is_told_as_a_slip() -> None:
    (fault,) = faults_of("coolin=solid", shop=TWO)
    assert "did you mean cooling?" in fault.way_out


def test_what_another_family_knows_is_a_no_and_not_a_fault() -> None:
    enquiry = hear("manifold=wide", "cooling=oil", shop=TWO, family="inline")
    assert [(misfit.choice, misfit.kind) for misfit in enquiry.misfits] == [
        ("manifold", "not_offered"),
        ("cooling", "not_offered"),
    ]


def test_a_choice_that_only_shipped_rules_know_is_a_no() -> None:
    _, says = rule("r", when={"jets": "fitted"}, then="advice", needs=["jets"])
    rules = tomli_w.dumps({"rule": [says]}).encode()
    shop = assemble(read_shop({"shop.toml": text_of(COOLING).encode()}, {"oil.toml": rules}))
    (misfit,) = hear("jets=fitted", shop=shop).misfits
    assert (misfit.choice, misfit.given, misfit.kind) == ("jets", "fitted", "not_offered")


def test_a_family_may_be_named_once() -> None:
    assert hear("cooling=jacketed", shop=TWO, family="Vee").family == "vee"
    (fault,) = faults_of("cooling=jacketed", shop=TWO, family="vee", text='family = "inline"\n')
    assert "inline and vee are both named" in fault.wrong
    (fault,) = faults_of("cooling=jacketed", shop=TWO, family="w")
    assert "inline, vee" in fault.way_out


HOSTILE = [
    "<script>alert(1)</script>",
    "=cmd|'/C calc'!A0",
    "\x1b]0;owned\x07",
    "../../etc/passwd",
    "'); DROP TABLE quotes;--",
    "{0.__class__}",
    "%s%n",
    "\u202e",
    "e\u0301" * 200,
    "\udce9",
    "a\x00b",
    "0x10",
    "1_000",
    "\uff11\uff12",
    "\u0661\u0662\u0663",
    "9" * 5000,
    "1E+9999999",
    "-0",
    "",
    " ",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_text_is_a_fault_and_nothing_else(text: str) -> None:
    """Strings from the lists that testers of web pages, spreadsheets and terminals pass around."""
    said: dict[str, Any]
    for said in ({"words": (f"cooling={text}",)}, {"words": (f"{text}=solid",)}, {"measured": (f"main_width={text}",)},
                 {"duty": (f"power={text}",)}, {"family": text or "x"}, {"without": (text,)}):  # fmt: skip
        with pytest.raises(Faulty):
            gather(SHOP, [], (), Spoken(**said))
    with pytest.raises(Faulty):
        gather(SHOP, [], (text,), Spoken())


@given(st.text(max_size=40), st.text(max_size=40))
def test_any_words_give_an_enquiry_or_faults(name: str, value: str) -> None:
    words, measured, duty = (f"{name}={value}",), (f"main_width={value}",), (f"power={value}",)
    for spoken in (Spoken(words=words), Spoken(measured=measured), Spoken(duty=duty)):
        try:
            assert gather(SHOP, [], (), spoken)[0].family == "family"
        except Faulty as faulty:
            assert faulty.faults
