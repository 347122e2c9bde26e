"""The view is soft: why? Asked in a dialog by keys and buttons."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.gear.owned import TelescopeKind
from core.tonight.soft_view import KnownOfView, Reply
from gui.ladder.soft_view import SoftViewDialog

KNOWN = KnownOfView(kind=TelescopeKind.REFLECTOR, altitude_deg=50, is_cooling=False)


def _dialog(qtbot: QtBot) -> SoftViewDialog:
    dialog = SoftViewDialog(KNOWN)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


def test_one_key_a_question_to_a_cause_and_a_thing_to_try(qtbot: QtBot) -> None:
    dialog = _dialog(qtbot)
    assert dialog.question.text().startswith("Turn the focuser slowly through the sharpest point")

    QTest.keyClick(dialog, Qt.Key.Key_Y)

    assert dialog.question.text().startswith("Most likely it was not quite in focus. Refocus after every")
    assert not any(button.isVisible() for button in dialog.buttons.values())


def test_an_answer_is_taken_back(qtbot: QtBot) -> None:
    dialog = _dialog(qtbot)
    first = dialog.question.text()
    assert not dialog.back.isEnabled()

    QTest.keyClick(dialog, Qt.Key.Key_N)
    assert dialog.question.text() != first
    qtbot.mouseClick(dialog.back, Qt.MouseButton.LeftButton)

    assert dialog.question.text() == first


def test_who_can_tell_nothing_gets_an_honest_answer_after_five_questions(qtbot: QtBot) -> None:
    dialog = _dialog(qtbot)
    for _ in range(5):
        qtbot.mouseClick(dialog.buttons[Reply.CANNOT_TELL], Qt.MouseButton.LeftButton)

    assert dialog.question.text().startswith("It cannot be judged tonight")
