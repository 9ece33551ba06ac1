"""What a build costs: dated lists, lines, tax and rounding, to the minor unit."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.catalogue.choices import Choice, Option
from configurator.catalogue.conditions import Condition, When
from configurator.catalogue.shops import Family
from configurator.catalogue.trade import Price, PriceList, Tax, Terms
from configurator.catalogue.when import holds
from configurator.enquiry import Extra
from configurator.faults import Faulty, Place
from configurator.price import price_list_on, price_terms, totals
from configurator.quote import Totals


def choice(id: str, heading: str, *options: str) -> Choice:
    return Choice(id, id, "want", tuple(Option(option, option) for option in options), heading)


WATER = choice("cooling", "Water", "jacketed", "dry_deck", "solid")
DECK = choice("deck", "Geometry", "standard", "tall")
HEAD = choice("head_work", "Water", "none", "close")
FEED = choice("feed", "Water", "none", "kit")
FLANGE = choice("crank_flange", "Fit", "five_bolt", "other")
USUAL = {"cooling": "jacketed", "deck": "standard", "head_work": "none", "feed": "none", "crank_flange": "five_bolt"}


def price(id: str, amount: str, per: str = "block", **when: str) -> Price:
    conditions = tuple(Condition(name, (option,)) for name, option in when.items())
    return Price(id, id.replace("_", " "), Decimal(amount), conditions, per)


SUMMER = PriceList(
    "2026-06",
    date(2026, 6, 1),
    "GBP",
    (
        price("tall_deck", "480", deck="tall"),
        price("dry_deck", "650", cooling="dry_deck"),
        price("solid", "-600", cooling="solid"),
        price("close_holes", "420.00", head_work="close"),
        price("feed_kit", "260.00", feed="kit"),
        price("flange_program", "1900", per="order", crank_flange="other"),
        price("base", "9800"),
    ),
)
WINTER = SUMMER._replace(id="2026-12", since=date(2026, 12, 1), place=Place("prices.toml", 9))


def family(*lists: PriceList) -> Family:
    """A family that has nothing but choices and price lists."""
    return Family(
        id="tnw5",
        label="TNW5",
        facts={},
        choices={one.id: one for one in (WATER, DECK, HEAD, FEED, FLANGE)},
        donors=(),
        duties={},
        figures={},
        rules={},
        tallies=(),
        price_lists=lists,
        operations=(),
        outside=(),
        materials=(),
        expected=(),
        headings=("Fit", "Geometry", "Water"),
        place=Place("shop.toml", 4),
    )


def terms(rate: str = "0.20", rounding: str = "half_up", level: str = "total") -> Terms:
    return Terms(30, Decimal("0.5"), rounding, level, Tax("VAT", Decimal(rate)), (), (), ())


def come_to(
    prices: Sequence[Price],
    said: Terms,
    picks: Mapping[str, str] = USUAL,
    quantity: int = 1,
    currency: str = "GBP",
    extras: Sequence[Extra] = (),
) -> Totals:
    listed = PriceList("list", date(2026, 1, 1), currency, tuple(prices))
    return totals(family(listed), listed, said, picks, quantity, extras)


# Which list


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        (date(2026, 6, 1), "2026-06"),
        (date(2026, 11, 30), "2026-06"),
        (date(2026, 12, 1), "2026-12"),
        (date(2031, 1, 1), "2026-12"),
    ],
)
def test_the_latest_list_that_has_begun_is_in_force(day: date, expected: str) -> None:
    assert price_list_on(family(WINTER, SUMMER), day).id == expected


def test_a_list_asked_for_by_its_id_is_used_whatever_the_day() -> None:
    assert price_list_on(family(SUMMER, WINTER), date(2027, 1, 1), "2026-06") is SUMMER
    assert price_list_on(family(SUMMER, WINTER), date(2026, 6, 2), "2026-12") is WINTER


def test_a_day_before_every_list_is_a_fault_that_names_the_lists() -> None:
    with pytest.raises(Faulty, match=r"the enquiry: .*no price list for TNW5 is in force on 2026-05-31") as told:
        price_list_on(family(WINTER, SUMMER), date(2026, 5, 31))
    assert "2026-06 (from 2026-06-01), 2026-12 (from 2026-12-01)" in str(told.value)


def test_a_list_that_nobody_wrote_is_a_fault_of_the_enquiry() -> None:
    with pytest.raises(Faulty, match=r"the enquiry: .*no price list 'spring' for TNW5"):
        price_list_on(family(SUMMER), date(2026, 6, 1), "spring")


def test_a_list_without_a_price_for_the_family_never_sells_it_for_nothing() -> None:
    with pytest.raises(Faulty, match=r"prices\.toml:9: .*2026-12 has no price for TNW5"):
        price_list_on(family(SUMMER, WINTER._replace(prices=())), date(2026, 12, 5))


# Lines


def test_a_dry_deck_with_its_head_prepared_comes_to_what_a_salesman_adds_up() -> None:
    """9,800 + 650 + 420 + 260 = 11,130; a fifth of it is 2,226; together 13,356; half of that 6,678. Added by hand."""
    dry = {**USUAL, "cooling": "dry_deck", "head_work": "close", "feed": "kit"}
    come = totals(family(SUMMER), SUMMER, terms(), dry)
    assert [str(sum) for sum in (come.net, come.tax, come.gross, come.deposit)] == [
        "11130.00",
        "2226.00",
        "13356.00",
        "6678.00",
    ]


def test_what_is_always_charged_comes_first_then_the_lines_as_the_headings_stand_then_those_of_the_order() -> None:
    picks = {"cooling": "solid", "deck": "tall", "head_work": "close", "feed": "kit", "crank_flange": "other"}
    lines = totals(family(SUMMER), SUMMER, terms(), picks).lines
    assert [line.id for line in lines] == ["base", "tall_deck", "close_holes", "feed_kit", "solid", "flange_program"]


@given(st.permutations(SUMMER.prices))
def test_the_order_of_the_prices_in_the_files_changes_nothing(prices: Sequence[Price]) -> None:
    picks = {"cooling": "dry_deck", "deck": "tall", "head_work": "close", "feed": "kit", "crank_flange": "other"}
    shuffled = SUMMER._replace(prices=tuple(prices))
    assert totals(family(shuffled), shuffled, terms(), picks) == totals(family(SUMMER), SUMMER, terms(), picks)


def test_a_line_names_the_picks_that_brought_it() -> None:
    lines = totals(family(SUMMER), SUMMER, terms(), {**USUAL, "deck": "tall"}).lines
    assert [line.because for line in lines] == [{}, {"deck": "tall"}]


def test_what_is_charged_for_the_order_is_charged_once_for_five_blocks() -> None:
    come = totals(family(SUMMER), SUMMER, terms(), {**USUAL, "crank_flange": "other"}, 5)
    assert [(line.quantity, line.each, line.amount) for line in come.lines] == [
        (5, Decimal(9800), Decimal(49000)),
        (1, Decimal(1900), Decimal(1900)),
    ]
    assert come.net == 50900


def test_a_credit_is_a_line_like_another_and_takes_away_what_it_says() -> None:
    solid = totals(family(SUMMER), SUMMER, terms(), {**USUAL, "cooling": "solid"})
    assert [line.amount for line in solid.lines] == [9800, -600]
    assert solid.net == 9200


def test_a_line_that_no_catalogue_holds_is_last_and_taken_once() -> None:
    extra = Extra("Engraving", Decimal("180"), "asked for", "J. Doe")
    come = come_to([price("base", "100")], terms(), quantity=3, extras=[extra])
    assert [(line.id, line.text, line.quantity, line.amount) for line in come.lines] == [
        ("base", "base", 3, Decimal(300)),
        ("extra_1", "Engraving", 1, Decimal(180)),
    ]
    assert come.net == 480


# Rounding


def apiece(amount: str, pieces: int) -> list[Price]:
    return [price(f"line_{number}", amount) for number in range(pieces)]


@pytest.mark.parametrize(
    ("amounts", "rate", "line_by_line", "on_the_sum"),
    [
        # EN 16931, BR-CO-17: tax is worked out on the sum of a category. 3 x 33.34 = 100.02, at 19 % 19.0038.
        (["33.335"] * 3, "0.19", "18.99", "19.00"),
        # Ten times 0.015, each rounded up, against 0.15: five pence apart.
        (["0.15"] * 10, "0.10", "0.20", "0.15"),
        # 3 x 0.1957, each rounded up, against 0.5871.
        (["1.03"] * 3, "0.19", "0.60", "0.59"),
    ],
)
def test_tax_by_the_line_and_tax_on_the_sum_differ_as_published(
    amounts: list[str], rate: str, line_by_line: str, on_the_sum: str
) -> None:
    prices = [price(f"line_{number}", amount) for number, amount in enumerate(amounts)]
    assert come_to(prices, terms(rate, level="line")).tax == Decimal(line_by_line)
    for level in ("category", "total"):
        assert come_to(prices, terms(rate, level=level)).tax == Decimal(on_the_sum)


def test_the_rounding_mode_that_the_terms_name_is_used_and_kept() -> None:
    """ISO 80000-1, Annex B: of two equally near, rule A takes the even one, rule B the greater."""
    for mode, expected in (("half_up", "0.13"), ("half_even", "0.12")):
        come = come_to([price("base", "1.00")], terms("0.125", rounding=mode, level="line"))
        assert come.tax == Decimal(expected)
        assert (come.rounding, come.rounding_level, come.tax_rate) == (mode, "line", Decimal("0.125"))


@pytest.mark.parametrize(("currency", "expected"), [("JPY", "33"), ("GBP", "33.33"), ("KWD", "33.333")])
def test_amounts_are_whole_minor_units_of_the_lists_currency(currency: str, expected: str) -> None:
    """Minor units by ISO 4217: the yen has none, the pound two digits, the dinar of Kuwait three."""
    come = come_to([price("base", "33.3333")], terms("0"), currency=currency)
    assert (str(come.net), come.currency) == (expected, currency)


AMOUNTS = st.decimals(Decimal(-5000), Decimal(20000), places=3)
CHOICES = {one.id: one for one in (WATER, DECK, HEAD, FEED, FLANGE)}
WHENS: st.SearchStrategy[When] = st.sets(st.sampled_from(sorted(CHOICES)), max_size=2).flatmap(
    lambda names: st.tuples(
        *(
            st.builds(
                Condition,
                st.just(name),
                st.sampled_from([(option.id,) for option in CHOICES[name].options]),
                st.booleans(),
                st.just(""),
            )
            for name in sorted(names)
        )
    )
)
PRICES = st.lists(st.tuples(AMOUNTS, WHENS, st.sampled_from(("block", "order"))), max_size=8).map(
    lambda drawn: [Price(f"p{number}", "", *one) for number, one in enumerate(drawn)]
)
PICKS = st.fixed_dictionaries(
    {id: st.sampled_from([option.id for option in one.options]) for id, one in CHOICES.items()}
)
TERMS = st.builds(
    terms,
    st.sampled_from(("0", "0.05", "0.19", "0.20", "0.225")),
    st.sampled_from(("half_up", "half_even")),
    st.sampled_from(("line", "category", "total")),
)
QUANTITIES = st.integers(1, 40)


def half(amount: Fraction, mode: str) -> Fraction:
    """To the hundredth by a second hand: fractions and floors, no decimals."""
    size = abs(amount) * 100
    whole = math.floor(size)
    rest = size - whole
    up = rest > Fraction(1, 2) or (rest == Fraction(1, 2) and (mode == "half_up" or whole % 2 == 1))
    return Fraction(whole + up, 100) * (1 if amount >= 0 else -1)


@given(PRICES, TERMS, PICKS, QUANTITIES)
def test_lines_sum_to_the_net_and_net_and_tax_to_the_gross_as_fractions_have_it(
    prices: list[Price], said: Terms, picks: dict[str, str], quantity: int
) -> None:
    come = come_to(prices, said, picks, quantity)
    mode, rate = said.rounding, Fraction(said.tax.rate)
    applied = [one for one in prices if holds(one.when, picks, family())]
    amounts = [half(Fraction(one.amount), mode) * (quantity if one.per == "block" else 1) for one in applied]
    net = sum(amounts, Fraction(0))
    taxed = amounts if said.rounding_level == "line" else [net]
    tax = sum((half(amount * rate, mode) for amount in taxed), Fraction(0))
    assert sorted(Fraction(line.amount) for line in come.lines) == sorted(amounts)
    assert (Fraction(come.net), Fraction(come.tax), Fraction(come.gross)) == (net, tax, net + tax)
    assert Fraction(come.deposit) == half((net + tax) / 2, mode)


@given(PRICES, TERMS, PICKS, QUANTITIES)
def test_the_integers_for_the_space_sum_to_the_net(
    prices: list[Price], said: Terms, picks: dict[str, str], quantity: int
) -> None:
    listed = PriceList("list", date(2026, 1, 1), "GBP", tuple(prices))
    pennies = sum(amount for when, amount in price_terms(listed, said, quantity) if holds(when, picks, family()))
    assert Decimal(pennies) / 100 == come_to(prices, said, picks, quantity).net


@given(PRICES, TERMS, PICKS, st.integers(1, 6))
def test_a_caller_who_reckons_coarsely_gets_the_same_pennies(
    prices: list[Price], said: Terms, picks: dict[str, str], digits: int
) -> None:
    expected = come_to(prices, said, picks, 7)
    with localcontext(prec=digits):
        assert come_to(prices, said, picks, 7) == expected


@given(PRICES, PICKS, QUANTITIES, st.decimals(Decimal(0), Decimal(10**10), places=2))
def test_another_line_never_lowers_what_is_due_and_its_credit_takes_it_back(
    prices: list[Price], picks: dict[str, str], quantity: int, amount: Decimal
) -> None:
    before = come_to(prices, terms(), picks, quantity)
    more = [*prices, Price("more", "", amount)]
    after = come_to(more, terms(), picks, quantity)
    assert after.net >= before.net and after.gross >= before.gross
    assert come_to([*more, Price("back", "", -amount)], terms(), picks, quantity).gross == before.gross


def test_nothing_owed_is_written_without_a_sign() -> None:
    come = come_to([price("base", "0.004"), price("credit", "-0.004")], terms())
    assert [str(amount) for amount in (come.net, come.tax, come.gross, come.deposit)] == ["0.00"] * 4
    assert {str(line.amount) for line in come.lines} == {"0.00"}


def test_a_million_blocks_are_summed_to_the_penny() -> None:
    come = come_to([price("base", "99999999.99")], terms(), quantity=10**6)
    assert str(come.net) == "99999999990000.00"
    assert str(come.gross) == "119999999988000.00"
