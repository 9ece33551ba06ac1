"""What is handed on: a lock with a hash for every package, and a wheel that works in an empty folder."""

from __future__ import annotations

import re
import subprocess
import sys
import sysconfig
import tomllib
import zipfile
from pathlib import Path

import pytest

from configurator import __version__, shipped

ROOT = Path(__file__).parents[1]
LOCK = (ROOT / "requirements.lock").read_text(encoding="utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def locked() -> dict[str, list[str]]:
    """Every requirement of the lock by its plain name, with the lines that pin it."""
    found: dict[str, list[str]] = {}
    for text in re.split(r"\n(?=\S)", LOCK):
        found.setdefault(plain(text.split("==")[0]), []).append(text)
    return found


def plain(name: str) -> str:
    """A package's name as registries compare it: small letters, runs of - _ . as one hyphen (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).strip().lower()


def wanted(requirements: list[str]) -> set[str]:
    return {plain(re.split(r"[<>=!~;\[ ]", text)[0]) for text in requirements}


def test_every_locked_package_is_pinned_and_has_a_hash() -> None:
    for texts in locked().values():
        for text in texts:
            assert re.match(r"[\w.-]+==[\w.]+( ; [^\\\n]+)? \\\n", text), text.splitlines()[0]
            assert re.search(r"--hash=sha256:[0-9a-f]{64}", text), text.splitlines()[0]


def test_the_lock_names_no_host_and_no_folder() -> None:
    pin = r"[a-z0-9][\w.-]*==[\w.]+( ; [\w .'<>=!]+)? \\"
    proof = r"    --hash=sha256:[0-9a-f]{64}( \\)?"
    assert [line for line in LOCK.splitlines() if not re.fullmatch(f"{pin}|{proof}", line)] == []


def test_the_lock_covers_all_that_the_project_asks_for() -> None:
    asked = wanted(PROJECT["dependencies"]) | wanted(PROJECT["optional-dependencies"]["dev"])
    assert asked - set(locked()) == set()


def test_the_build_backend_is_locked_too() -> None:
    build = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["build-system"]
    assert wanted(build["requires"]) <= set(locked())


def test_the_shipped_folders_are_those_of_the_checkout() -> None:
    assert shipped.rules_folder() == ROOT / "rules"
    assert shipped.demo_folder() == ROOT / "catalog-demo"


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(out)]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    (built,) = out.glob("*.whl")
    return built


@pytest.mark.long
def test_the_wheel_holds_the_rules_and_the_demo_shops(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    for folder in (shipped.rules_folder(), shipped.demo_folder()):
        for file in folder.rglob("*.toml"):
            assert f"configurator/_data/{file.relative_to(ROOT).as_posix()}" in names


@pytest.mark.long
def test_the_installed_wheel_works_in_an_empty_folder(wheel: Path, tmp_path: Path) -> None:
    """The wheel is unpacked into a bare environment; what it depends on is lent by this one, the checkout is not."""
    empty = tmp_path / "empty"
    empty.mkdir()
    python, site = bare_environment(tmp_path / "room")
    zipfile.ZipFile(wheel).extractall(site)
    # Comes behind the unpacked wheel on the path; .pth files that lie there, the checkout's among them, are not read.
    (site / "lent.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    start = "from importlib.metadata import entry_points; entry_points(group='console_scripts')['blocks'].load()()"

    def blocks(*words: str) -> subprocess.CompletedProcess[str]:
        command = [str(python), "-c", start, *words]
        return subprocess.run(command, cwd=empty, capture_output=True, text=True, stdin=subprocess.DEVNULL)

    version = blocks("--version")
    assert (version.returncode, __version__ in version.stdout) == (0, True), version.stderr
    answered = blocks("check", "use=drag", "cooling=solid")
    assert answered.returncode == 0, answered.stderr
    assert list(empty.iterdir()) == []


def bare_environment(folder: Path) -> tuple[Path, Path]:
    """A virtual environment with nothing in it: its interpreter and its folder of packages."""
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(folder)], check=True, stdin=subprocess.DEVNULL)
    places = {"base": str(folder), "platbase": str(folder)}
    python = Path(sysconfig.get_path("scripts", "venv", places), "python")
    return python, Path(sysconfig.get_path("purelib", "venv", places))
