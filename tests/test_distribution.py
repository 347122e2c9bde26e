"""What the wheel and the sdist carry, and what pyproject.toml says of the program."""

import os
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from email import message_from_string
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

pytestmark = pytest.mark.long


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with wheel and sdist, built as an installer builds them."""
    pytest.importorskip("hatchling")
    folder = tmp_path_factory.mktemp("dist")
    script = (
        "import sys; from hatchling.build import build_sdist, build_wheel; "
        "build_wheel(sys.argv[1]); build_sdist(sys.argv[1])"
    )
    subprocess.run([sys.executable, "-c", script, str(folder)], cwd=ROOT, check=True, capture_output=True)
    return folder


def kept(folder: str, *endings: str) -> set[str]:
    """Return the files of a folder that version control knows, as the wheel should name them."""
    if not (ROOT / ".git").exists():
        pytest.skip("only a clone tells which files belong to the project")
    listed = subprocess.run(
        ["git", "ls-files", folder], cwd=ROOT, check=True, capture_output=True, text=True
    ).stdout.splitlines()
    return {name for name in listed if not endings or name.endswith(endings)}


def test_the_wheel_carries_all_code_and_data_and_nothing_else(built: Path) -> None:
    (wheel,) = built.glob("*.whl")
    names = set(zipfile.ZipFile(wheel).namelist())
    own = {name for name in names if ".dist-info/" not in name}
    expected = kept("core") | kept("gui") | kept("resources") | kept("sample_profiles")
    assert own == {name for name in expected if not name.startswith("resources/pictures/")}
    info = {name.partition(".dist-info/")[2] for name in names - own}
    assert {f"licenses/{name}" for name in kept("resources/licences")} <= info
    assert not any("tests" in name for name in names)


def test_the_wheel_tells_what_it_is_in_the_standard_s_words(built: Path) -> None:
    (wheel,) = built.glob("*.whl")
    archive = zipfile.ZipFile(wheel)
    (metadata,) = (name for name in archive.namelist() if name.endswith(".dist-info/METADATA"))
    told = message_from_string(archive.read(metadata).decode())
    assert told["License-Expression"] == "MIT"
    assert told["Description-Content-Type"] == "text/markdown"
    assert str(told.get_payload()).strip().startswith("# Stillair")
    assert "](resources/" not in str(told.get_payload())
    (entries,) = (name for name in archive.namelist() if name.endswith("entry_points.txt"))
    assert "[gui_scripts]\nstillair-window = gui.app:window_main" in archive.read(entries).decode()


def test_the_sdist_carries_what_a_build_and_a_test_need(built: Path) -> None:
    (sdist,) = built.glob("*.tar.gz")
    with tarfile.open(sdist) as archive:
        names = {name.partition("/")[2] for name in archive.getnames()}
    folders = ("core", "gui", "resources", "sample_profiles", "tests", ".ci", ".packaging")
    expected = set[str]().union(*map(kept, folders))
    assert expected | {"README.md", "DEVELOPERS.md", "pyproject.toml"} <= names
    assert not [name for name in names if name.startswith((".git/", ".venv", "build", "dist"))]


def test_every_lowest_version_is_one_that_can_be_named_exactly() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    done = subprocess.run(
        ["bash", ".ci/lowest-versions", "--list"],
        cwd=ROOT,
        env=os.environ,
        capture_output=True,
        text=True,
        check=True,
    )
    pinned = dict(line.split("==") for line in done.stdout.split())
    assert len(pinned) == len({line.split(">=")[0] for line in project["dependencies"]})
    assert pinned["numpy"].startswith("2.")
