"""A shop's rules put to the test: examples beside rules, options that no build has, expected answers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from configurator import language
from configurator.answer import Answer
from configurator.case import Case, option_as_asked
from configurator.catalogue.choices import Choice, Option
from configurator.catalogue.names import Missing, Reckoner
from configurator.catalogue.rules import FREE, Example, Rule
from configurator.catalogue.shops import Expected, Family
from configurator.catalogue.steps import option_id
from configurator.completing import CLOSED
from configurator.desk import Desk, answer, lay
from configurator.enquiry import Enquiry
from configurator.faults import Faulty, Place
from configurator.load.enquiry import enquiry_of
from configurator.rulebook import Rulebook, reach_of, speak
from configurator.units import Misread, Quantity, read_quantity


class Finding(NamedTuple):
    """One thing that an engineer should look at: where, about what, what is wrong, and what to do."""

    place: Place
    about: str
    wrong: str
    way_out: str = ""


class Census(NamedTuple):
    """How large a family's space is, and how its choices hang together: `component` counts the largest tied group."""

    family: str
    label: str
    choices: int
    rules: int
    free: int
    by_arrangement: int
    component: int
    untied: tuple[str, ...]


class Findings(NamedTuple):
    """What a run of lint saw. Nothing to mend where `findings` is empty."""

    census: tuple[Census, ...]
    examples: int
    expected: int
    findings: tuple[Finding, ...]


def lint(desk: Desk, today: date) -> Findings:
    """Run every example and every expected answer of a shop, and look for options that no build has."""
    census, findings, examples, expected = [], [], 0, 0
    for family in desk.shop.families.values():
        case = lay(desk, Enquiry(family.id, {}), today)
        census.append(_census(family, case))
        findings += _dead_options(family, case)
        for rule in family.rules.values():
            ours = [example for example in (*rule.passes, *rule.fails) if _speaks_of(example, family)]
            examples += len(ours)
            findings += _examples(rule, case.book, family)
        for one in family.expected:
            expected += 1
            findings += _expected(desk, one, today)
    return Findings(tuple(census), examples, expected, tuple(sorted(findings)))


def _census(family: Family, case: Case) -> Census:
    free, by_arrangement = case.space.count()
    group = {number: number for number in range(len(case.book.choices))}

    def head(number: int) -> int:
        while group[number] != number:
            number = group[number]
        return number

    tied: set[int] = set()
    for table in case.book.tables:
        if len(table.scope) > 1:
            tied.update(table.scope)
        for number in table.scope[1:]:
            group[head(number)] = head(table.scope[0])
    heads = [head(number) for number in tied]
    component = max((heads.count(one) for one in heads), default=0)
    untied = tuple(choice for number, choice in enumerate(case.book.choices) if number not in tied)
    return Census(
        family.id, family.label, len(case.book.choices), len(family.rules), free, by_arrangement, component, untied
    )


def _dead_options(family: Family, case: Case) -> Iterator[Finding]:
    for number, kinds in enumerate(case.space.standings()):
        choice = case.book.choices[number]
        for option, kind in zip(case.book.options[number], kinds, strict=True):
            about = f"{choice}={option.id}"
            if kind == CLOSED and not option.refused_with:
                why = ", ".join(case.space.rules_behind(dict([case.book.numbered(choice, option.id)])))
                way_out = 'mend the rule, take the option away, or keep it to be refused with refused_with = "RULE"'
                yield Finding(option.place, about, f"no build has this option; refused by {why}", way_out)
            if kind != CLOSED and option.refused_with:
                wrong = f"is kept to be refused with {option.refused_with}, but builds have it"
                yield Finding(option.place, about, wrong, "take refused_with away, or mend the rule")


def _examples(rule: Rule, book: Rulebook, family: Family) -> Iterator[Finding]:
    """Examples that do not come out as they stand. Those that speak of another family's options are left to it."""
    if not rule.passes or not rule.fails:
        missing = " and ".join(kind for kind, some in (("passes", rule.passes), ("fails", rule.fails)) if not some)
        yield Finding(rule.place, rule.id, f"has no example of {missing}", "give one of each beside the rule")
    for must_pass, examples in ((True, rule.passes), (False, rule.fails)):
        for example in examples:
            if _speaks_of(example, family):
                yield from _example(rule, example, must_pass, book, family)


def _example(rule: Rule, example: Example, must_pass: bool, book: Rulebook, family: Family) -> Iterator[Finding]:
    said = ", ".join(f"{name} = {value}" for name, value in example.picks.items())
    try:
        options, duty = _combination(example, family)
        lacking = sorted(reach_of(rule, book.vocabulary).choices - set(options))
        found = speak(rule, options, Reckoner(book.vocabulary, options, duty))
    except (Missing, KeyError) as missing:
        name = missing.name if isinstance(missing, Missing) else str(missing.args[0])
        wrong = f"the example ({said}) does not say {', '.join(lacking) if lacking else name}"
        yield Finding(example.place, rule.id, wrong, "name every choice and duty that the rule looks at")
        return
    except (Misread, language.Uncomputable) as trouble:
        yield Finding(example.place, rule.id, f"the example ({said}) cannot be worked out: {trouble}")
        return
    passed = found.standing == FREE and not found.advised
    if passed is not must_pass:
        wrong = f"the example ({said}) should {'pass' if must_pass else 'fail'} and does not"
        yield Finding(example.place, rule.id, wrong, "mend the rule or the example")


def _speaks_of(example: Example, family: Family) -> bool:
    """Whether the example names only choices, options and duties of this family, or is marked for it."""
    if example.picks.get("family", family.id) != family.id:
        return False
    for name, value in example.picks.items():
        choice = family.choices.get(name)
        if choice is None:
            if name != "family" and name not in family.duties:
                return False
        elif choice.range is None and all(option.id != value for option in choice.options):
            return False
    return True


def _combination(example: Example, family: Family) -> tuple[dict[str, Option], dict[str, Quantity]]:
    options: dict[str, Option] = {}
    duty: dict[str, Quantity] = {}
    for name, value in example.picks.items():
        if name in family.duties:
            told = family.duties[name]
            duty[name] = read_quantity(value, told.unit, told.least, told.greatest, told.plain_is)
        elif name in family.choices:
            options[name] = _option(family.choices[name], value)
    return options, duty


def _option(choice: Choice, value: str) -> Option:
    if choice.range is None:
        return choice.option(value)
    text = option_id(choice.range, read_quantity(value, choice.range.unit).value)
    return next((option for option in choice.options if option.id == text), None) or option_as_asked(choice, text)


def _expected(desk: Desk, expected: Expected, today: date) -> Iterator[Finding]:
    """An expected answer that comes out otherwise, with old and new standing and price."""
    try:
        found = answer(desk, enquiry_of(expected.enquiry, desk.shop, expected.place), today)
    except Faulty as faulty:
        yield Finding(expected.place, expected.id, f"its enquiry cannot be read: {faulty.faults[0].wrong}")
        return
    wanted, got = _told(expected.verdict, expected.net), _told(found.verdict, _net(found) if expected.net else "")
    if wanted != got:
        wrong = f"expected {wanted}, came out {got}"
        yield Finding(expected.place, expected.id, wrong, f"it stands there because: {expected.why}")


def _told(verdict: str, net: str) -> str:
    return f"{verdict}, {Decimal(net.replace(',', ''))} net" if net else verdict


def _net(found: Answer) -> str:
    """The net of the completed build; of an impossible enquiry that of its first way out."""
    if found.net is not None:
        return str(found.net)
    return next((str(way.net) for way in found.ways_out if way.net is not None), "")
