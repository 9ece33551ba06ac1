"""Evidence: what was measured is held against tolerances, outlasts what is told, and is never rounded to an option."""

from __future__ import annotations

from typing import Any

import pytest

from configurator.load.enquiry import Spoken, gather
from tests.callers import SHOP, faults_of, hear, options


def test_a_chord_and_a_count_give_the_bolt_circle() -> None:
    """Known answer: a chord of 42.3 mm between 5 bolts is a circle of 42.3 / sin 36 deg = 71.97 mm (plane geometry)."""
    enquiry = hear(measured=("crank_flange.chord=42.3mm,bolts=5",))
    pick = enquiry.picks["crank_flange"]
    assert (pick.option, pick.known) == ("five_bolt", "measured")
    assert {name: str(value) for name, value in pick.measured.items()} == {"chord": "42.3 mm", "bolts": "5"}


def test_a_count_alone_is_looking_however_it_is_said() -> None:
    said: dict[str, Any]
    for said in ({"measured": ("crank_flange.bolts=8",)}, {"text": "[have]\ncrank_flange = { bolts = 8 }\n"}):
        pick = hear(**said).picks["crank_flange"]
        assert (pick.option, pick.known) == ("eight_bolt", "looked")


@pytest.mark.parametrize(
    ("said", "option"), [("22.1 mm", "narrow"), ("22.5 mm", "narrow"), ("21.5mm", "narrow"), ("0.87 in", "narrow")]
)
def test_a_measurement_fits_within_its_tolerance_and_its_edge_is_inside(said: str, option: str) -> None:
    for enquiry in (hear(measured=(f"main_width={said}",)), hear(measured=(f"main_width.width={said}",))):
        assert (enquiry.picks["main_width"].option, enquiry.picks["main_width"].known) == (option, "measured")


@pytest.mark.parametrize(
    ("said", "kind", "nearest"),
    [
        ("main_width=22.6 mm", "none", ("narrow",)),
        ("main_width=24 mm", "none", ("narrow", "wide")),
        ("saddle=11 mm", "two", ("plain", "cut")),
        ("crank_flange.bolts=6", "none", ("five_bolt",)),
        ("crank_flange.bolts=8,circle=72 mm", "none", ("five_bolt", "eight_bolt")),
        ("crank_flange.chord=42.3 mm,bolts=8", "none", ("eight_bolt",)),
    ],
)
def test_a_measurement_that_fits_none_or_two_is_a_no_with_the_nearest(
    said: str, kind: str, nearest: tuple[str, ...]
) -> None:
    enquiry = hear(measured=(said,))
    (misfit,) = enquiry.misfits
    assert (misfit.kind, set(misfit.nearest)) == (kind, set(nearest))
    assert not enquiry.picks


def test_a_misfit_repeats_what_was_measured_and_what_follows_from_it() -> None:
    (misfit,) = hear(measured=("crank_flange.chord=50 mm,bolts=5",)).misfits
    assert misfit.given == "chord 50.0 mm, bolts 5, so circle 85.065 mm"


def test_what_cannot_be_worked_out_is_a_fault() -> None:
    (fault,) = faults_of(measured=("crank_flange.chord=42 mm,bolts=0",))
    assert "cannot be worked out" in fault.wrong


def test_measured_stands_against_told_before_or_after_and_says_so() -> None:
    for first, second in (("main_width=wide", ""), ("", "main_width=wide")):
        text = '[have]\nmain_width = { width = "22 mm", known = "measured" }\n'
        sources = [("e.toml", text.encode())]
        enquiry, notices = gather(SHOP, sources, (), Spoken(words=tuple(word for word in (first, second) if word)))
        assert (enquiry.picks["main_width"].option, enquiry.picks["main_width"].known) == ("narrow", "measured")
        assert len(notices) == 1


def test_told_the_same_as_measured_stays_measured() -> None:
    enquiry = hear("main_width=narrow", text='[have]\nmain_width = { width = "22 mm", known = "measured" }\n')
    assert enquiry.picks["main_width"].known == "measured"


def test_two_measurements_that_differ_are_reported_not_resolved() -> None:
    enquiry = hear(measured=("main_width=22 mm", "main_width=26 mm", "main_width=22 mm"))
    (misfit,) = enquiry.misfits
    assert (misfit.kind, misfit.given, misfit.nearest) == ("clash", "22.0 mm and 26.0 mm", ("narrow", "wide"))
    assert not enquiry.picks


def test_a_measurement_that_fits_nothing_is_not_outweighed_by_what_is_told() -> None:
    enquiry = hear(text='[have]\nmain_width = { width = "24 mm", known = "measured" }\n', looked=("main_width=wide",))
    assert [misfit.kind for misfit in enquiry.misfits] == ["none"]


def test_measuring_again_can_follow_dropping_what_was_measured() -> None:
    text = '[have]\nmain_width = { width = "22 mm", known = "measured" }\n'
    enquiry = hear(text=text, without=("main_width",), measured=("main_width=26 mm",))
    assert options(enquiry) == {"main_width": "wide"}
