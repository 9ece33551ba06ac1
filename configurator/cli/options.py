"""`blocks options`: what there is to choose, and what the picks so far leave open."""

from __future__ import annotations

import click

from configurator.answering import answer_case
from configurator.catalogue.shops import Shop
from configurator.cli.calls import open_desk, take_call
from configurator.cli.ends import DONE
from configurator.cli.flags import Asked, Manner, with_enquiry
from configurator.cli.page import page_width, show, write_json
from configurator.cli.reasons import against
from configurator.cli.views import Reader
from configurator.cli.views.options import options_page
from configurator.desk import lay


@click.command()
@with_enquiry
def options(manner: Manner, asked: Asked) -> int:
    """What there is to choose: every choice with its options, and what the picks of BUILD leave open of them.

    Name choices among the words to see those alone, with their help: blocks options cooling use=drag.
    """
    desk = open_desk(manner)
    alone = tuple(word for word in asked.words if _is_choice(desk.shop, word))
    words = tuple(word for word in asked.words if word not in alone)
    call = take_call(manner, asked._replace(words=words), desk)
    case = lay(desk, call.enquiry, call.today)
    answer = answer_case(case)
    shown = alone or tuple(call.family.choices)
    picked = case.picked()
    closed = {
        (choice, option): against(case, picked, choice, option)
        for choice in shown
        for option, kind in answer.choices[choice].options.items()
        if kind == "closed"
    }
    if manner.json:
        from configurator.documents.json_lists import options_json

        write_json(options_json(call.family, answer, shown, closed))
    else:
        show(
            options_page(call.family, answer, shown, closed, Reader(page_width(), manner.customer), in_full=bool(alone))
        )
    return DONE


def _is_choice(shop: Shop, word: str) -> bool:
    return any(word in family.choices for family in shop.families.values())
