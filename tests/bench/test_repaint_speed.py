"""A change of date or site, or a dragged part of the horizon, shows on the height chart within 20 ms.

What is timed is all that lies between the change and the new picture, at 980 by 380 pixels: the night, the
items of its evening strip, the layout, and its painting into pixels. Nothing is at hand from before but
the positions of the bodies, which are read once for each 32 days.

Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

from collections.abc import Callable
from datetime import date, timedelta
from itertools import count

import pytest
from attrs import evolve
from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture

from core.drawing.height import draw_height
from core.drawing.palette import load_palette
from core.sky.bodies import Body
from core.sky.night import compute_night
from core.sky.site import BlockedSky, Site
from core.tonight.plan import plan_evening
from core.words.evening import titled
from gui.widgets.pen import ScreenPen, page_on
from tests.bench.timing import tell_aim
from tests.core.drawing.examples import PORTO, SIX_INCH
from tests.core.telling import targets_of

WIDTH_PX, HEIGHT_PX = 980, 380
AIM_S = 0.020
FIRST = date(2026, 12, 5)

pytestmark = [pytest.mark.benchmark(group="repaint of the height chart"), pytest.mark.usefixtures("qapp")]


def show(site: Site, evening: date) -> None:
    night = compute_night(site, evening)
    items = titled(plan_evening(night, SIX_INCH, targets=targets_of(night, Body.SATURN)))
    size = QSize(WIDTH_PX, HEIGHT_PX)
    page, picture = page_on(size, QApplication.font()), QPixmap(size)
    chart = draw_height(page, night, palette=load_palette("day"), planet=Body.SATURN, items=items)
    painter = QPainter(picture)
    ScreenPen(painter, chart.drawing).paint()
    painter.end()


def check(benchmark: BenchmarkFixture, change: Callable[[int], None]) -> None:
    """Time one change after another, no two of them alike."""
    numbers = count()
    benchmark.pedantic(lambda: change(next(numbers)), rounds=30, warmup_rounds=5)

    tell_aim(benchmark, AIM_S)


def test_another_date(benchmark: BenchmarkFixture) -> None:
    check(benchmark, lambda number: show(PORTO, FIRST + timedelta(days=number)))


def test_another_site(benchmark: BenchmarkFixture) -> None:
    check(benchmark, lambda number: show(evolve(PORTO, latitude_deg=30.0 + 0.7 * number), FIRST))


def test_a_dragged_roof(benchmark: BenchmarkFixture) -> None:
    def drag(number: int) -> None:
        (roof, *_) = PORTO.blocked
        moved: BlockedSky = evolve(
            roof, azimuth_from_deg=170.0 + number, below_altitude_deg=20.0 + 0.5 * number
        )
        show(evolve(PORTO, blocked=(moved,)), FIRST)

    check(benchmark, drag)
