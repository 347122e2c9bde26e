"""The layers hold: gui imports core and never the other way, and each library stays behind its door."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

import core
import gui

ROOT = Path(__file__).resolve().parent.parent
FILES = [path for folder in ("core", "gui") for path in sorted((ROOT / folder).rglob("*.py"))]


def module_of(path: Path) -> str:
    """Return the full name of the module that a file is."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


def imported_modules(path: Path) -> Iterator[str]:
    """Yield the full name of everything that a file imports, wherever in the file."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are absolute"
            assert node.module
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def test_the_contracts_between_packages_hold() -> None:
    # In a process of its own, since it sets logging up anew.
    script = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"

    linter = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert linter.returncode == 0, linter.stdout + linter.stderr


def test_no_file_of_core_imports_itself_round_a_circle() -> None:
    files = {module_of(path): path for path in FILES if path.is_relative_to(ROOT / "core")}
    imports = {name: set(imported_modules(path)) & files.keys() - {name} for name, path in files.items()}
    # Raises CycleError, which names the circle.
    TopologicalSorter(imports).prepare()


def test_core_runs_without_qt_and_draws_without_pyplot() -> None:
    names = [module_of(path) for path in FILES if path.is_relative_to(ROOT / "core")]
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
