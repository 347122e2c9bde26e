"""What dialogs and the line of messages tell of files: read whole, for what they say decides what is kept."""

import pytest

from core.words import files

CHANGED = "kit.toml was changed by another program"
ONLY = "Only a profile can be dropped here, a file whose name ends in .toml"


@pytest.mark.parametrize(
    ("template", "words"),
    [
        (files.NOT_OPENED, "kit.toml could not be opened. Noa stays open as it was."),
        (
            files.NOT_SAVED,
            "kit.toml could not be saved. Your changes are still here; try another place.",
        ),
        (files.OUTPUT_NOT_SAVED, "kit.toml could not be saved; try another name or place."),
        (
            files.COPY_IS_IN_HAND,
            "kit.toml is the profile in hand and stays as it is; give the copy another name.",
        ),
        (files.SAVED, "Saved as kit.toml."),
        (files.LOG_SAVED, "The log was saved as kit.toml."),
        (
            files.COPY_SAVED,
            (
                "Saved a copy as kit.toml: each site to a tenth of a degree, no comments. Names and notes "
                "are in it as you wrote them."
            ),
        ),
        (files.ASK_SAVE, "Save the changes to Noa?"),
        (files.ASK_VERSION, f"{CHANGED}, and here are edits that are not saved."),
        (
            files.ASK_VERSION_NOTE,
            (
                "Keeping yours leaves the file as it is until you save. If you take the file's version, Undo "
                "brings yours back."
            ),
        ),
        (files.ASK_WRITE_OVER, f"{CHANGED} after it was read here. Save over it?"),
        (
            files.ASK_WRITE_OVER_NOTE,
            (
                "Saving yours keeps the file's version beside it. If you take the file's version, Undo "
                "brings yours back."
            ),
        ),
        (
            files.CHANGED_AND_UNREADABLE,
            f"{CHANGED} and cannot be read now: line 3. What is here stays.",
        ),
        (
            files.CHANGED_EDITS_STAY,
            f"Your edits stay. {CHANGED}, and keeps that version until you save.",
        ),
        (
            files.CHANGED_AND_SHOWN,
            f"{CHANGED}, and its new version is shown. Undo brings back the one before.",
        ),
        (
            files.NOT_KEPT,
            (
                "Your unsaved edits cannot be kept in case the program ends unexpectedly (line 3). Save the "
                "profile to be safe."
            ),
        ),
        (files.DROP_ONE, f"{ONLY}, and one at a time."),
        (files.DROP_LOCAL, f"{ONLY}, and it must be on this computer."),
        (files.DROP_ELSE, f"{ONLY}; kit.toml is something else."),
        (
            files.LOG_NOT_WRITTEN,
            "line 3. What you write is kept in the window and tried again.",
        ),
        (
            files.NOTHING_KEPT,
            (
                "Neither settings nor unsaved edits can be kept in data (no room). Everything else works; "
                "save the profile after each change that matters."
            ),
        ),
    ],
)
def test_each_message_says_what_is_kept_and_what_to_do(template: str, words: str) -> None:
    told = template.format(
        file="kit.toml", path="kit.toml", profile="Noa", problem="line 3", folder="data", trouble="no room"
    )

    assert told == words


def test_steps_of_the_log_and_of_files_as_undo_names_them() -> None:
    assert [
        files.TAKE_UP_STEP,
        files.BRING_BACK_STEP,
        files.VERDICT_STEP,
        files.NOTE_STEP,
        files.ID_STEP,
        files.EDIT_LINE_STEP,
        files.REMOVE_LINE_STEP,
    ] == [
        "Take up the changed file",
        "Bring back unsaved edits",
        "Verdict in the log",
        "Note in the log",
        "Give the profile an id for its log",
        "Edit a line of the log",
        "Remove a line from the log",
    ]
