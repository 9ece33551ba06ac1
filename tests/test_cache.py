"""The cache keeps what it was given or nothing, and whatever is wrong with its folder, no command suffers."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from configurator import cache


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder of the test's own, not there yet."""
    folder = tmp_path / "cache" / "of" / "blocks"
    monkeypatch.setenv("BLOCKS_CACHE", str(folder))
    return folder


def test_what_is_kept_is_fetched(folder: Path) -> None:
    assert cache.fetch("key") is None
    cache.keep("key", b"compiled")
    cache.keep("other", b"")
    assert (cache.fetch("key"), cache.fetch("other")) == (b"compiled", b"")
    cache.keep("key", b"compiled anew")
    assert cache.fetch("key") == b"compiled anew"
    assert sorted(path.name for path in folder.iterdir()) == ["key", "other"]


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.binary(max_size=50), draw=st.data())
def test_a_damaged_entry_is_as_if_it_were_not_there(folder: Path, data: bytes, draw: st.DataObject) -> None:
    cache.keep("key", data)
    entry = (folder / "key").read_bytes()
    at = draw.draw(st.integers(0, len(entry) - 1))
    damaged = draw.draw(
        st.sampled_from([entry[:at], entry[:at] + bytes([entry[at] ^ 0x10]) + entry[at + 1 :], entry + b"x", b""])
    )
    (folder / "key").write_bytes(damaged)
    assert cache.fetch("key") is None
    cache.keep("key", data)
    assert cache.fetch("key") == data


def test_a_folder_that_is_a_file_is_no_cache(folder: Path) -> None:
    folder.parent.mkdir(parents=True)
    folder.write_text("not a folder")
    cache.keep("key", b"compiled")
    assert cache.fetch("key") is None


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_cannot_be_written_is_no_cache(folder: Path) -> None:
    folder.mkdir(parents=True)
    folder.chmod(0o500)
    cache.keep("key", b"compiled")
    assert cache.fetch("key") is None


def test_a_folder_in_the_place_of_an_entry_is_no_entry(folder: Path) -> None:
    (folder / "key").mkdir(parents=True)
    cache.keep("key", b"compiled")
    assert cache.fetch("key") is None
    assert [path.name for path in folder.iterdir()] == ["key"]


def test_a_write_that_fails_leaves_the_old_entry_and_no_draft(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cache.keep("key", b"old")

    def full(self: Path, data: bytes) -> int:
        with open(self, "wb") as file:
            file.write(data[:5])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    cache.keep("key", b"new")
    assert cache.fetch("key") == b"old"
    assert [path.name for path in folder.iterdir()] == ["key"]


def test_the_folder_is_found_in_the_usual_places(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """XDG_CACHE_HOME as the XDG base directory specification has it, ~/.cache where it is not set."""
    monkeypatch.delenv("BLOCKS_CACHE")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "shared"))
    cache.keep("key", b"x")
    assert (tmp_path / "shared" / "blocks" / "key").is_file()
    monkeypatch.delenv("XDG_CACHE_HOME")
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    cache.keep("key", b"x")
    assert (tmp_path / "home" / ".cache" / "blocks" / "key").is_file()


FILES = {"a.toml": b"a = 1\n", "b.toml": b"b = 2\n"}


def test_the_key_does_not_depend_on_the_order_of_files() -> None:
    assert cache.key_of(FILES, {}) == cache.key_of(dict(reversed(FILES.items())), {})


@pytest.mark.parametrize(
    ("files", "rules"),
    [
        ({"a.toml": b"a = 1\n", "b.toml": b"b = 3\n"}, {}),
        ({"a.toml": b"a = 1\n"}, {}),
        ({"a.toml": b"a = 1\n", "c.toml": b"b = 2\n"}, {}),
        ({"a.toml": b"a = 1\nb = 2\n", "b.toml": b""}, {}),
        ({"a.toml": b"a = 1\n"}, {"b.toml": b"b = 2\n"}),
        ({}, FILES),
    ],
)
def test_the_key_depends_on_every_byte_and_on_where_it_stands(files: dict[str, bytes], rules: dict[str, bytes]) -> None:
    assert cache.key_of(files, rules) != cache.key_of(FILES, {})


def test_the_key_changes_with_the_program(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "desk.py").write_text("1")
    monkeypatch.setattr(cache, "_PACKAGE", tmp_path)
    before = cache.key_of(FILES, {})
    assert cache.key_of(FILES, {}) == before
    (tmp_path / "desk.py").write_text("22")
    assert cache.key_of(FILES, {}) != before
    monkeypatch.setattr(cache, "__version__", "another")
    assert cache.key_of(FILES, {}) != before
