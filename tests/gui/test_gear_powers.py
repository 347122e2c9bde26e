"""What the kit gives: every power in a table that follows each key, sorts and can be copied."""

from collections.abc import Iterator

import pytest
from attrs import evolve
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QTableView
from pytestqt.qtbot import QtBot

from core.kit.gear import Eyepiece
from core.record.observer import Profile
from gui.gear.spreadsheet import tab_separated
from gui.state import AppState
from tests.gui.conftest import SIX_INCH
from tests.gui.gear_hand import GearHand

pytestmark = pytest.mark.usefixtures("theme")


@pytest.fixture
def hand(qtbot: QtBot, state: AppState) -> Iterator[GearHand]:
    hand = GearHand(qtbot, state)
    yield hand
    hand.close()


def cells(table: QTableView, column: int) -> list[str]:
    model = table.model()
    return [model.index(row, column).data() for row in range(model.rowCount())]


def test_powers_exit_pupils_and_fields_are_those_of_the_textbook(hand: GearHand) -> None:
    # Power 1200 / f, exit pupil 150 / power, field 52 / power: geometric optics, worked by hand and rounded.
    table = hand.view.gives.table
    assert cells(table, 0) == ["48x", "96x", "120x", "150x", "240x", "300x"]
    assert cells(table, 1) == ["25 mm", "25 mm + 2x", "10 mm", "8 mm", "10 mm + 2x", "8 mm + 2x"]
    assert cells(table, 2) == ["3.1 mm", "1.6 mm", "1.2 mm", "1.0 mm", "0.62 mm", "0.50 mm"]
    assert cells(table, 3) == ["1.1°", "32′", "26′", "21′", "13′", "10′"]


def test_a_changed_eyepiece_changes_the_table_with_each_key(hand: GearHand) -> None:
    hand.open("8 mm")
    hand.type("focal_length", "6")
    assert "200x 6 mm" in hand.powers
    hand.qtbot.keyClicks(hand.field("focal_length").editor, ".")
    assert "200x 6 mm" in hand.powers
    hand.qtbot.keyClicks(hand.field("focal_length").editor, "4")
    assert "188x 6.4 mm" in hand.powers


def test_the_words_say_where_to_start_how_far_to_climb_and_what_is_too_much(hand: GearHand) -> None:
    words = cells(hand.view.gives.table, 4)
    assert words[0].startswith("Start here.")
    assert [row for row, text in enumerate(words) if "Climb to here." in text] == [2]
    assert "tonight's air" in words[4]
    assert "floaters" in words[5]
    # Saturn at 44 degrees in fair air: the air stops it before aperture and usual air, 300x each.
    assert "set by tonight's air" in hand.words()
    assert "aperture 300x, usual air 300x" in hand.words()
    assert "assumed" in hand.words()


def test_the_row_in_hand_is_told_in_full_under_the_table(hand: GearHand) -> None:
    table = hand.view.gives.table
    # The highest sensible rung is told while none is chosen.
    assert hand.view.gives.details.text().startswith("120x with 10 mm, ")
    hand.qtbot.mouseClick(
        table.viewport(), Qt.MouseButton.LeftButton, pos=table.visualRect(table.model().index(0, 1)).center()
    )
    told = hand.view.gives.details.text()
    assert told.startswith("48x with 25 mm, ")
    assert "from edge to edge without a drive" in told

    table.setFocus()
    hand.qtbot.keyClick(table, Qt.Key.Key_Down)
    assert hand.view.gives.details.text().startswith("96x with 25 mm + 2x")


def test_the_table_sorts_by_click_and_by_key(hand: GearHand) -> None:
    table = hand.view.gives.table
    header = table.horizontalHeader()
    x = header.sectionViewportPosition(2) + 10
    hand.qtbot.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(x, 8))
    assert cells(table, 0) == ["300x", "240x", "150x", "120x", "96x", "48x"]
    assert table.model().headerData(2, Qt.Orientation.Horizontal) == "Exit pupil ↑"

    table.setFocus()
    hand.qtbot.keyClick(table, Qt.Key.Key_2)
    assert cells(table, 1) == sorted(cells(table, 1))
    hand.qtbot.keyClick(table, Qt.Key.Key_1)
    hand.qtbot.keyClick(table, Qt.Key.Key_1)
    assert cells(table, 0) == ["300x", "240x", "150x", "120x", "96x", "48x"]


def test_copied_rows_are_plain_figures_and_never_formulas(hand: GearHand) -> None:
    hand.open("25 mm")
    hand.type("name", "=HYPERLINK(1)")
    table = hand.view.gives.table
    table.setFocus()
    hand.qtbot.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[0].split("\t")[:4] == [
        "Power",
        "Eyepiece and Barlow",
        "Exit pupil, mm",
        "True field, degrees",
    ]
    assert lines[1].split("\t")[:4] == ["48", "'=HYPERLINK(1)", "3.12", "1.08"]
    assert len(lines) == 7

    table.selectRow(2)
    hand.qtbot.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text().splitlines()[1].startswith("120\t10 mm\t")


def test_a_cell_stays_one_cell_and_a_number_stays_a_number() -> None:
    assert tab_separated([["-5", "+1,5", "@x", "a\tb", "a\nb", "=1"]]) == "-5\t'+1,5\t'@x\ta b\ta b\t'=1\n"


def test_what_to_buy_is_said_or_that_nothing_would_help(hand: GearHand) -> None:
    # From 48x and 96x to a ceiling near 131x the widest step is the first; half of it helps most.
    assert "Widest gap" in hand.words() or "Nothing to buy" in hand.words()
    hand.state.edit_profile("Sell", evolve(hand.profile, eyepieces=hand.profile.eyepieces[:1], barlows=()))
    assert "would help most." in hand.words()
    assert "Nothing to buy" not in hand.words()


def test_what_does_not_fit_is_named(hand: GearHand) -> None:
    hand.open("25 mm")
    hand.choose("barrel_mm", "2 in (50.8 mm)")
    assert "25 mm has a 50.8 mm barrel and does not fit the 31.75 mm focuser of Six-inch." in hand.words()


def test_without_a_field_the_table_says_unknown(qtbot: QtBot, state: AppState) -> None:
    state.load(
        Profile(telescopes=(SIX_INCH,), eyepieces=(Eyepiece(name="Old one", focal_length_mm=20),)), None
    )
    hand = GearHand(qtbot, state)
    assert cells(hand.view.gives.table, 3) == ["unknown"]
    hand.close()
