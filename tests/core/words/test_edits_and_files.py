"""What is told of edits, of files and of a set-up: each names the thing, field or file that it is about."""

from pathlib import Path

from attrs import evolve

from core.gear.owned import Filter
from core.record.observer import Profile
from core.words.files import brought_back_words, draft_set_aside_words, saved_words
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
    plain = saved_words("Saved.", None, had_other_names=False)
    kept = saved_words("Saved.", FILE, had_other_names=False)
    renamed = saved_words("Saved.", None, had_other_names=True)

    assert plain == "Saved."
    assert kept.startswith("Saved. ")
    assert "kit.toml" in kept
    assert "folder" not in kept
    assert renamed.startswith("Saved. ")
    assert renamed not in (plain, kept)


def test_edits_that_are_back_name_their_file_and_whether_it_has_changed() -> None:
    never, same, changed = (
        brought_back_words(path, has_changed=has_changed)
        for path, has_changed in ((None, False), (FILE, False), (FILE, True))
    )

    assert "never saved" in never
    assert "kit.toml" in same
    assert "kit.toml" in changed
    assert "has changed since" in changed
    assert "changed" not in same
    assert all("Undo" in words for words in (never, same, changed))
    assert str(FILE) in draft_set_aside_words(FILE)


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
