"""A word to whoever waits: how far the work has come, once it takes longer than a second."""

from __future__ import annotations

import sys
from time import monotonic

from configurator.cli.page import notice

SILENCE = 1.0
"""Seconds before the first word, and between two."""


class Progress:
    """Told at every step; says so on the error stream at most once a second, and not at all in the first.

    Only a terminal is told: a file or a pipe would hold words that depend on how busy the machine was.
    """

    def __init__(self) -> None:
        self._spoke = monotonic()

    def __call__(self, text: str) -> None:
        """Say what is being done, if there has been silence for long enough."""
        now = monotonic()
        if now - self._spoke >= SILENCE and sys.stderr.isatty():
            self._spoke = now
            notice(f"... {text}")
