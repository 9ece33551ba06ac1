"""What every test may count on: a cache of its own, no shop from outside, the same examples on every run."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("short", deadline=None, derandomize=True, max_examples=50)
settings.register_profile("long", deadline=None, derandomize=True, max_examples=500)
LONG = bool(os.environ.get("BLOCKS_LONG"))
settings.load_profile("long" if LONG else "short")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Passes over the tests marked long, unless BLOCKS_LONG asks for them."""
    if not LONG:
        for item in items:
            if item.get_closest_marker("long"):
                item.add_marker(pytest.mark.skip(reason="long: set BLOCKS_LONG=1"))


@pytest.fixture(autouse=True)
def a_desk_of_its_own(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keeps the user's cache, shop and terminal out of the tests, and the tests out of the user's cache."""
    for name in ("BLOCKS_SHOP", "BLOCKS_FOR", "FORCE_COLOR", "COLUMNS"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("BLOCKS_CACHE", str(_shared_cache(tmp_path_factory)))


def _shared_cache(factory: pytest.TempPathFactory) -> Path:
    """One cache folder for the whole run: the demo shop is compiled once, not once a test."""
    folder = factory.getbasetemp() / "cache"
    folder.mkdir(exist_ok=True)
    return folder
