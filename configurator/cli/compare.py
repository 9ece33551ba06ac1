"""`blocks compare`: two to four builds side by side."""

from __future__ import annotations

import click

from configurator.answering import answer_case
from configurator.cli.calls import Call, is_pick, open_desk, take_call
from configurator.cli.ends import DONE, NO
from configurator.cli.flags import Asked, Manner, with_enquiry, word_fault
from configurator.cli.page import notice, page_width, show, write_json
from configurator.cli.views import Reader
from configurator.cli.views.answer import answer_page
from configurator.cli.views.compare import comparison_page
from configurator.desk import lay
from configurator.listing import compare_cases

MOST = 4


@click.command()
@click.option(
    "--with",
    "variants",
    multiple=True,
    metavar="PICKS",
    help="A variant of the first build: cooling=dry_deck,deck=tall.",
)
@with_enquiry
def compare(manner: Manner, asked: Asked, variants: tuple[str, ...]) -> int:
    """Set two to four builds side by side: files and codes, each a build of its own, or variants of one build.

    Picks among the words hold for all of them.
    """
    desk = open_desk(manner)
    calls = [(name, take_call(manner, one, desk)) for name, one in _several(asked, variants)]
    _one_family(calls)
    cases = [(name, lay(desk, call.enquiry, call.today)) for name, call in calls]
    for (name, call), (_, case) in zip(calls, cases, strict=True):
        answer = answer_case(case)
        if answer.build is None:
            notice(f"{name} cannot be compared:")
            show(answer_page(call.family, answer, Reader(page_width(), manner.customer)))
            return NO
    comparison = compare_cases(cases)
    family = calls[0][1].family
    if manner.json:
        from configurator.documents.json_lists import comparison_json

        write_json(comparison_json(comparison, manner.customer))
    else:
        show(comparison_page(family, comparison, Reader(page_width(), manner.customer)))
    return DONE


def _several(asked: Asked, variants: tuple[str, ...]) -> list[tuple[str, Asked]]:
    """The builds by name: each file or code with the picks that hold for all, then the variants of the first."""
    picks = tuple(word for word in asked.words if is_pick(word))
    named = [word for word in asked.words if word not in picks]
    several = [(word, asked._replace(words=(word, *picks))) for word in named] or [("as asked", asked)]
    first = several[0][1]
    for variant in variants:
        changed = tuple(variant.split(","))
        several.append((", ".join(changed), first._replace(words=(*first.words, *changed))))
    if not 2 <= len(several) <= MOST:
        way_out = "name files or codes, or add --with cooling=dry_deck"
        raise word_fault("compare", f"two to four builds are wanted, not {len(several)}", way_out)
    return several


def _one_family(calls: list[tuple[str, Call]]) -> None:
    families = {call.enquiry.family for _, call in calls}
    if len(families) > 1:
        wrong = f"these are of different families: {', '.join(sorted(families))}"
        raise word_fault("compare", wrong, "compare builds of one family")
