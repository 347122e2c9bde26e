"""What a practised observer read on real evenings, hour by hour: one truth for the whole evening."""

from datetime import date, datetime, timedelta
from datetime import time as clock_time
from functools import cache
from pathlib import Path

import pytest
from attrs import evolve

from core.record.profile import read_profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import Site
from core.tonight.steps import ItemKind
from core.words.answer import answer_words
from core.words.climbing import what_next_words
from core.words.evening import item_words
from core.words.reasons import answer_reasons
from core.words.site_clock import clock_of
from core.words.verdicts import asked_words

SAMPLES = Path(__file__).parents[2] / "sample_profiles"
BALCONY, CLOSED_TUBE = "balcony_greece", "closed_tube_minnesota"
LARGE_REFLECTOR, FIRST_REFRACTOR = "large_reflector_argentina", "first_refractor_japan"
EVENING = date(2026, 12, 5)


@cache
def at(sample: str, clock: str, planet: Body | None = None, *, until: str = "23:30") -> Situation:
    """Return the evening of 5 December as it is at a time; times before noon are of the next morning."""
    profile = read_profile(SAMPLES / f"{sample}.toml")
    profile = evolve(profile, preferences=evolve(profile.preferences, out_until=until))
    time = clock_time.fromisoformat(clock)
    day = EVENING if time.hour >= 12 else EVENING + timedelta(days=1)
    now = datetime(day.year, day.month, day.day, time.hour, time.minute, tzinfo=profile.sites[0].zone)
    return Situation(Choices(profile=profile, planet=planet), now)


def answer(sample: str, clock: str, planet: Body | None = None, *, until: str = "23:30") -> str:
    return answer_words(at(sample, clock, planet, until=until))


def test_the_best_minutes_are_the_same_all_evening() -> None:
    assert answer(BALCONY, "18:00").startswith("Saturn is best 18:31–21:35.")
    assert answer(BALCONY, "20:00").startswith("Saturn is at its best now, until 21:35.")
    assert answer(BALCONY, "21:30").startswith("Saturn is at its best now, until 21:35.")
    assert answer(BALCONY, "23:00").startswith("Saturn has been past its best since 21:35")


def test_sinking_under_thirty_degrees_is_not_setting() -> None:
    told = answer(BALCONY, "23:00")

    # Saturn sets at 02:08.
    assert "and is above 30° until 23:21." in told
    assert "up until" not in told


def test_after_the_hours_the_rest_of_the_night_counts() -> None:
    told = answer(BALCONY, "03:00")

    assert told.startswith("Jupiter is at its best now, until 07:27.")
    assert "If you stay up" not in told


def test_nothing_is_at_its_best_that_is_better_later() -> None:
    told = answer(BALCONY, "00:30")

    assert told.startswith("Jupiter is low now, in thick air, and better from 02:43. Look east")
    assert "at its best now" not in told
    assert "Until then Uranus stands higher: south-west, two thirds of the way up: 67°." in told
    assert "If you stay up" not in told


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
    assert what_next_words(at(BALCONY, "07:11")).startswith("Next 120x")


def test_a_count_of_minutes_agrees_with_the_clock() -> None:
    assert "by 07:27: 7 min left. The Sun rises at 07:37." in answer(BALCONY, "07:20")
    assert "the Sun rises in 7 min, at 07:37." in answer(BALCONY, "07:30")
    assert "cap the telescope and its finder now" in answer(BALCONY, "07:27")


def test_what_is_borne_at_the_best_is_told_as_that() -> None:
    assert "with Saturn at its best, tonight's air (seeing, assumed fair) bears about 176x" in answer(
        BALCONY, "15:00"
    )
    assert "at its best, tonight's air" not in answer(BALCONY, "20:00")


def test_reasons_stand_in_their_order_without_what_daylight_hides() -> None:
    situation = at(BALCONY, "23:00")
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


def test_the_stop_line_is_for_whoever_is_out_until_then() -> None:
    kinds = [item.kind for item in at(BALCONY, "20:00").evening_steps]
    still_up = [item.kind for item in at(BALCONY, "03:00").evening_steps]

    assert ItemKind.PACK_UP in kinds
    assert ItemKind.STOP not in kinds
    assert ItemKind.STOP in still_up


def test_answer_and_ladder_name_the_same_next_without_a_reducer() -> None:
    told, next_words = (
        answer(CLOSED_TUBE, "20:00", Body.MOON),
        what_next_words(at(CLOSED_TUBE, "20:00", Body.MOON)),
    )

    assert next_words == "Once the Moon is in sight, 85x, 24 mm of 8-24 mm zoom, is worth a try."
    assert "40 mm first, 51x; 24 mm of 8-24 mm zoom, 85x, is worth a try." in told
    assert "reducer" not in told


def test_a_telescope_that_is_still_indoors_is_carried_out_now() -> None:
    situation, clock = at(BALCONY, "18:00"), clock_of(at(BALCONY, "18:00"))
    assert clock is not None
    items = {item.kind: item for item in situation.evening_steps}
    carry, ready = items[ItemKind.CARRY_OUT], items[ItemKind.READY]

    assert carry.start == situation.present
    assert item_words(carry, clock).startswith(
        "Carry the telescope out now: usable for planets from about 18:20 to 18:40 (an estimate)."
    )
    assert clock.span(ready.start, ready.end) in {"18:19–18:40", "18:20–18:40", "18:19–18:41"}
    # Before its time, and once it is said to be out, nothing changes.
    assert "by 16:21 for Saturn" in item_words(
        {item.kind: item for item in at(BALCONY, "15:30").evening_steps}[ItemKind.CARRY_OUT], clock
    )


@pytest.mark.parametrize("sample", [BALCONY, CLOSED_TUBE, FIRST_REFRACTOR, LARGE_REFLECTOR])
def test_each_target_has_its_turn_while_it_stands_well(sample: str) -> None:
    situation = at(sample, "15:00")
    night, targets = situation.night, situation.targets
    assert night is not None

    assert [target.body for target in targets] == [Body.SATURN, Body.NEPTUNE, Body.URANUS]
    saturn, neptune, _uranus = (target.minutes for target in targets)
    # Its best hour and more is Saturn's, or what dusk leaves of it.
    highest, around, hours = night.of(Body.SATURN).highest.time, timedelta(minutes=40), situation.hours
    assert hours is not None
    assert saturn.start <= max(highest - around, hours.start + timedelta(minutes=10))
    assert saturn.end >= highest + around
    # Half an hour is Neptune's, above 30 degrees; it was left for last, at 26 degrees.
    assert neptune.duration >= timedelta(minutes=30)
    assert all(
        night.position(Body.NEPTUNE, moment).altitude_deg > 30.0 for moment in (neptune.start, neptune.end)
    )


def test_what_has_hardly_risen_is_left_for_later() -> None:
    situation = at(CLOSED_TUBE, "15:00")
    bodies = [target.body for target in situation.targets]
    by_hand = [target.body for target in at(CLOSED_TUBE, "15:00", Body.JUPITER).targets]

    # Jupiter gets to 15 degrees by half past eleven, and stands above 45 from 02:42 on.
    assert Body.JUPITER not in bodies
    assert Body.JUPITER in by_hand


def test_whoever_is_still_up_stays_up_for_what_comes_soon() -> None:
    assert "If you stay up, Jupiter from 03:53." in answer(LARGE_REFLECTOR, "01:30")
    assert "Before dawn, if you get up early, Jupiter from 03:53." in answer(LARGE_REFLECTOR, "22:00")


def test_whoever_is_out_all_night_is_told_what_to_look_at_now_and_what_is_best_later() -> None:
    """Jupiter is the night's best, above 45 degrees from 02:43 on; Saturn stands high until then."""
    early, late = (answer(BALCONY, clock, until="dawn") for clock in ("20:00", "22:30"))

    assert early.startswith("Saturn is at its best now, until 21:35; better still is Jupiter, 02:43–07:27.")
    assert "Look south, half way up: 50°." in early
    assert late.startswith("Saturn has been past its best since 21:35; better still is Jupiter, 02:43–07:27.")
    # Its ladder is that of what is looked at.
    assert at(BALCONY, "20:00", until="dawn").aim.planet is Body.SATURN
    # Once nothing shows more until then, it is in hand while it is low still.
    assert answer(BALCONY, "00:30", until="dawn").startswith("Jupiter is low now, in thick air, and better")
    assert answer(BALCONY, "03:00", until="dawn").startswith("Jupiter is at its best now, until 07:27.")


@pytest.mark.parametrize("sample", [BALCONY, CLOSED_TUBE, FIRST_REFRACTOR, LARGE_REFLECTOR])
@pytest.mark.parametrize("until", ["23:30", "dawn"])
def test_the_planet_stays_in_hand_in_the_last_minutes_before_sunrise(sample: str, until: str) -> None:
    sun = at(sample, "15:00").night
    assert sun is not None
    assert sun.sun.rise is not None
    stop = sun.sun.rise - timedelta(minutes=10)

    def planet_at(minutes: float) -> Body | None:
        local = (stop + timedelta(minutes=minutes)).astimezone(sun.site.zone)
        return at(sample, f"{local:%H:%M}", until=until).planet

    in_hand = planet_at(-16)
    assert [planet_at(minutes) for minutes in (-14, -8, -2, 3, 8)] == [in_hand] * 5


def test_after_the_hours_it_says_that_they_are_over() -> None:
    told = answer(BALCONY, "00:30", Body.VENUS)

    assert told.startswith("Your hours, 17:21–23:30, are over; Venus before dawn, 06:23–07:27, if you get up")
    assert "Nothing good in your hours" not in told
    # Before them it is as it was.
    assert "good only outside your hours" in answer(BALCONY, "15:00", Body.VENUS)


def test_strip_and_answer_end_saturns_time_at_one_minute() -> None:
    situation = at(BALCONY, "21:30")
    clock = clock_of(situation)
    assert clock is not None
    saturn, neptune = (target.minutes for target in situation.targets[:2])

    assert answer_words(situation).startswith("Saturn is at its best now, until 21:35.")
    assert (clock.time(saturn.end), clock.time(neptune.start)) == ("21:35", "21:35")
    # From then on the answer tells whose turn it is.
    assert "It is Neptune's turn now, until 22:05:" in answer(BALCONY, "21:40")
    assert "'s turn" not in answer(BALCONY, "21:30")


def test_a_planet_to_come_is_not_spoken_of_as_if_it_were_in_sight() -> None:
    told = [what_next_words(at(BALCONY, "15:00", planet)) for planet in (None, Body.JUPITER)]

    assert told == [
        "Once Saturn is in sight, go on from here to 120x, 10 mm.",
        "Once Jupiter is in sight, go on from here to 120x, 10 mm.",
    ]
    # It set at 02:08.
    assert what_next_words(at(BALCONY, "03:00", Body.SATURN)).startswith(
        "Saturn is no longer to be seen this"
    )


QUITO = Site(id="q", name="Quito", latitude_deg=-0.2, longitude_deg=-78.5, time_zone="America/Guayaquil")
TROMSO = Site(id="t", name="Tromsø", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")
ROME = Site(id="r", name="Rome", latitude_deg=41.9, longitude_deg=12.5, time_zone="Europe/Rome")


def answer_at(site: Site, local: str, planet: Body | None = None) -> str:
    profile = evolve(read_profile(SAMPLES / f"{BALCONY}.toml"), sites=(site,))
    now = datetime.fromisoformat(local).replace(tzinfo=site.zone)
    return answer_words(Situation(Choices(profile=profile, planet=planet), now))


def test_where_nothing_is_left_that_shows_anything_the_evening_s_best_is_told_as_over() -> None:
    """Mercury low before dawn, a dot of 6 arcsec, is nothing to get up for after an evening of Jupiter."""
    for time in ("23:20", "23:55"):
        told = answer_at(QUITO, f"2026-04-15T{time}")
        assert (
            told
            == "Jupiter is done for this evening: under 10° since 23:07. Its best minutes were 18:37–20:31."
        )


def test_hours_that_have_begun_are_not_called_good_for_nothing() -> None:
    # Venus was low in the west, and has gone.
    told = answer_at(ROME, "2026-07-10T23:00")

    assert told.startswith(
        "Nothing good is left in your hours, 21:06–23:30; Saturn before dawn, 03:24–05:24,"
    )


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

    assert told.startswith("Saturn is best 22:56–23:30, though low, in thick air.")
    assert told.endswith("If you stay up, it stands better from 02:56.")
    # Nothing is said twice of one and the same hour.
    berlin = Site(id="b", name="Berlin", latitude_deg=52.5, longitude_deg=13.4, time_zone="Europe/Berlin")
    for hour in range(17, 24):
        for planet in (Body.SATURN, Body.JUPITER, Body.MARS):
            told = answer_at(berlin, f"2026-10-24T{hour}:40", planet)
            assert told.lower().count("stay up") + told.count("get up early") <= 1
