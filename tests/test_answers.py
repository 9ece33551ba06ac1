"""Answers on random small shops, held against every build tried in turn by the plain evaluator."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from hypothesis import given, settings

from configurator.answer import Answer
from configurator.answering import answer_case
from configurator.appraise import priced
from configurator.case import Case
from configurator.catalogue.rules import BY_ARRANGEMENT, FREE, IMPOSSIBLE
from configurator.catalogue.shops import Shop
from configurator.space.plain import plain_builds
from tests.cases import all_builds, case_of, shops_and_picks

Asked = tuple[Shop, dict[str, str]]


def agrees(build: Mapping[str, str], picks: Mapping[str, str]) -> bool:
    return all(build[choice] == option for choice, option in picks.items())


def allowed(case: Case, picks: Mapping[str, str], worst: int = BY_ARRANGEMENT) -> list[dict[str, str]]:
    return [build for build, standing in all_builds(case.family) if standing <= worst and agrees(build, picks)]


def plain(answer: Answer) -> Answer:
    """The answer without the order in which its picks were said."""
    picks = dict(sorted(answer.enquiry.picks.items()))
    return answer._replace(enquiry=answer.enquiry._replace(picks=picks))


@given(shops_and_picks())
def test_diagram_plain_search_and_every_build_tried_agree(asked: Asked) -> None:
    shop, picks = asked
    case = case_of(shop, picks)
    by_diagram = {tuple(build) for build in case.picked().builds()}
    numbers = case.numbers(case.bound)
    by_search = dict(plain_builds(case.book.sizes, case.book.tables, numbers))
    tried = {
        tuple(case.numbers(build)[number] for number in range(len(build))): standing
        for build, standing in all_builds(case.family)
        if standing != IMPOSSIBLE and agrees(build, case.bound)
    }
    assert by_search == tried
    assert by_diagram == set(tried)
    free = sum(standing == FREE for standing in tried.values())
    assert case.picked().count() == (free, len(tried) - free)


@given(shops_and_picks())
def test_a_free_option_can_be_completed_to_a_free_build_and_a_closed_one_never(asked: Asked) -> None:
    case = case_of(*asked)
    answer = answer_case(case)
    if answer.verdict == "impossible":
        return
    for choice, standing in answer.choices.items():
        others = {id: option for id, option in case.bound.items() if id != choice}
        for option, kind in standing.options.items():
            picks = {**others, choice: option}
            free, possible = bool(allowed(case, picks, FREE)), bool(allowed(case, picks))
            assert kind == ("free" if free else "by_arrangement" if possible else "closed")


@given(shops_and_picks())
def test_the_completed_build_is_one_that_the_rules_allow_and_its_net_lies_in_the_range(asked: Asked) -> None:
    case = case_of(*asked)
    answer = answer_case(case)
    builds = allowed(case, case.bound)
    assert (answer.build is None) is (not builds)
    if answer.build and answer.price and answer.net is not None:
        assert dict(answer.build.picks) in builds
        nets = [priced(case, build).net for build in builds]
        assert (answer.price.least, answer.price.greatest) == (min(nets), max(nets))
        assert answer.price.least <= answer.net <= answer.price.greatest


@given(shops_and_picks())
def test_every_conflict_forbids_and_loses_its_force_with_any_of_its_picks(asked: Asked) -> None:
    case = case_of(*asked)
    for conflict in answer_case(case).conflicts:
        assert not allowed(case, conflict.between)
        for choice in conflict.between:
            assert allowed(case, {id: option for id, option in conflict.between.items() if id != choice})


@given(shops_and_picks())
@settings(max_examples=60)
def test_every_way_out_applied_is_possible_at_the_net_that_it_said_and_nothing_in_it_is_needless(
    asked: Asked,
) -> None:
    shop, picks = asked
    case = case_of(shop, picks)
    answer = answer_case(case)
    for way in answer.ways_out:
        applied = answer_case(case_of(shop, {**picks, **way.change}))
        assert applied.verdict != "impossible"
        assert applied.net == way.net
        assert applied.working_days == way.working_days
        for choice in way.change:
            kept = {id: option for id, option in way.change.items() if id != choice}
            assert not allowed(case, {**case.bound, **kept})


@given(shops_and_picks())
def test_an_impossible_enquiry_has_a_way_out_wherever_any_build_is_left(asked: Asked) -> None:
    case = case_of(*asked)
    answer = answer_case(case)
    if answer.verdict == "impossible":
        assert bool(answer.ways_out) is bool(allowed(case, {}))


@given(shops_and_picks())
def test_the_order_of_picks_changes_nothing_and_a_pick_taken_back_leaves_no_trace(asked: Asked) -> None:
    shop, picks = asked
    answer = answer_case(case_of(shop, picks))
    assert plain(answer_case(case_of(shop, dict(reversed(picks.items()))))) == plain(answer)
    case = case_of(shop, picks)
    space = case.picked()
    for number in space.picks:
        others = {choice: option for choice, option in space.picks.items() if choice != number}
        assert space.unpick(number).standings() == case.space.pick_all(others).standings()


@given(shops_and_picks())
def test_lines_sum_to_the_net_and_tax_to_the_gross(asked: Asked) -> None:
    shop, picks = asked
    case = case_of(shop, picks)
    for build in allowed(case, case.bound)[:5]:
        totals = priced(case, build)
        assert sum((line.amount for line in totals.lines), Decimal(0)) == totals.net
        assert totals.net + totals.tax == totals.gross


@given(shops_and_picks())
def test_what_the_space_sums_is_the_net_to_the_minor_unit(asked: Asked) -> None:
    case = case_of(*asked)
    for build in list(case.picked().builds())[:20]:
        assert Decimal(case.space.amount("price", build)).scaleb(-2) == priced(case, case.book.picks(build)).net
