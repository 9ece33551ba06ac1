"""Money: decimal amounts in a currency, rounded by a named mode and divided without losing a cent. Never a float."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import ROUND_DOWN, ROUND_HALF_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, ROUND_UP, Context, Decimal
from math import lcm

from configurator.units import Misread

MOST_DIGITS = 15
_EXACT = Context(prec=60)

ROUNDINGS: Mapping[str, str] = {
    "half_up": ROUND_HALF_UP,
    "half_down": ROUND_HALF_DOWN,
    "half_even": ROUND_HALF_EVEN,
    "up": ROUND_UP,
    "down": ROUND_DOWN,
}
"""The rounding modes by the names that a shop gives them.

All of them go by the size of an amount, whatever its sign: half_up takes 0.125 to 0.13 and -0.125 to -0.13, so that a
credit note mirrors its invoice to the cent. `up` is away from nothing, `down` is towards it.
"""

# ISO 4217: the digits after the decimal point. Funds, metals and testing codes are no currencies to quote in.
_DIGITS = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF",
    2: """
        AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CNY COP CRC
        CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD
        KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO
        NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL
        THB TJS TMT TOP TRY TTD TWD TZS UAH USD UZS VED VES WST XCD XCG YER ZAR ZMW ZWG
    """,
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}
CURRENCIES: Mapping[str, int] = {code: digits for digits, codes in _DIGITS.items() for code in codes.split()}
"""The digits after the decimal point of each currency, by its ISO 4217 code."""


def minor_digits(currency: str) -> int:
    """How many digits the currency has after the decimal point: 2 for EUR, 0 for JPY. Misread for an unknown code."""
    if currency not in CURRENCIES:
        raise Misread(
            f"{currency[:20]!r} is not a currency", "Write its ISO 4217 code in capitals, such as EUR, GBP or USD."
        )
    return CURRENCIES[currency]


def round_money(amount: Decimal, currency: str, mode: str = "half_up") -> Decimal:
    """The amount in whole minor units of the currency, never "-0.00". Misread for an unknown currency or mode."""
    if mode not in ROUNDINGS:
        raise Misread(f"{mode[:20]!r} is not a way to round", f"There are {', '.join(ROUNDINGS)}.")
    if not isinstance(amount, Decimal) or not amount.is_finite():
        raise TypeError(f"an amount of money is a finite Decimal, not {amount!r}")
    rounded = amount.quantize(Decimal(1).scaleb(-minor_digits(currency)), ROUNDINGS[mode], _EXACT)
    return rounded if rounded else rounded.copy_abs()


def read_amount(text: object) -> Decimal:
    """Read "420.00" or "-180"; Misread for what is no such text, or has more than fifteen digits."""
    if not isinstance(text, str):
        raise Misread(f"{str(text)[:20]} is not an amount of money", 'Write it between quotes: "420.00".')
    plain = text.strip(" ")
    if not re.fullmatch(r"-?[0-9]+(\.[0-9]+)?", plain):
        raise Misread(
            f"{text[:20]!r} is not an amount of money", "Write digits with a decimal point and no other mark: 1234.56."
        )
    if len(plain.lstrip("-").replace(".", "")) > MOST_DIGITS:
        raise Misread(f"{plain[:20]} has more than {MOST_DIGITS} digits", "Look whether a digit slipped in.")
    return Decimal(plain)


def minor_units(amount: Decimal, currency: str) -> int:
    """An amount that is whole in the currency as an integer: 420.00 EUR is 42000. ValueError for one that is not."""
    units = amount.scaleb(minor_digits(currency), _EXACT)
    if units != units.to_integral_value():
        raise ValueError(f"{amount} is not a whole amount of {currency}: round it first")
    return int(units)


def instalments(total: Decimal, parts: int | Sequence[Decimal], currency: str) -> tuple[Decimal, ...]:
    """Divide a whole amount into so many equal instalments, or by shares; what is left over falls on the last ones.

    100.00 in 3 is 33.33, 33.33, 33.34. They add up to the total, each within one minor unit of its exact share; a
    negative total mirrors the positive one. ValueError for no parts, or for shares that are negative or all nothing.
    """
    shares = [Decimal(1)] * parts if isinstance(parts, int) else parts
    return _divide(total, shares, currency, lambda left: reversed(range(len(left))))


def spread(total: Decimal, weights: Sequence[Decimal], currency: str) -> tuple[Decimal, ...]:
    """Divide a whole amount by weights; what is left over falls where the most was cut off, the earlier first in a tie.

    0.05 by 30 and 70 is 0.02, 0.03. Sums, bounds, signs and errors as for `instalments`.
    """
    return _divide(total, weights, currency, lambda left: sorted(range(len(left)), key=lambda part: -left[part]))


def _divide(
    total: Decimal, weights: Sequence[Decimal], currency: str, order: Callable[[Sequence[int]], Iterable[int]]
) -> tuple[Decimal, ...]:
    """Round each share down, then give the units left over, one each and in order, to the parts that lost something."""
    units = minor_units(total, currency)
    whole = _whole_weights(weights)
    shares, left = zip(*(divmod(abs(units) * weight, sum(whole)) for weight in whole), strict=True)
    given = list(shares)
    losers = [part for part in order(left) if left[part]]
    for part in losers[: abs(units) - sum(shares)]:
        given[part] += 1
    sign, digits = (-1 if units < 0 else 1), minor_digits(currency)
    return tuple(Decimal(sign * share).scaleb(-digits, _EXACT) for share in given)


def _whole_weights(weights: Sequence[Decimal]) -> list[int]:
    """Integers in the same proportions."""
    if any(not weight.is_finite() or weight < 0 or abs(weight.adjusted()) > MOST_DIGITS for weight in weights):
        raise ValueError("a share is a plain number, not negative")
    ratios = [weight.as_integer_ratio() for weight in weights]
    common = lcm(*(below for _, below in ratios))
    whole = [above * (common // below) for above, below in ratios]
    if not sum(whole):
        raise ValueError("there is nothing to divide by")
    return whole
