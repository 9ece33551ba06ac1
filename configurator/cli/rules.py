"""`blocks rules`: for the engineer who writes them."""

from __future__ import annotations

import sys
from datetime import date

import click

from configurator.cli.calls import open_desk, today_at
from configurator.cli.ends import DONE, NO
from configurator.cli.flags import Manner, a_day, for_the_shop
from configurator.cli.groups import Group
from configurator.cli.page import page_width, show, write_json
from configurator.cli.progress import Progress
from configurator.cli.rules_draft import add, try_
from configurator.cli.rules_effect import effect


@click.group(cls=Group)
def rules() -> None:
    """For the rule engineer: look the rules over, and see what an edit changes before anyone quotes on it."""


for command in (effect, try_, add):
    rules.add_command(command)


@rules.command()
@click.option("--prove", is_flag=True, help="Hold the diagram of all builds against plain search by another library.")
@click.option("--jsonl", "as_jsonl", is_flag=True, help="Stream what is seen as JSON, one a line.")
@click.option(
    "--date", "day", callback=a_day, metavar="DATE", help="The day whose price list holds; today, where the shop is."
)
@for_the_shop
def lint(manner: Manner, prove: bool, as_jsonl: bool, day: date | None) -> int:
    """Look the rules over: examples, expected answers, options that no build has, conditions that never hold, rules
    that change nothing or that no example would miss.

    The exit code is 1 where there is anything to mend; remarks, which are worth a thought, leave it at 0.
    """
    from configurator.cli.views.findings import findings_json, findings_page, seen_json
    from configurator.documents.table_of import json_lines
    from configurator.review.findings import Finding
    from configurator.review.lint import lint as look
    from configurator.review.lint import look_over

    desk = open_desk(manner)
    today, progress = day or today_at(desk.shop), Progress()
    if as_jsonl:
        grave = False
        for seen in look_over(desk, today, prove, progress):
            grave = grave or (isinstance(seen, Finding) and seen.grave)
            sys.stdout.writelines(json_lines([seen_json(seen)]))
        return NO if grave else DONE
    findings = look(desk, today, prove, progress)
    if manner.json:
        write_json(findings_json(findings))
    else:
        show(findings_page(findings, page_width()))
    return NO if findings.findings else DONE


@rules.command()
@click.argument("rule", metavar="RULE")
@click.option("--family", default="", metavar="ID", help="One family, where several have the rule.")
@click.option("--date", "day", callback=a_day, metavar="DATE", help="The day whose price list holds.")
@for_the_shop
def explain(manner: Manner, rule: str, family: str, day: date | None) -> int:
    """A rule in a sentence: where it stands, what it excludes alone and beside the others, what it costs in builds."""
    from configurator.cli.views.rule import explanation_json, explanation_page
    from configurator.review.explanation import explain_rule

    desk = open_desk(manner)
    found = explain_rule(desk, rule, day or today_at(desk.shop), family)
    if manner.json:
        write_json(explanation_json(found))
    else:
        for one in found:
            show(explanation_page(one, page_width()))
    return DONE
