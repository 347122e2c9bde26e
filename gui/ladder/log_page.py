"""The log in the window: lines to search, to edit and to take out, a note to write, files out and in."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Final

import attrs
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QAbstractItemView,
    QBoxLayout,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from core.export.log import log_csv, log_json
from core.export.parts import to_json
from core.problems import ProblemsError
from core.record.files import write_atomically
from core.record.log_entry import LogEntry
from core.record.log_file import read_log_file
from core.situation.situation import Situation
from core.words.files import LOG_SAVED
from core.words.log import entry_clock, imported_text, line_text, no_lines_text
from gui.ladder.experience_pane import ExperiencePane
from gui.profile.log_book import LogBook
from gui.state import AppState, Change
from gui.widgets import dialogs
from gui.widgets.all_lines import AllLines
from gui.widgets.folding_row import FoldingRow
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit

_ENTRY: Final = Qt.ItemDataRole.UserRole
# So many of the newest lines are shown; older ones are found by searching.
_SHOWN: Final = 300
# From so many letters across on both columns stand side by side; so many lines of the log are seen at least.
_ROW_LETTERS: Final = 90
_LEAST_LINES: Final = 5
_COUNTED: Final = 5000


class LogPage(AllLines):
    """Lines of the log, newest first, and what the site has given so far beside them."""

    def __init__(self, state: AppState, log_book: LogBook) -> None:
        super().__init__()
        self._state = state
        self._log_book = log_book
        self.search = PlainLineEdit()
        self.search.setPlaceholderText("Search the log")
        self.search.setAccessibleName("Search the log")
        self.list = QListWidget()
        self.list.setAccessibleName("Lines of the log, newest first")
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.empty = PlainLabel(role="small", wraps=True)
        self.note = PlainLineEdit()
        self.note.setPlaceholderText("Write a line of your own")
        self.note.setAccessibleName("A note for the log")
        self.write = QPushButton("Write")
        self.edit = QPushButton("E&dit the note")
        self.remove = QPushButton("Remove the li&ne")
        self.save = QPushButton("Save a cop&y…")
        self.take_in = QPushButton("Import &a file…")
        self.experience = ExperiencePane(state)
        self._edited: LogEntry | None = None
        self._lay_out()
        self._connect()
        InRoom(self, self._arrange)
        self.refresh()

    def refresh(self) -> None:
        """Show the log as it is now."""
        if not self.isVisible() and self.list.count():
            return
        entries = self._log_book.entries(search=self.search.text(), newest=_SHOWN)
        kept = self._chosen()
        self.list.clear()
        for entry in reversed(entries):
            item = QListWidgetItem(self._text_of(entry))
            item.setData(_ENTRY, entry)
            self.list.addItem(item)
            if kept is not None and entry.id == kept.id:
                self.list.setCurrentItem(item)
        self.empty.setText("" if entries else no_lines_text(searched=bool(self.search.text().strip())))
        self.empty.setVisible(not entries)
        self.experience.show_entries(self._log_book.entries(newest=_COUNTED))
        self._show_buttons()

    def showEvent(self, event: object) -> None:
        super().showEvent(event)  # type: ignore[arg-type]  # Qt hands over a show event
        self.refresh()

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.setSpacing(6)
        left.addWidget(self.search)
        left.addWidget(self.empty)
        left.addWidget(self.list, 1)
        writing = QHBoxLayout()
        writing.addWidget(self.note, 1)
        writing.addWidget(self.write)
        left.addLayout(writing)
        buttons = QWidget()
        folding = FoldingRow(buttons, spacing=6)
        for button in (self.edit, self.remove, self.save, self.take_in):
            folding.addWidget(button)
        left.addWidget(buttons)
        self._columns = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._columns.setContentsMargins(0, 0, 0, 0)
        self._columns.setSpacing(14)
        self._columns.addLayout(left, 3)
        self._columns.addWidget(self.experience, 2)

    def _arrange(self) -> None:
        """Set the lines beside what they have given, or over it where letters are large."""
        metrics, directions = self.fontMetrics(), QBoxLayout.Direction
        is_row = self.width() >= _ROW_LETTERS * metrics.averageCharWidth()
        self._columns.setDirection(directions.LeftToRight if is_row else directions.TopToBottom)
        self.list.setMinimumHeight(_LEAST_LINES * metrics.lineSpacing())

    def _connect(self) -> None:
        self.search.textChanged.connect(self.refresh)
        self.note.returnPressed.connect(self._write)
        self.write.clicked.connect(self._write)
        self.edit.clicked.connect(self._begin_edit)
        self.list.itemActivated.connect(self._begin_edit)
        self.remove.clicked.connect(self._remove)
        self.save.clicked.connect(self._save)
        self.take_in.clicked.connect(self._take_in)
        self.list.currentRowChanged.connect(self._show_buttons)
        delete = QShortcut(QKeySequence(Qt.Key.Key_Delete), self.list)
        delete.setContext(Qt.ShortcutContext.WidgetShortcut)
        delete.activated.connect(self._remove)
        self._log_book.changed.connect(self.refresh)
        self._state.changed.connect(self._on_changed)

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.preferences):
            self.refresh()

    def _chosen(self) -> LogEntry | None:
        chosen = self.list.selectedItems()
        entry = chosen[0].data(_ENTRY) if chosen else None
        return entry if isinstance(entry, LogEntry) else None

    def _show_buttons(self) -> None:
        for button in (self.edit, self.remove):
            button.setEnabled(self._chosen() is not None)
        self.save.setEnabled(self.list.count() > 0)

    def _text_of(self, entry: LogEntry) -> str:
        return line_text(entry, entry_clock(entry, hours=self._state.profile.preferences.clock))

    def _write(self) -> None:
        text, edited = self.note.text(), self._edited
        if edited is not None:
            if text.strip() or edited.verdict is not None:
                self._log_book.edit(edited, attrs.evolve(edited, note=text.strip()))
            self._end_edit()
        elif text.strip():
            self._log_book.note(text.strip())
            self.note.clear()

    def _begin_edit(self) -> None:
        self._edited = self._chosen()
        if self._edited is not None:
            self.note.setText(" ".join(self._edited.note.splitlines()))
            self.write.setText("Put it there")
            self.note.setFocus()

    def _end_edit(self) -> None:
        self._edited = None
        self.note.clear()
        self.write.setText("Write")

    def _remove(self) -> None:
        entry = self._chosen()
        if entry is not None:
            self._log_book.remove(entry)

    def _save(self) -> None:
        path = dialogs.ask_save_log(self.window(), Path.home())
        if path is None:
            return
        entries = self._log_book.entries()
        is_csv = path.suffix.lower() == ".csv"
        text = log_csv(entries) if is_csv else to_json(log_json(entries))
        self._told(partial(write_atomically, path, text), LOG_SAVED.format(file=path.name))

    def _take_in(self) -> None:
        path = dialogs.ask_open_log(self.window(), Path.home())
        if path is None:
            return
        try:
            count = self._log_book.take_in(read_log_file(path))
        except ProblemsError as error:
            self._state.tell(str(error).splitlines()[0])
            return
        self._state.tell(imported_text(count))

    def _told(self, act: Callable[[], object], done: str) -> None:
        try:
            act()
        except ProblemsError as error:
            self._state.tell(str(error))
        else:
            self._state.tell(done)
