"""What a caller said, in the order said, before anybody looks at what it means: from a file, or in words and flags."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import Any, NamedTuple

from configurator.enquiry import EVIDENCE, Extra
from configurator.faults import Fault, Faulty, Place
from configurator.load.text import Path, read_toml
from configurator.load.words import alike, suggest
from configurator.money import minor_digits, read_amount
from configurator.units import Misread

COMMAND_LINE = Place("the command line")
LONGEST_TEXT = 500
MOST_BLOCKS = 10_000

KEYS = ("family", "customer", "quantity", "list", "have", "want", "duty", "extra")
EXTRA_KEYS = ("text", "amount", "reason", "by")


def _command_line() -> Place:
    return COMMAND_LINE


class Spoken(NamedTuple):
    """Words and flags: picks like "cooling=solid", "crank_flange.chord=42.3 mm,bolts=5", and how they are known."""

    words: tuple[str, ...] = ()
    measured: tuple[str, ...] = ()
    looked: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    duty: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    family: str = ""
    quantity: int | None = None
    customer: str = ""


class Told(NamedTuple):
    """One thing said of one choice: a word or a number in `value`, or measurements by name.

    `asks` is the heading it stood under ("have", "want", "" for words); `known` the evidence if it was said. `where`
    finds the line only when somebody wants it, since that is slow; `file` is known at once.
    """

    name: str
    value: Any
    file: str
    where: Callable[[], Place]
    key: str
    asks: str = ""
    known: str = ""


class Sheet(NamedTuple):
    """All that one source says."""

    family: str = ""
    picks: tuple[Told, ...] = ()
    duty: tuple[Told, ...] = ()
    extras: tuple[Extra, ...] = ()
    quantity: int | None = None
    customer: str = ""
    list: str = ""
    where: Callable[[], Place] = _command_line


def sheet_of_text(name: str, data: bytes, currency: str) -> Sheet:
    """An enquiry file; its extra lines are in the currency. Faulty with all that is out of shape."""
    document = read_toml(name, data)
    return sheet_of_data(document.data, name, document.place, currency)


def sheet_of_data(data: Mapping[str, Any], file: str, place: Callable[[Path], Place], currency: str) -> Sheet:
    """The plain form of an enquiry file; `place` finds where a key stands. Faulty with all that is out of shape."""
    reading = _SheetReading(data, file, place, currency)
    sheet = reading.sheet()
    if reading.faults:
        raise Faulty(reading.faults)
    return sheet


class _SheetReading:
    """One enquiry file on its way into a sheet, all faults gathered."""

    def __init__(self, data: Mapping[str, Any], file: str, place: Callable[[Path], Place], currency: str) -> None:
        self.data, self.file, self.place, self.currency = data, file, place, currency
        self.faults: list[Fault] = []

    def sheet(self) -> Sheet:
        for key in self.data:
            if key not in KEYS:
                self.fault((key,), "is not a key that an enquiry knows", suggest(key, KEYS, "keys"))
        return Sheet(
            self.words("family"),
            (*self.told("have"), *self.told("want")),
            self.told("duty"),
            self.extras(),
            self.quantity(),
            self.words("customer"),
            self.words("list"),
            lambda: self.place(("family",)),
        )

    def fault(self, path: Path, wrong: str, way_out: str) -> None:
        key = ".".join(part for part in path if isinstance(part, str))
        self.faults.append(Fault(self.place(path), key, wrong, way_out))

    def words(self, key: str) -> str:
        value = self.data.get(key, "")
        if not isinstance(value, str) or len(value) > LONGEST_TEXT:
            way_out = f"write at most {LONGEST_TEXT} characters between quotes"
            self.fault((key,), "is not a text, or is a very long one", way_out)
            return ""
        return value

    def quantity(self) -> int | None:
        value = self.data.get("quantity")
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= MOST_BLOCKS:
            way_out = f"write a whole number from 1 to {MOST_BLOCKS:,}, without quotes"
            self.fault(("quantity",), "is not a number of blocks", way_out)
            return None
        return value

    def told(self, section: str) -> tuple[Told, ...]:
        table = self.data.get(section, {})
        if not isinstance(table, dict):
            self.fault((section,), "is not a table", f"write it under the heading [{section}]")
            return ()
        asks = "" if section == "duty" else section
        return tuple(told for name, value in table.items() if (told := self.one(section, asks, name, value)))

    def one(self, section: str, asks: str, name: str, value: Any) -> Told | None:
        path = (section, name)
        known = ""
        if isinstance(value, dict) and section != "duty":
            value = dict(value)
            known = value.pop("known", "")
            if asks == "want" and known:
                self.fault((*path, "known"), "is said of a want", "how a thing is known is said of a have")
            if known and known not in EVIDENCE:
                way_out = suggest(str(known), EVIDENCE, "kinds of evidence")
                self.fault((*path, "known"), "is no kind of evidence", way_out)
            if len(value) == 1 and not isinstance(value.get("is", {}), dict):
                value = value["is"]
            elif "is" in value or not value:
                self.fault(path, "says it twice, or not at all", 'write { is = "..." }, or measurements')
                return None
        values = value.values() if isinstance(value, dict) else [value]
        if (section == "duty" and isinstance(value, dict)) or not all(_is_plain(one) for one in values):
            self.fault(path, "is neither a text nor a number", 'write it between quotes: "22.1 mm"')
            return None
        known = known if isinstance(known, str) else ""
        return Told(name, value, self.file, lambda: self.place(path), ".".join(path), asks, known)

    def extras(self) -> tuple[Extra, ...]:
        tables = self.data.get("extra", [])
        if not isinstance(tables, list):
            self.fault(("extra",), "is not a list of lines", "write each under a heading of its own, [[extra]]")
            return ()
        return tuple(extra for number, one in enumerate(tables) if (extra := self.extra(("extra", number), one)))

    def extra(self, path: Path, table: Any) -> Extra | None:
        if not isinstance(table, dict) or not all(_is_filled(table.get(key)) for key in EXTRA_KEYS):
            wrong = "lacks one of text, amount, reason, by, or says it without quotes"
            self.fault(path, wrong, 'an extra line says all four, between quotes: amount = "180.00"')
            return None
        for key in table:
            if key not in EXTRA_KEYS:
                self.fault((*path, key), "is not a key that an extra line knows", suggest(key, EXTRA_KEYS, "keys"))
        if max(len(table[key]) for key in EXTRA_KEYS) > LONGEST_TEXT:
            self.fault(path, f"has a text of more than {LONGEST_TEXT} characters", "say it shorter")
        try:
            amount = read_amount(table["amount"])
        except Misread as trouble:
            self.fault((*path, "amount"), trouble.wrong, trouble.way_out)
            return None
        if amount != round(amount, minor_digits(self.currency)):
            self.fault((*path, "amount"), f"is finer than {self.currency} can be paid", "write fewer decimals")
        return Extra(table["text"], amount, table["reason"], table["by"], Place(self.file))


def _is_filled(value: Any) -> bool:
    return isinstance(value, str) and bool(value.strip())


def _is_plain(value: Any) -> bool:
    return isinstance(value, (str, int, Decimal)) and not isinstance(value, bool)


def _can_be_saved(text: str) -> bool:
    """Whether an enquiry file could hold the text. Bytes on the command line that are no UTF-8 come in as half
    characters (PEP 383).
    """
    return len(text) <= LONGEST_TEXT and not any("\ud800" <= mark <= "\udfff" for mark in text)


def _not_saved(key: str) -> Fault:
    wrong = f"is longer than {LONGEST_TEXT} characters, or holds bytes that are no UTF-8"
    return Fault(COMMAND_LINE, key, wrong, "write it once more, shorter")


def sheet_of_words(spoken: Spoken) -> Sheet:
    """Words and flags. Faulty for those that are not of the form choice=option."""
    faults: list[Fault] = []

    def heard(words: Sequence[str], flag: str, known: str) -> list[Told]:
        return [told for word in words for told in _heard(word, flag, known, faults)]

    picks = heard(spoken.words, "", "")
    for known in ("assumed", "looked", "measured"):
        picks += heard(getattr(spoken, known), f"--{known}", known)
    duty = heard(spoken.duty, "--duty", "")
    if spoken.quantity is not None and not 1 <= spoken.quantity <= MOST_BLOCKS:
        wrong = f"{spoken.quantity} is not a number of blocks"
        faults.append(Fault(COMMAND_LINE, "--quantity", wrong, f"write a whole number from 1 to {MOST_BLOCKS:,}"))
    if not _can_be_saved(spoken.customer):
        faults.append(_not_saved("--customer"))
    if faults:
        raise Faulty(faults)
    return Sheet(spoken.family, tuple(picks), tuple(duty), (), spoken.quantity, spoken.customer)


def _heard(word: str, flag: str, known: str, faults: list[Fault]) -> list[Told]:
    """One word: "choice=option", or "choice.measure=value,measure=value"."""
    name, sign, value = word.partition("=")
    if not _can_be_saved(word):
        faults.append(_not_saved(flag or name[:40]))
        return []
    name, _, measure = name.strip().partition(".")
    if not sign or not name or not value.strip():
        wrong = f"{word} is not of the form name=value"
        faults.append(Fault(COMMAND_LINE, flag or word, wrong, "write it like cooling=dry_deck"))
        return []
    if not measure:
        return [Told(name, value.strip(), COMMAND_LINE.file, _command_line, flag or name, "", known)]
    parts = re.split(r",\s*(?=[A-Za-z_]\w*\s*=)", f"{measure}={value}")
    pairs = [part.partition("=") for part in parts]
    values = {alike(key).replace(" ", "_"): text.strip() for key, _, text in pairs}
    return [Told(name, values, COMMAND_LINE.file, _command_line, flag or name, "", known)]
