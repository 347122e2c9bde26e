"""The README and DEVELOPERS.md tell the truth: examples print what is shown, and what is named is there."""

import re
import shutil
from datetime import UTC, datetime
from pathlib import Path
from unittest.mock import Mock

import pytest
from PIL import Image

import gui.app
from core.record.folders import DATA_VARIABLE
from gui.commands import COMMANDS
from tests.readme_examples import README, ROOT, Example, examples, prepare, printed_by

EXAMPLES = examples(README.read_text("utf-8"))
_FOLDERS = [
    ROOT / name for name in ("core", "gui", "resources", "sample_profiles", "tests", ".ci", ".packaging")
]
_ROOMS = "|".join(folder.name.lstrip(".") for folder in _FOLDERS)
# What is in backticks or linked and is a file of ours: by its first folder, or by its ending.
_PATHS = re.compile(rf"[`(]((?:\.?(?:{_ROOMS})/[\w./-]*\w)|[\w/]+\.(?:py|toml|npz|qss|spec|xz))[`)/]")


@pytest.fixture(scope="module")
def prepared(qapp: object, tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("readme")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(DATA_VARIABLE, str(place / "data"))
        prepare(place)
    return place


# On the evening itself commands speak of what is left of it.
@pytest.mark.parametrize("year", [2024, 2031])
@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.command.split()[1])
def test_a_command_prints_what_the_readme_shows(
    example: Example, year: int, prepared: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = Mock(wraps=datetime)
    clock.now.return_value = datetime(year, 7, 1, 20, tzinfo=UTC)
    monkeypatch.setattr(gui.app, "datetime", clock)
    place = tmp_path / "place"
    shutil.copytree(prepared, place)
    monkeypatch.setenv(DATA_VARIABLE, str(place / "data"))

    printed = printed_by(example.command, place)

    assert example.fits(printed), f"python -m tests.readme_examples writes it anew:\n{printed}"


def test_every_command_has_an_example() -> None:
    assert {example.command.split()[1] for example in EXAMPLES} >= set(COMMANDS)


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md"])
def test_every_file_that_is_named_is_there(document: str) -> None:
    named = set(_PATHS.findall((ROOT / document).read_text("utf-8")))
    # A name may stand without its room where that is plain from beside it.
    paths = [*ROOT.glob("*.*"), *(path for folder in _FOLDERS for path in folder.rglob("*"))]
    there = [f"/{path.relative_to(ROOT).as_posix()}" for path in paths]

    assert named
    assert sorted(name for name in named if not any(path.endswith(f"/{name}") for path in there)) == []


def test_the_moving_picture_moves_and_is_light() -> None:
    path = ROOT / "resources" / "pictures" / "evening.webp"

    with Image.open(path) as picture:
        assert picture.size == (1000, 640)
        assert getattr(picture, "n_frames", 1) > 10
    assert path.stat().st_size < 600_000
