"""Every view, page and dialog of the window, one after the other, looked at by ``fitting``.

``python -m tests.gui.every_surface [--pictures FOLDER] SETTING ...`` tells the faults of each, a line of JSON
a surface; a SETTING is "1000x640/1.5/night/usual": size, text, palette, font. The scale of the screen is what
``QT_SCALE_FACTOR`` says, which Qt reads when it starts.
"""

import argparse
import itertools
import json
import os
import sys
import tempfile
from collections import Counter
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import matplotlib as mpl
from attrs import frozen
from PySide6.QtCore import QEvent, QTimer, qInstallMessageHandler
from PySide6.QtGui import QFont, QFontDatabase
from PySide6.QtWidgets import QApplication, QWidget

from core.record.folders import DATA_VARIABLE
from core.record.log_entry import Verdict
from core.record.profile import read_profile
from core.situation.choices import Choices
from core.words.owned_kinds import Kind
from core.words.tour import TOUR
from gui.first_run.guide import Guide
from gui.gear.owned_list import OwnedRow
from gui.gear.view import GearView
from gui.height.view import DATES, EVENING, YEAR, HeightView
from gui.jobs import AtOnce, Jobs
from gui.ladder.climb_pane import LIMITS, LOOK_FOR
from gui.ladder.view import LadderView
from gui.profile.session import FOLDER_VARIABLE
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.theme import USUAL_POINTS, Theme
from gui.window.errors import log_qt_message
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import action
from tests.gui.fitting import faults, foreign_colours

SAMPLE = Path(__file__).resolve().parents[2] / "sample_profiles" / "balcony_greece.toml"
# Saturn stands high, the telescope has been outside for a while.
MOMENT = datetime(2026, 12, 5, 18, 30, tzinfo=UTC)
SIZES, TEXTS, SCALES = ((1000, 640), (1280, 800), (1600, 1000)), (1.0, 1.5, 2.0), (1.0, 1.5, 2.0)
PALETTES = ("day", "dusk", "night")
# What Matplotlib brings along, so that these are on every machine: letters as wide as any, and narrow ones.
FONTS = {"usual": "DejaVuSans", "wide": "DejaVuSansMono", "narrow": "STIXGeneral"}
_BOLD = {"usual": "DejaVuSans-Bold", "wide": "DejaVuSansMono-Bold", "narrow": "STIXGeneralBol"}

Look = Callable[[str, QWidget], None]


@frozen
class Setting:
    """How large the window and its letters are, in which colours and letters."""

    size: tuple[int, int]
    text: float
    palette: str
    font: str

    @classmethod
    def parse(cls, words: str) -> "Setting":
        """Return the setting that ``str`` of one gives."""
        size, text, palette, font = words.split("/")
        width, height = size.split("x")
        return cls((int(width), int(height)), float(text), palette, font)

    def __str__(self) -> str:
        return f"{self.size[0]}x{self.size[1]}/{self.text:g}/{self.palette}/{self.font}"


class Round:
    """Opens everything there is in one window; ``look`` is called with the name and the widget of each."""

    def __init__(self, shell: Shell, look: Look) -> None:
        self._shell = shell
        self._look_at = look

    def go(self) -> None:
        """Open everything once."""
        self._height()
        self._gear()
        self._ladder()
        self._dialogs()
        self._tour()
        self._guide()

    def _look(self, name: str, widget: QWidget | None = None) -> None:
        settle()
        self._look_at(name, widget or self._shell)

    def _in_dialog(
        self, name: str, ask: Callable[[], object], steps: Callable[[QWidget], None] | None = None
    ) -> None:
        """Look at the dialog that something opens, and close it."""

        def look() -> None:
            dialog = QApplication.activeModalWidget()
            assert dialog is not None, f"no dialog: {name}"
            try:
                self._look(name, dialog)
                if steps is not None:
                    steps(dialog)
            finally:
                dialog.hide()
                dialog.close()

        QTimer.singleShot(0, self._shell, look)
        ask()
        settle()

    def _height(self) -> None:
        shell = self._shell
        shell.go_to_view(HEIGHT)
        view = shell.current_view
        assert isinstance(view, HeightView)
        self._look("height")
        shell.answer_bar.why.setChecked(True)
        self._look("why")
        shell.answer_bar.why.setChecked(False)
        self._in_dialog("evening in words", view.in_words.click)
        self._in_dialog("how to find it", view.to_find.click)
        self._in_dialog("how it looks", view.all_looks.click)
        self._in_dialog("a step of one's own", view.steps.add.click)
        view.show_page(YEAR)
        self._look("year")
        view.show_page(DATES)
        self._look("dates")
        view.show_page(EVENING)
        shell.outside.start.click()
        self._look("outside")
        shell.outside.stop.click()
        shell.state.set_time(datetime(2026, 12, 6, 1, 0, tzinfo=UTC))
        self._look("another time")
        shell.state.show_tonight()

    def _gear(self) -> None:
        shell = self._shell
        shell.go_to_view(GEAR)
        view = shell.current_view
        assert isinstance(view, GearView)
        for kind in Kind:
            view.owned.chosen.emit(OwnedRow(kind, 0 if kind is not Kind.OBSERVER else None))
            self._look(f"gear, {kind.value}")
        for kind in Kind:
            if kind is not Kind.OBSERVER:
                view.add(kind)
                self._look(f"gear, new of {kind.value}")
        view.show_side_by_side(True)
        for number, button in enumerate(view.side_by_side.page_buttons.buttons()):
            button.click()
            self._look(f"side by side {number + 1}")
        view.show_side_by_side(False)

    def _ladder(self) -> None:
        shell = self._shell
        shell.go_to_view(LADDER)
        view = shell.current_view
        assert isinstance(view, LadderView)
        self._look("ladder")
        view.pane.page_buttons.button(LIMITS).click()
        self._look("limits")
        view.pane.page_buttons.button(LOOK_FOR).click()
        self._in_dialog("what the picture leaves out", view.eyepiece.limits.click)
        shell.state.set_rung(96.0)
        shell.state.set_rung(120.0)
        view.pane.verdicts.buttons[Verdict.MORE].click()
        self._look("ladder after a verdict")
        view.log_button.click()
        self._look("log")
        view.log_button.click()
        self._in_dialog("why soft", view.ask_why_soft)
        screen = view.go_to_eyepiece()
        self._look("at the eyepiece")
        screen.close()
        settle()

    def _dialogs(self) -> None:
        shell = self._shell
        self._in_dialog("temperatures", shell.outside.temperatures.click)
        self._in_dialog("glossary", shell.explain_what_is_seen)
        self._in_dialog("on paper", action(shell, "File", "Print or save").trigger)
        self._in_dialog("keys", action(shell, "Help", "Keys").trigger)
        self._in_dialog("about", action(shell, "Help", "About").trigger)
        self._in_dialog("unsaved", lambda: dialogs.ask_unsaved(shell, "Eleni"))
        self._in_dialog("changed", lambda: dialogs.ask_changed(shell, "balcony_greece.toml"))
        self._in_dialog("write over", lambda: dialogs.ask_write_over(shell, "balcony_greece.toml"))

    def _tour(self) -> None:
        for number, step in enumerate(TOUR):
            self._shell.tour.begin(number)
            self._look(f"tour, {step.heading}")
        self._shell.tour.hide()

    def _guide(self) -> None:
        guide = Guide(self._shell.state, self._shell)
        guide.open()
        self._look("guide, place", guide)
        guide.place.search.line.setText("athen")
        self._look("guide, towns", guide)
        guide.place.search.line.clear()
        for step in guide.steps[1:]:
            for _ in range(3):  # twice where something is missing: once to be told, once to pass
                guide.onward.click()
                settle()
                if step.isVisible():
                    break
            assert step.isVisible(), step.title
            self._look(f"guide, {step.title}", guide)
        guide.done(0)
        guide.deleteLater()
        settle()


def settle() -> None:
    """Let layouts find their rest, which takes a few rounds."""
    for _ in range(8):
        QApplication.processEvents()


def wear_font(app: QApplication, font: str, text: float) -> None:
    """Give the application one of ``FONTS``, as if the system had no other."""
    folder = Path(mpl.get_data_path()) / "fonts" / "ttf"
    families = [
        QFontDatabase.applicationFontFamilies(QFontDatabase.addApplicationFont(str(folder / f"{name}.ttf")))
        for name in (FONTS[font], _BOLD[font])
    ]
    wanted = QFont(families[0][0])
    # A theme that is worn already does not set it again.
    wanted.setPointSizeF(USUAL_POINTS * text)
    app.setFont(wanted)


def look_round(app: QApplication, setting: Setting, look: Look) -> None:
    """Open a window in a setting, and look at all that it has."""
    wear_font(app, setting.font, setting.text)
    choices = Choices(profile=read_profile(SAMPLE), palette_name=setting.palette, text_scale=setting.text)
    state = AppState(choices, path=SAMPLE, clock=lambda: MOMENT, jobs=Jobs(AtOnce()))
    state.prepare_sky()
    shell = Shell(state, Theme.of(app))
    shell.resize(*setting.size)
    shell.show()
    shell.activateWindow()
    settle()
    try:
        Round(shell, look).go()
    finally:
        shell.state.load(shell.state.profile, shell.state.path)
        shell.close()
        shell.deleteLater()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def every_pair() -> dict[float, list[Setting]]:
    """Return settings by scale in which any two levels of any two of the five choices meet at least once.

    All of them together would be 243 rounds. These are taken one by one, each the one with most new pairs,
    and among those one of the levels that have been used least.
    """
    levels: tuple[tuple[object, ...], ...] = (SIZES, TEXTS, PALETTES, tuple(FONTS), SCALES)
    every_row = list(itertools.product(*levels))

    def pairs(row: tuple[object, ...]) -> set[object]:
        return set(itertools.combinations(enumerate(row), 2))

    taken: list[tuple[object, ...]] = [(SIZES[0], TEXTS[-1], "night", "wide", 1.0)]  # the tightest of all
    wanted = set().union(*map(pairs, every_row)) - pairs(taken[0])
    while wanted:
        used = Counter(place for row in taken for place in enumerate(row))
        best = max(
            every_row,
            key=lambda row: (len(pairs(row) & wanted), -sum(used[place] for place in enumerate(row))),
        )
        taken.append(best)
        wanted -= pairs(best)
    by_scale: dict[float, list[Setting]] = {}
    for *setting, scale in taken:
        by_scale.setdefault(scale, []).append(Setting(*setting))  # type: ignore[arg-type]
    return by_scale


def main(words: list[str]) -> None:
    """Tell the faults of every surface in each setting."""
    parser = argparse.ArgumentParser()
    parser.add_argument("settings", nargs="+", type=Setting.parse)
    parser.add_argument("--pictures", type=Path)
    asked = parser.parse_args(words)
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    with tempfile.TemporaryDirectory() as folder:
        os.environ[DATA_VARIABLE] = os.environ[FOLDER_VARIABLE] = folder
        app = QApplication(sys.argv[:1])
        qInstallMessageHandler(log_qt_message)
        for setting in asked.settings:
            look_round(app, setting, _teller(setting, asked.pictures))


def _teller(setting: Setting, pictures: Path | None) -> Look:
    def look(name: str, widget: QWidget) -> None:
        found = [*faults(widget), *foreign_colours(widget, setting.palette)]
        told = {"setting": str(setting), "surface": name, "faults": found}
        sys.stdout.write(json.dumps(told, ensure_ascii=False) + "\n")
        sys.stdout.flush()
        if pictures is not None:
            folder = pictures / str(setting).replace("/", "_")
            folder.mkdir(parents=True, exist_ok=True)
            widget.grab().save(str(folder / f"{name.replace('/', ' ')}.png"))

    return look


if __name__ == "__main__":
    main(sys.argv[1:])
