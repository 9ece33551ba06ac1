"""Units: every factor against pint, published conversions, and what a text may and may not say."""

from __future__ import annotations

import decimal
import subprocess
import sys
from decimal import Decimal

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.dimensions import ANGLE, DIFFERENCE, FORCE, LENGTH, NUMBER, TEMPERATURE, VELOCITY, Dimension
from configurator.units import (
    COUNTS,
    UNITS,
    Misread,
    Quantity,
    echo,
    find_unit,
    number_in,
    read_quantity,
    show,
    twelve_digits,
)

# How pint writes the units whose symbols it reads otherwise, or not at all.
IN_PINT = {
    "C": "degC", "F": "degF", "rev": "turn", "min": "minute", "h": "hour", "lbf": "lbf", "PS": "metric_horsepower",
    "hp": "hp", "qt": "quart", "gal": "gallon", "inHg": "inch_Hg", "N m": "N*m", "ft lbf": "ft*lbf", "Pa s": "Pa*s",
    "mPa s": "mPa*s", "um/m K": "um/m/K", "J/kg K": "J/kg/K", "W/m K": "W/m/K", "W/m2 K": "W/m**2/K",
    "kg m2": "kg*m**2", "N m/rad": "N*m/rad", "g/kW h": "g/(kW*hour)", "lb/hp h": "lb/(hp*hour)", "mm2": "mm**2",
    "m2": "m**2", "in2": "inch**2", "cm3": "cm**3", "m3": "m**3", "in3": "inch**3", "m/s2": "m/s**2",
    "L/min": "L/minute", "m3/s": "m**3/s", "kg/m3": "kg/m**3", "mm2/s": "mm**2/s", "in": "inch", "%": "percent",
}  # fmt: skip
BASES = (("[length]", 0), ("[mass]", 1), ("[time]", 2), ("[temperature]", 3))
COUNTED = [symbol for symbol in UNITS if symbol in COUNTS]
MEASURED = [symbol for symbol in UNITS if symbol not in COUNTS]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[Decimal]:
    return pint.UnitRegistry(non_int_type=Decimal)


def plain(symbol: str) -> str:
    return symbol.removesuffix(" gauge").removesuffix(" absolute")


@pytest.mark.parametrize("symbol", MEASURED)
def test_a_unit_has_the_factor_and_the_dimension_that_pint_gives_it(
    symbol: str, registry: pint.UnitRegistry[Decimal]
) -> None:
    unit, name = UNITS[symbol], IN_PINT.get(plain(symbol), plain(symbol))
    in_pint = registry.Quantity(Decimal(7), name).to_base_units().magnitude
    tolerance = 1e-5 if symbol.startswith("inHg") else 1e-12  # pint rounds the density of mercury
    assert float(unit.to_si(Decimal(7))) == pytest.approx(float(in_pint), rel=tolerance)
    powers = registry.get_dimensionality(name)
    assert [powers.get(base, 0) for base, _ in BASES] == [unit.dimension[place] for _, place in BASES]


@pytest.mark.parametrize("symbol", COUNTED)
def test_a_counting_unit_is_a_plain_number(symbol: str) -> None:
    assert UNITS[symbol].to_si(Decimal(5)) == 5
    assert UNITS[symbol].dimension == NUMBER


# Published conversions: text, unit, expected, relative tolerance. "pint, exact": pint 0.25.3 and scipy.constants, exact
# by definition as NIST SP 811 Appendix B marks in bold; verified. "derived": computed from those; computed.
CONVERSIONS = [
    ("1 in", "mm", 25.4, 1e-12),  # pint, exact
    ("1 lbf", "N", 4.4482216152605, 1e-12),  # 0.45359237 kg x 9.80665 m/s2; pint, exact
    ("1 psi", "Pa", 6894.757293168361, 1e-11),  # 1 lbf / (0.0254 m)^2; pint, exact
    ("1 ft lbf", "N m", 1.3558179483314003, 1e-11),  # pint, exact
    ("1 hp", "W", 745.6998715822702, 1e-11),  # mechanical: 550 ft lbf/s; pint, exact
    ("1 PS", "W", 735.49875, 1e-12),  # metric: 75 x 9.80665 W; pint, exact
    ("1 gal", "L", 3.785411784, 1e-12),  # US liquid: 231 in3; pint, exact
    ("1 qt", "L", 0.946352946, 1e-12),  # US liquid: 57.75 in3; pint, exact
    ("1 in3", "cm3", 16.387064, 1e-12),  # pint, exact
    ("1 lb", "kg", 0.45359237, 1e-12),  # pint, exact
    ("1 bar", "psi", 14.503773773020923, 1e-11),  # pint, exact
    ("1 inHg", "Pa", 3386.389, 5e-7),  # NIST SP 811 App. B, 3.386389 E+03, as quoted from the CRC Handbook; verified
    ("1 lb/hp h", "g/kW h", 608.2774, 1e-6),  # derived
]


@pytest.mark.parametrize(("text", "unit", "expected", "tolerance"), CONVERSIONS)
def test_a_published_conversion_comes_out(text: str, unit: str, expected: float, tolerance: float) -> None:
    assert float(number_in(read_quantity(text).value, unit)) == pytest.approx(expected, rel=tolerance)


def test_water_boils_at_212_fahrenheit() -> None:
    # T[K] = (T[F] + 459.67) / 1.8; pint and NIST SP 811 App. B, exact; verified
    assert twelve_digits(read_quantity("212 F").value) == Decimal("373.15")
    assert show(read_quantity("212 F").value, "C") == "100 C"


def test_a_difference_in_fahrenheit_carries_no_offset() -> None:
    # dT[K] = dT[F] / 1.8: 180 is 100 K. NIST SP 811 App. B.8 (definition); verified
    assert twelve_digits(read_quantity("212 F").value - read_quantity("32 F").value) == 100


def test_horsepower_is_torque_times_speed_over_5252() -> None:
    # hp = T[ft lbf] x rpm / 5252.113122, that is 33000 / (2 pi); derived, computed
    power = UNITS["ft lbf"].factor * UNITS["rpm"].factor
    assert float(UNITS["hp"].factor / power) == pytest.approx(5252.113122, rel=1e-9)


def test_an_expansion_per_fahrenheit_is_worth_nine_fifths_per_kelvin() -> None:
    # 13.1e-6 /F (Aluminum Association 6061) is 23.58e-6 /K; derived, computed
    per_kelvin = Decimal("13.1e-6") / UNITS["F"].factor
    assert float(per_kelvin) == pytest.approx(2.358e-05, rel=1e-9)
    assert show(per_kelvin, "um/m K") == "23.58 um/m K"


def test_a_reyn_is_a_pound_second_per_square_inch() -> None:
    # 1 lbf s/in^2 in Pa s; pint and scipy.constants, exact; verified
    reyn = UNITS["lbf"].factor / UNITS["in2"].factor
    assert float(reyn) == pytest.approx(6894.757293168361, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("94.0 mm", "94.0 mm"),
        ("94 mm", "94.0 mm"),
        ("1/2 in", "0.5 in"),
        ("3 1/2 in", "3.5 in"),
        ("8,000 rpm", "8000 rpm"),
        ("300kW", "300 kW"),
        ("50 %", "50 %"),
        ("-15 C", "-15 C"),
        ("\u221215 \u00b0C", "-15 C"),
        ("0.0015 in", "0.0015 in"),
        ("0.035 mm", "0.035 mm"),
        ("22.4 \u00b5m/m K", "22.4 um/m K"),
        ("127 Nm", "127 N m"),
        ("94 lb-ft", "94 ft lbf"),
        ("40 KW", "40 kW"),
        ("5 teeth", "5 teeth"),
        ("5", "5"),
        ("1.5e3 N", "1500 N"),
        ("-0.0 mm", "0.0 mm"),
        ("0.000035 m2", "0.000035 m2"),
        ("1.8 bar gauge", "1.8 bar gauge"),
        ("26 psig", "26 psi gauge"),
    ],
)
def test_a_quantity_is_read_as_a_salesman_writes_it(text: str, shown: str) -> None:
    assert str(read_quantity(text)) == shown


@pytest.mark.parametrize(
    "text",
    [
        *("", " ", "mm", "nan", "inf", "-inf mm", "1e400 mm", "1E+9999999 mm", "1e-400 mm", "1e16 mm", "0x10 mm"),
        *("1_000 mm", "\uff11\uff12 mm", "\u0661\u0662 mm", "\u0661\u0662\u0663", "1,5 mm", "1.234,56 mm", "1,23 mm"),
        *("0,500 mm", "1.2.3 mm", "1 2 mm", "1/0 in", "--1 mm", "1" * 31 + " mm", "1" * 5000, "true", "84 mm mm"),
        *("84 furlongs", "84 constructor", "84 \x1b[2Jmm", "5 m\u202em", "1e mm e", "84 mm\n;", "\ud800 mm"),
    ],
)
def test_a_text_that_cannot_be_taken_at_its_word_is_refused_with_a_way_out(text: str) -> None:
    with pytest.raises(Misread) as refused:
        read_quantity(text, "mm")
    assert refused.value.wrong
    assert refused.value.way_out
    assert str(refused.value).isprintable()


def test_a_mass_is_not_a_length() -> None:
    with pytest.raises(Misread, match=r"'84 kg' is a mass, where a length is wanted. Write it in one of mm, cm"):
        read_quantity("84 kg", "mm")


def test_a_temperature_is_not_a_difference() -> None:
    assert read_quantity("20 K", "K") == Quantity(Decimal(20), "K")
    with pytest.raises(Misread, match="a difference of temperatures, where a temperature is wanted"):
        read_quantity("20 K", "C")


CLEARANCE = (read_quantity("0.01 mm"), read_quantity("0.2 mm"))


def test_a_bare_number_is_taken_in_the_declared_unit_if_no_other_is_plausible() -> None:
    assert read_quantity("0.038", "mm", *CLEARANCE) == read_quantity("0.038 mm")
    assert read_quantity("84", "mm", read_quantity("76 mm"), read_quantity("90 mm")) == read_quantity("84 mm")
    assert read_quantity("5", "bolts") == read_quantity("5 bolts")


@pytest.mark.parametrize(
    ("text", "unit", "least", "greatest", "choice"),
    [
        ("0.0015", "mm", "0.01 mm", "0.2 mm", "0.0015 mm or 0.0015 cm or 0.0015 in"),  # a clearance that is in inches
        ("160", "kW", "50 kW", "400 kW", "160 kW or 160 hp or 160 PS"),
        ("90", "C", "-40 C", "150 C", "90 C or 90 F"),
        ("0.5", "%", "0 %", "100 %", "0.5 % or 0.5"),
        ("500", "mm", "76 mm", "90 mm", "500 mm"),  # implausible in any unit
    ],
)
def test_a_bare_number_with_two_plausible_units_is_refused(
    text: str, unit: str, least: str, greatest: str, choice: str
) -> None:
    with pytest.raises(Misread) as refused:
        read_quantity(text, unit, read_quantity(least), read_quantity(greatest))
    assert refused.value.way_out == f"Say which is meant: {choice}."


def test_a_bare_number_without_bounds_is_refused_where_there_are_several_units() -> None:
    with pytest.raises(Misread, match="names no unit"):
        read_quantity("84", "mm")
    assert read_quantity("2700", "kg/m3").unit == "kg/m3"


def test_nothing_is_nothing_in_every_unit() -> None:
    boost = read_quantity("0", "bar", read_quantity("0 bar"), read_quantity("4 bar"), plain_is="gauge")
    assert str(boost) == "0 bar gauge"


def test_boost_is_gauge_and_is_echoed_so() -> None:
    assert echo(read_quantity("1.8 bar", "bar", plain_is="gauge")) == "1.8 bar gauge"
    assert echo(read_quantity("1.8 bar gauge", "bar", plain_is="gauge")) == "1.8 bar gauge"


def test_an_absolute_pressure_is_not_taken_for_boost() -> None:
    # The standard atmosphere is 1.01325 bar (ISO 2533), so 2.8 absolute is 1.79 gauge, at sea level only.
    with pytest.raises(Misread, match=r"is absolute, where gauge is wanted. At sea level that is 1.79 bar gauge"):
        read_quantity("2.8 bar absolute", "bar", plain_is="gauge")
    with pytest.raises(Misread, match=r"is gauge, where absolute is wanted. At sea level that is 40.7 psi absolute"):
        read_quantity("26 psi gauge", "bar")


def test_any_other_pressure_says_what_it_is_measured_from() -> None:
    assert str(read_quantity("150 bar absolute", "bar")) == "150 bar absolute"
    assert str(read_quantity("3 bar gauge", "bar gauge")) == "3 bar gauge"
    with pytest.raises(Misread, match=r"does not say what it is measured from. Write 150 bar absolute"):
        read_quantity("150 bar", "bar")
    with pytest.raises(Misread, match=r"Write 3 bar gauge"):
        read_quantity("3 bar", "bar gauge")


def test_both_horsepowers_are_echoed_in_kilowatts() -> None:
    # 300 x 745.6998... W and 300 x 735.49875 W, by the definitions above
    assert echo(read_quantity("300 hp")) == "300 hp (223.7 kW)"
    assert echo(read_quantity("300 PS")) == "300 PS (220.6 kW)"
    assert echo(read_quantity("160 kW")) == "160 kW"


def test_a_value_is_shown_to_the_decimals_asked_for() -> None:
    assert show(read_quantity("82 mm").value, "mm", 1) == "82.0 mm"
    assert show(read_quantity("2.25 mm").value, "mm", 1) == "2.3 mm"
    assert show(-read_quantity("0.04 mm").value, "mm", 1) == "0.0 mm"
    assert show(read_quantity("1 in").value, "mm") == "25.4 mm"
    assert show(Decimal("21.3333333333"), "m/s") == "21.3 m/s"
    assert show(Decimal("0.00002254"), "mm") == "0.0225 mm"


def test_an_unknown_unit_is_refused() -> None:
    assert find_unit("inches").symbol == "in"
    with pytest.raises(Misread, match="'cubits' is not a known unit"):
        find_unit("cubits")


def test_dimensions_multiply_and_divide() -> None:
    assert FORCE.over(Dimension(length=2)) == UNITS["Pa"].dimension
    assert VELOCITY.times(UNITS["s"].dimension) == LENGTH
    assert Dimension(length=2).root() == LENGTH
    assert LENGTH.root() is None
    assert TEMPERATURE.over(DIFFERENCE) == NUMBER
    assert UNITS["rpm"].dimension == ANGLE.over(UNITS["s"].dimension)
    assert str(Dimension(2, 0, -3)) == "a quantity in m^2 s^-3"


NUMBERS = st.decimals(min_value=-10_000, max_value=10_000, places=3)


@given(NUMBERS, st.sampled_from(sorted(UNITS)))
def test_what_is_shown_to_its_decimals_reads_back(number: Decimal, symbol: str) -> None:
    quantity = Quantity(UNITS[symbol].to_si(number), symbol)
    again = read_quantity(show(quantity.value, symbol, 3))
    assert twelve_digits(again.value) == twelve_digits(quantity.value)


@given(NUMBERS, st.sampled_from(MEASURED), st.integers(1, 9))
def test_the_callers_own_decimal_context_changes_nothing(number: Decimal, symbol: str, digits: int) -> None:
    text = f"{number:f} {symbol}"
    with decimal.localcontext() as context:
        context.prec, context.rounding = digits, decimal.ROUND_UP
        inside = read_quantity(text)
        shown = str(inside)
    assert (inside, shown) == (read_quantity(text), str(read_quantity(text)))


@given(st.text(max_size=40), st.sampled_from(["", "mm", "bar", "C", "kW", "teeth"]))
def test_any_text_is_a_quantity_or_is_refused(text: str, unit: str) -> None:
    try:
        quantity = read_quantity(text, unit)
    except Misread:
        return
    assert quantity.value.is_finite()
    assert quantity.dimension == UNITS[unit].dimension or not unit


def test_units_are_quick_to_import() -> None:
    # What the warm path must not load; the list of what may be loaded is short.
    program = (
        "import sys, configurator.units; print(*(sys.modules.keys() & {'dataclasses', 'inspect', 'pydantic', 'pint'}))"
    )
    assert subprocess.run([sys.executable, "-c", program], capture_output=True, check=True).stdout.strip() == b""


def test_a_bare_number_is_asked_about_in_the_units_nearest_to_the_one_declared() -> None:
    with pytest.raises(Misread) as refused:
        read_quantity("1.8", "bar", read_quantity("0 bar"), read_quantity("5 bar"))
    assert refused.value.way_out == "Say which is meant: 1.8 bar or 1.8 psi or 1.8 inHg."
