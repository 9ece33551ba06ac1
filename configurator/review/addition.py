"""A rule on its way into a shop: drafted, given examples, its effect seen, and only then written."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from configurator.catalogue.names import Vocabulary
from configurator.catalogue.rules import Rule
from configurator.catalogue.shops import Family
from configurator.desk import Desk
from configurator.faults import NotKnown
from configurator.review.bench import lay_bench
from configurator.review.drafts import Parts, drafted, with_draft
from configurator.review.effect import Effect, effect
from configurator.review.findings import Told, silent
from configurator.review.proposals import propose
from configurator.review.revisions import Files
from configurator.review.writing import check_home, home_of, toml_of, write, written_into
from configurator.rulebook import reach_of


class Addition(NamedTuple):
    """A rule that is not in the shop yet, with what it would change. `file` is where it belongs, `text` all that the
    file would hold then, `rule_text` the rule's part of it.
    """

    rule: Rule
    family: Family
    effect: Effect
    file: str
    text: str
    rule_text: str
    before: bytes | None


def try_rule_of(files: Files, parts: Parts, today: date, told: Told = silent) -> Addition:
    """The effect of a rule that is written nowhere. Faulty for one that cannot be read."""
    parts = parts._replace(
        id=parts.id or "tried", because=parts.because or "Tried.", basis=parts.basis or "from memory"
    )
    return _weighed(files, drafted(parts), today, "", told)


def add_rule(files: Files, parts: Parts, today: date, file: str = "", told: Told = silent) -> Addition:
    """A rule with an example of each kind, as far as there is one, and its effect. Nothing is written yet."""
    if file:
        check_home(file)
    draft = drafted(parts)
    told("looking for examples")
    desk = with_draft(files, draft).open()
    rule, family = _find(desk, parts)
    try:
        proposal = propose(lay_bench(desk, family, today), rule)._asdict()
    except NotKnown:
        proposal = {}
    draft |= {kind: [dict(picks)] for kind, picks in proposal.items() if picks}
    return _weighed(files, draft, today, file, told)


def save_rule(addition: Addition, shop: Path) -> None:
    """Write it. Refused where the file cannot be written, or was changed meanwhile."""
    write(shop, addition.file, addition.before, addition.text)


def _weighed(files: Files, draft: Mapping[str, Any], today: date, file: str, told: Told) -> Addition:
    old, new = files.open(), with_draft(files, draft).open()
    rule, family = _find(new, Parts(id=draft["id"], family=draft.get("family", "")))
    names = reach_of(rule, Vocabulary(family)).choices
    file = file or home_of(files.own, names, family.id)
    before = files.own.get(file)
    text = written_into((before or b"").decode(), draft)
    return Addition(rule, family, effect(old, new, today, (), told), file, text, toml_of(draft), before)


def _find(desk: Desk, parts: Parts) -> tuple[Rule, Family]:
    families = desk.shop.families.values()
    return next(
        (one.rules[parts.id], one) for one in families if parts.id in one.rules and parts.family in ("", one.id)
    )
