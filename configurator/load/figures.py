"""The figures that a family keeps, its own and the trade's, in plain form."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from configurator import language
from configurator.limits import OF_VALUE
from configurator.load.lexicon import Lexicon, Plain, filled, plain_place
from configurator.load.shapes import Figure
from configurator.load.trade import circle_in
from configurator.units import Misread

DEEPEST = 64


def figures(
    lexicon: Lexicon, own: Sequence[Figure], shipped: Sequence[Figure], rules: Iterable[Plain]
) -> dict[str, Plain]:
    """The figures that a family keeps: its own, and those shipped ones that a kept rule or figure works with."""
    at_hand = {figure.id: figure for figure in (*shipped, *own)}
    names = {figure.id: lexicon.formula(figure, ("formula",), figure.formula) for figure in at_hand.values()}
    _not_too_deep(lexicon, at_hand, names)
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


def _not_too_deep(lexicon: Lexicon, figures: Mapping[str, Figure], names: Mapping[str, Sequence[str]]) -> None:
    """Figures may rest on figures, but not without end: whoever works them out goes down as many steps."""
    left = {id: {name for name in names[id] if name in figures} for id in figures}
    for _ in range(DEEPEST):
        left = {id: below for id, below in left.items() if below & left.keys()}
    ring = circle_in({id: sorted(below & left.keys()) for id, below in sorted(left.items())})
    if left:
        first = ring[0] if ring else min(left)
        wrong = f"goes in a circle: {' -> '.join([*ring, first])}" if ring else f"rests on more than {DEEPEST} others"
        lexicon.fault(figures[first], ("formula",), wrong, "work one of them out without the others")


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
