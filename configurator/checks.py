"""What every rule says of one build: the limits as printed lines, the advice, and what an engineer has to sign for."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from itertools import product
from typing import NamedTuple

from configurator import language
from configurator.answer import Check, Note, SignOff
from configurator.catalogue.choices import Option
from configurator.catalogue.names import Missing, Reckoner, Vocabulary
from configurator.catalogue.rules import BY_ARRANGEMENT, FREE, STANDINGS, Limit, Rule
from configurator.limits import Judged
from configurator.rulebook import Rulebook, Said, reach_of, speak
from configurator.units import NUMBER, UNITS, Quantity, show


class Checked(NamedTuple):
    """A build held against every rule. `not_checked` names the rules that nobody could judge for want of a number."""

    standing: str
    checks: tuple[Check, ...]
    advice: tuple[Note, ...]
    sign_offs: tuple[SignOff, ...]
    not_checked: tuple[str, ...]


def check(book: Rulebook, picks: Mapping[str, str], duty: Mapping[str, Quantity]) -> Checked:
    """Hold a whole build (an option id for every choice) against every rule of its family."""
    chosen = book.chosen(picks)
    values = Reckoner(book.vocabulary, chosen, duty)
    worst, checks, advice, sign_offs, not_checked = FREE, [], [], [], []
    for rule in book.vocabulary.family.rules.values():
        missing = _missing(rule, book, chosen, duty)
        if missing is None:
            continue
        if missing:
            if isinstance(rule.body, Limit):
                checks.append(_not_checked(rule, book.vocabulary, missing))
                not_checked.append(rule.id)
            continue
        said = speak(rule, chosen, values)
        worst = max(worst, said.standing)
        if said.judged:
            checks.append(line(rule, said.judged, book.vocabulary, values))
        if said.advised:
            advice.append(Note(rule.id, rule.because))
        if said.standing == BY_ARRANGEMENT:
            scope = sorted(reach_of(rule, book.vocabulary).choices)
            sign_offs.append(SignOff(rule.id, rule.because, tuple(scope)))
    return Checked(STANDINGS[worst], tuple(checks), tuple(advice), tuple(sign_offs), tuple(not_checked))


def _missing(
    rule: Rule, book: Rulebook, chosen: Mapping[str, Option], duty: Mapping[str, Quantity]
) -> tuple[str, ...] | None:
    """The duties that the rule needs and nobody gave; None where its `when` already excludes the build."""
    if not all(one.allows(chosen[one.name].id) for one in rule.body.when if not one.comparison):
        return None
    return tuple(name for name in book.unchecked.get(rule.id, ()) if name not in duty)


def line(rule: Rule, judged: Judged, vocabulary: Vocabulary, values: Reckoner) -> Check:
    """The printed line of a limit that was judged."""
    body = rule.body
    assert isinstance(body, Limit)
    unit = shown_unit(body, vocabulary)
    said = Said(judged.standing, judged.advised, judged)
    standing = "advice" if judged.advised else STANDINGS[said.standing]
    return Check(
        rule=rule.id,
        label=rule.label or rule.id.replace("_", " ").capitalize(),
        value=show(judged.compared, unit),
        limit=worded(judged.threshold, unit, values) if judged.threshold else worded_outside(body.advice, unit, values),
        margin=show(judged.margin, _difference(unit)),
        standing=standing,
        verdict="pass" if standing == "free" else "fail",
        near=judged.near,
        uncertainty=show(judged.band, _difference(unit)) if judged.band else "",
        basis=rule.basis,
        source=rule.source,
        missing=(),
        caution=rule.caution,
    )


def _not_checked(rule: Rule, vocabulary: Vocabulary, missing: tuple[str, ...]) -> Check:
    label = rule.label or rule.id.replace("_", " ").capitalize()
    return Check(
        rule.id, label, "", "", "", "", "not_checked", False, "", rule.basis, rule.source, missing, rule.caution
    )


def shown_unit(limit: Limit, vocabulary: Vocabulary) -> str:
    """The unit in which a limit is read.

    Its own, else its figure's, else the first of the unit table with that dimension.
    """
    if limit.unit:
        return limit.unit
    figure = vocabulary.family.figures.get(limit.figure)
    if figure and figure.unit:
        return figure.unit
    dimension = vocabulary.dimension(limit.figure)
    if dimension == NUMBER:
        return ""
    return next(symbol for symbol, unit in UNITS.items() if unit.dimension == dimension)


def _difference(unit: str) -> str:
    """The unit of a distance between two values: a difference of two temperatures is in K."""
    return "K" if UNITS[unit].dimension.point else unit


def worded(text: str, unit: str, values: Reckoner) -> str:
    """A comparison in words with its numbers: ">= least_wall" -> "at least 2.5 mm"."""
    if not text:
        return ""
    comparison = language.read_comparison(text)
    low = _bound(comparison.low, unit, values)
    high = _bound(comparison.high, unit, values)
    if low and high:
        return f"exactly {low}" if low == high else f"{low} to {high}"
    if low:
        return f"{'more than' if comparison.low_open else 'at least'} {low}"
    return f"{'less than' if comparison.high_open else 'at most'} {high}"


def worded_outside(text: str, unit: str, values: Reckoner) -> str:
    """What a value must be so that a comparison does not hold: "> heavy_height" -> "at most 38.0 mm"."""
    comparison = language.read_comparison(text)
    low = _bound(comparison.low, unit, values)
    high = _bound(comparison.high, unit, values)
    if low and high:
        return f"outside {low} to {high}"
    if low:
        return f"{'at most' if comparison.low_open else 'less than'} {low}"
    return f"{'at least' if comparison.high_open else 'more than'} {high}"


def _bound(formula: language.Formula | None, unit: str, values: Reckoner) -> str:
    return show(language.evaluate(formula, values), unit) if formula else ""


def best(rule: Rule, book: Rulebook, picks: Mapping[str, str], duty: Mapping[str, Quantity]) -> Check | None:
    """A limit at its best over what the picks leave of its scope: the line with the greatest margin.

    None where the rule is not a limit, or where no combination can be judged.
    """
    if not isinstance(rule.body, Limit):
        return None
    scope = sorted(reach_of(rule, book.vocabulary).choices)
    options = [
        [option for option in book.options[book.choices.index(choice)] if picks.get(choice, option.id) == option.id]
        for choice in scope
    ]
    found: tuple[tuple[int, Decimal], Check] | None = None
    for row in product(*options):
        chosen = dict(zip(scope, row, strict=True))
        values = Reckoner(book.vocabulary, chosen, duty)
        try:
            said = speak(rule, chosen, values)
        except (Missing, language.Uncomputable):
            continue
        if said.judged and (found is None or (-said.standing, said.judged.margin) > found[0]):
            found = (-said.standing, said.judged.margin), line(rule, said.judged, book.vocabulary, values)
    return found[1] if found else None
