"""Which planet an evening serves best: check values, and the sum over the best steps."""

import math
from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.moments.details import Sharpness
from core.moments.hours import Dusks, hours_out
from core.moments.which_planet import evening_worths
from core.moments.worth import (
    ChosenBody,
    EveningWorth,
    choose_body,
    details_across,
    evening_worth,
    step_times_s,
    step_worth,
)
from core.sky.bodies import Body
from core.sky.night import Night, compute_night
from core.sky.site import Site

APERTURES_MM = (114, 150, 200)


def site(latitude: float, longitude: float, zone: str) -> Site:
    return Site(name="check", latitude_deg=latitude, longitude_deg=longitude, elevation_m=0, time_zone=zone)


ATLANTIC = site(41, -9, "Europe/Lisbon")
NORTH = site(60, 11, "Europe/Oslo")
LAKE = site(47, -92, "America/Chicago")


def choose(night: Night, aperture_mm: float) -> ChosenBody | None:
    sharpness = Sharpness(aperture_mm=aperture_mm)
    return choose_body(evening_worths(night, hours=hours_out(Dusks.of(night)), sharpness=sharpness))


@pytest.mark.parametrize("aperture_mm", APERTURES_MM)
@pytest.mark.parametrize(
    ("place", "evening", "body"),
    [
        (ATLANTIC, date(2026, 12, 5), Body.SATURN),
        (NORTH, date(2026, 12, 5), Body.SATURN),
        (LAKE, date(2026, 12, 5), Body.SATURN),
        (ATLANTIC, date(2027, 2, 10), Body.JUPITER),
    ],
)
def test_out_until_half_past_eleven(place: Site, evening: date, body: Body, aperture_mm: float) -> None:
    assert choose(compute_night(place, evening), aperture_mm) == ChosenBody(body=body, inside=True)


def test_saturn_counts_with_its_ring() -> None:
    assert float(details_across(Body.SATURN, 20.0, 1.0)) == pytest.approx(45.4, abs=0.05)  # to three figures
    assert float(details_across(Body.JUPITER, 20.0, 1.0)) == pytest.approx(20.0)


def test_worth_by_hand() -> None:
    assert step_worth([3, 3 * math.e, 2, np.nan]) == pytest.approx([0, 1, 0, 0])


def test_the_nine_best_steps_are_summed_with_their_weights() -> None:
    unix_s = np.linspace(0.0, 11_400.0, 20)
    details = np.full(20, 3 * math.e)
    high = np.full(20, 40.0)

    # Six steps in the hours, four before, ten after: 6 x 1 + 3 x 0.3.
    found = evening_worth(Body.MARS, unix_s=unix_s, details=details, altitude_deg=high, hours_s=(2400, 6000))
    assert found.total == pytest.approx(6.9)
    assert found.inside == pytest.approx(6.0)
    # Unweighted, at most nine of them.
    assert found.earlier == pytest.approx(4.0)
    assert found.later == pytest.approx(9.0)
    assert found.steps_inside == 6
    assert found.most_details == pytest.approx(3 * math.e)

    faint = evening_worth(
        Body.URANUS, unix_s=unix_s, details=details, altitude_deg=high, hours_s=(2400, 6000)
    )
    assert faint.total == pytest.approx(3.45)


def test_nothing_counts_below_twelve_degrees() -> None:
    found = evening_worth(
        Body.MARS,
        unix_s=np.array([0.0, 600.0, 1200.0]),
        details=np.full(3, 30.0),
        altitude_deg=np.array([11.9, 12.0, 12.1]),
        hours_s=(0, 9000),
    )

    assert found.steps_inside == 2


@given(st.lists(st.tuples(st.floats(0, 5e4), st.floats(0, 2e4)), max_size=4), st.floats(0, 7e4))
def test_every_step_lies_in_a_window_and_before_the_stop_line(
    spans: list[tuple[float, float]], stop_s: float
) -> None:
    windows = [(start, start + length) for start, length in spans]

    for middle in step_times_s(windows, since_s=1000.0, stop_s=stop_s):
        assert middle - 300 + 1e-3 >= 1000
        assert middle + 300 <= stop_s + 1e-3
        assert any(start <= middle - 299.9 and middle + 299.9 <= end for start, end in windows)


def worth(body: Body, total: float, steps_inside: int, most: float = 10) -> tuple[Body, EveningWorth]:
    return body, EveningWorth(
        body=body,
        total=total,
        inside=0,
        earlier=0,
        later=0,
        steps_inside=steps_inside,
        most_details=most,
    )


def test_twenty_minutes_in_the_hours_come_before_more_worth_outside_them() -> None:
    worths = dict([worth(Body.SATURN, 1.0, 2), worth(Body.JUPITER, 9.0, 1)])

    assert choose_body(worths) == ChosenBody(body=Body.SATURN, inside=True)


def test_the_best_outside_is_named_as_such() -> None:
    worths = dict([worth(Body.SATURN, 1.0, 1), worth(Body.JUPITER, 9.0, 0), worth(Body.MOON, 50.0, 9)])

    assert choose_body(worths) == ChosenBody(body=Body.JUPITER, inside=False)


def test_the_moon_only_when_no_planet_has_a_window() -> None:
    assert choose_body(dict([worth(Body.MOON, 5.0, 9)])) == ChosenBody(body=Body.MOON, inside=True)
    assert choose_body({}) is None


def test_where_nothing_is_worth_anything_the_one_with_most_details_is_named() -> None:
    worths = dict([worth(Body.NEPTUNE, 0, 0, 1.1), worth(Body.URANUS, 0, 0, 1.9)])

    assert choose_body(worths) == ChosenBody(body=Body.URANUS, inside=False)
