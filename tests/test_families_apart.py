"""Two families in one shop: each answers as it does alone. Rules, choices and prices of one never reach the other.

Every scenario of the demo shops is asked twice, in its own shop and in one that holds both families, and the figures
compared. Days are left out: the two demo shops differ in their works, and the one that holds both has but one.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from configurator import shipped
from configurator.desk import Desk, open_shop
from tests.scenario import Scenario, every_scenario, run

FAMILY = {"tarnwick": "tnw5", "brindlow": "blw8"}
OF_THE_SHOP = ("shop.toml", "works.toml", "kept_back.toml")
"""Files of the shop itself; of these the one shop has Tarnwick's."""
OF_THE_FAMILY = (
    "family", "verdict", "not_checked", "counted", "builds", "choices", "build", "assumed", "reckoned", "freer",
    "still_to_settle", "misfits", "conflicts", "ways_out", "sign_offs", "advice", "checks", "price", "net",
    "lines", "list", "from_to", "trade_offs", "cautions", "subject_to", "tallies", "draft",
)  # fmt: skip
"""What a document says of the family and its builds; the rest, such as tax and terms, is the shop's."""
DAYS = ("working_days", "days_difference")

SCENARIOS = [scenario for scenario in every_scenario() if scenario.args[0] in ("check", "quote", "options")]


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop of both families: the files of both demo shops in one folder."""
    folder = tmp_path_factory.mktemp("shops") / "both"
    shutil.copytree(shipped.demo_folder() / "tarnwick", folder)
    for path in sorted((shipped.demo_folder() / "brindlow").rglob("*.toml")):
        place = path.relative_to(shipped.demo_folder() / "brindlow")
        if place.name not in OF_THE_SHOP:
            name = place.name if place.parent.name == "enquiries" else f"brindlow_{place.name}"
            shutil.copy(path, folder / place.parent / name)
    return folder


@pytest.fixture(scope="module")
def desk(both: Path) -> Iterator[Desk]:
    yield open_shop(both)


@pytest.mark.parametrize("scenario", SCENARIOS, ids=lambda scenario: scenario.name)
def test_every_answer_is_the_one_that_the_family_gives_alone(scenario: Scenario, both: Path) -> None:
    alone = run(scenario, more=("--json",))
    together = run(scenario, both, ("--json", "--family", FAMILY[scenario.shop]))
    assert together.exit == alone.exit == scenario.exit
    assert of_the_family(together.said) == of_the_family(alone.said)
    assert "choices" in json.loads(alone.said)


def of_the_family(said: str) -> Any:
    """The answer without what belongs to the shop that gives it."""
    document = json.loads(said)
    return without_days({key: document[key] for key in OF_THE_FAMILY if key in document})


def without_days(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: without_days(inner) for key, inner in value.items() if key not in DAYS}
    return [without_days(inner) for inner in value] if isinstance(value, list) else value


def test_each_family_keeps_its_own_words(desk: Desk) -> None:
    """Equal ids are two choices: the V8's stroke has another range, its studs other threads; it has no belt at all."""
    five, eight = desk.shop.families["tnw5"], desk.shop.families["blw8"]
    assert not {"crank_flange", "bellhousing", "main_width", "belt", "cam_pulley", "jets"} & set(eight.choices)
    assert not {"manifold", "cam"} & set(five.choices)
    assert five.choices["stroke"].range != eight.choices["stroke"].range
    assert {option.id for option in five.choices["studs"].options}.isdisjoint(
        option.id for option in eight.choices["studs"].options
    )


def test_each_family_keeps_its_own_rules(desk: Desk) -> None:
    five, eight = desk.shop.families["tnw5"], desk.shop.families["blw8"]
    assert "pin_clear_of_rings" in set(five.rules) & set(eight.rules)
    assert "bonnet_closes" in set(eight.rules) - set(five.rules)
    assert "crank_is_one_that_was_made" in set(five.rules) - set(eight.rules)


def test_where_the_picks_fit_both_families_the_shop_asks_which(both: Path) -> None:
    asked = Scenario("both", "", "", ("check", "cooling=solid"), 2, (), ())
    heard = run(asked, both)
    assert heard.exit == 2
    assert "tnw5" in heard.noticed and "blw8" in heard.noticed


def test_where_they_fit_only_one_it_is_implied(both: Path) -> None:
    asked = Scenario("both", "", "", ("check", "manifold=keep", "--json"), 0, (), ())
    assert json.loads(run(asked, both).said)["family"] == "blw8"
