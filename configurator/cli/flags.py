"""Flags that many commands share. What they say is gathered in two values: `Manner` (how to answer, and from which
shop) and `Asked` (what the caller wants). The flags of manner may stand before the command or behind it.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import date
from functools import update_wrapper
from typing import Any, NamedTuple

import click

from configurator.faults import Fault, Faulty, Place
from configurator.load.sheets import COMMAND_LINE

Function = Callable[..., Any]


class Manner(NamedTuple):
    """Which shop answers (a folder, or "" for the nearest), to whom, and in which form."""

    shop: str = ""
    customer: bool = False
    json: bool = False


class Asked(NamedTuple):
    """An enquiry as it was typed: `words` are picks, paths, `-` and build codes, in the order given."""

    words: tuple[str, ...] = ()
    family: str = ""
    measured: tuple[str, ...] = ()
    looked: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    duty: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    quantity: int | None = None
    customer: str = ""
    date: date | None = None
    list: str = ""


def word_fault(word: str, wrong: str, way_out: str) -> Faulty:
    """A flag or a word that cannot be taken, and how to say it."""
    return Faulty([Fault(COMMAND_LINE, word, wrong, way_out)])


Callback = Callable[[click.Context, click.Parameter, Any], Any]


def a_day(ctx: click.Context, param: click.Parameter, value: str | None) -> date | None:
    """A date written 2026-06-26; any other way of writing one is refused, since 06-07 is two days."""
    if value is None or ctx.resilient_parsing:
        return None
    try:
        if len(value) == 10 and value.isascii():
            return date.fromisoformat(value)
    except ValueError:
        pass
    raise word_fault(param.opts[0], f"{value!r} is no date", "write it like 2026-06-26")


def a_number(least: int, most: int) -> Callback:
    """A callback that takes a whole number in plain digits, from the least that makes sense to the most that anyone
    means.
    """

    def take(ctx: click.Context, param: click.Parameter, value: str | None) -> int | None:
        if value is None or ctx.resilient_parsing:
            return None
        if value.isascii() and value.isdigit() and len(value) <= 9 and least <= int(value) <= most:
            return int(value)
        raise word_fault(param.opts[0], f"{value!r} will not do here", f"write a whole number from {least} to {most:,}")

    return take


def one_of(*words: str) -> Callback:
    """A callback that takes these words only, and answers another with the nearest."""

    def take(ctx: click.Context, param: click.Parameter, value: str | None) -> str | None:
        if value is None or value in words or ctx.resilient_parsing:
            return value
        from configurator.load.words import suggest

        raise word_fault(param.opts[0], f"there is no {value!r} here", suggest(value, words, "words for this flag"))

    return take


READERS = ("customer", "shop")


def keep_manner(function: Function) -> Function:
    """Adds the flags of manner to a command; `manner_of` tells what they said."""

    def keep(ctx: click.Context, param: click.Parameter, value: Any) -> None:
        if value and param.name:
            ctx.meta[f"{__name__}.{param.name}"] = value

    def keep_reader(ctx: click.Context, param: click.Parameter, value: str | None) -> None:
        keep(ctx, param, one_of(*READERS)(ctx, param, value))

    def option(*names: str, **attributes: Any) -> Callable[[Function], Function]:
        return click.option(*names, callback=attributes.pop("callback", keep), expose_value=False, **attributes)

    for add in (
        option("--debug", is_flag=True, help="Show where a mistake of ours happened."),
        option("--json", is_flag=True, help="Answer with one JSON document."),
        option("--for", "reader", metavar="READER", callback=keep_reader,
               help="customer: without what is the shop's own. [$BLOCKS_FOR]"),
        option("--shop", metavar="DIR", help="The shop's folder, if not the nearest shop.toml upward. [$BLOCKS_SHOP]"),
    ):  # fmt: skip
        function = add(function)
    return function


def manner_of(ctx: click.Context) -> Manner:
    """The manner of the call: what flags said, else what the environment says."""

    def said(name: str) -> Any:
        return ctx.meta.get(f"{__name__}.{name}")

    reader = said("reader") or os.environ.get("BLOCKS_FOR") or "shop"
    if reader not in READERS:
        wrong = f"BLOCKS_FOR is {reader!r}, which is none of {' and '.join(READERS)}"
        raise Faulty([Fault(Place("the environment"), "", wrong, "set it to one of them, or unset it")])
    return Manner(said("shop") or os.environ.get("BLOCKS_SHOP", ""), reader == "customer", bool(said("json")))


def with_manner(function: Function) -> Function:
    """A command that is told its manner first and takes its own flags after."""

    @click.pass_context
    def told(ctx: click.Context, /, **given: Any) -> Any:
        return function(manner_of(ctx), **given)

    return keep_manner(update_wrapper(told, function))


def for_the_shop(function: Function) -> Function:
    """A command as `with_manner` makes it that no customer may call: it speaks of rules by their ids and places."""

    def refuse(manner: Manner, **given: Any) -> Any:
        if manner.customer:
            way_out = "ask the shop; check and options tell what goes together and why"
            raise Faulty([Fault(COMMAND_LINE, "", "the rules are the shop's own and not for customers", way_out)])
        return function(manner, **given)

    return with_manner(update_wrapper(refuse, function))


def with_enquiry(function: Function) -> Function:
    """A command that is told its manner and what was asked, and takes its own flags after."""

    @click.pass_context
    def told(ctx: click.Context, /, **given: Any) -> Any:
        asked = Asked(**{name: given.pop(name) for name in Asked._fields})
        return function(manner_of(ctx), asked, **given)

    return keep_manner(asks(update_wrapper(told, function)))


def asks(function: Function) -> Function:
    """Adds the flags of an enquiry to a command."""
    from configurator.cli.completion import complete_choice, complete_duty, complete_family, complete_pick

    have: dict[str, Any] = {"multiple": True, "metavar": "HAVE=VALUE", "shell_complete": complete_pick}
    for add in (
        click.option("--list", default="", metavar="ID", help="A price list other than the one in force."),
        click.option("--date", callback=a_day, metavar="DATE", help="The day of the answer; today, where the shop is."),
        click.option("--customer", default="", metavar="NAME", help="Whom it is for."),
        click.option("--quantity", callback=a_number(1, 10_000), metavar="N", help="So many identical blocks."),
        click.option("--without", multiple=True, metavar="CHOICE", shell_complete=complete_choice, help="Drop a pick."),
        click.option("--duty", multiple=True, metavar="NAME=VALUE", shell_complete=complete_duty,
                     help="What the engine will do: power=160kW."),
        click.option("--assumed", help="A have nobody has told; it is taken to be so.", **have),
        click.option("--looked", help="A have that somebody looked at: crank_flange=five_bolt.", **have),
        click.option("--measured", help="A have that was measured: main_width=22.1mm.", **have),
        click.option("--family", default="", metavar="ID", shell_complete=complete_family, help="The engine family."),
        click.argument("words", nargs=-1, metavar="[BUILD]...", shell_complete=complete_pick),
    ):  # fmt: skip
        function = add(function)
    return function


def saves(function: Function) -> Function:
    """Adds the flags that save the enquiry as it stands."""

    def a_path(ctx: click.Context, param: click.Parameter, value: str) -> str:
        if value.startswith("-"):
            raise word_fault("--save", f"{value} looks like a flag", f"name a file behind --save, or write ./{value}")
        return value

    function = click.option("--force", is_flag=True, help="Replace the file if it is there.")(function)
    saving = "Write the enquiry so far to a file."
    return click.option("--save", default="", callback=a_path, metavar="FILE", help=saving)(function)
