"""What is promised of a planet tonight: capped by size, ring, detail and power, never made by power."""

from datetime import UTC, datetime

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.looks.expectation import Chance, Expectation
from core.looks.picture.subject import Subject, subject_at
from core.looks.worth_looking import expect
from core.sky.bodies import TARGETS, Body
from core.sky.moons import moon_events
from core.sky.ring import Ring
from core.words.looking_for import feature_text, ground_text

STEADY, FAIR = 0.8, 1.45


def at(body: Body, text: str) -> Subject:
    return subject_at(body, datetime.fromisoformat(text).replace(tzinfo=UTC))


SUBJECTS = {body: at(body, "2026-11-24T03:00:00") for body in TARGETS}


def chance_of(found: tuple[Expectation, ...], words: str) -> Chance:
    return next(item.chance for item in found if words in feature_text(item))


def test_nearly_edge_on_saturn_in_small_binoculars_promises_no_gap() -> None:
    """20x80 binoculars in April 2009: a tiny longish shape; at 20x the eye sees 11.6 arcsec at best."""
    saturn = at(Body.SATURN, "2009-04-15T21:00:00")

    found = expect(saturn, finest_detail_arcsec=11.6, highest_power=20)

    assert chance_of(found, "gap") is Chance.UNLIKELY
    assert feature_text(found[0]) == "A longish shape: the ring is nearly closed"
    assert "3.8° open" in ground_text(found[0])
    assert not any("apart from the globe" in feature_text(item) for item in found)


def test_no_power_makes_a_gap_in_a_nearly_closed_ring() -> None:
    saturn = at(Body.SATURN, "2009-04-15T21:00:00")

    found = expect(saturn, finest_detail_arcsec=0.3, highest_power=600)

    assert chance_of(found, "gap") is Chance.UNLIKELY


def test_an_open_ring_in_steady_air_shows_its_gap() -> None:
    saturn = at(Body.SATURN, "2029-11-24T21:00:00")

    assert chance_of(expect(saturn, finest_detail_arcsec=STEADY, highest_power=200), "gap") is Chance.LIKELY
    assert chance_of(expect(saturn, finest_detail_arcsec=FAIR, highest_power=200), "gap") is Chance.POSSIBLE
    assert chance_of(expect(saturn, finest_detail_arcsec=4.0, highest_power=200), "gap") is Chance.UNLIKELY


def test_an_edge_on_ring_is_not_promised_at_all() -> None:
    saturn = at(Body.SATURN, "2025-03-23T18:00:00")

    found = expect(saturn, finest_detail_arcsec=STEADY, highest_power=200)

    assert {item.chance for item in found if "ring" in feature_text(item)} == {Chance.UNLIKELY}


def test_the_unlit_side_of_the_ring_is_told() -> None:
    saturn = at(Body.SATURN, "2025-04-15T04:00:00")

    found = expect(saturn, finest_detail_arcsec=STEADY, highest_power=200)

    assert any("its unlit side faces us" in ground_text(item) for item in found)
    assert chance_of(found, "gap") is Chance.UNLIKELY


def test_jupiter_s_belts_need_about_50x() -> None:
    """Common practice: the moons from about 10x, the belts from 50x."""
    jupiter = SUBJECTS[Body.JUPITER]

    low = expect(jupiter, finest_detail_arcsec=FAIR, highest_power=30)
    enough = expect(jupiter, finest_detail_arcsec=FAIR, highest_power=60)

    assert chance_of(low, "moons") is Chance.LIKELY
    assert chance_of(low, "main belts") is Chance.UNLIKELY
    assert "usually from about 50x, and tonight stops at 30x" in next(
        ground_text(item) for item in low if "main belts" in feature_text(item)
    )
    assert chance_of(enough, "main belts") is Chance.LIKELY


def test_a_shadow_on_jupiter_is_told_in_the_hours_it_happens() -> None:
    jupiter = SUBJECTS[Body.JUPITER]
    events = moon_events(jupiter.disc.time, jupiter.disc.time.replace(hour=5))

    with_events = expect(jupiter, finest_detail_arcsec=FAIR, highest_power=150, events=events)
    without = expect(jupiter, finest_detail_arcsec=FAIR, highest_power=150)

    assert chance_of(with_events, "'s shadow on the disc") is Chance.POSSIBLE
    assert not any("shadow" in feature_text(item) for item in without)


def test_a_small_mars_promises_nothing_on_its_disc() -> None:
    small, large = at(Body.MARS, "2026-01-19T12:00:00"), at(Body.MARS, "2027-02-19T21:00:00")

    near_the_sun = expect(small, finest_detail_arcsec=FAIR, highest_power=200)
    at_opposition = expect(large, finest_detail_arcsec=FAIR, highest_power=200)

    assert chance_of(near_the_sun, "dark markings") is Chance.UNLIKELY
    assert chance_of(at_opposition, "dark markings") is Chance.LIKELY


def test_a_cap_that_is_turned_away_is_not_promised() -> None:
    # In February 2027 it is the north that tilts towards us.
    found = expect(at(Body.MARS, "2027-02-19T21:00:00"), finest_detail_arcsec=0.5, highest_power=300)

    assert chance_of(found, "northern polar cap") is Chance.LIKELY
    assert chance_of(found, "southern polar cap") is Chance.UNLIKELY
    assert "it is turned away from us" in [ground_text(item) for item in found]


def test_clouds_of_venus_are_never_promised() -> None:
    venus = at(Body.VENUS, "2026-09-24T18:00:00")

    found = expect(venus, finest_detail_arcsec=0.3, highest_power=400)

    assert chance_of(found, "crescent") is Chance.LIKELY
    assert chance_of(found, "Markings") is Chance.UNLIKELY


def test_a_full_moon_promises_rays_and_not_shadows() -> None:
    full = expect(at(Body.MOON, "2026-11-24T12:00:00"), finest_detail_arcsec=FAIR, highest_power=100)
    half = expect(at(Body.MOON, "2026-11-17T12:00:00"), finest_detail_arcsec=FAIR, highest_power=100)

    assert [feature_text(item) for item in full] == ["Bright rays and dark plains"]
    assert [feature_text(item) for item in half] == ["Craters and mountains with their shadows"]
    # 1.45 arcsec at 1.86 km each.
    assert "2.7 km" in ground_text(half[0])


def test_too_low_to_tell_promises_nothing() -> None:
    found = expect(SUBJECTS[Body.JUPITER], finest_detail_arcsec=None, highest_power=None)

    assert [item.chance for item in found] == [Chance.UNLIKELY]


@pytest.mark.parametrize("body", TARGETS)
@settings(max_examples=25, deadline=None)
@given(detail=st.floats(0.2, 15), power=st.floats(5, 500), more=st.floats(0, 300), worse=st.floats(0, 10))
def test_chances_only_fall_with_worse_air_and_never_rise_by_power_alone(
    body: Body, detail: float, power: float, more: float, worse: float
) -> None:
    order = list(Chance)

    def ranks(detail_arcsec: float, highest_power: float) -> dict[str, int]:
        found = expect(SUBJECTS[body], finest_detail_arcsec=detail_arcsec, highest_power=highest_power)
        return {feature_text(item): order.index(item.chance) for item in found}

    base, blurred, without_limit = ranks(detail, power), ranks(detail + worse, power), ranks(detail, 1e6)

    for what, rank in blurred.items():
        if what in base:
            assert rank >= base[what]
    for what, rank in ranks(detail, power + more).items():
        assert rank >= without_limit[what]


@pytest.mark.parametrize(
    ("opening_deg", "chance"),
    [
        (4.9, Chance.UNLIKELY),
        (5.1, Chance.POSSIBLE),
        (9.9, Chance.POSSIBLE),
        (-9.9, Chance.POSSIBLE),
        (10.1, Chance.LIKELY),
        (-10.1, Chance.LIKELY),
    ],
)
def test_a_gap_needs_a_ring_open_by_ten_degrees(opening_deg: float, chance: Chance) -> None:
    found = expect(saturn_open(opening_deg), finest_detail_arcsec=0.3, highest_power=500)

    assert chance_of(found, "gap") is chance


def saturn_open(opening_deg: float) -> Subject:
    """Return a Saturn whose ring is so far open, its lit side towards us."""
    ring = Ring(
        opening_deg=opening_deg,
        sun_latitude_deg=opening_deg,
        major_axis_arcsec=44.0,
        minor_axis_arcsec=44.0 * abs(opening_deg) / 60.0,
        gap_width_arcsec=0.72,
    )
    return attrs.evolve(SUBJECTS[Body.SATURN], ring=ring)


@given(opening=st.floats(-27, 27), detail=st.floats(0.3, 5))
def test_a_gap_is_never_likely_in_a_ring_less_than_ten_degrees_open(opening: float, detail: float) -> None:
    found = expect(saturn_open(opening), finest_detail_arcsec=detail, highest_power=500)

    if abs(opening) < 10.0:
        assert chance_of(found, "gap") is not Chance.LIKELY
    if abs(opening) < 5.0:
        assert chance_of(found, "gap") is Chance.UNLIKELY
