"""How quick the rule engineer's side is on a large catalogue: `python tests/benchmarks/review.py [NUMBER...]`.

A catalogue is drawn by its number: 75 choices of four options each (300 in all) and 1,000 rules. Each rule speaks of
two or three of four choices that lie next to each other in some hidden order, and forbids one option where the others
have one each; what a planted build has is never forbidden. Four rules in ten turn out to say what others say already,
the slow case for every question below. Every rule has an example of each kind.

Measured, in processor time and with nothing cached: reading, `lint`, `effect` of one rule more, `explain` of every
fiftieth rule (the slowest counts). The aims are 10 s, 5 s and 1 s; nothing is left out.
"""

from __future__ import annotations

import os
import random
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import date
from functools import partial
from typing import Any, NamedTuple

import tomli_w

from configurator.desk import Desk, open_files
from configurator.review.effect import effect
from configurator.review.explanation import explain_rule
from configurator.review.lint import lint

CHOICES, OPTIONS, RULES, SPAN = 75, 4, 1_000, 4
DAY = date(2026, 11, 25)
AIMS = {"lint": 10.0, "effect": 5.0, "explain": 1.0}

HEAD: dict[str, Any] = {
    "shop": {
        "id": "large", "name": "A large catalogue", "demo": True, "currency": "EUR", "zone": "UTC",
        "terms": {
            "validity": "30 days", "deposit": "50 %", "rounding": "half_up", "rounding_level": "total",
            "tax": {"label": "VAT", "rate": "19 %"},
        },
    },
    "family": [{"id": "large", "label": "Large"}],
    "calendar": [{"id": "works", "label": "Works", "week": ["Mon", "Tue", "Wed", "Thu", "Fri"]}],
    "price_list": [{"id": "prices", "from": date(2026, 1, 1), "currency": "EUR"}],
    "price": [{"id": "block", "list": "prices", "text": "Block", "amount": "1000.00"}],
}  # fmt: skip


class Large(NamedTuple):
    """A catalogue's files, before and after an edit."""

    before: dict[str, bytes]
    after: dict[str, bytes]


def catalogue(number: int) -> Large:
    """A catalogue, and the same with one rule more."""
    chance = random.Random(number)
    order = list(range(CHOICES))
    chance.shuffle(order)
    planted = {choice: chance.randrange(OPTIONS) for choice in order}
    rules = list(_rules(chance, order, planted))
    choices = [
        {
            "id": f"c{one:02}",
            "asks": "want",
            "usual": f"o{planted[one]}",
            "option": [{"id": f"o{option}"} for option in range(OPTIONS)],
        }
        for one in range(CHOICES)
    ]
    files = {"shop.toml": _toml({**HEAD, "choice": choices})}
    for part in range(0, RULES, 100):
        files[f"rules/part_{part // 100}.toml"] = _toml({"rule": rules[part : part + 100]})
    return Large(files, {**files, "rules/new.toml": _toml({"rule": rules[RULES:]})})


def _rules(chance: random.Random, order: list[int], planted: dict[int, int]) -> Iterator[dict[str, Any]]:
    made = 0
    while made <= RULES:
        first = chance.randrange(CHOICES - SPAN)
        scope = [order[first + step] for step in chance.sample(range(SPAN), chance.choice([2, 2, 3]))]
        row = {choice: chance.randrange(OPTIONS) for choice in scope}
        if all(planted[choice] == option for choice, option in row.items()):
            continue
        *those, last = ((f"c{choice:02}", f"o{option}") for choice, option in row.items())
        other = f"o{(row[scope[-1]] + 1) % OPTIONS}"
        yield {
            "id": f"r{made:04}", "when": dict(those), "then": {last[0]: {"not": last[1]}},
            "because": "It was drawn so.", "basis": "family data",
            "passes": [{**dict(those), last[0]: other}], "fails": [{**dict(those), last[0]: last[1]}],
        }  # fmt: skip
        made += 1


def _toml(told: dict[str, Any]) -> bytes:
    return tomli_w.dumps(told).encode()


def timed(work: Callable[[], Any]) -> tuple[float, Any]:
    """Seconds of processor time that the work took, and what came of it."""
    begun = time.process_time()
    found = work()
    return time.process_time() - begun, found


def measure(number: int) -> dict[str, float]:
    """One catalogue, cold."""
    large = catalogue(number)
    taken: dict[str, float] = {}
    old: Desk
    taken["read"], old = timed(lambda: open_files(large.before, {}))
    taken["lint"], seen = timed(lambda: lint(old, DAY))
    taken["read the edit"], new = timed(lambda: open_files(large.after, {}))
    taken["effect"], found = timed(lambda: effect(old, new, DAY))
    ids = [f"r{rule:04}" for rule in range(0, RULES, 50)]
    taken["explain"] = max(timed(partial(explain_rule, old, id, DAY))[0] for id in ids)
    census, pointless = seen.census[0], sum(one.kind == "pointless" for one in seen.remarks)
    (family,) = found.families
    assert family.difference is not None
    print(
        f"catalogue {number}: {census.free:,} builds, {len(seen.findings)} to mend, {pointless} rules pointless;",
        end=" ",
    )
    print(f"one rule more {family.difference.kind} {family.difference.removed.possible:,}")
    return taken


def main() -> None:
    """Measure the catalogues that were named, or five, and print the worst beside the aims."""
    numbers = [int(word) for word in sys.argv[1:]] or list(range(5))
    with tempfile.TemporaryDirectory() as folder:
        os.environ["BLOCKS_CACHE"] = folder
        measured = [measure(number) for number in numbers]
    print(f"\n{'seconds':<16}{'median':>8}{'worst':>8}{'aim':>8}")
    for name in measured[0]:
        times = sorted(one[name] for one in measured)
        aim = f"{AIMS[name]:8.0f}" if name in AIMS else ""
        print(f"{name:<16}{times[len(times) // 2]:8.2f}{times[-1]:8.2f}{aim}")


if __name__ == "__main__":
    main()
