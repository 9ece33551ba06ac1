"""What was worked out once, kept between commands: bytes under a key, in a folder that may vanish at any time.

An entry begins with a hash of the rest. One that is damaged is as if it were not there; a folder that cannot be written
is no cache, and nothing more. Nothing that is kept is ever run: entries are data.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from configurator import __version__

_MARK = b"blocks1\n"
_PACKAGE = Path(__file__).resolve().parent


def fetch(key: str) -> bytes | None:
    """What was kept under the key, or None."""
    try:
        entry = (_folder() / key).read_bytes()
    except (OSError, RuntimeError, ValueError):
        return None
    head = len(_MARK) + 32
    whole = entry.startswith(_MARK) and sha256(entry[head:]).digest() == entry[len(_MARK) : head]
    return entry[head:] if whole else None


def keep(key: str, data: bytes) -> None:
    """Keep the data under the key, whole or not at all; silently not, where there is no room for it."""
    try:
        folder = _folder()
        folder.mkdir(parents=True, exist_ok=True)
        draft = folder / f".{key}.{os.getpid()}"
        try:
            draft.write_bytes(_MARK + sha256(data).digest() + data)
            draft.replace(folder / key)
        finally:
            draft.unlink(missing_ok=True)
    except (OSError, RuntimeError, ValueError):
        return


def key_of(files: Mapping[str, bytes], rules: Mapping[str, bytes]) -> str:
    """A name for all that goes into a compiled shop, to the last byte: tool, shop and shipped rules."""
    digest = sha256(__version__.encode() + _stamp())
    for kind, group in ((b"shop", files), (b"rules", rules)):
        for name in sorted(group):
            data, name_bytes = group[name], os.fsencode(name)
            digest.update(b"%s %d %d\n" % (kind, len(name_bytes), len(data)) + name_bytes + data)
    return digest.hexdigest()[:40]


def _stamp() -> bytes:
    """The state of the program's own files, so that a checkout at work never reads what older code kept."""
    lines = []
    for folder, _, names in os.walk(_PACKAGE):
        if "_data" in folder or "__pycache__" in folder:
            continue
        for name in names:
            if name.endswith(".py"):
                state = os.stat(os.path.join(folder, name))
                lines.append(f"{os.path.relpath(folder, _PACKAGE)}/{name} {state.st_mtime_ns} {state.st_size}")
    return "\n".join(sorted(lines)).encode()


def _folder() -> Path:
    if own := os.environ.get("BLOCKS_CACHE"):
        return Path(own)
    if shared := os.environ.get("XDG_CACHE_HOME"):
        return Path(shared) / "blocks"
    return Path.home() / ".cache" / "blocks"
