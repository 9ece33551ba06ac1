"""Quantities: a number never stands without its unit.

Inside the program a quantity is a `Decimal` in SI base units (m, kg, s, K, rad); the unit only says how it is shown.
The table below is small on purpose, and every factor of it is checked against an independent library in the tests.

A pressure may name what it is measured from: "bar gauge", "bar absolute". Its number is kept as it was said, never
shifted by an assumed atmosphere.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Context, Decimal, InvalidOperation
from typing import NamedTuple

from configurator import dimensions as kind
from configurator.dimensions import NUMBER as NUMBER
from configurator.dimensions import Dimension as Dimension
from configurator.numerals import ARITHMETIC as ARITHMETIC
from configurator.numerals import LONGEST_TEXT, SAME_SIGNS, split_number
from configurator.numerals import Misread as Misread
from configurator.numerals import read_number as read_number

_TWELVE = Context(prec=12, rounding=ROUND_HALF_EVEN, traps=[InvalidOperation])
_SHOWING = Context(prec=60, rounding=ROUND_HALF_UP, traps=[InvalidOperation])

class Unit(NamedTuple):
    """A unit: SI value = (number + offset) x factor. It is shown with `least` to `most` decimals."""

    symbol: str
    factor: Decimal
    offset: Decimal
    dimension: Dimension
    least: int = 0
    most: int = 2
    reference: str = ""  # what a pressure is measured from: "gauge", "absolute" or not said

    def to_si(self, number: Decimal) -> Decimal:
        """The value in SI base units of so many of this unit."""
        return ARITHMETIC.multiply(ARITHMETIC.add(number, self.offset), self.factor)


COUNTS = ("", "teeth", "bolts", "holes", "jets", "studs", "cylinders", "blocks")
"""Counting units: plain numbers that say what is counted."""

_ROWS: Mapping[Dimension, tuple[tuple[str, str, int, int], ...]] = {
    # symbol, factor to SI, decimals shown: least and most. What is made of the inch, the pound and standard gravity is
    # exact by definition; psi, and whatever has a turn, a minute or an hour in its divisor, is given to 28 digits.
    kind.LENGTH: (
        ("mm", "1E-3", 1, 3), ("cm", "1E-2", 1, 3), ("m", "1", 0, 3), ("um", "1E-6", 0, 1),
        ("in", "0.0254", 0, 4), ("ft", "0.3048", 0, 2),
    ),
    kind.AREA: (("mm2", "1E-6", 0, 1), ("m2", "1", 0, 3), ("in2", "0.00064516", 0, 3)),
    kind.VOLUME: (
        ("cm3", "1E-6", 0, 1), ("L", "1E-3", 0, 2), ("m3", "1", 0, 3), ("in3", "0.000016387064", 0, 2),
        ("qt", "0.000946352946", 0, 2), ("gal", "0.003785411784", 0, 2),  # the US liquid ones: 57.75 and 231 in3
    ),
    kind.MASS: (("kg", "1", 0, 2), ("g", "1E-3", 0, 1), ("lb", "0.45359237", 0, 2)),
    kind.TIME: (("s", "1", 0, 2), ("min", "60", 0, 1), ("h", "3600", 0, 2), ("day", "86400", 0, 1)),
    kind.ANGLE: (
        ("rad", "1", 0, 4), ("deg", "0.01745329251994329576923690768", 0, 2),
        ("rev", "6.283185307179586476925286767", 0, 2),
    ),
    kind.DIFFERENCE: (("K", "1", 0, 1),),
    kind.VELOCITY: (("m/s", "1", 0, 1),),
    kind.ACCELERATION: (("m/s2", "1", 0, 1),),
    kind.FREQUENCY: (("Hz", "1", 0, 1),),
    kind.TURNING: (("rpm", "0.1047197551196597746154214461", 0, 0), ("rad/s", "1", 0, 1)),
    kind.FORCE: (("N", "1", 0, 0), ("kN", "1E3", 0, 2), ("lbf", "4.4482216152605", 0, 0)),
    kind.PRESSURE: (
        ("Pa", "1", 0, 0), ("kPa", "1E3", 0, 1), ("MPa", "1E6", 0, 1), ("GPa", "1E9", 0, 1), ("bar", "1E5", 0, 2),
        ("psi", "6894.757293168361336722673445", 0, 1), ("inHg", "3386.388640341", 0, 2),
    ),
    kind.POWER: (
        ("W", "1", 0, 0), ("kW", "1E3", 0, 1),
        ("hp", "745.69987158227022", 0, 1), ("PS", "735.49875", 0, 1),  # mechanical: 550 ft lbf/s; metric: 75 kgf m/s
    ),
    kind.TORQUE: (("N m", "1", 0, 0), ("ft lbf", "1.3558179483314004", 0, 0), ("J", "1", 0, 1), ("kJ", "1E3", 0, 2)),
    kind.FLOW: (("m3/s", "1", 0, 4), ("L/s", "1E-3", 0, 2), ("L/min", "0.00001666666666666666666666666667", 0, 1)),
    kind.MASS_FLOW: (("kg/s", "1", 0, 3), ("g/s", "1E-3", 0, 1)),
    kind.DENSITY: (("kg/m3", "1", 0, 1),),
    kind.VISCOSITY: (("Pa s", "1", 0, 4), ("mPa s", "1E-3", 0, 2)),
    kind.KINEMATIC_VISCOSITY: (("mm2/s", "1E-6", 0, 2),),
    kind.EXPANSION: (("um/m K", "1E-6", 0, 2), ("1/K", "1", 0, 2)),
    kind.SPECIFIC_HEAT: (("J/kg K", "1", 0, 0),),
    kind.HEATING_VALUE: (("MJ/kg", "1E6", 0, 1),),
    kind.CONDUCTIVITY: (("W/m K", "1", 0, 1),),
    kind.HEAT_TRANSFER: (("W/m2 K", "1", 0, 0),),
    kind.INERTIA: (("kg m2", "1", 0, 4),),
    kind.STIFFNESS: (("N/mm", "1E3", 0, 0),),
    kind.TWIST_STIFFNESS: (("N m/rad", "1", 0, 0),),
    kind.CONSUMPTION: (
        ("g/kW h", "2.777777777777777777777777778E-10", 0, 0), ("lb/hp h", "1.689659410671558502628139570E-7", 0, 3),
    ),
    kind.NUMBER: (("%", "1E-2", 0, 1), *((word, "1", 0, 3) for word in COUNTS)),
}  # fmt: skip


def _table() -> dict[str, Unit]:
    """The units by symbol; those of pressure also with what they are measured from."""
    none, units = Decimal(0), []
    for dimension, rows in _ROWS.items():
        units += [Unit(symbol, Decimal(factor), none, dimension, least, most) for symbol, factor, least, most in rows]
    units.append(Unit("C", Decimal(1), Decimal("273.15"), kind.TEMPERATURE, 0, 1))
    units.append(Unit("F", Decimal("0.5555555555555555555555555556"), Decimal("459.67"), kind.TEMPERATURE, 0, 1))
    for unit in [unit for unit in units if unit.dimension == kind.PRESSURE]:
        for reference in ("gauge", "absolute"):
            units.append(unit._replace(symbol=f"{unit.symbol} {reference}", reference=reference))
    return {unit.symbol: unit for unit in units}


UNITS: Mapping[str, Unit] = _table()

_ALSO_WRITTEN = {
    "Nm": "N m", "ft-lb": "ft lbf", "lb-ft": "ft lbf", "lb ft": "ft lbf", "ft lb": "ft lbf", "lbf ft": "ft lbf",
    "inch": "in", "inches": "in", '"': "in", "feet": "ft", "foot": "ft", "cc": "cm3", "litre": "L", "litres": "L",
    "rev/min": "rpm", "1/min": "rpm", "barg": "bar gauge", "bara": "bar absolute", "bar abs": "bar absolute",
    "psig": "psi gauge", "psia": "psi absolute", "psi abs": "psi absolute", "N/mm2": "MPa", "cP": "mPa s",
    "cSt": "mm2/s", "1/C": "1/K", "um/mK": "um/m K", "J/kgK": "J/kg K", "degC": "C", "degF": "F", "hours": "h",
    "hour": "h", "days": "day", "lbs": "lb", "tooth": "teeth", "bolt": "bolts", "hole": "holes", "jet": "jets",
    "stud": "studs", "percent": "%", "g/kWh": "g/kW h", "°": "deg", "°C": "C", "°F": "F",
}  # fmt: skip


def find_unit(symbol: str) -> Unit:
    """The unit with this symbol, also in its other usual spellings and letter cases; Misread where there is none."""
    plain = " ".join(symbol.translate(SAME_SIGNS).split())
    if exact := UNITS.get(plain) or UNITS.get(_ALSO_WRITTEN.get(plain, "none")):
        return exact
    low = plain.lower()
    if len(plain) <= LONGEST_TEXT:
        near = {name for name in UNITS if name.lower() == low}
        near |= {name for also, name in _ALSO_WRITTEN.items() if also.lower() == low}
        if len(near) == 1:
            return UNITS[near.pop()]
    raise Misread(f"{symbol[:40]!r} is not a known unit", "Write lengths in mm, masses in kg, pressures in bar.")


class Quantity(NamedTuple):
    """A value in SI base units, and the unit in which it is shown."""

    value: Decimal
    unit: str

    @property
    def dimension(self) -> Dimension:
        """What kind of quantity it is."""
        return UNITS[self.unit].dimension

    def __str__(self) -> str:
        return show(self.value, self.unit)


def twelve_digits(value: Decimal) -> Decimal:
    """The value to twelve significant digits: what is compared, so that 93.9 - 89.9 is 4.0 and an edge is an edge."""
    return _TWELVE.plus(value)


def number_in(value: Decimal, unit: str) -> Decimal:
    """How many of the unit a value in SI base units is, to twelve significant digits."""
    found = UNITS[unit]
    return twelve_digits(ARITHMETIC.subtract(ARITHMETIC.divide(value, found.factor), found.offset))


def show(value: Decimal, unit: str, decimals: int | None = None) -> str:
    """The value (SI base units) written in the unit: "94.0 mm", "0.035 mm", "8000 rpm", "50 %".

    Without `decimals`, as many as the unit usually has, and more where a small value would lose its first three digits.
    """
    found, number = UNITS[unit], number_in(value, unit)
    if decimals is None:
        most = found.most if not number else max(found.most, 2 - number.adjusted())
        rounded = _SHOWING.quantize(number, Decimal(1).scaleb(-most))
        written = -int(rounded.normalize(_SHOWING).as_tuple().exponent)
        decimals = max(found.least, written)
    rounded = _SHOWING.quantize(number, Decimal(1).scaleb(-decimals))
    text = f"{rounded if rounded else rounded.copy_abs():f}"
    return f"{text} {unit}" if unit else text


def echo(quantity: Quantity) -> str:
    """A quantity as it is read back to the caller: horsepower, which is one of two, with its kilowatts."""
    if quantity.unit in ("hp", "PS"):
        return f"{quantity} ({show(quantity.value, 'kW')})"
    return str(quantity)


def read_quantity(
    text: str, unit: str = "", least: Quantity | None = None, greatest: Quantity | None = None, plain_is: str = ""
) -> Quantity:
    """Read "94.0 mm", "1/2 in", "8,000 rpm", "300kW", "50 %"; Misread for whatever could be taken in two ways.

    `unit` is the declared unit: the text must be of its dimension. A bare number is taken in the declared unit only if
    no other unit of that dimension would put it within `least` and `greatest`. A pressure must say gauge or absolute,
    as declared (absolute where the declaration does not say), unless `plain_is` tells how one that names neither is
    meant. Whether the value lies in the range is not judged here.
    """
    number, written = split_number(text)
    declared = find_unit(unit) if unit else None
    found = find_unit(written) if written or declared is None else _only_plausible(number, declared, least, greatest)
    if declared is not None:
        if found.dimension != declared.dimension:
            wrong = f"{text.strip()!r} is {found.dimension}, where {declared.dimension} is wanted"
            raise Misread(wrong, _write_in(declared))
        found = _with_reference(text.strip(), number, found, declared, plain_is)
    return Quantity(found.to_si(number), found.symbol)


def _only_plausible(number: Decimal, declared: Unit, least: Quantity | None, greatest: Quantity | None) -> Unit:
    """The declared unit for a bare number, if it alone gives a value within the bounds."""
    if declared.symbol in COUNTS:
        return declared
    plain = UNITS[declared.symbol.removesuffix(declared.reference).strip()]
    same = [u for u in UNITS.values() if u.dimension == plain.dimension and not u.reference]
    same = [u for u in same if u.symbol not in COUNTS[1:]]  # they are all the plain number
    low, high = (bound.value if bound else None for bound in (least, greatest))
    fits = [u for u in same if (low is None or u.to_si(number) >= low) and (high is None or u.to_si(number) <= high)]
    if plain in fits and all(u.to_si(number) == plain.to_si(number) for u in fits):
        return plain
    others = sorted((u for u in fits if u is not plain), key=lambda u: abs((u.factor / plain.factor).log10()))
    likely = [plain, *others][:3]
    several = " or ".join(f"{number:f} {u.symbol}".strip() for u in likely)
    raise Misread(f"{number:f} names no unit", f"Say which is meant: {several}.")


def _with_reference(text: str, number: Decimal, found: Unit, declared: Unit, plain_is: str) -> Unit:
    """The unit of a pressure with what it is measured from; any other unit unchanged."""
    if found.dimension != kind.PRESSURE:
        return found
    wanted = plain_is or declared.reference or "absolute"
    if not found.reference and plain_is:
        return UNITS[f"{found.symbol} {plain_is}"]
    if not found.reference:
        raise Misread(f"{text!r} does not say what it is measured from", f"Write {number:f} {found.symbol} {wanted}.")
    if found.reference != wanted:
        atmosphere = ARITHMETIC.divide(Decimal(101325), found.factor)  # the standard atmosphere, at sea level
        shifted = number - atmosphere if wanted == "gauge" else number + atmosphere
        other = UNITS[f"{found.symbol.removesuffix(found.reference)}{wanted}"]
        raise Misread(
            f"{text!r} is {found.reference}, where {wanted} is wanted",
            f"At sea level that is {show(other.to_si(shifted), other.symbol)}; elsewhere the outside pressure differs.",
        )
    return found


def _write_in(unit: Unit) -> str:
    others = [u.symbol for u in UNITS.values() if u.dimension == unit.dimension and u.symbol not in COUNTS]
    return f"Write it in {unit.symbol}." if len(others) < 2 else f"Write it in one of {', '.join(others[:6])}."
