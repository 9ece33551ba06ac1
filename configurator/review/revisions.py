"""A shop as it stands in a folder, or stood at a revision that git keeps. Nothing in either is changed."""

from __future__ import annotations

import io
import os
import subprocess
import tarfile
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from configurator.desk import Desk, open_files, toml_files
from configurator.faults import Fault, Faulty
from configurator.load.sheets import COMMAND_LINE
from configurator.shipped import rules_folder

PATIENCE = 60
"""Seconds that git may take."""

WANTED = ("", "rules", "enquiries")
"""The folders of a shop whose TOML files are read."""


class Files(NamedTuple):
    """All that a shop is read from: its own files, and the shipped rules, by name."""

    own: Mapping[str, bytes]
    shipped: Mapping[str, bytes]

    def open(self) -> Desk:
        """The shop, ready to answer. Faulty with every fault of its files."""
        return open_files(self.own, self.shipped)


def files_of(named: str, shop: Path) -> Files:
    """The files of a folder, or of the shop's folder at a revision. Faulty, in plain words, where there is neither.

    Where the shipped rules are kept in the same repository, those of the revision are taken too.
    """
    folder = Path(named)
    if (folder / "shop.toml").is_file():
        return Files(toml_files(folder), toml_files(rules_folder()))
    if folder.is_dir():
        raise _fault(named, "is a folder without a shop.toml", "name a shop's folder, or a revision of this one")
    commit = _commit(named, shop)
    own, shipped = _archived(shop, commit), toml_files(rules_folder())
    if "shop.toml" not in own:
        raise _fault(named, f"holds no shop.toml in {shop}", "name a revision in which the shop was there")
    if _top_of(shop) == _top_of(rules_folder()):
        shipped = _archived(rules_folder(), commit) or shipped
    return Files(own, shipped)


def _commit(named: str, shop: Path) -> str:
    if not _top_of(shop):
        raise _fault(named, f"is no folder, and {shop} is not kept in git", "name a shop's folder")
    found = b"" if named.startswith("-") else _git(shop, "rev-parse", "--verify", "--quiet", f"{named}^{{commit}}")
    if not found:
        raise _fault(named, "is neither a folder nor a revision that git knows here", "git log shows the revisions")
    return found.decode("ascii", "replace").strip()


def _top_of(folder: Path) -> bytes:
    """The work tree that a folder lies in; empty where there is none."""
    return _git(folder, "rev-parse", "--show-toplevel")


def _archived(folder: Path, commit: str) -> dict[str, bytes]:
    """The TOML files of a folder at a commit, by their names within it; none where it was not there."""
    archive = _git(folder, "archive", "--format=tar", commit)
    if not archive:
        return {}
    with tarfile.open(fileobj=io.BytesIO(archive)) as tar:
        members = [one for one in tar if one.isfile() and one.name.endswith(".toml")]
        wanted = [one for one in members if one.name.rpartition("/")[0] in WANTED]
        return {one.name: file.read() for one in wanted if (file := tar.extractfile(one))}


def _git(folder: Path, *words: str) -> bytes:
    """What git says in a folder; nothing where it refuses."""
    environment = {**os.environ, "LC_ALL": "C", "GIT_OPTIONAL_LOCKS": "0"}
    command = ["git", "-C", str(folder), *words]
    try:
        done = subprocess.run(command, capture_output=True, timeout=PATIENCE, env=environment, stdin=subprocess.DEVNULL)
    except FileNotFoundError:
        raise _fault("git", "is not installed here", "name two folders instead of a revision") from None
    except subprocess.TimeoutExpired:
        raise _fault("git", f"did not answer within {PATIENCE} s", "name two folders instead of a revision") from None
    return b"" if done.returncode else done.stdout


def _fault(word: str, wrong: str, way_out: str) -> Faulty:
    return Faulty([Fault(COMMAND_LINE, word, wrong, way_out)])
