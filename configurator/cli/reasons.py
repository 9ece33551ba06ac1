"""Why an option is closed: the picks that it does not go with. Found out only for what is shown."""

from __future__ import annotations

from configurator import explain
from configurator.answer import Answer
from configurator.case import Case
from configurator.space import Space


def against(case: Case, picked: Space, choice: str, option: str) -> dict[str, str]:
    """The fewest picks that close an option, its own choice set free first; none where nothing could open it.

    `picked` is the case's space under its picks.
    """
    number, answer = case.book.numbered(choice, option)
    for numbers in picked.unpick(number).pick(number, answer).conflicts():
        if number in numbers:
            others = [case.book.choices[other] for other in sorted(numbers) if other != number]
            return {other: case.bound[other] for other in others}
    return {}


def why_settled(case: Case, answer: Answer) -> dict[str, str]:
    """For each choice that the picks have settled without naming it: which picks did, in words."""
    picked, reasons = case.picked(), {}
    for choice, standing in answer.choices.items():
        if standing.settled and not standing.picked:
            closed = (option for option in standing.options if option != standing.settled)
            behind = {name: pick for option in closed for name, pick in against(case, picked, choice, option).items()}
            if behind:
                reasons[choice] = f"because of {explain.named_all(case.family, behind)}"
    return reasons
