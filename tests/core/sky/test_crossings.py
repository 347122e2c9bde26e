"""Events of known curves: an even swing, whose crossings anyone can work out."""

import math
from collections.abc import Callable
from functools import partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from core.sky.crossings import Course
from core.sky.sampled_course import SampledCourse

Floats = NDArray[np.float64]
Quantity = Callable[[Floats], Floats]
SwingBetween = Callable[[float, float], Course]
DAY_S = 86_400.0


def swing(unix_s: Floats) -> Floats:
    """Climb through zero at 0 h, reach 1 at 6 h, fall through zero at 12 h, reach -1 at 18 h."""
    return np.asarray(np.sin(2.0 * np.pi * unix_s / DAY_S))


def looked_for(quantity: Quantity, start_s: float, end_s: float) -> Course:
    return Course(quantity=quantity, start_s=start_s, end_s=end_s)


def sampled(quantity: Quantity, start_s: float, end_s: float) -> Course:
    times_s = np.linspace(start_s, end_s, int((end_s - start_s) / 60.0) + 2)
    return SampledCourse.through(times_s, quantity(times_s))


@pytest.fixture(params=[looked_for, sampled], scope="module")
def course(request: pytest.FixtureRequest) -> SwingBetween:
    """Follow the swing between two times, in the two ways: asked again and again, or known from samples."""
    return partial(request.param, swing)


def test_a_day_climbs_once_and_falls_once_through_each_level(course: SwingBetween) -> None:
    zero, half = course(-3600.0, DAY_S - 3600.0).crossings([0.0, 0.5])

    assert zero.climbs_s == pytest.approx([0.0], abs=0.001)
    assert zero.falls_s == pytest.approx([DAY_S / 2], abs=0.001)
    assert half.climbs_s == pytest.approx([2.0 * 3600.0], abs=0.001)
    assert half.falls_s == pytest.approx([10.0 * 3600.0], abs=0.001)


def test_a_longer_span_has_several_of_one_kind_in_order(course: SwingBetween) -> None:
    (zero,) = course(-3600.0, 2.5 * DAY_S).crossings([0.0])

    assert zero.climbs_s == pytest.approx([0.0, DAY_S, 2.0 * DAY_S], abs=0.001)
    assert zero.above_s.ravel() == pytest.approx(np.arange(6) * DAY_S / 2, abs=0.001)


def test_start_is_inside_and_end_is_not() -> None:
    def straight(unix_s: Floats) -> Floats:
        return unix_s

    (from_it,) = looked_for(straight, 0.0, 36_000.0).crossings([0.0])
    (up_to_it,) = looked_for(straight, -36_000.0, 0.0).crossings([0.0])

    assert from_it.climbs_s.tolist() == [0.0]
    assert up_to_it.climbs_s.tolist() == []


@pytest.mark.parametrize("miss", [1e-9, 1e-7, 1e-5, 1e-3])
def test_a_level_just_under_the_top_is_crossed_twice(course: SwingBetween, miss: float) -> None:
    check_grazing(course, miss)


def test_one_a_hair_under_the_top_is_found_where_it_is_looked_for() -> None:
    check_grazing(partial(looked_for, swing), 1e-12)


def check_grazing(course: SwingBetween, miss: float) -> None:
    (grazing,) = course(0.0, DAY_S).crossings([1.0 - miss])
    half_s = math.acos(1.0 - miss) * DAY_S / (2.0 * math.pi)

    assert grazing.climbs_s == pytest.approx([DAY_S / 4 - half_s], abs=0.3)
    assert grazing.falls_s == pytest.approx([DAY_S / 4 + half_s], abs=0.3)


def test_a_level_just_over_the_top_is_not_crossed(course: SwingBetween) -> None:
    (over,) = course(0.0, DAY_S).crossings([1.0 + 1e-9])

    assert len(over.climbs_s) == len(over.falls_s) == len(over.above_s) == 0


def test_a_level_below_everything_is_one_span(course: SwingBetween) -> None:
    (under,) = course(100.0, DAY_S).crossings([-1.5])

    assert under.above_s.tolist() == [[100.0, DAY_S]]


def test_highest_and_lowest_may_stand_at_an_end(course: SwingBetween) -> None:
    rising = course(3600.0, 5.0 * 3600.0)

    assert rising.highest == pytest.approx((5.0 * 3600.0, math.sin(2 * math.pi * 5 / 24)))
    assert rising.lowest == pytest.approx((3600.0, math.sin(2 * math.pi / 24)))
    assert course(0.0, DAY_S).highest == pytest.approx((DAY_S / 4, 1.0), abs=0.5)


def test_highest_within_spans(course: SwingBetween) -> None:
    spans_s = np.array([[0.0, 3600.0], [9.0 * 3600.0, 11.0 * 3600.0]])

    assert course(0.0, DAY_S).highest_within(spans_s)[0] == 9.0 * 3600.0


@given(
    st.floats(-1e6, 1e6),
    st.floats(23.0, 200.0),
    st.floats(-1.2, 1.2).filter(lambda level: abs(abs(level) - 1.0) > 1e-6),
)
def test_spans_above_and_crossings_tell_the_same_story(
    course: SwingBetween, start_s: float, hours: float, level: float
) -> None:
    end_s = start_s + hours * 3600.0
    (crossed,) = course(start_s, end_s).crossings([level])
    edges_s = crossed.above_s.ravel()

    assert (np.diff(edges_s) >= 0.0).all()
    middles_s = (crossed.above_s[:, 0] + crossed.above_s[:, 1]) / 2.0
    assert (swing(middles_s) >= level - 1e-6).all()
    gaps = np.concatenate([[start_s], edges_s, [end_s]]).reshape(-1, 2)
    gaps = gaps[gaps[:, 1] - gaps[:, 0] > 1.0]
    assert (swing(gaps.mean(axis=1)) <= level).all()
    for event_s in (*crossed.climbs_s, *crossed.falls_s):
        assert start_s <= event_s < end_s
        assert event_s in edges_s
