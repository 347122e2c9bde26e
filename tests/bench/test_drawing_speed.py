"""Layout and painting of each drawing, at 900 by 500 pixels: medians are told, and held to the time given.

Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

from collections.abc import Callable
from datetime import UTC, date, datetime

import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture

from core.drawing.eyepiece import draw_eyepiece
from core.drawing.height import draw_height
from core.drawing.ladder import draw_ladder
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.drawing.side_by_side import draw_two_ladders
from core.drawing.year_chart import draw_year
from core.ladder.compare import compare
from core.looks.picture.eyepiece import compute_pictures
from core.looks.picture.sight import Sight
from core.looks.picture.subject import subject_at
from core.sky.bodies import Body
from core.tonight.plan import plan_evening
from core.words.evening import titled
from core.year.year import compute_year
from gui.widgets.pen import ScreenPen, page_on
from tests.bench.timing import tell_aim
from tests.core.drawing.examples import MANY, PORTO, SIX_INCH, TWELVE_INCH, ladder, night_at
from tests.core.telling import targets_of

DAY = load_palette("day")
SIZE = QSize(900, 500)

pytestmark = pytest.mark.usefixtures("qapp")


def check(benchmark: BenchmarkFixture, aim_s: float, draw: Callable[[Page], Drawing]) -> None:
    """Time a drawing from its facts to its pixels."""

    def show() -> None:
        picture = QPixmap(SIZE)
        painter = QPainter(picture)
        ScreenPen(painter, draw(page_on(SIZE, QApplication.font()))).paint()
        painter.end()

    benchmark.pedantic(show, rounds=30, warmup_rounds=5)

    tell_aim(benchmark, aim_s)


def test_the_height_chart(benchmark: BenchmarkFixture) -> None:
    night = night_at(PORTO, date(2026, 12, 5))
    items = titled(plan_evening(night, SIX_INCH, targets=targets_of(night, Body.SATURN)))
    check(
        benchmark,
        0.015,
        lambda page: draw_height(page, night, palette=DAY, planet=Body.SATURN, items=items).drawing,
    )


def test_the_ladder_of_a_large_kit(benchmark: BenchmarkFixture) -> None:
    large = ladder(TWELVE_INCH, MANY)
    check(
        benchmark,
        0.010,
        lambda page: draw_ladder(page, large, palette=DAY, chosen_power=120.0).drawing,
    )


def test_two_ladders(benchmark: BenchmarkFixture) -> None:
    both = compare(ladder(), ladder(TWELVE_INCH, MANY))
    check(benchmark, 0.015, lambda page: draw_two_ladders(page, both, palette=DAY).drawing)


def test_a_year(benchmark: BenchmarkFixture) -> None:
    year = compute_year(PORTO, Body.SATURN, date(2026, 12, 1))
    check(benchmark, 0.015, lambda page: draw_year(page, year, palette=DAY, chosen=date(2027, 2, 3)).drawing)


def test_the_pictures_in_the_eyepiece(benchmark: BenchmarkFixture) -> None:
    subject = subject_at(Body.JUPITER, datetime(2026, 12, 5, 20, tzinfo=UTC))
    sights = [
        Sight(subject=subject, scope=SIX_INCH, power=power, air_arcsec=1.45, true_field_deg=50.0 / power)
        for power in (48.0, 96.0, 120.0, 150.0, 240.0, 300.0)
    ]
    pictures = compute_pictures(sights, sights[2])
    check(benchmark, 0.015, lambda page: draw_eyepiece(page, pictures, palette=DAY).drawing)
