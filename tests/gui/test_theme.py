"""Palettes: at night every pixel that the program draws is red on black, from the first frame on."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QDate, QEvent, QPoint, Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QFileDialog,
    QGroupBox,
    QLabel,
    QLineEdit,
    QListWidget,
    QMenu,
    QMessageBox,
    QProgressBar,
    QPushButton,
    QRadioButton,
    QSlider,
    QSpinBox,
    QTableWidget,
    QTabWidget,
    QToolTip,
    QWidget,
)
from pytestqt.qtbot import QtBot

from core.drawing.palette import PALETTES, load_palette
from gui.state import AppState
from gui.widgets.all_windows import all_windows
from gui.widgets.dialogs import TextDialog, _file_dialog
from gui.widgets.pickers import DatePicker
from gui.widgets.red_filter import RedFilter
from gui.widgets.theme import Theme, widget_palette
from gui.window.shell import Shell
from tests.gui.conftest import pixels


def assert_red_on_black(widget: QWidget) -> None:
    seen = pixels(widget)
    assert seen[..., 1:].max() == 0, f"{type(widget).__name__} has green or blue"
    assert seen[..., 0].max() > 100, f"{type(widget).__name__} shows nothing"
    assert seen[..., 0].max() <= 190, f"{type(widget).__name__} is brighter than eyes used to the dark bear"


@pytest.fixture
def night(theme: Theme) -> Theme:
    theme.wear("night")
    return theme


def widgets() -> Iterator[QWidget]:
    """Make one of every kind of widget that the window or a dialog of Qt's may hold."""
    check = QCheckBox("check")
    check.setChecked(True)
    yield check
    radio = QRadioButton("radio")
    radio.setChecked(True)
    yield radio
    button = QPushButton("push")
    button.setDefault(True)
    yield button
    combo = QComboBox()
    combo.addItems(["one", "two"])
    yield combo
    line = QLineEdit("text")
    line.selectAll()
    yield line
    yield QLineEdit("text with a cursor")
    yield QSpinBox()
    yield DatePicker("Evening")
    tabs = QTabWidget()
    tabs.addTab(QPushButton("x"), "one")
    tabs.addTab(QPushButton("y"), "two")
    yield tabs
    table = QTableWidget(30, 3)
    table.setCurrentCell(1, 1)
    yield table
    rows = QListWidget()
    rows.addItems([f"row {number}" for number in range(50)])
    rows.setCurrentRow(1)
    yield rows
    group = QGroupBox("group")
    group.setCheckable(True)
    yield group
    slider = QSlider(Qt.Orientation.Horizontal)
    slider.setValue(30)
    yield slider
    bar = QProgressBar()
    bar.setValue(30)
    yield bar
    box = QMessageBox(QMessageBox.Icon.Warning, "title", "A message", QMessageBox.StandardButton.Save)
    yield box
    yield TextDialog("Title", "A heading", "Some text\nto scroll", ("&Save", "Cancel"))


def test_every_kind_of_widget_is_red_on_black_at_night(qtbot: QtBot, night: Theme) -> None:
    for widget in widgets():
        qtbot.addWidget(widget)
        widget.show()
        widget.setFocus()
        QApplication.processEvents()
        assert_red_on_black(widget)


def test_the_whole_window_is_red_on_black_at_night_from_its_first_frame(
    make_shell: Callable[..., Shell], state: AppState
) -> None:
    state.set_palette("night")
    frames = []
    shell = make_shell(state)
    frames.append(pixels(shell))
    for view in range(3):
        shell.show_view(view)
        frames.append(pixels(shell))
    shell.answer_bar.why.click()
    state.tell("A message at the foot of the window.")
    frames.append(pixels(shell))
    for frame in frames:
        assert frame[..., 1:].max() == 0
        assert frame[..., 0].max() > 100


def test_menus_popups_and_tooltips_are_red_on_black_at_night(
    qtbot: QtBot, make_shell: Callable[..., Shell], state: AppState
) -> None:
    state.set_palette("night")
    shell = make_shell(state)
    for action in shell.menuBar().actions():
        menu = action.menu()
        assert isinstance(menu, QMenu)
        menu.popup(QPoint(0, 0))
        assert_red_on_black(menu)
        menu.close()

    shell.strip.planet.showPopup()
    assert_red_on_black(shell.strip.planet.view().window())
    shell.strip.planet.hidePopup()

    calendar = shell.strip.date.calendarWidget()
    calendar.show()
    assert_red_on_black(calendar.window())
    calendar.hide()

    QToolTip.showText(QPoint(50, 50), "Ctrl+2", shell)
    (tip,) = (w for w in all_windows() if w.inherits("QTipLabel") and w.isVisible())
    assert_red_on_black(tip)
    QToolTip.hideText()


def test_the_file_dialog_is_red_on_black_at_night(qtbot: QtBot, night: Theme, tmp_path: object) -> None:
    dialog = _file_dialog(None, "Open", None)
    qtbot.addWidget(dialog)
    assert dialog.testOption(QFileDialog.Option.DontUseNativeDialog)
    dialog.show()
    QApplication.processEvents()
    assert_red_on_black(dialog)


def test_going_back_to_day_takes_the_red_glass_away(
    make_shell: Callable[..., Shell], state: AppState, qtbot: QtBot
) -> None:
    shell = make_shell(state)
    for _ in range(20):
        QApplication.processEvents()
    before = pixels(shell)
    state.set_palette("night")
    assert pixels(shell)[..., 1:].max() == 0
    state.set_palette("day")
    # A layout comes to rest in a few rounds.
    qtbot.waitUntil(lambda: bool(np.mean(pixels(shell) == before) > 0.99))


def test_a_part_measured_before_it_has_a_window_keeps_no_glass(qtbot: QtBot, night: Theme) -> None:
    part = QLabel("Saturn")
    part.ensurePolished()
    assert part.findChildren(RedFilter)
    window = QWidget()
    qtbot.addWidget(window)

    part.setParent(window)
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)

    assert not part.findChildren(RedFilter)


def test_a_window_opened_later_is_red_too(qtbot: QtBot, night: Theme) -> None:
    late = QDialog()
    late.setStyleSheet("background: white")  # a part that the palette does not reach
    qtbot.addWidget(late)
    late.show()
    assert pixels(late)[..., 1:].max() == 0

    part = QLabel("a part that comes later still", late)
    part.resize(late.size())
    part.show()
    assert pixels(late)[..., 1:].max() == 0


@pytest.mark.parametrize("name", PALETTES)
def test_icons_are_drawn_in_the_palette_s_own_ink(name: str) -> None:
    from importlib import resources

    palette = load_palette(name)
    folder = resources.files("resources")
    assert palette.ink in folder.joinpath(f"chevron_{name}.svg").read_text("utf-8")
    assert palette.accent_ink in folder.joinpath(f"check_{name}.svg").read_text("utf-8")


def test_disabled_words_wait_in_faint_ink() -> None:
    palette = load_palette("dusk")
    shown = widget_palette(palette).color(QPalette.ColorGroup.Disabled, QPalette.ColorRole.ButtonText)
    assert shown == QColor(palette.faint_ink)


def test_text_grows_on_request(theme: Theme, qapp: QApplication) -> None:
    theme.wear("day", 1.0)
    usual = qapp.font().pointSizeF()
    theme.wear("day", 1.5)
    assert qapp.font().pointSizeF() == pytest.approx(1.5 * usual)


def test_letters_are_shown_where_the_system_has_no_font(tmp_path: Path) -> None:
    fonts = tmp_path / "fonts.conf"
    fonts.write_text(f"<fontconfig><cachedir>{tmp_path}</cachedir></fontconfig>", "utf-8")
    code = (
        "from PySide6.QtGui import QFontInfo; from PySide6.QtWidgets import QApplication; "
        "from gui.widgets.theme import Theme; app = QApplication([]); Theme.of(app).wear('day'); "
        "print(QFontInfo(app.font()).family())"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "FONTCONFIG_FILE": str(fonts)},
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=True,
    )
    assert ended.stdout.strip() == "DejaVu Sans"


def test_the_keyboard_opens_and_leaves_the_calendar(qtbot: QtBot, theme: Theme) -> None:
    picker = DatePicker("Evening")
    qtbot.addWidget(picker)
    picker.show_date(date(2026, 12, 5))
    picked: list[date] = []
    picker.picked.connect(picked.append)
    picker.show()
    picker.setFocus()
    QTest.keyClick(picker, Qt.Key.Key_Up)
    assert picked
    assert picker.date() != QDate(2026, 12, 5)


def test_each_step_of_the_dimmer_takes_light_away_and_is_kept(
    make_shell: Callable[..., Shell], state: AppState, theme: Theme
) -> None:
    state.set_palette("night")
    shell = make_shell(state)
    brightest = []
    for _ in range(4):
        brightest.append(int(pixels(shell)[..., 0].max()))
        QTest.keyClick(shell, Qt.Key.Key_F9, Qt.KeyboardModifier.ControlModifier)

    assert brightest == sorted(brightest, reverse=True)
    assert brightest[0] <= 190
    assert brightest[3] < 75
    assert state.situation.dimmer == 3
    dialog = TextDialog("Title", "Heading", "Text", parent=shell)
    dialog.show()
    assert pixels(dialog)[..., 0].max() < 75
    dialog.close()
    QTest.keyClick(shell, Qt.Key.Key_F9, Qt.KeyboardModifier.ShiftModifier)
    assert state.situation.dimmer == 2
    theme.dim(0)
