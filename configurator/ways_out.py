"""Why an enquiry is impossible, and the smallest changes that would make it possible, each completed, priced and
ranked.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from itertools import groupby, islice, product
from typing import NamedTuple

from configurator.answer import Altered, Conflict, WayOut
from configurator.appraise import planned, priced
from configurator.case import Case, option_as_asked, widened
from configurator.catalogue.choices import Option
from configurator.catalogue.rules import BY_ARRANGEMENT, FREE, STANDINGS
from configurator.catalogue.steps import count_of, option_id, step_of, value_at
from configurator.checks import best
from configurator.completing import CLOSED, complete
from configurator.rulebook import slices
from configurator.space import Space

MOST = 10
"""Ways out shown for one enquiry."""

MEASURED = 6
"""The rank of a measured have among what may be given up: never, only measured again."""


class Change(NamedTuple):
    """New options for the choices of one give-up, and what decides its rank before anything is priced."""

    options: Mapping[str, str]
    kind: str
    standing: int
    given_up: tuple[int, ...]
    distance: tuple[Decimal | int, ...]
    space: Space


def conflicts_of(case: Case, picked: Space) -> tuple[Conflict, ...]:
    """The smallest sets of picks that cannot hold together, smallest first, each with the fewest rules that say so."""
    found = []
    for numbers in picked.conflicts():
        between = {case.book.choices[number]: case.bound[case.book.choices[number]] for number in sorted(numbers)}
        names = picked.rules_behind({number: picked.picks[number] for number in numbers})
        rules = [case.family.rules[name] for name in names]
        lines = [best(rule, case.book, between, case.enquiry.duty) for rule in rules]
        because = tuple(rule.because for rule in rules)
        found.append(Conflict(between, names, because, tuple(line for line in lines if line)))
    return tuple(sorted(found, key=lambda conflict: (len(conflict.between), tuple(conflict.between))))


def ways_out(case: Case, picked: Space) -> tuple[Case, tuple[WayOut, ...], Space | None]:
    """The ways out of an impossible enquiry, best first, and the space as the first of them leaves it.

    The case comes back widened by the nearest working values of numeric choices that stand in a conflict.
    """
    give_ups = picked.give_ups()
    case = widened(case, _nearest_working(case, picked, give_ups))
    picked = case.picked()
    changes = [change for give_up in give_ups for change in _changes(case, picked, give_up)]
    changes.sort(key=_rank)
    usual = complete(case, case.space).picks if changes else {}
    ways: list[tuple[WayOut, Space]] = []
    for _, alike in groupby(changes, key=_rank):
        if len(ways) >= MOST:
            break
        priced_alike = [(change, _way_out(case, change, usual)) for change in alike]
        priced_alike.sort(key=lambda one: (one[1].net or Decimal(0), one[0].distance, tuple(one[1].change.items())))
        ways += [(way, change.space) for change, way in priced_alike]
    ways = ways[:MOST]
    first = next((way.net for way, _ in ways if way.net is not None), None)
    told = tuple(way._replace(difference=_less(way.net, first)) for way, _ in ways)
    return case, told, ways[0][1] if ways else None


def _less(net: Decimal | None, first: Decimal | None) -> Decimal | None:
    return None if net is None or first is None else net - first


def _rank(change: Change) -> tuple[bool, int, tuple[int, ...], int]:
    """Standing first, then what is given up, then how much of it; what was measured always last."""
    return change.kind == "measure_again", change.standing, change.given_up, len(change.options)


def _given_up(case: Case, choice: str) -> int:
    """How hard a pick is to give up: wants taken, other wants, `use`, then haves assumed, told, looked, measured."""
    if choice in case.taken:
        return 3 if case.have(choice) else 0
    if not case.have(choice):
        return 2 if choice == "use" else 1
    known = case.enquiry.picks[choice].known
    return {"assumed": 3, "told": 4, "looked": 5, "measured": MEASURED}.get(known, 4)


def _changes(case: Case, picked: Space, give_up: Iterable[int]) -> Iterator[Change]:
    """Every smallest change that gives up just these picks."""
    numbers = sorted(give_up)
    choices = [case.book.choices[number] for number in numbers]
    lifted = picked
    for number in numbers:
        lifted = lifted.unpick(number)
    open_options = [
        [
            option
            for option, kind in enumerate(lifted.standings_of(number))
            if kind != CLOSED and option != picked.picks[number]
        ]
        for number in numbers
    ]
    given_up = tuple(sorted((_given_up(case, choice) for choice in choices), reverse=True))
    kind = "measure_again" if MEASURED in given_up else "only_if" if given_up[0] >= 3 else "change"
    near = [_only_near(case, picked, number, options) for number, options in zip(numbers, open_options, strict=True)]
    for options in product(*near):
        space = lifted.pick_all(dict(zip(numbers, options, strict=True)))
        if space.possible():
            ids = {choice: case.book.options[n][o].id for choice, n, o in zip(choices, numbers, options, strict=True)}
            distance = tuple(_distance(case, picked, n, o) for n, o in zip(numbers, options, strict=True))
            yield Change(ids, kind, 0 if space.any_free() else 1, given_up, distance, space)


def _distance(case: Case, picked: Space, number: int, option: int) -> Decimal | int:
    value, asked = case.book.options[number][option].value, case.book.options[number][picked.picks[number]].value
    return abs(value.value - asked.value) if value and asked else option


def _only_near(case: Case, picked: Space, number: int, options: list[int]) -> list[int]:
    """Of a numeric choice only the nearest values below and above, possible and free, are ways out."""
    asked = case.book.options[number][picked.picks[number]].value
    if asked is None:
        return options
    kinds = picked.unpick(number).standings_of(number)
    away = {option: _value(case, number, option) - asked.value for option in options}
    kept = set()
    for worst in (BY_ARRANGEMENT, FREE):
        below = [option for option in options if away[option] < 0 and kinds[option] <= worst]
        above = [option for option in options if away[option] > 0 and kinds[option] <= worst]
        kept |= {max(below, key=away.__getitem__)} if below else set()
        kept |= {min(above, key=away.__getitem__)} if above else set()
    return sorted(kept) or options


def _value(case: Case, number: int, option: int) -> Decimal:
    value = case.book.options[number][option].value
    assert value is not None
    return value.value


def _way_out(case: Case, change: Change, usual: Mapping[str, str]) -> WayOut:
    if change.kind == "measure_again":
        return WayOut(change.options, change.kind, STANDINGS[change.standing])
    completed = complete(case, change.space)
    totals = priced(case, completed.picks)
    also = tuple(
        Altered(choice, option, tuple(line.text for line in totals.lines if choice in line.because))
        for choice, option in completed.picks.items()
        if choice in completed.assumed and option != usual[choice]
    )
    days = planned(case, completed.picks).planned
    return WayOut(change.options, change.kind, STANDINGS[change.standing], totals.net, None, days, also)


def _nearest_working(case: Case, picked: Space, give_ups: Iterable[Iterable[int]]) -> dict[str, list[str]]:
    """For numeric choices that alone are a give-up: the working values nearest to the pick, below and above."""
    near: dict[str, list[str]] = {}
    for give_up in give_ups:
        numbers = list(give_up)
        choice = case.family.choices[case.book.choices[numbers[0]]]
        if len(numbers) == 1 and choice.range and _given_up(case, choice.id) < MEASURED:
            near[choice.id] = _Scan(case, picked, numbers[0]).nearest()
    return near


class _Scan:
    """Steps away from a pick of a numeric choice until a value works.

    Values of which every rule says the same have the same standing, so the space is asked once for each way to be
    judged: the listed options' are known already, and a value that is judged unlike all of them is compiled in.
    """

    def __init__(self, case: Case, picked: Space, number: int) -> None:
        self.case, self.number = case, number
        self.choice = case.family.choices[case.book.choices[number]]
        self.asked = case.book.options[number][picked.picks[number]].value
        self.lifted = picked.unpick(number)
        self.kept = [
            [option for option, kind in zip(options, self.lifted.standings_of(other), strict=True) if kind != CLOSED]
            if other != number
            else list(options)
            for other, options in enumerate(case.book.options)
        ]
        kinds = self.lifted.standings_of(number)
        self.known = {self._judged(option): kind for option, kind in zip(case.book.options[number], kinds, strict=True)}

    def nearest(self) -> list[str]:
        """The nearest values below and above that are possible, and the nearest that are free."""
        found: dict[str, None] = {}
        for side in (-1, 1):
            for worst in (BY_ARRANGEMENT, FREE):
                found |= dict.fromkeys(islice((text for text in self._values(side) if self._kind(text) <= worst), 1))
        return list(found)

    def _values(self, side: int) -> Iterator[str]:
        legal = self.choice.range
        assert legal is not None and self.asked is not None
        step = step_of(legal, self.asked.value)
        assert step is not None, "a pick stands on its choice's grid"
        last = -1 if side < 0 else count_of(legal)
        return (option_id(legal, value_at(legal, number)) for number in range(step + side, last, side))

    def _kind(self, text: str) -> int:
        judged = self._judged(option_as_asked(self.choice, text))
        if judged not in self.known:
            wider = widened(self.case, {self.choice.id: [text]})
            space = wider.space.pick_all(self.lifted.picks)
            self.known[judged] = space.standings_of(self.number)[-1]
        return self.known[judged]

    def _judged(self, option: Option) -> tuple[tuple[str, bytes], ...]:
        said = slices(self.case.book, self.choice.id, option, self.case.enquiry.duty, self.kept)
        return tuple(sorted(said.items()))
