"""Versions of a shop: folders, and revisions that git keeps."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from configurator.faults import Faulty
from configurator.review.revisions import files_of
from tests.shops import choice, folder_of, price


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A shop in a folder of a repository, with one option more than at its first revision."""
    folder = tmp_path / "here" / "shop"
    (folder / "rules").mkdir(parents=True)
    git(tmp_path, "init", "-q")
    (folder / "rules" / "empty.toml").write_text("# nothing yet\n")
    folder_of(folder, choice("cooling", "jacketed"), price("block", "1.00"))
    (folder / "notes.txt").write_text("not ours to read")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-q", "-m", "first")
    git(tmp_path, "tag", "first")
    folder_of(folder, choice("cooling", "jacketed", "solid"), price("block", "1.00"))
    return folder


def git(folder: Path, *words: str) -> None:
    who = ("-c", "user.name=A caller", "-c", "user.email=caller@example.invalid", "-c", "commit.gpgsign=false")
    subprocess.run(["git", "-C", str(folder), *who, *words], check=True, capture_output=True)


def options(named: str, shop: Path) -> list[str]:
    family = files_of(named, shop).open().shop.families["family"]
    return [option.id for option in family.choices["cooling"].options]


@pytest.mark.parametrize("revision", ["HEAD", "first"])
def test_a_revision_is_the_shop_as_it_stood_then(shop: Path, revision: str) -> None:
    assert options(revision, shop) == ["jacketed"]
    assert options(str(shop), shop) == ["jacketed", "solid"]


def test_a_revision_has_the_files_that_a_shop_is_read_from_and_no_other(shop: Path) -> None:
    assert set(files_of("HEAD", shop).own) == {"shop.toml", "rules/empty.toml"}


def test_nothing_in_the_folder_or_the_repository_is_changed(shop: Path) -> None:
    before = {path: path.read_bytes() for path in shop.parents[1].rglob("*") if path.is_file()}
    files_of("HEAD", shop)
    assert {path: path.read_bytes() for path in shop.parents[1].rglob("*") if path.is_file()} == before


@pytest.mark.parametrize("named", ["nonsense", "--help", "-n", "HEAD~7", "$(id)", "", "HEAD:shop"])
def test_what_git_does_not_know_is_said_in_plain_words(shop: Path, named: str) -> None:
    with pytest.raises(Faulty, match="neither a folder nor a revision"):
        files_of(named or "''", shop)


def test_a_shop_that_git_does_not_keep_has_no_revisions(tmp_path: Path) -> None:
    folder_of(tmp_path, choice("cooling", "jacketed"))
    with pytest.raises(Faulty, match="not kept in git"):
        files_of("HEAD", tmp_path)


def test_a_revision_without_the_shop_says_so(shop: Path) -> None:
    elsewhere = shop.parent / "other"
    elsewhere.mkdir()
    folder_of(elsewhere, choice("cooling", "jacketed"))
    with pytest.raises(Faulty, match=r"holds no shop\.toml"):
        files_of("HEAD", elsewhere)


def test_a_folder_that_is_no_shop_is_named(shop: Path, tmp_path: Path) -> None:
    with pytest.raises(Faulty, match=r"without a shop\.toml"):
        files_of(str(tmp_path), shop)


def test_without_git_the_way_out_is_two_folders(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    with pytest.raises(Faulty, match="two folders"):
        files_of("HEAD", shop)
