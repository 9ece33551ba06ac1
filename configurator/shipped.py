"""Where the trade's rules and the demo shops lie: beside the package in a checkout, inside it in an installed wheel."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent
_INSTALLED = _PACKAGE / "_data"
_GROUND = _INSTALLED if _INSTALLED.is_dir() else _PACKAGE.parent


def rules_folder() -> Path:
    """The shipped rule files, one a subject, which a family names in its `rules`."""
    return _GROUND / "rules"


def demo_folder() -> Path:
    """The demo shops, each a folder of its own; every one of them is invented and says so."""
    return _GROUND / "catalog-demo"
