"""Unsaved edits survive a kill, and go away once they are saved or dropped."""

from pathlib import Path

import pytest
from attrs import evolve
from pytestqt.qtbot import QtBot

from core.record.profile import save_profile
from gui.drafts import Drafts, take_up
from gui.jobs import AtOnce, Jobs
from gui.state import AppState
from tests.gui.conftest import HandClock, make_profile


def make_state(path: Path | None) -> AppState:
    return AppState(make_profile(), path=path, clock=HandClock(), jobs=Jobs(AtOnce()))


def rename(state: AppState, name: str) -> None:
    state.edit_profile("Change the observer's name", evolve(state.profile, observer=name))


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "ines.toml"
    save_profile(path, make_profile())
    return path


@pytest.mark.parametrize("has_file", [True, False])
def test_an_edit_that_was_never_saved_is_there_the_next_time(
    qtbot: QtBot, tmp_path: Path, file: Path, has_file: bool
) -> None:
    path = file if has_file else None
    state = make_state(path)
    drafts = Drafts(state, tmp_path / "state")
    rename(state, "Inês")
    qtbot.waitUntil(lambda: drafts.left_for(path) is not None)

    # The program is killed here: nothing of it is asked to tidy up.
    after = make_state(path)
    draft = Drafts(after, tmp_path / "state").left_for(path)
    assert draft is not None
    take_up(after, draft)

    assert after.profile.observer == "Inês"
    assert after.is_modified
    after.undo_stack.undo()
    assert after.profile.observer == "Ines"


def test_nothing_is_left_once_it_is_saved(tmp_path: Path, file: Path) -> None:
    state = make_state(file)
    drafts = Drafts(state, tmp_path / "state")
    rename(state, "Inês")
    drafts.keep()
    assert drafts.left_for(file) is not None

    state.mark_saved(file)
    drafts.keep()

    assert drafts.left_for(file) is None


def test_nothing_is_left_of_a_new_profile_that_got_a_file(qtbot: QtBot, tmp_path: Path) -> None:
    state = make_state(None)
    drafts = Drafts(state, tmp_path / "state")
    rename(state, "Inês")
    drafts.keep()

    state.mark_saved(tmp_path / "new.toml")

    assert drafts.left_for(None) is None


def test_edits_that_were_dropped_do_not_come_back(tmp_path: Path, file: Path) -> None:
    state = make_state(file)
    drafts = Drafts(state, tmp_path / "state")
    rename(state, "Inês")
    drafts.keep()

    drafts.forget()

    assert drafts.left_for(file) is None


@pytest.mark.parametrize(
    "damage", ["", "\0\0\0", "{", "[]", '{"path": null}', '{"profile": "schema = 1\\nx = 2"}']
)
def test_a_damaged_copy_is_as_good_as_none(tmp_path: Path, file: Path, damage: str) -> None:
    state = make_state(file)
    drafts = Drafts(state, tmp_path / "state")
    rename(state, "Inês")
    drafts.keep()
    (kept,) = (tmp_path / "state" / "unsaved").iterdir()
    kept.write_text(damage)

    assert drafts.left_for(file) is None
