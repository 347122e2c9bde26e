"""Words inside the height chart stand clear of curves and of each other, on many evenings of every sample."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from importlib import resources
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

from core.drawing.free_space import STEP
from core.drawing.height import HeightChart, draw_height
from core.drawing.marks import Points, Strokes
from core.drawing.palette import load_palette
from core.drawing.placing import Box
from core.record.profile import read_profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.evening import titled
from tests.core.drawing.looking import page_of

SAMPLES = sorted(
    Path(str(entry)) for entry in resources.files("sample_profiles").iterdir() if entry.name.endswith(".toml")
)
# Thirty evenings of two years; 24 days are no multiple of a month, so that the Moon stands everywhere.
DAYS = [date(2026, 6, 1) + timedelta(days=24 * number) for number in range(30)]
NOW = datetime(2026, 6, 1, 12, tzinfo=UTC)
# In the smallest window, there with letters half as large again, and beside the steps in a large one.
PLACES = ((960, 300), (650, 233), (1240, 620))


def charts(sample: Path, day: date) -> Iterator[HeightChart]:
    profile = read_profile(sample)
    for site in profile.sites:
        situation = Situation(Choices(profile=profile, site_id=site.id, evening=day), NOW)
        assert situation.night is not None
        for place in PLACES:
            yield draw_height(
                page_of(*place),
                situation.night,
                palette=load_palette("day"),
                planet=situation.planet,
                items=titled(situation.evening_steps),
            )


def crossings(chart: HeightChart) -> Iterator[str]:
    """Yield a sentence for each word that stands on a curve; only a name interrupts its own."""
    for words, box, own in inside(chart):
        for body, curve in chart.curves.items():
            if body is not own and box.inside(fine(curve)).any():
                yield f"{words!r} stands on the curve of {body.value}"


def fine(curve: Points) -> Points:
    """Return a curve with points between its points; where it ends and begins anew there are none."""
    middles = (curve[1:] + curve[:-1]) / 2
    is_joined = np.hypot(*np.diff(curve, axis=0).T) < 2 * STEP
    return np.concatenate((curve, middles[is_joined]))


def inside(chart: HeightChart) -> list[tuple[str, Box, Body | None]]:
    """Return the words inside the chart, their places, and whose name each is."""
    labels = chart.labels
    names = [(each.label.text, each.label.box, each.body) for each in labels.names]
    others = [*(each.label for each in labels.notes), *labels.bands]
    return [*names, *((label.text, label.box, None) for label in others)]


@pytest.mark.parametrize("day", DAYS, ids=str)
@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_no_word_stands_on_a_curve_or_on_another_or_leaves_the_chart(sample: Path, day: date) -> None:
    for chart in charts(sample, day):
        words = inside(chart)

        assert list(crossings(chart)) == []
        assert [(a, b) for (a, at, _), (b, other, _) in combinations(words, 2) if at.touches(other)] == []
        assert [text for text, box, _ in words if not chart.plot_box.holds(box)] == []
        assert {each.body for each in chart.labels.names} == set(chart.curves)


@pytest.mark.parametrize("day", DAYS[::5], ids=str)
def test_no_line_of_altitude_runs_through_words(day: date) -> None:
    for chart in charts(SAMPLES[0], day):
        heights = {chart.frame.y(altitude_deg) for altitude_deg in (30.0, 45.0)}
        strokes = [mark for mark in chart.drawing.marks if isinstance(mark, Strokes)]
        level = [line for mark in strokes for line in mark.lines if set(line[:, 1]) <= heights]

        assert {line[0, 1] for line in level} == heights
        for text, box, _ in inside(chart):
            for line in level:
                points = np.linspace(line[0], line[-1], 400)
                assert not box.grown(-0.5).inside(points).any(), text


def test_no_word_stands_on_the_stroke_of_a_transit() -> None:
    all_strokes = []
    for day in DAYS[::5]:
        for chart in charts(SAMPLES[0], day):
            strokes = list(transit_strokes(chart))
            all_strokes += strokes
            for text, box, _ in inside(chart):
                assert not any(box.inside(np.linspace(line[0], line[1], 9)).any() for line in strokes), text
    assert len(all_strokes) > 50


def transit_strokes(chart: HeightChart) -> Iterator[Points]:
    """Yield the upright strokes across curves, which are as long as two times five points."""
    for mark in chart.drawing.marks:
        for line in mark.lines if isinstance(mark, Strokes) else ():
            across, up = np.abs(line[-1] - line[0])
            if len(line) == 2 and across == 0 and up == pytest.approx(10):
                yield line
