"""What was said, understood in one family: choices and options found by id, label or alias, values held against ranges.

Three ends are kept apart. What nobody knows is a fault, with the nearest word. What is known but cannot be had here
is a misfit: a no, with the nearest answers. All else is a pick.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from configurator.catalogue.choices import Choice, Option, Range
from configurator.catalogue.shops import Family, Shop
from configurator.catalogue.steps import neighbours, option_id, step_of
from configurator.enquiry import Misfit, Pick
from configurator.faults import Fault, Place
from configurator.load.measuring import is_count_alone, match, read_measured, sole_measure, text_of
from configurator.load.sheets import COMMAND_LINE, Sheet, Told
from configurator.load.words import alike, suggest
from configurator.units import Misread, Quantity, read_quantity


class Understood(NamedTuple):
    """What was said of a choice: a pick, or the misfit that stands in its place; `known` is the evidence for either."""

    known: str
    pick: Pick | None = None
    misfit: Misfit | None = None


class Hearing:
    """One family listening: picks, misfits and duties after all that was said, and notices of what was replaced."""

    def __init__(self, shop: Shop, family: Family) -> None:
        self.shop, self.family = shop, family
        self.picks: dict[str, Pick] = {}
        self.misfits: dict[str, Misfit] = {}
        self.duty: dict[str, Quantity] = {}
        self.faults: list[Fault] = []
        self.notices: list[str] = []
        self._known: dict[str, str] = {}  # the evidence for what stands of each choice, pick or misfit
        self._choices = _by_word(family.choices.values())
        self._duties = _by_word(family.duties.values())

    def hear(self, sheet: Sheet) -> None:
        """Take in one source; what it says of a choice replaces what was said before."""
        for told in sheet.picks:
            self._guarded(told, self._pick)
        for told in sheet.duty:
            self._guarded(told, self._take_duty)

    def forget(self, word: str) -> None:
        """Drop what was said of one choice or duty."""
        choice, duty = self._choices.get(alike(word)), self._duties.get(alike(word))
        if choice is None and duty is None and word not in self.misfits:
            known = [*self.family.choices, *self.family.duties]
            wrong = f"{self.family.label} knows no {word}"
            self.faults.append(Fault(COMMAND_LINE, "--without", wrong, suggest(word, known, "choices")))
        for id in (word, *(known.id for known in (choice, duty) if known)):
            self.picks.pop(id, None)
            self.misfits.pop(id, None)
            self.duty.pop(id, None)
            self._known.pop(id, None)

    def _guarded(self, told: Told, take: Callable[[Told], None]) -> None:
        try:
            take(told)
        except Misread as trouble:
            self._fault(told, trouble.wrong, trouble.way_out)

    def _fault(self, told: Told, wrong: str, way_out: str) -> None:
        self.faults.append(Fault(told.where(), told.key, wrong, way_out))

    def _pick(self, told: Told) -> None:
        choice = self._choices.get(alike(told.name))
        if choice is None:
            self._unknown(told)
            return
        if told.asks and told.asks != choice.asks:
            wrong = f"{choice.id} stands under [{told.asks}], and is a {choice.asks}"
            self._fault(told, wrong, f"write it under [{choice.asks}]")
        elif choice.asks == "want" and told.known:
            wrong = f"{choice.id} is a want: there is nothing to find out about it"
            self._fault(told, wrong, f"say {choice.id}=... alone")
        else:
            self._settle(choice, self._understood(choice, told))

    def _unknown(self, told: Told) -> None:
        """A choice that this family lacks: a no where somebody knows it, else a fault."""
        word = alike(told.name)
        others = [family for family in self.shop.families.values() if family is not self.family]
        ids = {choice.id for family in others if (choice := _by_word(family.choices.values()).get(word))}
        ids |= {id for id in self.shop.foreign if alike(id) == word}
        if ids:
            id = min(ids)
            self.misfits[id] = Misfit(id, _shown(told.value), "not_offered", (), _file_of(told))
        elif word in self._duties:
            duty = self._duties[word].id
            self._fault(told, f"{duty} is a duty, not a choice", f"say --duty {duty}=..., or write it under [duty]")
        else:
            way_out = suggest(told.name, self.family.choices, "choices")
            self._fault(told, f"{self.family.label} has no choice {told.name}", way_out)

    def _understood(self, choice: Choice, told: Told) -> Understood:
        """The pick that is meant, or why there is none. Misread for what nobody can have meant."""
        if isinstance(told.value, Mapping):
            if choice.asks == "want" or choice.range:
                raise Misread(f"{choice.id} is not found out by measuring", f'say {choice.id} = "..."')
            return self._measured(choice, told, told.value)
        text = text_of(told.value)
        option = _option(choice, text)
        if option is None and choice.range:
            return self._numeric(choice, told, text)
        if option is None and any(one.measures for one in choice.options) and any(mark.isdigit() for mark in text):
            return self._measured(choice, told, {sole_measure(choice, text): text})
        if option is None:
            return self._not_here(choice, told, text)
        known = _evidence(choice, told)
        return Understood(known, Pick(option.id, known, {}, _file_of(told)))

    def _not_here(self, choice: Choice, told: Told, text: str) -> Understood:
        """An option that this family lacks and another has. Misread where nobody has it."""
        options = tuple(option.id for option in choice.options)
        for family in self.shop.families.values():
            theirs = family.choices.get(choice.id)
            if theirs and theirs is not choice and _option(theirs, text):
                misfit = Misfit(choice.id, text, "not_offered", options, _file_of(told))
                return Understood(_evidence(choice, told), None, misfit)
        raise Misread(f"{choice.id} has no option {text}", suggest(text, options, f"options of {choice.id}"))

    def _numeric(self, choice: Choice, told: Told, text: str) -> Understood:
        legal = choice.range
        assert legal is not None
        quantity = read_quantity(text, legal.unit, legal.least, legal.greatest)
        known = _evidence(choice, told)
        if step_of(legal, quantity.value) is None:
            misfit = Misfit(choice.id, str(quantity), "outside", _nearest(legal, quantity), _file_of(told))
            return Understood(known, None, misfit)
        measured = {choice.id: quantity} if choice.asks == "have" else {}
        return Understood(known, Pick(option_id(legal, quantity.value), known, measured, _file_of(told)))

    def _measured(self, choice: Choice, told: Told, given: Mapping[str, Any]) -> Understood:
        measured = read_measured(choice, given)
        known = _evidence(choice, told)
        if told.known in ("", "measured") and is_count_alone(measured):
            known = "looked"
        found = match(choice, measured)
        if len(found.options) == 1:
            return Understood(known, Pick(found.options[0], known, measured, _file_of(told)))
        kind = "two" if found.options else "none"
        return Understood(known, None, Misfit(choice.id, found.given, kind, found.nearest, _file_of(told)))

    def _settle(self, choice: Choice, heard: Understood) -> None:
        """Put what was understood in the place of what was said before; measuring is not undone by telling."""
        old, pick, misfit = self.picks.get(choice.id), heard.pick, heard.misfit
        if choice.id in self.misfits and self.misfits[choice.id].kind == "clash":
            return
        if self._known.get(choice.id) == "measured" and heard.known != "measured":
            if old is None or pick is None or pick.option != old.option:
                self.notices.append(f"{choice.label}: what was measured stands, whatever was {heard.known}.")
            return
        if old and pick and old.option != pick.option:
            if old.known == pick.known == "measured":
                given = f"{_said(old)} and {_said(pick)}"
                misfit, pick = Misfit(choice.id, given, "clash", (old.option, pick.option), pick.place), None
            else:
                self.notices.append(f"{choice.label}: {pick.option} replaces {old.option}.")
        self._known[choice.id] = heard.known
        self.picks.pop(choice.id, None)
        self.misfits.pop(choice.id, None)
        if pick:
            self.picks[choice.id] = pick
        elif misfit:
            self.misfits[choice.id] = misfit

    def _take_duty(self, told: Told) -> None:
        duty = self._duties.get(alike(told.name))
        if duty is None:
            way_out = suggest(told.name, self.family.duties, "duties")
            self._fault(told, f"{self.family.label} knows no duty {told.name}", way_out)
            return
        quantity = read_quantity(text_of(told.value), duty.unit, duty.least, duty.greatest, duty.plain_is)
        if not duty.least.value <= quantity.value <= duty.greatest.value:
            way_out = "look at the number and its unit; if it is meant, ask the engineer"
            self._fault(told, f"{quantity} is not between {duty.least} and {duty.greatest}", way_out)
            return
        old = self.duty.get(duty.id)
        if old and old.value != quantity.value:
            self.notices.append(f"{duty.label}: {quantity} replaces {old}.")
        self.duty[duty.id] = quantity


def _by_word(known: Iterable[Any]) -> dict[str, Any]:
    """Choices or duties by every word that they answer to."""
    words: dict[str, Any] = {}
    for one in known:
        for word in (one.id, one.label, *getattr(one, "aliases", ())):
            words.setdefault(alike(word), one)
    return words


def _option(choice: Choice, text: str) -> Option | None:
    word = alike(text)
    for option in choice.options:
        if word in (alike(option.id), alike(option.label), *(alike(alias) for alias in option.aliases)):
            return option
    return None


def _evidence(choice: Choice, told: Told) -> str:
    return (told.known or "told") if choice.asks == "have" else ""


def _nearest(legal: Range, quantity: Quantity) -> tuple[str, ...]:
    """The options next to a value that has none, the nearer first."""
    apart = {id: abs(read_quantity(id, legal.unit).value - quantity.value) for id in neighbours(legal, quantity.value)}
    return tuple(sorted(apart, key=lambda id: apart[id]))


def _said(pick: Pick) -> str:
    return ", ".join(str(quantity) for quantity in pick.measured.values()) or pick.option


def _shown(value: Any) -> str:
    if isinstance(value, Mapping):
        return ", ".join(f"{name} {one}" for name, one in value.items())
    return str(value)


def _file_of(told: Told) -> Place:
    """The place of a pick, without its line: finding lines is slow, and a pick that is well written needs none."""
    return Place(told.file)
