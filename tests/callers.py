"""Two small shops, and what callers say to them."""

from __future__ import annotations

from typing import Any

import pytest
import tomli_w

from configurator.catalogue.shops import Shop
from configurator.enquiry import Enquiry
from configurator.faults import Fault, Faulty
from configurator.load.assemble import assemble
from configurator.load.enquiry import Spoken, gather
from configurator.load.shop import read_shop
from tests.shops import Entry, choice, price, text_of

FLANGE = choice(
    "crank_flange",
    {"id": "five_bolt", "measures": {"bolts": 5, "circle": "72.0 mm"}, "tolerance": {"circle": "0.5 mm"}},
    {"id": "eight_bolt", "measures": {"bolts": 8, "circle": "76.0 mm"}, "tolerance": {"circle": "0.5 mm"}},
    asks="have",
    derive={"circle": "chord / sin(180 deg / bolts)"},
)
WIDTH = choice(
    "main_width",
    {"id": "narrow", "measures": {"width": "22.0 mm"}, "tolerance": {"width": "0.5 mm"}},
    {"id": "wide", "measures": {"width": "26.0 mm"}, "tolerance": {"width": "0.5 mm"}},
    asks="have",
)
SADDLE = choice(
    "saddle",
    {"id": "plain", "measures": {"gap": "10 mm"}, "tolerance": {"gap": "2 mm"}},
    {"id": "cut", "measures": {"gap": "12 mm"}, "tolerance": {"gap": "2 mm"}},
    asks="have",
)
COOLING = choice("cooling", "jacketed", {"id": "dry_deck", "label": "Dry deck", "aliases": ["closed deck"]}, "solid")
BORE: Entry = (
    "choice",
    {
        "id": "bore",
        "asks": "want",
        "unit": "mm",
        "from": "76 mm",
        "to": "90 mm",
        "step": "0.1 mm",
        "option": [{"is": "82 mm", "label": "stock"}, {"is": "84 mm"}],
    },
)
BELT = (
    "choice",
    {"id": "belt", "asks": "want", "unit": "teeth", "from": "0", "to": "4", "step": "1", "option": [{"is": "0"}]},
)
POWER = ("duty", {"id": "power", "unit": "kW", "from": "10 kW", "to": "1500 kW"})
BOOST = ("duty", {"id": "boost", "unit": "bar", "from": "0 bar", "to": "4 bar", "plain_is": "gauge"})
OIL = ("duty", {"id": "oil", "unit": "bar gauge", "from": "1 bar gauge", "to": "9 bar gauge"})
INLINE = (FLANGE, WIDTH, SADDLE, COOLING, BORE, BELT, POWER, BOOST, OIL)


def one_family() -> Shop:
    return assemble(read_shop({"shop.toml": text_of(*INLINE, price("base", "1.00")).encode()}, {}))


def two_families() -> Shop:
    """An inline family and a vee with choices of its own, of which cooling is one that both have."""
    files = {
        "shop.toml": text_of(("family", {"id": "inline"}), ("family", {"id": "vee"})).encode(),
        "inline.toml": b'family = "inline"\n' + tables(*INLINE),
        "vee.toml": b'family = "vee"\n'
        + tables(choice("cooling", "jacketed", "oil"), choice("manifold", "keep", "wide")),
    }
    return assemble(read_shop(files, {"x.toml": b""}))


def tables(*entries: Entry) -> bytes:
    kinds: dict[str, Any] = {}
    for kind, says in entries:
        kinds.setdefault(kind, []).append(says)
    return tomli_w.dumps(kinds).encode()


SHOP = one_family()
TWO = two_families()


def hear(*words: str, shop: Shop = SHOP, text: str = "", **said: Any) -> Enquiry:
    return gather(shop, [("e.toml", text.encode())] if text else [], (), Spoken(words=words, **said))[0]


def options(enquiry: Enquiry) -> dict[str, str]:
    return {choice: pick.option for choice, pick in enquiry.picks.items()}


def faults_of(*words: str, shop: Shop = SHOP, text: str = "", **said: Any) -> tuple[Fault, ...]:
    with pytest.raises(Faulty) as caught:
        hear(*words, shop=shop, text=text, **said)
    for fault in caught.value.faults:
        assert fault.wrong and fault.way_out and fault.place.file, fault
        if fault.place.file == "e.toml":
            assert 1 <= fault.place.line <= text.count("\n") + 1
    return caught.value.faults
