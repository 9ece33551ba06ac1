"""A family's rules and figures, its own and those of the shipped files it names, judged and put in plain form."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from configurator import language
from configurator.catalogue.choices import Duty
from configurator.limits import OF_VALUE
from configurator.load.lexicon import Lexicon, Plain, filled, is_comparison, plain_place
from configurator.load.shapes import Figure, Rule
from configurator.load.words import suggest
from configurator.units import Misread, read_quantity

FORMS = {
    "implication": ("if", "then", "otherwise"),
    "table": ("columns", "rows", "by_arrangement", "otherwise"),
    "limit": ("figure", "free", "by_arrangement", "beyond", "advice", "judged", "uncertainty", "unit"),
}
"""The keys that each form of rule may have beside those of all rules; the first of them but for `if` tells the form."""


class RuleReading:
    """The rules of one family on their way into plain form; `shipped` are those of the trade, not of the shop."""

    def __init__(self, lexicon: Lexicon, duties: dict[str, Duty], shipped: Iterable[Rule] = ()) -> None:
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
        if (rule.basis == "published") != bool(rule.source):
            way_out = "name the source, or change the basis"
            self.lexicon.fault(rule, ("source",), "goes with the basis published, and only with it", way_out)
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
        forms = [
            form for form, key in (("implication", "then"), ("table", "columns"), ("limit", "figure")) if key in written
        ]
        if len(forms) != 1:
            wrong = (
                "is no rule: it has none of then, columns, figure" if not forms else f"is {' and '.join(forms)} at once"
            )
            self.lexicon.fault(
                rule, (), f"rule {rule.id} {wrong}", "a rule has `then`, or `columns` and `rows`, or `figure`"
            )
            return ""
        allowed = FORMS[forms[0]]
        others = {key for keys in FORMS.values() for key in keys} - set(allowed)
        for key in sorted(others & written):
            self.lexicon.fault(
                rule,
                (key,),
                f"does not go with {'if ' if key == 'then' else ''}a rule of this form",
                f"this form has {', '.join(allowed)}",
            )
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
            cells = [
                self._cell(rule, (key, number, place), *pair)
                for place, pair in enumerate(zip(columns, row, strict=True))
            ]
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
        if rule.figure not in lexicon.values and not (
            rule.figure in lexicon.choices and lexicon.choices[rule.figure].legal
        ):
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
            family = example.get("family", self.lexicon.family)
            picks = {
                name: self._told(rule, (key, number, name), name, value)
                for name, value in sorted(example.items())
                if name != "family"
            }
            if family == self.lexicon.family and picks and all(picks.values()):
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
                lexicon.fault(
                    rule,
                    key,
                    f"{name} is neither choice nor duty",
                    suggest(name, [*lexicon.choices, *self.duties], "names"),
                )
            return ""
        try:
            read_quantity(str(value), duty.unit, duty.least, duty.greatest, duty.plain_is)
        except Misread as trouble:
            lexicon.fault(rule, key, trouble.wrong, trouble.way_out)
            return ""
        return str(value)


def figures(
    lexicon: Lexicon, own: Sequence[Figure], shipped: Sequence[Figure], rules: Iterable[Plain]
) -> dict[str, Plain]:
    """The figures that a family keeps: its own, and those shipped ones that a kept rule or figure works with."""
    at_hand = {figure.id: figure for figure in (*shipped, *own)}
    names = {figure.id: lexicon.formula(figure, ("formula",), figure.formula) for figure in at_hand.values()}
    wanted = [*(figure.id for figure in own), *(name for rule in rules for name in names_in(rule))]
    kept: set[str] = set()
    while wanted:
        name = wanted.pop()
        if name in at_hand and name not in kept:
            kept.add(name)
            wanted.extend(names[name])
    return {
        id: filled(id=id, formula=figure.formula, label=figure.label, unit=figure.unit, place=plain_place(figure))
        for id, figure in sorted(at_hand.items())
        if id in kept
    }


def names_in(rule: Plain) -> set[str]:
    """Every name that a plain rule works with. Texts that do not read are passed over: they are faults already."""
    conditions = [*rule.get("when", ()), *(rule.get("then", ()) if rule["form"] == "implication" else ())]
    comparisons = [comparison for _, _, _, comparison in conditions if comparison]
    formulas = [rule[key] for key in ("condition", "figure") if rule.get(key)]
    if rule["form"] == "limit":
        comparisons += [rule[key] for key in ("free", "by_arrangement", "advice") if rule.get(key)]
        formulas.append(rule.get("uncertainty", "").removesuffix(OF_VALUE) or "0")
    names = {name for name, _, _, comparison in conditions if comparison}
    for reader, texts in ((language.read_comparison, comparisons), (language.read, formulas)):
        for text in texts:
            try:
                names.update(reader(text).names)
            except Misread:
                continue
    return names


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
