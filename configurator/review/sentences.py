"""A rule said in a sentence, in the words of the shop's labels."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from configurator.catalogue.conditions import Condition, When
from configurator.catalogue.rules import Implication, Limit, Rule, Table
from configurator.catalogue.shops import Family
from configurator.explain import begun, in_sentence, label_of, listed

STANDS = {"impossible": "impossible", "by_arrangement": "by arrangement", "advice": "advised against"}


def sentence_of(rule: Rule, family: Family) -> str:
    """What the rule demands, of whom, and what becomes of the rest. The rows of a table are told apart: `rows_of`."""
    body = rule.body
    if isinstance(body, Limit):
        return begun(f"{_with(body.when, family)}{_limit(body, family)}")
    if isinstance(body, Table):
        return begun(f"{_with(body.when, family)}{_table(body, family)}")
    return begun(_implication(body, family))


def _implication(body: Implication, family: Family) -> str:
    conditions = [*_conditions(body.when, family), *([body.condition] if body.condition else [])]
    if body.then:
        demanded = listed(_conditions(body.then, family))
        where = f"with {listed(conditions)}, " if conditions else ""
        return f"{where}only {demanded} will do; anything else is {STANDS[body.otherwise]}."
    together = " together" if len(conditions) > 1 else ""
    return f"{listed(conditions)}{together}: {STANDS[body.otherwise]}."


def _table(body: Table, family: Family) -> str:
    columns = listed(_label(column, family) for column in body.columns)
    return f"{columns} go together as listed; anything else is {STANDS[body.otherwise]}."


def rows_of(body: Table, family: Family) -> tuple[tuple[str, ...], ...]:
    """The heads of a table's columns, then its rows in words, the last cell being the standing ("" where free)."""
    heads = (*(_label(column, family) for column in body.columns), "")
    rows = [*((row, "") for row in body.rows), *((row, STANDS["by_arrangement"]) for row in body.by_arrangement)]
    cells = ((zip(body.columns, row, strict=True), standing) for row, standing in rows)
    return (heads, *((*(_cell(*pair, family) for pair in pairs), standing) for pairs, standing in cells))


def _cell(column: str, options: Sequence[str], family: Family) -> str:
    return listed((_option(column, option, family) for option in options), "or") if options else "anything"


def _limit(body: Limit, family: Family) -> str:
    said = []
    if body.free:
        said.append(f"free {_comparison(body.free)}")
    if body.by_arrangement:
        said.append(f"by arrangement {_comparison(body.by_arrangement)}")
    if body.free:
        said.append(f"{STANDS[body.beyond]} beyond")
    if body.advice:
        said.append(f"with a note {_comparison(body.advice)}")
    side = f", judged at the {body.judged} side of its band" if body.judged != "nominal" else ""
    return f"{_label(body.figure, family)} is {', '.join(said)}{side}."


def _with(when: When, family: Family) -> str:
    return f"with {listed(_conditions(when, family))}, " if when else ""


def _conditions(when: Iterable[Condition], family: Family) -> list[str]:
    return [_condition(one, family) for one in when]


def _condition(one: Condition, family: Family) -> str:
    label = _label(one.name, family)
    if one.comparison:
        return f"{label} {_comparison(one.comparison)}"
    options = [_option(one.name, option, family) for option in one.options]
    if one.negated:
        return f"{label} other than {listed(options, 'or')}"
    if all(set(label.lower().split()) <= set(option.lower().replace(",", " ").split()) for option in options):
        return listed(options, "or")  # each says already what it is an option of
    return f"{label} {listed(options, 'or')}"


def _comparison(text: str) -> str:
    """A comparison in words; names stay as the files have them."""
    for sign, words in ((">=", "at least"), ("<=", "at most"), (">", "above"), ("<", "below")):
        if text.startswith(sign):
            return f"{words} {text.removeprefix(sign).strip()}"
    return f"from {text}" if " to " in text else text


def _option(choice: str, option: str, family: Family) -> str:
    return in_sentence(label_of(family, choice, option))


def _label(name: str, family: Family) -> str:
    """What a choice, a duty or a figure is called; a fact has no label but its name."""
    for named in (family.choices, family.duties, family.figures):
        if name in named and named[name].label:
            return in_sentence(named[name].label)
    return name.replace("_", " ")
