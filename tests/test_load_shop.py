"""A shop's files read: what they say arrives, whatever the order of files and tables, and nothing is guessed."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from configurator.catalogue.conditions import Condition
from configurator.catalogue.rules import Implication, Limit, Table
from configurator.faults import Faulty
from configurator.load.assemble import assemble
from configurator.load.shop import read_shop
from configurator.shipped import demo_folder, rules_folder
from tests.shops import Entry, choice, fact, family_of, figure, number, price, rule, shop_of, text_of

USE = choice("use", "street", "drag")


def files_under(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*.toml"))}


SHIPPED = files_under(rules_folder())
DEMOS = {folder.name: files_under(folder) for folder in sorted(demo_folder().iterdir()) if folder.is_dir()}


@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_shop_reads_and_can_be_kept_as_json(name: str) -> None:
    plain = read_shop(DEMOS[name], SHIPPED)
    kept = json.loads(json.dumps(plain))
    assert kept == plain
    assert assemble(kept) == assemble(plain)
    assert assemble(kept).demo


def tables_of(text: bytes) -> list[str]:
    """A file's text cut before every table that may stand anywhere; what comes first stays first."""
    pieces: list[list[str]] = [[]]
    for line in text.decode().splitlines(keepends=True):
        if line.startswith("[[") and "." not in line:
            pieces.append([])
        pieces[-1].append(line)
    return ["".join(piece) for piece in pieces]


@pytest.mark.parametrize("name", DEMOS)
@settings(max_examples=5, phases=[Phase.generate])  # a smaller shuffle of a whole shop tells no more
@given(chance=st.randoms(use_true_random=False))
def test_no_order_of_files_or_tables_changes_the_shop(name: str, chance: random.Random) -> None:
    names = sorted(DEMOS[name])
    chance.shuffle(names)
    shuffled = {}
    for file in names:
        first, *others = tables_of(DEMOS[name][file])
        chance.shuffle(others)
        shuffled[file] = "".join([first, *others]).encode()
    assert without_places(read_shop(shuffled, SHIPPED)) == without_places(read_shop(DEMOS[name], SHIPPED))


@pytest.mark.parametrize("name", DEMOS)
def test_a_shop_may_be_one_file_or_many(name: str) -> None:
    """Files are split by habit only: a file for each table gives the same shop."""
    many: dict[str, bytes] = {}
    for file, text in DEMOS[name].items():
        if file.startswith("enquiries/"):
            many[file] = text
            continue
        first, *others = tables_of(text)
        family = "".join(line for line in first.splitlines(keepends=True) if line.startswith("family = "))
        many[file] = first.encode()
        for position, piece in enumerate(others):
            many[f"{position}-{file.replace('/', '-')}"] = (family + piece).encode()
    assert without_places(read_shop(many, SHIPPED)) == without_places(read_shop(DEMOS[name], SHIPPED))


def without_places(value: object) -> object:
    if isinstance(value, Mapping):
        return {key: without_places(inner) for key, inner in value.items() if key != "place"}
    if isinstance(value, list):
        return [without_places(inner) for inner in value]
    return value


def test_options_keep_their_order_and_all_else_goes_by_id() -> None:
    family = family_of(shop_of(USE, choice("cooling", "solid", "dry_deck", "jacketed"), choice("belt", "short")))
    assert list(family.choices) == ["belt", "cooling", "use"]
    assert [option.id for option in family.choices["cooling"].options] == ["solid", "dry_deck", "jacketed"]


def test_a_new_option_may_be_one_new_file() -> None:
    text = '[[option]]\nchoice = "cooling"\nid = "dry_deck"\nfacts = { mass = { is = "28 kg" } }\n'
    files = {"shop.toml": text_of(USE, choice("cooling", "jacketed", "solid")).encode(), "dry.toml": text.encode()}
    options = family_of(assemble(read_shop(files, {}))).choices["cooling"].options
    assert [option.id for option in options] == ["jacketed", "solid", "dry_deck"]
    assert options[-1].facts["mass"].value.value == 28
    assert str(options[-1].place) == "dry.toml:1"


def test_what_has_no_label_is_called_by_its_id_in_words() -> None:
    text = text_of(("choice", {"id": "head_holes", "asks": "have", "option": [{"id": "as_cast"}]}))
    told = family_of(assemble(read_shop({"shop.toml": text.encode()}, {}))).choices["head_holes"]
    assert (told.label, told.options[0].label) == ("Head holes", "As cast")


def test_a_numeric_option_is_called_by_its_value_with_the_decimals_of_the_step() -> None:
    bore = {"unit": "mm", "from": "76 mm", "to": "90 mm", "step": "0.1 mm", "usual": "82 mm"}
    text = text_of(
        USE, ("choice", {"id": "bore", "asks": "want", **bore, "option": [{"is": "8.2 cm"}, {"is": "84mm"}]})
    )
    told = family_of(assemble(read_shop({"shop.toml": text.encode()}, {}))).choices["bore"]
    assert [option.id for option in told.options] == ["82.0 mm", "84.0 mm"]
    assert told.options[0].value and told.options[0].value.value == Decimal("0.082")
    assert told.usual[0].option == "82.0 mm"


def test_conditions_name_options_by_value_and_compare_what_has_a_value() -> None:
    shop = shop_of(
        USE,
        number("belt", [0, 2], "teeth"),
        rule(
            "long_belt",
            when={"belt": 2, "use": {"not": ["street"]}, "rise": "> 5 mm"},
            then={"belt": ["1 teeth", "2 teeth"]},
        ),
        figure("rise", "8 mm"),
    )
    body = family_of(shop).rules["long_belt"].body
    assert isinstance(body, Implication)
    assert body.when == (
        Condition("belt", ("2 teeth",)),
        Condition("rise", comparison="> 5 mm"),
        Condition("use", ("street",), negated=True),
    )
    assert body.then == (Condition("belt", ("1 teeth", "2 teeth")),)


def test_the_three_forms_of_a_rule_are_told_apart() -> None:
    shop = shop_of(
        USE,
        choice("cooling", "solid", "jacketed"),
        figure("wall", "3 mm"),
        rule("a", when={"cooling": "solid"}, then="by_arrangement"),
        rule("b", columns=["cooling", "use"], rows=[["solid", "*"], ["jacketed", ["street", "drag"]]]),
        rule("c", figure="wall", free=">= 2 mm", uncertainty="25 % of value", when={"use": "drag"}),
    )
    a, b, c = (family_of(shop).rules[id].body for id in "abc")
    assert a == Implication((Condition("cooling", ("solid",)),), "", (), "by_arrangement")
    assert isinstance(b, Table) and b.rows == ((("solid",), ()), (("jacketed",), ("drag", "street")))
    assert isinstance(c, Limit) and (c.beyond, c.judged, c.uncertainty) == ("impossible", "nominal", "25 % of value")


WATER = b"""
[[rule]]
id = "solid_is_for_drag"
when = { cooling = "solid" }
then = { use = ["drag", "sprint"] }
needs = ["cooling"]
because = "No water."
basis = "common practice"
passes = [{ cooling = "solid", use = "drag" }, { cooling = "solid", use = "sprint" }]
fails = [{ cooling = "solid", use = "street" }]

[[rule]]
id = "wet_sleeve_seals"
when = { cooling = "wet_sleeve" }
then = "by_arrangement"
needs = ["cooling"]
because = "Seals."
basis = "common practice"

[[rule]]
id = "wall"
figure = "liner_wall"
free = ">= 2.5 mm"
needs = ["bore", "liner"]
because = "Thin."
basis = "common practice"

[[figure]]
id = "liner_wall"
formula = "(liner_outside - bore) / 2"
"""


def with_water(*entries: tuple[str, dict[str, object]]) -> bytes:
    return text_of(("family", {"id": "f", "rules": ["water"]}), *entries).encode()


def test_a_shipped_rule_is_kept_where_a_family_has_its_choices_and_options() -> None:
    files = {"shop.toml": with_water(USE, choice("cooling", "solid", "jacketed"))}
    shop = assemble(read_shop(files, {"water.toml": WATER}))
    family = family_of(shop)
    assert list(family.rules) == ["solid_is_for_drag"]
    body = family.rules["solid_is_for_drag"].body
    assert isinstance(body, Implication) and body.then == (Condition("use", ("drag",)),)
    assert [example.picks for example in family.rules["solid_is_for_drag"].passes] == [
        {"cooling": "solid", "use": "drag"}
    ]
    assert family.figures == {}
    assert shop.foreign == {"bore", "liner"}


def test_a_shipped_figure_comes_with_the_rule_that_works_with_it() -> None:
    liner = choice("liner", {"id": "od_88", "facts": {"liner_outside": fact("88.0 mm")}})
    files = {"shop.toml": with_water(USE, number("bore", [80, 84], "mm"), liner)}
    assert list(family_of(assemble(read_shop(files, {"rules/water.toml": WATER}))).figures) == ["liner_wall"]


def test_a_family_that_names_no_rule_files_has_none_of_their_rules() -> None:
    files = {"shop.toml": text_of(USE, choice("cooling", "solid")).encode()}
    shop = assemble(read_shop(files, {"water.toml": WATER}))
    assert not family_of(shop).rules
    assert shop.foreign == {"bore", "liner"}


TWO = (("family", {"id": "inline"}), ("family", {"id": "vee"}))


def test_a_file_may_say_once_which_family_its_tables_are_of() -> None:
    cooling = '[[choice]]\nid = "cooling"\nasks = "want"\noption = [{ id = "solid" }]\n'
    files = {
        "shop.toml": text_of(*TWO).encode(),
        "a.toml": f'family = "inline"\n{cooling}'.encode(),
        "b.toml": f'family = "vee"\n{cooling}{cooling.replace("cooling", "banks")}family = "inline"\n'.encode(),
    }
    families = assemble(read_shop(files, {})).families
    assert list(families["vee"].choices) == ["cooling"]
    assert list(families["inline"].choices) == ["banks", "cooling"]


def test_a_price_list_without_a_family_is_for_every_family() -> None:
    shop = assemble(read_shop({"shop.toml": text_of(*TWO, price("base", "100.00", family="vee")).encode()}, {}))
    lists = {id: family.price_lists for id, family in shop.families.items()}
    assert [len(lists[id][0].prices) for id in ("inline", "vee")] == [0, 1]


def test_what_is_kept_back_is_kept_as_texts_and_looked_at_by_nobody() -> None:
    kept: list[Entry] = [
        ("rate", {"id": "saw", "centre": "nowhere", "amount": 41}),
        ("cost", {"id": "billet", "amount": "-x"}),
    ]
    shop = shop_of(USE, *kept)
    assert shop.kept_back == {
        "rate": [{"id": "saw", "centre": "nowhere", "amount": "41"}],
        "cost": [{"id": "billet", "amount": "-x"}],
    }


def test_a_shop_without_a_calendar_works_five_days_and_says_so() -> None:
    text = re.sub(r"\[\[calendar\]\][^\[]*(\[[^\[]*\])?[^\[]*", "", text_of(USE))
    shop = assemble(read_shop({"shop.toml": text.encode()}, {}))
    assert (shop.calendar.label, shop.calendar.week) == ("Monday to Friday, no holidays", (0, 1, 2, 3, 4))


def test_an_expected_answer_has_its_enquiry_from_a_file_or_beside_it() -> None:
    told = {"id": "one", "why": "w", "verdict": "free", "enquiry": "enquiries/one.toml"}
    beside = {"id": "two", "why": "w", "verdict": "free", "want": {"use": "drag"}, "quantity": 2}
    text = text_of(USE, ("expected", told), ("expected", beside)).encode()
    files = {"shop.toml": text, "enquiries/one.toml": b'customer = "x"\n[want]\nuse = "street"\n'}
    one, two = family_of(assemble(read_shop(files, {}))).expected
    assert one.enquiry == {"family": "family", "customer": "x", "want": {"use": "street"}}
    assert two.enquiry == {"family": "family", "want": {"use": "drag"}, "quantity": 2}


def test_an_enquiry_that_no_expected_answer_names_is_not_read() -> None:
    files = {"shop.toml": text_of(USE).encode(), "enquiries/draft.toml": b"not toml"}
    assert read_shop(files, {})
    with pytest.raises(Faulty, match=r"draft\.toml:1"):
        read_shop({**files, "draft.toml": b"not toml"}, {})
