"""A job told in inches, psi and horsepower is the job told in millimetres, bar and kilowatts: one answer, to the cent.

The inch is 25.4 mm, the pound 0.45359237 kg (international yard and pound agreement, 1959), the mechanical horsepower
550 ft lbf/s, the psi a pound-force on a square inch, both with a standard gravity of 9.80665 m/s2 (BIPM, SI brochure;
NIST SP 811, appendix B). Their decimals below were worked out from these apart from the program. Values are chosen
that fall on the tenths of a millimetre in which a block is bored: half an inch is the least step that does.
"""

from __future__ import annotations

from decimal import Context, Decimal
from functools import lru_cache

import pytest

from configurator import desk, shipped
from configurator.answer import Answer
from configurator.desk import Desk, open_shop
from configurator.enquiry import Enquiry
from configurator.load.enquiry import gather
from configurator.load.sheets import Spoken
from configurator.quote import Quote
from configurator.units import read_quantity
from tests.cases import DAY

PSI = Context(prec=28).divide(Decimal("0.45359237") * Decimal("9.80665"), Decimal("0.0254") ** 2)  # Pa
HORSEPOWER = Decimal("550") * Decimal("0.3048") * Decimal("0.45359237") * Decimal("9.80665")  # W


def bar(psi: int) -> str:
    return f"{Context(prec=28).multiply(PSI, Decimal(psi)).scaleb(-5)} bar gauge"


def kilowatts(horsepower: int) -> str:
    return f"{(HORSEPOWER * horsepower).scaleb(-3)} kW"


SAME = {
    "a bare block on the V8, free": (
        "brindlow",
        Spoken(("bore=4 in", "stroke=3 1/2in", "rod=6in", "deck=standard")),
        Spoken(("bore=101.6 mm", "stroke=88.9mm", "rod=152.4mm", "deck=standard")),
    ),
    "a long stroke on the V8, signed for": (
        "brindlow",
        Spoken(("stroke=4 in",), duty=("boost=14 psi gauge", "power=600 hp", "bob_weight=4 lb")),
        Spoken(("stroke=101.6 mm",), duty=(f"boost={bar(14)}", f"power={kilowatts(600)}", "bob_weight=1814.36948 g")),
    ),
    "a V8 under a low bonnet": (
        "brindlow",
        Spoken(("deck=tall", "bore=4.0in"), duty=("bonnet_clearance=1/2 in", "envelope_clearance=0.05in")),
        Spoken(("deck=tall", "bore=101.6mm"), duty=("bonnet_clearance=12.7 mm", "envelope_clearance=1.27 mm")),
    ),
    "a small bore on the four, measured on the crank": (
        "tarnwick",
        Spoken(("bore=3 in", "stroke=3.5in"), measured=("main_width.width=0.87 in",)),
        Spoken(("bore=76.2mm", "stroke=88.9mm"), measured=("main_width.width=22.098 mm",)),
    ),
    "a bore too great for its liner": (
        "tarnwick",
        Spoken(("bore=3 1/2 in", "liner=od_90")),
        Spoken(("bore=88.9 mm", "liner=od_90")),
    ),
    "a boosted four on the road": (
        "tarnwick",
        Spoken(("liner=od_90", "rod=6 in"), duty=("power=215hp", "boost=26 psi", "ambient=104 F")),
        Spoken(("liner=od_90", "rod=152.4 mm"), duty=(f"power={kilowatts(215)}", f"boost={bar(26)}", "ambient=40 C")),
    ),
    "a solid block for half a minute": (
        "tarnwick",
        Spoken(("cooling=solid", "use=drag", "stroke=4in"), duty=("power=600 hp", "run_time=0.5 min")),
        Spoken(("cooling=solid", "use=drag", "stroke=101.6 mm"), duty=(f"power={kilowatts(600)}", "run_time=30 s")),
    ),
}


@lru_cache
def demo(name: str) -> Desk:
    return open_shop(shipped.demo_folder() / name)


def heard(shop: str, spoken: Spoken) -> Enquiry:
    return gather(demo(shop).shop, (), (), spoken)[0]


@pytest.mark.parametrize(("shop", "imperial", "metric"), SAME.values(), ids=SAME.keys())
def test_the_same_job_in_inches_is_answered_alike(shop: str, imperial: Spoken, metric: Spoken) -> None:
    ours, theirs = (desk.answer(demo(shop), heard(shop, spoken), DAY) for spoken in (imperial, metric))
    for name in Answer._fields:
        if name != "enquiry":
            assert getattr(ours, name) == getattr(theirs, name), name
    assert {id: pick.option for id, pick in ours.enquiry.picks.items()} == {
        id: pick.option for id, pick in theirs.enquiry.picks.items()
    }
    assert {id: one.value for id, one in ours.enquiry.duty.items()} == {
        id: one.value for id, one in theirs.enquiry.duty.items()
    }


def test_the_jobs_told_come_out_free_signed_for_and_impossible() -> None:
    """Were all of them one verdict, the test above would hold too little."""
    found = {desk.answer(demo(shop), heard(shop, metric), DAY).verdict for shop, _, metric in SAME.values()}
    assert found == {"free", "by_arrangement", "impossible"}


@pytest.mark.parametrize("name", ["a long stroke on the V8, signed for", "a boosted four on the road"])
def test_the_same_job_in_inches_is_quoted_alike(name: str) -> None:
    shop, imperial, metric = SAME[name]
    ours, theirs = (desk.quote(demo(shop), heard(shop, spoken), DAY) for spoken in (imperial, metric))
    assert isinstance(ours, Quote)
    assert isinstance(theirs, Quote)
    assert ours.totals == theirs.totals
    assert ours.promise == theirs.promise
    assert ours.trade_offs == theirs.trade_offs
    assert ours.from_to == theirs.from_to


def test_an_enquiry_file_may_mix_them() -> None:
    imperial = b'[want]\nstroke = "4 in"\nbore = "101.6 mm"\n[duty]\nbob_weight = "4 lb"\n'
    metric = b'[want]\nstroke = "101.6 mm"\nbore = "4 in"\n[duty]\nbob_weight = "1814.36948 g"\n'
    ours, theirs = (
        desk.answer(demo("brindlow"), gather(demo("brindlow").shop, [("job.toml", text)], (), Spoken())[0], DAY)
        for text in (imperial, metric)
    )
    assert ours.build == theirs.build
    assert (ours.verdict, ours.net, ours.checks) == (theirs.verdict, theirs.net, theirs.checks)


def test_inches_that_fall_between_the_steps_are_no_more_rounded_than_millimetres_are() -> None:
    ours, theirs = (heard("tarnwick", Spoken((f"bore={said}",))) for said in ("3.31 in", "84.074 mm"))
    (inches,), (millimetres,) = ours.misfits, theirs.misfits
    assert (inches.choice, inches.kind, inches.nearest) == ("bore", "outside", millimetres.nearest)
    assert millimetres.kind == "outside"


@pytest.mark.parametrize(
    ("imperial", "metric"),
    [
        ("4 in", "101.6 mm"),
        ("26 psi gauge", bar(26)),
        ("215 hp", kilowatts(215)),
        ("104 F", "40 C"),
        ("4 lb", "1814.36948 g"),
    ],
)
def test_a_value_in_either_unit_is_the_same_decimal(imperial: str, metric: str) -> None:
    assert read_quantity(imperial).value == read_quantity(metric).value
