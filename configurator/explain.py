"""Causes turned into sentences: what a conflict, a misfit or a way out is called when it is said aloud. Nothing is
printed here.

Every word about a particular choice, option or rule comes from the shop's files: labels, helps, a rule's `because` and
`say`. What stands here is grammar.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal

from configurator.answer import Answer, Check, Conflict, WayOut
from configurator.catalogue.choices import Choice
from configurator.catalogue.rules import Rule
from configurator.catalogue.shops import Family
from configurator.enquiry import Misfit

STANDING_WORDS = {
    "free": "",
    "by_arrangement": "by arrangement",
    "impossible": "impossible",
    "closed": "closed",
    "advice": "against advice",
}
"""A standing as it is read in a line; what is free needs no word."""


def label_of(family: Family, choice: str, option: str) -> str:
    """What an option is called. A value as asked, which no file lists, is called by its own text."""
    return next((listed.label for listed in family.choices[choice].options if listed.id == option), option) or option


def named(family: Family, choice: str, option: str) -> str:
    """A pick as it is said: "cooling dry deck", "no sealing ring", "liner fit: pressed in cold".

    The option alone where its label says the choice too ("tall deck").
    """
    label, answer = in_sentence(family.choices[choice].label), in_sentence(label_of(family, choice, option))
    if is_none(family, choice, option):
        return f"no {label}"
    if set(label.lower().split()) <= set(answer.lower().replace(",", " ").split()):
        return answer
    short = max(len(label.split()), len(answer.split())) <= 2 and "," not in answer
    return f"{label} {answer}" if short else f"{label}: {answer}"


def is_none(family: Family, choice: str, option: str) -> bool:
    """Whether an option says that the thing is left out."""
    return label_of(family, choice, option).casefold() == "none"


def named_all(family: Family, picks: Mapping[str, str], joint: str = "and") -> str:
    """Several picks in a sentence, in the order given."""
    return listed((named(family, choice, option) for choice, option in picks.items()), joint)


def listed(names: Iterable[str], joint: str = "and") -> str:
    """One, two or several names as a list: "a", "a and b", "a, b and c"; with semicolons where a name has commas."""
    names = tuple(names)
    if len(names) < 2:
        return "".join(names)
    if any("," in name or ":" in name for name in names):
        return f"{'; '.join(names[:-1])}; {joint} {names[-1]}"
    return f"{', '.join(names[:-1])} {joint} {names[-1]}"


def in_sentence(label: str) -> str:
    """A label without its capital, unless that belongs to it ("M12", "V belt")."""
    return label[:1].lower() + label[1:] if label[1:2].islower() or label.startswith("A ") else label


def begun(sentence: str) -> str:
    """A sentence with its capital."""
    return sentence[:1].upper() + sentence[1:]


def first_sentence(text: str) -> str:
    """The first sentence of a help text, in one line."""
    plain = " ".join(text.split())
    end = min((at + 1 for at in (plain.find(mark + " ") for mark in ".?!") if at >= 0), default=len(plain))
    return plain[:end]


def sum_of(amount: Decimal) -> str:
    """An amount of money with its thousands set apart: "11,130.00"."""
    return f"{amount:,}"


def said_sum(amount: Decimal) -> str:
    """An amount as it is said aloud: "11,130" where it is whole."""
    return f"{int(amount):,}" if amount == int(amount) else sum_of(amount)


def difference_of(difference: Decimal) -> str:
    """A difference in price, always with its sign: "+1,330.00", "-180.00"; nothing where there is none."""
    return f"{difference:+,}" if difference else ""


def many(number: int, noun: str) -> str:
    """So many of something: "1 check", "12 checks"."""
    return f"{number:,} {noun}{'' if number == 1 else 's'}"


def days_of(days: int) -> str:
    """A number of working days."""
    return many(days, "working day")


def day_of(day: date) -> str:
    """A date as it is written in a letter: "26 June 2026"."""
    return f"{day.day} {day:%B} {day.year}"


def headline(family: Family, answer: Answer) -> str:
    """The answer in one sentence that can be read out."""
    if answer.verdict == "not_known":
        return "Not known: there is too much left open to be sure in time. Settle more of it and ask again."
    if answer.verdict == "impossible":
        return f"No: {_why_not(family, answer)}"
    checked = ", as far as it was checked" if answer.not_checked else ""
    what = f"it can be built{_for_how_much(answer)}{checked}"
    if answer.verdict == "by_arrangement":
        return f"By arrangement: {what}, once an engineer has signed for it."
    if answer.build and answer.build.standing == "by_arrangement":
        return f"Yes: {what}. As usual an engineer has to sign for it; there is a way without."
    return f"Yes: {what}."


def _for_how_much(answer: Answer) -> str:
    price = f" for {sum_of(answer.net)} {answer.price.currency} net" if answer.net is not None and answer.price else ""
    return f"{price} in {days_of(answer.working_days)}" if answer.working_days is not None else price


def _why_not(family: Family, answer: Answer) -> str:
    if answer.misfits:
        return in_sentence(misfit_words(family, answer.misfits[0]))
    if not answer.conflicts:
        return "no block can be built that way."
    said = first_sentence(_said(family, answer.conflicts[0]))
    if said and not said.endswith("?"):
        return in_sentence(said)
    return clash_words(family, answer.conflicts[0])


def _said(family: Family, conflict: Conflict) -> str:
    """What the rules of a conflict would have the caller told; the first that says anything."""
    return next((family.rules[rule].say for rule in conflict.rules if family.rules[rule].say), "")


def clash_words(family: Family, conflict: Conflict) -> str:
    """What a conflict is between, as a sentence."""
    between = tuple(conflict.between.items())
    picks = tuple(named(family, *pick) for pick in between)
    if len(picks) == 1:
        return f"{picks[0]} cannot be built."
    if len(picks) > 2 or any("," in pick or ":" in pick for pick in picks):
        return f"these do not go together: {'; '.join(picks)}."
    left_out = [is_none(family, *pick) for pick in between]
    if left_out.count(True) == 1:
        missing = between[left_out.index(True)][0]
        return f"{picks[left_out.index(False)]} does not go without {in_sentence(family.choices[missing].label)}."
    return f"{picks[0]} does not go with {picks[1]}."


def basis_of(rule: Rule) -> str:
    """What a rule rests on, as it is put behind its reason."""
    return f"published: {rule.source}" if rule.basis == "published" and rule.source else rule.basis


def limit_words(check: Check) -> str:
    """A limit held against its value: "deck clearance 1.2 mm, wanted at most 0.75 mm: 0.45 mm beyond"."""
    margin = margin_words(check)
    return f"{check.label} {check.value}, wanted {check.limit}{f': {margin}' if margin else ''}"


def margin_words(check: Check) -> str:
    """How far a value lies inside or outside its limit, as it is said: "0.5 mm to spare", "0.3 m/s beyond"."""
    if not check.margin:
        return ""
    if check.margin.startswith("-"):
        return f"{check.margin.removeprefix('-')} beyond"
    return f"{check.margin} to spare"


def signed_margin(check: Check) -> str:
    """The same in a column: "+0.5 mm", "-0.3 m/s", and a bare nothing."""
    return (
        check.margin
        if check.margin[:1] in ("", "-") or not check.margin.strip("0. ")[:1].isdigit()
        else f"+{check.margin}"
    )


def misfit_words(family: Family, misfit: Misfit) -> str:
    """What was asked for and no option answers, and what comes nearest."""
    known = family.choices.get(misfit.choice)
    label = known.label if known else misfit.choice.replace("_", " ").capitalize()
    joint = "and" if misfit.kind == "two" else "or"
    labels = (in_sentence(label_of(family, misfit.choice, option)) for option in misfit.nearest)
    near = listed(labels, joint) if known else ""
    if misfit.kind == "not_offered":
        return f"{label} is not offered for the {family.label}."
    if misfit.kind == "two":
        return f"{label} {misfit.given} fits {near} alike. Measure once more, or say which it is."
    if misfit.kind == "clash":
        return f"{label} was measured twice, and {misfit.given} cannot both be. Measure once more."
    if misfit.kind == "outside" and len(misfit.nearest) > 1:
        return f"{label} {misfit.given} lies between our steps.{_nearest(near)}"
    if misfit.kind == "outside":
        return f"{label} {misfit.given} is outside what we make{_range_words(known)}.{_nearest(near)}"
    return f"{label} {misfit.given} fits nothing we know.{_nearest(near)} Measure once more."


def _range_words(choice: Choice | None) -> str:
    legal = choice.range if choice else None
    return f": {legal.least} to {legal.greatest} in steps of {legal.step}" if legal else ""


def _nearest(near: str) -> str:
    return f" Nearest: {near}." if near else ""


def way_words(family: Family, way: WayOut) -> str:
    """The change of a way out. A have cannot be wished otherwise: it is only so if it is so in truth."""
    if way.kind == "measure_again":
        return f"measure once more: it would fit with {named_all(family, way.change)}"
    haves = {id: option for id, option in way.change.items() if family.choices[id].asks == "have"}
    wants = {id: option for id, option in way.change.items() if id not in haves}
    in_truth = f"only if in truth {named_all(family, haves)}" if haves else ""
    return "; ".join(filter(None, (named_all(family, wants), in_truth)))


def spoken(family: Family, answer: Answer) -> str:
    """A sentence for the caller: why not, as the rules put it, and what can be had instead, at what price."""
    if answer.verdict != "impossible" or not answer.conflicts:
        return ""
    said = _said(family, answer.conflicts[0]) or begun(clash_words(family, answer.conflicts[0]))
    wishes = [way for way in answer.ways_out if way.kind == "change" and way.net is not None][:2]
    if wishes:
        offers = [_offer(family, way, answer.currency) for way in wishes]
        return f"{said} I can do it {', or '.join(offers)}."
    if said.endswith("?") or not any(way.kind == "measure_again" for way in answer.ways_out):
        return said
    return f"{said} Could you measure once more?"


def _offer(family: Family, way: WayOut, currency: str) -> str:
    price = f"for {said_sum(way.net)} {currency} net " if way.net is not None else ""
    arranged = ", once our engineer has signed for it" if way.standing == "by_arrangement" else ""
    return f"{price}with {named_all(family, way.change)}{arranged}"


def duty_words(family: Family, names: Iterable[str]) -> str:
    """Duties that nobody has stated yet, each with the flag that states it."""
    return listed(f"{in_sentence(_label(family, name))} (--duty {name})" for name in names)


def missing_words(family: Family, names: Iterable[str]) -> str:
    """Names of what nobody has said yet, duties and choices, by their labels."""
    return listed(in_sentence(_label(family, name)) for name in names)


def _label(family: Family, name: str) -> str:
    if name in family.duties:
        return family.duties[name].label or name
    if name in family.choices:
        return family.choices[name].label
    return name.replace("_", " ")


def help_of(family: Family, name: str) -> str:
    """How a fact or a choice is found out, in a sentence."""
    asked = family.duties.get(name) or family.choices.get(name)
    return first_sentence(asked.help) if asked else ""


def to_settle(family: Family, answer: Answer) -> tuple[str, ...]:
    """The choices that are still to settle, haves first, then by heading in the order of the family."""
    headings = {heading: place for place, heading in enumerate(family.headings)}

    def place(id: str) -> tuple[bool, int, str]:
        choice = family.choices.get(id)
        if choice is None:
            return True, len(headings), id
        return choice.asks != "have", headings.get(choice.heading, len(headings)), id

    return tuple(sorted(answer.still_to_settle, key=place))
