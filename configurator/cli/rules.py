"""`blocks rules`: for the engineer who writes them."""

from __future__ import annotations

from datetime import date

import click

from configurator.cli.calls import open_desk, today_at
from configurator.cli.ends import DONE, NO
from configurator.cli.flags import Manner, a_day, with_manner
from configurator.cli.groups import Group
from configurator.cli.page import page_width, show, write_json
from configurator.cli.views.findings import findings_json, findings_page


@click.group(cls=Group)
def rules() -> None:
    """For the rule engineer: look the rules over."""


@rules.command()
@click.option(
    "--date", "day", callback=a_day, metavar="DATE", help="The day whose price list holds; today, where the shop is."
)
@with_manner
def lint(manner: Manner, day: date | None) -> int:
    """Run every example and every expected answer of the shop, and look for options that no build has.

    The exit code is 1 where there is anything to mend.
    """
    from configurator.review.lint import lint as look_over

    desk = open_desk(manner)
    findings = look_over(desk, day or today_at(desk.shop))
    if manner.json:
        write_json(findings_json(findings))
    else:
        show(findings_page(findings, page_width()))
    return NO if findings.findings else DONE
