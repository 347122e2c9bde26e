"""What a log tells of a site and a kit, counted by hand."""

import math
from datetime import date, timedelta
from typing import Any

import pytest
from attrs import evolve

from core.gear.owned import Eyepiece
from core.ladder.experience import GroupedBy, grouped, power_records, uses_of, usual_air
from core.record.log_entry import LogEntry, Verdict
from core.sky.bodies import Body
from tests.core.record.log_lines import line


def _step(before: float, power: float, verdict: Verdict, **others: Any) -> LogEntry:  # noqa: ANN401
    return line(from_power=before, power=power, verdict=verdict, **others)


def test_a_power_is_judged_by_steps_up_to_it_and_down_from_it() -> None:
    records = power_records(
        [
            _step(100, 150, Verdict.MORE),
            _step(100, 152, Verdict.NO_CHANGE),  # within 3 % of 150: the same rung
            _step(150, 200, Verdict.LESS),
            _step(200, 150, Verdict.MORE),  # back at 150 there is more again: 200 showed less
            _step(200, 150, Verdict.LESS),  # and here 200 showed more
            _step(150, 200, Verdict.CANNOT_TELL),
            _step(200, 200, Verdict.LESS),  # another eyepiece of the same power: no step
            line(verdict=None, note="dew"),
        ]
    )

    assert [(each.power, each.more, each.no_change, each.less) for each in records] == [
        (150, 1, 1, 0),
        (200, 1, 0, 2),
    ]
    assert [each.count for each in records] == [2, 3]


def test_lines_are_told_apart_by_height_month_and_planet() -> None:
    low = line(altitude_deg=29.9, evening=date(2026, 12, 5))
    fair = line(altitude_deg=30.0, evening=date(2026, 2, 1), planet=Body.MARS)
    best = line(altitude_deg=45.0, evening=date(2025, 12, 9), planet=None)
    lines = (best, low, fair)

    assert grouped(lines, GroupedBy.HEIGHT) == {"low": (low,), "fair": (fair,), "best": (best,)}
    assert grouped(lines, GroupedBy.MONTH) == {"02": (fair,), "12": (best, low)}
    assert grouped(lines, GroupedBy.PLANET) == {"mars": (fair,), "saturn": (low,)}
    assert grouped(lines, GroupedBy.ALL) == {"": lines}
    # In the order of the planets from the Sun, not of their names.
    jupiter = line(planet=Body.JUPITER)
    assert list(grouped((low, jupiter, fair), GroupedBy.PLANET)) == ["mars", "jupiter", "saturn"]


def test_eyepieces_are_counted_and_those_never_used_are_told_too() -> None:
    ten, six, four = (Eyepiece(id=f"e{mm}", name=f"{mm} mm", focal_length_mm=mm) for mm in (10, 6, 4))
    lines = [
        line(eyepiece_id="e6"),
        line(eyepiece_id="e6"),
        line(eyepiece_id="e10"),
        line(eyepiece_id="sold"),
    ]

    assert uses_of(lines, (ten, six, four)) == ((six, 2), (ten, 1), (four, 0))


def _night(number: int, verdict: Verdict, site_id: str = "terrace") -> list[LogEntry]:
    evening = date(2026, 12, 5) + timedelta(days=number)
    return [
        _step(120, 170, verdict, evening=evening, site_id=site_id, at=line().at + timedelta(days=number)),
        _step(100, 150, verdict, evening=evening, site_id=site_id, at=line(9).at + timedelta(days=number)),
    ]


def test_five_nights_tell_a_sites_usual_air() -> None:
    four = [entry for night in range(4) for entry in _night(night, Verdict.LESS)]
    five = four + _night(4, Verdict.LESS)

    assert usual_air(four) == ()
    (found,) = usual_air(five)
    assert (found.site_id, found.nights) == ("terrace", 5)
    assert found.blur.median_arcsec > 1.7  # coarser than what is assumed of any site
    assert found.blur.spread == pytest.approx(0.2)  # alike as they are, five nights do not say more
    assert usual_air(_night(0, Verdict.MORE, "roof") + five) == (found,)
    # Of lines that name no site nothing can be told.
    assert usual_air(evolve(entry, site_id="") for entry in five) == ()


def test_a_night_counts_by_what_it_teaches_though_not_every_line_of_it_does() -> None:
    """A verdict through warm air teaches nothing of the sky, and a night of such alone is none."""
    nights = [_night(number, Verdict.LESS) for number in range(5)]
    warm = [[evolve(entry, in_warm_air=True) for entry in night] for night in nights]
    mixed = [[wavering[0], clean[1]] for wavering, clean in zip(warm, nights, strict=True)]

    assert [found.nights for found in usual_air(entry for night in mixed for entry in night)] == [5]
    assert usual_air(entry for night in (*nights[:4], warm[4]) for entry in night) == ()


def test_nights_that_differ_spread_the_usual_air() -> None:
    verdicts = [Verdict.LESS, Verdict.MORE, Verdict.LESS, Verdict.MORE, Verdict.NO_CHANGE]
    (found,) = usual_air([e for number, verdict in enumerate(verdicts) for e in _night(number, verdict)])

    assert found.blur.spread > 0.25
    assert math.log(found.blur.median_arcsec) == pytest.approx(math.log(1.6), abs=0.25)


def test_nights_that_bear_just_what_is_assumed_of_any_site_leave_its_usual_air_there() -> None:
    """Through 1.3 times the air 1.6 arcsec leave two metres, for which the air alone counts, 206x by hand.

    "No change" from 170 to 250x, as far below that as above, speaks for neither finer air nor coarser.
    """
    verdict: dict[str, Any] = {"verdict": Verdict.NO_CHANGE, "aperture_mm": 2000.0}
    nights = [
        _step(170, 250, **verdict, evening=date(2026, 12, day), at=line().at + timedelta(days=day))
        for day in range(5, 10)
    ]

    (found,) = usual_air(nights)

    assert found.blur.median_arcsec == pytest.approx(1.6, abs=0.03)
