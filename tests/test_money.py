"""Money: digits of currencies, rounding, reading, and dividing to the cent."""

from __future__ import annotations

import decimal
from decimal import Decimal
from fractions import Fraction
from math import floor

import pytest
from babel.numbers import get_currency_precision, list_currencies
from hypothesis import given
from hypothesis import strategies as st

from configurator.money import (
    CURRENCIES,
    ROUNDINGS,
    instalments,
    minor_digits,
    minor_units,
    read_amount,
    round_money,
    spread,
)
from configurator.units import Misread


def euros(text: str, mode: str = "half_up") -> str:
    return str(round_money(Decimal(text), "EUR", mode))


# Digits. ISO 4217; babel 2.18, CLDR get_currency_precision (computed with it); verified.
@pytest.mark.parametrize(("currency", "digits"), [("USD", 2), ("JPY", 0), ("KWD", 3), ("CLF", 4), ("CHF", 2)])
def test_a_currency_has_its_minor_digits(currency: str, digits: int) -> None:
    assert minor_digits(currency) == digits


# CLDR counts the digits in daily use, which inflation has worn away here; ISO 4217 still gives them (from memory).
WORN = {"AFN", "ALL", "IQD", "IRR", "KPW", "LAK", "LBP", "MGA", "MMK", "RSD", "SOS", "SYP", "YER"}


@pytest.mark.parametrize("currency", sorted(CURRENCIES))
def test_the_digits_are_those_that_babel_knows(currency: str) -> None:
    assert currency in list_currencies()
    if currency in WORN:
        assert get_currency_precision(currency) < minor_digits(currency)
    else:
        assert get_currency_precision(currency) == minor_digits(currency)


@pytest.mark.parametrize("currency", ["", "eur", "EURO", "XAU", "XXX", "XTS", "\u20ac", "ZZZ"])
def test_what_is_no_currency_is_refused(currency: str) -> None:
    with pytest.raises(Misread, match="is not a currency"):
        minor_digits(currency)


# Rounding. Python's decimal module (computed with it); IEEE 754 / ISO 80000-1 Annex B, rules A and B; verified.
def test_half_even_and_half_up_part_at_the_half_cent() -> None:
    assert euros("2.665", "half_even") == "2.66"
    assert euros("2.665", "half_up") == "2.67"
    assert (euros("0.125", "half_up"), euros("0.125", "half_even")) == ("0.13", "0.12")


def test_a_credit_note_is_rounded_away_from_nothing_as_its_invoice_is() -> None:
    assert euros("-2.665") == "-2.67"
    assert euros("-0.125") == "-0.13"


def test_a_float_would_round_the_wrong_way() -> None:
    # Python's built-in round, documented there; verified. In decimals 2.675 is 2.675.
    assert round(2.675, 2) == 2.67
    assert euros("2.675", "half_even") == "2.68"


def test_a_half_cent_goes_up_and_less_goes_down() -> None:
    # HMRC VATREC12030; Regulation (EC) 1103/97 art. 5 for the half. Saudi e-invoice guidance: 123.4951 is 123.50.
    assert [euros(text) for text in ("1.004", "1.005", "123.4951")] == ["1.00", "1.01", "123.50"]


@pytest.mark.parametrize(
    ("mode", "rounded"),
    [
        ("half_up", ["1.01", "1.01", "-1.01"]),
        ("half_down", ["1.01", "1.00", "-1.00"]),
        ("half_even", ["1.01", "1.00", "-1.00"]),
        ("up", ["1.01", "1.01", "-1.01"]),
        ("down", ["1.00", "1.00", "-1.00"]),
    ],
)
def test_a_mode_of_rounding_does_what_its_name_says(mode: str, rounded: list[str]) -> None:
    assert [euros(text, mode) for text in ("1.0051", "1.005", "-1.005")] == rounded


def test_there_is_no_negative_nothing() -> None:
    assert euros("-0.004") == "0.00"


def test_an_unknown_mode_names_those_there_are() -> None:
    with pytest.raises(
        Misread, match=r"'swedish' is not a way to round. There are half_up, half_down, half_even, up, down"
    ):
        euros("1", "swedish")


@pytest.mark.parametrize("amount", [1.0, 1, True, Decimal("NaN"), Decimal("sNaN"), Decimal("Infinity")])
def test_only_a_finite_decimal_is_money(amount: Decimal) -> None:
    with pytest.raises(TypeError):
        round_money(amount, "EUR")


AMOUNTS = st.decimals(min_value=-(10**12), max_value=10**12, places=6)
MODES = st.sampled_from(sorted(ROUNDINGS))
CODES = st.sampled_from(["JPY", "EUR", "KWD", "CLF"])


@given(AMOUNTS, CODES, MODES)
def test_rounding_agrees_with_exact_fractions_and_mirrors(amount: Decimal, currency: str, mode: str) -> None:
    rounded = round_money(amount, currency, mode)
    steps = Fraction(abs(amount)) * 10 ** minor_digits(currency)
    below, over = floor(steps), steps - floor(steps)
    half = Fraction(1, 2)
    goes_up = {
        "half_up": over >= half,
        "half_down": over > half,
        "half_even": over > half or (over == half and below % 2 == 1),
        "up": over > 0,
        "down": False,
    }[mode]
    assert abs(minor_units(rounded, currency)) == below + goes_up
    assert round_money(-amount, currency, mode) == -rounded


@given(AMOUNTS, MODES, st.integers(1, 9))
def test_the_callers_own_decimal_context_changes_no_cent(amount: Decimal, mode: str, digits: int) -> None:
    with decimal.localcontext() as context:
        context.prec, context.rounding = digits, decimal.ROUND_CEILING
        inside = round_money(amount, "EUR", mode)
    assert str(inside) == str(round_money(amount, "EUR", mode))


# Tax: the level of rounding is the shop's, and matters. Computed (Decimal).
def test_tax_line_by_line_differs_from_tax_on_the_total() -> None:
    # Three lines of 1.03 at 19 %: 0.20 each is 0.60, on the total 0.59.
    lines, rate = [Decimal("1.03")] * 3, Decimal("0.19")
    assert sum(round_money(line * rate, "EUR") for line in lines) == Decimal("0.60")
    assert round_money(sum(lines, Decimal(0)) * rate, "EUR") == Decimal("0.59")
    # Ten lines of 0.15 at 10 %: 0.20 line by line, 0.15 on the total.
    lines, rate = [Decimal("0.15")] * 10, Decimal("0.10")
    assert sum(round_money(line * rate, "EUR") for line in lines) == Decimal("0.20")
    assert round_money(sum(lines, Decimal(0)) * rate, "EUR") == Decimal("0.15")


def test_tax_of_a_category_is_computed_on_its_sum() -> None:
    # EN 16931 BR-CO-17; three lines of 33.335 at 19 %: nets of 33.34 make 100.02, tax 19.00 (line by line 18.99).
    # A third party's test of that rule; recomputed.
    nets = [round_money(Decimal("33.335"), "EUR")] * 3
    assert sum(nets) == Decimal("100.02")
    assert round_money(sum(nets, Decimal(0)) * Decimal("0.19"), "EUR") == Decimal("19.00")
    assert sum(round_money(net * Decimal("0.19"), "EUR") for net in nets) == Decimal("18.99")


def test_the_tax_inside_a_price_is_a_sixth_at_twenty_per_cent() -> None:
    # price x r / (1 + r); the one-sixth VAT fraction; derived, computed
    assert round_money(Decimal(1200) * Decimal("0.2") / Decimal("1.2"), "GBP") == Decimal("200.00")


# Reading.
@pytest.mark.parametrize(
    ("text", "amount"),
    [("420.00", "420.00"), ("-180", "-180"), (" 9800.5 ", "9800.5"), ("0", "0"), ("1" * 15, "1" * 15)],
)
def test_an_amount_is_read_as_it_is_written(text: str, amount: str) -> None:
    assert str(read_amount(text)) == amount


@pytest.mark.parametrize(
    "given_",
    [
        *(
            "",
            " ",
            "nan",
            "inf",
            "-inf",
            "1e400",
            "1E+9999999",
            "1e2",
            "0x10",
            "1_000",
            "1_000.5",
            "\uff11\uff12",
            "\u0661",
        ),
        *(
            "\u0661\u0662\u0663",
            "1,5",
            "1.234,56",
            "1,234.56",
            "9,800",
            "1 000",
            "1.",
            ".5",
            "--1",
            "+1",
            "1.2.3",
            "1\n",
        ),
        *(
            "\u20ac10",
            "10 EUR",
            "1" * 16,
            "0.1" + "0" * 15,
            "9" * 5000,
            "\u22121",
            1.5,
            float("nan"),
            1,
            True,
            None,
            [],
        ),
        Decimal("1"),
    ],
    ids=lambda given_: ascii(given_)[:30],
)
def test_what_is_no_amount_is_refused_with_a_way_out(given_: object) -> None:
    with pytest.raises(Misread) as refused:
        read_amount(given_)
    assert refused.value.way_out
    assert str(refused.value).isprintable()


@given(st.text(max_size=30))
def test_any_text_is_an_amount_or_is_refused(text: str) -> None:
    try:
        amount = read_amount(text)
    except Misread:
        return
    assert amount.is_finite()
    assert abs(amount) < 10**15


# Dividing.
def whole(texts: str) -> tuple[Decimal, ...]:
    return tuple(Decimal(text) for text in texts.split())


def test_a_hundred_in_three_instalments_leaves_the_cent_to_the_last() -> None:
    # 1/3 each with the remainder on the last, so that they sum exactly: 33.34; derived, computed
    assert instalments(Decimal("100.00"), 3, "EUR") == whole("33.33 33.33 33.34")
    assert instalments(Decimal("-100.00"), 3, "EUR") == whole("-33.33 -33.33 -33.34")


def test_a_hundred_spread_over_three_leaves_the_cent_to_the_first() -> None:
    # Largest remainder, ties by order; computed
    assert spread(Decimal("100.00"), [Decimal(1)] * 3, "EUR") == whole("33.34 33.33 33.33")


def test_five_cents_by_thirty_and_seventy() -> None:
    # Foemmel's conundrum, Fowler, Patterns of Enterprise Application Architecture, "Money": 2 + 3, where rounding each
    # share by itself gives 2 + 4. As retold by a third party; verified there.
    assert spread(Decimal("0.05"), whole("30 70"), "EUR") == whole("0.02 0.03")


def test_instalments_by_shares() -> None:
    assert instalments(Decimal("1000.01"), whole("0.5 0.5"), "EUR") == whole("500.00 500.01")
    assert instalments(Decimal("1001"), whole("50 0 50"), "JPY") == whole("500 0 501")


@pytest.mark.parametrize("weights", [[], [Decimal(0)], whole("1 -1"), [Decimal("NaN")], [Decimal("1E+99999")]])
def test_nothing_is_divided_by_nothing(weights: list[Decimal]) -> None:
    for divide in (instalments, spread):
        with pytest.raises(ValueError, match=r"divide by|not negative"):
            divide(Decimal("10.00"), weights, "EUR")


def test_half_a_cent_is_not_divided() -> None:
    with pytest.raises(ValueError, match="round it first"):
        spread(Decimal("0.005"), whole("1 1"), "EUR")


def test_an_amount_in_minor_units_is_an_integer() -> None:
    assert minor_units(Decimal("420.00"), "EUR") == 42000
    assert minor_units(Decimal("420"), "JPY") == 420
    with pytest.raises(ValueError, match=r"420.5 is not a whole amount of JPY"):
        minor_units(Decimal("420.5"), "JPY")


WEIGHTS = st.lists(st.decimals(min_value=0, max_value=10_000, places=2), min_size=1, max_size=12).filter(any)


@given(st.integers(-(10**12), 10**12), WEIGHTS, CODES)
def test_parts_add_up_stay_close_and_mirror(units: int, weights: list[Decimal], currency: str) -> None:
    step = Decimal(1).scaleb(-minor_digits(currency))
    total = units * step
    for divide in (instalments, spread):
        parts = divide(total, weights, currency)
        assert sum(parts) == total
        for part, weight in zip(parts, weights, strict=True):
            ideal = Fraction(total) * Fraction(weight) / sum(map(Fraction, weights))
            assert abs(Fraction(part) - ideal) < Fraction(step)
            assert part.as_tuple().exponent == -minor_digits(currency)
        assert divide(-total, weights, currency) == tuple(-part for part in parts)


@given(st.integers(0, 10**6), WEIGHTS)
def test_spreading_agrees_with_largest_remainders_in_fractions(cents: int, weights: list[Decimal]) -> None:
    """Written apart, with exact fractions: deal out the cents one by one to whoever is furthest below his ideal."""
    total = sum(map(Fraction, weights))
    ideals = [Fraction(weight) * cents / total for weight in weights]
    dealt = [floor(ideal) for ideal in ideals]
    while sum(dealt) < cents:
        furthest = max(range(len(ideals)), key=lambda part: (ideals[part] - dealt[part], -part))
        dealt[furthest] += 1
    assert [minor_units(part, "EUR") for part in spread(Decimal(cents).scaleb(-2), weights, "EUR")] == dealt


@given(st.integers(1, 10**6), st.integers(1, 60))
def test_equal_instalments_never_fall(cents: int, parts: int) -> None:
    paid = instalments(Decimal(cents).scaleb(-2), parts, "EUR")
    assert list(paid) == sorted(paid)
    assert paid[-1] - paid[0] <= Decimal("0.01")
