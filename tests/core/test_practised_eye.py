"""What a practised observer read on real evenings, hour by hour: one truth for the whole evening."""

from datetime import timedelta

import pytest

from core.sky.bodies import Body
from core.sky.site import Site
from core.words.answer import answer_words
from core.words.climbing import what_next_words
from core.words.reasons import answer_reasons
from core.words.site_clock import clock_of
from core.words.verdicts import asked_words
from tests.core.practised import BALCONY, CLOSED_TUBE, FIRST_REFRACTOR, LARGE_REFLECTOR, answer, answer_at, at


def test_the_best_minutes_are_the_same_all_evening() -> None:
    assert answer(BALCONY, "18:00").startswith("Saturn is best 18:31–21:35.")
    assert answer(BALCONY, "20:00").startswith("Saturn is at its best now, until 21:35.")
    assert answer(BALCONY, "21:30").startswith("Saturn is at its best now, until 21:35.")
    assert answer(BALCONY, "23:00", Body.SATURN).startswith("Saturn has been past its best since 21:35")


def test_sinking_under_thirty_degrees_is_not_setting() -> None:
    told = answer(BALCONY, "23:00", Body.SATURN)

    # Saturn sets at 02:08.
    assert "and is above 30° until 23:21." in told
    assert "up until" not in told


def test_after_the_hours_the_rest_of_the_night_counts() -> None:
    told = answer(BALCONY, "03:00")

    assert told.startswith("Your hours, 17:21–23:30, are over. Jupiter is at its best now, until 07:27.")
    assert "If you stay up" not in told


def test_nothing_is_at_its_best_that_is_better_later() -> None:
    told = answer(BALCONY, "00:30")

    assert told.startswith(
        "Your hours, 17:21–23:30, are over. Jupiter is low now, in thick air, and better from 02:43 if you "
        "stay up. Look east"
    )
    assert "at its best now" not in told
    assert "Until then Uranus stands higher: south-west, two thirds of the way up: 67°." in told
    assert told.count("stay up") == 1


@pytest.mark.parametrize("hour", range(17, 24))
@pytest.mark.parametrize("sample", [BALCONY, CLOSED_TUBE, FIRST_REFRACTOR, LARGE_REFLECTOR])
@pytest.mark.parametrize("planet", [Body.SATURN, Body.JUPITER, Body.URANUS])
def test_at_its_best_means_nothing_better_comes(sample: str, hour: int, planet: Body) -> None:
    for situation in (at(sample, f"{hour}:10", planet), at(sample, f"{(hour + 8) % 24:02}:10", planet)):
        if not answer_words(situation).startswith(f"{planet.heading} is at its best now"):
            continue
        night, now = situation.night, situation.present
        assert night is not None
        assert now is not None
        height_deg = night.position(planet, now).altitude_deg
        # Low at its best only where it never gets any higher.
        highest = night.of(planet).highest
        assert height_deg > 30.0 or highest.altitude_deg < 32.0 or highest.time < now


def test_whoever_looks_before_dawn_gets_up_early() -> None:
    told = answer(BALCONY, "15:00", Body.VENUS)

    assert "before dawn, 06:23–07:27, if you get up early." in told
    assert "stay up" not in told
    assert "If you stay up, Jupiter from 02:43." in answer(BALCONY, "20:00")


def test_six_minutes_are_nothing_to_stay_up_for() -> None:
    told = answer(BALCONY, "20:00", Body.MOON)

    assert "for too short to stay up for: 07:21–07:27." in told
    assert "25 mm" not in told


def test_the_best_moment_is_well_before_the_stop_line() -> None:
    situation = at(BALCONY, "15:00", Body.MOON)
    venus = at(CLOSED_TUBE, "15:00", Body.VENUS)

    for each in (situation, venus):
        night, best, when = each.night, each.best, each.best_aim.at
        assert night is not None
        assert night.sun.rise is not None
        assert best is not None
        assert when is not None
        # Ten minutes before sunrise is the line, and a quarter of an hour before it the call to stop.
        assert when == best.start or night.sun.rise - when >= timedelta(minutes=25)
        assert best.end - when > timedelta(minutes=5)


@pytest.mark.parametrize("clock", ["07:13", "07:20", "07:30"])
def test_the_ladder_says_stop_as_the_answer_does(clock: str) -> None:
    situation = at(BALCONY, clock)

    assert what_next_words(situation).startswith("Off the planet")
    assert situation.next_step is None
    assert not situation.can_be_judged
    assert asked_words(situation) == ""
    # Two minutes earlier it still climbs.
    assert what_next_words(at(BALCONY, "07:11")).startswith("Begin with 48x, 25 mm. Next 120x")


def test_a_count_of_minutes_agrees_with_the_clock() -> None:
    assert "by 07:27: 7 min left. The Sun rises at 07:37." in answer(BALCONY, "07:20")
    assert "the Sun rises in 7 min, at 07:37." in answer(BALCONY, "07:30")
    assert "cap the telescope and its finder now" in answer(BALCONY, "07:27")


def test_what_is_borne_at_the_best_is_told_as_that() -> None:
    assert (
        "with Saturn at its best, aperture and tonight's air (seeing, assumed fair) can bear about 176x"
        in answer(BALCONY, "15:00")
    )
    assert "at its best, tonight's air" not in answer(BALCONY, "20:00")


def test_reasons_stand_in_their_order_without_what_daylight_hides() -> None:
    situation = at(BALCONY, "23:00", Body.SATURN)
    reasons = answer_reasons(situation.answer, clock_of(situation))
    spans = [reason for reason in reasons if reason[2] == ":" and "–" in reason[:6]]

    assert [span[:11] for span in spans] == [
        "17:20–18:31",
        "18:31–21:35",
        "21:35–23:21",
        "23:21–01:12",
        "01:28–02:08",
    ]
    # Saturn was behind the roof from 14:38 on, with the Sun high.
    assert not any("14:38" in reason for reason in reasons)


def test_answer_and_ladder_name_the_same_next_without_a_reducer() -> None:
    told, next_words = (
        answer(CLOSED_TUBE, "20:00", Body.MOON),
        what_next_words(at(CLOSED_TUBE, "20:00", Body.MOON)),
    )

    assert next_words == "Once the Moon is in sight, 85x, 24 mm of 8-24 mm zoom, is worth a try."
    assert "40 mm first, 51x; 24 mm of 8-24 mm zoom, 85x, is worth a try." in told
    assert "reducer" not in told


def test_a_planet_to_come_is_not_spoken_of_as_if_it_were_in_sight() -> None:
    told = [what_next_words(at(BALCONY, "15:00", planet)) for planet in (None, Body.JUPITER)]

    assert told == [
        "Once Saturn is in sight, begin with 48x, 25 mm, and go on from there to 120x, 10 mm.",
        "Once Jupiter is in sight, begin with 48x, 25 mm, and go on from there to 120x, 10 mm.",
    ]
    # It set at 02:08.
    assert what_next_words(at(BALCONY, "03:00", Body.SATURN)).startswith(
        "Saturn is no longer to be seen this"
    )


TROMSO = Site(id="t", name="Tromsø", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")


def test_a_summer_without_night_names_a_planet_that_one_would_look_at() -> None:
    told = answer_at(TROMSO, "2026-06-21T21:00")

    assert told.startswith(
        "On this evening the Sun stays up, and the sky never gets dark enough for Jupiter."
    )
    assert "Mercury" not in told
    assert "gets dark enough again from" in told


def test_a_planet_up_now_is_told_before_its_best_that_is_long_to_come() -> None:
    """Saturn stands 37 degrees high; above 45 degrees it is an hour later."""
    assert answer(BALCONY, "17:30").startswith("Saturn is up now, and better from 18:31. Look south-east")
    assert answer(BALCONY, "18:00").startswith("Saturn is best 18:31–21:35.")


def test_another_hour_of_the_planet_in_hand_is_told_as_its_own() -> None:
    melbourne = Site(
        id="m", name="Melbourne", latitude_deg=-37.8, longitude_deg=145.0, time_zone="Australia/Melbourne"
    )
    told = answer_at(melbourne, "2009-02-05T15:00")

    assert told.startswith(
        "In your hours Saturn is best 22:56–23:30, still rising, though low, in thick air."
    )
    # Before the hours they begin with another, so that "it" would be that one.
    assert told.endswith("Begin with Venus at 20:49. If you stay up, Saturn stands better from 02:56.")
    chosen = answer_at(melbourne, "2009-02-05T15:00", Body.SATURN)
    assert chosen.endswith("If you stay up, it stands better from 02:56.")
    # Nothing is said twice of one and the same hour.
    berlin = Site(id="b", name="Berlin", latitude_deg=52.5, longitude_deg=13.4, time_zone="Europe/Berlin")
    for hour in range(17, 24):
        for planet in (Body.SATURN, Body.JUPITER, Body.MARS):
            told = answer_at(berlin, f"2026-10-24T{hour}:40", planet)
            assert told.lower().count("stay up") + told.count("get up early") <= 1
