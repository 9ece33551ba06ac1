"""A quote written as its shop edition and read back is the same quote, to the last digit and with its hash."""

from __future__ import annotations

import json
import random
from datetime import date
from decimal import Decimal
from functools import lru_cache

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from configurator import desk, shipped
from configurator.answering import answer_case
from configurator.catalogue.shops import Family, Shop
from configurator.desk import Desk, open_shop
from configurator.documents.json_of import Json
from configurator.documents.json_quotes import document_hash, quote_hash, quote_json
from configurator.documents.reading import read_quote
from configurator.enquiry import Enquiry, Extra, Pick
from configurator.faults import Faulty, Place
from configurator.load.enquiry import gather
from configurator.load.sheets import Spoken
from configurator.quote import Quote
from configurator.quoting import quote_case
from configurator.units import Quantity, read_quantity
from tests.cases import DAY, case_of, shops_and_picks

DEMOS = ("tarnwick", "brindlow")
FURTHER_QUOTES = 12
"""Random enquiries quoted on each demo shop, beside those that were thought of."""


@lru_cache
def demo(name: str) -> Desk:
    return open_shop(shipped.demo_folder() / name)


def there_and_back(quote: Quote) -> Quote:
    return read_quote(json.loads(json.dumps(quote_json(quote))))


def asked_at_random(family: Family, chance: random.Random) -> Enquiry:
    """A few picks with their evidence, some duties to an odd digit, and now and then a line of its own."""
    picks = {}
    for choice in chance.sample(list(family.choices.values()), chance.randint(0, 4)):
        known = chance.choice(["told", "looked", "assumed"]) if choice.asks == "have" else ""
        place = Place("an enquiry.toml", chance.randint(1, 99), 3)
        picks[choice.id] = Pick(chance.choice(choice.options).id, known, {}, place)
    duty = {}
    for one in chance.sample(list(family.duties.values()), chance.randint(0, 3)):
        least, greatest = one.least.value, one.greatest.value
        duty[one.id] = Quantity(least + (greatest - least) * Decimal(chance.randint(0, 997)) / 997, one.least.unit)
    extra = Extra("Engraving \u2028 \x1b", Decimal("180.00"), "he asked", "Zoë", Place("x.toml", 4, 1))
    extras = chance.choice([(), (extra,)])
    return Enquiry(family.id, picks, duty, (), extras, chance.randint(1, 7), chance.choice(["", 'Ann "the V"']), "")


@pytest.mark.parametrize("name", DEMOS)
def test_quotes_of_the_demo_shops_read_back_as_they_were(name: str) -> None:
    (family,) = demo(name).shop.families.values()
    chance, found = random.Random(name), 0
    while found < FURTHER_QUOTES:
        enquiry = asked_at_random(family, chance)
        started = chance.choice([None, date(2026, 12, 1)])
        quote = desk.quote(demo(name), enquiry, DAY, started)
        if isinstance(quote, Quote):
            found += 1
            assert there_and_back(quote) == quote
            assert quote_hash(there_and_back(quote)) == quote.hash


@pytest.mark.parametrize(
    "spoken",
    [
        Spoken(),
        Spoken(("use=drag", "cooling=solid"), quantity=3, customer="Zoë \u202e"),
        Spoken(measured=("crank_flange.chord=42.3mm,bolts=5",)),
        Spoken(measured=("crank_flange.chord=1 2/3 in,bolts=5",), duty=("power=215hp", "boost=26 psi gauge")),
        Spoken(("bore=84.3mm",), looked=("head_holes=closed",), assumed=("bellhousing=seven_hole",)),
    ],
)
def test_what_was_measured_and_how_it_is_known_reads_back(spoken: Spoken) -> None:
    enquiry, _ = gather(demo("tarnwick").shop, (), (), spoken)
    quote = desk.quote(demo("tarnwick"), enquiry, DAY)
    assert isinstance(quote, Quote)
    assert there_and_back(quote) == quote


@given(shops_and_picks(), st.integers(1, 9))
def test_a_quote_of_any_small_shop_reads_back(drawn: tuple[Shop, dict[str, str]], quantity: int) -> None:
    case = case_of(*drawn, quantity=quantity)
    answer = answer_case(case)
    assume(answer.build is not None)
    quote = quote_case(case, answer, DAY, None, {"tool": "1"})
    quote = quote._replace(hash=quote_hash(quote))
    assert there_and_back(quote) == quote
    assert quote_hash(there_and_back(quote)) == quote.hash


@lru_cache
def written() -> str:
    enquiry, _ = gather(demo("tarnwick").shop, (), (), Spoken(("use=drag",), duty=("power=215hp",), customer="Zoë"))
    quote = desk.quote(demo("tarnwick"), enquiry, DAY)
    assert isinstance(quote, Quote)
    return json.dumps(quote_json(quote))


@given(st.data())
def test_a_changed_byte_is_noticed(data: st.DataObject) -> None:
    text = written()
    at = data.draw(st.integers(0, len(text) - 1))
    changed = text[:at] + data.draw(st.characters(min_codepoint=32, max_codepoint=126)) + text[at + 1 :]
    try:
        document = json.loads(changed)
    except ValueError:
        return
    assume(document != json.loads(text))
    with pytest.raises(Faulty):
        read_quote(document)


def test_every_figure_and_every_word_of_a_document_is_under_its_hash() -> None:
    document: Json = json.loads(written())
    for key in document:
        with pytest.raises(Faulty):
            read_quote({one: value for one, value in document.items() if one != key})
        with pytest.raises(Faulty):
            read_quote(document | {key: [document[key]]})


def test_the_customers_edition_proves_itself_and_is_not_taken_for_the_whole_quote() -> None:
    quote = read_quote(json.loads(written()))
    document = json.loads(json.dumps(quote_json(quote, customer=True)))
    assert document_hash(document | {"hash": ""}) == document["hash"] == quote.hash
    with pytest.raises(Faulty, match="the shop's edition"):
        read_quote(document)


def test_what_is_the_shops_own_stays_out_of_the_customers_edition() -> None:
    document = quote_json(read_quote(json.loads(written())), customer=True)
    assert not {"enquiry", "document_hash"} & set(document)
    assert not {"spans", "bottleneck"} & set(document["promise"])
    assert not any("own" in line for line in document["lines"])


@given(
    st.decimals(Decimal("0.00001"), Decimal("99999"), places=7), st.sampled_from(["mm", "in", "psi gauge", "hp", "F"])
)
def test_a_duty_keeps_its_last_digit(value: Decimal, unit: str) -> None:
    quote = read_quote(json.loads(written()))
    duty = {"load": read_quantity(f"{value} {unit}")}
    enquiry = quote.answer.enquiry._replace(duty=duty)
    assert there_and_back(quote._replace(answer=quote.answer._replace(enquiry=enquiry))).answer.enquiry.duty == duty
