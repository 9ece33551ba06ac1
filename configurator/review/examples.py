"""The examples beside a rule, each asked of that rule alone."""

from __future__ import annotations

from collections.abc import Iterator

from configurator import language
from configurator.case import option_as_asked
from configurator.catalogue.choices import Choice, Option
from configurator.catalogue.names import Missing, Reckoner, Vocabulary
from configurator.catalogue.rules import FREE, Example, Rule
from configurator.catalogue.shops import Family
from configurator.catalogue.steps import option_id
from configurator.review.findings import Finding
from configurator.rulebook import reach_of, speak
from configurator.units import Misread, Quantity, read_quantity


def check_examples(rule: Rule, vocabulary: Vocabulary) -> Iterator[Finding]:
    """Examples that are missing, and those that do not come out as they stand."""
    if not rule.passes or not rule.fails:
        missing = " and ".join(kind for kind, some in (("passes", rule.passes), ("fails", rule.fails)) if not some)
        wrong = f"has no example of {missing}"
        yield Finding(rule.place, rule.id, wrong, "give one of each beside the rule", "example")
    for must_pass, examples in ((True, rule.passes), (False, rule.fails)):
        for example in examples:
            if speaks_of(example, vocabulary.family):
                yield from _check(rule, example, must_pass, vocabulary)


def _check(rule: Rule, example: Example, must_pass: bool, vocabulary: Vocabulary) -> Iterator[Finding]:
    said = ", ".join(f"{name} = {value}" for name, value in example.picks.items())
    try:
        options, duty = combination(example, vocabulary.family)
        lacking = sorted(reach_of(rule, vocabulary).choices - set(options))
        found = speak(rule, options, Reckoner(vocabulary, options, duty))
    except (Missing, KeyError) as missing:
        name = missing.name if isinstance(missing, Missing) else str(missing.args[0])
        wrong = f"the example ({said}) does not say {', '.join(lacking) if lacking else name}"
        way_out = "name every choice and duty that the rule looks at"
        yield Finding(example.place, rule.id, wrong, way_out, "example")
        return
    except (Misread, language.Uncomputable) as trouble:
        wrong = f"the example ({said}) cannot be worked out: {trouble}"
        yield Finding(example.place, rule.id, wrong, "", "example")
        return
    passed = found.standing == FREE and not found.advised
    if passed is not must_pass:
        wrong = f"the example ({said}) should {'pass' if must_pass else 'fail'} and does not"
        yield Finding(example.place, rule.id, wrong, "mend the rule or the example", "example")


def speaks_of(example: Example, family: Family) -> bool:
    """Whether the example names only choices, options and duties of this family, or is marked for it.

    Those that speak of another family's options are left to it.
    """
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


def combination(example: Example, family: Family) -> tuple[dict[str, Option], dict[str, Quantity]]:
    """The options and the duty that an example names."""
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
