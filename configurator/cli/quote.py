"""`blocks quote`: the whole offer."""

from __future__ import annotations

from datetime import date

import click

from configurator import desk
from configurator.answer import Answer
from configurator.cli.calls import save_enquiry, take_call
from configurator.cli.ends import DONE, OF_VERDICT
from configurator.cli.flags import Asked, Manner, a_day, saves, with_enquiry
from configurator.cli.page import page_width, show, write_json
from configurator.cli.views import Reader
from configurator.cli.views.answer import answer_page
from configurator.cli.views.quote import quote_page


@click.command()
@saves
@click.option("--started", callback=a_day, metavar="DATE", help="The day on which all that starts the clock is there.")
@with_enquiry
def quote(manner: Manner, asked: Asked, started: date | None, save: str, force: bool) -> int:
    """The whole offer for BUILD: lines, totals, days, checks, what is assumed and what stays to be confirmed.

    Where the build is impossible there is none, and the answer says why (exit code 1).
    """
    call = take_call(manner, asked)
    quoted = desk.quote(call.desk, call.enquiry, call.today, started)
    reader = Reader(page_width(), manner.customer)
    if manner.json:
        from configurator.documents.json_of import answer_json
        from configurator.documents.json_quotes import quote_json

        if isinstance(quoted, Answer):
            write_json(answer_json(quoted, manner.customer))
        else:
            write_json(quote_json(quoted, manner.customer))
    elif isinstance(quoted, Answer):
        show(answer_page(call.family, quoted, reader))
    else:
        show(quote_page(call.shop, call.family, quoted, reader))
    save_enquiry(call, save, force)
    return OF_VERDICT[quoted.verdict] if isinstance(quoted, Answer) else DONE
