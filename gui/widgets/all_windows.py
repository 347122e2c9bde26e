"""Every window of the program, those that Qt makes for itself included."""

import gc

from PySide6.QtWidgets import QApplication, QWidget


def all_windows() -> list[QWidget]:
    """Return all widgets that lie in no other.

    Python does not search for rubbish meanwhile: a window that it cleared away then would be in the list
    already, and the program would end with it.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        return QApplication.topLevelWidgets()
    finally:
        if was_on:
            gc.enable()
