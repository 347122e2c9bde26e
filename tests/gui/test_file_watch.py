"""A profile changed by another program is noticed; one's own saves are not."""

from pathlib import Path

import pytest
from attrs import evolve
from pytestqt.qtbot import QtBot

from core.record.profile import save_profile
from core.situation.choices import Choices
from gui.jobs import AtOnce, Jobs
from gui.profile.file_watch import FileWatch
from gui.state import AppState
from tests.gui.conftest import HandClock, make_profile


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "ines.toml"
    save_profile(path, make_profile())
    return path


@pytest.fixture
def watch(file: Path) -> FileWatch:
    return FileWatch(
        AppState(Choices(profile=make_profile()), path=file, clock=HandClock(), jobs=Jobs(AtOnce()))
    )


def test_a_change_in_place_is_told(qtbot: QtBot, file: Path, watch: FileWatch) -> None:
    with qtbot.waitSignal(watch.changed_elsewhere):
        file.write_text(file.read_text("utf-8").replace("Ines", "Marta"), "utf-8")


def test_a_file_replaced_by_renaming_is_told(qtbot: QtBot, file: Path, watch: FileWatch) -> None:
    with qtbot.waitSignal(watch.changed_elsewhere):
        save_profile(file, evolve(make_profile(), observer="Marta"))
    with qtbot.waitSignal(watch.changed_elsewhere):
        save_profile(file, evolve(make_profile(), observer="Rui"))


def test_a_save_that_is_noted_is_one_s_own(file: Path, watch: FileWatch) -> None:
    save_profile(file, evolve(make_profile(), observer="Marta"))
    assert watch.differs

    watch.note()

    assert not watch.differs


def test_a_file_that_is_gone_is_no_change(file: Path, watch: FileWatch) -> None:
    file.unlink()

    assert not watch.differs
