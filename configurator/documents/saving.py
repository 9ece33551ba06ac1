"""The one way in which a file is saved: whole or not at all, and never over another unless that was asked for."""

from __future__ import annotations

import os
from pathlib import Path


class Refused(Exception):
    """The file could not be saved, and why; nothing was changed. The command line exits 3."""


def save(path: Path, data: bytes, force: bool = False) -> None:
    """Writes the data to a file beside `path` and moves it into place in one step.

    What stands at `path` is replaced with `force` only. A link there is never written through: it is replaced itself.
    Raises `Refused`, naming the file.
    """
    if not path.name or "\0" in str(path):
        raise Refused(f"{path} is no name for a file")
    if path.is_dir() and not path.is_symlink():
        raise Refused(f"{path} is a folder; name a file in it")
    if os.path.lexists(path) and not force:
        raise Refused(f"{path} is there already; --force replaces it")
    try:
        _write_beside(path, data, force)
    except FileExistsError:
        raise Refused(f"{path} is there already; --force replaces it") from None
    except OSError as error:
        raise Refused(f"{path} cannot be written: {error.strerror or error}") from error


def _write_beside(path: Path, data: bytes, force: bool) -> None:
    beside = path.with_name(f".{os.urandom(6).hex()}.part")
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if force:
            os.replace(beside, path)
        else:
            # A link refuses where a file has come meanwhile; a plain rename would run it over.
            os.link(beside, path)
    finally:
        if os.path.lexists(beside):
            os.unlink(beside)
