"""Copies of unsaved edits that are damaged, locked, another window's, or of odd files."""

import os
import stat
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from gui.profile.drafts import Drafts
from tests.gui.left_drafts import die, kept, leave_edit, make_state, rename


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "state"


@pytest.fixture
def leave(folder: Path) -> Callable[[Path | None], None]:
    """Return what leaves an edit of a file, or of no file, behind."""
    return partial(leave_edit, folder)


def test_another_window_with_the_same_profile_keeps_a_copy_of_its_own(
    folder: Path, profile_file: Path
) -> None:
    first, second = make_state(profile_file), make_state(profile_file)
    of_first, of_second = Drafts(first, folder), Drafts(second, folder)
    rename(first, "First")
    of_first.keep()

    # What a window that lives has not saved is not for others to take up, or to throw away.
    assert of_second.bring_back() == ""
    rename(second, "Second")
    of_second.keep()
    second.mark_saved(profile_file)
    die(of_first)

    after = make_state(profile_file)
    assert Drafts(after, folder).bring_back()
    assert after.profile.observer == "First"


@pytest.mark.parametrize(
    "damage",
    [
        "",
        "\0\0\0",
        "{",
        "[]",
        "[" * 100_000,
        '{"over": ""}',
        '{"path": null, "over": "", "profile": "schema = 1\\nx = 2"}',
    ],
)
def test_a_damaged_copy_is_set_aside_and_told_once(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None], damage: str
) -> None:
    leave(profile_file)
    (copy,) = kept(folder)
    copy.write_text(damage)

    state = make_state(profile_file)
    told = Drafts(state, folder).bring_back()

    aside = copy.with_name(f"{copy.name}.unreadable")
    assert told == (
        f"Unsaved edits from the last time cannot be read; what is left of them is kept as {aside}."
    )
    assert aside.read_text() == damage
    if os.name == "posix":
        assert stat.S_IMODE(aside.stat().st_mode) == 0o600
    assert not state.is_modified
    assert not kept(folder)
    assert Drafts(state, folder).bring_back() == ""
    assert aside.read_text() == damage


def test_a_damaged_copy_is_told_of_whatever_is_opened_and_gets_in_the_way_of_nothing(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None]
) -> None:
    leave(None)
    (damaged,) = kept(folder)
    damaged.write_text("{")
    leave(profile_file)

    state = make_state(profile_file)
    told = Drafts(state, folder).bring_back()

    assert told.startswith("Unsaved edits from the last time cannot be read;")
    assert told.endswith("which were not saved, are back. Undo takes them away.")
    assert state.profile.observer == "Inês"


def test_a_copy_that_a_living_window_writes_is_nothing_to_set_aside(folder: Path, profile_file: Path) -> None:
    state = make_state(profile_file)
    drafts = Drafts(state, folder)
    rename(state)
    drafts.keep()
    (copy,) = kept(folder)
    copy.write_text("{")
    assert Drafts(make_state(profile_file), folder).bring_back() == ""
    assert copy.exists()


@pytest.mark.parametrize("content", [b"", bytes(60)])
def test_edits_come_back_from_behind_a_lock_that_a_power_cut_damaged(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None], content: bytes
) -> None:
    leave(profile_file)
    (copy,) = kept(folder)
    copy.with_suffix(".lock").write_bytes(content)
    assert "are back" in Drafts(make_state(profile_file), folder).bring_back()


def test_a_damaged_lock_of_a_living_window_still_counts(folder: Path, profile_file: Path) -> None:
    state = make_state(profile_file)
    drafts = Drafts(state, folder)
    rename(state)
    drafts.keep()
    (copy,) = kept(folder)
    copy.with_suffix(".lock").write_bytes(b"")
    assert Drafts(make_state(profile_file), folder).bring_back() == ""
    assert copy.exists()


def test_edits_come_back_under_any_spelling_of_the_file(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    leave(profile_file)
    stat_of = Path.stat
    # A disk that takes capitals and small letters as one.
    monkeypatch.setattr(Path, "stat", lambda self, **more: stat_of(Path(str(self).lower()), **more))

    state = make_state(profile_file.with_name("INES.toml"))

    assert "are back" in Drafts(state, folder).bring_back()
    assert state.profile.observer == "Inês"


@pytest.mark.skipif(sys.platform != "linux", reason="only here a name may have any bytes")
def test_edits_of_a_file_whose_name_is_no_text_come_back(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None]
) -> None:
    odd = profile_file.rename(profile_file.parent / os.fsdecode(b"in\xeas.toml"))
    leave(odd)
    state = make_state(odd)
    assert "are back" in Drafts(state, folder).bring_back()
    assert state.profile.observer == "Inês"


def test_edits_of_a_profile_as_large_as_one_may_be_come_back(folder: Path, profile_file: Path) -> None:
    state = make_state(profile_file)
    drafts = Drafts(state, folder)
    rename(state, "\N{LATIN SMALL LETTER E WITH CIRCUMFLEX}" * 499_000)
    drafts.keep()
    die(drafts)
    after = make_state(profile_file)
    assert "are back" in Drafts(after, folder).bring_back()
    assert after.profile.observer == state.profile.observer


def test_a_folder_that_cannot_be_made_costs_the_edit_nothing(tmp_path: Path, profile_file: Path) -> None:
    (tmp_path / "state").write_text("in the way")
    state = make_state(profile_file)
    drafts = Drafts(state, tmp_path / "state")
    rename(state)
    drafts.keep()
    assert state.profile.observer == "Inês"
