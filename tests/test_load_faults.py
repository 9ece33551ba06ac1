"""What is wrong with a shop's file is said with file, line, key and a way out, all at once, never as a traceback."""

from __future__ import annotations

import random

import pytest

from configurator.faults import Fault, Faulty
from configurator.load.assemble import assemble
from configurator.load.formulas import check_formulas
from configurator.load.shop import read_shop
from configurator.shipped import demo_folder, rules_folder
from tests.conftest import LONG

SHOP = """\
[shop]
id = "shop"
name = "Shop"
currency = "EUR"
zone = "Europe/Berlin"
[shop.terms]
validity = "30 days"
deposit = "50 %"
rounding = "half_up"
rounding_level = "total"
tax = { label = "VAT", rate = "19 %" }

[[family]]
id = "inline"
headings = ["Fit", "Water"]
facts = { deck = { is = "228 mm" } }

[[choice]]
id = "cooling"
asks = "want"
heading = "Water"
usual = "jacketed"
[[choice.option]]
id = "jacketed"
aliases = ["wet"]
facts = { mass = { is = "27 kg" } }
[[choice.option]]
id = "solid"
facts = { mass = { is = "41 kg" } }

[[choice]]
id = "use"
asks = "want"
usual = [{ when = { cooling = "solid" }, is = "drag" }, { is = "street" }]
option = [{ id = "street" }, { id = "drag" }]

[[choice]]
id = "flange"
asks = "have"
derive = { circle = "chord / sin(180 deg / bolts)" }
[[choice.option]]
id = "five"
measures = { bolts = 5, circle = "72.0 mm" }
tolerance = { circle = "0.5 mm" }
[[choice.option]]
id = "eight"

[[choice]]
id = "holes"
asks = "have"
taken_as = "open"
option = [{ id = "open" }, { id = "shut", asks_for = ["boost"], refused_with = "drag_only" }]

[[choice]]
id = "bore"
asks = "want"
unit = "mm"
from = "76 mm"
to = "90 mm"
step = "0.1 mm"
[[choice.option]]
is = "82.0 mm"

[[donor]]
id = "early"
part = "crank"
has = { flange = "five" }

[[duty]]
id = "boost"
unit = "bar"
from = "0 bar"
to = "3 bar"
plain_is = "gauge"

[[tally]]
id = "mass"
unit = "kg"

[[figure]]
id = "wall"
formula = "(88 mm - bore) / 2"

[[rule]]
id = "drag_only"
when = { cooling = "solid" }
then = { use = "drag" }
because = "Hot."
basis = "common practice"
passes = [{ cooling = "solid", use = "drag" }]
fails = [{ cooling = "solid", use = "street", boost = "1 bar" }]

[[rule]]
id = "what_fits"
columns = ["cooling", "use"]
rows = [["jacketed", "*"], ["solid", ["drag"]]]
because = "Fits."
basis = "published"
source = "A handbook"

[[rule]]
id = "thin"
figure = "wall"
free = ">= 2.5 mm"
uncertainty = "0.1 mm"
because = "Thin."
basis = "common practice"

[[price_list]]
id = "2026-06"
from = 2026-06-01

[[price]]
id = "base"
list = "2026-06"
text = "Block"
amount = "9800.00"

[[price]]
id = "solid"
list = "2026-06"
text = "Solid"
amount = "-600.00"
when = { cooling = "solid", bore = "> 80 mm" }

[[centre]]
id = "mill"
machines = 2
hours_a_day = "8 h"
efficiency = "80 %"

[[material]]
id = "billet"
working_days = 10

[[operation]]
id = "rough"
centre = "mill"
run = "6 h"
after = ["billet"]

[[operation]]
id = "groove"
adds = "rough"
run = "1.5 h"
when = { cooling = "solid" }

[[outside]]
id = "anodise"
working_days = 5
after = ["rough"]

[[calendar]]
id = "works"
week = ["Mon", "Tue"]
holidays = [{ date = 2026-12-25, label = "Christmas Day" }]

[[expected]]
id = "first"
why = "It is asked daily."
verdict = "free"
want = { cooling = "solid" }
"""

SHIPPED = {
    "water.toml": b"""
[[rule]]
id = "shipped"
when = { jets = "fitted" }
then = "by_arrangement"
because = "Oil."
basis = "common practice"
"""
}


def faults_of(text: str) -> tuple[Fault, ...]:
    """The faults of the shop, each in its file and at its line."""
    try:
        read_shop({"shop.toml": text.encode()}, SHIPPED)
    except Faulty as faulty:
        lines = text.count("\n") + 1
        for fault in faulty.faults:
            assert fault.place.file in ("shop.toml", "water.toml")
            assert 1 <= fault.place.line <= lines
            assert fault.wrong and fault.way_out, fault
        return faulty.faults
    return ()


def test_the_shop_that_is_spoilt_below_is_sound() -> None:
    assert faults_of(SHOP) == ()


SPOILT: dict[str, tuple[str, str, str, str]] = {
    # what is spoilt: the text that stands there, what is put in its place, words that must be said, and of the way out
    "a key nobody knows":
        ('asks = "want"\nheading', 'ask = "want"\nheading', "is not a key that this table knows", "asks"),
    "a key that is missing": ('asks = "want"\nheading', "heading", "is missing", "add it"),
    "a table nobody knows": ("[[tally]]", "[[tallies]]", "is not a key that this table knows", "tally"),
    "an id with a capital": ('id = "cooling"', 'id = "Cooling"', "is no id", "small letters"),
    "an id with a dot": ('id = "cooling"', 'id = "cool.ing"', "is no id", "small letters"),
    "an id in another script": ('id = "cooling"', 'id = "k\u00fchlung"', "is no id", "small letters"),
    "an empty label": ('id = "jacketed"', 'id = "jacketed"\nlabel = " "', "is not a text", "quotes"),
    "a label that is true": ('id = "jacketed"', 'id = "jacketed"\nlabel = true', "is not a text", "quotes"),
    "a choice twice": ('id = "use"', 'id = "cooling"', "stands here and at shop.toml:", "stands once"),
    "a rule twice": ('id = "thin"', 'id = "what_fits"', "stands here and at shop.toml:", "stands once"),
    "a price twice": ('id = "solid"\nlist', 'id = "base"\nlist', "stands here and at shop.toml:", "stands once"),
    "a step twice": ('id = "anodise"', 'id = "rough"', "stands here and at shop.toml:", "stands once"),
    "an option twice": ('id = "solid"\nfacts', 'id = "jacketed"\nfacts', "answers to 'jacketed' too", "another word"),
    "an alias that is another's id":
        ('aliases = ["wet"]', 'aliases = ["Solid"]', "answers to 'solid' too", "another word"),
    "a numeric option twice":
        ('is = "82.0 mm"', 'is = "82.0 mm"\n[[choice.option]]\nis = "8.2 cm"', "twice", "take one"),
    "a heading nobody has":
        ('heading = "Water"', 'heading = "Watr"', "none of the family's headings", "did you mean Water?"),
    "usual that is no option":
        ('usual = "jacketed"', 'usual = "jaketed"', "has no option jaketed", "did you mean jacketed?"),
    "usual of a have": ('taken_as = "open"', 'usual = "open"', "never filled by likelihood", "taken_as"),
    "usual in a circle":
        ('usual = "jacketed"', 'usual = [{ when = { use = "drag" }, is = "solid" }]', "in a circle", "one of"),
    "usual of itself":
        ('usual = "jacketed"', 'usual = [{ when = { cooling = "solid" }, is = "solid" }]', "circle", "one of"),
    "usual by a fact":
        ('usual = "jacketed"', 'usual = [{ when = { deck = "> 1 mm" }, is = "solid" }]', "no choice", "only"),
    "usual of another shape": ('usual = "jacketed"', 'usual = [["solid"]]', "is no usual option", "is = "),
    "taken_as of a want": ('usual = "jacketed"', 'taken_as = "jacketed"', "a want is not taken as anything", "usual"),
    "taken_as that tells donors apart":
        ("derive = {", 'taken_as = "five"\nderive = {', "identifies a donor", "leave it open"),
    "a fact without a number": ('is = "27 kg"', 'is = "heavy"', "is not a number with a unit", "94.0 mm"),
    "a fact without a unit that is not a count": ('is = "27 kg"', 'is = "27"', "a plain number", "one kind"),
    "a fact of another kind": ('is = "41 kg"', 'is = "41 mm"', "is a length, elsewhere it is a mass", "one kind"),
    "a fact with a comma": ('is = "27 kg"', 'is = "27,5 kg"', "can be read in two ways", "point"),
    "a published fact without a source": ('is = "27 kg"', 'is = "27 kg", basis = "published"', "is missing", "source"),
    "a basis nobody knows": ('is = "27 kg"', 'is = "27 kg", basis = "hearsay"', "none of the words", "common practice"),
    "a measure without a tolerance": ('tolerance = { circle = "0.5 mm" }', "", "has no tolerance", "tolerance"),
    "a tolerance of nothing": ('{ circle = "0.5 mm" }', '{ circle = "0.5 mm", x = "1 mm" }', "not among", "bolts"),
    "a tolerance of another kind": ('{ circle = "0.5 mm" }', '{ circle = "0.5 kg" }', "is a mass", "mm"),
    "a measure of a want":
        ('aliases = ["wet"]', "measures = { n = 1 }", "only options of a have", "take the measures away"),
    "a derivation that is no formula": ("chord / sin(180 deg / bolts)", "chord.x", "", ""),
    "a derivation of what is not measured":
        ("derive = { circle", "derive = { cirkle", "is no measure", "did you mean circle?"),
    "asking for no duty":
        ('asks_for = ["boost"]', 'asks_for = ["bost"]', "there is no duty bost", "did you mean boost?"),
    "refused with no rule": ('refused_with = "drag_only"', 'refused_with = "x"', "there is no rule x", "rules"),
    "a numeric choice without a step": ('step = "0.1 mm"', "", "is missing", "unit, from, to and step"),
    "a range without a unit": ('unit = "mm"', "", "stands without a unit", "unit, from, to and step"),
    "a range upside down": ('to = "90 mm"', 'to = "70 mm"', "`to` is not above `from`", "least"),
    "a range off its steps": ('to = "90 mm"', 'to = "90.05 mm"', "whole number of steps", "to"),
    "a range finer than its step": ('from = "76 mm"', 'from = "76.05 mm"', "more decimals than the step", "from"),
    "a step of nothing": ('step = "0.1 mm"', 'step = "0 mm"', "is no step", "above zero"),
    "a step too fine": ('step = "0.1 mm"', 'step = "0.00001 mm"', "is no step", "at most"),
    "a range in another kind of unit": ('to = "90 mm"', 'to = "90 kg"', "is a mass", "mm"),
    "a unit nobody knows": ('unit = "mm"', 'unit = "mmm"', "is not a known unit", "mm"),
    "a listed value off its step": ('is = "82.0 mm"', 'is = "82.05 mm"', "by steps of", "82.0 mm or 82.1 mm"),
    "a listed value out of range": ('is = "82.0 mm"', 'is = "99 mm"', "not within", "90.0 mm"),
    "an id for a listed value": ('is = "82.0 mm"', 'id = "stock"', "has a value, and no id", "is ="),
    "a value for an option in words": ('id = "eight"', 'is = "8"', "has an id, and no value", "id ="),
    "a choice without options": ('option = [{ id = "street" }, { id = "drag" }]', "", "has no option", "choice.option"),
    "a donor of no choice": ("has = { flange", "has = { flang", "knows no flang", "did you mean flange?"),
    "a donor's option": ('has = { flange = "five" }', 'has = { flange = "six" }', "has no option six", "eight, five"),
    "a donor with nothing": ('has = { flange = "five" }', "has = {}", "is empty", "at least one"),
    "a part nobody knows": ('part = "crank"', 'part = "boot"', "none of the words", "crank"),
    "a duty upside down": ('to = "3 bar"', 'to = "-1 bar"', "is not above", "least"),
    "gauge of what is no pressure": ('unit = "kg"', 'unit = "kg"\nplain_is = "gauge"', "is not a key", "unit"),
    "a pressure that does not say from where": ('plain_is = "gauge"', "", "measured from", "bar absolute"),
    "a tally in another unit":
        ('id = "mass"\nunit = "kg"', 'id = "mass"\nunit = "mm"', "elsewhere it is a length", "one kind"),
    "a figure that is no formula": ("(88 mm - bore) / 2", "(88 mm - bore / 2", "", ""),
    "a figure with a call to the machine": ("(88 mm - bore) / 2", "__import__('os')", "", ""),
    "a rule with nothing to say": ('then = { use = "drag" }', "", "has none of then, columns, figure", "a rule has"),
    "a rule in two forms":
        ('figure = "wall"', 'figure = "wall"\nthen = "advice"', "implication and limit at once", "a rule has"),
    "a key of another form": ('figure = "wall"', 'figure = "wall"\nrows = []', "does not go with", "this form has"),
    "a consequence nobody knows": ('then = { use = "drag" }', 'then = "forbidden"', "is no consequence", "impossible"),
    "a consequence for every build":
        ('when = { cooling = "solid" }\nthen = { use = "drag" }', 'then = "impossible"', "every build", "when"),
    "a standing said twice":
        ('then = { use = "drag" }', 'then = "advice"\notherwise = "advice"', "a second time", "then"),
    "a rule without a basis":
        ('because = "Hot."\nbasis = "common practice"', 'because = "Hot."', "is missing", "add it"),
    "a published rule without a source": ('source = "A handbook"', "", "is missing for what is published", "source"),
    "a when of no name":
        ('when = { cooling = "solid" }\nthen', 'when = { coling = "solid" }\nthen', "knows no coling", "cooling?"),
    "a when of no option":
        ('when = { cooling = "solid" }\nthen', 'when = { cooling = "sold" }\nthen', "no option sold", "solid?"),
    "a when that names nothing":
        ('when = { cooling = "solid" }\nthen', "when = { cooling = [] }\nthen", "no option", "one"),
    "a when that is true":
        ('when = { cooling = "solid" }\nthen', "when = { cooling = true }\nthen", "is no option", "quotes"),
    "a not with something else":
        ('{ cooling = "solid" }\nthen', '{ cooling = { no = "solid" } }\nthen', "no condition", "not ="),
    "a comparison of words": ('{ cooling = "solid" }\nthen', '{ cooling = "> 3 mm" }\nthen', "has no option", "solid"),
    "a number for a figure": ('{ cooling = "solid" }\nthen', "{ wall = 3 }\nthen", "is not a comparison", ">="),
    "a comparison without grammar": ('free = ">= 2.5 mm"', 'free = ">= 2.5 mm mm"', "", ""),
    "a limit without free": ('free = ">= 2.5 mm"', "", "is missing", "free ="),
    "a limit of no figure": ('figure = "wall"', 'figure = "wal"', "knows no wal", "did you mean wall?"),
    "a limit of a choice in words": ('figure = "wall"', 'figure = "cooling"', "knows no cooling", "cooling?"),
    "a side of no band": ('uncertainty = "0.1 mm"', 'judged = "low"', "a side of no band", "uncertainty"),
    "a row too short": ('["jacketed", "*"]', '["jacketed"]', "is no row of 2 cells", "cooling, use"),
    "a cell of no option": ('["jacketed", "*"]', '["jaketed", "*"]', "has no option jaketed", "jacketed?"),
    "a column of no choice": ('columns = ["cooling", "use"]', 'columns = ["cooling", "us"]', "knows no us", "use?"),
    "a column twice": ('columns = ["cooling", "use"]', 'columns = ["use", "use"]', "stands twice", "take one away"),
    "a table without rows": ('rows = [["jacketed", "*"], ["solid", ["drag"]]]', "", "is missing", "combinations"),
    "needs nobody has": ('id = "thin"', 'id = "thin"\nneeds = ["bor"]', "nobody knows bor", "did you mean bore?"),
    "an example of no option":
        ('passes = [{ cooling = "solid"', 'passes = [{ cooling = "sold"', "no option sold", "solid?"),
    "an example of no name":
        ('passes = [{ cooling = "solid"', 'passes = [{ coling = "solid"', "neither choice nor duty", "cooling?"),
    "an example of another unit": ('boost = "1 bar" }', 'boost = "1 mm" }', "is a length", "bar"),
    "an amount in figures": ('amount = "9800.00"', "amount = 9800.00", "is not an amount of money", "quotes"),
    "an amount with a comma": ('amount = "9800.00"', 'amount = "9.800,00"', "", ""),
    "an amount finer than a cent":
        ('amount = "9800.00"', 'amount = "9800.005"', "is finer than EUR can be paid", "2 decimals"),
    "an amount beyond all money": ('amount = "9800.00"', 'amount = "1e400"', "", ""),
    "a price on no list":
        ('list = "2026-06"\ntext = "Block"', 'list = "2026-07"\ntext = "Block"', "there is no price list", "2026-06"),
    "a price by a fact": ('bore = "> 80 mm"', 'deck = "> 80 mm"', "is no choice", "only choices"),
    "a date between quotes": ("from = 2026-06-01", 'from = "2026-06-01"', "is not a date", "without quotes"),
    "two lists from one day":
        ("[[price]]\nid = \"base\"", '[[price_list]]\nid = "b"\nfrom = 2026-06-01\n[[price]]\nid = "base"',
         "same day", "another"),
    "no centre": ('centre = "mill"', "", "is missing", "centre"),
    "a centre nobody has": ('centre = "mill"', 'centre = "mil"', "there is no centre mil", "did you mean mill?"),
    "a centre with no machine": ("machines = 2", "machines = 0", "is too small", "at least 1"),
    "machines in words": ("machines = 2", 'machines = "2"', "is not a whole number", "without quotes"),
    "machines that are true": ("machines = 2", "machines = true", "is not a whole number", "without quotes"),
    "a day of 25 hours": ('hours_a_day = "8 h"', 'hours_a_day = "25 h"', "no day has so many hours", "24 h"),
    "a day of no hours": ('hours_a_day = "8 h"', 'hours_a_day = "0 h"', "no work", "more than nothing"),
    "hours in kilograms": ('run = "6 h"', 'run = "6 kg"', "is a mass", "h"),
    "negative hours": ('run = "6 h"', 'run = "-6 h"', "is negative", "more"),
    "an efficiency above the whole": ('efficiency = "80 %"', 'efficiency = "180 %"', "more than the whole", "100 %"),
    "after nothing that exists":
        ('after = ["billet"]', 'after = ["bilet"]', "there is no step bilet", "did you mean billet?"),
    "after each other": ('after = ["billet"]', 'after = ["anodise"]', "in a circle: anodise, rough", "after"),
    "adding to what adds": ('adds = "rough"', 'adds = "groove"', "no operation with hours of its own", "rough"),
    "adding at a centre": ('adds = "rough"', 'adds = "rough"\ncentre = "mill"', "does not go with `adds`", "join"),
    "days in words":
        ("working_days = 5", 'working_days = "5 days"', "is not a number of working days", "without quotes"),
    "days without number": ("working_days = 5", "working_days = nan", "no number to reckon with", "plain number"),
    "days beyond all plans": ("working_days = 5", "working_days = 5000", "is not a number of working days", "1000"),
    "a weekday nobody knows": ('week = ["Mon", "Tue"]', 'week = ["Mon", "Tu"]', "none of the words", "Tue"),
    "a holiday twice":
        ("holidays = [", 'holidays = [{ date = 2026-12-25, label = "x" }, ', "stands twice", "take one away"),
    "a second calendar":
        ("[[expected]]", '[[calendar]]\nid = "b"\nweek = ["Sat"]\n[[expected]]', "a second calendar", "a shop has one"),
    "a currency nobody knows": ('currency = "EUR"', 'currency = "EURO"', "not a currency", "EUR, GBP, USD"),
    "a zone nobody knows": ('zone = "Europe/Berlin"', 'zone = "Europe/Atlantis"', "not a time zone", "Europe/Berlin"),
    "a zone on the disk": ('zone = "Europe/Berlin"', 'zone = "../../etc/passwd"', "not a time zone", "Europe/Berlin"),
    "a rounding nobody knows": ('rounding = "half_up"', 'rounding = "halfup"', "is no way of rounding", "half_up"),
    "a tax in figures": ('rate = "19 %"', "rate = 0.19", "is not a share", "50 %"),
    "validity in weeks": ('validity = "30 days"', 'validity = "a month"', "is not a number with a unit", "94.0 mm"),
    "validity of half a day": ('validity = "30 days"', 'validity = "30.5 days"', "no number of whole days", "30 days"),
    "a verdict nobody knows": ('verdict = "free"', 'verdict = "fine"', "none of the words", "free"),
    "an enquiry that is not there":
        ("want = { cooling", 'enquiry = "enquiries/x.toml"\nwant = { cooling', "no file", "enquiries"),
    "an expected quantity of none": ("want = { cooling", "quantity = 0\nwant = { cooling", "too small", "at least 1"),
    "an expected net in figures": ("want = { cooling", "net = 1.5\nwant = { cooling", "not an amount", "quotes"),
    "a family nobody has":
        ('id = "use"', 'id = "use"\nfamily = "inlin"', "there is no family inlin", "did you mean inline?"),
    "a rule file nobody has":
        ('headings = ["Fit"', 'rules = ["watr"]\nheadings = ["Fit"', "there is no rule file watr", "water?"),
    "a shipped rule that the family cannot speak":
        ('headings = ["Fit"', 'rules = ["water"]\nheadings = ["Fit"', "jets is no choice of inline", "needs ="),
    "no head": ('[shop]\nid = "shop"', '[sop]\nid = "shop"', "is not a key", "did you mean shop?"),
    "nothing but the head": (SHOP[SHOP.index("[[family]]") :], "", "has the table [[family]]", "[[family]]"),
    "a list where a table stands": ("[[family]]", "[family]", "is not a list", "[[rule]]"),
    "a table where a list stands": ("[shop]\n", "[[shop]]\n", "is not a table", "curly"),
    "a text where a list stands": ('facts = { mass = { is = "27 kg" } }', 'facts = "27 kg"', "is not a table", "curly"),
    "a number of 40 digits": ("machines = 2", "machines = " + "2" * 30, "digits", "smaller"),
}  # fmt: skip


@pytest.mark.parametrize(("there", "spoilt", "wrong", "way_out"), SPOILT.values(), ids=SPOILT.keys())
def test_what_is_wrong_is_said_with_its_line_and_a_way_out(there: str, spoilt: str, wrong: str, way_out: str) -> None:
    assert there in SHOP
    faults = faults_of(SHOP.replace(there, spoilt, 1))
    assert any(wrong in f"{fault.key} {fault.wrong}" and way_out in fault.way_out for fault in faults), faults


def test_a_fault_stands_at_the_line_of_its_key() -> None:
    text = SHOP.replace("working_days = 5", 'working_days = "5"')
    (fault,) = faults_of(text)
    assert text.splitlines()[fault.place.line - 1] == 'working_days = "5"'
    assert fault.key == "outside.working_days"


def test_a_fault_in_a_table_in_line_stands_at_its_own_column() -> None:
    text = SHOP.replace('{ is = "street" }', '{ is = "steet" }').replace('"19 %"', '"119 %"')
    (fault,) = faults_of(text)
    line = text.splitlines()[fault.place.line - 1]
    assert line[fault.place.column - 1 :].startswith("rate")


def test_all_faults_of_all_files_come_at_once_in_the_order_of_their_places() -> None:
    files = {
        "b.toml": b"[[price]]\nid = 'x'\n",
        "a.toml": b"x = \n",
        "shop.toml": SHOP.replace('asks = "want"', "asks = 1").encode(),
    }
    with pytest.raises(Faulty) as caught:
        read_shop(files, {"water.toml": b"[[rules]]"})
    places = [fault.place for fault in caught.value.faults]
    assert [place.file for place in places] == ["a.toml"] + ["b.toml"] * 3 + ["shop.toml"] * 3 + ["water.toml"]
    assert places == sorted(places)


def test_the_same_id_in_two_files_names_both_whatever_their_order() -> None:
    other = b'[[choice]]\nid = "use"\nasks = "want"\noption = [{ id = "x" }]\n'
    for files in ({"a.toml": other, "shop.toml": SHOP.encode()}, {"shop.toml": SHOP.encode(), "a.toml": other}):
        with pytest.raises(Faulty) as caught:
            read_shop(files, {})
        told = [str(fault) for fault in caught.value.faults]
        assert any(text.startswith("shop.toml:") and "use stands here and at a.toml:2" in text for text in told)


def test_a_shop_of_several_families_must_say_whose_a_table_is() -> None:
    text = SHOP.replace("[[choice]]", '[[family]]\nid = "vee"\n\n[[choice]]', 1)
    faults = faults_of(text)
    silent = [fault for fault in faults if fault.wrong == "does not say to which family it belongs"]
    assert {fault.key for fault in silent} >= {"choice", "rule", "figure", "price", "operation", "expected", "duty"}
    assert all(fault.way_out == "the families are inline, vee" for fault in silent)


def test_figures_in_a_circle_and_figures_without_end_are_faults() -> None:
    (fault,) = faults_of(SHOP.replace('formula = "(88 mm - bore) / 2"', 'formula = "wall + 1 mm"'))
    assert "in a circle: wall -> wall" in fault.wrong
    chain = "".join(f'[[figure]]\nid = "f{n}"\nformula = "f{n + 1} + f{n + 1}"\n' for n in range(70))
    (fault,) = faults_of(f"{SHOP}{chain}")
    assert "rests on more than" in fault.wrong


@pytest.mark.parametrize(
    "many",
    [
        '[[price]]\nid = "p{n}"\nlist = "no_{n}"\ntext = "t"\namount = "1"\n',
        "[[price]]\n",
        "k{n} = nan\n",
        "k{n} = 1\n",
    ],
)
def test_nobody_is_told_thousands_of_faults(many: str) -> None:
    text = "".join(many.replace("{n}", str(n)) for n in range(2000))
    top = many.startswith("k")
    assert 50 <= len(faults_of(f"{text}{SHOP}" if top else f"{SHOP}{text}")) <= 250


def test_no_files_at_all_is_a_fault_too() -> None:
    with pytest.raises(Faulty, match=r"no file of the shop has the table \[shop\]"):
        read_shop({}, {})


def spoil(data: bytes, chance: random.Random) -> bytes:
    """Bytes changed, lost or added, lines and pieces moved."""
    spoilt = bytearray(data)
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(spoilt))
        match chance.randrange(5):
            case 0:
                spoilt[at] ^= 1 << chance.randrange(8)
            case 1:
                del spoilt[at : at + chance.randint(1, 40)]
            case 2:
                spoilt[at:at] = chance.choice(
                    [b'"', b"[", b"]", b"=", b"{", b"}", b"\n", b"9" * 50, b"nan", b".", b"\xff", b"#"]
                )
            case 3:
                start = chance.randrange(len(spoilt))
                spoilt[at:at] = spoilt[start : start + chance.randint(1, 60)]
            case _:
                lines = spoilt.split(b"\n")
                chance.shuffle(lines[:10])
                lines.insert(chance.randrange(len(lines)), lines.pop(chance.randrange(len(lines))))
                spoilt = bytearray(b"\n".join(lines))
    return bytes(spoilt)


@pytest.mark.parametrize("shop", sorted(folder.name for folder in demo_folder().iterdir() if folder.is_dir()))
def test_a_spoilt_file_of_a_demo_shop_gives_a_shop_or_faults_and_nothing_else(shop: str) -> None:
    folder = demo_folder() / shop
    files = {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*.toml"))}
    shipped = {path.name: path.read_bytes() for path in rules_folder().glob("*.toml")}
    chance = random.Random(shop)
    told = 0
    for _ in range(500 if LONG else 20):
        name = chance.choice(sorted(files))
        try:
            read = assemble(read_shop({**files, name: spoil(files[name], chance)}, shipped))
            for family in read.families.values():
                assert all(isinstance(fault, Fault) for fault in check_formulas(family))
        except Faulty as faulty:
            told += 1
            for fault in faulty.faults:
                assert fault.place.file in files or fault.place.file in shipped
                assert fault.place.line >= 1 and fault.wrong, fault
    assert told > 5
