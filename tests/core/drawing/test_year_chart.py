"""The year's chart: every word legible at every size, every date where it belongs."""

from datetime import date, timedelta
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.drawing.palette import PaletteName, load_palette
from core.drawing.year_chart import YearChart, draw_year
from core.drawing.year_frame import scale_step, scale_top
from core.sky.bodies import TARGETS, Body
from core.sky.site import Site
from core.year.year import Year, compute_year
from tests.core.drawing.examples import PORTO, TROMSO
from tests.core.drawing.looking import PIXELS_PER_POINT, faults, page_of, pixels, words_of

FIRST = date(2026, 12, 1)
APIA = Site(name="Bay", latitude_deg=-13.8, longitude_deg=-171.8, time_zone="Pacific/Apia")


@cache
def year(body: Body, site: Site = PORTO, first: date = FIRST) -> Year:
    return compute_year(site, body, first)


def chart_of(
    body: Body,
    size: tuple[int, int] = (980, 420),
    *,
    site: Site = PORTO,
    first: date = FIRST,
    palette: str = "day",
    chosen: date | None = date(2027, 2, 3),
) -> YearChart:
    return draw_year(page_of(*size), year(body, site, first), palette=load_palette(palette), chosen=chosen)


@pytest.mark.parametrize("body", TARGETS)
@pytest.mark.parametrize("size", [(320, 170), (480, 300), (980, 420), (1700, 900)], ids=str)
def test_no_word_is_cut_off_or_lies_on_another(body: Body, size: tuple[int, int]) -> None:
    chart = chart_of(body, size)

    assert faults(chart.drawing) == []


@pytest.mark.parametrize("chosen", [None, FIRST, date(2027, 11, 30)])
def test_nor_with_another_evening_in_hand(chosen: date | None) -> None:
    for body in (Body.MERCURY, Body.MOON):
        chart = chart_of(body, (700, 300), chosen=chosen)
        assert faults(chart.drawing) == []


@pytest.mark.parametrize("site", [TROMSO, APIA], ids=lambda site: site.name)
@pytest.mark.parametrize("size", [(1307, 560), (490, 210)], ids=str)
def test_nor_on_other_screens_and_elsewhere(site: Site, size: tuple[int, int]) -> None:
    for body in (Body.MERCURY, Body.JUPITER):
        chart = chart_of(body, size, site=site)
        assert faults(chart.drawing) == []


def test_what_a_planet_does_is_written_with_its_date() -> None:
    # Dates of two libraries: tests/published/data/phenomena.csv.
    words = words_of(chart_of(Body.SATURN).drawing)

    assert "opposition 18 Oct" in words
    assert "conjunction 7 Apr" in words
    assert "3 Feb" in words
    assert {"best weeks", "Highest in the dark", "2026", "2027", "Dec", "Nov"} <= set(words)
    assert any(text.startswith("Apparent size: largest 20.0″, 17 Oct") for text in words)


def test_where_there_is_no_room_for_all_words_they_are_shortened() -> None:
    wide = words_of(chart_of(Body.VENUS, (1400, 420)).drawing)
    narrow = words_of(chart_of(Body.MERCURY, (700, 420)).drawing)

    assert "greatest elongation west 3 Jan" in wide
    assert {"23° east", "19° west"} <= set(narrow)


def test_a_low_page_keeps_the_altitudes() -> None:
    tall, middling, low = (
        words_of(chart_of(Body.SATURN, (980, height)).drawing) for height in (420, 300, 170)
    )

    hours = "Hours in the dark above 30° (light) and above 45° (full)"
    assert [hours in words for words in (tall, middling, low)] == [True, True, False]
    assert [any("Apparent size" in text for text in words) for words in (tall, middling, low)] == [
        True,
        False,
        False,
    ]
    assert {"90°", "45°", "30°", "0°"} <= set(low)


def test_a_planet_that_is_never_above_30_has_no_panel_of_hours() -> None:
    words = words_of(chart_of(Body.MERCURY).drawing)

    assert not any("Hours" in text for text in words)
    assert any("Apparent size" in text for text in words)


def test_dates_lead_to_pixels_and_back() -> None:
    chart = chart_of(Body.MARS)
    dates = year(Body.MARS).dates

    assert [chart.date_at(chart.x_of(day)) for day in dates] == list(dates)
    box = chart.plot_box
    assert chart.date_at(box.left - 50.0) == dates[0]
    assert chart.date_at(box.right + 50.0) == dates[-1]
    assert chart.shows(dates[-1])
    assert not chart.shows(dates[-1] + timedelta(days=1))


def test_a_skipped_date_leaves_no_gap() -> None:
    chart = chart_of(Body.MARS, site=APIA, first=date(2011, 12, 1), chosen=None)
    dates = year(Body.MARS, APIA, date(2011, 12, 1)).dates

    assert date(2011, 12, 30) not in dates
    assert [chart.date_at(chart.x_of(day)) for day in dates] == list(dates)
    steps = np.diff([chart.x_of(day) for day in dates])
    assert steps == pytest.approx(steps[0])


def test_the_chosen_evening_is_a_line_in_the_accent() -> None:
    chart = chart_of(Body.MARS, chosen=date(2027, 6, 10))
    picture = pixels(chart.drawing)
    accent = load_palette("day").accent
    wanted = [int(accent[place : place + 2], 16) for place in (1, 3, 5)]
    column = round(chart.x_of(date(2027, 6, 10)) * PIXELS_PER_POINT - 0.5)
    near = np.abs(picture[:, column - 1 : column + 2, :3].astype(int) - wanted).sum(axis=2).min(axis=1)
    box = chart.plot_box

    assert (near < 60).sum() > 0.8 * box.height * PIXELS_PER_POINT


def test_the_night_palette_stays_red() -> None:
    for body in (Body.MARS, Body.MOON):
        picture = pixels(chart_of(body, palette=PaletteName.NIGHT).drawing)
        assert picture[:, :, 1:3].max() == 0
        assert picture[:, :, 0].max() > 100


def test_the_curve_stands_where_the_altitudes_are() -> None:
    plain = chart_of(Body.JUPITER, chosen=None)
    picture = pixels(plain.drawing).astype(int)
    colour = load_palette("day").bodies[Body.JUPITER]
    wanted = [int(colour[place : place + 2], 16) for place in (1, 3, 5)]
    told, box = year(Body.JUPITER).outlook, plain.plot_box
    # The panel of altitudes reaches down to its 0; its scale is found from the words beside it.
    ends = {words.text: words.y for words in plain.drawing.words}
    zero, top = ends["0°"] * PIXELS_PER_POINT, ends["90°"] * PIXELS_PER_POINT
    for number in (20, 100, 160):
        column = round(plain.x_of(told.evenings.dates[number]) * PIXELS_PER_POINT - 0.5)
        near = np.abs(picture[:, column, :3] - wanted).sum(axis=1) < 90
        rows = picture.shape[0] - np.flatnonzero(near) - 0.5
        rows = rows[(rows > zero + 2.0) & (rows < box.top * PIXELS_PER_POINT - 8.0)]
        altitude_deg = (np.median(rows) - zero) / (top - zero) * 90.0
        assert altitude_deg == pytest.approx(told.best_altitude_deg[number], abs=1.5)


@settings(max_examples=200)
@given(st.floats(0.01, 5000.0))
def test_a_scale_holds_its_greatest_value_and_has_few_numbers(most: float) -> None:
    top, step = scale_top(most), scale_step(most)

    assert most <= top * (1 + 1e-6)
    assert top <= most + step * (1 + 1e-6)
    assert 1.0 - 1e-9 <= top / step <= 5.0 + 1e-9


def test_a_scale_of_nothing_is_still_a_scale() -> None:
    assert scale_top(0.0) == 1.0
