"""A rule said in a sentence, and what it costs."""

from __future__ import annotations

from typing import Any

import pytest

from configurator.faults import Faulty
from configurator.review.explanation import Explanation, explain_rule
from configurator.review.sentences import rows_of, sentence_of
from tests.review.desks import DAY, desk_of, family_at
from tests.shops import choice, figure, number, rule

COOLING = choice("cooling", {"id": "wet", "label": "Wet deck"}, {"id": "solid", "label": "Solid"}, label="Cooling")
USE = choice("use", {"id": "street", "label": "Street"}, {"id": "drag", "label": "Drag"}, label="Use", usual="street")
BORE = number("bore", [80, 85], "mm", label="Bore")
WALL = figure("wall", "90 mm - bore")

SENTENCES: list[tuple[dict[str, Any], str]] = [
    (
        {"when": {"cooling": "solid"}, "then": {"use": "drag"}},
        "With cooling solid, only use drag will do; anything else is impossible.",
    ),
    (
        {"when": {"cooling": {"not": "wet"}, "use": ["street", "drag"]}, "then": "by_arrangement"},
        "Cooling other than wet deck and use drag or street together: by arrangement.",
    ),
    ({"when": {"bore": ">= 85 mm"}, "then": "advice"}, "Bore at least 85 mm: advised against."),
    (
        {"when": {"cooling": "solid"}, "figure": "wall", "free": ">= 8 mm", "by_arrangement": ">= 5 mm"},
        "With cooling solid, wall is free at least 8 mm, by arrangement at least 5 mm, impossible beyond.",
    ),
    (
        {"columns": ["cooling", "use"], "rows": [["solid", "drag"], ["wet", "*"]]},
        "Cooling and use go together as listed; anything else is impossible.",
    ),
    ({"if": "wall < 5 mm", "then": "impossible"}, "Wall < 5 mm: impossible."),
]


@pytest.mark.parametrize(("says", "sentence"), SENTENCES)
def test_a_rule_reads_as_a_sentence(says: dict[str, Any], sentence: str) -> None:
    family = family_at(desk_of(COOLING, USE, BORE, WALL, rule("r", **says)))
    assert sentence_of(family.rules["r"], family) == sentence


def test_the_rows_of_a_table_are_told_under_the_labels_of_its_choices() -> None:
    table = rule("r", columns=["cooling", "use"], rows=[["solid", "drag"]], by_arrangement=[["wet", "*"]])
    family = family_at(desk_of(COOLING, USE, table))
    assert rows_of(family.rules["r"].body, family) == (  # type: ignore[arg-type]
        ("cooling", "use", ""),
        ("solid", "drag", ""),
        ("wet deck", "anything", "by arrangement"),
    )


def explained(*rules: Any) -> Explanation:
    (found,) = explain_rule(desk_of(COOLING, USE, BORE, *rules), "r", DAY)
    return found


def test_a_rule_says_what_it_excludes_alone_and_what_it_costs_beside_the_others() -> None:
    found = explained(rule("r", when={"cooling": "solid"}, then={"use": "drag"}))
    assert (found.combinations, found.refused, found.signed) == (4, 1, 0)
    assert (found.alone, found.all_builds) == (2, 8)
    assert found.cost is not None
    assert found.cost.removed.free == 2
    assert dict(found.nearest["removed"]) == {"cooling": "solid"}
    assert [dict(one.picks) for one in found.excluded] == [{"cooling": "solid", "use": "street"}]
    assert found.others == ()


def test_a_rule_that_costs_nothing_names_those_that_refuse_the_same() -> None:
    again = rule("again", when={"cooling": "solid", "use": "street"}, then="impossible")
    found = explained(rule("r", when={"cooling": "solid"}, then={"use": "drag"}), again)
    assert found.others == ("again",)
    assert found.nearest == {}


def test_a_rule_that_no_family_has_is_answered_with_the_nearest() -> None:
    with pytest.raises(Faulty, match="did you mean solid"):
        explain_rule(desk_of(COOLING, USE, rule("solid", when={"cooling": "solid"}, then="advice")), "solidd", DAY)
