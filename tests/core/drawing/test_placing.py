"""Places for words: near what they name, and never on one another."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from core.drawing.placing import Box, Taken, spread


def test_boxes_that_share_an_edge_do_not_touch() -> None:
    assert not Box(0, 0, 1, 1).touches(Box(1, 0, 2, 1))


def test_boxes_that_overlap_touch() -> None:
    assert Box(0, 0, 2, 2).touches(Box(1, 1, 3, 3))


def test_a_place_outside_the_frame_is_not_free() -> None:
    assert not Taken(Box(0, 0, 10, 10)).is_free(Box(8, 8, 11, 9))


def test_a_place_keeps_its_distance_from_others() -> None:
    taken = Taken(Box(0, 0, 100, 100), gap=2.0)
    taken.add(Box(10, 10, 20, 20))

    assert not taken.is_free(Box(21, 10, 30, 20))
    assert taken.is_free(Box(22, 10, 30, 20))


def test_a_line_through_a_taken_place_is_not_clear() -> None:
    taken = Taken(Box(0, 0, 100, 100))
    taken.add(Box(40, 0, 60, 100))

    assert not taken.is_clear((10, 50), (90, 50))
    assert taken.is_clear((10, 50), (30, 90))


def test_places_far_enough_apart_stay_where_they_are() -> None:
    assert spread([10, 30, 70], 15, 0, 100) == [10, 30, 70]


def test_two_that_would_touch_part_around_their_middle() -> None:
    assert spread([50, 52], 10, 0, 100) == [46, 56]


def test_a_group_is_pushed_inside() -> None:
    assert spread([97, 98, 99], 10, 0, 100) == [80, 90, 100]


@given(
    st.lists(st.floats(0, 100), max_size=30).map(sorted),
    st.floats(0.5, 12),
)
def test_spread_keeps_order_distance_and_bounds(wanted: list[float], pitch: float) -> None:
    places = spread(wanted, pitch, 0, 100)

    assert len(places) == len(wanted)
    assert all(-1e-6 <= place <= 100 + 1e-6 for place in places)
    least = min(pitch, 100 / max(len(wanted) - 1, 1))
    assert all(late - early >= least - 1e-6 for early, late in pairwise(places))


@given(st.lists(st.floats(0, 100), min_size=2, max_size=8).map(sorted))
def test_nobody_moves_without_need(wanted: list[float]) -> None:
    gaps = [late - early for early, late in pairwise(wanted)]
    pitch = min(gaps)

    places = spread(wanted, pitch, 0, 100)

    assert max(abs(place - want) for place, want in zip(places, wanted, strict=True)) < 1e-6


def test_words_keep_off_a_line_that_leads_to_others() -> None:
    taken = Taken(Box(0.0, 0.0, 100.0, 100.0))
    taken.add_line((10.0, 10.0), (90.0, 90.0))
    assert not taken.is_free(Box.around(50.0, 50.0, 20.0, 8.0))
    assert taken.is_free(Box.around(20.0, 80.0, 20.0, 8.0))
    assert not taken.is_clear((10.0, 90.0), (90.0, 10.0))
