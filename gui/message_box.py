"""A message for a person who started the program without a terminal, whatever of Qt can be had."""

import shutil
import subprocess
import sys

from core.plain_text import printable
from gui.display import NoWindowError, check_window

_TITLE = "Stillair"
# Programs of Linux desktops that show a text in a box, each with what comes before the text.
_LINUX_BOXES = (
    ("zenity", "--error", "--no-markup", "--title", _TITLE, "--text"),
    ("kdialog", "--title", _TITLE, "--error"),
    ("notify-send", _TITLE),
    ("xmessage", "-center"),
)


def show_message(sentence: str) -> None:
    """Show a sentence in a box and wait until it is closed: Qt's own, else the system's."""
    text = printable(sentence)
    try:
        check_window()
    except NoWindowError:
        _show_with_system(text)
    else:
        _show_with_qt(text)


def _show_with_qt(text: str) -> None:
    from PySide6.QtCore import Qt
    from PySide6.QtWidgets import QApplication, QMessageBox

    app = QApplication.instance() or QApplication([_TITLE])
    box = QMessageBox(QMessageBox.Icon.Warning, _TITLE, text)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.exec()
    del app


def _show_with_system(text: str) -> None:
    if sys.platform == "win32":
        import ctypes

        ctypes.windll.user32.MessageBoxW(None, text, _TITLE, 0x30)  # the sign of a warning
        return
    if sys.platform == "darwin":
        # The text goes as an argument, so that nothing of it is read as a script.
        script = 'on run words\ndisplay dialog (item 1 of words) buttons {"OK"} with icon caution\nend run'
        subprocess.run(["osascript", "-e", script, text], check=False)
        return
    for program, *words in _LINUX_BOXES:
        if found := shutil.which(program):
            subprocess.run([found, *words, text], check=False)
            return
