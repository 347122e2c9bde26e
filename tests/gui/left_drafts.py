"""Unsaved edits as a killed window leaves them."""

from pathlib import Path

from attrs import evolve

from core.situation.choices import Choices
from gui.jobs import AtOnce, Jobs
from gui.profile.drafts import Drafts
from gui.state import AppState
from tests.gui.conftest import HandClock, make_profile


def make_state(path: Path | None) -> AppState:
    return AppState(Choices(profile=make_profile()), path=path, clock=HandClock(), jobs=Jobs(AtOnce()))


def rename(state: AppState, name: str = "Inês") -> None:
    state.edit_profile("Change the observer's name", evolve(state.profile, observer=name))


def kept(folder: Path) -> list[Path]:
    return sorted(folder.glob("unsaved/*.json"))


def die(drafts: Drafts) -> None:
    """End as a killed program does: its files stay, its locks do not count any more."""
    drafts._timer.stop()
    if drafts._place:
        drafts._place.let_go()


def leave_edit(folder: Path, path: Path | None) -> None:
    """Leave an edit of a file, or of no file, behind in a state folder."""
    state = make_state(path)
    drafts = Drafts(state, folder)
    rename(state)
    drafts.keep()
    die(drafts)
