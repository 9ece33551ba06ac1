"""The nearest word to one that is not known, and the same word in other spellings."""

from __future__ import annotations

from collections.abc import Iterable

FEW = 16
"""As many words as a message can list before it stops helping."""


def alike(word: str) -> str:
    """A word as it is compared: case, hyphens, underscores and runs of space make no difference."""
    return " ".join(word.casefold().replace("_", " ").replace("-", " ").split())


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word nearest to this one, or "" where none comes near."""
    from difflib import get_close_matches  # slow to import, and wanted only when something is wrong

    spelt: dict[str, str] = {}
    for other in sorted(known):
        spelt.setdefault(alike(other), other)
    close = get_close_matches(alike(word[:100]), spelt, n=1, cutoff=0.6)
    return spelt[close[0]] if close else ""


def suggest(word: str, known: Iterable[str], kind: str) -> str:
    """The way out for an unknown word: the nearest known one, or all of them where they are few.

    `kind` is the plural of what was looked for: "choices", "options of cooling".
    """
    words = sorted(set(known))
    close = nearest(word, words)
    if close:
        return f"did you mean {close}?"
    if not words:
        return f"there are no {kind}"
    listed = ", ".join(words[:FEW])
    return f"the {kind} are {listed}" if len(words) <= FEW else f"the {kind} begin with {listed}, ..."
