"""What every test needs before anything else is imported."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

import matplotlib as mpl
import pytest
from hypothesis import settings

from core.record.folders import DATA_VARIABLE
from core.record.log import Log

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication

# Tests draw without a screen unless a real one is asked for; this must be set before Qt loads.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# Widths of texts are the same on every machine with the font that Matplotlib brings along.
_FONTS = Path(mpl.get_data_path()) / "fonts" / "ttf"

# How long an example takes says more about what else the machine does than about the code.
# The examples are the same in every run, so that a commit passes everywhere or nowhere; new ones are looked
# for with --hypothesis-profile=search.
settings.register_profile("stillair", deadline=None, derandomize=True)
settings.register_profile("search", deadline=None, derandomize=False)
settings.load_profile("stillair")


@pytest.fixture(scope="session")
def qapp(qapp: "QApplication") -> "QApplication":
    """Give the application one known font, whatever this machine has."""
    from PySide6.QtGui import QFont, QFontDatabase

    for name in ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf", "DejaVuSans-Oblique.ttf"):
        added = QFontDatabase.addApplicationFont(str(_FONTS / name))
        assert QFontDatabase.applicationFontFamilies(added) == ["DejaVu Sans"]
    qapp.setFont(QFont("DejaVu Sans"))
    return qapp


@pytest.fixture(autouse=True)
def own_data_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep every log away from the home of whoever runs the tests."""
    folder = tmp_path / "data"
    monkeypatch.setenv(DATA_VARIABLE, str(folder))
    return folder


@pytest.fixture(autouse=True)
def closed_logs(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Close every log that a test leaves open: Python 3.13 and newer warn of one that is not."""
    opened: list[Log] = []
    open_log = Log.open

    def open_and_note(folder: Path) -> Log:
        opened.append(open_log(folder))
        return opened[-1]

    monkeypatch.setattr(Log, "open", open_and_note)
    yield
    for log in opened:
        with suppress(sqlite3.ProgrammingError):  # opened on a thread that has ended
            log.close()
