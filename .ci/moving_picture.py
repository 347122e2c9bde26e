"""Make the README's moving picture: an evening of a sample, from the chart to a verdict of less detail.

``python .ci/moving_picture.py FILE.webp``; the same call gives the same pictures. The window is the real one,
without a display, and is worked as a person does: keys on the ladder, buttons of the verdicts.
"""

import os
import sys
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path

from PIL import Image
from PySide6.QtCore import QBuffer, Qt, qInstallMessageHandler
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.record.folders import DATA_VARIABLE
from core.record.log_entry import Verdict
from core.record.profile import read_profile
from core.situation.choices import Choices
from core.sky.bodies import Body
from gui.jobs import AtOnce, Jobs
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.widgets.theme import Theme
from gui.window.errors import log_qt_message
from gui.window.shell import Shell
from gui.window.views import HEIGHT, LADDER

ROOT = Path(__file__).resolve().parents[1]
SAMPLE = ROOT / "sample_profiles" / "balcony_greece.toml"
SIZE = (1000, 640)
START = datetime(2026, 12, 5, 16, 30, tzinfo=UTC)
TO_THE_EYEPIECE = timedelta(hours=2, minutes=30)
CHART_STEP, BETWEEN = timedelta(minutes=10), timedelta(minutes=6)
BRIEF_MS, READ_MS, LONG_MS = 120, 1_800, 3_000
CLIMB = (Verdict.MORE, Verdict.LESS)

Frame = tuple[Image.Image, int]


class Evening:
    """The window in one evening, whose clock goes on when it is told to."""

    def __init__(self, app: QApplication) -> None:
        self._app = app
        self._now = START
        choices = Choices(profile=read_profile(SAMPLE), planet=Body.SATURN)
        self.state = AppState(choices, clock=lambda: self._now, jobs=Jobs(AtOnce()))
        self.state.prepare_sky()
        self.shell = Shell(self.state, Theme.of(app))
        self.shell.setAttribute(Qt.WidgetAttribute.WA_DontShowOnScreen)
        self.shell.resize(*SIZE)
        self.shell.show()

    def wait(self, time: timedelta) -> None:
        """Let some time go by."""
        self._now += time
        self.state.beat()

    def frame(self, shown_ms: int) -> Frame:
        """Return what the window shows now, and for how long it is to stay."""
        for _ in range(3):
            self._app.processEvents()
        buffer = QBuffer()
        self.shell.grab().save(buffer, "PNG")
        return Image.open(BytesIO(buffer.data().data())).convert("RGB"), shown_ms

    def lived(self) -> Iterator[Frame]:
        """Yield the pictures of the evening in their order."""
        self.shell.show_view(HEIGHT)
        yield self.frame(READ_MS)
        for _ in range(TO_THE_EYEPIECE // CHART_STEP):
            self.wait(CHART_STEP)
            yield self.frame(BRIEF_MS)
        self.shell.show_view(LADDER)
        view = self.shell.current_view
        assert isinstance(view, LadderView)
        QTest.keyClick(view.canvas, Qt.Key.Key_Home)
        yield self.frame(READ_MS)
        for verdict in CLIMB:
            QTest.keyClick(view.canvas, Qt.Key.Key_Up)
            self.wait(BETWEEN)
            yield self.frame(READ_MS)
            view.pane.verdicts.buttons[verdict].click()
            yield self.frame(READ_MS)
        QTest.keyClick(view.canvas, Qt.Key.Key_Down)
        yield self.frame(LONG_MS)
        self.state.set_palette("night")
        view.go_to_eyepiece()
        yield self.frame(LONG_MS)


def main(path: Path) -> None:
    """Write the moving picture."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    with tempfile.TemporaryDirectory() as folder:
        os.environ[DATA_VARIABLE] = folder
        # What Qt has to say about a display that is none is nobody's concern.
        qInstallMessageHandler(log_qt_message)
        evening = Evening(QApplication(sys.argv[:1]))
        pictures, times_ms = zip(*evening.lived(), strict=True)
        evening.shell.leave_at_once()
    first, *others = pictures
    first.save(
        path,
        save_all=True,
        append_images=others,
        duration=times_ms,
        loop=0,
        quality=60,
        method=6,
        minimize_size=True,
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]))
