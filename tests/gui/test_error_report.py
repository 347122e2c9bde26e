"""When something fails: a report without personal data, its place told, and which versions are running."""

import re
import sys
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from gui.app import main
from gui.window.error_report import REPORT_NAME, report_text
from gui.window.errors import ErrorDoor
from gui.window.shell import Shell
from tests.gui.conftest import action

SECRET = "Inês of 12 Garden Row, 41.15 N, /home/ines/kit.toml"


def inner_failure() -> None:
    raise ValueError(SECRET)


def outer_failure() -> None:
    try:
        inner_failure()
    except ValueError as error:
        raise RuntimeError(SECRET) from error


def failure() -> Exception:
    with pytest.raises(RuntimeError) as caught:
        outer_failure()
    return caught.value


def test_a_report_has_versions_and_places_and_nothing_of_the_person() -> None:
    text = report_text(failure(), datetime(2026, 12, 5, 21, 42, tzinfo=UTC))
    assert "error: RuntimeError" in text
    assert "while handling: ValueError" in text
    assert "in inner_failure" in text
    for name in ("PySide6-Essentials", "skyfield", "numpy"):
        assert f"{name}: {version(name)}" in text
    assert f"Python: {sys.version.split()[0]}" in text
    for word in (
        "Inês",
        "Garden",
        "41.15",
        "kit.toml",
        "/home",
        str(Path(__file__).parent),
        str(Path.home()),
    ):
        assert word not in text


def test_the_place_of_the_report_is_told_and_that_nothing_is_sent(
    shell: Shell, state_folder: Path, qtbot: QtBot
) -> None:
    door = ErrorDoor(state_folder)
    door.raised.connect(shell.state.tell)
    error = failure()
    door.take(type(error), error, error.__traceback__)
    path = state_folder / REPORT_NAME
    qtbot.waitUntil(lambda: str(path) in shell.message_line.text.text())
    assert "nothing is sent" in shell.message_line.text.text()
    assert path.stat().st_mode & 0o777 == 0o600
    assert SECRET not in path.read_text("utf-8")


def test_without_a_folder_the_error_is_told_all_the_same(tmp_path: Path, qtbot: QtBot) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    door, told = ErrorDoor(tmp_path / "file"), list[str]()
    door.raised.connect(told.append)
    door.take(RuntimeError, RuntimeError("a fault"))
    qtbot.waitUntil(lambda: told != [])
    assert told == ["Something went wrong inside Stillair, and your profile is as it was."]


def test_versions_licences_and_data_are_told_in_the_terminal(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "57")
    assert main(["--version"]) == 0
    first, *others = capsys.readouterr().out.splitlines()
    assert re.fullmatch(r"stillair (\d+\.\d+\.\d+|\(not installed\))", first)
    assert max(map(len, others)) <= 57
    told = " ".join(" ".join(others).split())
    for words in (
        f"PySide6-Essentials {version('PySide6-Essentials')}",
        "Stillair itself: MIT licence",
        "GeoNames (geonames.org), Creative Commons Attribution 4.0",
        "Open Database Licence",
    ):
        assert words in told


def test_about_tells_versions_licences_and_where_a_report_would_lie(
    unseen_shell: Shell, told: list[tuple[str, str]], state_folder: Path
) -> None:
    action(unseen_shell, "Help", "About").trigger()
    ((heading, text),) = told
    assert heading.startswith("Stillair ")
    for word in (
        "Creative Commons Attribution 4.0",
        "GNU Lesser General Public Licence version 3",
        "OpenStreetMap contributors",
        "DE421",
        "Map of the Moon",
        f"PySide6-Essentials   {version('PySide6-Essentials')}",
        str(state_folder / REPORT_NAME),
        "Nothing is ever sent",
    ):
        assert word in text
