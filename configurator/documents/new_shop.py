"""A first shop to write over: small, whole, and explained where it stands."""

from __future__ import annotations

import os
from pathlib import Path

from configurator.documents.saving import Refused, save

FIRST_SHOP = Path(__file__).with_name("first_shop")


def write_shop(folder: Path, force: bool = False) -> tuple[Path, ...]:
    """Write the first shop into a folder, made where it is not there. Gives the files; Refused before any is written
    over.
    """
    sources = sorted(FIRST_SHOP.rglob("*.toml"))
    targets = [folder / source.relative_to(FIRST_SHOP) for source in sources]
    there = [target for target in targets if os.path.lexists(target)]
    if there and not force:
        raise Refused(f"{there[0]} is there already; --force replaces it")
    try:
        for parent in {target.parent for target in targets}:
            parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(f"{folder} cannot be made: {error.strerror or error}") from error
    for source, target in zip(sources, targets, strict=True):
        save(target, source.read_bytes(), force)
    return tuple(targets)
