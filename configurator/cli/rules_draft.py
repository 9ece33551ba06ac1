"""`blocks rules try` and `blocks rules add`: a rule that is not written yet."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from configurator.cli.calls import find_shop, open_desk, today_at
from configurator.cli.ends import DONE
from configurator.cli.flags import Manner, a_day, for_the_shop, word_fault
from configurator.cli.page import Line, Part, entry, notice, page_width, prose, show, write_json
from configurator.cli.progress import Progress
from configurator.cli.rules_effect import end_of

if TYPE_CHECKING:
    from configurator.desk import Desk
    from configurator.review.addition import Addition
    from configurator.review.drafts import Parts
    from configurator.review.revisions import Files

ASKED = {
    "id": "Its id, a word or several with _ between",
    "because": "Because: a sentence that a salesman can read out",
    "basis": "It rests on (published, common practice, family data, from memory)",
}
"""What every rule needs, asked for where it was not said."""


FLAGS: dict[str, tuple[str, str]] = {
    "--when": ("COND", 'cooling=solid, use=drag,street, use!=drag or "bore>=84 mm"; as often as wanted, all hold.'),
    "--if": ("FORMULA", "A condition as a formula."),
    "--then": ("COND", "What must hold then; or impossible, by_arrangement, advice."),
    "--otherwise": ("STANDING", "What breaks it is impossible, by_arrangement or advice."),
    "--columns": ("IDS", "The choices of a table, with commas between."),
    "--row": ("CELLS", 'A row of the table that is free: "donor|custom,*" for two columns.'),
    "--figure": ("ID", "The figure of a limit."),
    "--free": ("COMPARISON", 'Where the figure is free: ">= 2.5 mm".'),
    "--arranged": ("COMPARISON", "Where it is by arrangement."),
    "--beyond": ("STANDING", "What is beyond is impossible, by_arrangement or advice."),
    "--id": ("ID", "The id of the rule."),
    "--label": ("TEXT", "A short name."),
    "--because": ("TEXT", "The reason, as it is read out."),
    "--basis": ("BASIS", "published, common practice, family data or from memory."),
    "--source": ("TEXT", "Where it is published."),
    "--say": ("TEXT", "What to tell the caller."),
    "--family": ("ID", "The family, where the shop has several."),
}
"""The parts of a rule as flags: what stands behind each, and what it is for."""

NAMED = {"--if": "formula", "--row": "rows", "--arranged": "by_arrangement"}
"""The parts that are not named as their flags are."""

SEVERAL = ("--when", "--then", "--row")


def with_parts(function: Callable[..., Any]) -> Callable[..., Any]:
    """Adds the flags that say a rule, and the day."""
    function = click.option("--date", "day", callback=a_day, metavar="DATE", help="The day of the prices.")(function)
    for flag, (metavar, purpose) in reversed(FLAGS.items()):
        names = (flag, NAMED.get(flag, flag.removeprefix("--")))
        how: dict[str, Any] = {"multiple": True} if flag in SEVERAL else {"default": ""}
        function = click.option(*names, metavar=metavar, help=purpose, **how)(function)
    return function


@click.command("try")
@with_parts
@for_the_shop
def try_(manner: Manner, day: date | None, **parts: Any) -> int:
    """The effect of a rule that is not written: blocks rules try --when cooling=solid --then use=drag.

    Nothing is saved. The exit code is that of `effect`.
    """
    from configurator.review.addition import try_rule_of
    from configurator.review.drafts import Parts

    desk, folder = open_desk(manner), find_shop(manner.shop)[0]
    addition = try_rule_of(_files(folder), Parts(**parts), day or today_at(desk.shop), Progress())
    if manner.json:
        write_json(_json(addition))
    else:
        show(_page(addition, desk, page_width()))
    return end_of(addition.effect)


@click.command()
@with_parts
@click.option("--file", default="", metavar="FILE", help="Where to write it; else where rules about its choices stand.")
@click.option("--yes", is_flag=True, help="Write it without asking, unless an expected answer breaks.")
@for_the_shop
def add(manner: Manner, day: date | None, file: str, yes: bool, **parts: Any) -> int:
    """Write a rule into the shop, below the others of its file, with an example of each kind and after a look at its
    effect. What is not said by flags is asked for at a terminal.

    The exit code is 0 where it was written, else that of `effect`.
    """
    from configurator.review.addition import add_rule, save_rule

    desk, folder = open_desk(manner), _own_folder(manner)
    addition = add_rule(_files(folder), _asked_for(parts, desk), day or today_at(desk.shop), file, Progress())
    if not manner.json:
        show(_page(addition, desk, page_width()))
        show(entry("rule", [(Part(line),) for line in addition.rule_text.splitlines()]))
    agreed = not addition.effect.broke if yes else not manner.json and _agrees(addition)
    if agreed:
        save_rule(addition, folder)
    if manner.json:
        write_json(_json(addition) | {"file": addition.file, "text": addition.rule_text, "saved": agreed})
    else:
        notice(f"Wrote {addition.file}." if agreed else "Not written." if yes else "Not written: --yes writes it.")
    return DONE if agreed else end_of(addition.effect)


def _own_folder(manner: Manner) -> Path:
    """The shop's folder; Faulty for the demo, unless it was named."""
    folder, is_demo = find_shop(manner.shop)
    if is_demo:
        raise word_fault("add", "no shop here, and the demo is not written to", "make a shop: blocks shop new DIR")
    return folder


def _agrees(addition: Addition) -> bool:
    """Whether whoever sits at the terminal wants it written."""
    return _at_terminal() and click.confirm(f"Write it to {addition.file}?", err=True)


def _files(folder: Path) -> Files:
    from configurator.review.revisions import files_of

    return files_of(str(folder), folder)


def _asked_for(parts: dict[str, Any], desk: Desk) -> Parts:
    """The parts, with what is missing asked for where somebody sits at a terminal."""
    from configurator.review.drafts import Parts

    said = Parts(**parts)
    if not _at_terminal():
        return said
    if not said.when and not said.columns and not said.figure and not said.formula:
        said = said._replace(when=click.prompt("When (cooling=solid use=drag,street)", err=True).split())
    if not said.then and not said.columns and not said.figure:
        said = said._replace(
            then=click.prompt("Then (use=drag, or impossible, by_arrangement, advice)", err=True).split()
        )
    if len(desk.shop.families) > 1 and not said.family:
        said = said._replace(family=click.prompt(f"Family ({', '.join(desk.shop.families)})", err=True))
    for part, question in ASKED.items():
        if not getattr(said, part):
            said = said._replace(**{part: click.prompt(question, err=True)})
    return said


def _at_terminal() -> bool:
    return sys.stdin.isatty() and sys.stderr.isatty()


def _page(addition: Addition, desk: Desk, width: int) -> Iterator[Line]:
    """The rule in a sentence, and its effect."""
    from configurator.cli.views.effect import effect_page
    from configurator.review.sentences import sentence_of

    yield from prose(sentence_of(addition.rule, addition.family), width)
    yield from effect_page(addition.effect, desk.shop, desk.shop, width)


def _json(addition: Addition) -> dict[str, Any]:
    """The same as a document."""
    from configurator.cli.views.effect import effect_json
    from configurator.review.sentences import sentence_of

    return effect_json(addition.effect) | {"sentence": sentence_of(addition.rule, addition.family)}
