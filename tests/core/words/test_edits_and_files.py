"""What is told of edits, of files and of a set-up: each names the thing, field or file that it is about."""

from pathlib import Path

import pytest
from attrs import evolve

from core.gear.owned import Filter
from core.record.observer import Profile
from core.words import gear_edits, set_up
from core.words.files import (
    brought_back_words,
    draft_set_aside_words,
    last_not_opened_words,
    problem_and_more,
    saved_words,
    settings_damaged_words,
)
from core.words.gear_edits import change_step, rename_step, still_needed_words
from core.words.set_up import so_far_text, steps_text, usual_size_text
from tests.core.evenings import LISBON, SIX
from tests.core.gear.examples import barlow, eyepiece, fixed

FILE = Path("folder") / "kit.toml"


def test_steps_name_the_field_and_the_thing() -> None:
    assert rename_step("Six") == "Rename Six"
    assert change_step("Aperture", "Six") == "Change aperture of Six"
    assert change_step("Glasses") == "Change glasses"
    assert still_needed_words(["Aperture", "Focal length"]) == "Still needed: aperture and focal length."
    assert still_needed_words([]) == ""


def test_a_save_tells_what_became_of_the_text_before() -> None:
    def saved(kept: Path | None, *, other: bool) -> str:
        return saved_words("Saved.", kept, had_other_names=other)

    kept = "What was there before is kept as kit.toml."
    other = "The file had another name too (a hard link), and there the text from before stays."

    assert saved(None, other=False) == "Saved."
    assert saved(FILE, other=False) == f"Saved. {kept}"
    assert saved(None, other=True) == f"Saved. {other}"
    assert saved(FILE, other=True) == f"Saved. {kept} {other}"


def test_edits_that_are_back_name_their_file_and_whether_it_has_changed() -> None:
    assert brought_back_words(None, has_changed=False) == (
        "Edits from the last time, which were never saved, are back. Undo takes them away."
    )
    assert brought_back_words(FILE, has_changed=False) == (
        "Edits to kit.toml from the last time, which were not saved, are back. Undo takes them away."
    )
    assert brought_back_words(FILE, has_changed=True) == (
        "Edits to kit.toml from the last time, which were not saved, are back. The file itself has changed "
        "since; Undo shows what it holds now."
    )
    assert draft_set_aside_words(FILE) == (
        f"Unsaved edits from the last time cannot be read; what is left of them is kept as {FILE}."
    )


def test_of_several_problems_the_first_is_told_and_how_many_more_there_are() -> None:
    assert problem_and_more("sites[0]: no name", 0) == "sites[0]: no name"
    assert problem_and_more("sites[0]: no name", 2) == "sites[0]: no name (and 2 more)"


def test_what_could_not_be_read_at_the_start_is_told_with_where_a_copy_lies() -> None:
    damaged = "The window's own settings could not be read; it starts with the usual ones."
    last = "The last profile, kit.toml, could not be opened and is left as it is: line 3."

    assert settings_damaged_words(None) == damaged
    assert settings_damaged_words(FILE) == f"{damaged} The damaged file is kept as kit.toml."
    assert last_not_opened_words(FILE, "line 3", None) == last
    assert last_not_opened_words(FILE, "line 3", Path("folder") / "kit.toml~") == (
        f"{last} The one from before the last save is kept as kit.toml~."
    )


def test_the_steps_of_a_set_up_are_counted_from_one_and_the_one_in_hand_is_marked() -> None:
    assert steps_text(("Place", "Telescope", "Eyepieces"), 1) == (
        "1. Place  ·  2. Telescope (now)  ·  3. Eyepieces"
    )


def test_a_usual_size_is_told_with_its_focal_ratio_where_it_has_one() -> None:
    """1200 over 150 is f/8, 1000 over 152.4 about f/6.6."""
    assert usual_size_text(SIX) == "reflector: 1200 mm, f/8"
    odd = evolve(SIX, aperture_mm=152.4, focal_length_mm=1000)
    assert usual_size_text(odd).endswith(": 1000 mm, f/6.6")
    assert usual_size_text(fixed("Spotter", power=20)) == "Spotter"


def test_what_there_is_so_far_is_read_out_kind_by_kind() -> None:
    whole = Profile(
        sites=(LISBON,),
        telescopes=(SIX,),
        eyepieces=(eyepiece(25), eyepiece(10)),
        barlows=(barlow(2),),
        filters=(Filter(name="Light blue", wratten="82A"),),
    )

    assert so_far_text(whole) == "So far: Lisbon; reflector; 25 mm, 10 mm; 2x Barlow; Light blue."
    assert so_far_text(evolve(whole, barlows=(), filters=())) == "So far: Lisbon; reflector; 25 mm, 10 mm."
    assert so_far_text(Profile()).startswith("Nothing yet.")


@pytest.mark.parametrize(
    ("template", "words"),
    [
        (gear_edits.ADD, "Add eyepiece"),
        (gear_edits.COPY, "Copy Six"),
        (gear_edits.REMOVE, "Remove Six"),
        (gear_edits.MOVE_UP, "Move Six up"),
        (gear_edits.MOVE_DOWN, "Move Six down"),
        (gear_edits.MOVE_TO, "Move Six to the top"),
        (gear_edits.SHAPE_SKY, "Shape the sky of Six"),
        (gear_edits.REMOVED, "Six is removed. Undo brings it back."),
        (gear_edits.NEW_UNFINISHED, "New eyepiece, unfinished"),
        (
            gear_edits.NAME_TAKEN,
            "Another eyepiece has this name already. Please choose another one.",
        ),
        (gear_edits.NEEDED, "The aperture is needed."),
        (gear_edits.OWNED, "2 owned. Choose one on the left to change it."),
        (gear_edits.NO_ZONE, "“Six” is not a time zone; write it like Europe/Lisbon."),
        (gear_edits.NO_ZONE_MEANT, "“Six” is not a time zone. Did you mean Europe/Lisbon?"),
        (gear_edits.WRITE_TIME_OR, "Write a time such as 19:30 or 7:30 pm, or the word dusk."),
        (gear_edits.ROW_PROBLEM, "Row 3: no azimuth"),
        (gear_edits.BLUR_OF, "The blur of steady air"),
        (gear_edits.FIXED_NAME, "10x, 150 mm"),
        (gear_edits.REDUCER_NAME, "0.63x reducer"),
        (gear_edits.ZOOM_NAME, "8-24 zoom"),
        (set_up.AND_CLOSE, "Close once more to leave without it."),
        (set_up.WHERE_FROM, "Where do you look from?"),
        (set_up.HOW_HIGH, "How high above the sea? Roughly will do; left empty it counts as sea level."),
        (set_up.WHICH_EYEPIECES, "Which eyepieces came in the box, and which others?"),
        (set_up.POWER_AND_APERTURE, "Write the power and the aperture in mm, like 20-60x80 or 10x50."),
        (set_up.SEVERAL_TOWNS, "“Six” may be one of several towns: choose it in the list."),
        (
            set_up.NO_PLACE,
            "No place yet. Choose a town or type coordinates, or press Next once more to do so later.",
        ),
        (
            set_up.NO_SCOPE,
            (
                "No telescope yet. Pick the nearest size or type what stands on the tube, or press Next once "
                "more to do so later."
            ),
        ),
        (
            set_up.APERTURE_MISSING,
            "The aperture is missing. It is the width of the lens or mirror, and mostly stands on the tube.",
        ),
        (
            set_up.FOCAL_LENGTH_MISSING,
            (
                "The focal length is missing. It mostly stands on the tube, in mm; the focal ratio will do "
                "as well: f/8."
            ),
        ),
        (
            set_up.NO_EYEPIECE,
            "No eyepiece is ticked. Tick those that you have, or press Next once more to do so later.",
        ),
    ],
)
def test_what_is_told_while_gear_is_changed_or_set_up(template: str, words: str) -> None:
    told = template.format(
        thing="eyepiece",
        kind="eyepiece",
        name="Six",
        place="the top",
        label="The aperture",
        count=2,
        meant="Europe/Lisbon",
        word="dusk",
        number=3,
        problem="no azimuth",
        look="steady",
        aperture="150 mm",
        powers="10",
        factor="0.63",
        low="8",
        high="24",
    )

    assert told == words
    assert gear_edits.TELESCOPE_NAME.format(aperture="150 mm", kind="reflector") == "150 mm reflector"
