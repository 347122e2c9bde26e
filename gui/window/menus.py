"""The menus of the window and what they do."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from attrs import frozen
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from core.drawing.palette import PALETTES
from core.words.controls import PALETTE, PROFILE_IN_FOLDER, PROGRAM
from core.words.help_pages import KEYS
from gui.ampersands import with_ampersands
from gui.profile.documents import Documents
from gui.profile.examples import examples
from gui.profile.session import state_folder
from gui.state import AppState
from gui.versions import own_version
from gui.widgets import dialogs
from gui.widgets.key_names import with_own_keys
from gui.window.error_report import REPORT_NAME
from gui.window.help_texts import about_text

Key = QKeySequence.StandardKey


@frozen(kw_only=True)
class WindowDeeds:
    """What a window does beside its state and its documents."""

    guide: Callable[[], None]
    put_on_paper: Callable[[], None]
    go_to_view: Callable[[int], None]
    next_palette: Callable[[], None]
    toggle_full_screen: Callable[[], None]
    step_text: Callable[[int], None]
    go_to_eyepiece: Callable[[], None]
    step_dimmer: Callable[[int], None]
    explain: Callable[[], None]
    tour: Callable[[], None]


class Menus:
    """File, Edit, View and Help; built once, and kept in step with the state by ``refresh``."""

    def __init__(self, window: QMainWindow, state: AppState, documents: Documents, does: WindowDeeds) -> None:
        self._window = window
        self._state = state
        self._documents = documents
        self._does = does
        self.palettes: dict[str, QAction] = {}
        self.views: list[QAction] = []
        # What a dialog that is open does not stand in the way of.
        self.in_dialogs: list[QAction] = []
        self._build_file()
        self._build_edit()
        self._build_view()
        self._build_help()

    def _build_file(self) -> None:
        menu = self._menu("&File")
        documents = self._documents
        _add(menu, "&New profile", documents.new, Key.New)
        _add(menu, "Set &up a new observer …", self._does.guide)
        _add(menu, "&Open …", documents.open, Key.Open)
        self.recent = _submenu(menu, "Open &recent")
        self.recent.aboutToShow.connect(self._fill_recent)
        self.examples = _submenu(menu, "Open an &example")
        for name, shows in examples().items():
            _add(self.examples, with_ampersands(shows), partial(documents.open_example, name))
        menu.addSeparator()
        _add(menu, "&Save", documents.save, Key.Save)
        _add(menu, "Save &as …", documents.save_as, "Ctrl+Shift+S")
        _add(menu, "Save a &copy without the exact place …", documents.save_copy_without_place)
        menu.addSeparator()
        _add(menu, "&Print or save the evening …", self._does.put_on_paper, "Ctrl+P")
        menu.addSeparator()
        _add(menu, "&Quit", self._window.close, "Ctrl+Q")

    def _build_edit(self) -> None:
        menu = self._menu("&Edit")
        stack = self._state.undo_stack
        for action, keys in (
            (stack.createUndoAction(menu, "Undo"), ("Ctrl+Z",)),
            # Each system has one of the two as its own, and hands know either.
            (stack.createRedoAction(menu, "Redo"), ("Ctrl+Shift+Z", "Ctrl+Y")),
        ):
            action.setShortcuts([QKeySequence(key) for key in keys])
            menu.addAction(action)

    def _build_view(self) -> None:
        menu = self._menu("&View")
        for number, name in enumerate(("&Gear", "&Height", "&Ladder")):
            keys = (f"Ctrl+{number + 1}", f"F{number + 5}")
            action = _add(menu, name, partial(self._does.go_to_view, number), *keys)
            self.views.append(action)
        _add(menu, "At the e&yepiece", self._does.go_to_eyepiece, "Ctrl+E")
        menu.addSeparator()
        _add(menu, "Stay out half an hour long&er", partial(self._state.step_hours, 1), "Ctrl+.")
        _add(menu, "Stay out half an hour &shorter", partial(self._state.step_hours, -1), "Ctrl+,")
        menu.addSeparator()
        group = QActionGroup(menu)
        for name in PALETTES:
            action = _add(
                menu, PALETTE.format(name=name.capitalize()), partial(self._state.set_palette, name)
            )
            action.setCheckable(True)
            group.addAction(action)
            self.palettes[name] = action
        self.in_dialogs += [
            _add(menu, "Next &palette", self._does.next_palette, "F9"),
            # By name: on a desktop that Qt does not know the standard key is none at all.
            _add(menu, "&Full screen", self._does.toggle_full_screen, "F11"),
        ]
        menu.addSeparator()
        self.in_dialogs += [
            _add(menu, "Night palette di&mmer", partial(self._does.step_dimmer, 1), "Ctrl+F9"),
            _add(menu, "Night palette &brighter", partial(self._does.step_dimmer, -1), "Shift+F9"),
        ]
        menu.addSeparator()
        self.in_dialogs += [
            _add(menu, "Text &larger", partial(self._does.step_text, 1), "Ctrl++", "Ctrl+="),
            _add(menu, "Text &smaller", partial(self._does.step_text, -1), "Ctrl+-"),
            _add(menu, "&Reset text size", partial(self._does.step_text, 0), "Ctrl+0"),
        ]

    def _build_help(self) -> None:
        menu = self._menu("&Help")
        _add(menu, "&Keys", partial(self._show, "Keys", "What the keyboard does", with_own_keys(KEYS)), "F1")
        _add(menu, "A &tour of the first evening", self._does.tour)
        self.in_dialogs.append(_add(menu, "What the &words mean", self._does.explain, "F2"))
        _add(menu, "&About Stillair", self._show_about)

    def refresh(self) -> None:
        """Tick the palette in use."""
        self.palettes[self._state.situation.palette_name].setChecked(True)

    def _fill_recent(self) -> None:
        self.recent.clear()
        for name in self._documents.session.recent:
            path = Path(name)
            _add(
                self.recent,
                with_ampersands(PROFILE_IN_FOLDER.format(file=path.name, folder=path.parent)),
                partial(self._documents.open_path, path),
            )
        if not self._documents.session.recent:
            self.recent.addAction("None yet").setEnabled(False)

    def _menu(self, title: str) -> QMenu:
        menu = QMenu(title, self._window)
        self._window.menuBar().addMenu(menu)
        return menu

    def _show_about(self) -> None:
        report = state_folder() / REPORT_NAME
        heading = PROGRAM.format(version=own_version())
        self._show("About Stillair", heading, about_text(report))

    def _show(self, title: str, heading: str, text: str) -> None:
        dialogs.show_text(self._window, title, heading, text)


def _submenu(menu: QMenu, title: str) -> QMenu:
    made = QMenu(title, menu)
    menu.addMenu(made)
    return made


def _add(menu: QMenu, text: str, run: Callable[[], object], *keys: Key | str) -> QAction:
    action = QAction(text, menu)
    action.setShortcuts([QKeySequence(key) for key in keys])
    action.triggered.connect(lambda _checked=False: run())
    menu.addAction(action)
    return action
