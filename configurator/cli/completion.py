"""What the shell offers while a command is typed: families, choices, options, duties.

Only names that every reader may know, so that nothing the shop keeps back can show in what is offered. A shop that
cannot be read offers nothing: completion is no place for a fault.
"""

from __future__ import annotations

import os
from collections.abc import Iterable

import click
from click.shell_completion import CompletionItem

from configurator.catalogue.shops import Family
from configurator.faults import Faulty

Items = list[CompletionItem]


def complete_pick(ctx: click.Context, param: click.Parameter, incomplete: str) -> Items:
    """`choice=`, and behind it the options.

    Some shells cut a word at its `=`. Then the choice stands among the words before, and only the option is completed.
    """
    families = _families(ctx)
    before = [str(word) for word in ctx.params.get("words") or ()]
    if "=" not in incomplete and before and before[-1].endswith("="):
        return _items(_options(families, "".join(before[-2:]).rstrip("=").rpartition("=")[2]), incomplete)
    choice, cut, _ = incomplete.partition("=")
    if cut:
        return _items((f"{choice}={option}" for option in _options(families, choice)), incomplete)
    words = (f"{id}=" for family in families for id in family.choices)
    return [*_items(words, incomplete), *_files(incomplete)]


def complete_choice(ctx: click.Context, param: click.Parameter, incomplete: str) -> Items:
    """The ids of choices."""
    return _items((id for family in _families(ctx) for id in family.choices), incomplete)


def complete_duty(ctx: click.Context, param: click.Parameter, incomplete: str) -> Items:
    """`duty=`; a number nobody can guess."""
    return _items((f"{id}=" for family in _families(ctx) for id in family.duties), incomplete)


def complete_family(ctx: click.Context, param: click.Parameter, incomplete: str) -> Items:
    """The ids of families."""
    return _items((family.id for family in _families(ctx)), incomplete)


def _families(ctx: click.Context) -> list[Family]:
    from configurator.cli.calls import find_shop
    from configurator.cli.flags import manner_of
    from configurator.desk import open_shop

    try:
        shop = open_shop(find_shop(manner_of(ctx).shop)[0]).shop
    except (Faulty, OSError):
        return []
    named = str(ctx.params.get("family") or "")
    return [family for id, family in shop.families.items() if id == named or named not in shop.families]


def _options(families: Iterable[Family], choice: str) -> list[str]:
    return [option.id for family in families if choice in family.choices for option in family.choices[choice].options]


def _items(words: Iterable[str], incomplete: str) -> Items:
    return [CompletionItem(word) for word in dict.fromkeys(words) if word.startswith(incomplete)]


def _files(incomplete: str) -> Items:
    """Enquiry files, for a word that looks like the start of a path."""
    return [CompletionItem(incomplete, type="file")] if os.sep in incomplete or incomplete.startswith(".") else []
