"""Pictures of the window as it really is, taken without a display."""

import os
import sys
from datetime import date, datetime
from pathlib import Path

from attrs import evolve
from PySide6.QtCore import QEvent, Qt, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

from core.problems import refuse
from core.record.observer import Profile
from core.record.profile import read_profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.words.commands import CANNOT_BE_MADE
from gui.clock import utc_now
from gui.gear.view import GearView
from gui.jobs import AtOnce, Jobs
from gui.state import AppState
from gui.widgets.theme import Theme
from gui.window.errors import log_qt_message
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER

_VIEW_FILES = {GEAR: "gear.png", HEIGHT: "height.png", LADDER: "ladder.png"}
_TWO_SCOPES_FILE = "side_by_side.png"


def take_snapshots(
    profile_path: Path,
    *,
    evening: date | None = None,
    at: datetime | None = None,
    palette: str = "day",
    size: tuple[int, int] = (1000, 640),
    scale: float = 1.0,
    folder: Path,
) -> list[Path]:
    """Write a picture of each view, and of two scopes side by side when there are two; return their paths.

    ``size`` is in the window's own pixels, ``scale`` how many of the picture go to one of them. The clock
    stands still at ``at``, or else in the evening's best moment, so that the same call gives the same
    pictures. Raises ProblemsError when the profile or the folder cannot be had.
    """
    profile = read_profile(profile_path)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise refuse(CANNOT_BE_MADE.format(error=error.strerror), where=str(folder)) from None
    # What Qt has to say about a display that is none goes to the log.
    before = qInstallMessageHandler(log_qt_message)
    app = _application(scale)
    shell = _shell_at(app, profile, profile_path, evening, at, palette)
    try:
        shell.setAttribute(Qt.WidgetAttribute.WA_DontShowOnScreen)
        shell.resize(*size)
        shell.show()
        paths = [_take(app, shell, number, folder / name) for number, name in _VIEW_FILES.items()]
        if len(profile.telescopes) > 1:
            paths.append(_take(app, shell, GEAR, folder / _TWO_SCOPES_FILE, side_by_side=True))
        return paths
    finally:
        shell.close()
        shell.deleteLater()
        app.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        qInstallMessageHandler(before)


def _application(scale: float) -> QApplication:
    """Return the application, which takes its scale only when it is made."""
    running = QApplication.instance()
    if isinstance(running, QApplication):
        return running
    os.environ["QT_SCALE_FACTOR"] = f"{scale:g}"
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    return QApplication(sys.argv[:1])


def _shell_at(
    app: QApplication,
    profile: Profile,
    path: Path,
    evening: date | None,
    at: datetime | None,
    palette: str,
) -> Shell:
    """Return the window with its clock standing still."""
    choices = Choices(profile=profile, palette_name=palette)
    moment = at or _best_moment(choices, evening)
    state = AppState(choices, path=path, clock=lambda: moment, jobs=Jobs(AtOnce()))
    state.prepare_sky()
    if evening is not None:
        state.set_evening(evening)
    return Shell(state, Theme.of(app))


def _best_moment(choices: Choices, evening: date | None) -> datetime:
    """Return the best moment of an evening, of tonight without one."""
    tonight = Situation(choices, utc_now())
    return Situation(evolve(choices, evening=evening or tonight.evening), utc_now()).time


def _take(app: QApplication, shell: Shell, view: int, path: Path, *, side_by_side: bool = False) -> Path:
    shell.show_view(view)
    gear = shell.current_view
    if isinstance(gear, GearView):
        gear.show_side_by_side(side_by_side)
    focus = shell.focusWidget()
    if focus is not None:
        # A blinking cursor or a frame of focus would make no two pictures alike.
        focus.clearFocus()
    for _ in range(3):
        app.processEvents()
    if not shell.grab().save(str(path)):
        raise refuse("cannot be written", where=str(path))
    return path
