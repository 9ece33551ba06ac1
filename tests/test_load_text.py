"""Whatever the bytes of a file, reading it ends soon, in data or in faults with file and line.

Held against what the standard library's parser was seen to do (Python 3.11): it takes nan and infinity, numbers of
any length in hexadecimal, keys of any depth in quadratic time, brackets until the stack ends; `ValueError` and
`RecursionError` come through. What is TOML and what is not follows the TOML 1.0 specification, toml.io.
"""

from __future__ import annotations

import tomllib
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.faults import Fault, Faulty
from configurator.load.text import DEEPEST_KEY, LARGEST, read_toml


def faults_of(data: bytes | str) -> tuple[Fault, ...]:
    """The faults of a file; none where it reads."""
    try:
        read_toml("water.toml", data.encode() if isinstance(data, str) else data)
    except Faulty as faulty:
        return faulty.faults
    return ()


NOT_TOML = {
    "a key without a value": "a =",
    "a value without a key": "= 1",
    "no equals sign": "a 1",
    "a key twice": "a = 1\na = 2",
    "a table twice": "[a]\n[a]",
    "a table over a value": "a = 1\n[a]",
    "a list over a table": "[a]\n[[a]]",
    "a table head left open": "[a",
    "a list head left open": "[[a]",
    "a table head with nothing in it": "[]",
    "a text left open": 'a = "b',
    "a text over two lines": 'a = "b\nc"',
    "a long text left open": 'a = """b\nc',
    "a long plain text left open": "a = '''b\nc",
    "an unknown escape": 'a = "\\q"',
    "half a character": 'a = "\\ud800"',
    "an escape cut short": 'a = "\\u12"',
    "a control character in a text": 'a = "\x01"',
    "a control character in a comment": "# \x01",
    "a list left open": "a = [1, 2",
    "a list without commas": "a = [1 2]",
    "a table in line left open": "a = { b = 1",
    "a table in line over two lines": "a = { b = 1,\n c = 2 }",
    "a table in line with a comma at its end": "a = { b = 1, }",
    "a table in line extended": "a = { b = 1 }\na.c = 2",
    "a number with a leading nought": "a = 012",
    "a number with two points": "a = 1.2.3",
    "a number that ends in a point": "a = 1.",
    "a number that ends in an underscore": "a = 1_",
    "a comma in a number": "a = 1,5",
    "two values": "a = 1 2",
    "True for true": "a = True",
    "a word as a value": "a = yes",
    "a day that no month has": "a = 2026-02-30",
    "an hour that no day has": "a = 25:00:00",
    "digits of another script": "a = \uff11\uff12",
    "a key of another script": "\u00e4 = 1",
    "a bare carriage return": "a = 1\rb = 2",
    "a no-break space": "a\u00a0= 1",
    "JSON": '{"a": 1}',
    "YAML": "a: 1\nb:\n  - c",
    "INI": "[a]\nb = c d",
}


@pytest.mark.parametrize("text", NOT_TOML.values(), ids=NOT_TOML.keys())
def test_what_is_not_toml_is_a_fault_with_its_line(text: str) -> None:
    with pytest.raises((tomllib.TOMLDecodeError, ValueError)):
        tomllib.loads(text)
    (fault,) = faults_of(text)
    assert fault.place.file == "water.toml"
    assert 1 <= fault.place.line <= text.count("\n") + 1
    assert fault.way_out


HOSTILE: dict[str, bytes] = {
    "nan": b"a = nan",
    "negative nan in a list": b"a = [1.0, -nan]",
    "infinity": b"a = inf",
    "negative infinity": b"a = { b = -inf }",
    "1e400": b"a = 1e400",
    "1E+9999999": b"a = 1E+9999999",
    "1E-9999999": b"a = 1e-9999999",
    "two to the power of 63": b"a = 9223372036854775808",
    "the least of 64 bits": b"a = -9223372036854775808",
    "5,000 digits": b"a = " + b"9" * 3900 + b"\nb = 1",
    "a million hexadecimal digits": b"a = 0x" + b"f" * 1_000_000,
    "a long line of hexadecimal digits": b"a = 0x" + b"f" * 3900,
    "a long fraction": b"a = 0." + b"1" * 3900,
    "500 nested lists": b"a = " + b"[" * 500 + b"]" * 500,
    "100,000 open brackets": b"[" * 100_000,
    "nested lists on lines of their own": b"a = " + b"[\n" * 5000 + b"]\n" * 5000,
    "nested tables in line": b"a = " + b"{ b = " * 600 + b"1" + b" }" * 600,
    "a dotted key of 20,000 parts": b".".join([b"a"] * 20_000) + b" = 1",
    "a dotted key of 300 parts": b".".join([b"a"] * 300) + b" = 1",
    "a dotted key of quoted parts": b".".join([b'"a"'] * 300) + b" = 1",
    "a dotted key with spaces": b" . ".join([b"a"] * 300) + b" = 1",
    "a dotted table head of 300 parts": b"[" + b".".join([b"a"] * 300) + b"]",
    "2,000 tables of 300 parts": b"\n".join(b"[" + b".".join([b"a%d" % n] * 300) + b"]" for n in range(700)),
    "a dotted key in a table in line": b"a = { " + b".".join([b"b"] * 300) + b" = 1 }",
    "more than a mebibyte": b"# " + b"\n" * LARGEST,
    "100,000 tables": b"[[a]]\n" * 100_000,
    "200,000 numbers": b"a = [" + b"1,\n" * 200_000 + b"]",
    "a line of 10,000 characters": b"a = '" + b"x" * 10_000 + b"'",
    "a byte order mark": b"\xef\xbb\xbfa = 1",
    "UTF-16": "a = 1".encode("utf-16"),
    "Latin-1": "a = 'M\u00fcller'".encode("latin-1"),
    "a NUL": b"a = 1\x00",
    "nothing but NULs": b"\x00" * 1000,
    "a quote that is never closed, again and again": b'"""' + b'\\"""' * 100_000,
    "backslashes without end": b'a = "' + b"\\" * 3000,
    "an ELF head": b"\x7fELF\x02\x01\x01\x00",
}


@pytest.mark.parametrize("data", HOSTILE.values(), ids=HOSTILE.keys())
def test_what_would_hang_or_mislead_is_a_fault_in_this_file(data: bytes) -> None:
    faults = faults_of(data)
    assert faults
    for fault in faults:
        assert fault.place.file == "water.toml"
        assert fault.wrong
        assert fault.way_out
        assert len(str(fault)) < 400


def test_a_number_is_named_with_its_key_and_line() -> None:
    (fault,) = faults_of("a = 1\n[b]\nc = [{ d = nan }]\n")
    assert (str(fault.place), fault.key) == ("water.toml:3", "b.c.d")


def test_the_place_that_the_parser_gives_becomes_the_place_of_the_fault() -> None:
    (fault,) = faults_of("a = 1\nb = 2 3\n")
    assert (fault.place.line, fault.place.column) == (2, 7)
    assert "(at line" not in fault.wrong


def test_bytes_that_are_no_text_are_told_by_line_and_column() -> None:
    (fault,) = faults_of(b"a = 1\nb = '\xff'")
    assert (fault.place.line, fault.place.column) == (2, 6)


def test_quotes_and_comments_may_hold_what_keys_may_not() -> None:
    dots = ".".join(["a"] * 100)
    text = f'a = "{dots} [[[[[[[[[[[[[[[[[[[[[[" # {dots} {"[" * 100}\nb = """{dots}\n""" # it\'s\nc = \'{dots}"\'\n'
    assert read_toml("water.toml", text.encode()).data["a"].startswith("a.a.a")


@pytest.mark.parametrize("parts", [DEEPEST_KEY, DEEPEST_KEY + 1])
def test_a_key_may_have_so_many_parts_and_no_more(parts: int) -> None:
    assert bool(faults_of(".".join(["a"] * parts) + " = 1")) is (parts > DEEPEST_KEY)


def test_fractions_are_decimals_and_windows_line_ends_are_line_ends() -> None:
    document = read_toml("water.toml", b"a = 0.1\r\nb = [1,\r\n 2]\r\n")
    assert document.data == {"a": Decimal("0.1"), "b": [1, 2]}


def test_every_key_and_table_has_its_line_and_column() -> None:
    text = (
        'family = "x"\n'
        "[shop]\n"
        "a.b = 1\n"
        '"two words" = "\\n"\n'
        "[[choice]]\n"
        '"é" = 1\n'
        "[[choice]]\n"
        'x = { "é" = "ü", y = [ { z = 1 }, # one\n'
        "   { z = 2 } ] }\n"
        "[[choice.option]]\n"
        "[choice.option.facts]\n"
        "mass = 1\n"
        "[[choice.option]]\n"
        "  id = 1\n"
    )
    document = read_toml("water.toml", text.encode())
    at = {
        ("family",): (1, 1),
        ("shop",): (2, 1),
        ("shop", "a", "b"): (3, 1),
        ("shop", "two words"): (4, 1),
        ("choice", 0): (5, 1),
        ("choice", 0, "é"): (6, 1),
        ("choice", 1): (7, 1),
        ("choice", 1, "x", "y"): (8, 18),
        ("choice", 1, "x", "y", 1, "z"): (9, 6),
        ("choice", 1, "option", 0, "facts", "mass"): (12, 1),
        ("choice", 1, "option", 1): (13, 1),
        ("choice", 1, "option", 1, "id"): (14, 3),
        ("choice", 1, "option", 1, "label"): (13, 1),
    }
    assert {path: document.place(path)[1:] for path in at} == at


@given(st.text(alphabet="ab.[]{}='\"#\\\n ,1-+_e\tü\r", max_size=80))
def test_any_text_gives_what_the_standard_parser_gives_or_a_fault(text: str) -> None:
    try:
        expected: Any = tomllib.loads(text, parse_float=Decimal)
    except (ValueError, RecursionError):
        expected = None
    try:
        found: Any = read_toml("water.toml", text.encode()).data
    except Faulty as faulty:
        found = None
        assert all(fault.place.file == "water.toml" and fault.place.line >= 1 for fault in faulty.faults)
    if expected is None:
        assert found is None
    else:
        assert found is None or found == expected


@given(st.binary(max_size=200))
def test_any_bytes_give_data_or_a_fault(data: bytes) -> None:
    assert isinstance(faults_of(data), tuple)
