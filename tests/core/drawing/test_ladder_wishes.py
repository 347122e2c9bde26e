"""What one more thing would give, drawn between the rungs that are owned."""

from collections.abc import Sequence

import numpy as np
import pytest

from core.drawing.ladder import LadderChart, draw_ladder
from core.drawing.palette import load_palette
from core.drawing.side_by_side import draw_two_ladders
from core.gear.owned import Barlow, Eyepiece
from core.ladder.compare import compare
from core.ladder.ladder import Ladder, Rung
from core.ladder.wishes import rungs_with
from tests.core.drawing.examples import FEW, MANY, SIX_INCH, TWELVE_INCH, eyepiece, ladder
from tests.core.drawing.looking import PIXELS_PER_POINT, faults, page_of, pixels, rung_place, words_of

PLACES = {"small": (980, 380), "beside a list": (577, 413), "large": (1580, 740)}
THINGS = {
    "eyepiece": eyepiece(6),
    "long eyepiece": eyepiece(40),
    "Barlow": Barlow(name="1.5x", factor=1.5),
    "zoom": Eyepiece(name="8-24 mm", focal_length_min_mm=8, focal_length_max_mm=24),
}
KITS = {"few": (SIX_INCH, FEW), "many": (TWELVE_INCH, MANY)}


def wished_on(which: Ladder, kit: str, thing: Eyepiece | Barlow) -> tuple[Rung, ...]:
    return rungs_with(which, *KITS[kit][1], thing)


def draw(which: Ladder, wished: Sequence[Rung], place: tuple[int, int]) -> LadderChart:
    return draw_ladder(page_of(*place), which, palette=load_palette("day"), wished=wished)


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
@pytest.mark.parametrize("thing", THINGS.values(), ids=THINGS)
@pytest.mark.parametrize("kit", KITS)
def test_every_word_can_be_read(kit: str, thing: Eyepiece | Barlow, place: tuple[int, int]) -> None:
    which = ladder(*KITS[kit])
    chart = draw(which, wished_on(which, kit, thing), place)

    assert faults(chart.drawing) == []


def test_a_wished_rung_stands_on_the_scale_with_its_words_and_is_no_rung_to_click() -> None:
    which = ladder()
    (wished, _too_much) = wished_on(which, "few", eyepiece(6))
    assert round(wished.power) == 200
    chart = draw(which, [wished], PLACES["large"])

    heights = [rung_place(chart, rung)[1] for rung in (*which.rungs[:4], wished, *which.rungs[4:])]
    assert heights == sorted(heights)
    assert {"200x", "6 mm", "not owned"} <= set(words_of(chart.drawing))
    assert chart.rung_at(*rung_place(chart, wished)) is None


def test_a_wished_rung_is_drawn_with_gaps_and_an_owned_one_is_not() -> None:
    which = ladder()
    # 1200 / 17 is 71x, well under the ceiling, where an owned rung is a full line.
    wished = wished_on(which, "few", eyepiece(17))[0]
    chart = draw(which, [wished], PLACES["large"])
    picture = pixels(chart.drawing)[:, :, :3].astype(int)
    ground = np.abs(picture - picture[2, 2]).max(axis=2)

    def share_of_ink(rung: Rung) -> float:
        x, y = (place * PIXELS_PER_POINT for place in rung_place(chart, rung))
        row = picture.shape[0] - round(y)
        return float((ground[row - 1 : row + 2, round(x) - 18 : round(x) + 18].max(axis=0) > 60).mean())

    owned = next(rung for rung in which.rungs if round(rung.power) == 120)
    assert share_of_ink(owned) == 1.0
    assert 0.3 < share_of_ink(wished) < 0.9


def test_a_zoom_is_one_run_with_its_lowest_and_highest_power() -> None:
    """1200 mm over 24 and 8 mm give 50x and 150x, and the 2x goes on from 100x to 300x."""
    which = ladder()
    zoom = Eyepiece(name="8-24 mm", focal_length_min_mm=8, focal_length_max_mm=24)
    wished = wished_on(which, "few", zoom)
    chart = draw(which, wished, PLACES["large"])

    words = words_of(chart.drawing)
    assert len(wished) > 4
    assert words.count("not owned") == 1
    assert {"50–300x", "8-24 mm"} <= set(words)


def test_no_word_of_what_is_not_owned_is_bold() -> None:
    which = ladder()
    chart = draw(which, wished_on(which, "few", eyepiece(6)), PLACES["large"])

    bold = {words.text for words in chart.drawing.words if words.lettering.bold}
    assert {"150x", "120x"} <= bold
    assert not {"200x", "6 mm", "not owned"} & bold


def test_a_long_eyepiece_reaches_below_the_owned_ones() -> None:
    which = ladder()
    lowest = wished_on(which, "few", eyepiece(40))[0]
    chart = draw(which, [lowest], PLACES["small"])
    assert rung_place(chart, lowest)[1] < rung_place(chart, which.rungs[0])[1]


def test_what_lies_over_every_limit_is_left_out() -> None:
    which = ladder()
    wished = wished_on(which, "few", eyepiece(4))
    assert [round(rung.power) for rung in wished] == [600]
    with pytest.raises(ValueError, match="no rung of"):
        rung_place(draw(which, wished, PLACES["small"]), wished[0])


@pytest.mark.parametrize("place", [(980, 380), (740, 384), (560, 420)], ids=str)
def test_both_ladders_show_what_is_wished_for_each(place: tuple[int, int]) -> None:
    one, other = ladder(*KITS["few"]), ladder(*KITS["many"])
    wished = wished_on(one, "few", eyepiece(6)), wished_on(other, "many", eyepiece(7))
    chart = draw_two_ladders(page_of(*place), compare(one, other), palette=load_palette("day"), wished=wished)

    assert faults(chart.drawing) == []
    for rungs in wished:
        rung_place(chart, rungs[0])


def test_a_wish_on_one_side_leaves_both_on_one_scale() -> None:
    one, other = ladder(SIX_INCH, FEW), ladder(TWELVE_INCH, MANY)
    wished = (wished_on(one, "few", eyepiece(6)), ())
    chart = draw_two_ladders(
        page_of(520, 420), compare(one, other), palette=load_palette("day"), wished=wished
    )
    first, second = chart.layouts

    assert first.brief
    assert first.scale == second.scale


def test_where_there_is_little_room_the_barlow_is_told_and_not_cut() -> None:
    reducer = Barlow(name="A lovely reducer for wide fields", factor=0.63)
    kit = (FEW[0], (reducer, Barlow(name="A Barlow lens of three elements", factor=2)))
    chart = draw_ladder(page_of(380, 420), ladder(SIX_INCH, kit), palette=load_palette("day"))
    words = words_of(chart.drawing)

    assert {"8 mm + 2x", "25 mm + 0.63x"} & set(words)
    assert not [word for word in words if "mm +" in word and word.endswith("…")]
