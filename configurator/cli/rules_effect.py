"""`blocks rules effect`: what an edit of a shop changes."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from configurator.cli.calls import find_shop, today_at
from configurator.cli.ends import CHANGED, DONE, NO, NOT_KNOWN
from configurator.cli.flags import Manner, a_day, for_the_shop, word_fault
from configurator.cli.page import page_width, show, write_json
from configurator.cli.progress import Progress

if TYPE_CHECKING:
    from configurator.review.consequences import Kept
    from configurator.review.effect import Effect

LARGEST = 1 << 22
"""Bytes of a kept quote; more is no quote of ours."""


@click.command()
@click.argument("old", metavar="OLD")
@click.argument("new", metavar="[NEW]", required=False)
@click.option("--quotes", metavar="DIR", help="A folder of quotes that were kept, as quote --json wrote them.")
@click.option("--date", "day", callback=a_day, metavar="DATE", help="The day whose price lists hold.")
@for_the_shop
def effect(manner: Manner, old: str, new: str | None, quotes: str | None, day: date | None) -> int:
    """What an edit changes: builds added and removed, counted exactly, with one of each; expected answers and kept
    quotes that come out otherwise; rules that became pointless and options that no build has any more.

    OLD and NEW are folders, or revisions in git of the shop's folder; without NEW it is the shop as it stands. The exit
    code is 0 where no answer changes, 5 where some do, 1 where an expected answer broke.
    """
    from configurator.cli.views.effect import effect_json, effect_page
    from configurator.review.effect import effect as effect_of
    from configurator.review.revisions import files_of

    folder, progress = find_shop(manner.shop)[0], Progress()
    progress("reading both versions")
    before, after = (files_of(named, folder).open() for named in (old, new or str(folder)))
    kept = _kept_in(Path(quotes)) if quotes else ()
    found = effect_of(before, after, day or today_at(after.shop), kept, progress)
    if manner.json:
        write_json(effect_json(found))
    else:
        show(effect_page(found, before.shop, after.shop, page_width()))
    return end_of(found)


def end_of(found: Effect) -> int:
    """The exit code of an effect."""
    if found.broke:
        return NO
    if found.unknown:
        return NOT_KNOWN
    return CHANGED if found.changed else DONE


def _kept_in(folder: Path) -> Iterator[Kept]:
    """The quotes of a folder, one at a time. Faulty where it is no folder, or holds what is no quote."""
    from configurator.review.consequences import read_kept

    if not folder.is_dir():
        raise word_fault("--quotes", f"{folder} is no folder", "name the folder in which quotes are kept")
    for path in sorted(folder.glob("*.json")):
        with path.open("rb") as file:
            data = file.read(LARGEST)
        try:
            document = json.loads(data)
        except ValueError:
            document = None
        yield read_kept(str(path), document)
