"""Python's search for objects in circles that nothing uses, kept short.

A full search walks through all that lives, some 100,000 objects with every view open, and holds up whatever
beat it falls into by 60 ms. What a view is made of stays as long as the window, so it need not be walked
through again.
"""

import gc

from PySide6.QtCore import QTimer

from gui.window.shell import Shell

# When a view is seen and no longer waited for.
_SETTLED_MS = 1000


def keep_pauses_short(shell: Shell) -> None:
    """Leave what a view is made of out of later searches, a moment after it was made."""
    shell.view_made.connect(lambda: QTimer.singleShot(_SETTLED_MS, shell, set_apart))


def set_apart() -> None:
    """Search once more through all that lives, and leave out from later searches what is in use now."""
    gc.collect()
    gc.freeze()
