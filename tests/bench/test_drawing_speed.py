"""A full drawing in a window of 900 by 500 pixels within 80 ms.

Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

from datetime import date

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from pytest_benchmark.fixture import BenchmarkFixture

from core.drawing.height import draw_height
from core.drawing.ladder import draw_ladder
from core.drawing.palette import load_palette
from core.sky.bodies import Body
from core.tonight.plan import plan_evening
from tests.core.drawing.examples import MANY, PORTO, SIX_INCH, TWELVE_INCH, ladder, night_at, sight

DAY = load_palette("day")


def canvas() -> FigureCanvasAgg:
    return FigureCanvasAgg(Figure(figsize=(9, 5), dpi=100))


def test_the_height_chart(benchmark: BenchmarkFixture) -> None:
    night, drawn = night_at(PORTO, date(2026, 12, 5)), canvas()
    items = plan_evening(night, SIX_INCH, planet=Body.SATURN)

    def draw() -> None:
        draw_height(drawn.figure, night, palette=DAY, planet=Body.SATURN, items=items)
        drawn.draw()

    benchmark(draw)


def test_the_ladder_of_a_large_kit(benchmark: BenchmarkFixture) -> None:
    large, drawn = ladder(TWELVE_INCH, MANY), canvas()
    seen = sight(large, 120.0)

    def draw() -> None:
        draw_ladder(drawn.figure, large, palette=DAY, chosen_power=120.0, sight=seen)
        drawn.draw()

    benchmark(draw)
