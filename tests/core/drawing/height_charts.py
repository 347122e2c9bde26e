"""Height charts for tests: of any night, in a few sizes, and what a fussy reader asks of each."""

from collections.abc import Collection, Sequence
from datetime import datetime

from attrs import frozen

from core.drawing.height import HeightChart, draw_height
from core.drawing.palette import load_palette
from core.sky.bodies import Body
from core.sky.night import Night
from core.tonight.plan import plan_evening
from core.words.evening import titled
from tests.core.drawing.examples import SIX_INCH
from tests.core.drawing.looking import faults, page_of, words_of
from tests.core.telling import targets_of

# Places for the chart: in the smallest window, in a middling and in a large one.
PLACES = {"small": (980, 330), "large": (1580, 740), "middling": (980, 380)}


@frozen
class Item:
    title: str
    start: datetime
    end: datetime
    is_chosen: bool = False
    is_done: bool = False


def draw(
    night: Night,
    place: tuple[int, int] = PLACES["small"],
    *,
    planet: Body | None = Body.SATURN,
    items: Sequence[Item] | None = None,
    clock: int = 24,
    now: datetime | None = None,
    cursor: datetime | None = None,
    palette: str = "day",
) -> HeightChart:
    planned = (
        titled(plan_evening(night, SIX_INCH, targets=targets_of(night, planet))) if items is None else items
    )
    return draw_height(
        page_of(*place),
        night,
        palette=load_palette(palette),
        planet=planet,
        items=planned,
        clock=clock,
        now=now,
        cursor=cursor,
    )


def check(chart: HeightChart, *, bands: Collection[str] = ("fair", "thick air")) -> None:
    words = words_of(chart.drawing)
    assert faults(chart.drawing) == []
    assert sum("(seeing)" in text for text in words) == 1
    assert set(bands) <= set(words)
    assert any(text.startswith("Site time") for text in words)
