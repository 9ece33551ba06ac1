"""A new variant is one new file. A fourth liner for the Tarnwick shop brings its option, facts, price, hours, mass,
rule and examples in a file of its own; nothing else is touched, and every question is answered with it at once.
"""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from configurator import shipped
from configurator.answer import Answer
from configurator.desk import Desk, answer, open_shop, quote
from configurator.enquiry import Enquiry
from configurator.load.codes import read_code
from configurator.load.enquiry import Spoken, gather
from configurator.quote import Quote
from configurator.review.lint import lint
from configurator.units import Misread

TODAY = date(2026, 11, 25)
FILE = "liner_89_5.toml"
VARIANT = """\
family = "tnw5"

[[option]]
choice = "liner"
id = "od_89_5"
label = "Liner of 89.5 mm outside"
[option.facts]
liner_diameter = { is = "89.5 mm" }
flange_diameter = { is = "93.5 mm" }
mass = { is = "0.3 kg" }

[[price]]
id = "liner_89_5"
list = "2026-06"
when = { liner = "od_89_5" }
text = "Liners of 89.5 mm, five"
amount = "95.00"

[[operation]]
id = "liner_89_5"
label = "Ream for liners of 89.5 mm"
when = { liner = "od_89_5" }
adds = "liners"
run = "24 h"

[[rule]]
id = "odd_liner_has_a_flange"
when = { liner = "od_89_5" }
then = { liner_fit = "flanged" }
because = "This liner is made with a flange only."
basis = "family data"
passes = [{ liner = "od_89_5", liner_fit = "flanged" }]
fails = [{ liner = "od_89_5", liner_fit = "plain" }]

[[expected]]
id = "odd_liner_under_boost"
why = "A web of 94.0 - 89.5 = 4.5 mm is just enough under boost, and a bore of 84.5 leaves 2.5 mm of wall."
want = { liner = "od_89_5", bore = "84.5 mm" }
duty = { boost = "1.0 bar" }
verdict = "free"
net = "9895.00"
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A Tarnwick shop of our own."""
    place = tmp_path_factory.mktemp("shops") / "tarnwick"
    shutil.copytree(shipped.demo_folder() / "tarnwick", place)
    return place


@pytest.fixture(scope="module")
def before(folder: Path) -> Desk:
    return open_shop(folder)


@pytest.fixture(scope="module")
def after(folder: Path, before: Desk) -> Desk:
    (folder / FILE).write_text(VARIANT, encoding="utf-8")
    return open_shop(folder)


def asked(desk: Desk, *words: str, duty: tuple[str, ...] = ()) -> Enquiry:
    return gather(desk.shop, (), (), Spoken(words, (), (), (), duty, (), "", None, ""))[0]


def answered(desk: Desk, *words: str, duty: tuple[str, ...] = ()) -> Answer:
    return answer(desk, asked(desk, *words, duty=duty), TODAY)


def quoted(desk: Desk, *words: str) -> Quote:
    found = quote(desk, asked(desk, *words), TODAY)
    assert isinstance(found, Quote)
    return found


def kinds(desk: Desk, *words: str) -> Mapping[str, str]:
    return answered(desk, *words).choices["liner"].options


def test_the_option_is_offered_beside_the_others(before: Desk, after: Desk) -> None:
    assert "od_89_5" not in kinds(before)
    assert kinds(after) == {**kinds(before), "od_89_5": "free"}


def test_its_rule_closes_it_where_it_does_not_fit(after: Desk) -> None:
    assert kinds(after, "liner_fit=plain")["od_89_5"] == "closed"
    (conflict,) = answered(after, "liner=od_89_5", "liner_fit=plain").conflicts
    assert dict(conflict.between) == {"liner": "od_89_5", "liner_fit": "plain"}
    assert "odd_liner_has_a_flange" in conflict.rules


def test_the_shared_rules_judge_it_by_its_facts(after: Desk) -> None:
    """Wall (89.5 - 84.5) / 2 = 2.5 mm and web 94.0 - 89.5 = 4.5 mm: both at their limits, which are inclusive."""
    found = answered(after, "liner=od_89_5", "bore=84.5mm", duty=("boost=1.0 bar",))
    checks = {check.rule: check for check in found.checks}
    assert found.verdict == "free"
    assert (checks["liner_wall_holds"].value, checks["liner_wall_holds"].margin) == ("2.5 mm", "0.0 mm")
    assert (checks["web_under_boost"].value, checks["web_under_boost"].margin) == ("4.5 mm", "0.0 mm")
    assert answered(after, "liner=od_89_5", "bore=84.6mm", duty=("boost=1.0 bar",)).verdict == "by_arrangement"


def test_its_builds_are_counted(before: Desk, after: Desk) -> None:
    """The new builds are those with the new liner: the sum of both kinds grows by exactly their number."""
    old, new, own = answered(before), answered(after), answered(after, "liner=od_89_5")
    assert own.free > 0
    assert (new.free, new.by_arrangement) == (old.free + own.free, old.by_arrangement + own.by_arrangement)


def test_its_price_its_hours_and_its_mass_are_on_the_quote(before: Desk, after: Desk) -> None:
    usual, own = quoted(before), quoted(after, "liner=od_89_5")
    assert own.totals.net - usual.totals.net == Decimal("95.00")
    assert [line.text for line in own.totals.lines if line.id == "liner_89_5"] == ["Liners of 89.5 mm, five"]
    assert own.promise.planned > usual.promise.planned
    assert (usual.tallies["mass"], own.tallies["mass"]) == ("27 kg", "27.3 kg")


def test_what_was_quoted_before_is_quoted_the_same(before: Desk, after: Desk) -> None:
    for words in ((), ("cooling=dry_deck",), ("deck=tall",), ("bore=85mm",)):
        old, new = quoted(before, *words), quoted(after, *words)
        assert (new.totals, new.promise, new.tallies) == (old.totals, old.promise, old.tallies)
        assert old.answer.build and new.answer.build
        assert new.answer.build.picks == old.answer.build.picks


def test_a_code_from_before_is_refused_not_misread(before: Desk, after: Desk) -> None:
    build = quoted(before, "bore=85mm").answer.build
    assert build
    assert read_code(build.code, before.shop).picks["bore"] == "85.0 mm"
    with pytest.raises(Misread, match="another catalogue"):
        read_code(build.code, after.shop)


def test_lint_runs_what_it_brings_and_finds_only_what_is_wrong_in_it(folder: Path, after: Desk) -> None:
    """One of its examples is turned wrong; the other and the expected answer beside it still hold."""
    wrong = VARIANT.replace('fit = "plain" }]', 'fit = "flanged" }]')
    (folder / FILE).write_text(wrong, encoding="utf-8")
    try:
        looked = lint(open_shop(folder), TODAY)
    finally:
        (folder / FILE).write_text(VARIANT, encoding="utf-8")
    (finding,) = [one for one in looked.findings if one.place.file == FILE]
    assert finding.about == "odd_liner_has_a_flange"
    assert wrong.splitlines()[finding.place.line - 1].startswith("fails = ")
    family = after.shop.families["tnw5"]
    assert "odd_liner_under_boost" in {one.id for one in family.expected}
    assert looked.expected == len(family.expected)
