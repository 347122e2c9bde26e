"""Python's search for objects in circles that nothing uses, kept short.

A full search walks through all that lives, some 100,000 objects with every view open, and holds up whatever
beat it falls into by 60 ms. What a view is made of stays as long as the window, so it need not be walked
through again.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QTimer

from gui.window.shell import Shell
from gui.window.spare_memory import give_back

# When a view is seen and no longer waited for.
_SETTLED_MS = 1000
# By itself Python would wait for the next search until tens of thousands of objects have come together.
_BETWEEN_SEARCHES_MS = 15 * 60 * 1000


@contextmanager
def short_pauses(shell: Shell) -> Iterator[None]:
    """Leave what a view is made of out of searches, from a moment after it was made until the block ends."""
    shell.view_made.connect(lambda: QTimer.singleShot(_SETTLED_MS, shell, set_apart))
    between = QTimer(shell)
    between.timeout.connect(search)
    between.start(_BETWEEN_SEARCHES_MS)
    try:
        yield
    finally:
        between.stop()
        # What is set apart would not be cleared away when the program ends, a lock among it.
        gc.unfreeze()


def set_apart() -> None:
    """Search once more through all that lives, and leave out from later searches what is in use now."""
    search()
    gc.freeze()


def search() -> None:
    """Let go of what nothing uses any more: a few milliseconds once the views are set apart."""
    gc.collect()
    give_back()
