"""The layers hold: gui imports core and never the other way, and each library stays behind its door."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import core
import gui

ROOT = Path(__file__).resolve().parent.parent
CORE_FILES = sorted((ROOT / "core").rglob("*.py"))
# What stands on top of gear, sky and air inside core.
UPPER = tuple(
    f"core.{room}"
    for room in (
        "drawing",
        "export",
        "ladder",
        "looks",
        "moments",
        "record",
        "report",
        "tonight",
        "words",
        "year",
    )
)


def imported_modules(path: Path) -> Iterator[str]:
    """Yield the full name of every module that a file imports, wherever in the file."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are absolute"
            yield node.module or ""


def modules_of(path: Path, *prefixes: str) -> set[str]:
    return {
        name
        for name in imported_modules(path)
        if any(name == prefix or name.startswith(prefix + ".") for prefix in prefixes)
    }


@pytest.mark.parametrize("path", CORE_FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_core_knows_nothing_of_the_window(path: Path) -> None:
    assert modules_of(path, "gui", "PySide6", "shiboken6", "tests") == set()


@pytest.mark.parametrize("path", CORE_FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_each_library_stays_behind_its_door(path: Path) -> None:
    place = path.relative_to(ROOT).as_posix()

    if place != "core/sky/ephemeris.py":
        assert modules_of(path, "skyfield", "skyfield_data") == set()
    if not place.startswith("core/drawing/"):
        assert modules_of(path, "matplotlib") == set()


@pytest.mark.parametrize("folder", ["gear", "sky", "air"])
def test_gear_sky_and_air_know_nothing_of_what_stands_on_them(folder: str) -> None:
    for path in sorted((ROOT / "core" / folder).glob("*.py")):
        assert modules_of(path, *UPPER) == set(), path


def test_core_runs_without_qt_and_draws_without_pyplot() -> None:
    names = [
        ".".join(path.relative_to(ROOT).with_suffix("").parts)
        for path in CORE_FILES
        if path.name != "__init__.py"
    ]
    script = (
        "import importlib, sys\n"
        f"for name in {names!r}: importlib.import_module(name)\n"
        "print(sorted({m.partition('.')[0] for m in sys.modules} & {'PySide6', 'shiboken6', 'gui'}))\n"
        "print('matplotlib.pyplot' in sys.modules)\n"
    )

    told = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout

    assert told.splitlines() == ["[]", "False"]


def test_the_packages_are_this_project_s_own() -> None:
    # "core" and "gui" are common names: another distribution could have put its own in the way.
    assert Path(core.__file__ or "").parent == ROOT / "core"
    assert Path(gui.__file__ or "").parent == ROOT / "gui"


def test_the_top_level_holds_what_it_should_and_nothing_else() -> None:
    told = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if told.returncode:
        pytest.skip("not a git checkout")

    top = {name.partition("/")[0] for name in told.stdout.splitlines()}

    assert {name for name in top if not name.startswith(".")} == {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "core",
        "gui",
        "resources",
        "sample_profiles",
        "tests",
    }
