"""Every view in every size: no words cut off or over each other, nothing outside."""

import json
import os
import subprocess
import sys
from collections import defaultdict
from collections.abc import Callable
from pathlib import Path

import attrs
import pytest
from PySide6.QtWidgets import QApplication, QStyle, QStyleOptionComboBox

from core.record.observer import Preferences
from gui.gear.view import GearView
from gui.height.view import DATES, YEAR, HeightView
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.widgets.pickers import Picker
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import make_profile
from tests.gui.every_surface import SCALES, every_pair
from tests.gui.fitting import faults

_ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
@pytest.mark.parametrize("size", [(1000, 640), (1280, 800), (1600, 1000)])
def test_every_view_fits(
    make_shell: Callable[..., Shell],
    state: AppState,
    view: int,
    size: tuple[int, int],
    scale: float,
) -> None:
    state.set_text_scale(scale)
    shell = make_shell(state, view=view, size=size)
    for _ in range(3):  # a layout settles in a few rounds
        QApplication.processEvents()

    assert list(faults(shell)) == []


@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("page", ["side by side", "year", "dates", "log"])
def test_pages_behind_the_views_fit(
    make_shell: Callable[..., Shell], state: AppState, page: str, scale: float
) -> None:
    state.set_text_scale(scale)
    view = {"side by side": GEAR, "log": LADDER}.get(page, HEIGHT)
    shell = make_shell(state, view=view, size=(1000, 640))
    shown = shell.current_view
    if isinstance(shown, GearView):
        shown.show_side_by_side(True)
    elif isinstance(shown, HeightView):
        shown.show_page(YEAR if page == "year" else DATES)
    elif isinstance(shown, LadderView):
        shown.log_button.click()
    for _ in range(5):
        QApplication.processEvents()

    assert list(faults(shell)) == []


@pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("size", [(1000, 640), (1280, 800)])
def test_the_height_chart_keeps_its_half(
    make_shell: Callable[..., Shell], state: AppState, size: tuple[int, int], scale: float
) -> None:
    state.set_text_scale(scale)
    shell = make_shell(state, size=size)
    for _ in range(3):
        QApplication.processEvents()
    view = shell.current_view
    assert isinstance(view, HeightView)
    view.canvas.ensure_drawn()
    chart = view.canvas.chart
    assert chart is not None

    assert view.canvas.height() >= view.height() / 2
    # The curves have room of their own, whatever hours and strip take: more than three lines of letters.
    top, bottom = (view.canvas.from_page(0, y)[1] for y in (chart.plot_box.top, chart.plot_box.bottom))
    assert bottom - top >= 3.5 * view.fontMetrics().lineSpacing()


def test_hours_of_a_twelve_hour_clock_are_seen_whole(
    make_shell: Callable[..., Shell], make_state: Callable[..., AppState]
) -> None:
    profile = attrs.evolve(make_profile(), preferences=Preferences(clock=12, out_until="23:30"))
    shell = make_shell(make_state(profile), size=(1000, 640))
    for picker in (shell.hours.start, shell.hours.end):
        room = picker.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox,
            _option_of(picker),
            QStyle.SubControl.SC_ComboBoxEditField,
            picker,
        )
        assert picker.fontMetrics().horizontalAdvance(picker.currentText()) <= room.width() - 2


@pytest.mark.long
@pytest.mark.timeout(1200)
@pytest.mark.parametrize("scale", SCALES)
def test_every_surface_fits_with_every_pair_of_settings(scale: float) -> None:
    """All views, pages and dialogs, with other fonts and scales too: about half a minute a scale, alone."""
    # Qt takes the scale of the screen when it starts, so that each has a process of its own.
    environment = {**os.environ, "QT_SCALE_FACTOR": str(scale), "QT_QPA_PLATFORM": "offscreen"}
    words = [sys.executable, "-m", "tests.gui.every_surface", *map(str, every_pair()[scale])]
    done = subprocess.run(words, cwd=_ROOT, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr

    told = [json.loads(line) for line in done.stdout.splitlines()]
    found = {(each["setting"], each["surface"]): each["faults"] for each in told if each["faults"]}
    assert found == {}
    opened = defaultdict(list)
    for each in told:
        opened[each["setting"]].append(each["surface"])
    assert list(opened) == [str(setting) for setting in every_pair()[scale]]
    for surfaces in opened.values():
        assert len(surfaces) == len(set(surfaces)) == 48


def _option_of(picker: Picker) -> QStyleOptionComboBox:
    option = QStyleOptionComboBox()
    picker.initStyleOption(option)
    return option
