"""Pictures of the window: every view, every palette, the size that was asked for, the same each time."""

import os
import subprocess
import sys
from datetime import UTC, date, datetime
from pathlib import Path

import attrs
import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtGui import QImage

from core.drawing.palette import load_palette
from core.problems import ProblemsError
from core.record.observer import Profile
from core.record.profile import save_profile
from gui.window.snapshot import take_snapshots
from tests.gui.conftest import make_profile, pixels

EVENING = date(2026, 12, 5)


def picture(path: Path) -> NDArray[np.uint8]:
    return pixels(QImage(str(path)))


def test_two_scopes_give_four_pictures_in_the_size_asked_for(
    theme: object, profile_file: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "new" / "pictures"
    paths = take_snapshots(profile_file, evening=EVENING, size=(1100, 700), folder=folder)
    assert [path.name for path in paths] == ["gear.png", "height.png", "ladder.png", "side_by_side.png"]
    shapes = {picture(path).shape for path in paths}
    assert shapes == {(700, 1100, 3)}
    # No frame of focus, whose upper edge would be a long line of accent.
    red, green, blue = bytes.fromhex(load_palette("day").accent[1:])
    lines = np.all(picture(paths[1]) == (red, green, blue), axis=2).sum(axis=1)
    assert lines.max() < 0.8 * 1100
    # Four different views.
    assert len({picture(path).tobytes() for path in paths}) == 4


def test_the_same_call_gives_the_same_pictures(theme: object, profile_file: Path, tmp_path: Path) -> None:
    first, second = (
        take_snapshots(
            profile_file,
            evening=EVENING,
            at=datetime(2026, 12, 5, 21, 0, tzinfo=UTC),
            folder=tmp_path / name,
        )
        for name in ("a", "b")
    )
    for one, other in zip(first, second, strict=True):
        assert np.array_equal(picture(one), picture(other)), one.name


def test_a_picture_by_night_is_red_on_black(theme: object, profile_file: Path, tmp_path: Path) -> None:
    for path in take_snapshots(profile_file, evening=EVENING, palette="night", folder=tmp_path / "night"):
        assert picture(path)[..., 1:].max() == 0
        assert picture(path)[..., 0].max() > 100


def test_a_profile_with_nothing_in_it_has_its_pictures_too(theme: object, tmp_path: Path) -> None:
    path = tmp_path / "empty.toml"
    save_profile(path, Profile(observer="New"))
    assert len(take_snapshots(path, folder=tmp_path / "empty")) == 3


def test_one_scope_is_not_compared(theme: object, tmp_path: Path) -> None:
    path = tmp_path / "one.toml"
    profile = make_profile()
    save_profile(path, attrs.evolve(profile, telescopes=profile.telescopes[:1]))
    names = [taken.name for taken in take_snapshots(path, evening=EVENING, folder=tmp_path)]
    assert "side_by_side.png" not in names


def test_a_bad_profile_leaves_nothing_behind(theme: object, tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text("schema = 1\nobserver = 3\n", "utf-8")
    with pytest.raises(ProblemsError, match="observer"):
        take_snapshots(bad, folder=tmp_path / "none")
    assert not (tmp_path / "none").exists()


def test_a_scale_makes_finer_pictures_and_says_nothing(profile_file: Path, tmp_path: Path) -> None:
    # The scale is taken only by a new process.
    code = (
        "import sys; from pathlib import Path; from datetime import date; "
        "from gui.window.snapshot import take_snapshots; "
        "take_snapshots(Path(sys.argv[1]), evening=date(2026, 12, 5), scale=1.5, folder=Path(sys.argv[2]))"
    )
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    folder = tmp_path / "fine"
    ended = subprocess.run(
        [sys.executable, "-c", code, str(profile_file), str(folder)],
        env=environment,
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=True,
    )
    assert ended.stderr == ""
    assert picture(folder / "height.png").shape == (960, 1500, 3)
