"""Evenings of people who have hours: what comes first, what staying up would give, and what is said outside.

What shone where follows from the oppositions of those months: Saturn on 4 October 2026 and 18 October 2027,
Jupiter on 10 February 2027, Mars, 14 arcsec at most, on 19 February 2027 (astronomical almanacs).
"""

import re
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from itertools import pairwise

import pytest

from core.moments.hours import Hour, Twilight
from core.record.observer import Preferences, Profile
from core.situation.choices import Choices, EveningHours
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import BlockedSky, Site
from core.tonight.limiter import Limiter
from core.words.answer import answer_detail, answer_headline, answer_words
from tests.situations.owners import MELBOURNE, barlows, eyepieces, place, scope

PORTO = place(41.15, -8.61, "Europe/Lisbon")
OSLO = place(59.9, 10.75, "Europe/Oslo")
DULUTH = place(46.8, -92.1, "America/Chicago")
MENDOZA = place(-32.9, -68.85, "America/Argentina/Mendoza")
SINGAPORE = place(1.35, 103.8, "Asia/Singapore")
TROMSO = place(69.65, 18.96, "Europe/Oslo")
SIX_PLACES = (PORTO, OSLO, DULUTH, MENDOZA, SINGAPORE, MELBOURNE)
LONG_AGO = datetime(2001, 1, 1, tzinfo=UTC)


def evening(
    site: Site,
    day: date,
    start: Hour = Twilight.DUSK,
    end: Hour = time(23, 30),
    *,
    now: datetime = LONG_AGO,
    planet: Body | None = None,
    usual: Preferences | None = None,
) -> Situation:
    """Return an evening of somebody with a six-inch and three eyepieces, out in the hours given."""
    profile = Profile(
        sites=(site,),
        telescopes=(scope("reflector", 150, 1200),),
        eyepieces=eyepieces(25, 10, 8),
        barlows=barlows(2),
        preferences=usual or Preferences(),
    )
    hours = () if usual else (EveningHours(evening=day, start=start, end=end),)
    return Situation(Choices(profile=profile, evening=day, hours=hours, planet=planet), now)


@pytest.mark.parametrize(
    ("site", "day", "start", "end", "body"),
    [
        (PORTO, date(2026, 12, 5), time(20), time(23), Body.SATURN),
        (PORTO, date(2026, 12, 5), time(2, 30), Twilight.DAWN, Body.JUPITER),
        (OSLO, date(2026, 12, 5), Twilight.DUSK, time(23, 30), Body.SATURN),
        (DULUTH, date(2026, 12, 5), Twilight.DUSK, time(23, 30), Body.SATURN),
        (PORTO, date(2026, 9, 20), time(21), time(23, 30), Body.SATURN),
        (PORTO, date(2026, 10, 4), Twilight.DUSK, time(23, 30), Body.SATURN),
        (MENDOZA, date(2026, 10, 4), Twilight.DUSK, time(23, 30), Body.SATURN),
        (PORTO, date(2026, 10, 4), time(5), Twilight.DAWN, Body.JUPITER),
        (SINGAPORE, date(2026, 10, 20), Twilight.DUSK, time(22), Body.SATURN),
        (MELBOURNE, date(2026, 11, 20), time(21), time(23, 30), Body.SATURN),
        # Jupiter in opposition, 45 arcsec, and Mars ten degrees beside it with 14.
        (PORTO, date(2027, 2, 10), Twilight.DUSK, time(23, 30), Body.JUPITER),
        (OSLO, date(2027, 2, 10), Twilight.DUSK, time(22), Body.JUPITER),
        (MELBOURNE, date(2027, 2, 10), Twilight.DUSK, time(23, 30), Body.JUPITER),
        (PORTO, date(2027, 2, 19), time(22), time(23, 59), Body.JUPITER),
        (DULUTH, date(2027, 2, 19), Twilight.DUSK, Twilight.DAWN, Body.JUPITER),
        (SINGAPORE, date(2027, 2, 19), Twilight.DUSK, time(1), Body.JUPITER),
        (OSLO, date(2027, 3, 20), Twilight.DUSK, time(23, 30), Body.JUPITER),
        (MENDOZA, date(2027, 3, 20), time(20), time(23), Body.JUPITER),
        (PORTO, date(2027, 4, 15), Twilight.DUSK, time(22), Body.JUPITER),
        (PORTO, date(2027, 6, 1), Twilight.DUSK, time(23), Body.JUPITER),
        (MELBOURNE, date(2027, 10, 18), time(21), time(23, 30), Body.SATURN),
    ],
)
def test_what_comes_first(site: Site, day: date, start: Hour, end: Hour, body: Body) -> None:
    told = evening(site, day, start, end)

    assert told.planet is body
    assert told.hours is not None
    assert told.best is not None
    assert told.best.in_hours
    assert told.hours.start <= told.best.start < told.best.end <= told.hours.end
    # The second where it is still rising as the hours end.
    assert answer_words(told).startswith((f"{body.heading} is best ", f"In your hours {body.label} is best "))


def test_where_to_look_and_what_goes_in_are_told_plainly() -> None:
    told = evening(PORTO, date(2026, 12, 5), time(20), time(23))

    # Saturn culminates towards 21:00 at Porto that day, a little north of the celestial equator's 49 degrees.
    assert "Look south" in answer_headline(told)
    assert "half way up: 4" in answer_headline(told) or "half way up: 5" in answer_headline(told)
    assert answer_detail(told).startswith(
        "25 mm first, 48x; then 10 mm, 120x, and up to 150x: aperture and tonight's air"
    )
    # Jupiter rises about 22:30 and needs some four hours more to 45 degrees.
    assert re.search(r"If you stay up, Jupiter from 0[23]:\d\d\.$", answer_detail(told))


def test_an_evening_with_nothing_good_in_the_hours_says_so() -> None:
    # In August 2027 Saturn, in opposition in October, rises only towards midnight.
    told = evening(PORTO, date(2027, 8, 1))

    assert told.answer is not None
    assert told.answer.limiter is Limiter.OUTSIDE_HOURS
    assert answer_headline(told).startswith("Nothing good in your hours, ")
    assert "; Saturn before dawn, 0" in answer_headline(told)
    assert "if you get up early" in answer_headline(told)


def test_a_planet_taken_by_hand_outside_the_hours_is_told_as_that() -> None:
    told = evening(PORTO, date(2026, 12, 5), planet=Body.JUPITER)

    assert answer_headline(told).startswith("Jupiter is good only outside your hours, ")
    assert told.targets[-1].body is Body.JUPITER


def test_an_owner_of_the_whole_night_gets_it() -> None:
    told = evening(PORTO, date(2026, 12, 5), usual=Preferences(out_until="dawn"))

    assert told.hours is not None
    assert told.night is not None
    assert told.night.sun.rise is not None
    assert told.hours.end == told.night.sun.rise - timedelta(minutes=10)
    assert not told.hours.assumed
    assert "stay up" not in answer_words(told)
    assert {target.body for target in told.targets} >= {Body.SATURN, Body.JUPITER, Body.MARS, Body.VENUS}


def test_late_in_a_good_evening_it_is_past_its_best_and_no_other_date_is_named() -> None:
    # Saturn sinks under 30 degrees at Porto after eleven.
    now = datetime(2026, 12, 5, 23, 20, tzinfo=UTC)
    told = evening(PORTO, date(2026, 12, 5), now=now, planet=Body.SATURN)

    assert answer_headline(told).startswith("Saturn has been past its best since ")
    assert "in a dark sky" not in answer_words(told)
    assert "2027" not in answer_words(told)


def test_behind_a_roof_in_ten_minutes() -> None:
    roof = BlockedSky(azimuth_from_deg=180, azimuth_to_deg=270, below_altitude_deg=89, what="own building")
    site = place(41.15, -8.61, "Europe/Lisbon", blocked=(roof,))
    whole = evening(site, date(2026, 12, 5))
    assert whole.best is not None
    now = (whole.best.end - timedelta(minutes=10)).replace(second=0, microsecond=0)

    told = evening(site, date(2026, 12, 5), now=now)

    # Whole minutes, the one begun included.
    assert re.match(
        r"Saturn now: in 1[01] min behind blocked sky \(own building\)\. Look south", answer_headline(told)
    )


def test_no_dark_sky_is_still_told_where_there_are_hours() -> None:
    assert "never gets dark enough" in answer_words(evening(TROMSO, date(2026, 6, 21), planet=Body.JUPITER))


@cache
def sixty() -> tuple[Situation, ...]:
    return tuple(_sixty())


def _sixty() -> Iterator[Situation]:
    for site in SIX_PLACES:
        for number in range(10):
            yield evening(site, date(2026, 9, 8) + timedelta(days=37 * number), usual=Preferences())


def minutes_above_30(situation: Situation, body: Body) -> float:
    """Count the minutes in the hours in which a body stands above 30 degrees in a sky dark enough for it."""
    assert situation.night is not None
    assert situation.hours is not None
    found = situation.night.of(body)
    total = timedelta()
    for window in found.windows:
        for span in found.above_30:
            start = max(window.start, span.start, situation.hours.start)
            end = min(window.end, span.end, situation.hours.end)
            total += max(end - start, timedelta())
    return total / timedelta(minutes=1)


def test_a_late_start_only_where_nothing_good_is_up_before() -> None:
    late = 0
    for situation in sixty():
        assert situation.best is not None
        assert situation.hours is not None
        if situation.best.start >= situation.hours.end:
            late += 1
            for body in (Body.VENUS, Body.MARS, Body.JUPITER, Body.SATURN):
                assert minutes_above_30(situation, body) < 40, (situation.site, situation.evening, body)
    assert late < 12


def test_a_small_mars_is_never_before_a_large_jupiter_in_the_same_sky() -> None:
    for situation in sixty():
        if situation.planet is Body.MARS:
            assert minutes_above_30(situation, Body.JUPITER) < 20, (situation.site, situation.evening)


def test_targets_lie_in_the_hours_and_do_not_overlap() -> None:
    for situation in sixty():
        assert situation.hours is not None
        inside = [target for target in situation.targets if target.minutes.in_hours]
        for one, two in pairwise(inside):
            assert one.minutes.end <= two.minutes.start
        for target in inside:
            assert situation.hours.start <= target.minutes.start
            assert target.minutes.end <= situation.hours.end
            assert target.minutes.duration >= timedelta(minutes=14, seconds=55)
