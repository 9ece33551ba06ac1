"""An enquiry as the TOML file that reads back into it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import tomli_w

from configurator.catalogue.shops import Family
from configurator.documents.json_of import exactly
from configurator.enquiry import Enquiry, Pick

WRITABLE = ("not_offered", "outside")
"""The misfits that stay as they were said; a measurement that fits nothing is taken again, not written down."""


def enquiry_toml(family: Family, enquiry: Enquiry) -> bytes:
    """The enquiry as a file: what was said, with how it is known, and nothing that was concluded from it."""
    said = {misfit.choice: misfit.given for misfit in enquiry.misfits if misfit.kind in WRITABLE}
    haves = {id: _have(id, pick) for id, pick in enquiry.picks.items() if family.choices[id].asks == "have"}
    wants = {id: pick.option for id, pick in enquiry.picks.items() if family.choices[id].asks != "have"}
    for id, given in said.items():
        known = family.choices.get(id)
        (haves if known and known.asks == "have" else wants)[id] = given
    document: dict[str, Any] = {
        "family": enquiry.family,
        "customer": enquiry.customer,
        "list": enquiry.list,
        "quantity": enquiry.quantity if enquiry.quantity != 1 else 0,
        "have": haves,
        "want": wants,
        "duty": {id: exactly(value) for id, value in enquiry.duty.items()},
        "extra": [
            {"text": extra.text, "amount": str(extra.amount), "reason": extra.reason, "by": extra.by}
            for extra in enquiry.extras
        ],
    }
    return tomli_w.dumps({key: value for key, value in document.items() if value}).encode()


def _have(id: str, pick: Pick) -> str | Mapping[str, str]:
    """A have: told ones by their option, others with how they are known and what was measured."""
    measured = {name: exactly(value) for name, value in pick.measured.items() if name != id}
    if measured:
        return {**measured, "known": pick.known}
    return pick.option if pick.known in ("", "told") else {"is": pick.option, "known": pick.known}
