"""Enquiries with the answers that must come out, which a shop keeps beside its rules."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from configurator.faults import Faulty
from configurator.load.lexicon import Lexicon, Plain, filled, plain_place
from configurator.load.shapes import Expected
from configurator.load.text import read_toml
from configurator.load.words import suggest


def expected(lexicon: Lexicon, one: Expected, files: Mapping[str, bytes]) -> Plain:
    """One expected answer, its enquiry in the plain form of an enquiry file."""
    inline = filled(have=one.have, want=one.want, duty=one.duty, quantity=one.quantity)
    enquiry: Any = inline
    if one.enquiry:
        if inline:
            lexicon.fault(one, ("enquiry",), "stands beside an enquiry written here", "take one of them away")
        enquiry = _in_file(lexicon, one, files)
    return filled(
        id=one.id,
        why=one.why,
        enquiry={"family": lexicon.family, **_plain(enquiry)},
        verdict=one.verdict,
        net=one.net,
        place=plain_place(one),
    )


def _in_file(lexicon: Lexicon, one: Expected, files: Mapping[str, bytes]) -> Plain:
    if one.enquiry not in files:
        known = [name for name in files if name.startswith("enquiries/")]
        lexicon.fault(one, ("enquiry",), f"there is no file {one.enquiry}", suggest(one.enquiry, known, "enquiries"))
        return {}
    try:
        return read_toml(one.enquiry, files[one.enquiry]).data
    except Faulty as faulty:
        lexicon.faults.extend(faulty.faults)
        return {}


def _plain(value: Any) -> Any:
    """Only what JSON can hold: fractions and dates become texts."""
    if isinstance(value, dict):
        return {key: _plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_plain(inner) for inner in value]
    return value if isinstance(value, (bool, int, str)) else str(value)
