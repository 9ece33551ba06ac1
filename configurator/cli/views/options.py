"""The choices of a family by heading, each with its options and how they stand under the picks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from configurator import explain
from configurator.answer import Answer
from configurator.catalogue.choices import Choice
from configurator.catalogue.shops import Family
from configurator.cli.page import Cell, Line, Part, columns, prose
from configurator.cli.views import Reader

Closed = Mapping[tuple[str, str], Mapping[str, str]]
"""For closed options, by choice and option: the picks that close them."""


def options_page(
    family: Family, answer: Answer, shown: Iterable[str], closed: Closed, reader: Reader, in_full: bool = False
) -> Iterator[Line]:
    """The choices shown, under their headings; ids first, since that is what one types. `in_full` adds the helps."""
    by_heading: dict[str, list[Choice]] = {heading: [] for heading in family.headings}
    for id in shown:
        by_heading.setdefault(family.choices[id].heading, []).append(family.choices[id])
    for heading, choices in by_heading.items():
        if not choices:
            continue
        yield (Part(heading or "Other", "label"),)
        if in_full:
            for choice in choices:
                yield from _table(family, answer, [choice], closed, reader)
                yield from _indented(prose(choice.help, reader.width - 2) if choice.help else [])
        else:
            yield from _table(family, answer, choices, closed, reader)


def _table(family: Family, answer: Answer, choices: Iterable[Choice], closed: Closed, reader: Reader) -> Iterator[Line]:
    rows = [row for choice in choices for row in _rows(family, answer, choice, closed)]
    return _indented(columns(rows, reader.width - 2))


def _indented(lines: Iterable[Line]) -> Iterator[Line]:
    return ((Part("  "), *line) for line in lines)


def _rows(family: Family, answer: Answer, choice: Choice, closed: Closed) -> Iterator[list[Cell]]:
    asks = "a fact of the caller's" if choice.asks == "have" else ""
    legal = choice.range
    span = f"any from {legal.least} to {legal.greatest}, in steps of {legal.step}" if legal else ""
    yield [Part(choice.id, "label"), Part(choice.label, "label"), Part("; ".join(filter(None, (asks, span))), "quiet")]
    standing = answer.choices[choice.id]
    for option, kind in standing.options.items():
        label = explain.label_of(family, choice.id, option)
        remarks = [
            _settled_words(choice, answer, option),
            explain.STANDING_WORDS[kind]
            if kind != "closed"
            else _not_with(family, closed.get((choice.id, option), {})),
        ]
        yield [f"  {option}", label if label != option else "", ", ".join(filter(None, remarks))]


def _settled_words(choice: Choice, answer: Answer, option: str) -> str:
    standing = answer.choices[choice.id]
    if option == standing.settled and not standing.picked:
        return "the only one left"
    if option == answer.assumed.get(choice.id):
        return "taken so" if choice.asks == "have" else "as usual"
    return "picked" if option == standing.picked else ""


def _not_with(family: Family, picks: Mapping[str, str]) -> str:
    return f"not with {explain.named_all(family, picks)}" if picks else "not to be had"
