"""What the shell offers while a command is typed: families, choices, options, duties. Only names that every reader may know."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

import click
from click.shell_completion import CompletionItem

from configurator.catalogue.shops import Family, Shop


def complete_pick(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """`choice=` and then its options. Some shells cut a word at its `=`: then what is left of it stands among the words before."""
    shop = _shop(ctx)
    families = _families(ctx, shop) if shop else []
    choice, cut, start = incomplete.partition("=")
    before = [str(word) for word in ctx.params.get("words") or ()]
    if not cut and before and before[-1].endswith("="):
        return _items(_options(families, "".join(before)[:-1].split("=")[-1]), incomplete)
    if not cut and len(before) > 1 and before[-1] == "=":
        return _items(_options(families, before[-2]), incomplete)
    if cut:
        return _items((f"{choice}={option}" for option in _options(families, choice)), incomplete)
    return _items((f"{id}=" for family in families for id in family.choices), incomplete) + _files(incomplete)
