"""The height chart as a person sees it: every word readable, every name on its curve."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from importlib import resources
from pathlib import Path

import numpy as np
import pytest
from attrs import evolve

from core.drawing.marks import Words
from core.drawing.palette import PaletteName
from core.record.profile import read_profile
from core.sky.bodies import TARGETS, Body
from core.sky.site import BlockedSky, Site, WarmAir
from tests.core.drawing.examples import (
    BERLIN,
    KATHMANDU,
    ODD_NAMES,
    PORTO,
    TROMSO,
    night_at,
    site_at,
)
from tests.core.drawing.height_charts import PLACES, Item, check, draw
from tests.core.drawing.looking import PIXELS_PER_POINT, pixels, the_words, words_of

PROFILES = sorted(
    Path(str(entry)) for entry in resources.files("sample_profiles").iterdir() if entry.name.endswith(".toml")
)


NIGHTS = {
    "Porto in December": (PORTO, date(2026, 12, 5)),
    "clock goes back": (BERLIN, date(2026, 10, 24)),
    "clock goes forward": (BERLIN, date(2026, 3, 28)),
    "half an hour back": (site_at(-31.5, 159.1, "Australia/Lord_Howe"), date(2026, 4, 4)),
    "clock changes at midnight": (site_at(-33.4, -70.7, "America/Santiago"), date(2026, 4, 4)),
    "polar night": (TROMSO, date(2026, 12, 20)),
    "midnight sun": (TROMSO, date(2026, 6, 20)),
    "quarter of an hour off": (KATHMANDU, date(2026, 10, 3)),
    "all in one part of the sky": (site_at(20.0, 0.0, "UTC"), date(2000, 5, 3)),
    "summer in Berlin": (BERLIN, date(2026, 6, 20)),
    "far south": (site_at(-77.8, 166.7, "Antarctica/McMurdo"), date(2026, 8, 20)),
}


@pytest.mark.parametrize("place", [PLACES["small"], PLACES["middling"]], ids=["small", "middling"])
@pytest.mark.parametrize("night", NIGHTS.values(), ids=NIGHTS)
def test_every_word_can_be_read(night: tuple[Site, date], place: tuple[int, int]) -> None:
    # No spot of a band is clear where eight curves of a whole day lie in a low chart; the axis tells it too.
    is_crowded = night is NIGHTS["polar night"] and place is PLACES["small"]
    check(draw(night_at(*night), place), bands=("fair",) if is_crowded else ("fair", "thick air"))


@pytest.mark.parametrize("path", PROFILES, ids=lambda path: path.stem)
@pytest.mark.parametrize("day", [date(2026, 12, 5), date(2027, 6, 12)], ids=str)
def test_every_word_can_be_read_for_the_sample_observers(path: Path, day: date) -> None:
    for site in read_profile(path).sites:
        check(draw(night_at(site, day)))


@pytest.mark.parametrize("palette", PaletteName)
def test_every_word_can_be_read_on_a_twelve_hour_clock_with_now_and_cursor(palette: str) -> None:
    now = datetime(2026, 12, 5, 20, 42, tzinfo=UTC)

    chart = draw(
        night_at(PORTO, date(2026, 12, 5)),
        clock=12,
        now=now,
        cursor=now + timedelta(minutes=3),
        palette=palette,
    )

    check(chart)
    assert "now 8:42 pm" in words_of(chart.drawing)


def odd_site(names: Sequence[str]) -> Site:
    """A site walled in on all sides, the walls and chimneys bearing odd names."""
    wide = 360.0 / len(names)
    return evolve(
        PORTO,
        blocked=tuple(
            BlockedSky(
                azimuth_from_deg=number * wide,
                azimuth_to_deg=number * wide + wide / 2,
                below_altitude_deg=35,
                what=name,
                heated=number % 2 == 0,
            )
            for number, name in enumerate(names)
        ),
        warm_air=tuple(
            WarmAir(
                azimuth_from_deg=number * wide + wide / 2,
                azimuth_to_deg=(number + 1) * wide % 360,
                below_altitude_deg=50,
                what=name,
            )
            for number, name in enumerate(names)
        ),
    )


@pytest.mark.parametrize("planet", [Body.SATURN, Body.JUPITER, None])
def test_odd_names_are_drawn_as_they_are(planet: Body | None) -> None:
    # Ten walls and ten chimneys are more than anyone has: no word may be lost off the edge or on another.
    night = night_at(odd_site(ODD_NAMES), date(2026, 12, 5))
    items = [
        Item(name, night.start + timedelta(hours=6), night.start + timedelta(hours=7)) for name in ODD_NAMES
    ]

    check(draw(night, planet=planet, items=items))


@pytest.mark.parametrize("name", ["$$", '10" $best$ scope', "8″ f/5"])
def test_a_name_with_signs_of_a_formula_keeps_them(name: str) -> None:
    site = evolve(PORTO, blocked=(evolve(PORTO.blocked[0], what=name, heated=False),), warm_air=())

    assert f"behind {name}" in words_of(draw(night_at(site, date(2026, 12, 5))).drawing)


@pytest.mark.parametrize("planet", TARGETS)
def test_every_body_that_is_up_has_its_name_near_its_curve_or_led_to_it(planet: Body) -> None:
    night = night_at(PORTO, date(2026, 12, 5))
    chart = draw(night, planet=planet)

    for body in night.bodies:
        box = the_words(chart.drawing, body.body.heading).box(chart.drawing.page.measure)
        x = np.array([chart.x_of(datetime.fromtimestamp(when, UTC)) for when in body.track.unix_s[::4]])
        y = np.array([chart.frame.y(float(altitude)) for altitude in body.track.altitude_deg[::4]])
        up = body.track.altitude_deg[::4] > 0
        away = np.hypot(
            np.maximum(np.maximum(box.left - x, x - box.right), 0),
            np.maximum(np.maximum(box.bottom - y, y - box.top), 0),
        )
        is_led = any(each.body is body.body and each.label.lead is not None for each in chart.labels.names)
        assert away[up].min() < 40 or is_led, body.body


def test_no_curve_runs_through_the_words() -> None:
    # With the words taken away, nothing but sky, tints and the two lines of the bands is left there.
    chart = draw(night_at(PORTO, date(2026, 12, 5)), PLACES["large"], planet=Body.SATURN)
    drawing = chart.drawing
    names = [words for words in drawing.words if words.text in {body.heading for body in TARGETS}]
    wordless = evolve(drawing, marks=tuple(mark for mark in drawing.marks if not isinstance(mark, Words)))
    picture = pixels(wordless)
    height = picture.shape[0]

    for words in names:
        box = words.box(drawing.page.measure)
        left, bottom, right, top = (
            int(edge * PIXELS_PER_POINT) for edge in (box.left, box.bottom, box.right, box.top)
        )
        inner = picture[height - top + 3 : height - bottom - 3, left + 4 : right - 4, :3]
        darkest = int(inner.sum(axis=2).min())
        assert darkest > 450, f"a line crosses {words.text}"


def test_the_planet_in_hand_is_drawn_heavier_and_larger() -> None:
    night = night_at(PORTO, date(2026, 12, 5))
    chart = draw(night, planet=Body.MARS, items=())
    sizes = {words.text: words.lettering.size for words in chart.drawing.words}

    assert sizes["Mars"] > sizes["Saturn"]


def test_a_clock_change_shows_the_repeated_hour_twice_and_both_zones() -> None:
    words = words_of(draw(night_at(BERLIN, date(2026, 10, 24)), PLACES["large"]).drawing)

    assert words.count("02") == 2
    assert {"CEST", "CET"} <= set(words)


def test_a_clock_change_leaves_the_missing_hour_out() -> None:
    words = words_of(draw(night_at(BERLIN, date(2026, 3, 28)), PLACES["large"]).drawing)

    assert "02" not in words
    assert {"01", "03"} <= set(words)


def test_the_axis_names_the_zone() -> None:
    words = words_of(draw(night_at(KATHMANDU, date(2026, 10, 3))).drawing)

    assert "Site time, hours: UTC+5:45" in words


def test_the_air_path_stands_beside_the_altitudes() -> None:
    # Kasten and Young 1989, table of relative optical air mass at sea level: 1.00 at 90 degrees, 1.41 at 45,
    # 1.99 at 30, 2.90 at 20, 5.58 at 10 (apparent altitudes; refraction lowers the last a little).
    words = words_of(draw(night_at(BERLIN, date(2026, 12, 5)), PLACES["large"]).drawing)

    assert [word for word in words if word in {"1.0", "1.4", "2.0", "2.9", "5.5", "5.6"}][:4] == [
        "1.0",
        "1.4",
        "2.0",
        "2.9",
    ]


def test_what_never_rises_is_said() -> None:
    words = words_of(draw(night_at(TROMSO, date(2027, 11, 28))).drawing)

    assert any(word.startswith("Not up") and "Venus, Mars" in word for word in words)


def test_without_a_sunset_the_sun_is_spoken_of() -> None:
    assert "the Sun stays down" in words_of(draw(night_at(TROMSO, date(2026, 12, 20))).drawing)
    assert "the Sun stays up" in words_of(draw(night_at(TROMSO, date(2026, 6, 20))).drawing)


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
def test_places_and_times_lead_to_each_other(place: tuple[int, int]) -> None:
    night = night_at(PORTO, date(2026, 12, 5))
    chart = draw(night, place)
    moment = datetime(2026, 12, 5, 22, 17, 3, tzinfo=UTC)

    assert abs(chart.time_at(chart.x_of(moment)) - moment) < timedelta(seconds=1)
    assert chart.x_of(chart.start) == pytest.approx(chart.plot_box.left)
    assert chart.x_of(chart.end) == pytest.approx(chart.plot_box.right)
    assert chart.frame.y(0) == pytest.approx(chart.plot_box.bottom)
    assert chart.frame.y(90) == pytest.approx(chart.plot_box.top)


def test_places_beyond_the_chart_mean_its_ends() -> None:
    chart = draw(night_at(PORTO, date(2026, 12, 5)))

    assert chart.time_at(-50) == chart.start
    assert abs(chart.time_at(5000) - chart.end) < timedelta(milliseconds=1)
    assert not chart.shows(chart.start - timedelta(seconds=1))


def test_the_line_of_now_stands_where_the_chart_says() -> None:
    moment = datetime(2026, 12, 5, 23, 30, tzinfo=UTC)
    night = night_at(PORTO, date(2026, 12, 5))
    with_now, without = draw(night, now=moment), draw(night)
    changed = np.any(pixels(with_now.drawing) != pixels(without.drawing), axis=2)
    row = changed[int(changed.shape[0] - with_now.plot_box.top * PIXELS_PER_POINT) + 30]

    assert np.flatnonzero(row).mean() == pytest.approx(with_now.x_of(moment) * PIXELS_PER_POINT, abs=1.0)


def test_a_click_on_a_curve_or_a_name_means_its_body() -> None:
    night = night_at(PORTO, date(2026, 12, 5))
    chart = draw(night)
    moment = datetime(2026, 12, 6, 3, 0, tzinfo=UTC)
    altitude_deg = night.position(Body.JUPITER, moment).altitude_deg
    name = the_words(chart.drawing, "Uranus")

    assert chart.body_at(chart.x_of(moment), chart.frame.y(altitude_deg)) is Body.JUPITER
    assert chart.body_at(name.x, name.y) is Body.URANUS
    assert chart.body_at(chart.x_of(moment), chart.frame.y(85)) is None


def test_the_night_palette_lights_no_green_and_no_blue_pixel() -> None:
    now = datetime(2026, 12, 5, 20, 42, tzinfo=UTC)
    picture = pixels(draw(night_at(PORTO, date(2026, 12, 5)), palette="night", now=now).drawing)

    assert picture[:, :, 1:3].max() == 0
    assert picture[:, :, 0].max() > 150


@pytest.mark.parametrize(
    ("height_px", "titles"),
    [(330, {"Geometric altitude", "Air path, overhead = 1"}), (225, {"Altitude", "Air path"})],
)
def test_a_low_chart_names_its_axes_in_short_and_cuts_no_word(height_px: int, titles: set[str]) -> None:
    chart = draw(night_at(PORTO, date(2026, 12, 5)), (980, height_px))

    words = words_of(chart.drawing)

    assert titles <= set(words)
    assert not any(text.endswith("…") for text in words)
