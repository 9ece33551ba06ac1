"""A rule that is not written yet: from words to the table that a file would hold, and from there to its effect."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from configurator.faults import Fault, Faulty
from configurator.load.shapes import STANDINGS
from configurator.load.sheets import COMMAND_LINE
from configurator.review.revisions import Files
from configurator.review.writing import toml_of

Draft = Mapping[str, Any]
"""A rule as its TOML table would hold it: texts, lists and tables."""

_CONDITION = re.compile(r"([A-Za-z_][A-Za-z0-9_]*)\s*(!=|>=|<=|=|>|<)\s*(.+)", re.DOTALL)

TRIED = "the rule to try"
"""What a file is called that nobody has written."""


class Parts(NamedTuple):
    """What was said of a rule, as it was typed. Conditions are "cooling=solid", "use=drag,street", "use!=drag" or
    "bore>=84 mm"; `then` may be one of the standings instead; `columns` are ids, `rows` cells with a comma between.
    """

    id: str = ""
    when: Sequence[str] = ()
    formula: str = ""
    then: Sequence[str] = ()
    otherwise: str = ""
    columns: str = ""
    rows: Sequence[str] = ()
    figure: str = ""
    free: str = ""
    by_arrangement: str = ""
    beyond: str = ""
    label: str = ""
    because: str = ""
    basis: str = ""
    source: str = ""
    say: str = ""
    family: str = ""


def drafted(parts: Parts) -> dict[str, Any]:
    """The table of a rule. Faulty for words that are no conditions; what else is wrong is found when it is read."""
    then: Any = parts.then[0] if len(parts.then) == 1 and parts.then[0] in STANDINGS else conditions(parts.then)
    told = {
        "family": parts.family,
        "id": parts.id,
        "label": parts.label,
        "when": conditions(parts.when),
        "if": parts.formula,
        "then": then,
        "columns": _cells(parts.columns),
        "rows": [_row(row) for row in parts.rows],
        "figure": parts.figure,
        "free": parts.free,
        "by_arrangement": parts.by_arrangement,
        "beyond": parts.beyond,
        "otherwise": parts.otherwise,
        "because": parts.because,
        "basis": parts.basis,
        "source": parts.source,
        "say": parts.say,
    }
    return {key: value for key, value in told.items() if value}


def conditions(words: Iterable[str]) -> dict[str, Any]:
    """Words as a `when` or a `then`. Faulty, naming each, for those that are no conditions."""
    taken: dict[str, Any] = {}
    faults = []
    for word in words:
        found = _CONDITION.fullmatch(word.strip())
        if not found:
            way_out = 'write it like cooling=solid, use=drag,street, use!=drag or "bore>=84 mm"'
            faults.append(Fault(COMMAND_LINE, word, "is no condition", way_out))
        elif found[1] in taken:
            faults.append(
                Fault(COMMAND_LINE, word, f"{found[1]} stands twice", "put all its options into one condition")
            )
        else:
            taken[found[1]] = _value(found[2], found[3].strip())
    if faults:
        raise Faulty(faults)
    return taken


def _value(sign: str, text: str) -> Any:
    if sign in (">=", "<=", ">", "<"):
        return f"{sign} {text}"
    options = _cells(text)
    value = options[0] if len(options) == 1 else options
    return {"not": value} if sign == "!=" else value


def _cells(text: str) -> list[str]:
    return [cell.strip() for cell in text.split(",") if cell.strip()]


def _row(text: str) -> list[Any]:
    """A row: cells with a comma between; a cell of several options has them with | between."""
    cells = ([one.strip() for one in cell.split("|")] for cell in text.split(","))
    return [options[0] if len(options) == 1 else options for options in cells]


def with_draft(files: Files, draft: Draft) -> Files:
    """The shop's files with the rule in a file of its own, which is written nowhere."""
    return files._replace(own={**files.own, TRIED: toml_of(draft).encode()})
