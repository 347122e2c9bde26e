"""The steps of an evening: what stands on the strip, how high a target is, and what a reader hears."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve

from core.air.dew import DewRisk, Shelter
from core.air.dew_outlook import DewOutlook
from core.air.readiness import readiness_in_still_air
from core.gear.owned import Stand
from core.moments.best_minutes import BestMinutes
from core.record.observer import TemperatureUnit
from core.sky.bodies import Body
from core.sky.windows import Grade, Window
from core.tonight.steps import (
    CarryOutItem,
    CollimationItem,
    CoversItem,
    DewItem,
    EveningItem,
    FinderItem,
    ItemKind,
    KitItem,
    OwnItem,
    OwnStep,
    PlaceItem,
    SettledItem,
    StarTestItem,
    StopItem,
    TargetItem,
)
from core.words.cooling import readiness_text, time_outside_text
from core.words.dew import dew_text
from core.words.evening import heard_words, item_title, item_words, titled
from core.words.site_clock import SiteClock
from tests.core.evenings import SIX

CLOCK = SiteClock(zone=ZoneInfo("Europe/Lisbon"))  # on winter's UTC
NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)


def target(*grades: Grade, behind: str | None = None, through: str | None = None) -> TargetItem:
    """Return a target with a window of an hour in each grade, from nine on."""
    windows = tuple(
        Window(start=NINE + number * HOUR, end=NINE + (number + 1) * HOUR, grade=grade, warm_air=None)
        for number, grade in enumerate(grades)
    )
    best = BestMinutes(windows=windows, rank=5, then_behind=behind, then_through=through)
    return TargetItem(start=best.start, end=best.end, body=Body.SATURN, best=best)


TARGET = target(Grade.BEST)
OWN = OwnItem(start=NINE, end=NINE, step=OwnStep(id="tea", text="Tea for two", at=NINE))
STOP = StopItem(start=NINE, end=NINE, sunrise=NINE + HOUR / 6)
CARRY_OUT = CarryOutItem(
    start=NINE,
    end=NINE,
    is_outside=False,
    readiness=readiness_in_still_air(SIX),
    body=Body.SATURN,
    first_look=NINE + HOUR,
    in_shade=False,
)
COVERS, STAR_TEST = CoversItem(start=NINE, end=NINE), StarTestItem(start=NINE, end=NINE)
FINDER = FinderItem(start=NINE, end=NINE, sun_azimuths_deg=None)
KIT = KitItem(start=NINE, end=NINE, owns_filters=False)
READY = EveningItem(kind=ItemKind.READY, start=NINE, end=NINE)
ALL = (KIT, CARRY_OUT, FINDER, COVERS, READY, STAR_TEST, OWN, TARGET, STOP)


def words_of(item: EveningItem, unit: TemperatureUnit = TemperatureUnit.CELSIUS) -> str:
    return item_words(item, CLOCK, unit=unit)


def test_on_the_strip_stands_what_takes_time_or_has_its_hour() -> None:
    assert [titled_item.item for titled_item in titled(ALL)] == [CARRY_OUT, FINDER, READY, OWN, TARGET, STOP]


def test_a_step_on_the_strip_keeps_its_times_and_what_was_done_with_it() -> None:
    chosen, done = evolve(TARGET, is_chosen=True), evolve(OWN, is_done=True)
    (first, second, third) = titled((TARGET, chosen, done))

    assert (first.title, first.start, first.end) == ("Saturn", NINE, NINE + HOUR)
    assert [each.is_chosen for each in (first, second, third)] == [False, True, False]
    assert [each.is_done for each in (first, second, third)] == [False, False, True]
    assert third.title == "Tea for two"


def test_a_telescope_that_stands_outside_is_not_to_be_carried_out() -> None:
    outside = evolve(CARRY_OUT, is_outside=True)

    assert item_title(CARRY_OUT) != item_title(outside)
    assert item_title(outside) == "Outside"
    assert [item_title(item) for item in ALL] == [
        "Lay out the kit",
        "Carry out",
        "Finder",
        "Covers off",
        "Becomes usable",
        "Star test",
        "Tea for two",
        "Saturn",
        "Stop",
    ]
    others = {
        ItemKind.COLLIMATION: "Check collimation",
        ItemKind.PLACE: "Choose the place",
        ItemKind.DEW: "Against dew",
        ItemKind.SETTLED: "Mirror settled",
        ItemKind.PACK_UP: "Pack up",
    }
    assert {kind: item_title(EveningItem(kind=kind, start=NINE, end=NINE)) for kind in others} == others


LOW, FAIR, HIGH = Grade.LOW, Grade.FAIR, Grade.BEST


@pytest.mark.parametrize(
    ("grades", "height", "span"),
    [
        ((HIGH,), "45°", None),
        ((HIGH, HIGH), "45°", None),
        ((FAIR,), "30°", None),
        ((FAIR, HIGH, FAIR), "30°", None),
        ((LOW,), "under 30°", None),
        ((LOW, LOW), "under 30°", None),
        ((LOW, FAIR), "Above 30°", "22:00–23:00"),
        ((FAIR, HIGH, LOW), "Above 30°", "21:00–23:00"),
        ((LOW, FAIR, HIGH, LOW), "Above 30°", "22:00–00:00"),
    ],
)
@pytest.mark.parametrize("behind", [None, "oak"])
def test_how_high_a_target_stands(
    grades: tuple[Grade, ...], height: str, span: str | None, behind: str | None
) -> None:
    words = words_of(target(*grades, behind=behind))

    assert height in words
    assert sum(each in words for each in ("30°", "45°")) == 1
    assert ("Low" in words) is (set(grades) == {LOW})
    assert (span is None) is ("–" not in words)
    assert span is None or span in words
    assert ("then behind blocked sky (oak)" in words) is (behind is not None)


def test_a_target_that_ends_in_warm_air_says_so() -> None:
    assert "then warm air (chimney)" in words_of(target(HIGH, through="chimney"))


def test_the_stop_tells_its_own_time_and_the_sunrise() -> None:
    assert words_of(STOP) == (
        "Off the planet by 21:00; the Sun rises at 21:10. Cap the telescope and its finder, and leave them "
        "capped while they stand out by day."
    )


@pytest.mark.parametrize(
    ("item", "words"),
    [
        (
            COVERS,
            (
                "Once the Sun is down, take the cover off the finder and the whole front cover off the "
                "telescope, not only the small lid in it."
            ),
        ),
        (
            READY,
            (
                "Some time in this span the telescope has cooled enough to be usable for planets, by a rule "
                "of thumb."
            ),
        ),
        (
            STAR_TEST,
            (
                "Take a bright star high up, at high power in the middle of the field, a little out of "
                "focus. Its rings should be round and even; if they lean to one side, adjust the collimation."
            ),
        ),
        (
            EveningItem(kind=ItemKind.PACK_UP, start=NINE, end=NINE),
            (
                "Before you go in, cap the telescope and its finder; if they stay out, they stay capped "
                "through the day. Let damp glass dry uncovered indoors before it is put away."
            ),
        ),
        (KIT, "Lay out a seat, the eyepiece case, a red light, warm clothes and something to write on."),
        (
            evolve(KIT, owns_filters=True),
            (
                "Lay out a seat, the eyepiece case with the filters, a red light, warm clothes and something "
                "to write on. No filter here makes the Sun safe to look at."
            ),
        ),
        (
            CollimationItem(start=NINE, end=NINE, checked_on=None),
            (
                "Check the collimation roughly, indoors or in the shade and never towards the Sun; no date "
                "of the last check is noted. A star test follows when the telescope has cooled."
            ),
        ),
        (
            CollimationItem(start=NINE, end=NINE, checked_on=date(2026, 11, 1)),
            (
                "Check the collimation roughly, indoors or in the shade and never towards the Sun; it was "
                "last checked on 1 November 2026. A star test follows when the telescope has cooled."
            ),
        ),
        (FINDER, "Align the finder on a distant lamp or a bright star, at low power first."),
        (
            DewItem(start=NINE, end=NINE, outlook=None),
            (
                "Put the dew shield on when the telescope has cooled a while, before the front glass is "
                "damp; gentle heat only after that. On wet grass follow the heater's instructions and the "
                "local electrical rules. With temperatures and humidity the program tells when to expect dew."
            ),
        ),
        (
            SettledItem(
                start=NINE, end=NINE, soonest=NINE + HOUR, likely=NINE + HOUR * 1.5, latest=NINE + 2 * HOUR
            ),
            (
                "The mirror has settled some time between 22:00 and 23:00, likely by 22:30 (an estimate). It "
                "is usable before that, but until then its warmth may still soften the view."
            ),
        ),
        (OWN, "Tea for two"),
    ],
)
def test_what_to_do_at_each_step(item: EveningItem, words: str) -> None:
    assert words_of(item) == words


GRASS = (
    "Choose grass rather than asphalt or concrete, which give off the day's heat for hours; keep away from "
    "vents, open windows and hot tubs."
)


@pytest.mark.parametrize(
    ("stands_on", "words"),
    [
        (None, GRASS),
        (Stand.GROUND, GRASS),
        (
            Stand.DECK,
            (
                "A deck shakes with every step on it: let nobody walk while you look, and try the telescope "
                "on the ground once."
            ),
        ),
        (
            Stand.BALCONY,
            (
                "A balcony shakes with every step on it: let nobody walk while you look. Shut doors and "
                "windows, so that the room's warm air does not pass in front of the telescope."
            ),
        ),
    ],
)
def test_where_to_stand(stands_on: Stand | None, words: str) -> None:
    place = PlaceItem(start=NINE, end=NINE, stands_on=stands_on, warm=())
    warm = evolve(place, warm=("chimney", "tiled roof"))

    assert words_of(place) == words
    assert words_of(warm) == (
        f"{words} Warm air rises from chimney and tiled roof: stand where you look across as little of it as "
        "you can."
    )


@pytest.mark.parametrize(
    ("azimuths_deg", "sun_at", "between"),
    [
        ((210.0, 240.0), "south-west", "180° and 270°"),
        # Through north the short way round, either way.
        ((350.0, 10.0), "north", "320° and 40°"),
        ((10.0, 350.0), "north", "320° and 40°"),
        # Nothing of the sky to keep out of is rounded away.
        ((210.6, 239.4), "south-west", "180° and 270°"),
    ],
)
def test_the_finder_by_day_keeps_thirty_degrees_from_the_sun(
    azimuths_deg: tuple[float, float], sun_at: str, between: str
) -> None:
    finder = evolve(FINDER, sun_azimuths_deg=azimuths_deg)
    keeps = (
        f"more than 30° from the Sun: the Sun is in the {sun_at}, so nothing between azimuths {between}. End "
        "by 21:00. Never turn telescope or finder towards the Sun: it blinds at once. Cap both again "
        "afterwards."
    )

    assert words_of(finder) == (f"Align the finder in daylight on something distant on the ground, {keeps}")
    assert words_of(evolve(finder, before_out=True)) == (
        "Take the telescope out for half an hour to align the finder in daylight on something distant on the "
        f"ground, {keeps}"
    )


def test_a_telescope_is_carried_out_by_a_time_or_now() -> None:
    """A mirror of 150 mm is usable after about 20 to 40 minutes (the rule of thumb)."""
    usable = readiness_text(CARRY_OUT.readiness)
    late, shade = evolve(CARRY_OUT, is_late=True), "into the shade with its caps on until sunset"
    soon = (
        "it becomes usable for planets some time between 21:20 and 21:40 (an estimate). If it stands outside "
        "already, say so."
    )

    assert words_of(CARRY_OUT) == f"Carry the telescope out by 21:00 for Saturn at 22:00. {usable}"
    assert words_of(evolve(CARRY_OUT, in_shade=True)) == (
        "Carry the telescope out by 21:00 for Saturn at 22:00. Until sunset it stands in the shade with its "
        f"caps on. {usable}"
    )
    assert words_of(late) == f"Carry the telescope out now: {soon}"
    assert words_of(evolve(late, in_shade=True)) == f"Carry the telescope out now, {shade}: {soon}"


@pytest.mark.parametrize("never", [False, True])
def test_what_is_never_ready_or_ready_at_once_has_no_time_to_be_told(never: bool) -> None:
    usable = evolve(CARRY_OUT.readiness.usable, likely_minutes=0.0)
    readiness = evolve(CARRY_OUT.readiness, usable=usable, never=never, stays_warmer_c=3.0 if never else None)
    late = evolve(CARRY_OUT, is_late=True, readiness=readiness)
    told = readiness_text(readiness)

    assert words_of(late) == f"Carry the telescope out now. {told} If it stands outside already, say so."
    assert words_of(evolve(late, in_shade=True)) == (
        f"Carry the telescope out now, into the shade with its caps on until sunset. {told} If it stands "
        "outside already, say so."
    )
    fahrenheit = readiness_text(readiness, unit=TemperatureUnit.FAHRENHEIT)
    assert fahrenheit in words_of(late, TemperatureUnit.FAHRENHEIT)
    assert fahrenheit != told


def test_one_that_stands_outside_by_day_stands_in_the_shade() -> None:
    outside = evolve(CARRY_OUT, is_outside=True)
    told = words_of(outside)

    assert told == time_outside_text(CARRY_OUT.readiness, NINE, CLOCK)
    assert words_of(evolve(outside, in_shade=True)) == (
        f"{told} Until sunset it stands in the shade with its caps on."
    )


@pytest.mark.parametrize("shelter", Shelter)
def test_against_dew_the_dew_point_is_told_and_of_a_mirror_that_it_stays_dry_longest(
    shelter: Shelter,
) -> None:
    risk = DewRisk(dew_point_c=6.0, glass_c=5.0, everywhere=False)
    wet = DewOutlook(shelter=shelter, wet_at=NINE, risk=risk, shielded_wet_at=None, damp_at=NINE + HOUR)
    told, item = dew_text(wet, CLOCK), DewItem(start=NINE, end=NINE, outlook=wet)

    if shelter is Shelter.DOWN_A_TUBE:
        assert words_of(item) == f"{told} The mirror itself, down its tube, stays dry longest."
    else:
        assert words_of(item) == f"{told} The dew point is about 6 °C."
        assert words_of(item, TemperatureUnit.FAHRENHEIT) == f"{told} The dew point is about 43 °F."
        assert words_of(evolve(item, outlook=evolve(wet, risk=None))) == dew_text(
            evolve(wet, risk=None), CLOCK
        )


@pytest.mark.parametrize("is_done", [False, True])
def test_a_reader_hears_when_what_and_whether_it_is_done(is_done: bool) -> None:
    heard, own = (
        heard_words(evolve(item, is_done=is_done), CLOCK, unit=TemperatureUnit.CELSIUS)
        for item in (TARGET, OWN)
    )

    # An own step has no title beside its words.
    if is_done:
        assert heard == "Done: 21:00–22:00, Saturn. Above 45°."
        assert own == "Done: 21:00, Tea for two"
    else:
        assert heard == "21:00–22:00, Saturn: Above 45°."
        assert own == "21:00, Tea for two"
