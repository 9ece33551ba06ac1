"""The way of a build through the shop: what it needs, in an order of work."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from configurator.catalogue.choices import Choice, Option, Range
from configurator.catalogue.conditions import Condition, When
from configurator.catalogue.shops import Family
from configurator.catalogue.trade import Material, Operation, Outside
from configurator.catalogue.when import holds, value_of
from configurator.faults import Faulty, Place
from configurator.route import Step, behind, hours_of, route_of
from configurator.units import read_quantity

WATER = Choice("cooling", "Cooling", "want", (Option("jacketed", "Jacketed"), Option("solid", "Solid")))
GROOVE = Choice("groove", "Receiver groove", "want", (Option("none", "None"), Option("cut", "Cut")))
STROKE = Choice(
    "stroke",
    "Stroke",
    "want",
    (Option("90.0 mm", "90.0 mm", value=read_quantity("90 mm")),),
    range=Range("mm", read_quantity("80 mm"), read_quantity("100 mm"), read_quantity("0.1 mm")),
)
USUAL = {"cooling": "jacketed", "groove": "none", "stroke": "90.0 mm"}


def works(*steps: Step) -> Family:
    """A family that has nothing but a route."""
    return Family(
        id="tnw5",
        label="TNW5",
        facts={},
        choices={choice.id: choice for choice in (WATER, GROOVE, STROKE)},
        donors=(),
        duties={},
        figures={},
        rules={},
        tallies=(),
        price_lists=(),
        operations=tuple(step for step in steps if isinstance(step, Operation)),
        outside=tuple(step for step in steps if isinstance(step, Outside)),
        materials=tuple(step for step in steps if isinstance(step, Material)),
        expected=(),
    )


def work(id: str, *after: str, run: str = "1", when: When = (), adds: str = "") -> Operation:
    return Operation(id, id, "bench", Decimal("0.5"), Decimal(run), when, after, adds, Place("route.toml", 7))


def only_if(choice: str, option: str) -> When:
    return (Condition(choice, (option,)),)


BILLET = Material("billet", "Billet", Decimal(10))
RELIEF = Outside("relief", "Stress relief", Decimal(5), (), ("rough",))
BLOCK = (
    BILLET,
    work("rough", "billet"),
    RELIEF,
    work("finish", "relief"),
    work("grooves", run="1.5", when=only_if("groove", "cut"), adds="finish"),
    work("leak_test", "finish", when=only_if("cooling", "jacketed")),
    work("wash", "leak_test"),
)


def test_each_step_stands_behind_all_that_it_waits_for() -> None:
    assert [step.id for step in route_of(works(*BLOCK), USUAL)] == [
        "billet",
        "rough",
        "relief",
        "finish",
        "leak_test",
        "wash",
    ]


def test_hours_that_are_added_join_the_operation_that_is_named() -> None:
    plain = {step.id: step for step in route_of(works(*BLOCK), USUAL)}
    grooved = {step.id: step for step in route_of(works(*BLOCK), {**USUAL, "groove": "cut"})}
    assert "grooves" not in grooved
    assert plain["finish"] == work("finish", "relief")
    assert grooved["finish"] == work("finish", "relief")._replace(set_up=Decimal("1.0"), run=Decimal("2.5"))


def test_what_comes_after_a_step_that_is_not_needed_comes_after_what_that_came_after() -> None:
    solid = route_of(works(*BLOCK), {**USUAL, "cooling": "solid"})
    assert behind(solid[-1]) == ("finish",)


def test_what_comes_after_added_hours_comes_after_the_operation_that_they_join() -> None:
    etched = works(*BLOCK, work("etch", "grooves"))
    for groove in ("none", "cut"):
        route = {step.id: step for step in route_of(etched, {**USUAL, "groove": groove})}
        assert behind(route["etch"]) == ("finish",)


def test_set_up_is_once_for_a_batch_and_run_is_for_each_block() -> None:
    """5-axis rough, 3 h set-up and 9 h run: 12 h for one, 30 h for three, counted by hand."""
    rough = Operation("rough", "Rough", "five_axis", Decimal(3), Decimal(9))
    assert [hours_of(rough, blocks) for blocks in (1, 2, 3)] == [12, 21, 30]


def test_hours_are_never_added_to_an_operation_that_the_build_does_not_have() -> None:
    lost = works(*BLOCK, work("dip", when=only_if("cooling", "solid"), adds="leak_test"))
    with pytest.raises(Faulty, match="dip: its hours are added to leak_test, which is no operation of this build"):
        route_of(lost, {**USUAL, "cooling": "solid"})


def test_hours_are_never_added_to_a_wait() -> None:
    with pytest.raises(Faulty, match="added to relief, which is no operation"):
        route_of(works(*BLOCK, work("oil", adds="relief")), USUAL)


@given(st.permutations(BLOCK))
def test_the_order_of_the_tables_in_the_files_changes_nothing(written: Sequence[Step]) -> None:
    assert route_of(works(*written), USUAL) == route_of(works(*BLOCK), USUAL)


@st.composite
def _networks(draw: st.DrawFn) -> tuple[dict[str, tuple[str, ...]], set[str]]:
    """Steps that name earlier ones only, and which of them the build needs."""
    names = [f"s{number}" for number in range(draw(st.integers(1, 7)))]
    after = {}
    for number, name in enumerate(names):
        earlier = st.sets(st.sampled_from(names[:number])) if number else st.just(set())
        after[name] = tuple(sorted(draw(earlier)))
    return after, draw(st.sets(st.sampled_from(names)))


def _reaches(after: Mapping[str, Sequence[str]]) -> set[tuple[str, str]]:
    """Every pair of which the first waits for the second, however far back: the closure by S. Warshall, 1962."""
    pairs = {(late, early) for late, named in after.items() for early in named}
    for between in after:
        pairs |= {(late, early) for late in after for early in after if {(late, between), (between, early)} <= pairs}
    return pairs


@given(_networks())
def test_leaving_steps_out_never_loses_or_invents_an_order_between_the_rest(
    network: tuple[dict[str, tuple[str, ...]], set[str]],
) -> None:
    after, needed = network
    steps = (work(id, *named, when=() if id in needed else only_if("cooling", "solid")) for id, named in after.items())
    route = route_of(works(*steps), USUAL)
    assert {step.id for step in route} == needed
    expected = {pair for pair in _reaches(after) if set(pair) <= needed}
    assert _reaches({step.id: behind(step) for step in route}) == expected
    position = {step.id: place for place, step in enumerate(route)}
    assert all(position[late] > position[early] for late, early in expected)


@pytest.mark.parametrize(
    ("comparison", "stroke", "expected"),
    [
        ("> 92 mm", "90.0 mm", False),
        ("> 92 mm", "92.0 mm", False),
        (">= 92 mm", "92.0 mm", True),
        ("> 92 mm", "92.1 mm", True),
        ("85 mm to 90 mm", "90.0 mm", True),
        ("< 9 cm", "89.9 mm", True),
        ("> 3.5 in", "90.0 mm", True),  # 3.5 in is 88.9 mm: the inch is 25.4 mm exactly, by the yard agreement of 1959
    ],
)
def test_a_when_may_compare_a_numeric_choice_listed_or_as_asked(comparison: str, stroke: str, expected: bool) -> None:
    family = works()
    assert holds((Condition("stroke", comparison=comparison),), {"stroke": stroke}, family) is expected


def test_all_conditions_of_a_when_hold_together_and_the_empty_one_always() -> None:
    both = (Condition("cooling", ("solid",), negated=True), Condition("groove", ("none", "cut")))
    assert holds(both, USUAL, works())
    assert not holds(both, {**USUAL, "cooling": "solid"}, works())
    assert holds((), {}, works())


def test_an_option_as_asked_is_worth_what_its_id_says() -> None:
    assert value_of(STROKE, "83.3 mm").value == Decimal("0.0833")
    assert value_of(STROKE, "90.0 mm") is STROKE.options[0].value
