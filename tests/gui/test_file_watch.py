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
def watch(profile_file: Path) -> FileWatch:
    return FileWatch(
        AppState(Choices(profile=make_profile()), path=profile_file, clock=HandClock(), jobs=Jobs(AtOnce()))
    )


def test_a_change_in_place_is_told(qtbot: QtBot, profile_file: Path, watch: FileWatch) -> None:
    with qtbot.waitSignal(watch.changed_elsewhere):
        profile_file.write_text(profile_file.read_text("utf-8").replace("Ines", "Marta"), "utf-8")


def test_a_file_replaced_by_renaming_is_told(qtbot: QtBot, profile_file: Path, watch: FileWatch) -> None:
    with qtbot.waitSignal(watch.changed_elsewhere):
        save_profile(profile_file, evolve(make_profile(), observer="Marta"))
    with qtbot.waitSignal(watch.changed_elsewhere):
        save_profile(profile_file, evolve(make_profile(), observer="Rui"))


def test_a_save_that_is_noted_is_one_s_own(profile_file: Path, watch: FileWatch) -> None:
    save_profile(profile_file, evolve(make_profile(), observer="Marta"))
    assert watch.differs

    watch.note()

    assert not watch.differs


def test_a_file_that_is_gone_is_no_change(profile_file: Path, watch: FileWatch) -> None:
    profile_file.unlink()

    assert not watch.differs
