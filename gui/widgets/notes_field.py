"""A field for a few lines of free text."""

from PySide6.QtCore import QEvent, QMimeData, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QPlainTextEdit, QSizePolicy, QWidget

from gui.widgets.field import Field, Reading
from gui.widgets.plain_line_edit import is_undo_or_redo


class NotesEdit(QPlainTextEdit):
    """A few lines of plain text; Tab goes on to the next field, undo belongs to the profile."""

    entered = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTabChangesFocus(True)
        self.setUndoRedoEnabled(False)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._set_height()

    def canInsertFromMimeData(self, source: QMimeData) -> bool:
        # A file dropped here is meant for the window.
        return not source.hasUrls() and super().canInsertFromMimeData(source)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self._set_height()

    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.ShortcutOverride and is_undo_or_redo(event):
            event.ignore()
            return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if is_undo_or_redo(event):
            event.ignore()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()

    def _set_height(self) -> None:
        self.setFixedHeight(self.fontMetrics().lineSpacing() * 3 + 16)


class NotesField(Field):
    """A few lines of free text."""

    def __init__(self, name: str, label: str, *, parent: QWidget | None = None) -> None:
        super().__init__(name, label, parent=parent)
        self._edit = NotesEdit(self)
        self._edit.setAccessibleName(label)
        self._row.addWidget(self._edit)
        self.setFocusProxy(self._edit)
        self._edit.textChanged.connect(self.edited)
        self._edit.entered.connect(self.entered)

    @property
    def editor(self) -> QPlainTextEdit:
        return self._edit

    @property
    def reading(self) -> Reading[str]:
        return Reading(self._edit.toPlainText())

    @property
    def entry(self) -> str | None:
        return self._edit.toPlainText() or None

    def restore(self, text: str) -> None:
        self.sync(text)

    def sync(self, value: object) -> None:
        if value != self._edit.toPlainText():
            with QSignalBlocker(self._edit):
                self._edit.setPlainText(str(value))
        self.say("")

    def reset(self) -> None:
        self.sync("")
