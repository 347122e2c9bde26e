"""What is told of files: opened, saved, changed by another program, left unsaved, dropped on the window."""

from pathlib import Path
from typing import Final

NEW_PROFILE: Final = "New profile"
EVENING_NAME: Final = "evening_{day}"

NOT_OPENED_TITLE: Final = "Could not open the profile"
NOT_OPENED: Final = "{file} could not be opened. {profile} stays open as it was."
NOT_SAVED_TITLE: Final = "Could not save the profile"
NOT_SAVED: Final = "{file} could not be saved. Your changes are still here; try another place."
PICTURE_NOT_SAVED_TITLE: Final = "Could not save the picture"
SHEET_NOT_SAVED_TITLE: Final = "Could not save the sheet"
OUTPUT_NOT_SAVED: Final = "{file} could not be saved; try another name or place."
COPY_IS_IN_HAND: Final = "{file} is the profile in hand and stays as it is; give the copy another name."
SAVED: Final = "Saved as {path}."
LOG_SAVED: Final = "The log was saved as {file}."
COPY_SAVED: Final = (
    "Saved a copy as {path}: each site to a tenth of a degree, no comments. Names and notes are in it as you "
    "wrote them."
)
_KEPT: Final = "What was there before is kept as {file}."
_OTHER_NAMES: Final = "The file had another name too (a hard link), and there the text from before stays."

ASK_SAVE: Final = "Save the changes to {profile}?"
FILE_HAS_CHANGED: Final = "The file has changed"
ASK_VERSION: Final = "{file} was changed by another program, and here are edits that are not saved."
ASK_VERSION_NOTE: Final = (
    "Keeping yours leaves the file as it is until you save. If you take the file's version, Undo brings "
    "yours back."
)
ASK_WRITE_OVER: Final = "{file} was changed by another program after it was read here. Save over it?"
ASK_WRITE_OVER_NOTE: Final = (
    "Saving yours keeps the file's version beside it. If you take the file's version, Undo brings yours back."
)
CHANGED_AND_UNREADABLE: Final = (
    "{file} was changed by another program and cannot be read now: {problem}. What is here stays."
)
CHANGED_EDITS_STAY: Final = (
    "Your edits stay. {file} was changed by another program, and keeps that version until you save."
)
CHANGED_AND_SHOWN: Final = (
    "{file} was changed by another program, and its new version is shown. Undo brings back the one before."
)
TAKE_UP_STEP: Final = "Take up the changed file"
_AND_MORE: Final = "{problem} (and {count} more)"

BRING_BACK_STEP: Final = "Bring back unsaved edits"
NOT_KEPT: Final = (
    "Your unsaved edits cannot be kept in case the program ends unexpectedly ({problem}). Save the profile "
    "to be safe."
)
_BACK_NEVER_SAVED: Final = "Edits from the last time, which were never saved, are back. Undo takes them away."
_BACK: Final = "Edits to {file} from the last time, which were not saved, are back. Undo takes them away."
_BACK_OVER_CHANGED: Final = (
    "Edits to {file} from the last time, which were not saved, are back. The file itself has changed since; "
    "Undo shows what it holds now."
)
_DRAFT_SET_ASIDE: Final = (
    "Unsaved edits from the last time cannot be read; what is left of them is kept as {path}."
)

_SETTINGS_DAMAGED: Final = "The window's own settings could not be read; it starts with the usual ones."
_SETTINGS_SET_ASIDE: Final = (
    "The window's own settings could not be read; it starts with the usual ones. The damaged file is kept as "
    "{file}."
)
_LAST_NOT_OPENED: Final = "The last profile, {file}, could not be opened and is left as it is: {problem}."
_LAST_NOT_OPENED_COPY: Final = (
    "The last profile, {file}, could not be opened and is left as it is: {problem}. The one from before the "
    "last save is kept as {copy}."
)

DROP_ONE: Final = "Only a profile can be dropped here, a file whose name ends in .toml, and one at a time."
DROP_LOCAL: Final = (
    "Only a profile can be dropped here, a file whose name ends in .toml, and it must be on this computer."
)
DROP_ELSE: Final = (
    "Only a profile can be dropped here, a file whose name ends in .toml; {file} is something else."
)

VERDICT_STEP: Final = "Verdict in the log"
NOTE_STEP: Final = "Note in the log"
ID_STEP: Final = "Give the profile an id for its log"
EDIT_LINE_STEP: Final = "Edit a line of the log"
REMOVE_LINE_STEP: Final = "Remove a line from the log"
LOG_NOT_WRITTEN: Final = "{problem}. What you write is kept in the window and tried again."
NOTHING_KEPT: Final = (
    "Neither settings nor unsaved edits can be kept in {folder} ({trouble}). Everything else works; save the "
    "profile after each change that matters."
)


def saved_words(told: str, kept: Path | None, *, had_other_names: bool) -> str:
    """Return what is told of a save, and what became of the text that was there before."""
    sentences = [told]
    if kept is not None:
        sentences.append(_KEPT.format(file=kept.name))
    if had_other_names:
        sentences.append(_OTHER_NAMES)
    return " ".join(sentences)


def brought_back_words(path: Path | None, *, has_changed: bool) -> str:
    """Return what is told of edits that are back, to a file that may have changed since, or to none."""
    if path is None:
        return _BACK_NEVER_SAVED
    return (_BACK_OVER_CHANGED if has_changed else _BACK).format(file=path.name)


def draft_set_aside_words(kept: Path) -> str:
    """Return what is told of unsaved edits that were damaged, and where they were put."""
    return _DRAFT_SET_ASIDE.format(path=kept)


def problem_and_more(problem: str, more: int) -> str:
    """Return the first of several problems, and how many more there are."""
    return _AND_MORE.format(problem=problem, count=more) if more else problem


def settings_damaged_words(kept: Path | None) -> str:
    """Return what is told of damaged settings of the window, and where they were put."""
    return _SETTINGS_DAMAGED if kept is None else _SETTINGS_SET_ASIDE.format(file=kept.name)


def last_not_opened_words(path: Path, problem: str, copy: Path | None) -> str:
    """Return why the last profile is not there, and where a good copy of it is."""
    if copy is None:
        return _LAST_NOT_OPENED.format(file=path.name, problem=problem)
    return _LAST_NOT_OPENED_COPY.format(file=path.name, problem=problem, copy=copy.name)
