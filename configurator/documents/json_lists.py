"""What there is to choose, builds side by side, and faults as JSON documents; the same forms as in `json_of`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from configurator.answer import Answer
from configurator.catalogue.choices import Choice
from configurator.catalogue.shops import Family
from configurator.documents.json_of import SCHEMA, Json, build_json, money_json, quantity_json
from configurator.faults import Fault
from configurator.listing import Column, Comparison


def options_json(
    family: Family, answer: Answer, shown: Iterable[str], closed: Mapping[tuple[str, str], Mapping[str, str]]
) -> Json:
    """The document of `blocks options --json`: the choices shown, and for each option that is closed the picks that
    close it.
    """

    def option_json(choice: Choice, id: str, kind: str) -> Json:
        label = next((option.label for option in choice.options if option.id == id), id)
        document: Json = {"label": label, "kind": kind}
        return document | {"not_with": dict(closed.get((choice.id, id), {}))} if kind == "closed" else document

    def choice_json(choice: Choice) -> Json:
        standing = answer.choices[choice.id]
        return {
            "label": choice.label,
            "heading": choice.heading,
            "asks": choice.asks,
            "help": choice.help,
            "picked": standing.picked or None,
            "settled": standing.settled or None,
            "options": {id: option_json(choice, id, kind) for id, kind in standing.options.items()},
        }

    choices = {id: choice_json(family.choices[id]) for id in shown}
    return {"schema": SCHEMA, "family": family.id, "verdict": answer.verdict, "choices": choices}


def comparison_json(comparison: Comparison, customer: bool = False) -> Json:
    """The document of `blocks compare --json`. The margins are by rule, and so not the customer's."""

    def column_json(column: Column) -> Json:
        document: Json = {
            "name": column.name,
            "build": build_json(column.build),
            "net": money_json(column.totals.net),
            "currency": column.totals.currency,
            "working_days": column.working_days,
            "tallies": {id: quantity_json(text) for id, text in column.tallies.items()},
        }
        margins = {rule: quantity_json(text) for rule, text in column.margins.items()}
        return document if customer else document | {"margins": margins}

    return {
        "schema": SCHEMA,
        "differing": list(comparison.differing),
        "builds": [column_json(column) for column in comparison.columns],
    }


def faults_json(faults: Iterable[Fault]) -> Json:
    """The document that stands in for the answer where the enquiry or the shop could not be read."""
    return {
        "schema": SCHEMA,
        "faults": [
            {
                "file": fault.place.file,
                "line": fault.place.line or None,
                "key": fault.key,
                "wrong": fault.wrong,
                "way_out": fault.way_out,
            }
            for fault in faults
        ],
    }
