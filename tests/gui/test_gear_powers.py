"""What the kit gives: every power in a table that follows each key, sorts and can be copied."""

from attrs import evolve
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QCheckBox, QTableView
from pytestqt.qtbot import QtBot

from core.air.blur import Blur
from core.gear.owned import Eyepiece
from core.record.observer import Profile
from core.sky.bodies import Body
from gui.gear.powers_columns import EYEPIECE, WORDS
from gui.gear.questions import Question
from gui.gear.spreadsheet import tab_separated
from gui.state import AppState
from gui.widgets.roomy_delegate import RoomyDelegate
from tests.gui.conftest import SIX_INCH
from tests.gui.gear_hand import GearHand

SIX_MM = (
    "A 6 mm eyepiece (200x) would help most, for nights that bear 150x to 240x: you have nothing between."
)


def cells(table: QTableView, column: int) -> list[str]:
    model = table.model()
    return [model.index(row, column).data() for row in range(model.rowCount())]


def switch(hand: GearHand, name: str) -> QCheckBox:
    editor = hand.field(name).editor
    assert isinstance(editor, QCheckBox)
    return editor


def test_powers_exit_pupils_and_fields_are_those_of_the_textbook(hand: GearHand) -> None:
    # Power 1200 / f, exit pupil 150 / power, field 52 / power: geometric optics, worked by hand and rounded.
    table = hand.view.gives.table
    assert cells(table, 0) == ["48x", "96x", "120x", "150x", "240x", "300x"]
    assert cells(table, 1) == ["25 mm", "25 mm + 2x", "10 mm", "8 mm", "10 mm + 2x", "8 mm + 2x"]
    assert cells(table, 2) == ["3.1 mm", "1.6 mm", "1.3 mm", "1.0 mm", "0.63 mm", "0.50 mm"]
    assert cells(table, 3) == ["1.1°", "33′", "26′", "21′", "13′", "10′"]


def test_a_name_for_which_there_is_just_enough_room_stays_in_one_line(hand: GearHand) -> None:
    table = hand.view.gives.table
    delegate = table.itemDelegate()
    assert isinstance(delegate, RoomyDelegate)
    width = table._natural_width(EYEPIECE)

    assert [delegate.lines(name, table.font(), width) for name in cells(table, EYEPIECE)] == [
        [name] for name in cells(table, EYEPIECE)
    ]


def test_moons_detail_and_drift_of_each_power(qtbot: QtBot, state: AppState) -> None:
    # By hand: 52 degrees / power over 31.07 arcmin; 232 / power, down to the 116 / 150 of Dawes.
    state.set_planet(Body.JUPITER)
    hand = GearHand(qtbot, state, size=(1500, 700))
    table = hand.view.gives.table
    assert cells(table, 4) == ["2.1", "1.0", "0.8", "0.7", "0.4", "0.3"]
    assert cells(table, 5) == ["4.8″", "2.4″", "1.9″", "1.5″", "1.0″", "0.8″"]
    # 52 / 300 degrees at 15.04 arcsec/s and the declination of Jupiter, 13 degrees.
    assert cells(table, 6)[-1] == "43 s"
    assert not any(table.isColumnHidden(column) for column in range(WORDS))
    hand.press(switch(hand, "driven"))
    assert set(cells(table, 6)) == {"none: driven"}
    hand.close()


def test_a_narrow_table_leaves_out_figures_that_copied_rows_still_have(hand: GearHand) -> None:
    table = hand.view.gives.table
    hand.view.resize(900, 540)
    assert table.isColumnHidden(5)
    assert not table.isColumnHidden(2)
    table.copy()
    assert "Finest detail for the eye, arcsec" in QGuiApplication.clipboard().text()


def test_alternatives_have_rows_of_their_own(hand: GearHand) -> None:
    hand.state.edit_profile(
        "Buy",
        evolve(
            hand.profile,
            eyepieces=(
                *hand.profile.eyepieces,
                Eyepiece(name="Plain", focal_length_mm=12.5, eye_relief_mm=8),
            ),
        ),
    )
    # 1200 / 12.5 is 96x, as is the 25 mm in the 2x; without a Barlow it is the one shown first.
    assert hand.powers[1:3] == ["96x Plain", "96x 25 mm + 2x"]
    table = hand.view.gives.table
    assert cells(table, 3)[1:3] == ["unknown", "33′"]
    assert cells(table, WORDS)[2].startswith("Nearly the same as Plain.")
    table.selectRow(1)
    assert "Nearly the same: 25 mm + 2x (96x)." in hand.view.gives.details.text()


def test_glasses_that_do_not_fit_are_told_and_an_unknown_stays_unknown(hand: GearHand) -> None:
    hand.open("10 mm")
    hand.type("eye_relief_mm", "7")
    hand.open("Observer")
    hand.press(switch(hand, "glasses"))
    words = dict(zip(cells(hand.view.gives.table, 1), cells(hand.view.gives.table, WORDS), strict=True))
    assert "Eye relief 7 mm is too short for glasses" in words["10 mm"]
    assert "Eye relief unknown" in words["25 mm"]


def ask(hand: GearHand, question: Question, text: str) -> str:
    """Choose a question by keys, type its figure and return the answer."""
    questions = hand.view.gives.questions
    questions.question.setFocus()
    hand.qtbot.keyClick(questions.question, Qt.Key.Key_Home)
    while questions.asked is not question:
        hand.qtbot.keyClick(questions.question, Qt.Key.Key_Down)
    questions.field.editor.setFocus()
    questions.field.editor.selectAll()
    hand.qtbot.keyClicks(questions.field.editor, text)
    return questions.answer.text()


def test_a_wanted_power_is_told_with_and_without_the_barlow(hand: GearHand) -> None:
    # 1200 / 200 is 6 mm, in the 2x 12 mm; the air stops at about 131x for Saturn at 44 degrees.
    told = ask(hand, Question.WANTED, "200x")
    assert told.startswith("200x takes 6 mm or 12 mm with 2x. The nearest you have is 240x, 10 mm + 2x.")
    assert "that aperture and air can bear." in told
    assert ask(hand, Question.WANTED, "1500").startswith("No eyepiece made gives 1500x here.")


def test_a_makers_promise_stands_beside_the_real_limit(hand: GearHand) -> None:
    told = ask(hand, Question.CLAIMED, "675")
    assert told == "675x is 4.5x per mm; 150 mm of aperture bears about 300x."
    assert hand.state.undo_stack.count() == 0


def test_one_more_thing_is_tried_out_without_being_owned(hand: GearHand) -> None:
    before = hand.profile
    told = ask(hand, Question.WHAT_IF, "12 mm")
    # 100x is within 15 % of the 96x owned; 200x is 20 % from 240x.
    assert told.startswith("A 12 mm eyepiece would give 100x and 200x. ")
    assert told.endswith("One of these is within 15 % of a power you have.")
    ladder = hand.state.situation.ladder
    assert ladder is not None
    assert [round(rung.power) for rung in hand.state.situation.wished] == [100, 200]
    assert hand.profile is before

    hand.view.gives.questions.field.editor.selectAll()
    hand.qtbot.keyClick(hand.focused(), Qt.Key.Key_Delete)
    assert hand.state.situation.tried is None
    assert hand.view.gives.questions.answer.text() == SIX_MM


def test_a_figure_that_may_be_an_eyepiece_or_a_barlow_is_asked_about(hand: GearHand) -> None:
    ask(hand, Question.WHAT_IF, "2,5")
    field = hand.view.gives.questions.field
    hand.leave()
    assert "did you mean 2.5 mm or 2.5x?" in field.message
    hand.leave()
    hand.qtbot.keyClick(hand.focused(), Qt.Key.Key_Space)
    # 48x, 120x and 150x become 120x, 300x and 375x.
    assert hand.view.gives.questions.answer.text().startswith("A 2.5x Barlow would give 120x, 300x and 375x.")


def test_a_changed_eyepiece_changes_the_table_with_each_key(hand: GearHand) -> None:
    hand.open("8 mm")
    hand.type("focal_length", "6")
    assert "200x 6 mm" in hand.powers
    hand.qtbot.keyClicks(hand.field("focal_length").editor, ".")
    assert "200x 6 mm" in hand.powers
    hand.qtbot.keyClicks(hand.field("focal_length").editor, "4")
    assert "188x 6.4 mm" in hand.powers


def test_the_words_say_where_to_start_how_far_to_climb_and_what_is_too_much(hand: GearHand) -> None:
    words = cells(hand.view.gives.table, WORDS)
    assert words[0].startswith("Begin here.")
    assert [row for row, text in enumerate(words) if "Top tonight." in text] == [3]
    assert words[4].startswith("Not tonight: over the ceiling of about")
    assert "floaters" in words[5]
    # Jupiter at its best in fair air: 150 mm and the air bear about 180x, the air with the larger share.
    assert "mostly by the air." in hand.words()
    assert "aperture 300x, usual air 300x" in hand.words()
    assert "assumed" in hand.words()


def test_the_row_in_hand_is_told_in_full_under_the_table(hand: GearHand) -> None:
    hand.state.set_planet(Body.JUPITER)
    table = hand.view.gives.table
    # The highest sensible rung is told while none is chosen.
    assert hand.view.gives.details.text().startswith("150x with 8 mm: ")
    hand.qtbot.mouseClick(
        table.viewport(), Qt.MouseButton.LeftButton, pos=table.visualRect(table.model().index(0, 1)).center()
    )
    told = hand.view.gives.details.text()
    # A field of 52 / 48 degrees is 2.09 Moons of 31.07 arcmin. It takes 4.32 min at the equator, and a little
    # longer where Jupiter stands in December 2026, 13 degrees north of it.
    assert told.startswith("48x with 25 mm: 2.1 Moon widths, shows detail from 4.8″ up, drift 4.4 min.")

    table.setFocus()
    hand.qtbot.keyClick(table, Qt.Key.Key_Down)
    assert hand.view.gives.details.text().startswith("96x with 25 mm + 2x")
    assert "A Barlow's factor changes with its distance to the eyepiece" in hand.view.gives.details.text()


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


def test_the_row_in_hand_stays_in_hand_when_the_order_changes(hand: GearHand) -> None:
    table = hand.view.gives.table
    table.selectRow(1)
    table.setFocus()
    hand.qtbot.keyClick(table, Qt.Key.Key_1)
    assert table.currentIndex().row() == 4
    assert hand.view.gives.details.text().startswith("96x with 25 mm + 2x")


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
    assert lines[1].split("\t")[:4] == ["48", "'=HYPERLINK(1)", "3.13", "1.08"]
    assert len(lines) == 7

    table.selectRow(2)
    hand.qtbot.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text().splitlines()[1].startswith("120\t10 mm\t")


def test_a_cell_stays_one_cell_and_a_number_stays_a_number() -> None:
    assert tab_separated([["-5", "+1,5", "@x", "a\tb", "a\nb", "=1"]]) == "-5\t'+1,5\t'@x\ta b\ta b\t'=1\n"


def test_what_to_buy_is_said_or_that_nothing_would_help(hand: GearHand) -> None:
    assert SIX_MM in hand.words()
    # Many nights count, not the air of this one.
    hand.state.set_blur(Blur(overhead_arcsec=4.0))
    assert SIX_MM in hand.words()
    six = Eyepiece(id="e6", name="6 mm", focal_length_mm=6)
    hand.state.edit_profile("Buy", evolve(hand.profile, eyepieces=(*hand.profile.eyepieces, six)))
    assert "Nothing to buy: on most nights you have a power near the best one." in hand.words()


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


def test_a_high_table_shows_all_words_of_every_row(qtbot: QtBot, state: AppState) -> None:
    def heights(size: tuple[int, int]) -> list[int]:
        hand = GearHand(qtbot, state, size=size)
        table = hand.view.gives.table
        assert all(
            table.rowViewportPosition(row) + table.rowHeight(row) <= table.viewport().height()
            for row in range(table.model().rowCount())
        )
        found = [table.rowHeight(row) for row in range(table.model().rowCount())]
        hand.close()
        return found

    # The row over tonight's air has three lines to say in 1000 pixels: more than a low table gives it.
    assert heights((1000, 1000))[-1] > heights((1000, 640))[-1]
