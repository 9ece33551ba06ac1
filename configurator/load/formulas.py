"""The names and units of every formula of a family, checked once when the shop is read."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from configurator import language
from configurator.catalogue.conditions import Condition
from configurator.catalogue.names import Vocabulary
from configurator.catalogue.rules import Implication, Limit, Rule
from configurator.catalogue.shops import Family
from configurator.faults import Fault, Place
from configurator.limits import OF_VALUE
from configurator.units import NUMBER, Dimension, Misread


class _Text(NamedTuple):
    """One formula or comparison where it stands. `kind` is formula, question (of `if`) or comparison (of `subject`)."""

    place: Place
    key: str
    kind: str
    text: str
    subject: str = ""


def check_formulas(family: Family) -> list[Fault]:
    """Faults in the family's formulas: names nobody knows or two things bear, circles of figures, units that clash."""
    vocabulary = Vocabulary(family)
    faults = [*_two_meanings(vocabulary), *_circles(family)]
    if not faults:
        faults += [fault for text in _texts(family) if (fault := _check(text, vocabulary))]
        faults += [fault for rule in family.rules.values() for fault in _facts_lacking(rule, vocabulary)]
    return faults


def _two_meanings(vocabulary: Vocabulary) -> Iterator[Fault]:
    for name, meanings in vocabulary.meanings.items():
        if len(meanings) > 1:
            said = " and ".join(f"a {one.kind}" + (f" of {one.choice}" if one.choice else "") for one in meanings)
            wrong = f"has two meanings: it is {said}"
            yield Fault(vocabulary.family.place, name, wrong, "Give one of them another name.")


def _circles(family: Family) -> Iterator[Fault]:
    """Figures that are worked out from themselves; each circle is told once, where its first figure stands."""
    done: set[str] = set()

    def walk(name: str, way: tuple[str, ...]) -> tuple[str, ...]:
        if name in way:
            return (*way[way.index(name) :], name)
        if name in done or name not in family.figures:
            return ()
        try:
            names = language.read(family.figures[name].formula).names
        except Misread:
            names = ()
        circle = next((found for one in names if (found := walk(one, (*way, name)))), ())
        done.add(name)
        return circle

    for figure in family.figures.values():
        if circle := walk(figure.id, ()):
            wrong = f"goes in a circle: {' -> '.join(circle)}"
            yield Fault(figure.place, f"figure {figure.id}", wrong, "Work one of them out without the others.")


def _texts(family: Family) -> Iterator[_Text]:
    for figure in family.figures.values():
        yield _Text(figure.place, f"figure {figure.id}, formula", "formula", figure.formula)
    for rule in family.rules.values():
        yield from _texts_of(rule)


def _texts_of(rule: Rule) -> Iterator[_Text]:
    body, where = rule.body, f"rule {rule.id}"
    conditions: tuple[Condition, ...] = body.when
    if isinstance(body, Implication):
        conditions += body.then
        if body.condition:
            yield _Text(rule.place, f"{where}, if", "question", body.condition)
    if isinstance(body, Limit):
        yield _Text(rule.place, f"{where}, figure", "formula", body.figure)
        for key, text in (("free", body.free), ("by_arrangement", body.by_arrangement), ("advice", body.advice)):
            if text:
                yield _Text(rule.place, f"{where}, {key}", "comparison", text, body.figure)
        if body.uncertainty:
            share = body.uncertainty.endswith(OF_VALUE)
            text = body.uncertainty.removesuffix(OF_VALUE)
            yield _Text(rule.place, f"{where}, uncertainty", "share" if share else "band", text, body.figure)
    for one in conditions:
        if one.comparison:
            yield _Text(rule.place, f"{where}, when {one.name}", "comparison", one.comparison, one.name)


def _check(text: _Text, vocabulary: Vocabulary) -> Fault | None:
    def dimension(name: str) -> Dimension:
        meanings = vocabulary.meanings.get(name)
        if meanings is None:
            raise Misread(f"nothing here is called {name!r}", _nearest(name, vocabulary))
        if meanings[0].kind == "tally":
            way_out = "Use the fact of one choice under a name of its own."
            raise Misread(f"{name!r} is added up over all options", way_out)
        return vocabulary.dimension(name)

    try:
        if text.kind == "comparison":
            language.check_comparison(language.read_comparison(text.text), dimension(text.subject), dimension)
            return None
        found = language.dimension_of(language.read(text.text), dimension)
        if text.kind == "question" and isinstance(found, Dimension):
            raise Misread(f"{text.text!r} is {found}, not a question", "Compare it: write >= or < and a bound.")
        if text.kind != "question" and not isinstance(found, Dimension):
            raise Misread(f"{text.text!r} is a question, not a quantity", "Write what is to be worked out.")
        if text.kind == "share" and found != NUMBER:
            raise Misread(f"{text.text!r} is {found}, not a share", 'Write a share such as "25 % of value".')
        if text.kind == "band" and found != dimension(text.subject)._replace(point=False):
            wrong = f"{text.text!r} is {found}, but {text.subject} is {dimension(text.subject)}"
            raise Misread(wrong, 'Write a band of the same kind, or a share: "25 % of value".')
    except Misread as misread:
        return Fault(text.place, text.key, misread.wrong, misread.way_out)
    except KeyError:
        return None  # a figure behind this text names what nobody knows, which is told where that figure stands
    return None


def _nearest(name: str, vocabulary: Vocabulary) -> str:
    from difflib import get_close_matches

    near = get_close_matches(name, vocabulary.meanings, 1)
    return f"Nearest: {near[0]}." if near else "A name is a numeric choice, a fact, a duty or a figure."


def _facts_lacking(rule: Rule, vocabulary: Vocabulary) -> Iterator[Fault]:
    """Facts that the rule works with and that an option lacks, unless the rule's `when` excludes the option."""
    excluded = {one.name: one for one in rule.body.when if not one.comparison}
    names = {name for text in _texts_of(rule) for name in (*_names_of(text), *([text.subject] if text.subject else []))}
    for name in sorted(_facts_behind(names, vocabulary)):
        choice = vocabulary.family.choices[vocabulary.meanings[name][0].choice]
        for option in choice.options:
            spared = choice.id in excluded and not excluded[choice.id].allows(option.id)
            if name not in option.facts and not spared:
                wrong = f"needs the fact {name!r}, which {choice.id}={option.id} lacks"
                way_out = f"Give it in facts = {{ {name} = ... }}, or exclude the option by the rule's `when`."
                yield Fault(option.place, f"rule {rule.id}", wrong, way_out)


def _names_of(text: _Text) -> tuple[str, ...]:
    return language.read_comparison(text.text).names if text.kind == "comparison" else language.read(text.text).names


def _facts_behind(names: set[str], vocabulary: Vocabulary) -> set[str]:
    facts: set[str] = set()
    open_names, seen = list(names), set(names)
    while open_names:
        name = open_names.pop()
        meaning = vocabulary.meanings.get(name, (None,))[0]
        if meaning is None:
            continue
        if meaning.kind == "option fact":
            facts.add(name)
        elif meaning.kind == "figure":
            new = set(language.read(vocabulary.family.figures[name].formula).names) - seen
            seen |= new
            open_names.extend(new)
    return facts
