"""Renews the kept texts of the scenarios: `python -m tests.rewrite_scenarios [part of a name ...]`.

Read every line of the change (`git diff tests/scenarios`) before it is committed: what stands there is what a customer
hears. Nothing else of a scenario is touched, and one that breaks what the trade says is left alone. CI may not run it.
"""

from __future__ import annotations

import os
import sys

import tomlkit

from tests.scenario import FOLDER, Scenario, every_scenario, run


def renew(scenario: Scenario) -> str:
    """Writes the text that the command says today into the scenario's file; a word on what was done."""
    heard = run(scenario)
    said = " ".join(heard.said.split())
    missed = [phrase for phrase in scenario.must_say if phrase not in said]
    if heard.exit != scenario.exit or missed:
        return f"left alone, exit {heard.exit}, not said: {missed}"
    if heard.said == scenario.expected:
        return "same"
    path = FOLDER / f"{scenario.name}.toml"
    document = tomlkit.parse(path.read_text(encoding="utf-8"))
    document["expected"] = tomlkit.value(f"'''\n{heard.said}'''")
    path.write_text(tomlkit.dumps(document), encoding="utf-8")
    return "renewed"


def main(parts: list[str]) -> int:
    """Renews the scenarios whose names hold one of the parts, or all of them."""
    if os.environ.get("CI"):
        print("Kept texts are renewed by hand and read by someone, not by CI.", file=sys.stderr)
        return 1
    for scenario in every_scenario():
        if not parts or any(part in scenario.name for part in parts):
            print(f"{scenario.name}: {renew(scenario)}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
