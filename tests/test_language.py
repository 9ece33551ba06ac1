"""The language of formulas: what it says, what it refuses, and that nothing else can happen."""

from __future__ import annotations

import math
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from configurator.dimensions import AREA, DIFFERENCE, FORCE, LENGTH, NUMBER, PRESSURE, TEMPERATURE, TURNING, Dimension
from configurator.language import (
    BOOLEAN,
    FUNCTIONS,
    Uncomputable,
    check_comparison,
    compares,
    dimension_of,
    evaluate,
    holds,
    of_floats,
    read,
    read_comparison,
)
from configurator.units import Misread, read_quantity, show

SAID = {
    "bore": "84.0 mm",
    "spacing": "94.0 mm",
    "deck_height": "228.0 mm",
    "deck_clearance": "0.5 mm",
    "stroke": "90.0 mm",
    "rod": "148.0 mm",
    "chord": "42.3 mm",
    "bolts": "5 bolts",
    "speed": "8000 rpm",
    "boost": "1.8 bar gauge",
    "water": "90 C",
    "oil": "110 C",
    "mass": "27 kg",
}
QUANTITIES = {name: read_quantity(text) for name, text in SAID.items()}
KINDS: Mapping[str, Dimension] = {name: quantity.dimension for name, quantity in QUANTITIES.items()}


def value(name: str) -> Decimal:
    return QUANTITIES[name].value


def shown(text: str, unit: str) -> str:
    return show(evaluate(read(text), value), unit)


def yes(text: str) -> bool:
    return holds(read(text), value)


def kind(text: str) -> object:
    return dimension_of(read(text), KINDS.__getitem__)


def refusal(text: str) -> Misread:
    with pytest.raises(Misread) as refused:
        kind(text)
    return refused.value


# What is refused. Formulas that try to reach the machine, or to stop it: the public history of sandboxes that were left
# by attributes, formats, comprehensions, look-alike letters, powers and depth (simpleeval's tests, Jinja's releases).
ATTACKS = [
    "__import__('os').system('id')",
    "().__class__.__bases__[0].__subclasses__()",
    "True.__class__.__class__.__base__.__subclasses__()[-1].__init__.func_globals['sys']",
    "x.__globals__",
    "max.__self__",
    "bore.__class__",
    '"{0.__class__}".format(1)',
    '"{a.__class__}".format_map(x)',
    'f"{x.__class__}"',
    "'%s'%x",
    '"a".mro',
    "[x for x in (1,)]",
    "(lambda:0)()",
    "(y:=9)",
    "a if b else c",
    "{**x}",
    "*x",
    "x[0]",
    "x.y",
    "@x",
    "await x",
    "yield",
    "...",
    "b''",
    "1j",
    "getattr(x,'y')",
    "eval('1')",
    "vars()",
    "globals()",
    "type(x)",
    "open('/etc/passwd')",
    "print(1)",
    "exit()",
    "breakpoint()",
    "\uff45\uff56\uff41\uff4c('1')",
    "\uff45\uff56\uff41\uff4c(1)",
    "1if 1else 2",
    "0_0",
    "1\x00",
    '"\\ud800"',
    '"\ud800"',
    "\ud800",
    "#",
    "\\",
    "\n",
    "1\n+ 1",
    "bore\t",
    ";",
    "import sys",
    "x=1",
    "1==1.0",
    "9**9**9",
    "9**9**8",
    "2**-1e9",
    "1<<25000",
    "1>>25000",
    "'text'*50000",
    "50000*'a'",
    "[0]*10**9",
    '(1).from_bytes(("1"*9).encode()*999999,"big")',
    "(" * 201 + "1" + ")" * 201,
    "-" * 100_000 + "1",
    "+".join(["1"] * 5000),
    "0x" + "f" * 1_000_000,
    "1" * 1_000_000,
    "sum(sum(1))",
    "sum(sum(..))",
    "not " * 100 + "1 < 2",
    "-" * 33 + "bore",
    "abs(" * 40 + "1" + ")" * 40,
    "1e400",
    "1E+9999999",
    "",
    "   ",
    "to",
    "and",
    "1 2",
    "bore stroke",
    "bore(1)",
    "min",
    "min()",
    "sin(1 deg, 2 deg)",
    "1 mm,",
    "(1 mm",
    "1 mm)",
    "1 < 2 < 3",
    "(1 < 2) + 1",
    "bore and stroke",
    "not bore",
    ".5 mm",
    "5. mm",
    "_bore",
    "Bore",
    "10 % 3",
    "bore ^ 2",
    "1.2.3",
    "{bore}",
    "$bore",
    "bore!",
    "`id`",
    "\u202ebore",
]


@pytest.mark.parametrize("text", ATTACKS, ids=lambda text: ascii(text)[:40])
def test_whatever_is_not_in_the_grammar_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(Misread) as refused:
        read(text)
    assert len(refused.value.wrong.split()) >= 3
    assert refused.value.way_out.endswith(".")
    assert str(refused.value).isprintable()
    assert len(str(refused.value)) < 300


def test_infinity_is_a_name_like_any_other() -> None:
    assert read("inf - nan").names == ("inf", "nan")


@contextmanager
def watched() -> Iterator[list[str]]:
    """The names of the audit events that happen inside: files, programs, imports, sockets."""
    seen: list[str] = []
    _watchers.append(seen)
    try:
        yield seen
    finally:
        _watchers.remove(seen)


_watchers: list[list[str]] = []
_WATCHED = ("open", "exec", "import", "compile", "socket", "os.", "subprocess", "ctypes", "shutil")


def _hear(event: str, _: object) -> None:
    if event.startswith(_WATCHED):
        for seen in _watchers:
            seen.append(event)


sys.addaudithook(_hear)


def test_the_watch_hears_a_program_that_is_run() -> None:
    with watched() as seen:
        eval("1")
    assert seen


def read_watched(text: str) -> None:
    """Read a text in every way, and work it out with twos for its names; only refusals may come of it."""
    with watched() as seen:
        try:
            formula = read(text)
            if formula.is_question:
                holds(formula, lambda name: Decimal(2))
            else:
                evaluate(formula, lambda name: Decimal(2))
            read_comparison(text)
        except (Misread, Uncomputable):
            pass
    assert not seen


@pytest.mark.parametrize("text", ATTACKS, ids=lambda text: ascii(text)[:40])
def test_no_attack_opens_runs_or_imports_anything(text: str) -> None:
    read_watched(text)


@given(st.text())
def test_any_text_at_all_is_a_formula_or_is_refused(text: str) -> None:
    read_watched(text)


PIECES = st.sampled_from(
    ["bore", "2", "1.5 mm", "180 deg", "+", "-", "*", "/", "(", ")", "<", ">=", ",", "and", "or", "not", "to", "min",
     "sqrt", "sin", "abs(", "max(", "__", ".", "'", "**", "0", "1e9", " ", "%", "lambda", "[", "=", "K", "eval("]
)  # fmt: skip


@given(st.lists(PIECES, max_size=30), st.sampled_from(["", " "]))
def test_any_heap_of_tokens_is_a_formula_or_is_refused(pieces: list[str], between: str) -> None:
    read_watched(between.join(pieces))


# What it says.
def test_the_figures_of_a_block_come_out() -> None:
    # Common practice, no source: 228 - 0.5 - 45 - 148; the web between two bores; the pitch circle of five bolts.
    assert shown("deck_height - deck_clearance - stroke / 2 - rod", "mm") == "34.5 mm"
    assert shown("spacing - bore", "mm") == "10.0 mm"
    pitch_circle = float(evaluate(read("chord / sin(180 deg / bolts)"), value))
    assert pitch_circle == pytest.approx(0.0423 / math.sin(math.pi / 5), rel=1e-11)


def test_the_mean_speed_of_a_piston_needs_whole_turns() -> None:
    # 2 x 0.090 m x 8000/60 1/s = 24.0 m/s; without "/ 1 rev" the angle is left over, and 2 pi with it.
    assert shown("2 * stroke * speed / 1 rev", "m/s") == "24 m/s"
    assert kind("2 * stroke * speed / 1 rev") == read_quantity("1 m/s").dimension
    assert "compares a quantity in m s^-1 rad with a speed" in refusal("2 * stroke * speed < 25 m/s").wrong


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2 + 3 * 4", 14),
        ("(2 + 3) * 4", 20),
        ("8 - 3 - 2", 3),
        ("12 / 3 / 2", 2),
        ("12 / 3 * 2", 8),
        ("-3 + 5", 2),
        ("2 - -3", 5),
        ("-(2 - 5)", 3),
        ("- -3", 3),
        ("2 * -3", -6),
        ("min(4, 2, 3) + max(4, 2)", 6),
        ("abs(2 - 5)", 3),
        ("sqrt(16)", 4),
        ("50 % * 8", 4),
        ("1.5e3 / 1e2", 15),
    ],
)
def test_sums_come_out_as_at_school(text: str, expected: int) -> None:
    assert evaluate(read(text), value) == expected


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("5 mm", "mm", "5.0 mm"),
        ("5mm", "mm", "5.0 mm"),
        ("1 in + 1 mm", "mm", "26.4 mm"),
        ("20 m/s", "m/s", "20 m/s"),
        ("3 N m + 2 J", "N m", "5 N m"),
        ("22.4 um/m K * 100 mm * 80 K", "mm", "0.179 mm"),
        ("8 mm2 / 2 mm", "mm", "4.0 mm"),
        ("-15 C + 35 K", "C", "20 C"),
        ("90 C - -15 C", "K", "105 K"),
        ("212 F - 32 F", "K", "100 K"),
        ("max(water, oil) - 20 C", "K", "90 K"),
        ("6 mm/bolts", "mm", "1.2 mm"),
        ("0.06 m/stroke * 3 mm", "mm", "2.0 mm"),
        ("1.2 bar gauge", "bar", "1.2 bar"),
    ],
)
def test_a_number_carries_its_unit(text: str, unit: str, expected: str) -> None:
    assert shown(text, unit) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("bore >= 84 mm", True),
        ("bore > 84 mm", False),
        ("bore <= 84 mm", True),
        ("bore < 84 mm", False),
        ("bore < 84 mm or boost > 1.2 bar and bolts >= 5", True),
        ("(bore < 84 mm or boost > 1.2 bar) and bolts > 5", False),
        ("not bore < 84 mm", True),
        ("not not bore < 84 mm", False),
        ("not (bore < 84 mm or bolts < 5)", True),
        ("water > 80 C", True),
        ("1 / 3 + 1 / 3 + 1 / 3 >= 1", True),
    ],
)
def test_a_question_is_answered(text: str, expected: bool) -> None:
    assert yes(text) is expected
    assert kind(text) is BOOLEAN


# Values at their limit. Binary floats miss the fourth (0.1 + 0.2 > 0.3 in them), 28 digits alone miss the last two.
@pytest.mark.parametrize(
    ("figure", "limit"),
    [
        ("93.9 mm - 89.9 mm", ">= 4.0 mm"),
        ("(90.0 mm - 85.0 mm) / 2", ">= 2.5 mm"),
        ("228.0 mm - 0.5 mm - 48.5 mm - 148.0 mm", ">= 31.0 mm"),
        ("(0.1 + 0.2) * 25 % / 0.3", "<= 25.0 %"),
        ("1 in * 4 / 4", "25.4 mm to 26 mm"),
        ("2 mm / 3 * 3", ">= 2 mm"),
        ("1 / 3 + 1 / 3 + 1 / 3", "<= 1"),
    ],
)
def test_a_value_at_its_limit_is_within_it(figure: str, limit: str) -> None:
    at = evaluate(read(figure), value)
    assert compares(read_comparison(limit), at, value)
    assert compares(read_comparison(limit), at * (1 + Decimal("1e-13")), value)
    open_limit = limit.replace("=", "")
    if open_limit != limit:
        assert not compares(read_comparison(open_limit), at, value)
        assert not compares(read_comparison(limit), at * (1 + (1 if "<" in limit else -1) * Decimal("1e-9")), value)


def test_a_comparison_has_a_bound_below_or_above_or_both() -> None:
    def within(text: str, held: str) -> bool:
        return compares(read_comparison(text), read_quantity(held).value, value)

    assert [within("0.0 mm to 0.75 mm", held) for held in ("-0.01 mm", "0 mm", "0.75 mm", "0.76 mm")] == [0, 1, 1, 0]
    assert [within("< 4.0 mm", held) for held in ("3.9 mm", "4 mm")] == [True, False]
    assert [within("> bore - 2 mm", held) for held in ("82 mm", "82.1 mm")] == [False, True]
    assert [within("-15 C to 40 C", held) for held in ("-16 C", "-15 C", "40 C", "41 C")] == [0, 1, 1, 0]
    assert read_comparison("bore to stroke + bore").names == ("bore", "stroke")


@pytest.mark.parametrize(
    "text", ["3 mm", "", "= 3 mm", "== 3 mm", ">= 3 mm, 4 mm", ">= 1 mm to 3 mm", "1 mm to 2 mm to 3 mm", "to 3 mm",
             ">=", "> bore < stroke", ">= (1 < 2)", "<< 3 mm", "1 mm .. 3 mm", "!= 3 mm"]
)  # fmt: skip
def test_a_comparison_that_compares_nothing_or_too_much_is_refused(text: str) -> None:
    with pytest.raises(Misread) as refused:
        read_comparison(text)
    assert refused.value.way_out


def test_names_are_listed_once_in_the_order_of_the_text() -> None:
    assert read("rod - bore / (stroke - rod) * min(bore, deck_height)").names == (
        "rod",
        "bore",
        "stroke",
        "deck_height",
    )


# What dimensions say.
@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("bore + mass", "'mass' is a mass and cannot be added to a length"),
        ("bore * bore - stroke", "'stroke' is a length and cannot be taken from an area"),
        ("bore + 1", "'1' is a plain number and cannot be added to a length"),
        ("bore > 84", "'bore > 84' compares a length with a plain number"),
        ("water + oil", "'water + oil' adds two temperatures"),
        ("20 K - water", "'water' is a temperature and cannot be taken from a difference of temperatures"),
        ("2 * water", "'water' is a temperature on a scale, which cannot be multiplied, divided or turned round"),
        ("-water", "'water' is a temperature on a scale, which cannot be multiplied, divided or turned round"),
        ("water > 80 K", "'water > 80 K' compares a temperature with a difference of temperatures"),
        ("sin(30)", "'sin(30)': it is given a plain number, not an angle"),
        ("sqrt(bore)", "'sqrt(bore)': a length has no square root"),
        ("min(bore, mass)", "'min(bore, mass)': it compares a length with a mass"),
        ("abs(water)", "'abs(water)': it is given a temperature on a scale"),
        ("not (bore > 1 mm and mass > 1 mm)", "'mass > 1 mm' compares a mass with a length"),
    ],
)
def test_what_does_not_go_together_is_refused(text: str, wrong: str) -> None:
    assert refusal(text).wrong == wrong


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("bore * stroke", AREA),
        ("sqrt(bore * stroke)", LENGTH),
        ("bore / stroke", NUMBER),
        ("boost * bore * bore", FORCE),
        ("water - oil", DIFFERENCE),
        ("water - oil + water", TEMPERATURE),
        ("min(water, 80 C)", TEMPERATURE),
        ("sin(180 deg / bolts) * speed", TURNING),
        ("-boost", PRESSURE),
    ],
)
def test_a_formula_has_the_dimension_of_its_result(text: str, expected: Dimension) -> None:
    assert kind(text) == expected


def test_a_bound_is_of_the_kind_that_it_bounds() -> None:
    check_comparison(read_comparison("bore to 90 mm"), LENGTH, KINDS.__getitem__)
    with pytest.raises(Misread, match="'90 kg' is a mass, and is compared with a length"):
        check_comparison(read_comparison("bore to 90 kg"), LENGTH, KINDS.__getitem__)


# What cannot be worked out.
@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("1 / 0", "divides by zero"),
        ("0 / (bolts - 5)", "divides by zero"),
        ("1 / sin(180 deg)", "divides by zero"),
        ("tan(90 deg)", "divides by zero"),
        ("sqrt(0 - 1)", "takes the root of a negative number"),
        ("1e15 * 1e15 * 1e15 * 1e15 * 1e15 * 1e15 * 1e15", "grows beyond all bounds"),
    ],
)
def test_what_has_no_value_is_said_in_words(text: str, wrong: str) -> None:
    with pytest.raises(Uncomputable, match=f"{wrong}$"):
        evaluate(read(text), value)


def test_a_question_that_cannot_be_worked_out_says_so_too() -> None:
    with pytest.raises(Uncomputable, match="divides by zero"):
        yes("1 / 0 > 2")


def test_a_missing_value_is_the_callers_affair() -> None:
    with pytest.raises(KeyError):
        evaluate(read("bore + gasket"), value)


def test_names_that_double_sixty_times_cost_one_sum_each() -> None:
    """Figures of figures: a1 = a0 + a0 and so on are worked out by a caller that remembers, as the program does."""
    known = {"a0": Decimal(1)}

    def remembered(name: str) -> Decimal:
        if name not in known:
            before = f"a{int(name[1:]) - 1}"
            known[name] = evaluate(read(f"{before} + {before}"), remembered)
        return known[name]

    assert remembered("a60") == 2**60


def test_the_longest_and_the_deepest_formula_are_worked_out() -> None:
    assert evaluate(read("+".join(["1"] * 500)), value) == 500
    assert evaluate(read("(" * 31 + "-" + "bolts" + ")" * 31), value) == -5
    assert yes("not " * 32 + "bolts > 4")


# Functions.
@given(st.decimals(min_value=-400, max_value=400, places=2))
def test_sines_are_those_of_the_mathematics_library(degrees: Decimal) -> None:
    radians = math.radians(degrees)
    for name in ("sin", "cos"):
        text = f"{name}({degrees:f} deg)"
        assert float(evaluate(read(text), value)) == pytest.approx(getattr(math, name)(radians), rel=1e-11, abs=1e-15)


def test_an_engineering_function_takes_floats_and_gives_twelve_digits(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(FUNCTIONS, "circle", of_floats([LENGTH], AREA, lambda d: math.pi * d * d / 4))
    assert str(evaluate(read("circle(bore)"), value)) == "0.00554176944093"
    assert dimension_of(read("circle(bore)"), KINDS.__getitem__) == AREA
    with pytest.raises(Misread, match=r"'circle\(mass\)': its argument 1 is a mass, where a length is wanted"):
        dimension_of(read("circle(mass)"), KINDS.__getitem__)


@pytest.mark.parametrize("work", [math.log, lambda x: math.inf, lambda x: 1 / x, lambda x: math.exp(1e9 + x)])
def test_an_engineering_function_without_a_result_is_uncomputable(
    work: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert callable(work)
    monkeypatch.setitem(FUNCTIONS, "trouble", of_floats([NUMBER], NUMBER, work))
    with pytest.raises(Uncomputable):
        evaluate(read("trouble(0 * 1)"), value)


# An independent reckoning: the same tree written for Python's exact fractions.
LEAVES = st.integers(1, 99).map(lambda n: (f"{n / 10}", Fraction(n, 10)))


def _joined(parts: st.SearchStrategy[tuple[str, Fraction]]) -> st.SearchStrategy[tuple[str, Fraction]]:
    def join(left: tuple[str, Fraction], sign: str, right: tuple[str, Fraction]) -> tuple[str, Fraction]:
        assume(sign != "/" or right[1] != 0)
        work = {"+": Fraction.__add__, "-": Fraction.__sub__, "*": Fraction.__mul__, "/": Fraction.__truediv__}
        return f"({left[0]} {sign} {right[0]})", work[sign](left[1], right[1])

    return st.builds(join, parts, st.sampled_from("+-*/"), parts)


@given(st.recursive(LEAVES, _joined, max_leaves=12))
def test_sums_agree_with_exact_fractions(sum_: tuple[str, Fraction]) -> None:
    text, exact = sum_
    assert float(evaluate(read(text), value)) == pytest.approx(float(exact), rel=1e-12, abs=1e-18)


@given(st.recursive(LEAVES, _joined, max_leaves=8), st.integers(1, 9))
def test_the_callers_own_decimal_context_changes_no_sum(sum_: tuple[str, Fraction], digits: int) -> None:
    formula = read(sum_[0])
    with localcontext() as context:
        context.prec = digits
        inside = evaluate(formula, value)
    assert inside == evaluate(formula, value)
