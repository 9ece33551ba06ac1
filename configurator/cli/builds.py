"""`blocks builds`: the builds that the picks leave, listed, counted or streamed."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from itertools import islice
from typing import Any

import click

from configurator.answering import answer_case
from configurator.case import Case
from configurator.cli.calls import Call, take_call
from configurator.cli.ends import DONE, NO
from configurator.cli.flags import Asked, Manner, a_number, with_enquiry, word_fault
from configurator.cli.page import page_width, prose, show, write_json
from configurator.cli.views import Reader
from configurator.cli.views.answer import answer_page
from configurator.cli.views.builds import builds_page, count_words
from configurator.desk import lay
from configurator.listing import Row, list_builds, sorts

PAGE = 20


@click.command()
@click.option("--count", "counted", is_flag=True, help="Only how many there are.")
@click.option("--free", is_flag=True, help="Only those that nobody has to sign for.")
@click.option("--sort", default="", metavar="BY", help="price, mass or another sum of the family: the least first.")
@click.option(
    "--limit", callback=a_number(1, 1_000_000), metavar="N", help=f"So many of them; {PAGE} on a page, all in a stream."
)
@click.option(
    "--offset", callback=a_number(0, 999_999_999), default="0", metavar="N", help="Leave out so many at the start."
)
@click.option("--csv", "as_csv", is_flag=True, help="Stream them as CSV.")
@click.option("--jsonl", "as_jsonl", is_flag=True, help="Stream them as JSON, one a line.")
@with_enquiry
def builds(manner: Manner, asked: Asked, **how: Any) -> int:
    """List the builds that the picks of BUILD leave. Values that no list has are counted only where they are picked."""
    call = take_call(manner, asked)
    case = lay(call.desk, call.enquiry, call.today)
    picked = case.picked()
    if not picked.possible() or call.enquiry.misfits:
        return _none(call, case, how)
    count = picked.count()
    if how["counted"]:
        if manner.json:
            write_json(_counts(count))
        else:
            show(prose(count_words(*count), page_width()))
        return DONE
    streams = how["as_csv"] or how["as_jsonl"]
    limit = how["limit"] or (None if streams else PAGE)
    rows = _rows(case, how, limit)
    if streams:
        return _stream(call, rows, how["as_csv"])
    if manner.json:
        from configurator.documents.table_of import row_json

        write_json(_counts(count) | {"rows": [row_json(row) for row in rows], "offset": how["offset"]})
        return DONE
    answer = answer_case(case)
    reader = Reader(page_width(), manner.customer)
    show(builds_page(call.family, answer, list(rows), how["offset"], call.shop.currency, reader))
    return DONE


def _counts(count: tuple[int, int]) -> dict[str, Any]:
    from configurator.documents.json_of import SCHEMA

    return {"schema": SCHEMA, "counted": "exact", "builds": {"free": count[0], "by_arrangement": count[1]}}


def _rows(case: Case, how: dict[str, Any], limit: int | None) -> Iterator[Row]:
    sort, known = how["sort"], sorts(case)
    if sort and sort not in known:
        from configurator.load.words import suggest

        raise word_fault("--sort", f"there is no {sort!r} to sort by", suggest(sort, known, "sums"))
    start = how["offset"]
    return islice(list_builds(case, sort, how["free"]), start, None if limit is None else start + limit)


def _stream(call: Call, rows: Iterator[Row], as_csv: bool) -> int:
    from configurator.documents.table_of import build_rows, csv_lines, json_lines, row_json

    lines = csv_lines(build_rows(call.family, rows)) if as_csv else json_lines(map(row_json, rows))
    for line in lines:
        sys.stdout.write(line)
    return DONE


def _none(call: Call, case: Case, how: dict[str, Any]) -> int:
    """There is none: the answer says why, and a stream stays empty."""
    if how["as_csv"] or how["as_jsonl"]:
        return NO
    answer = answer_case(case)
    if call.manner.json:
        from configurator.documents.json_of import answer_json

        write_json(answer_json(answer, call.manner.customer))
    else:
        show(answer_page(call.family, answer, Reader(page_width(), call.manner.customer)))
    return NO
