"""`blocks check`: can it be built?"""

from __future__ import annotations

import click

from configurator.answering import answer_case
from configurator.cli.calls import save_enquiry, take_call
from configurator.cli.ends import OF_VERDICT
from configurator.cli.flags import Asked, Manner, saves, with_enquiry
from configurator.cli.page import page_width, show, write_json
from configurator.cli.reasons import why_settled
from configurator.cli.views import Reader
from configurator.cli.views.answer import answer_page
from configurator.desk import lay


@click.command()
@saves
@with_enquiry
def check(manner: Manner, asked: Asked, save: str, force: bool) -> int:
    """Can it be built? If not, why not and what would help; if so, price, days, checks and what is still to settle.

    The exit code is 0 where it can be built, by arrangement too, 1 where it cannot, 4 where that is not known.
    """
    call = take_call(manner, asked)
    case = lay(call.desk, call.enquiry, call.today)
    answer = answer_case(case)
    if manner.json:
        from configurator.documents.json_of import answer_json

        write_json(answer_json(answer, manner.customer))
    else:
        reasons = {} if answer.verdict == "impossible" else why_settled(case, answer)
        show(answer_page(call.family, answer, Reader(page_width(), manner.customer), reasons))
    save_enquiry(call, save, force)
    return OF_VERDICT[answer.verdict]
