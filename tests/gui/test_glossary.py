"""Terms explain themselves: by a click on the word, by a key, in all palettes."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QEnterEvent, QHelpEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QToolTip
from pytestqt.qtbot import QtBot

from core.drawing.palette import PALETTES
from core.words.glossary import GLOSSARY, Sketch, terms_in
from gui.height.view import HeightView
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.widgets.canvas import Canvas
from gui.widgets.dialogs import TextDialog
from gui.widgets.plain_label import PlainLabel
from gui.window.glossary import GlossaryDialog
from gui.window.shell import Shell


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[GlossaryDialog]:
    """Keep every glossary that is opened, without waiting for it to be closed."""
    dialogs: list[GlossaryDialog] = []

    def keep(dialog: GlossaryDialog) -> int:
        dialogs.append(dialog)
        return 0

    monkeypatch.setattr(GlossaryDialog, "exec", keep)
    return dialogs


def test_a_click_on_a_word_opens_the_glossary_at_it(
    make_shell: Callable[..., Shell], state: AppState, opened: list[GlossaryDialog], qtbot: QtBot
) -> None:
    shell = make_shell(state)
    label = PlainLabel("Exit pupil 1.2 mm", shell.centralWidget())
    label.show()

    qtbot.mouseClick(label, Qt.MouseButton.LeftButton)

    assert opened[0].term is not None
    assert opened[0].term.name == "exit pupil"
    assert opened[0].meaning.text().startswith("The width of the beam that leaves the eyepiece")


def test_the_pointer_tells_a_term_in_short(make_shell: Callable[..., Shell], state: AppState) -> None:
    shell = make_shell(state)
    label = PlainLabel("drift 4 min", shell.centralWidget())
    place = QPointF(1, 1)

    QApplication.sendEvent(label, QEnterEvent(place, place, place))

    assert label.toolTip().startswith("drift: How long a planet takes through the middle of the field")
    label.setText("Ines")
    QApplication.sendEvent(label, QEnterEvent(place, place, place))
    assert label.toolTip() == ""


def test_a_key_opens_it_with_the_terms_on_screen_first(
    make_shell: Callable[..., Shell], state: AppState, opened: list[GlossaryDialog], qtbot: QtBot
) -> None:
    shell = make_shell(state, view=2)

    shell.activateWindow()
    qtbot.waitUntil(shell.isActiveWindow)

    QTest.keyClick(shell, Qt.Key.Key_F2)

    names = [opened[0].list.item(row).text() for row in range(opened[0].list.count())]
    assert sorted(names, key=str.casefold) == [term.name for term in GLOSSARY]
    assert "ceiling" in names[:20]
    assert names.index("ceiling") < names.index("terminator")


def test_a_word_is_searched_for(qtbot: QtBot, theme: object) -> None:
    dialog = GlossaryDialog(terms_in("ceiling"), "day")
    qtbot.addWidget(dialog)
    dialog.show()
    QTest.keyClicks(dialog.search, "seeing")

    assert dialog.name.text() == "air (seeing)"
    QTest.keyClicks(dialog.search, "zzz")
    assert (dialog.name.text(), dialog.meaning.text()) == ("", "")


@pytest.mark.parametrize("palette", PALETTES)
@pytest.mark.parametrize("sketch", list(Sketch))
def test_each_drawing_stands_inside_its_place(
    qtbot: QtBot, theme: object, palette: str, sketch: Sketch
) -> None:
    term = next(term for term in GLOSSARY if term.sketch is sketch)
    dialog = GlossaryDialog((term,), palette)
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.sketch.ensure_drawn()

    drawing = dialog.sketch.shown
    assert drawing is not None
    for words in drawing.words:
        box = words.box(drawing.page.measure)
        assert box.left >= 0
        assert box.right <= drawing.page.width
        assert box.bottom >= 0
    boxes = [words.box(drawing.page.measure) for words in drawing.words]
    assert not any(
        one.left < other.right
        and other.left < one.right
        and one.bottom < other.top
        and other.bottom < one.top
        for number, one in enumerate(boxes)
        for other in boxes[:number]
    )


def test_outside_a_window_with_a_glossary_a_label_is_a_label(qtbot: QtBot) -> None:
    label = PlainLabel("drift")
    qtbot.addWidget(label)
    label.show()
    qtbot.mouseClick(label, Qt.MouseButton.LeftButton)
    assert label.toolTip() == ""


def test_the_word_that_the_keyboard_stands_at_comes_first(
    make_shell: Callable[..., Shell], state: AppState, opened: list[GlossaryDialog], qtbot: QtBot
) -> None:
    shell = make_shell(state, view=0)
    editor = next(
        line for line in shell.findChildren(QLineEdit) if line.accessibleName().startswith("Obstruction")
    )
    editor.setFocus()
    QTest.keyClick(editor, Qt.Key.Key_F2)
    assert opened[0].term is not None
    assert opened[0].term.name == "obstruction"


def test_in_a_dialog_the_key_tells_the_dialog_s_own_words(
    make_shell: Callable[..., Shell], state: AppState, opened: list[GlossaryDialog], qtbot: QtBot
) -> None:
    shell = make_shell(state)
    dialog = TextDialog("Soft", "Why it may look soft", "", parent=shell, note="Collimation")
    dialog.open()
    qtbot.waitUntil(dialog.isActiveWindow)
    QTest.keyClick(dialog, Qt.Key.Key_F2)
    dialog.close()
    assert opened[0].term is not None
    assert opened[0].term.name == "collimation"
    assert opened[0].parentWidget() is dialog


@pytest.mark.parametrize("palette", PALETTES)
def test_click_and_key_open_it_in_every_palette(
    make_shell: Callable[..., Shell],
    state: AppState,
    opened: list[GlossaryDialog],
    qtbot: QtBot,
    palette: str,
) -> None:
    state.set_palette(palette)
    shell = make_shell(state, view=2)
    label = next(
        each for each in shell.findChildren(PlainLabel) if each.isVisible() and terms_in(each.text())
    )
    qtbot.mouseClick(label, Qt.MouseButton.LeftButton)
    QTest.keyClick(shell, Qt.Key.Key_F2)
    assert len(opened) == 2


def place_of(canvas: Canvas, words: str) -> QPoint:
    """Return where words stand in a drawing."""
    canvas.ensure_drawn()
    drawing = canvas.shown
    assert drawing is not None
    found = next(each for each in drawing.words if words in each.text)
    return QPointF(*canvas.from_page(*found.box(drawing.page.measure).middle)).toPoint()


def test_a_drawn_word_explains_itself_to_the_pointer(
    make_shell: Callable[..., Shell], state: AppState, opened: list[GlossaryDialog], qtbot: QtBot
) -> None:
    shell = make_shell(state, view=2)
    view = shell.current_view
    assert isinstance(view, LadderView)
    place = place_of(view.canvas, "ceiling")
    before = state.situation.rung

    QApplication.sendEvent(
        view.canvas, QHelpEvent(QEvent.Type.ToolTip, place, view.canvas.mapToGlobal(place))
    )
    assert QToolTip.text().startswith("ceiling: ")
    QToolTip.hideText()
    qtbot.mouseClick(view.canvas, Qt.MouseButton.LeftButton, pos=place)
    assert opened[0].term is not None
    assert opened[0].term.name == "ceiling"
    assert state.situation.rung == before


def test_where_a_click_does_something_it_opens_no_glossary(
    make_shell: Callable[..., Shell], state: AppState, opened: list[GlossaryDialog], qtbot: QtBot
) -> None:
    shell = make_shell(state, view=1)
    view = shell.current_view
    assert isinstance(view, HeightView)
    place = place_of(view.canvas, "best air")
    qtbot.mouseClick(view.canvas, Qt.MouseButton.LeftButton, pos=place)
    assert opened == []
    assert not state.situation.following_now  # the chart took the moment
    place = place_of(view.canvas, "Air path")
    qtbot.mouseClick(view.canvas, Qt.MouseButton.LeftButton, pos=place)
    assert opened[0].term is not None
    assert opened[0].term.name == "air path"
