"""Adding, copying, removing and moving what is owned, by button and by key, each as one step."""

from collections.abc import Callable, Iterator
from datetime import timedelta

import pytest
from attrs import evolve
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.record.observer import Profile
from core.record.profile import dumps_profile
from core.words.owned_kinds import Kind
from gui.gear.observer_form import ObserverForm
from gui.state import AppState
from tests.gui.conftest import HandClock
from tests.gui.gear_hand import GearHand

pytestmark = pytest.mark.usefixtures("theme")


@pytest.fixture
def hand(qtbot: QtBot, make_state: Callable[..., AppState]) -> Iterator[GearHand]:
    hand = GearHand(qtbot, make_state(sky=False))
    yield hand
    hand.close()


def eyepieces(hand: GearHand) -> list[str]:
    return [eyepiece.name for eyepiece in hand.profile.eyepieces]


def key(hand: GearHand, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    hand.view.owned.tree.setFocus()
    hand.qtbot.keyClick(hand.view.owned.tree, key, modifier)


def test_everything_owned_stands_in_the_list_by_kind(hand: GearHand) -> None:
    assert hand.rows == [
        *("Telescopes", "  Six-inch", "  Small refractor"),
        *("Eyepieces", "  25 mm", "  10 mm", "  8 mm"),
        *("Barlows", "  2x"),
        "Filters",
        *("Sites", "  Back terrace", "  Southern hill"),
        "Observer",
    ]


def test_keys_copy_move_and_remove(hand: GearHand) -> None:
    hand.open("10 mm")
    key(hand, Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert eyepieces(hand) == ["25 mm", "10 mm", "10 mm copy", "8 mm"]
    assert hand.field("name").entry == "10 mm copy"

    key(hand, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert eyepieces(hand) == ["25 mm", "10 mm copy", "10 mm", "8 mm"]
    key(hand, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    key(hand, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert eyepieces(hand) == ["25 mm", "10 mm", "8 mm", "10 mm copy"]

    key(hand, Qt.Key.Key_Delete)
    assert eyepieces(hand) == ["25 mm", "10 mm", "8 mm"]
    assert hand.field("name").entry == "8 mm"

    key(hand, Qt.Key.Key_Insert)
    assert "  New eyepiece, unfinished" in hand.rows


def test_buttons_do_the_same_and_name_their_keys(hand: GearHand) -> None:
    owned = hand.view.owned
    hand.open("25 mm")
    assert not owned.up.isEnabled()
    hand.press(owned.down)
    hand.press(owned.copy)
    hand.press(owned.up)
    hand.press(owned.remove)
    assert eyepieces(hand) == ["10 mm", "25 mm", "8 mm"]
    for button, named in (
        (owned.add, "Insert"),
        (owned.copy, "Ctrl+D"),
        (owned.remove, "Delete"),
        (owned.up, "Alt+Up"),
        (owned.down, "Alt+Down"),
    ):
        assert named in button.toolTip()
    hand.open("Observer")
    assert not any(button.isEnabled() for button in (owned.copy, owned.remove, owned.up, owned.down))


def test_a_key_of_the_list_does_nothing_to_the_list_while_typing(hand: GearHand) -> None:
    hand.open("25 mm")
    line = hand.field("name").editor
    line.setFocus()
    hand.qtbot.keyClick(line, Qt.Key.Key_Home)
    hand.qtbot.keyClick(line, Qt.Key.Key_Delete)
    assert eyepieces(hand) == ["5 mm", "10 mm", "8 mm"]


def test_what_is_removed_comes_back_where_it_was(hand: GearHand) -> None:
    told: list[str] = []
    hand.state.told.connect(told.append)
    hand.open("Six-inch")
    hand.press(hand.view.owned.remove)
    assert told == ["Six-inch is removed. Undo brings it back."]
    assert hand.state.situation.scope is hand.profile.telescopes[0]
    assert hand.state.situation.scope.name == "Small refractor"

    hand.undo()
    assert [scope.name for scope in hand.profile.telescopes] == ["Six-inch", "Small refractor"]
    assert hand.field("name").entry == "Six-inch"


def test_choosing_a_scope_or_a_site_takes_it_in_hand(hand: GearHand) -> None:
    hand.open("Small refractor")
    assert hand.state.situation.scope is not None
    assert hand.state.situation.scope.name == "Small refractor"
    assert "What Small refractor gives" in hand.words()
    hand.open("Southern hill")
    assert hand.state.situation.site is not None
    assert hand.state.situation.site.name == "Southern hill"
    # An eyepiece leaves the scope in hand as it is.
    hand.open("25 mm")
    assert "What Small refractor gives" in hand.words()


def test_the_keys_of_one_visit_to_a_field_are_one_step(hand: GearHand) -> None:
    hand.type("aperture_mm", "200")
    hand.type("focal_length_mm", "1000")
    hand.type("aperture_mm", "250")
    stack = hand.state.undo_stack
    assert [stack.text(step) for step in range(stack.count())] == [
        "Change aperture of Six-inch",
        "Change focal length of Six-inch",
        "Change aperture of Six-inch",
    ]
    hand.undo()
    assert hand.field("aperture_mm").entry == "200"
    hand.undo()
    assert hand.field("focal_length_mm").entry == "1200"
    hand.redo()
    assert hand.field("focal_length_mm").entry == "1000"
    assert hand.profile.telescopes[0].focal_length_mm == 1000


def test_thirty_edits_are_taken_back_to_the_same_text(hand: GearHand) -> None:
    before = dumps_profile(hand.profile)
    owned = hand.view.owned
    for number in range(5):
        hand.open("Six-inch")
        hand.type("aperture_mm", str(200 + number))
        hand.type("notes", f"note {number}")
        hand.choose("diagonal", ("star (mirror-reversed)", "erect")[number % 2])
        hand.press(owned.copy)
        hand.press(owned.remove)
        hand.open("Observer")
        hand.type("pupil_mm", str(5 + number / 10))
    assert hand.state.undo_stack.count() >= 30

    for _step in range(hand.state.undo_stack.count()):
        hand.undo()

    assert dumps_profile(hand.profile) == before
    hand.open("Observer")
    assert hand.field("pupil_mm").entry == "7"


def test_undo_works_wherever_the_keyboard_is(hand: GearHand) -> None:
    hand.type("aperture_mm", "200")
    for control in (
        *(hand.field(name).editor for name in ("kind", "driven", "notes", "name")),
        *(hand.view.owned.tree, hand.view.owned.remove, hand.view.gives.table, hand.view.gives.other),
    ):
        control.setFocus()
        hand.undo()
        assert hand.profile.telescopes[0].aperture_mm == 150, control
        hand.redo()
        assert hand.profile.telescopes[0].aperture_mm == 200, control


def test_another_profile_takes_the_place_of_all_that_was_open(hand: GearHand) -> None:
    hand.open("25 mm")
    hand.type("focal_length", "many")
    hand.state.load(evolve(hand.profile, telescopes=hand.profile.telescopes[1:]), None)
    assert hand.field("name").entry == "Small refractor"
    hand.open("25 mm")
    assert hand.field("focal_length").entry == "25"

    hand.state.load(Profile(), None)
    assert "Begin with where you observe" in hand.words()


def test_the_passing_of_time_touches_nothing_that_is_typed(hand: GearHand, clock: HandClock) -> None:
    hand.type("aperture_mm", "many")
    hand.view.gives.table.selectRow(1)
    for _minute in range(3):
        clock.move(timedelta(minutes=1))
        hand.state.beat()
    assert hand.field("aperture_mm").entry == "many"
    assert hand.view.gives.table.currentIndex().row() == 1


def test_a_new_thing_begun_and_left_empty_leaves_no_trace(hand: GearHand) -> None:
    hand.add(Kind.FILTER)
    hand.open("25 mm")
    assert "  New filter, unfinished" not in hand.rows
    assert hand.state.undo_stack.count() == 0


def test_an_age_offers_the_pupil_that_is_typical_and_undo_takes_it_back(hand: GearHand) -> None:
    hand.open("Observer")
    form = hand.view.form_column.form
    assert isinstance(form, ObserverForm)
    usual = form.usual_pupil
    assert not usual.use.isEnabled()

    usual.age.setFocus()
    hand.qtbot.keyClicks(usual.age, "60")
    assert "4.1 mm is typical at 60" in hand.words()
    assert "people differ" in hand.words()
    assert hand.field("pupil_mm").entry == "7"
    hand.press(usual.use)
    assert hand.field("pupil_mm").entry == "4.1"
    assert hand.profile.eye.pupil_mm == 4.1

    hand.undo()
    assert hand.field("pupil_mm").entry == "7"


def test_an_age_out_of_range_is_said_and_nothing_is_offered(hand: GearHand) -> None:
    hand.open("Observer")
    form = hand.view.form_column.form
    assert isinstance(form, ObserverForm)

    hand.qtbot.keyClicks(form.usual_pupil.age, "600")

    assert not form.usual_pupil.use.isEnabled()
    assert "5 to 110" in hand.words()
