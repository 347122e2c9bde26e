"""What a practised observer read of targets in their order, and of the ends of hours and nights."""

from datetime import date, datetime, time, timedelta

import pytest
from attrs import evolve

from core.air.temperatures import Temperatures
from core.export.heights import heights_json
from core.record.observer import TemperatureUnit
from core.record.profile import read_profile
from core.report.heights import heights_text
from core.situation.choices import (
    Choices,
    EveningHours,
    EveningSteps,
    EveningTemperatures,
    ScopeOutside,
)
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import Site
from core.tonight.steps import ItemKind
from core.words.answer import answer_words, carry_out_told
from core.words.evening import item_words
from core.words.site_clock import clock_of
from tests.core.practised import (
    BALCONY,
    CLOSED_TUBE,
    FIRST_REFRACTOR,
    LARGE_REFLECTOR,
    SAMPLES,
    answer,
    answer_at,
    at,
)


def test_the_stop_line_is_for_whoever_is_out_until_then() -> None:
    kinds = [item.kind for item in at(BALCONY, "20:00").evening_steps]
    still_up = [item.kind for item in at(BALCONY, "03:00").evening_steps]

    assert ItemKind.PACK_UP in kinds
    assert ItemKind.STOP not in kinds
    assert ItemKind.STOP in still_up


def test_a_telescope_that_is_still_indoors_is_carried_out_now() -> None:
    situation, clock = at(BALCONY, "18:00"), clock_of(at(BALCONY, "18:00"))
    assert clock is not None
    items = {item.kind: item for item in situation.evening_steps}
    carry, ready = items[ItemKind.CARRY_OUT], items[ItemKind.READY]

    assert carry.start == situation.present
    assert item_words(carry, clock, unit=TemperatureUnit.CELSIUS).startswith(
        "Carry the telescope out now: it becomes usable for planets some time between 18:20 and 18:40 "
        "(an estimate)."
    )
    assert clock.span(ready.start, ready.end) in {"18:19–18:40", "18:20–18:40", "18:19–18:41"}
    # Before its time, and once it is said to be out, nothing changes.
    assert "by 16:21 for Saturn" in item_words(
        {item.kind: item for item in at(BALCONY, "15:30").evening_steps}[ItemKind.CARRY_OUT],
        clock,
        unit=TemperatureUnit.CELSIUS,
    )


def test_the_answer_tells_when_the_telescope_goes_out_while_that_is_to_come() -> None:
    """Half an hour before its time nothing on screen told of it but a list that had to be scrolled."""
    before, late, dark = (at(BALCONY, clock) for clock in ("15:30", "16:50", "18:00"))
    told = answer_words(before)

    assert (
        "50°. Carry the telescope out by 16:21, into the shade with its caps on until sunset. 25 mm" in told
    )
    assert heights_json(before)["answer"] == told
    assert "carry the telescope out by 16:21" in " ".join(heights_text(before).split()).lower()
    # A six-inch open reflector 17 °C too warm needs about 27 minutes (common practice, no source).
    by_day = "into the shade with its caps on until sunset: it is likely usable at about 17:15 (an estimate)."
    assert f"Carry the telescope out now, {by_day}" in answer_words(late)
    assert "Carry the telescope out now: it is likely usable at about 18:25" in answer_words(dark)
    for wordings in map(carry_out_told, (before, late, dark)):
        lengths = [len(words) for words in wordings]
        assert lengths == sorted(set(lengths), reverse=True)


def test_nothing_is_told_of_a_telescope_that_is_out_or_needs_no_cooling() -> None:
    site_id, evening = "balcony", date(2026, 12, 5)
    before = at(BALCONY, "15:30")
    assert before.present is not None
    out = ScopeOutside(evening=evening, site_id=site_id, scope_id="six", since=before.present)
    done = EveningSteps(evening=evening, site_id=site_id, done=frozenset({ItemKind.CARRY_OUT.value}))
    as_cold = EveningTemperatures(
        evening=evening,
        site_id=site_id,
        told_at=before.present,
        temperatures=Temperatures(indoor_c=8.0, now_c=8.0, dusk_c=8.0, lowest_c=8.0),
    )
    choices = before.choices
    for chosen in (
        choices.with_outside((evening, site_id, "six"), out),
        choices.with_steps(done),
        choices.with_temperatures(evening, site_id, as_cold),
        # Another evening is not one to carry anything out for.
        evolve(choices, evening=date(2026, 12, 9)),
    ):
        assert "arry the telescope out" not in answer_words(Situation(chosen, before.now))
    # A good while into the first target it is taken to be out.
    assert carry_out_told(at(BALCONY, "20:00")) == ()


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
    assert round(neptune.duration / timedelta(minutes=1)) >= 29
    assert all(
        night.position(Body.NEPTUNE, moment).altitude_deg > 29.99 for moment in (neptune.start, neptune.end)
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
    early = answer(BALCONY, "20:00", until="dawn")
    late = answer(BALCONY, "22:30", Body.SATURN, until="dawn")

    assert early.startswith("Saturn is at its best now, until 21:35; better still is Jupiter, 02:43–07:27.")
    # Of two that are named it is said which one stands there.
    assert "Look for Saturn south, half way up: 50°." in early
    assert late.startswith("Saturn has been past its best since 21:35; better still is Jupiter, 02:43–07:27.")
    # Its ladder is that of what is looked at.
    assert at(BALCONY, "20:00", until="dawn").aim.planet is Body.SATURN
    # Uranus stands high until Jupiter is no longer low.
    waiting = answer(BALCONY, "00:30", until="dawn")
    assert waiting.startswith("Uranus is at its best now, until 02:45; better still is Jupiter, 02:43–07:27.")
    assert "Go over to Jupiter at 01:41." in waiting
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


def test_after_the_hours_one_who_stays_is_told_so_once() -> None:
    oslo = Site(id="o", name="Oslo", latitude_deg=59.9, longitude_deg=10.75, time_zone="Europe/Oslo")
    told = answer_at(oslo, "2026-12-05T23:40", Body.MARS)

    assert told.startswith(
        "Your hours, 15:36–23:30, are over. Mars is low now, in thick air, and better from 02:23."
    )
    assert told.endswith("If you stay up, Jupiter from 01:48.")


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
    # From then on Neptune is in hand, and only whoever stays with Saturn by choice hears of both.
    assert answer(BALCONY, "21:40").startswith("Neptune still stands well, above 30° until 22:50.")
    assert "When you have seen enough of Saturn, Neptune is next, until 22:06: south-west" in answer(
        BALCONY, "21:40", Body.SATURN
    )
    assert "Go over to Neptune at 21:35." in answer(BALCONY, "21:30")


QUITO = Site(id="q", name="Quito", latitude_deg=-0.2, longitude_deg=-78.5, time_zone="America/Guayaquil")
ROME = Site(id="r", name="Rome", latitude_deg=41.9, longitude_deg=12.5, time_zone="Europe/Rome")


def test_where_nothing_is_left_that_shows_anything_the_evening_s_best_is_told_as_over() -> None:
    """Mercury low before dawn, a dot of 6 arcsec, is nothing to get up for after an evening of Jupiter."""
    over = "Jupiter is done for this evening: under 10° since 23:07. Its best minutes were 18:37–20:31."

    assert answer_at(QUITO, "2026-04-15T23:20") == over
    assert answer_at(QUITO, "2026-04-15T23:55") == f"Your hours, 18:37–23:30, are over. {over}"


def test_hours_that_end_while_the_planet_rises_have_but_the_best_of_them() -> None:
    """Its last half hour in them was "its best", and Mars what whoever stays up gains.

    A few days after its opposition Jupiter, 15 degrees north, culminates in the middle of the night, 90 - 33
    - 15 degrees high over 33 degrees south.
    """
    profile = read_profile(SAMPLES / f"{LARGE_REFLECTOR}.toml")
    choices, zone = Choices(profile=profile), profile.sites[0].zone

    def at_clock(hour: int, minute: int) -> Situation:
        return Situation(choices, datetime(2027, 2, 14, hour, minute, tzinfo=zone))

    before, soon, last, over = (at_clock(*clock) for clock in ((15, 0), (22, 30), (23, 25), (23, 35)))
    told = answer_words(soon)

    assert told.startswith("In your hours Jupiter is best 23:04–23:30, still rising. Look north-east")
    assert "with Jupiter at its highest in your hours, aperture and tonight's air" in told
    assert told.endswith("If you stay up, it stands higher: 42° at 01:32.")
    assert "Mars" not in told
    assert heights_json(soon)["answer"] == told
    assert heights_text(soon).startswith("In your hours Jupiter is best 23:04–23:30, still rising.")
    # "It" would be Saturn, with which the hours begin.
    assert answer_words(before).endswith(
        "Begin with Saturn at 20:48. If you stay up, Jupiter stands higher: 42° at 01:32."
    )
    assert answer_words(last).startswith("Jupiter stands well now, and is still rising. Look north-east")
    assert answer_words(over).startswith(
        "Your hours, 20:48–23:30, are over. Jupiter stands well now, still rising, until 02:04, then warm air"
    )


def test_hours_that_end_before_thirty_degrees_have_low_minutes_of_what_rises() -> None:
    hours = (EveningHours(evening=date(2027, 2, 14), start=time(21, 30), end=time(23, 0)),)
    profile = read_profile(SAMPLES / f"{LARGE_REFLECTOR}.toml")
    choices, zone = Choices(profile=profile, hours=hours), profile.sites[0].zone
    before = Situation(choices, datetime(2027, 2, 14, 15, 0, tzinfo=zone))

    told = answer_words(before)

    assert told.startswith(
        "In your hours Jupiter is best 21:33–23:00, still rising, though low, in thick air. Look north-east"
    )
    in_passing = answer_words(Situation(choices, datetime(2027, 2, 14, 22, 55, tzinfo=zone)))
    assert in_passing.startswith("Mars is low now, in thick air, but rising.")
    # Jupiter is worth more then than Mars.
    assert in_passing.endswith("If you stay up, Jupiter stands higher: 42° at 01:32.")


def test_hours_that_have_begun_are_not_called_good_for_nothing() -> None:
    # Venus was low in the west, and has gone.
    told = answer_at(ROME, "2026-07-10T23:00")

    assert told.startswith(
        "Nothing good is left in your hours, 21:06–23:30; Saturn before dawn, 03:24–05:24,"
    )
