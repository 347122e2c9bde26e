"""Every surface that the program can show: pages of the window, dialogs, and what pops up."""

import importlib
import pkgutil
from collections.abc import Callable, Iterator

from PySide6.QtCore import QPoint
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QDateEdit,
    QDialog,
    QFileDialog,
    QLineEdit,
    QMenu,
    QMessageBox,
    QPlainTextEdit,
    QPushButton,
    QToolTip,
    QWidget,
)

import gui
from core.situation.situation import Situation
from core.tonight.soft_view import KnownOfView
from core.words.owned_kinds import Kind
from core.words.site_clock import clock_of
from gui.first_run.guide import Guide
from gui.gear.owned_edits import things_of
from gui.gear.owned_list import OwnedRow
from gui.gear.view import GearView
from gui.height.step_dialog import StepDialog
from gui.height.view import DATES, EVENING, YEAR, HeightView
from gui.ladder.soft_view import SoftViewDialog
from gui.ladder.view import LadderView
from gui.widgets.all_windows import all_windows
from gui.widgets.dialogs import TextDialog, _file_dialog
from gui.widgets.looks_dialog import LooksDialog
from gui.window.evening_on_paper import EveningOnPaper
from gui.window.glossary import GlossaryDialog
from gui.window.shell import Shell
from gui.window.temperatures_dialog import TemperaturesDialog
from gui.window.views import GEAR, HEIGHT, LADDER

Surface = tuple[str, QWidget]


def settle() -> None:
    """Let a layout come to rest, which takes a few rounds."""
    for _ in range(3):
        QApplication.processEvents()


def surfaces(shell: Shell) -> Iterator[Surface]:
    """Yield each surface with its name while it is shown."""
    yield from pages(shell)
    yield from dialogs(shell)
    yield from popups(shell)


def pages(shell: Shell) -> Iterator[Surface]:
    """Yield the window on each of its pages."""
    shell.show_view(GEAR)
    gear = shell.current_view
    assert isinstance(gear, GearView)
    for kind in Kind:
        index = 0 if things_of(shell.state.profile, kind) else None
        gear._open(OwnedRow(kind, index))
        settle()
        yield f"gear, {kind.heading}", shell
        gear._open(OwnedRow(kind))
        settle()
        yield f"gear, group of {kind.heading}", shell
    gear.show_side_by_side(True)
    settle()
    yield "two telescopes side by side", shell
    gear.show_side_by_side(False)
    shell.show_view(HEIGHT)
    height = shell.current_view
    assert isinstance(height, HeightView)
    for page in (EVENING, YEAR, DATES):
        height.show_page(page)
        settle()
        yield f"height, page {page}", shell
    height.show_page(EVENING)
    shell.answer_bar.why.setChecked(True)
    shell.state.tell("A message that floats over the page.")
    settle()
    yield "reasons and a message", shell
    shell.answer_bar.why.setChecked(False)
    shell.message_line.forget()
    shell.outside.start.click()
    shell.tour.begin()
    settle()
    yield "telescope outside, and the tour", shell
    shell.tour.hide()
    shell.show_view(LADDER)
    ladder = shell.current_view
    assert isinstance(ladder, LadderView)
    settle()
    yield "ladder", shell
    ladder.log_button.setChecked(True)
    settle()
    yield "log", shell
    ladder.log_button.setChecked(False)
    screen = ladder.go_to_eyepiece()
    settle()
    yield "at the eyepiece", shell
    screen.leave()


def dialogs(shell: Shell) -> Iterator[Surface]:
    """Yield every dialog, the guide on each of its steps, and Qt's own that are in use."""
    for name, make in makers(shell).items():
        dialog = make()
        dialog.show()
        settle()
        yield name, dialog
        if isinstance(dialog, Guide):
            for number in range(1, len(dialog.steps)):
                dialog._show(number)
                settle()
                yield f"{name}, step {number + 1}", dialog
        dialog.done(0)
        dialog.deleteLater()


def makers(shell: Shell) -> dict[str, Callable[[], QDialog]]:
    """Return what makes each dialog."""
    state, situation = shell.state, shell.state.situation
    known = KnownOfView(kind=situation.scope.kind, altitude_deg=50) if situation.scope else None
    assert known is not None
    return {
        "question": lambda: TextDialog("Unsaved changes", "Save?", "", ("&Save", "Cancel"), shell),
        "text": lambda: TextDialog("Keys", "What the keyboard does", "Some text\n" * 60, parent=shell),
        "glossary": lambda: GlossaryDialog((), situation.palette_name, shell),
        "temperatures": lambda: TemperaturesDialog(state, shell),
        "evening on paper": lambda: EveningOnPaper(state, shell),
        "why soft": lambda: SoftViewDialog(known, shell),
        "looks": lambda: _looks(shell, situation),
        "step": lambda: _step(shell, situation),
        "file to open": lambda: _file_dialog(shell, "Open a profile", None),
        "file to save": lambda: _saving(shell),
        "printer": lambda: _PrinterChoice(shell),
        "question of Qt's own": lambda: _question(shell),
        "guide": lambda: Guide(state, shell),
    }


def popups(shell: Shell) -> Iterator[Surface]:
    """Yield menus, lists of pickers, calendars, menus of text fields and a tooltip."""
    for action in shell.menuBar().actions():
        menu = action.menu()
        assert isinstance(menu, QMenu)
        yield from _menus(menu)
    for view in (GEAR, HEIGHT, LADDER):
        shell.show_view(view)
        settle()
        yield from _popups_of(shell)
    QToolTip.showText(shell.mapToGlobal(QPoint(50, 50)), "Ctrl+2", shell)
    settle()
    (tip,) = (w for w in all_windows() if w.inherits("QTipLabel") and w.isVisible())
    yield "tooltip", tip
    QToolTip.hideText()


def own_dialogs() -> set[type[QDialog]]:
    """Return every class of dialog that the program defines."""
    for module in pkgutil.walk_packages(gui.__path__, "gui."):
        importlib.import_module(module.name)
    # A class that others are made of is no dialog itself.
    return {
        each for each in _made_of(QDialog) if each.__module__.startswith("gui.") and not each.__subclasses__()
    }


def _made_of(kind: type[QDialog]) -> Iterator[type[QDialog]]:
    for each in kind.__subclasses__():
        yield each
        yield from _made_of(each)


def _menus(menu: QMenu) -> Iterator[Surface]:
    menu.popup(QPoint(0, 0))
    settle()
    yield f"menu {menu.title()}", menu
    menu.close()
    for entry in menu.actions():
        below = entry.menu()
        if isinstance(below, QMenu):
            yield from _menus(below)


def _popups_of(shell: Shell) -> Iterator[Surface]:
    for picker in shell.findChildren(QComboBox):
        # One that is scrolled away drops no list.
        if not picker.visibleRegion().isEmpty() and picker.isEnabled() and picker.count():
            picker.showPopup()
            settle()
            yield f"list of {picker.accessibleName()}", picker.view().window()
            picker.hidePopup()
    for date in shell.findChildren(QDateEdit):
        calendar = date.calendarWidget()
        if date.isVisible() and calendar is not None:
            calendar.show()
            settle()
            yield f"calendar of {date.accessibleName()}", calendar.window()
            calendar.hide()
    for line in shell.findChildren(QLineEdit) + shell.findChildren(QPlainTextEdit):
        if line.isVisible():
            yield from _menus(line.createStandardContextMenu())
    for button in shell.findChildren(QPushButton):
        menu = button.menu()
        if button.isVisible() and isinstance(menu, QMenu):
            yield from _menus(menu)


def _looks(shell: Shell, situation: Situation) -> LooksDialog:
    appearance, clock = situation.best_appearance, clock_of(situation)
    assert appearance is not None
    assert clock is not None
    return LooksDialog(shell.state, appearance, clock, shell)


def _step(shell: Shell, situation: Situation) -> StepDialog:
    night = situation.night
    assert night is not None
    clock = clock_of(situation)
    assert clock is not None
    return StepDialog(night, clock, "A step of your own", situation.time, text="", parent=shell)


def _saving(shell: Shell) -> QFileDialog:
    dialog = _file_dialog(shell, "Save the profile", None)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    return dialog


class _PrinterChoice(QPrintDialog):
    """Qt's own dialog with its printer, which it does not keep."""

    def __init__(self, shell: Shell) -> None:
        self.kept = QPrinter()
        super().__init__(self.kept, shell)


def _question(shell: Shell) -> QMessageBox:
    buttons = QMessageBox.StandardButton.Yes | QMessageBox.StandardButton.No
    return QMessageBox(QMessageBox.Icon.Warning, "Save", "Replace kit.toml?", buttons, shell)
