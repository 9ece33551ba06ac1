"""Rules that are not written yet: from words to a table, to an effect, to a file whose comments stay as they were."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from configurator.documents.saving import Refused
from configurator.faults import Faulty
from configurator.load.text import read_toml
from configurator.review.addition import add_rule, save_rule, try_rule_of
from configurator.review.drafts import Parts, conditions, drafted
from configurator.review.lint import lint
from configurator.review.revisions import files_of
from configurator.review.writing import check_home, home_of, toml_of, written_into
from tests.review.desks import DAY
from tests.shops import choice, figure, folder_of, number, price

SOLID = Parts(
    id="solid_is_for_drag",
    when=("cooling=solid",),
    then=("use=drag",),
    because="It gets hot.",
    basis="common practice",
)
COMMENTED = """\
# What we learned the hard way.

[[rule]]   # the first
id = "paint_dries"   # a day at least
when = { cooling = "solid",   use = "drag" }
then = "advice"
because = '''
It
dries.'''
basis = "common practice"
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A shop with one rule of its own, in a file with comments."""
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "learned.toml").write_text(COMMENTED)
    entries = (choice("cooling", "jacketed", "solid"), choice("use", "street", "drag"), number("bore", [80, 90], "mm"))
    return folder_of(tmp_path, *entries, figure("wall", "95 mm - bore"), price("block", "1.00"))


WORDS: list[tuple[str, dict[str, Any]]] = [
    ("cooling=solid", {"cooling": "solid"}),
    ("use = drag, street", {"use": ["drag", "street"]}),
    ("use!=drag", {"use": {"not": "drag"}}),
    ("use!=drag,street", {"use": {"not": ["drag", "street"]}}),
    ("bore>=84 mm", {"bore": ">= 84 mm"}),
    ("bore < 84 mm", {"bore": "< 84 mm"}),
    ("bore=84 mm to 86 mm", {"bore": "84 mm to 86 mm"}),
]


@pytest.mark.parametrize(("word", "table"), WORDS)
def test_a_condition_is_read_from_a_word(word: str, table: dict[str, Any]) -> None:
    assert conditions([word]) == table


@pytest.mark.parametrize("word", ["cooling", "=solid", "cooling=", "", "9=x", "cooling ? solid"])
def test_a_word_that_is_no_condition_is_a_fault_that_shows_how(word: str) -> None:
    with pytest.raises(Faulty, match="write it like cooling=solid"):
        conditions([word])


def test_the_same_choice_twice_is_a_fault() -> None:
    with pytest.raises(Faulty, match="use stands twice"):
        conditions(["use=drag", "use=street"])


def test_a_table_and_a_limit_are_drafted_from_flags() -> None:
    table = drafted(Parts(columns="cooling, use", rows=("solid,drag|street", "jacketed,*")))
    assert table == {"columns": ["cooling", "use"], "rows": [["solid", ["drag", "street"]], ["jacketed", "*"]]}
    limit = drafted(Parts(figure="wall", free=">= 8 mm", by_arrangement=">= 5 mm", beyond="advice"))
    assert list(limit) == ["figure", "free", "by_arrangement", "beyond"]


TEXTS = ['He said "no".', "a \\ back", "two\nlines", "tab\there", "ünïcode ✓", "'''", '"""', "[[rule]]", "# no comment"]


@pytest.mark.parametrize("text", TEXTS)
def test_any_text_reads_back_as_it_was_meant(text: str) -> None:
    draft = drafted(SOLID._replace(because=text))
    assert read_toml("x", toml_of(draft).encode()).data["rule"] == [draft]


@pytest.mark.parametrize(
    "before", ["", "# only a comment", COMMENTED, '[shop]\nid = "x"', COMMENTED + "\n[a.b]\nc = 1\n"]
)
def test_what_stands_in_a_file_stays_as_it_is_when_a_rule_is_written_below(before: str) -> None:
    after = written_into(before, drafted(SOLID))
    assert after.startswith(before)
    assert after.endswith(toml_of(drafted(SOLID)))


def test_a_rule_belongs_where_most_rules_about_its_choices_stand(shop: Path) -> None:
    own = files_of(str(shop), shop).own
    assert home_of(own, ["cooling"], "family") == "rules/learned.toml"
    assert home_of(own, ["bore"], "family") == "rules/family.toml"


@pytest.mark.parametrize("file", ["../x.toml", "/tmp/x.toml", "rules/x.txt", "enquiries/x.toml", "rules/a/b.toml", ""])
def test_a_file_that_the_shop_would_never_read_is_refused(file: str) -> None:
    with pytest.raises(Faulty):
        check_home(file or ".toml")


def test_the_effect_of_a_rule_is_seen_without_writing_it(shop: Path) -> None:
    before = {path: path.read_bytes() for path in shop.rglob("*") if path.is_file()}
    files = files_of(str(shop), shop)
    addition = try_rule_of(files, Parts(when=SOLID.when, then=SOLID.then), DAY)
    (found,) = addition.effect.families
    assert found.difference is not None
    assert (found.difference.kind, found.difference.removed.free) == ("removes", 2)
    assert {path: path.read_bytes() for path in shop.rglob("*") if path.is_file()} == before


def test_a_rule_is_written_with_an_example_of_each_kind_and_lint_is_content(shop: Path) -> None:
    addition = add_rule(files_of(str(shop), shop), SOLID, DAY)
    save_rule(addition, shop)
    text = (shop / "rules" / "learned.toml").read_text()
    assert text.startswith(COMMENTED)
    assert 'passes = [{ cooling = "solid", use = "drag" }]' in text
    assert 'fails = [{ cooling = "solid", use = "street" }]' in text
    seen = lint(files_of(str(shop), shop).open(), DAY)
    assert [one for one in (*seen.findings, *seen.remarks) if one.about == "solid_is_for_drag"] == []


def test_a_limit_gets_examples_over_the_choices_that_it_reaches(shop: Path) -> None:
    wall = SOLID._replace(id="wall", when=(), then=(), figure="wall", free=">= 10 mm")
    addition = add_rule(files_of(str(shop), shop), wall, DAY)
    assert 'passes = [{ bore = "80 mm" }]' in addition.rule_text
    assert 'fails = [{ bore = "90 mm" }]' in addition.rule_text


def test_advice_gets_an_example_that_it_advises_against(shop: Path) -> None:
    addition = add_rule(files_of(str(shop), shop), SOLID._replace(then=("advice",)), DAY)
    assert 'fails = [{ cooling = "solid" }]' in addition.rule_text
    assert 'passes = [{ cooling = "jacketed" }]' in addition.rule_text


def test_a_rule_under_an_id_that_is_there_is_a_fault_and_nothing_is_written(shop: Path) -> None:
    with pytest.raises(Faulty, match="paint_dries stands here and at"):
        add_rule(files_of(str(shop), shop), SOLID._replace(id="paint_dries"), DAY)
    assert (shop / "rules" / "learned.toml").read_text() == COMMENTED


def test_a_rule_without_a_reason_is_a_fault(shop: Path) -> None:
    with pytest.raises(Faulty, match="because"):
        add_rule(files_of(str(shop), shop), SOLID._replace(because=""), DAY)


def test_a_file_that_was_changed_meanwhile_is_not_written_over(shop: Path) -> None:
    addition = add_rule(files_of(str(shop), shop), SOLID, DAY)
    (shop / "rules" / "learned.toml").write_text("# somebody was here\n")
    with pytest.raises(Refused, match="changed meanwhile"):
        save_rule(addition, shop)
    assert (shop / "rules" / "learned.toml").read_text() == "# somebody was here\n"
