"""From what was typed to an enquiry on the desk: which shop answers, what the words mean, which day it is there."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from datetime import date, datetime
from pathlib import Path
from typing import NamedTuple

from configurator.catalogue.shops import Family, Shop
from configurator.cli.flags import Asked, Manner, word_fault
from configurator.cli.page import notice
from configurator.desk import Desk, open_shop
from configurator.enquiry import Enquiry
from configurator.faults import Fault, Faulty
from configurator.load.sheets import COMMAND_LINE
from configurator.shipped import demo_folder

DEMO = "tarnwick"
STANDARD_INPUT = "standard input"
LARGEST = 1 << 20
"""Bytes of an enquiry; more is read by mistake."""


class Call(NamedTuple):
    """One caller at the desk."""

    desk: Desk
    enquiry: Enquiry
    today: date
    manner: Manner

    @property
    def shop(self) -> Shop:
        """The shop that answers."""
        return self.desk.shop

    @property
    def family(self) -> Family:
        """The family that is asked for."""
        return self.desk.shop.families[self.enquiry.family]


def take_call(manner: Manner, asked: Asked, desk: Desk | None = None) -> Call:
    """Open the shop and read the enquiry; notices go to the error stream. Faulty with every fault of either."""
    from configurator.load.enquiry import Spoken, gather

    desk = desk or open_desk(manner)
    picks, texts, codes = sorted_out(asked.words)
    spoken = Spoken(
        words=picks,
        measured=asked.measured,
        looked=asked.looked,
        assumed=asked.assumed,
        duty=asked.duty,
        without=asked.without,
        family=asked.family,
        quantity=asked.quantity,
        customer=asked.customer,
    )
    enquiry, notices = gather(desk.shop, texts, codes, spoken)
    for text in notices:
        notice(text)
    if asked.list:
        enquiry = enquiry._replace(list=_price_list(desk.shop.families[enquiry.family], asked.list))
    return Call(desk, enquiry, asked.date or today_at(desk.shop), manner)


def open_desk(manner: Manner) -> Desk:
    """Open the shop that the call is for."""
    folder, is_demo = find_shop(manner.shop)
    desk = open_shop(folder)
    if is_demo:
        notice(f"No shop here: this is {desk.shop.name}, and nothing in it is real.")
    return desk


def find_shop(named: str = "", here: Path | None = None) -> tuple[Path, bool]:
    """The folder named, else the nearest upward with a shop.toml, else the demo's; and whether it is the demo."""
    if named:
        folder = Path(named)
        if (folder / "shop.toml").is_file():
            return folder, False
        wrong = "is no folder" if not folder.is_dir() else "has no shop.toml"
        raise word_fault("--shop", f"{named} {wrong}", "name a shop's folder, or make one: blocks shop new DIR")
    here = here or Path(os.getcwd())
    for folder in (here, *here.parents):
        if (folder / "shop.toml").is_file():
            return folder, False
    return demo_folder() / DEMO, True


def sorted_out(words: Iterable[str]) -> tuple[tuple[str, ...], list[tuple[str, bytes]], tuple[str, ...]]:
    """Words as picks, enquiries (name, text) and build codes. Faulty for every word that is none of them."""
    picks, texts, codes, faults = [], [], [], []
    for word in words:
        if is_pick(word):
            picks.append(word)
        elif word == "-":
            texts.append((STANDARD_INPUT, sys.stdin.buffer.read(LARGEST + 1)))
        elif _looks_like_a_path(word):
            try:
                texts.append((word, _read(word)))
            except OSError as error:
                faults.append(Fault(COMMAND_LINE, word, error.strerror or "cannot be read", "name an enquiry file"))
        else:
            codes.append(word)
    if faults:
        raise Faulty(faults)
    return tuple(picks), texts, tuple(codes)


def is_pick(word: str) -> bool:
    """Whether a word is `choice=option`; a file that is there by that name wins."""
    return "=" in word and not os.path.exists(word)


def _looks_like_a_path(word: str) -> bool:
    return word.endswith(".toml") or os.sep in word or os.path.exists(word)


def _read(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read(LARGEST + 1)


def _price_list(family: Family, id: str) -> str:
    known = [prices.id for prices in family.price_lists]
    if id in known:
        return id
    from configurator.load.words import suggest

    raise word_fault("--list", f"there is no price list {id!r}", suggest(id, known, "price lists"))


def today_at(shop: Shop) -> date:
    """The date where the shop is. Faulty where nobody knows its zone."""
    from zoneinfo import ZoneInfo

    try:
        return datetime.now(ZoneInfo(shop.zone)).date()
    except (KeyError, ValueError, OSError):
        way_out = "write it like Europe/London, or say --date"
        wrong = f"{shop.zone!r} is no time zone that is known here"
        raise Faulty([Fault(shop.place, "zone", wrong, way_out)]) from None


def save_enquiry(call: Call, path: str, force: bool) -> None:
    """Write the enquiry so far to a file, where one is named. Refused where that cannot be done."""
    if path:
        from configurator.documents.saving import save
        from configurator.documents.toml_of import enquiry_toml

        save(Path(path), enquiry_toml(call.family, call.enquiry), force)
        notice(f"Saved {path}.")
