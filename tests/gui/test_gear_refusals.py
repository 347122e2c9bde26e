"""What a form refuses: it stays as typed with its reason, and nothing of it stays in force."""

from PySide6.QtCore import Qt

from core.words.owned_kinds import Kind
from gui.widgets.typed_field import TypedField
from tests.gui.gear_hand import GearHand


def test_a_refused_figure_stays_as_typed_beside_the_last_good_ladder(hand: GearHand) -> None:
    hand.open("10 mm")
    before = hand.powers
    field = hand.field("focal_length")
    for typed, sentence in {
        "": "Focal length is needed.",
        "twelve": "“twelve” is not a number; write it like 12.5 or 12,5.",
        "1": "The focal length of an eyepiece must be from 2 to 60 mm, not “1”.",
        "nan": "“nan” is not a number; write it like 12.5 or 12,5.",
        "-10": "The focal length of an eyepiece must be from 2 to 60 mm, not “-10”.",
    }.items():
        hand.type("focal_length", typed)
        hand.leave()

        assert (field.entry or "") == typed
        assert field.message == sentence
        assert field.editor.accessibleDescription() == sentence
        assert hand.powers == before
        assert hand.focal_lengths == [25, 10, 8]

    hand.enter("focal_length")
    hand.undo()
    assert field.entry == "10"
    assert field.message == ""
    assert hand.state.undo_stack.count() == 0


def test_a_figure_half_typed_is_not_scolded_until_there_is_a_pause(hand: GearHand) -> None:
    field = hand.field("aperture_mm")
    hand.type("aperture_mm", "8")
    assert field.message == ""
    hand.qtbot.waitUntil(lambda: "unusual for an aperture" in field.message)
    hand.qtbot.keyClicks(field.editor, "0")
    assert field.message == ""


def test_refused_text_is_there_again_when_the_thing_is_opened_again(hand: GearHand) -> None:
    hand.open("10 mm")
    hand.type("focal_length", "many")
    hand.open("25 mm")
    assert hand.field("focal_length").entry == "25"
    hand.open("10 mm")
    assert hand.field("focal_length").entry == "many"
    assert hand.field("focal_length").message != ""


def test_figures_that_do_not_agree_are_refused_in_the_words_of_the_form(hand: GearHand) -> None:
    hand.type("obstruction_mm", "150")
    assert hand.field("obstruction_mm").message == "Obstruction must be less than the aperture, 150 mm."
    hand.type("aperture_mm", "200")
    assert hand.field("obstruction_mm").message == ""
    scope = hand.profile.telescopes[0]
    assert (scope.aperture_mm, scope.obstruction_mm) == (200, 150)


def test_a_blank_or_repeated_name_is_refused(hand: GearHand) -> None:
    field = hand.field("name")
    assert isinstance(field, TypedField)
    for typed, sentence in {
        "  ": "Name is needed.",
        "Small refractor": "Another telescope has this name already. Please choose another one.",
    }.items():
        hand.type("name", typed)
        hand.leave()
        assert field.text == typed
        assert field.message == sentence
        assert hand.profile.telescopes[1].name == "Small refractor"
        assert hand.profile.telescopes[0].name not in ("", "Small refractor")


def test_no_digit_of_a_refused_figure_stays_in_force(hand: GearHand) -> None:
    hand.open("10 mm")
    before = hand.powers
    # 2 and 20 mm were taken on the way.
    hand.type("focal_length", "205")
    assert hand.focal_lengths == [25, 10, 8]
    assert [eyepiece.name for eyepiece in hand.profile.eyepieces] == ["25 mm", "10 mm", "8 mm"]
    assert hand.powers == before
    assert hand.text("focal_length") == "205"
    assert hand.state.undo_stack.count() == 0

    hand.open("Six-inch")
    hand.type("obstruction_mm", "35")
    hand.leave()
    hand.type("obstruction_mm", "150")
    assert hand.profile.telescopes[0].obstruction_mm == 35
    hand.type("obstruction_mm", "40")
    assert hand.profile.telescopes[0].obstruction_mm == 40


def test_no_letter_of_a_refused_name_stays_in_force(hand: GearHand) -> None:
    hand.type("name", "Small refractor")
    assert hand.profile.telescopes[0].name == "Six-inch"


def test_a_new_thing_goes_again_when_its_figure_is_refused(hand: GearHand) -> None:
    rows = hand.rows
    hand.add(Kind.EYEPIECE)
    hand.type("focal_length", "20")
    assert hand.focal_lengths == [25, 10, 8, 20]
    hand.qtbot.keyClicks(hand.field("focal_length").editor, "5")
    assert hand.focal_lengths == [25, 10, 8]
    assert "  New eyepiece, unfinished" in hand.rows
    assert hand.text("focal_length") == "205"
    hand.qtbot.keyClick(hand.field("focal_length").editor, Qt.Key.Key_Backspace)
    assert hand.focal_lengths == [25, 10, 8, 20]
    hand.undo()
    assert hand.focal_lengths == [25, 10, 8]
    assert [row for row in hand.rows if "unfinished" not in row] == rows
