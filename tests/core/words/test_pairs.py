"""Bodies close together: how far apart, when, and whether one field holds both."""

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import cast
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve

from core.gear.combinations import combinations
from core.moments.hours import HoursOut
from core.moments.pairs import ClosePair
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.pairs import apart_text, meetings, pair_sentence, pair_sentences, pairs_in_hand
from core.words.site_clock import SiteClock
from core.year.year import Year
from tests.core.drawing.examples import SIX_INCH, eyepiece
from tests.core.evenings import LISBON, eyepieces

CLOCK = SiteClock(zone=ZoneInfo("Europe/Lisbon"))  # on winter's UTC
TEN = datetime(2026, 12, 5, 22, 0, tzinfo=UTC)
PAIR = ClosePair(a=Body.MOON, b=Body.SATURN, separation_deg=0.8, across_deg=1.05, at=TEN)
# Apparent 52 degrees at 48x and at 120x: about 1.08 and 0.43 degrees of sky.
KIT = combinations(SIX_INCH, (eyepiece(25), eyepiece(10)), ())
UNKNOWN = combinations(SIX_INCH, eyepieces(25, 10), ())


@pytest.mark.parametrize(
    ("angle_deg", "text"),
    [(1.0, "1.0°"), (1.25, "1.3°"), (0.999, "60′"), (0.5, "30′"), (0.025, "2′")],
)
def test_an_angle_from_a_degree_in_degrees_below_in_minutes(angle_deg: float, text: str) -> None:
    assert apart_text(angle_deg) == text


def test_the_highest_power_that_holds_both_is_named_with_its_eyepiece() -> None:
    words = pair_sentence(PAIR, KIT, CLOCK)

    assert words == ("The Moon and Saturn stand 48′ apart at 22:00: one field holds both up to 48x (25 mm).")
    assert "120x" in pair_sentence(evolve(PAIR, across_deg=0.4), KIT, CLOCK)


def test_what_no_field_holds_and_what_nobody_knows_of_are_told_apart() -> None:
    wide = evolve(PAIR, across_deg=1.2)
    too_far, unknown, bare = (pair_sentence(wide, kit, CLOCK) for kit in (KIT, UNKNOWN, ()))

    apart = "The Moon and Saturn stand 48′ apart at 22:00"
    assert too_far == f"{apart}: too far for one field of your eyepieces, not for binoculars."
    assert unknown == bare == f"{apart}."
    # One known field is enough to say so.
    assert pair_sentence(wide, (*UNKNOWN, *KIT), CLOCK) == too_far


def a_year(*pairs: ClosePair, planet: Body = Body.SATURN) -> Year:
    return cast("Year", SimpleNamespace(planet=planet, pairs=pairs))


def test_a_year_tells_the_first_four_with_the_other_body() -> None:
    others = (Body.MARS, Body.VENUS, Body.JUPITER, Body.MOON, Body.MERCURY)
    pairs = [
        evolve(PAIR, a=Body.SATURN, b=other, at=TEN + timedelta(days=day)) for day, other in enumerate(others)
    ]
    (words,) = meetings(a_year(*pairs), KIT, CLOCK)

    assert [other.label in words for other in others] == [True, True, True, True, False]
    assert [f"{day} December 2026" in words for day in range(5, 10)] == [True, True, True, True, False]
    assert words.count("Saturn") == 1
    assert words.count("48x") == 4
    assert list(meetings(a_year(), KIT, CLOCK)) == []


def test_the_other_of_a_pair_is_told_whichever_comes_first() -> None:
    (held,) = meetings(a_year(PAIR), KIT, CLOCK)
    (bare,) = meetings(a_year(PAIR, planet=Body.MOON), UNKNOWN, CLOCK)

    assert held == (
        "Close to Saturn, while both can be looked at: the Moon, 48′ on Sat 5 December 2026 at 22:00 (one "
        "field up to 48x)."
    )
    assert bare == (
        "Close to the Moon, while both can be looked at: Saturn, 48′ on Sat 5 December 2026 at 22:00."
    )


@pytest.mark.parametrize(
    ("planet", "starts", "ends", "count"),
    [
        (Body.SATURN, -1, 1, 1),
        (Body.MOON, -1, 1, 1),
        (Body.MARS, -1, 1, 0),
        (Body.SATURN, 1, 2, 0),
        (Body.SATURN, -2, -1, 0),
        (Body.SATURN, 0, 1, 1),
    ],
)
def test_in_hand_are_those_of_the_planet_in_the_hours_left(
    planet: Body, starts: int, ends: int, count: int
) -> None:
    hours = HoursOut(start=TEN + timedelta(hours=starts), end=TEN + timedelta(hours=ends), assumed=False)
    assert len(list(pairs_in_hand(a_situation(planet, hours)))) == count


def test_without_hours_or_a_site_nothing_is_in_hand() -> None:
    hours = HoursOut(start=TEN, end=TEN + timedelta(hours=1), assumed=False)

    assert list(pairs_in_hand(a_situation(Body.SATURN, None))) == []
    assert list(pairs_in_hand(a_situation(Body.SATURN, hours, has_site=False))) == []
    # Of the whole evening they are told whatever the hours and the planet.
    assert len(list(pair_sentences(a_situation(Body.MARS, None)))) == 1
    assert list(pair_sentences(a_situation(Body.MARS, hours, has_site=False))) == []


def a_situation(planet: Body, hours: HoursOut | None, *, has_site: bool = True) -> Situation:
    """Return as much of a situation as pairs ask for."""
    return cast(
        "Situation",
        SimpleNamespace(
            site=LISBON if has_site else None,
            preferences=SimpleNamespace(clock=24),
            planet=planet,
            hours_left=hours,
            pairs=(PAIR,),
            kit_powers=KIT,
        ),
    )
