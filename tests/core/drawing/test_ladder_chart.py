"""The drawn ladder as a person sees it, and what a click on it means."""

import math
import re
from collections.abc import Sequence
from itertools import pairwise

import pytest
from attrs import evolve

from core.drawing.ladder import LadderChart, draw_ladder
from core.drawing.ladder_columns import LadderColumn
from core.drawing.ladder_layout import lay_out_ladder
from core.drawing.marks import Fill
from core.drawing.palette import PaletteName, load_palette
from core.drawing.paper import PaperMeasure
from core.drawing.placing import Box
from core.drawing.power_scale import PowerScale, power_range
from core.drawing.side_by_side import draw_two_ladders
from core.gear.owned import Eyepiece
from core.ladder.compare import compare
from core.ladder.ladder import Ladder
from tests.core.drawing.examples import (
    BINOCULAR,
    FEW,
    MANY,
    NONE,
    ODD_NAMES,
    SIX_INCH,
    SMALL,
    TWELVE_INCH,
    eyepiece,
    ladder,
)
from tests.core.drawing.looking import POINTS_PER_PIXEL, faults, page_of, pixels, rung_place, words_of

PLACES = {
    "a third": (330, 365),
    "small": (980, 380),
    "beside a list": (577, 413),
    "large": (1580, 740),
    "middling": (980, 400),
}
LADDERS = {
    "few": ladder(),
    "many": ladder(TWELVE_INCH, MANY),
    "small refractor": ladder(SMALL, MANY),
    "fixed": ladder(BINOCULAR, NONE),
    "nothing fits": ladder(SIX_INCH, NONE),
    "too low": ladder(SMALL, FEW, altitude_deg=2.0),
    "boiling": ladder(TWELVE_INCH, MANY, blur_arcsec=8.0, altitude_deg=11.0),
    "steady": ladder(TWELVE_INCH, MANY, blur_arcsec=0.4, usual_air=400.0),
    "odd names": ladder(
        evolve(SIX_INCH, name="$$"),
        (tuple(eyepiece(5.0 + 3 * number, name) for number, name in enumerate(ODD_NAMES)), FEW[1]),
    ),
    "all together": ladder(SIX_INCH, (tuple(eyepiece(10 + 0.4 * number) for number in range(12)), FEW[1])),
}


def draw(
    which: Ladder,
    place: tuple[int, int] = PLACES["small"],
    *,
    chosen_power: float | None = None,
    palette: str = "day",
) -> LadderChart:
    return draw_ladder(
        page_of(*place),
        which,
        palette=load_palette(palette),
        chosen_power=chosen_power,
        when="at its best, 05:32",
    )


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
@pytest.mark.parametrize("which", LADDERS.values(), ids=LADDERS)
@pytest.mark.parametrize("chosen_power", [None, 150.0])
def test_every_word_can_be_read(which: Ladder, place: tuple[int, int], chosen_power: float | None) -> None:
    chart = draw(which, place, chosen_power=chosen_power)

    assert faults(chart.drawing) == []
    assert sum("(seeing)" in word for word in joined(chart)) == 1


def joined(chart: LadderChart) -> list[str]:
    """The words, with the few that are broken over lines put together again."""
    return [" ".join(words_of(chart.drawing))]


@pytest.mark.parametrize("place", [(980, 380), (740, 384), (1100, 700)], ids=str)
@pytest.mark.parametrize("pair", [("few", "many"), ("many", "many"), ("fixed", "few"), ("odd names", "few")])
def test_every_word_of_two_ladders_can_be_read(pair: Sequence[str], place: tuple[int, int]) -> None:
    comparison = compare(LADDERS[pair[0]], LADDERS[pair[1]], disc_arcsec=18.0)
    chart = draw_two_ladders(page_of(*place), comparison, palette=load_palette("day"))

    assert faults(chart.drawing) == []
    assert " ".join(words_of(chart.drawing)).count("(seeing)") == 1
    assert {comparison.a.ladder.scope.name, comparison.b.ladder.scope.name} <= set(words_of(chart.drawing))


def test_equal_ratios_of_power_are_equally_far_apart() -> None:
    scale = PowerScale(30, 400, 0, 100)

    assert scale.y(100) - scale.y(50) == pytest.approx(scale.y(200) - scale.y(100))
    assert (scale.y(30), scale.y(400)) == (0, 100)


def test_rungs_stand_higher_the_more_power_they_have() -> None:
    which = ladder(TWELVE_INCH, MANY)
    chart = draw(which)
    heights = [rung_place(chart, rung)[1] for rung in which.rungs]

    assert heights == sorted(heights)


def test_rungs_are_spaced_by_the_logarithm_of_power() -> None:
    which = ladder()
    chart = draw(which)
    steps = [
        (rung_place(chart, high)[1] - rung_place(chart, low)[1]) / math.log(high.power / low.power)
        for low, high in pairwise(which.rungs)
    ]

    assert steps == pytest.approx([steps[0]] * len(steps))


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
def test_a_click_on_a_rung_means_that_rung(place: tuple[int, int]) -> None:
    which = ladder()
    chart = draw(which, place)

    assert [chart.rung_at(*rung_place(chart, rung)) for rung in which.rungs] == list(which.rungs)


def test_a_click_on_a_rung_s_words_means_that_rung() -> None:
    which = ladder(TWELVE_INCH, MANY)
    chart = draw(which)
    by_words = {f"{rung.power:.0f}x": rung for rung in which.rungs}
    checked = 0
    for words in chart.drawing.words:
        if words.text in by_words and words.lettering.size == 12.0:
            found = chart.rung_at(*words.box(chart.drawing.page.measure).middle)
            assert found is by_words[words.text]
            checked += 1

    assert checked > 10


def test_a_click_beside_the_ladder_means_nothing() -> None:
    assert draw(ladder()).rung_at(3, 3) is None


def test_a_large_kit_names_what_matters_and_counts_the_rest() -> None:
    which = ladder(TWELVE_INCH, MANY)
    chart = draw(which, chosen_power=which.rungs[5].power)
    words = words_of(chart.drawing)
    named = [rung for rung in which.rungs if f"{rung.power:.0f}x" in words]

    assert {"you are here", "top tonight", "begin here", "not tonight"} <= set(words)
    assert len(named) >= 15
    assert f"marks: {len(which.rungs) - len(named)} more" in words


def test_an_empty_ladder_says_why() -> None:
    assert any("Add an eyepiece in Gear" in word for word in joined(draw(LADDERS["nothing fits"])))


def test_without_a_ceiling_the_reason_is_written() -> None:
    words = joined(draw(LADDERS["too low"]))[0]

    assert "no ceiling" in words
    assert "not tonight" not in words


ZOOM = Eyepiece(name="8-24 zoom", focal_length_min_mm=8, focal_length_max_mm=24)
WITH_ZOOM = ladder(SIX_INCH, ((*FEW[0], ZOOM), FEW[1]))


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
@pytest.mark.parametrize("chosen_power", [None, 62.0])
def test_an_owned_zoom_is_one_run_with_its_stops_as_short_marks(
    place: tuple[int, int], chosen_power: float | None
) -> None:
    """1200 mm over 24 and 8 mm give 50x and 150x, with a 2x 100x and 300x (by hand)."""
    chart = draw(WITH_ZOOM, place, chosen_power=chosen_power)
    words = " ".join(words_of(chart.drawing))

    assert faults(chart.drawing) == []
    assert "50–150x" in words
    assert "100–300" in words
    (layout,) = chart.layouts
    stops = [rung for rung in WITH_ZOOM.rungs if rung.combination.eyepiece is ZOOM]
    named = [each for each in layout.rungs if each.rung in stops and each.words is not None]
    # Only what is in hand, the start and the top are told one by one.
    assert len(stops) > 6
    assert len(named) <= 2
    assert [chart.rung_at(*rung_place(chart, rung)) for rung in stops] == stops


def test_a_zoom_is_told_by_its_powers_where_no_eyepiece_is_named() -> None:
    """As narrow as one of two ladders in the smallest window: there is room for the powers alone."""
    words = words_of(draw(WITH_ZOOM, (190, 400)).drawing)
    assert "50–150x" in words
    assert "zoom" not in words
    assert not any("…" in word for word in words)


def test_eyepieces_are_named_whole_or_not_at_all() -> None:
    """From a page that is too narrow for them to one that is wide enough; their remarks go before they do."""
    for width in range(170, 420, 10):
        words = words_of(draw(ladder(), (width, 400)).drawing)
        assert not any("…" in word for word in words), width


def test_limits_stay_on_a_low_page() -> None:
    for height in range(110, 320, 15):
        chart = draw(ladder(), (260, height))
        assert faults(chart.drawing) == [], height


def test_the_zoom_s_setting_in_hand_is_told() -> None:
    words = words_of(draw(WITH_ZOOM, PLACES["large"], chosen_power=62.0).drawing)
    assert {"62x", "you are here"} <= set(words)


def test_the_next_step_has_words_of_its_own_though_it_is_a_setting_of_a_zoom() -> None:
    chart = draw_ladder(
        page_of(*PLACES["small"]),
        WITH_ZOOM,
        palette=load_palette("day"),
        chosen_power=48.0,
        is_taken=False,
        following_power=62.0,
    )
    words = words_of(chart.drawing)

    assert {"62x", "next"} <= set(words)
    assert not {"here", "you are here"} & set(words)
    assert "bars: zooms" in words
    assert faults(chart.drawing) == []


def test_where_remarks_have_no_column_the_next_step_is_still_told() -> None:
    chart = draw_ladder(
        page_of(350, 520),
        WITH_ZOOM,
        palette=load_palette("day"),
        chosen_power=48.0,
        is_taken=False,
        following_power=62.0,
    )
    (layout,) = chart.layouts
    words = words_of(chart.drawing)

    assert LadderColumn.REMARK not in layout.columns
    assert {"25 mm, first", "about 19 mm, next"} <= set(words)
    assert faults(chart.drawing) == []


def test_what_is_believed_of_the_air_is_shaded_between_its_powers() -> None:
    which = ladder()
    chart = draw(which, PLACES["large"])
    (layout,) = chart.layouts
    assert which.limits.band is not None
    low, high = (layout.scale.y(power) for power in which.limits.band)
    shades = [mark for mark in chart.drawing.marks if isinstance(mark, Fill) and mark.order == 0.6]
    assert (min(s.box.bottom for s in shades), max(s.box.top for s in shades)) == pytest.approx((low, high))
    # 1.2 arcsec at 44 degrees on 150 mm, with k = 0.75 and 0.50 and 0.33 arcsec of smeared colours: by hand
    # 232 over the roots of 1.361² + 0.33² and 1.075² + 0.33².
    told = next(text for text in words_of(chart.drawing) if text.startswith("likely"))
    assert [int(figure) for figure in re.findall(r"\d+", told)] == pytest.approx([166, 206], abs=4)


def test_no_band_is_drawn_without_a_ceiling() -> None:
    chart = draw(LADDERS["too low"])
    assert not any(isinstance(mark, Fill) and mark.order == 0.6 for mark in chart.drawing.marks)


def test_the_drawing_says_for_when_it_holds() -> None:
    for place in PLACES.values():
        assert "at its best, 05:32" in words_of(draw(ladder(), place).drawing)


def test_a_common_range_holds_every_rung_and_limit_of_both() -> None:
    both = (ladder(), ladder(TWELVE_INCH, MANY))
    low, high = power_range(both)

    assert low < min(rung.power for each in both for rung in each.rungs)
    assert high > max(each.limits.aperture for each in both)


def test_two_ladders_stand_on_one_scale() -> None:
    comparison = compare(ladder(), ladder(TWELVE_INCH, MANY), disc_arcsec=18.0)
    chart = draw_two_ladders(page_of(980, 380), comparison, palette=load_palette("day"))
    first = {round(rung.power): rung_place(chart, rung) for rung in comparison.a.ladder.rungs}
    second = {round(rung.power): rung_place(chart, rung) for rung in comparison.b.ladder.rungs}
    shared = first.keys() & second.keys()

    assert len(shared) >= 3
    for power in shared:
        assert first[power][1] == pytest.approx(second[power][1], abs=1.5)
        assert first[power][0] < 490 * POINTS_PER_PIXEL < second[power][0]


@pytest.mark.parametrize("width", [740, 980, 1300])
def test_two_ladders_stand_on_one_scale_though_only_one_has_a_zoom(width: int) -> None:
    comparison = compare(WITH_ZOOM, ladder(), disc_arcsec=18.0)

    first, second = draw_two_ladders(page_of(width, 420), comparison, palette=load_palette("day")).layouts

    assert first.scale == second.scale


@pytest.mark.parametrize("width", [240.0, 300.0, 420.0, 700.0])
def test_words_of_rungs_never_share_a_row(width: float) -> None:
    which = ladder(TWELVE_INCH, MANY)
    layout = lay_out_ladder(which, Box(0, 0, width, 260), PaperMeasure(), powers=power_range([which]))
    rows = [place.words_y for place in layout.rungs if place.words is not None]

    assert all(high - low >= 14.29 for low, high in pairwise(rows))
    assert len(rows) + layout.unnamed == len(which.rungs)


@pytest.mark.parametrize("palette", PaletteName)
def test_dimmed_rungs_are_dashed_and_named_not_coloured_only(palette: str) -> None:
    assert "not tonight" in words_of(draw(ladder(), palette=palette).drawing)


def test_the_night_palette_lights_no_green_and_no_blue_pixel() -> None:
    picture = pixels(draw(ladder(), palette="night", chosen_power=48.0).drawing)

    assert picture[:, :, 1:3].max() == 0
    assert picture[:, :, 0].max() > 150
