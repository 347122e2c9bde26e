"""The planet in hand, the list of steps and the answer keep to one order, as a practised observer would."""

from datetime import datetime, timedelta

import pytest
from attrs import evolve

from core.gear.owned import Eyepiece, Telescope, TelescopeKind
from core.record.observer import Preferences, Profile
from core.record.profile import read_profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import BlockedSky, Site
from core.words.answer import answer_words
from core.words.site_clock import clock_of
from tests.core.practised import (
    BALCONY,
    CLOSED_TUBE,
    FIRST_REFRACTOR,
    LARGE_REFLECTOR,
    SAMPLES,
    answer,
    at,
)


def test_one_planet_is_told_as_now_and_the_answer_keeps_to_the_order() -> None:
    """Minnesota on 10 January 2027: Saturn sinks, Uranus and Neptune have their turn, Jupiter comes up.

    While Saturn was at its best the answer told of Uranus's turn, and the steps of Uranus alone.
    """
    profile = read_profile(SAMPLES / f"{CLOSED_TUBE}.toml")
    start = datetime(2027, 1, 10, 17, 10, tzinfo=profile.sites[0].zone)
    for number in range(38):
        situation = Situation(Choices(profile=profile), start + timedelta(minutes=10 * number))
        told, now = answer_words(situation), situation.present
        assert now is not None
        turn = next(target for target in situation.targets if target.minutes.holds(now))

        assert situation.planet is turn.body
        assert told.startswith((f"{turn.body.heading} ", f"In your hours {turn.body.label} is best "))
        assert "'s turn" not in told
        assert told.count(" now, ") <= 1
        # What follows, and when to go over to it, is told as the list of steps has it.
        place = situation.targets.index(turn)
        after = situation.targets[place + 1 :][:1]
        clock = clock_of(situation)
        assert clock is not None
        assert told.count("Go over to ") == len(after)
        for target in after:
            assert f"Go over to {target.body.label} at {clock.time(target.minutes.start)}." in told


def test_a_mere_dot_leaves_a_better_planet_its_time() -> None:
    """Saturn stood 41 degrees high when it gave way to Neptune, which was above 30 for an hour more."""
    profile = read_profile(SAMPLES / f"{CLOSED_TUBE}.toml")
    now = datetime(2027, 1, 10, 15, 0, tzinfo=profile.sites[0].zone)
    situation = Situation(Choices(profile=profile), now)
    night = situation.night
    assert night is not None
    targets = {target.body: target.minutes for target in situation.targets}

    assert targets[Body.SATURN].duration >= timedelta(hours=2)
    assert night.position(Body.NEPTUNE, targets[Body.NEPTUNE].end).altitude_deg >= 29.9
    # Mars, at 26 degrees, took the last of the hours from Jupiter at its highest in them.
    assert Body.MARS not in targets
    assert targets[Body.JUPITER].end >= night.of(Body.JUPITER).windows[0].end


def test_jupiter_in_opposition_has_the_time_when_it_is_highest() -> None:
    """Mars had it, since it rises a little later; both stay up beyond the hours."""
    profile = evolve(
        read_profile(SAMPLES / f"{BALCONY}.toml"),
        sites=(Site(id="s", name="Skye", latitude_deg=57.5, longitude_deg=-5.5, time_zone="Europe/London"),),
    )
    now = datetime(2027, 2, 12, 15, 0, tzinfo=profile.sites[0].zone)
    targets = Situation(Choices(profile=profile), now).targets

    bodies = [target.body for target in targets]
    assert bodies[-1] is Body.JUPITER
    assert Body.MARS in bodies
    assert targets[-1].minutes.duration >= timedelta(minutes=75)


def test_a_dot_that_stays_low_is_no_target() -> None:
    """Mars of 4.5 arcsec at 14 degrees in a bright dusk was what the evening began with."""
    situation = Situation(
        Choices(profile=read_profile(SAMPLES / f"{FIRST_REFRACTOR}.toml")),
        datetime(2027, 10, 2, 15, 0, tzinfo=read_profile(SAMPLES / f"{FIRST_REFRACTOR}.toml").sites[0].zone),
    )

    assert [target.body for target in situation.targets] == [Body.NEPTUNE, Body.SATURN]


def test_nobody_begins_with_a_faint_dot_that_is_low() -> None:
    """Neptune, of magnitude 8, was what a dusk began with at 10 degrees, with Saturn an hour to come."""
    waiting = on(CLOSED_TUBE, "2026-09-01T20:15")

    assert [target.body for target in waiting.targets] == [Body.SATURN]
    assert waiting.planet is Body.SATURN
    assert "No planet is worth a look before 10:08 pm. If you stay up, it stands better" in answer_words(
        waiting
    )
    assert "No planet is worth" not in answer_words(on(CLOSED_TUBE, "2026-09-01T21:50"))
    # Chosen by hand it is there all the same.
    by_hand = Situation(evolve(waiting.choices, planet=Body.NEPTUNE), waiting.now)
    assert Body.NEPTUNE in [target.body for target in by_hand.targets]
    # Uranus sank from 19 degrees, with Jupiter at 35.
    assert on(LARGE_REFLECTOR, "2027-03-27T15:00").targets[0].body is Body.JUPITER


@pytest.mark.parametrize(
    ("sample", "day"),
    [(CLOSED_TUBE, "2027-09-23"), (FIRST_REFRACTOR, "2027-09-05"), (FIRST_REFRACTOR, "2028-08-21")],
)
def test_a_faint_dot_that_rises_has_its_turn_once_it_stands_well(sample: str, day: str) -> None:
    situation = on(sample, f"{day}T15:00")
    night = situation.night
    assert night is not None
    turns = [each.minutes for each in situation.targets if each.body in (Body.NEPTUNE, Body.URANUS)]

    assert all(night.position(Body.NEPTUNE, turn.start).altitude_deg > 29.9 for turn in turns)


def test_what_sinks_or_rises_is_not_at_its_best() -> None:
    """Venus, at 16 degrees an hour and a half after its highest, was at its best now."""
    profile = read_profile(SAMPLES / f"{LARGE_REFLECTOR}.toml")

    def told(hour: int, minute: int) -> str:
        now = datetime(2026, 9, 20, hour, minute, tzinfo=profile.sites[0].zone)
        return answer_words(Situation(Choices(profile=profile), now))

    assert told(20, 0).startswith("Venus is at its best now, until 21:43.")
    assert told(21, 20).startswith("Venus is low now, in thick air, and sinking, in sight until 21:43;")
    assert "Next comes Neptune, from 22:16." in told(21, 20)
    assert told(22, 30).startswith("Neptune stands well now, and is still rising; better still is Saturn,")
    assert told(22, 30).endswith("Go over to Saturn at 23:01. If you stay up, it stands better from 00:27.")


def test_whoever_climbs_keeps_the_planet_past_its_turn() -> None:
    profile = read_profile(SAMPLES / f"{BALCONY}.toml")
    zone = profile.sites[0].zone
    choices = Choices(
        profile=profile,
        rung_power=120.0,
        rung_since=datetime(2026, 12, 5, 21, 25, tzinfo=zone),
        rung_planet=Body.SATURN,
    )

    planets = [
        Situation(choices, datetime(2026, 12, 5, hour, minute, tzinfo=zone)).planet
        for hour, minute in ((21, 30), (21, 50), (21, 56))
    ]

    assert planets == [Body.SATURN, Body.SATURN, Body.NEPTUNE]


def test_before_a_long_night_its_first_target_is_told_beside_its_best() -> None:
    told, steps = answer(BALCONY, "15:00", until="dawn"), at(BALCONY, "15:00", until="dawn").targets

    assert steps[0].body is Body.SATURN
    assert told.startswith("Jupiter is best 02:43–07:27.")
    assert "Begin with Saturn at 17:21." in told
    assert "Begin with" not in answer(BALCONY, "15:00")


def test_warm_air_over_roofs_is_no_place_for_a_turn() -> None:
    """Mars had its hour above the houses opposite, where it stood in clean air an hour later."""
    site = Site(
        id="v",
        name="Roof terrace",
        latitude_deg=48.2,
        longitude_deg=16.37,
        time_zone="Europe/Vienna",
        blocked=(
            BlockedSky(
                azimuth_from_deg=80,
                azimuth_to_deg=150,
                below_altitude_deg=25,
                what="houses opposite",
                heated=True,
            ),
        ),
    )
    profile = evolve(read_profile(SAMPLES / f"{BALCONY}.toml"), sites=(site,))
    situation = Situation(Choices(profile=profile), datetime(2027, 2, 12, 15, 0, tzinfo=site.zone))
    turns = {target.body: target.minutes for target in situation.targets}

    assert all(window.warm_air is None for window in turns[Body.MARS].windows)
    assert all(window.warm_air is None for window in turns[Body.JUPITER].windows)


def test_what_is_in_hand_in_passing_is_not_told_to_be_better_after_its_turn() -> None:
    site = Site(id="b", name="Balcony", latitude_deg=41.4, longitude_deg=2.17, time_zone="Europe/Madrid")
    profile = evolve(read_profile(SAMPLES / f"{BALCONY}.toml"), sites=(site,))
    for minute in range(0, 240, 10):
        now = datetime(2027, 11, 20, 18, 0, tzinfo=site.zone) + timedelta(minutes=minute)
        situation = Situation(Choices(profile=profile), now)
        turn = next((each for each in situation.targets if each.minutes.holds(now)), None)
        if turn is None or turn.body is situation.best_planet or situation.better_later is None:
            continue
        assert situation.better_later.start < turn.minutes.end


def on(sample: str, local: str) -> Situation:
    profile = read_profile(SAMPLES / f"{sample}.toml")
    return Situation(
        Choices(profile=profile), datetime.fromisoformat(local).replace(tzinfo=profile.sites[0].zone)
    )


def test_whoever_stays_a_little_longer_keeps_the_last_planet() -> None:
    """At half past eleven Uranus, at 70 degrees, gave way to Saturn at 29, left long before."""
    assert [at(BALCONY, clock).planet for clock in ("23:29", "23:31", "23:55")] == [Body.URANUS] * 3
    assert at(BALCONY, "00:05").planet is Body.JUPITER


def test_warm_air_is_not_what_comes_next_in_warm_air() -> None:
    """It said "through warm air (tiled roof): in 5 min warm air (tiled roof)"."""
    told = answer(BALCONY, "01:15", Body.JUPITER)

    assert "are over. Jupiter is seen through warm air (tiled roof) now" in told
    assert told.count("warm air (tiled roof)") == 1


def test_once_the_hours_have_begun_nobody_begins() -> None:
    told = answer_words(on(LARGE_REFLECTOR, "2027-03-05T20:50"))

    assert "Begin with" not in told
    assert "Go over to Uranus at 21:01." in told
    assert "Begin with Uranus at 21:01." in answer_words(on(LARGE_REFLECTOR, "2027-03-05T17:00"))


def test_what_sinks_in_dusk_is_told_to_begin_with_though_the_best_is_up_too() -> None:
    """Venus, a crescent of 47 arcsec in the west, was first in the list of steps, and not in the answer."""
    situation = on(FIRST_REFRACTOR, "2028-05-10T15:00")

    assert [target.body for target in situation.targets] == [Body.VENUS, Body.JUPITER]
    assert "Begin with Venus at 19:03." in answer_words(situation)


def test_a_second_good_time_stays_good_to_its_end() -> None:
    """Jupiter came out of the flue's warm air, and was past its best since before it."""
    for clock in ("02:05", "02:20", "02:30"):
        told = answer_words(on(LARGE_REFLECTOR, f"2027-03-06T{clock}"))
        assert "are over. Jupiter still stands well now, until 02:33." in told
    after = answer_words(on(LARGE_REFLECTOR, "2027-03-06T02:40"))
    assert "are over. Jupiter has been past its best since 02:33, and is low, in thick air." in after


def test_each_of_two_good_planets_has_a_time_at_which_it_stands_well() -> None:
    """Mars had 25 minutes at 24 degrees, for Jupiter took an hour and a half of the end of the hours."""
    situation = on(LARGE_REFLECTOR, "2027-03-05T15:00")
    night = situation.night
    assert night is not None
    turns = {target.body: target.minutes for target in situation.targets}

    assert night.position(Body.MARS, turns[Body.MARS].start).altitude_deg > 33.0
    assert turns[Body.JUPITER].duration >= timedelta(minutes=85)


def test_a_moon_that_shows_as_much_as_ever_is_not_put_off_for_months() -> None:
    """Past full at 27 degrees it was "better on 1 January 2029", eight months later."""
    told = answer_words(on(FIRST_REFRACTOR, "2028-05-11T01:20"))

    assert told.endswith("Even at its best, 64° high on 27 February 2029, it shows little more.")


@pytest.mark.parametrize(
    ("sample", "day"),
    [
        (CLOSED_TUBE, "2027-01-10"),
        (CLOSED_TUBE, "2028-03-20"),
        (BALCONY, "2026-10-20"),
        (LARGE_REFLECTOR, "2027-03-05"),
        (LARGE_REFLECTOR, "2026-09-20"),
        (FIRST_REFRACTOR, "2028-01-20"),
    ],
)
def test_the_order_stays_as_it_is_while_the_hours_go_by(sample: str, day: str) -> None:
    """Jupiter, at 11 degrees, pushed into the order in the last minutes, since all others had been seen."""
    before = on(sample, f"{day}T15:00")
    assert before.hours is not None
    now = before.hours.start
    while now < before.hours.end:
        assert Situation(before.choices, now).targets == before.targets
        now += timedelta(minutes=20)


def test_what_is_low_in_its_turn_is_not_spoken_of_as_over() -> None:
    told = answer_words(on(CLOSED_TUBE, "2028-03-20T20:40"))

    assert told.startswith("Venus is low now, in thick air, and sinking; better still is Jupiter, 9:24 pm")
    assert "Go over to Uranus at 9:27 pm." in told


def test_nobody_goes_over_from_what_is_not_up() -> None:
    """In bright dusk it said "Go over to Saturn at 15:23", with Jupiter in hand, best after midnight."""
    site = Site(id="o", name="Oulu", latitude_deg=65.0, longitude_deg=25.5, time_zone="Europe/Helsinki")
    profile = evolve(
        read_profile(SAMPLES / f"{BALCONY}.toml"),
        sites=(site,),
        preferences=Preferences(out_until="dawn"),
    )
    told = answer_words(Situation(Choices(profile=profile), datetime(2027, 1, 5, 15, 0, tzinfo=site.zone)))

    assert told.startswith("Jupiter is best 00:08–06:15.")
    assert "Begin with Saturn at 15:23." in told


def test_what_is_only_after_the_hours_is_no_next() -> None:
    """It said "Next comes Saturn, from 05:19" to somebody who is out until half past eleven."""
    site = Site(id="q", name="Quinta", latitude_deg=38.7, longitude_deg=-9.1, time_zone="Europe/Lisbon")
    profile = evolve(read_profile(SAMPLES / f"{BALCONY}.toml"), sites=(site,))
    for clock in ("21:40", "22:20", "23:00"):
        now = datetime.fromisoformat(f"2027-07-15T{clock}").replace(tzinfo=site.zone)
        situation = Situation(Choices(profile=profile), now)
        told = answer_words(situation)

        assert all(target.body is not Body.SATURN for target in situation.targets)
        assert "Next comes" not in told
        assert "Before dawn, if you get up early, Saturn from 05:19." in told


def test_a_power_right_at_the_ceiling_is_not_called_over_it() -> None:
    """It said "nothing between that and the ceiling of about 200x, though 200x is worth a try"."""
    site = Site(id="v", name="Roof", latitude_deg=48.2, longitude_deg=16.37, time_zone="Europe/Vienna")
    scope = Telescope(
        id="ten", name="Ten-inch", kind=TelescopeKind.REFLECTOR, aperture_mm=254, focal_length_mm=1200
    )
    profile = Profile(
        sites=(site,),
        telescopes=(scope,),
        eyepieces=tuple(Eyepiece(name=f"{mm} mm", focal_length_mm=mm) for mm in (30, 15, 9, 6)),
        preferences=Preferences(out_until="dawn"),
    )
    told = answer_words(Situation(Choices(profile=profile), datetime(2028, 11, 11, 0, 0, tzinfo=site.zone)))

    assert "15 mm, 80x, and up to 133x; 200x, right at the ceiling, is worth a try." in told
    assert "you own nothing between" not in told
