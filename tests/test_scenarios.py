"""The stories of the trade, told through the command line and compared as whole texts. How to write one: `scenario.py`.

What a scenario must say was worked out by hand; its `why` shows the arithmetic.
"""

from __future__ import annotations

import difflib

import pytest

from tests.scenario import Heard, Scenario, every_scenario, run

SCENARIOS = every_scenario()


@pytest.fixture(scope="module", params=SCENARIOS, ids=lambda scenario: scenario.name)
def told(request: pytest.FixtureRequest) -> tuple[Scenario, Heard]:
    """A scenario, and what its command gave back; each command is run once for all the tests below."""
    return request.param, run(request.param)


def in_one_line(text: str) -> str:
    return " ".join(text.split())


def test_the_exit_code_is_the_answer_in_a_number(told: tuple[Scenario, Heard]) -> None:
    scenario, heard = told
    assert heard.exit == scenario.exit, heard.said + heard.noticed


def test_what_the_trade_says_is_said(told: tuple[Scenario, Heard]) -> None:
    scenario, heard = told
    missed = [phrase for phrase in scenario.must_say if phrase not in in_one_line(heard.said)]
    assert not missed, f"{scenario.why}\nnot said: {missed}\n\n{heard.said}"


def test_what_would_be_wrong_is_not_said(told: tuple[Scenario, Heard]) -> None:
    scenario, heard = told
    slipped = [phrase for phrase in scenario.must_not_say if phrase in in_one_line(heard.said + heard.noticed)]
    assert not slipped, f"{scenario.why}\nsaid: {slipped}\n\n{heard.said}"


def test_the_whole_text_is_the_one_that_was_read_and_kept(told: tuple[Scenario, Heard]) -> None:
    scenario, heard = told
    difference = difflib.unified_diff(
        scenario.expected.splitlines(), heard.said.splitlines(), "kept", "said now", lineterm="", n=2
    )
    assert heard.said == scenario.expected, "\n".join([scenario.why, *difference])
