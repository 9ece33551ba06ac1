"""The whole effect of an edit: what two versions of a shop allow, forbid and answer otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from configurator.case import Case
from configurator.catalogue.rules import Rule
from configurator.catalogue.shops import Family
from configurator.completing import CLOSED
from configurator.desk import Desk, lay
from configurator.enquiry import Enquiry
from configurator.faults import NotKnown, Place
from configurator.review.bench import Bench, bench_of
from configurator.review.consequences import Kept, Shift, quote_shifts, scenario_shifts
from configurator.review.difference import Difference, compare
from configurator.review.findings import Told, silent
from configurator.review.overlap import Overlap, meet
from configurator.review.trials import is_pointless, try_rule
from configurator.review.witnesses import Witness, bear_witness


class Edited(NamedTuple):
    """Ids that one version has and the other lacks, and rules that both have and that are written otherwise.

    Options are told as "choice=option". `waiting` are those of the rules that ask for a duty: what they allow depends
    on it, and is not counted.
    """

    choices_added: tuple[str, ...]
    choices_gone: tuple[str, ...]
    options_added: tuple[str, ...]
    options_gone: tuple[str, ...]
    rules_added: tuple[str, ...]
    rules_gone: tuple[str, ...]
    rules_altered: tuple[str, ...]
    waiting: tuple[str, ...]


class FamilyEffect(NamedTuple):
    """The effect on one family. `difference` is None where it is not known, and `unknown` says why.

    `pointless` and `dead` are the rules and options ("choice=option") that were not so before.
    """

    family: str
    label: str
    edited: Edited
    difference: Difference | None
    witnesses: Mapping[str, Witness]
    pointless: tuple[str, ...] = ()
    dead: tuple[str, ...] = ()
    unknown: str = ""

    @property
    def changed(self) -> bool:
        """Whether any build, choice or option is another."""
        found, edited = self.difference, self.edited
        moved = found is None or any(number for (before, after), number in found.moves.items() if before != after)
        return moved or any((edited.choices_added, edited.choices_gone, edited.options_added, edited.options_gone))


class Effect(NamedTuple):
    """The effect on a shop: on families that both versions have, and on enquiries that are known."""

    families: tuple[FamilyEffect, ...]
    families_added: tuple[str, ...]
    families_gone: tuple[str, ...]
    scenarios: tuple[Shift, ...]
    quotes: tuple[Shift, ...]

    @property
    def changed(self) -> bool:
        """Whether any caller could get another answer."""
        of_families = any(family.changed for family in self.families)
        return of_families or any((self.families_added, self.families_gone, self.scenarios, self.quotes))

    @property
    def broke(self) -> bool:
        """Whether an answer that the new version expects comes out otherwise."""
        return any(shift.broke for shift in self.scenarios)

    @property
    def unknown(self) -> bool:
        """Whether some part of it is not known."""
        return any(family.unknown for family in self.families)


def effect(old: Desk, new: Desk, today: date, quotes: Iterable[Kept] = (), told: Told = silent) -> Effect:
    """Compare two versions of a shop at the price lists of the day; kept quotes at those of their own day."""
    before, after = old.shop.families, new.shop.families
    common = sorted(before.keys() & after.keys())
    told("asking the expected answers of both versions")
    scenarios = tuple(scenario_shifts(old, new, today))
    told("asking the kept quotes of both versions")
    return Effect(
        tuple(_family(_plain_case(old, id, today), _plain_case(new, id, today), told) for id in common),
        tuple(sorted(after.keys() - before.keys())),
        tuple(sorted(before.keys() - after.keys())),
        scenarios,
        tuple(quote_shifts(old, new, quotes)),
    )


def _plain_case(desk: Desk, family: str, today: date) -> Case:
    return lay(desk, Enquiry(family, {}), today)


def _family(old: Case, new: Case, told: Told) -> FamilyEffect:
    family, edited = new.family, _edited(old, new)
    told(f"{family.id}: counting the builds of both versions")
    benches = bench_of(old), bench_of(new)
    try:
        overlap = meet(old.book, new.book)
        difference = _compare(overlap, *benches)
        witnesses = dict(_witnesses(overlap, difference, *benches))
    except NotKnown as trouble:
        return FamilyEffect(family.id, family.label, edited, None, {}, unknown=str(trouble))
    told(f"{family.id}: looking for rules that became pointless")
    pointless, dead = tuple(_pointless(*benches)), tuple(sorted(_dead(new) - _dead(old)))
    return FamilyEffect(family.id, family.label, edited, difference, witnesses, pointless, dead)


def _compare(overlap: Overlap, old: Bench, new: Bench) -> Difference:
    known = [new.book.choices[number] for number in new.case.space.order]
    order = [overlap.choices.index(choice) for choice in known if choice in overlap.choices]
    return compare(overlap, order, *(_usual(overlap, bench) for bench in (old, new)))


def _usual(overlap: Overlap, bench: Bench) -> tuple[int, ...]:
    """A side's usual build over the common choices; an option that the other side lacks counts as unusual."""
    picks = bench.book.picks(bench.usual)
    options = zip(overlap.choices, overlap.options, strict=True)
    return tuple(known.index(picks[choice]) if picks[choice] in known else -1 for choice, known in options)


def _witnesses(overlap: Overlap, difference: Difference, old: Bench, new: Bench) -> Iterator[tuple[str, Witness]]:
    for change, build in difference.witnesses.items():
        usual = new if change in ("added", "freed") else old
        picks, as_usual = overlap.picks(build), usual.book.picks(usual.usual)
        yield change, bear_witness(old.case.book, new.case.book, picks, as_usual)


def _pointless(old: Bench, new: Bench) -> Iterator[str]:
    """The rules of the new version that change nothing, and that were missing or of use in the old."""
    were = old.family.rules
    for id, rule in new.family.rules.items():
        if id in new.tables and _is_pointless(new, rule) and not (id in old.tables and _is_pointless(old, were[id])):
            yield id


def _is_pointless(bench: Bench, rule: Rule) -> bool:
    try:
        trial = try_rule(bench, rule)
    except NotKnown:
        return False
    return trial.idle or is_pointless(trial)


def _dead(case: Case) -> set[str]:
    """The options that no build has."""
    kinds = zip(case.book.choices, case.book.options, case.space.standings(), strict=True)
    return {
        f"{choice}={option.id}"
        for choice, options, standings in kinds
        for option, standing in zip(options, standings, strict=True)
        if standing == CLOSED
    }


def _edited(old: Case, new: Case) -> Edited:
    before, after = _options(old.family), _options(new.family)
    common = sorted(before.keys() & after.keys())

    def lacking(here: Mapping[str, Sequence[str]], there: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
        return tuple(f"{choice}={one}" for choice in common for one in here[choice] if one not in there[choice])

    rules, were = new.family.rules, old.family.rules
    altered = tuple(id for id in sorted(rules.keys() & were.keys()) if _unplaced(rules[id]) != _unplaced(were[id]))
    added, gone = tuple(sorted(rules.keys() - were.keys())), tuple(sorted(were.keys() - rules.keys()))
    waiting = tuple(id for id in (*added, *gone, *altered) if id in {**old.book.unchecked, **new.book.unchecked})
    return Edited(
        tuple(sorted(after.keys() - before.keys())),
        tuple(sorted(before.keys() - after.keys())),
        lacking(after, before),
        lacking(before, after),
        added,
        gone,
        altered,
        waiting,
    )


def _options(family: Family) -> dict[str, tuple[str, ...]]:
    return {id: tuple(option.id for option in choice.options) for id, choice in family.choices.items()}


def _unplaced(rule: Rule) -> Rule:
    """The rule wherever it is written."""
    examples = (tuple(one._replace(place=Place("")) for one in some) for some in (rule.passes, rule.fails))
    passes, fails = examples
    return rule._replace(place=Place(""), passes=passes, fails=fails)
