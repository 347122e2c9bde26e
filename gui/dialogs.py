"""The dialogs of the window; each is one function, so that what asks can be given another answer."""

from collections.abc import Sequence
from enum import Enum, auto
from pathlib import Path

from PySide6.QtCore import QDir, Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QPlainTextEdit,
    QPushButton,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from gui.widgets.plain_label import PlainLabel

_FILES = "Stillair profiles (*.toml);;All files (*)"
# Letters in place of pictures, so that the buttons follow the palette.
_FILE_BUTTONS = {
    "backButton": "←",
    "forwardButton": "→",
    "toParentButton": "↑",
    "newFolderButton": "+",
    "listModeButton": "≡",
    "detailModeButton": "▤",
}


class Unsaved(Enum):
    """What to do with changes that are not in the file yet."""

    SAVE = auto()
    DISCARD = auto()
    CANCEL = auto()


class TextDialog(QDialog):
    """A heading, a text to scroll through, and a row of buttons."""

    def __init__(
        self,
        title: str,
        heading: str,
        text: str,
        buttons: Sequence[str] = ("Close",),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.heading = PlainLabel(heading, role="heading", wraps=True)
        self.text = QPlainTextEdit(text)
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setAccessibleName(heading)
        self.box = QDialogButtonBox()
        self.chosen = -1
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 18, 20, 16)
        column.setSpacing(12)
        column.addWidget(self.heading)
        if text:
            column.addWidget(self.text, 1)
        column.addWidget(self.box)
        for number, label in enumerate(buttons):
            self._add(number, label)
        self.resize(560, 340 if text else 0)

    def _add(self, number: int, label: str) -> None:
        button = QPushButton(label)
        button.setDefault(number == 0)
        self.box.addButton(button, QDialogButtonBox.ButtonRole.ActionRole)

        def choose() -> None:
            self.chosen = number
            self.accept()

        button.clicked.connect(choose)


def show_text(parent: QWidget | None, title: str, heading: str, text: str) -> None:
    """Show a text until it is closed."""
    TextDialog(title, heading, text, parent=parent).exec()


def ask_unsaved(parent: QWidget | None, name: str) -> Unsaved:
    """Ask what to do with the unsaved changes of a profile."""
    dialog = TextDialog(
        "Unsaved changes", f"Save the changes to {name}?", "", ("&Save", "&Discard", "Cancel"), parent
    )
    dialog.exec()
    answers = (Unsaved.SAVE, Unsaved.DISCARD, Unsaved.CANCEL)
    return answers[dialog.chosen] if dialog.chosen >= 0 else Unsaved.CANCEL


def ask_open(parent: QWidget | None, folder: Path | None) -> Path | None:
    """Ask for a profile to open."""
    dialog = _file_dialog(parent, "Open a profile", folder)
    dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
    return _chosen(dialog)


def ask_save(parent: QWidget | None, folder: Path | None, name: str) -> Path | None:
    """Ask where to save a profile; the dialog asks before it replaces a file."""
    dialog = _file_dialog(parent, "Save the profile", folder)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setDefaultSuffix("toml")
    dialog.selectFile(name)
    return _chosen(dialog)


def _file_dialog(parent: QWidget | None, title: str, folder: Path | None) -> QFileDialog:
    dialog = QFileDialog(parent, title, str(folder) if folder else QDir.homePath(), _FILES)
    dialog.setOption(QFileDialog.Option.DontUseNativeDialog)
    for name, sign in _FILE_BUTTONS.items():
        button = dialog.findChild(QToolButton, name, Qt.FindChildOption.FindChildrenRecursively)
        if isinstance(button, QToolButton):
            button.setIcon(QIcon())
            button.setText(sign)
    return dialog


def _chosen(dialog: QFileDialog) -> Path | None:
    if not dialog.exec():
        return None
    return Path(dialog.selectedFiles()[0])
