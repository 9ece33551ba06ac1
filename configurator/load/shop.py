"""A shop's files read into one plain table: all is checked, all faults come at once, no order of files matters."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from configurator.catalogue.choices import Duty as KnownDuty
from configurator.dimensions import PRESSURE
from configurator.faults import Fault, Faulty, Place
from configurator.load.choices import ChoiceReading, facts, label_of, options_of, words_of
from configurator.load.complaints import shaped
from configurator.load.expectations import expected
from configurator.load.lexicon import Lexicon, Plain, filled, plain_place, plain_quantity
from configurator.load.merge import Merged, Source, merge
from configurator.load.rules import RuleReading, choices_in, figures
from configurator.load.shapes import Choice, Donor, Duty, Family, RuleFile, ShopFile
from configurator.load.text import read_toml
from configurator.load.trade import Route, calendar, centre_faults, centres, circle_in, head, price_lists
from configurator.load.words import suggest
from configurator.units import UNITS

ENQUIRIES = "enquiries/"
"""Files under this folder are enquiries, read only where an expected answer names them."""


def read_shop(files: Mapping[str, bytes], shipped: Mapping[str, bytes]) -> Plain:
    """Read a shop's files, by name, and the shipped rule files, into the plain form that `assemble` takes.

    It is made of texts, numbers, lists and dicts, and can be kept as JSON. Faulty with every fault that can be found
    at once.
    """
    faults: list[Fault] = []
    sources = [
        source
        for name in sorted(files)
        if not name.startswith(ENQUIRIES)
        for source in _source(name, files[name], faults)
    ]
    trade = {_stem(name): rules for name in sorted(shipped) for rules in _rule_file(name, shipped[name], faults)}
    if faults:
        raise Faulty(faults)
    merged = merge(sources)
    reading = _ShopReading(merged, trade, files)
    plain = reading.plain()
    if reading.faults:
        raise Faulty(reading.faults)
    return plain


def _source(name: str, data: bytes, faults: list[Fault]) -> Iterable[Source]:
    """One file of the shop; if it holds a single family, its tables are that family's unless they say otherwise."""
    try:
        document = read_toml(name, data)
        tables = dict(document.data)
        family = tables.pop("family") if isinstance(tables.get("family"), str) else ""
        found = shaped(document, tables, ShopFile)
    except Faulty as faulty:
        faults.extend(faulty.faults)
        return
    own = found.family[0].id if len(found.family) == 1 else ""
    yield Source(found, family or own)


def _rule_file(name: str, data: bytes, faults: list[Fault]) -> Iterable[RuleFile]:
    try:
        document = read_toml(name, data)
        yield shaped(document, document.data, RuleFile)
    except Faulty as faulty:
        faults.extend(faulty.faults)


def _stem(name: str) -> str:
    return name.rsplit("/", 1)[-1].removesuffix(".toml")


class _ShopReading:
    """A whole shop on its way into plain form."""

    def __init__(self, merged: Merged, trade: Mapping[str, RuleFile], files: Mapping[str, bytes]) -> None:
        self.merged, self.trade, self.files = merged, trade, files
        self.faults = merged.faults
        self.known = {id: {choice.id for choice in tables.choice} for id, tables in merged.tables.items()}
        spoken = {name for rules in trade.values() for rule in rules.rule for name in choices_in(rule)}
        duties = {duty.id for tables in merged.tables.values() for duty in tables.duty}
        self.foreign = spoken - duties - {name for known in self.known.values() for name in known}

    def plain(self) -> Plain:
        """The shop; what is wrong with it is in `faults` afterwards."""
        tables = self.merged.shop
        if tables.shop is None or not self.merged.tables:
            lacking = "[shop]" if tables.shop is None else "[[family]]"
            file = min(self.files, default="shop.toml")
            self.faults.append(
                Fault(Place(file, 1, 1), "", f"no file of the shop has the table {lacking}", f"write {lacking}")
            )
            return {}
        shop, wrong = head(tables.shop)
        working, wrong_days = calendar(tables.calendar)
        self.faults += [*wrong, *wrong_days, *centre_faults(tables)]
        kept = {
            kind: [_kept(one) for one in getattr(tables, kind)] for kind in ("rate", "supplier", "authority", "cost")
        }
        return {
            "shop": shop,
            "families": {id: self._family(family) for id, family in sorted(self.merged.families.items())},
            "centres": centres(tables),
            "calendar": working,
            "foreign": sorted(self.foreign),
            "kept_back": filled(**kept, margin=_texts(tables.margin)),
        }

    def _family(self, family: Family) -> Plain:
        tables = self.merged.tables[family.id]
        lexicon = self._lexicon(family, tables)
        duties = {
            one.id: known for one in sorted(tables.duty, key=lambda one: one.id) if (known := _duty(lexicon, one))
        }
        named = self._named(lexicon, family)
        shipped_rules = [rule for rules in named for rule in rules.rule]
        shipped_figures = [figure for rules in named for figure in rules.figure]
        rules = RuleReading(lexicon, duties, shipped_rules).rules([*shipped_rules, *tables.rule])
        choices = ChoiceReading(lexicon, tables, family.headings).choices()
        _usual_without_circles(lexicon, tables.choice)
        _refusals(lexicon, tables, rules)
        currency = self.merged.shop.shop.currency if self.merged.shop.shop else ""
        plain = filled(
            id=family.id,
            label=label_of(family),
            facts=facts(lexicon, family.facts),
            headings=family.headings,
            choices=choices,
            donors=[_donor(lexicon, one) for one in sorted(tables.donor, key=lambda one: one.id)],
            duties={id: _plain_duty(one) for id, one in duties.items()},
            figures=figures(lexicon, tables.figure, shipped_figures, rules.values()),
            rules=rules,
            tallies=[_tally(one) for one in sorted(tables.tally, key=lambda one: one.id)],
            price_lists=price_lists(lexicon, tables, currency),
            **Route(lexicon, tables, [centre.id for centre in self.merged.shop.centre]).plain(),
            expected=[expected(lexicon, one, self.files) for one in sorted(tables.expected, key=lambda one: one.id)],
            place=plain_place(family),
        )
        self.faults += lexicon.faults
        return plain

    def _named(self, lexicon: Lexicon, family: Family) -> list[RuleFile]:
        """The shipped rule files that a family names. An id that the shop has too is a fault that names both places."""
        named = []
        for name in sorted(set(family.rules)):
            if name in self.trade:
                named.append(self.trade[name])
            else:
                lexicon.fault(
                    family, ("rules",), f"there is no rule file {name}", suggest(name, self.trade, "rule files")
                )
        for kind in ("rule", "figure"):
            theirs = {one.id: one for rules in named for one in getattr(rules, kind)}
            for own in getattr(self.merged.tables[family.id], kind):
                if own.id in theirs:
                    wrong = f"{own.id} stands here and at {theirs[own.id].at('id')}"
                    lexicon.fault(own, ("id",), wrong, "give the shop's own another id")
        return named

    def _lexicon(self, family: Family, tables: ShopFile) -> Lexicon:
        words = {choice.id: words_of(choice, options_of(choice, tables)) for choice in tables.choice}
        named = [self.trade[name] for name in family.rules if name in self.trade]
        values = {
            *family.facts,
            *(name for choice in tables.choice for option in options_of(choice, tables) for name in option.facts),
            *(duty.id for duty in tables.duty),
            *(figure.id for figure in tables.figure),
            *(figure.id for rules in named for figure in rules.figure),
        }
        elsewhere = {*self.foreign, *(name for known in self.known.values() for name in known)} - set(words)
        return Lexicon(family.id, words, values, elsewhere)


def _duty(lexicon: Lexicon, duty: Duty) -> KnownDuty | None:
    if duty.plain_is and UNITS[duty.unit].dimension != PRESSURE:
        lexicon.fault(duty, ("plain_is",), "only a pressure is gauge or absolute", "take it away")
        return None
    bounds = [
        lexicon.quantity(duty, (key,), text, duty.unit, duty.plain_is)
        for key, text in (("from", duty.from_), ("to", duty.to))
    ]
    least, greatest = bounds
    if least is None or greatest is None:
        return None
    if not least.value < greatest.value:
        lexicon.fault(
            duty, ("to",), "is not above `from`", "write the least plausible value in `from`, the greatest in `to`"
        )
    place = duty.at()
    return KnownDuty(duty.id, label_of(duty), duty.unit, least, greatest, duty.help, duty.plain_is, place)


def _plain_duty(duty: KnownDuty) -> Plain:
    bounds = {"least": plain_quantity(duty.least), "greatest": plain_quantity(duty.greatest)}
    words = {"id": duty.id, "label": duty.label, "unit": duty.unit, "help": duty.help, "plain_is": duty.plain_is}
    return filled(**words, **bounds, place=list(duty.place))


def _tally(tally: Any) -> Plain:
    return filled(id=tally.id, label=label_of(tally), unit=tally.unit, place=plain_place(tally))


def _donor(lexicon: Lexicon, donor: Donor) -> Plain:
    has = {}
    for name, option in sorted(donor.has.items()):
        if name in lexicon.choices:
            has[name] = lexicon.option(donor, ("has", name), name, option)
        else:
            lexicon.unknown(donor, ("has", name), name, picks_only=True)
    return filled(id=donor.id, label=label_of(donor), part=donor.part, has=has, place=plain_place(donor))


def _usual_without_circles(lexicon: Lexicon, choices: Sequence[Choice]) -> None:
    """Whether wants can be completed one after the other: what is usual of one may ask what was picked of another."""
    by_id = {choice.id: choice for choice in choices}
    before = {}
    for choice in choices:
        given = choice.usual if isinstance(choice.usual, list) else []
        asked = {name for one in given if isinstance(one, dict) for name in one.get("when", {}) if name in by_id}
        before[choice.id] = sorted(asked)
    ring = circle_in(dict(sorted(before.items())))
    if ring:
        wrong = f"these ask for each other in a circle: {', '.join(ring)}"
        lexicon.fault(by_id[ring[0]], ("usual",), wrong, "let one of them be usual without asking")


def _refusals(lexicon: Lexicon, tables: ShopFile, rules: Mapping[str, Plain]) -> None:
    for choice in tables.choice:
        for option in options_of(choice, tables):
            if option.refused_with and option.refused_with not in rules:
                way_out = suggest(option.refused_with, rules, "rules")
                lexicon.fault(option, ("refused_with",), f"there is no rule {option.refused_with}", way_out)


def _kept(table: Any) -> Plain:
    return {str(key): str(value) for key, value in {"id": table.id, **(table.model_extra or {})}.items()}


def _texts(given: Mapping[str, Any] | None) -> Plain:
    return {str(key): str(value) for key, value in (given or {}).items()}
