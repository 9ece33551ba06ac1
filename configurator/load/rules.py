"""A family's rules and figures, its own and those of the shipped files it names, judged and put in plain form."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from configurator.catalogue.choices import Duty
from configurator.limits import OF_VALUE
from configurator.load.lexicon import Lexicon, Plain, filled, is_comparison, plain_place
from configurator.load.shapes import Rule
from configurator.load.words import suggest
from configurator.units import Misread, read_quantity

FORMS = {
    "implication": ("if", "then", "otherwise"),
    "table": ("columns", "rows", "by_arrangement", "otherwise"),
    "limit": ("figure", "free", "by_arrangement", "beyond", "advice", "judged", "uncertainty", "unit"),
}
"""The keys that each form of rule may have beside those of all rules."""
TELLING = {"then": "implication", "columns": "table", "figure": "limit"}
"""The keys that tell the form."""


class RuleReading:
    """The rules of one family on their way into plain form; `shipped` are those of the trade, not of the shop."""

    def __init__(self, lexicon: Lexicon, duties: Mapping[str, Duty], shipped: Iterable[Rule] = ()) -> None:
        self.lexicon, self.duties = lexicon, duties
        self.shipped = {id(rule) for rule in shipped}

    def rules(self, rules: Sequence[Rule]) -> dict[str, Plain]:
        """All rules that this family keeps, by id in the order of their ids."""
        kept = {}
        for rule in sorted(rules, key=lambda rule: rule.id):
            if not self._is_for_others(rule) and (plain := self._rule(rule)):
                kept[rule.id] = plain
        return kept

    def _lenient(self, rule: Rule) -> bool:
        return id(rule) in self.shipped

    def _is_for_others(self, rule: Rule) -> bool:
        """Whether the rule needs what this family does not have, and so is passed over."""
        lexicon = self.lexicon
        missing = [name for name in rule.needs if name not in lexicon.choices and name not in lexicon.values]
        for name in missing:
            if not self._lenient(rule) and name not in lexicon.elsewhere:
                lexicon.fault(rule, ("needs",), f"nobody knows {name}", suggest(name, lexicon.choices, "choices"))
        return bool(missing)

    def _rule(self, rule: Rule) -> Plain | None:
        form = self._form(rule)
        if not form:
            return None
        when = self.lexicon.conditions(rule, ("when",), rule.when, self._lenient(rule))
        if self._lenient(rule) and any(_never(condition) for condition in when):
            return None
        if rule.basis == "published" and not rule.source:
            way_out = "name the source, or change the basis"
            self.lexicon.fault(rule, ("source",), "is missing for what is published", way_out)
        body = {"implication": self._implication, "table": self._table, "limit": self._limit}[form](rule)
        return filled(
            id=rule.id,
            form=form,
            when=when,
            **body,
            because=rule.because,
            basis=rule.basis,
            source=rule.source,
            caution=rule.caution,
            label=rule.label,
            say=rule.say,
            needs=rule.needs,
            passes=self._examples(rule, "passes", rule.passes),
            fails=self._examples(rule, "fails", rule.fails),
            place=plain_place(rule),
        )

    def _form(self, rule: Rule) -> str:
        """Which of the three forms the rule has; "" where it has none, or parts of two."""
        written = {(field.alias or name) for name, field in Rule.model_fields.items() if name in rule.model_fields_set}
        forms = [form for key, form in TELLING.items() if key in written]
        if len(forms) != 1:
            wrong = f"is {' and '.join(forms)} at once" if forms else "has none of then, columns, figure"
            way_out = "a rule has `then`, or `columns` and `rows`, or `figure`"
            self.lexicon.fault(rule, (), f"rule {rule.id} {wrong}", way_out)
            return ""
        allowed = FORMS[forms[0]]
        others = {key for keys in FORMS.values() for key in keys} - set(allowed)
        for key in sorted(others & written):
            way_out = f"beside what all rules have, this form has {', '.join(allowed)}"
            self.lexicon.fault(rule, (key,), "does not go with a rule of this form", way_out)
        return forms[0]

    def _implication(self, rule: Rule) -> Plain:
        lexicon = self.lexicon
        if rule.if_:
            lexicon.formula(rule, ("if",), rule.if_)
        if isinstance(rule.then, str):
            if "otherwise" in rule.model_fields_set:
                lexicon.fault(rule, ("otherwise",), "says the standing a second time", "`then` says it already")
            if not rule.when and not rule.if_:
                lexicon.fault(rule, ("then",), "would hold for every build", "say `when`")
            return {"condition": rule.if_, "then": [], "otherwise": rule.then}
        then = lexicon.conditions(rule, ("then",), rule.then or {}, self._lenient(rule))
        return {"condition": rule.if_, "then": then, "otherwise": rule.otherwise}

    def _table(self, rule: Rule) -> Plain:
        lexicon, columns = self.lexicon, rule.columns or []
        for position, name in enumerate(columns):
            if name not in lexicon.choices:
                lexicon.unknown(rule, ("columns", position), name, picks_only=True)
            elif name in columns[:position]:
                lexicon.fault(rule, ("columns", position), f"{name} stands twice", "take one away")
        if rule.rows is None:
            lexicon.fault(rule, ("rows",), "is missing", "list the combinations that are free")
        return {
            "columns": columns,
            "rows": self._rows(rule, "rows", rule.rows or []),
            "by_arrangement": self._rows(rule, "by_arrangement", rule.by_arrangement or []),
            "otherwise": rule.otherwise,
        }

    def _rows(self, rule: Rule, key: str, rows: Any) -> list[list[list[str]]]:
        columns, taken = rule.columns or [], []
        if not isinstance(rows, list):
            self.lexicon.fault(rule, (key,), "is not a list of rows", "write rows in square brackets")
            return []
        for number, row in enumerate(rows):
            if not isinstance(row, list) or len(row) != len(columns):
                wrong = f"is no row of {len(columns)} cells"
                self.lexicon.fault(rule, (key, number), wrong, f"write one cell for each of {', '.join(columns)}")
                continue
            pairs = enumerate(zip(columns, row, strict=True))
            cells = [self._cell(rule, (key, number, place), *pair) for place, pair in pairs]
            if None not in cells:
                taken.append([cell for cell in cells if cell is not None])
        return taken

    def _cell(self, rule: Rule, key: tuple[str | int, ...], choice: str, cell: Any) -> list[str] | None:
        """The options that a cell lists, none for any; None where the family has none of them."""
        if cell == "*" or choice not in self.lexicon.choices:
            return []
        values = cell if isinstance(cell, list) else [cell]
        options = [self.lexicon.option(rule, key, choice, value, self._lenient(rule)) for value in values]
        return sorted({option for option in options if option}) or None

    def _limit(self, rule: Rule) -> Plain:
        lexicon = self.lexicon
        arranged = rule.by_arrangement or ""
        if not isinstance(arranged, str):
            lexicon.fault(rule, ("by_arrangement",), "is not a comparison", 'write one between quotes: ">= 3.0 mm"')
            arranged = ""
        if not rule.free and (arranged or not rule.advice):
            lexicon.fault(rule, ("free",), "is missing", 'say what is free: free = ">= 4.0 mm"')
        if not lexicon.is_value(rule.figure):
            lexicon.unknown(rule, ("figure",), rule.figure)
        for key, text in (("free", rule.free), ("by_arrangement", arranged), ("advice", rule.advice)):
            if text:
                lexicon.comparison(rule, (key,), text)
        if rule.uncertainty:
            lexicon.formula(rule, ("uncertainty",), rule.uncertainty.removesuffix(OF_VALUE))
        elif rule.judged != "nominal":
            lexicon.fault(rule, ("judged",), "judges a side of no band", 'say its width: uncertainty = "0.1 mm"')
        return {
            "figure": rule.figure,
            "free": rule.free,
            "by_arrangement": arranged,
            "beyond": rule.beyond,
            "advice": rule.advice,
            "judged": rule.judged,
            "uncertainty": rule.uncertainty,
            "unit": rule.unit,
        }

    def _examples(self, rule: Rule, key: str, examples: Sequence[dict[str, Any]]) -> list[Plain]:
        """Examples with option ids, without those of a shipped rule that speak of what this family lacks."""
        taken = []
        for number, example in enumerate(examples):
            if example.get("family", self.lexicon.family) != self.lexicon.family:
                continue
            told = sorted((name, value) for name, value in example.items() if name != "family")
            picks = {name: self._told(rule, (key, number, name), name, value) for name, value in told}
            if all(picks.values()):
                place = rule.at(key, number)
                taken.append({"picks": picks, "place": [place.file, place.line, place.column]})
        return taken

    def _told(self, rule: Rule, key: tuple[str | int, ...], name: str, value: Any) -> str:
        lexicon = self.lexicon
        if name in lexicon.choices:
            return lexicon.option(rule, key, name, value, self._lenient(rule))
        duty = self.duties.get(name)
        if duty is None:
            if not self._lenient(rule):
                way_out = suggest(name, [*lexicon.choices, *self.duties], "names")
                lexicon.fault(rule, key, f"{name} is neither choice nor duty", way_out)
            return ""
        try:
            read_quantity(str(value), duty.unit, duty.least, duty.greatest, duty.plain_is)
        except Misread as trouble:
            lexicon.fault(rule, key, trouble.wrong, trouble.way_out)
            return ""
        return str(value)


def choices_in(rule: Rule) -> set[str]:
    """The choices that a rule speaks of as choices, whether or not any family has them."""
    then = rule.then if isinstance(rule.then, dict) else {}
    named = {name for given in (rule.when, then) for name, value in given.items() if not _compares(value)}
    return named | set(rule.needs) | set(rule.columns or ())


def _compares(value: Any) -> bool:
    return isinstance(value, str) and is_comparison(value)


def _never(condition: list[Any]) -> bool:
    """A condition that names none of this family's options can never hold."""
    _, options, negated, comparison = condition
    return not options and not negated and not comparison
