"""A rule written into one of the shop's files, below what stands there: no comment, no space of it is touched."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import tomlkit

from configurator.documents.saving import Refused, save
from configurator.faults import Fault, Faulty
from configurator.load.sheets import COMMAND_LINE
from configurator.load.text import read_toml
from configurator.review.revisions import WANTED


def toml_of(draft: Mapping[str, Any]) -> str:
    """The rule as it stands in a file, laid out as rules are by hand: a key a line, tables in braces."""
    return "\n".join(["[[rule]]", *(f"{key} = {_written(value)}" for key, value in draft.items())]) + "\n"


def _written(value: Any) -> str:
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{key} = {_written(inner)}' for key, inner in value.items())} }}"
    if isinstance(value, list):
        entries = [_written(one) for one in value]
        if len(value) > 1 and any(isinstance(one, list | Mapping) for one in value):
            return "[\n" + "".join(f"    {entry},\n" for entry in entries) + "]"
        return f"[{', '.join(entries)}]"
    return str(tomlkit.item(value).as_string())


def home_of(own: Mapping[str, bytes], names: Iterable[str], family: str) -> str:
    """The file where a rule about these choices belongs: the one with most of the shop's about them, else a new one."""
    wanted, known = set(names), {}
    for file, data in own.items():
        rules = read_toml(file, data).data.get("rule", []) if file.rpartition("/")[0] in ("", "rules") else []
        known[file] = sum(bool(wanted & _choices_of(rule)) for rule in rules)
    best = max(sorted(known), key=known.__getitem__, default="")
    return best if known.get(best) else f"rules/{family}.toml"


def _choices_of(rule: Mapping[str, Any]) -> set[str]:
    then = rule.get("then")
    return {*rule.get("when", ()), *rule.get("columns", ()), *(then if isinstance(then, Mapping) else ())}


def written_into(text: str, draft: Mapping[str, Any]) -> str:
    """A file's text with the rule below. What stood there reads as before, and the rule reads as it was meant."""
    joint = "" if not text else "\n" if text.endswith("\n") else "\n\n"
    longer = f"{text}{joint}{toml_of(draft)}"
    before, after = tomlkit.parse(text).unwrap(), tomlkit.parse(longer).unwrap()
    assert after.pop("rule") == [*before.pop("rule", []), dict(draft)] and after == before
    return longer


def check_home(file: str) -> None:
    """Faulty for a file that would never be read as one of the shop's."""
    folder, _, name = file.rpartition("/")
    if folder not in WANTED or folder == "enquiries" or not name.endswith(".toml") or name.startswith("."):
        way_out = "name a file of the shop, such as rules/water.toml"
        raise Faulty(
            [Fault(COMMAND_LINE, "--file", f"{file} is none of the files that a shop's rules stand in", way_out)]
        )


def write(shop: Path, file: str, expected: bytes | None, text: str) -> None:
    """Save a file of the shop, whole or not at all. Refused where it is not any more what it was."""
    path = shop / file
    if (path.read_bytes() if path.is_file() else None) != expected:
        raise Refused(f"{path} was changed meanwhile")
    path.parent.mkdir(exist_ok=True)
    save(path, text.encode(), force=expected is not None)
