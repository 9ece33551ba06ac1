"""One family with everything that belongs to it, judged and taken down in plain form."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from configurator.catalogue.choices import Duty as KnownDuty
from configurator.dimensions import PRESSURE
from configurator.load.choices import ChoiceReading, options_of, words_of
from configurator.load.expectations import expected
from configurator.load.figures import figures
from configurator.load.lexicon import Lexicon, Plain, filled, plain_place, plain_quantity
from configurator.load.merge import Merged
from configurator.load.options import facts, label_of
from configurator.load.rules import RuleReading
from configurator.load.shapes import Donor, Duty, Family, RuleFile, ShopFile
from configurator.load.trade import RouteReading, price_lists
from configurator.load.words import suggest
from configurator.units import UNITS


class FamilyReading:
    """A family on its way into plain form. `trade` has the shipped rule files, `files` all files of the shop, by name.

    What is wrong with it is in `lexicon.faults` when `plain` has been called; Faulty where that is too much.
    """

    def __init__(
        self,
        family: Family,
        merged: Merged,
        trade: Mapping[str, RuleFile],
        files: Mapping[str, bytes],
        elsewhere: Iterable[str],
    ) -> None:
        self.family, self.merged, self.trade, self.files = family, merged, trade, files
        self.tables = merged.tables[family.id]
        named = [trade[name] for name in sorted(set(family.rules)) if name in trade]
        self.shipped_rules = [rule for file in named for rule in file.rule]
        self.shipped_figures = [figure for file in named for figure in file.figure]
        self.lexicon = self._lexicon(elsewhere)

    def _lexicon(self, elsewhere: Iterable[str]) -> Lexicon:
        tables = self.tables
        options = {choice.id: options_of(choice, tables) for choice in tables.choice}
        words = {choice.id: words_of(choice, options[choice.id]) for choice in tables.choice}
        values = {
            *self.family.facts,
            *(name for several in options.values() for option in several for name in option.facts),
            *(duty.id for duty in tables.duty),
            *(figure.id for figure in (*tables.figure, *self.shipped_figures)),
        }
        return Lexicon(self.family.id, words, values, set(elsewhere) - set(words))

    def plain(self) -> Plain:
        """The family. Everything stands in the order of its ids, whatever the order of files and tables."""
        family, tables, lexicon, shop = self.family, self.tables, self.lexicon, self.merged.shop
        self._rule_files()
        duties = {one.id: known for one in _by_id(tables.duty) if (known := _duty(lexicon, one))}
        rules = RuleReading(lexicon, duties, self.shipped_rules).rules([*self.shipped_rules, *tables.rule])
        self._refusals(rules)
        return filled(
            id=family.id,
            label=label_of(family),
            facts=facts(lexicon, family.facts),
            headings=family.headings,
            choices=ChoiceReading(lexicon, tables, family.headings).choices(),
            donors=[_donor(lexicon, one) for one in _by_id(tables.donor)],
            duties={id: _plain_duty(one) for id, one in duties.items()},
            figures=figures(lexicon, tables.figure, self.shipped_figures, rules.values()),
            rules=rules,
            tallies=[_tally(one) for one in _by_id(tables.tally)],
            price_lists=price_lists(lexicon, tables, shop.shop.currency if shop.shop else ""),
            **RouteReading(lexicon, tables, [centre.id for centre in shop.centre]).plain(),
            expected=[expected(lexicon, one, self.files) for one in _by_id(tables.expected)],
            place=plain_place(family),
        )

    def _rule_files(self) -> None:
        """The shipped files that the family names exist; no id of theirs stands twice, or in the shop's files too."""
        for name in sorted(set(self.family.rules)):
            if name not in self.trade:
                way_out = suggest(name, self.trade, "rule files")
                self.lexicon.fault(self.family, ("rules",), f"there is no rule file {name}", way_out)
        self._apart(self.shipped_rules, self.tables.rule)
        self._apart(self.shipped_figures, self.tables.figure)

    def _apart(self, shipped: Sequence[Any], own: Sequence[Any]) -> None:
        first: dict[str, Any] = {}
        for one in shipped:
            first.setdefault(one.id, one)
        for one in (*shipped, *own):
            other = first.get(one.id, one)
            if other is not one:
                wrong = f"{one.id} stands here and at {other.at('id')}"
                self.lexicon.fault(one, ("id",), wrong, "give one of them another id")

    def _refusals(self, rules: Mapping[str, Plain]) -> None:
        for option in (option for choice in self.tables.choice for option in options_of(choice, self.tables)):
            if option.refused_with and option.refused_with not in rules:
                way_out = suggest(option.refused_with, rules, "rules")
                self.lexicon.fault(option, ("refused_with",), f"there is no rule {option.refused_with}", way_out)


def choices_of(tables: ShopFile) -> set[str]:
    """The choices that a pile of tables has."""
    return {choice.id for choice in tables.choice}


def _by_id(tables: Sequence[Any]) -> list[Any]:
    return sorted(tables, key=lambda table: table.id)


def _duty(lexicon: Lexicon, duty: Duty) -> KnownDuty | None:
    if duty.plain_is and UNITS[duty.unit].dimension != PRESSURE:
        lexicon.fault(duty, ("plain_is",), "only a pressure is gauge or absolute", "take it away")
        return None
    least = lexicon.quantity(duty, ("from",), duty.from_, duty.unit, duty.plain_is)
    greatest = lexicon.quantity(duty, ("to",), duty.to, duty.unit, duty.plain_is)
    if least is None or greatest is None:
        return None
    if not least.value < greatest.value:
        way_out = "write the least plausible value in `from`, the greatest in `to`"
        lexicon.fault(duty, ("to",), "is not above `from`", way_out)
    return KnownDuty(duty.id, label_of(duty), duty.unit, least, greatest, duty.help, duty.plain_is, duty.at())


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
