"""A window whose clock, sky and memory are in the test's hands."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QEvent, QTimer
from PySide6.QtGui import QAction, QImage
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.record.observer import Preferences, Profile
from core.record.profile import save_profile
from core.situation.choices import Choices
from core.sky.bodies import Body
from core.sky.site import BlockedSky, Site
from gui.height.year_panel import YearPanel
from gui.jobs import AtOnce, Jobs
from gui.ladder.view import LadderView
from gui.profile.session import FOLDER_VARIABLE, SessionFile
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.theme import Theme
from gui.window.shell import Shell
from tests.gui.gear_hand import GearHand
from tests.gui.showing import show

_LONGEST_DIALOG_MS = 30_000

# Saturn stands 44 degrees high in the south-west at this moment; Jupiter rises an hour later.
EVENING_START = datetime(2026, 12, 5, 21, 42, tzinfo=UTC)
TONIGHT = EVENING_START.date()

TERRACE = Site(
    name="Back terrace",
    latitude_deg=41.15,
    longitude_deg=-8.61,
    elevation_m=90,
    time_zone="Europe/Lisbon",
    blocked=(BlockedSky(azimuth_from_deg=190, azimuth_to_deg=260, below_altitude_deg=28, what="roof ridge"),),
)
HILL = Site(name="Southern hill", latitude_deg=-41.3, longitude_deg=174.8, time_zone="Pacific/Auckland")
SIX_INCH = Telescope(name="Six-inch", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200)
SMALL = Telescope(name="Small refractor", kind=TelescopeKind.REFRACTOR, aperture_mm=80, focal_length_mm=600)

MakeState = Callable[..., AppState]
MakeShell = Callable[..., Shell]
MakeLadderView = Callable[..., LadderView]
MakeYearPanel = Callable[[AppState], YearPanel]


class HandClock:
    """A clock that moves only when it is told to."""

    def __init__(self, now: datetime = EVENING_START) -> None:
        self.now = now

    def __call__(self) -> datetime:
        return self.now

    def move(self, by: timedelta) -> None:
        self.now += by


def make_profile() -> Profile:
    """Return an invented observer with two sites and two telescopes, outside from dusk to dawn."""
    return Profile(
        observer="Ines",
        preferences=Preferences(out_until="dawn"),
        sites=(TERRACE, HILL),
        telescopes=(SIX_INCH, SMALL),
        eyepieces=tuple(
            Eyepiece(name=f"{focal} mm", focal_length_mm=focal, apparent_field_deg=52)
            for focal in (25, 10, 8)
        ),
        barlows=(Barlow(name="2x", factor=2),),
    )


def pixels(picture: QWidget | QImage) -> NDArray[np.uint8]:
    """Return a widget's or an image's pixels as red, green, blue (rows, columns, 3)."""
    image = picture if isinstance(picture, QImage) else picture.grab().toImage()
    image = image.convertToFormat(QImage.Format.Format_RGB888)
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.bytesPerLine())
    return rows[:, : image.width() * 3].reshape(image.height(), image.width(), 3).copy()


def action(shell: Shell, menu_title: str, words: str) -> QAction:
    """Return the entry of a menu that begins with some words, mnemonics aside."""
    for menu_action in shell.menuBar().actions():
        menu = menu_action.menu()
        if menu_action.text().replace("&", "") == menu_title and menu is not None:
            for entry in menu.actions():  # type: ignore[attr-defined]  # menu() is told as an object
                if entry.text().replace("&", "").startswith(words):
                    assert isinstance(entry, QAction)
                    return entry
    raise AssertionError(f"no {words} under {menu_title}")


@pytest.fixture(autouse=True)
def state_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep every session and log away from the home of whoever runs the tests."""
    folder = tmp_path / "state"
    monkeypatch.setenv(FOLDER_VARIABLE, str(folder))
    return folder


@pytest.fixture(autouse=True)
def no_dialog_left_open(qapp: QApplication) -> Iterator[None]:
    """Fail a test whose dialog was never answered: in Qt's own loop no other time limit is heard."""
    guard = QTimer()
    guard.setSingleShot(True)
    guard.setInterval(_LONGEST_DIALOG_MS)
    guard.timeout.connect(_close_dialogs)
    guard.start()
    yield
    guard.stop()


def _close_dialogs() -> None:
    left = QApplication.activeModalWidget()
    while (dialog := QApplication.activeModalWidget()) is not None:
        dialog.close()
        dialog.hide()
    assert left is None, f"nobody answered the dialog {left.windowTitle()!r}"


@pytest.fixture
def theme(qapp: QApplication) -> Iterator[Theme]:
    theme = Theme.of(qapp)
    theme.wear("day")
    yield theme
    theme.wear("day")


@pytest.fixture
def clock() -> HandClock:
    return HandClock()


@pytest.fixture
def make_state(qapp: QApplication, clock: HandClock) -> Callable[..., AppState]:
    """Return a maker of states whose jobs run at once and whose sky is read already."""

    def make(profile: Profile | None = None, *, sky: bool = True, path: Path | None = None) -> AppState:
        state = AppState(
            Choices(profile=make_profile() if profile is None else profile),
            path=path,
            clock=clock,
            jobs=Jobs(AtOnce()),
        )
        if sky:
            state.prepare_sky()
        return state

    return make


@pytest.fixture
def state(make_state: Callable[..., AppState]) -> AppState:
    return make_state()


@pytest.fixture
def make_shell(qtbot: QtBot, theme: Theme, state_folder: Path) -> Iterator[Callable[..., Shell]]:
    """Return a maker of windows on the screen; each is closed without a question at the end."""
    shells: list[Shell] = []

    def make(
        state: AppState, *, view: int = 1, size: tuple[int, int] = (1280, 800), shown: bool = True
    ) -> Shell:
        shell = Shell(state, theme, session_file=SessionFile(state_folder), view=view)
        shells.append(shell)
        shell.resize(*size)
        if shown:
            shell.show()
            qtbot.waitExposed(shell)
            qtbot.waitUntil(lambda: shell.current_view is not None)
            if QApplication.platformName() == "offscreen":
                # Shortcuts are heard in the active window only; a screen without a manager never makes one.
                shell.activateWindow()
                qtbot.waitUntil(shell.isActiveWindow)
        return shell

    yield make
    for shell in shells:
        shell.state.load(shell.state.profile, shell.state.path)
        shell.close()
        shell.deleteLater()
    # A window left over would be dressed again by every later test.
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def shell(make_shell: Callable[..., Shell], state: AppState) -> Shell:
    return make_shell(state)


@pytest.fixture
def unseen_shell(make_shell: Callable[..., Shell], state: AppState) -> Shell:
    """Return a window that has not been shown, for what needs no picture."""
    return make_shell(state, shown=False)


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, str]]:
    """Collect heading and text of every dialog that would stand in the way."""
    shown: list[tuple[str, str]] = []
    monkeypatch.setattr(
        dialogs, "show_text", lambda _parent, _title, heading, text: shown.append((heading, text))
    )
    return shown


@pytest.fixture
def profile_file(tmp_path: Path) -> Path:
    path = tmp_path / "ines.toml"
    save_profile(path, make_profile())
    return path


@pytest.fixture
def hand(qtbot: QtBot, theme: Theme, state: AppState) -> Iterator[GearHand]:
    """Work a gear view that is on the screen."""
    hand = GearHand(qtbot, state)
    yield hand
    hand.close()


@pytest.fixture
def make_ladder_view(qtbot: QtBot, theme: Theme) -> MakeLadderView:
    """Return a maker of ladder views on the screen."""

    def make(state: AppState, *, size: tuple[int, int] = (1000, 520)) -> LadderView:
        view = LadderView(state)
        show(qtbot, view, size=size)
        return view

    return make


@pytest.fixture
def ladder_view(make_ladder_view: MakeLadderView, state: AppState) -> LadderView:
    """Return Jupiter's ladder, painted."""
    state.set_planet(Body.JUPITER)
    view = make_ladder_view(state)
    view.canvas.ensure_drawn()
    return view


@pytest.fixture
def make_year_panel(qtbot: QtBot, theme: Theme) -> MakeYearPanel:
    """Return a maker of year outlooks on the screen, painted."""

    def make(state: AppState) -> YearPanel:
        panel = YearPanel(state)
        show(qtbot, panel, size=(980, 520))
        panel.canvas.ensure_drawn()
        return panel

    return make


@pytest.fixture
def year_panel(make_year_panel: MakeYearPanel, state: AppState) -> YearPanel:
    """Return Saturn's year outlook."""
    state.set_planet(Body.SATURN)
    return make_year_panel(state)
