"""The dialogs of the window; each is one function, so that what asks can be given another answer."""

from collections.abc import Mapping, Sequence
from enum import Enum, auto
from pathlib import Path

from PySide6.QtCore import QDir, QSize, QStandardPaths, Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFileDialog,
    QPlainTextEdit,
    QPushButton,
    QSplitter,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from core.words.files import (
    ASK_SAVE,
    ASK_VERSION,
    ASK_VERSION_NOTE,
    ASK_WRITE_OVER,
    ASK_WRITE_OVER_NOTE,
    FILE_HAS_CHANGED,
)
from gui.widgets.plain_label import PlainLabel
from gui.widgets.sized_dialog import SizedDialog

_PROFILES = {"Stillair profiles (*.toml)": "toml", "All files (*)": "toml"}
_LOGS_TO_READ = {"Log (*.json)": "json", "All files (*)": "json"}
_LOGS = {"Log to import elsewhere (*.json)": "json", "Table for a spreadsheet (*.csv)": "csv"}
_PICTURES = {"Picture (*.png)": "png", "Page to print (*.pdf)": "pdf", "Drawing (*.svg)": "svg"}
_SHEETS = {
    "Pages to print (*.pdf)": "pdf",
    "Picture (*.png)": "png",
    "Calendar (*.ics)": "ics",
    "Table for a spreadsheet (*.csv)": "csv",
}
_CHOOSER = QSize(780, 480)
_FOLDERS_PX = 170
_LETTERS, _LINES = 75, 22
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


class Version(Enum):
    """Which of two versions of a profile to keep."""

    MINE = auto()
    THEIRS = auto()


class TextDialog(SizedDialog):
    """A heading, a note of a sentence or two, a text to scroll through, and a row of buttons."""

    def __init__(
        self,
        title: str,
        heading: str,
        text: str,
        buttons: Sequence[str] = ("Close",),
        parent: QWidget | None = None,
        *,
        note: str = "",
    ) -> None:
        super().__init__(parent, letters=_LETTERS, lines=_LINES if text else 0)
        self.setWindowTitle(title)
        self.heading = PlainLabel(heading, role="heading", wraps=True)
        self.note = PlainLabel(note, wraps=True)
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
        if note:
            column.addWidget(self.note)
        if text:
            column.addWidget(self.text, 1)
        column.addWidget(self.box)
        for number, label in enumerate(buttons):
            self._add(number, label)

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
        "Unsaved changes", ASK_SAVE.format(profile=name), "", ("&Save", "&Discard", "Cancel"), parent
    )
    dialog.exec()
    answers = (Unsaved.SAVE, Unsaved.DISCARD, Unsaved.CANCEL)
    return answers[dialog.chosen] if dialog.chosen >= 0 else Unsaved.CANCEL


def ask_changed(parent: QWidget | None, name: str) -> Version:
    """Ask which version to keep of a file that another program changed under unsaved edits."""
    dialog = TextDialog(
        FILE_HAS_CHANGED,
        ASK_VERSION.format(file=name),
        "",
        ("Keep &mine", "Take the &file's version"),
        parent,
        note=ASK_VERSION_NOTE,
    )
    dialog.exec()
    return Version.THEIRS if dialog.chosen == 1 else Version.MINE


def ask_write_over(parent: QWidget | None, name: str) -> Version | None:
    """Ask before saving over a file that another program changed meanwhile; None for neither."""
    dialog = TextDialog(
        FILE_HAS_CHANGED,
        ASK_WRITE_OVER.format(file=name),
        "",
        ("Save &mine over it", "Take the &file's version", "Cancel"),
        parent,
        note=ASK_WRITE_OVER_NOTE,
    )
    dialog.exec()
    return {0: Version.MINE, 1: Version.THEIRS}.get(dialog.chosen)


def ask_open(parent: QWidget | None, folder: Path | None) -> Path | None:
    """Ask for a profile to open."""
    return _ask_to_open(parent, "Open a profile", folder, _PROFILES)


def ask_open_log(parent: QWidget | None, folder: Path | None) -> Path | None:
    """Ask for a log to take in."""
    return _ask_to_open(parent, "Import a log", folder, _LOGS_TO_READ)


def ask_save(parent: QWidget | None, folder: Path | None, name: str) -> Path | None:
    """Ask where to save a profile; the dialog asks before it replaces a file."""
    return _ask_to_save(parent, "Save the profile", folder, _PROFILES, name)


def ask_picture(parent: QWidget | None, folder: Path | None, name: str) -> Path | None:
    """Ask where to save a picture, as PNG, PDF or SVG; the dialog asks before it replaces a file."""
    return _ask_to_save(parent, "Save the picture", folder, _PICTURES, name)


def ask_sheet(parent: QWidget | None, folder: Path | None, name: str) -> Path | None:
    """Ask where to save an evening, as page, picture, calendar or table; asks before it replaces a file."""
    return _ask_to_save(parent, "Save the evening", folder, _SHEETS, name)


def ask_save_log(parent: QWidget | None, folder: Path | None) -> Path | None:
    """Ask where to save a copy of the log, as JSON or CSV; the dialog asks before it replaces a file."""
    return _ask_to_save(parent, "Save a copy of the log", folder, _LOGS, "observing_log.json")


def _ask_to_open(
    parent: QWidget | None, title: str, folder: Path | None, kinds: Mapping[str, str]
) -> Path | None:
    dialog = _file_dialog(parent, title, folder, kinds)
    dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
    return _chosen(dialog)


def _ask_to_save(
    parent: QWidget | None, title: str, folder: Path | None, kinds: Mapping[str, str], name: str
) -> Path | None:
    """Ask for a file of one of some kinds, each with the ending that a name without one gets."""
    dialog = _file_dialog(parent, title, folder, kinds)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setDefaultSuffix(next(iter(kinds.values())))
    dialog.filterSelected.connect(lambda kind: dialog.setDefaultSuffix(kinds[kind]))
    dialog.selectFile(name)
    return _chosen(dialog)


def _file_dialog(
    parent: QWidget | None, title: str, folder: Path | None, kinds: Mapping[str, str] = _PROFILES
) -> QFileDialog:
    dialog = QFileDialog(parent, title, str(folder) if folder else _usual_folder(), ";;".join(kinds))
    dialog.setOption(QFileDialog.Option.DontUseNativeDialog)
    dialog.resize(_CHOOSER)
    folders = dialog.findChild(QSplitter)
    if isinstance(folders, QSplitter):
        # Else the names of the folders beside the list are cut to their first letter.
        folders.setSizes([_FOLDERS_PX, _CHOOSER.width()])
    for name, sign in _FILE_BUTTONS.items():
        button = dialog.findChild(QToolButton, name, Qt.FindChildOption.FindChildrenRecursively)
        if isinstance(button, QToolButton):
            button.setIcon(QIcon())
            button.setText(sign)
    return dialog


def _usual_folder() -> str:
    """Return the folder of a person's documents, where the system has one."""
    folder = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    return folder if QDir(folder).exists() else QDir.homePath()


def _chosen(dialog: QFileDialog) -> Path | None:
    if not dialog.exec():
        return None
    return Path(dialog.selectedFiles()[0])
