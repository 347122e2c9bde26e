"""The steps of an evening: what stands on the strip, how high a target is, and what a reader hears."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve

from core.air.readiness import readiness_in_still_air
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
    assert len({item_title(item) for item in ALL}) == len(ALL)


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
    words = words_of(STOP)

    assert words.index("21:00") < words.index("21:10")
    assert "finder" in words


def test_each_plain_step_has_words_of_its_own() -> None:
    plain = (COVERS, READY, STAR_TEST, EveningItem(kind=ItemKind.PACK_UP, start=NINE, end=NINE))

    assert len({words_of(item) for item in plain}) == len(plain)
    assert "star" in words_of(STAR_TEST)
    assert "usable" in words_of(READY).lower()


@pytest.mark.parametrize("is_done", [False, True])
def test_a_reader_hears_when_what_and_whether_it_is_done(is_done: bool) -> None:
    heard, own = (
        heard_words(evolve(item, is_done=is_done), CLOCK, unit=TemperatureUnit.CELSIUS)
        for item in (TARGET, OWN)
    )

    assert ["Done" in words for words in (heard, own)] == [is_done, is_done]
    assert heard.index("21:00–22:00") < heard.index("Saturn") < heard.index("45°")
    # An own step has no title beside its words.
    assert own.count("Tea for two") == 1
    assert "21:00, " in own
    assert "–" not in own


def test_each_step_that_is_told_of_facts_has_them() -> None:
    """The times and things by which the words of one step cannot be those of another."""
    place = PlaceItem(start=NINE, end=NINE, stands_on=None, warm=("chimney",))
    settled = SettledItem(
        start=NINE, end=NINE, soonest=NINE + HOUR, likely=NINE + HOUR * 1.5, latest=NINE + 2 * HOUR
    )
    told = {
        "collim": words_of(CollimationItem(start=NINE, end=NINE, checked_on=None)),
        "red light": words_of(KIT),
        "finder": words_of(FINDER),
        "chimney": words_of(place),
        "22:00": words_of(CARRY_OUT),
        "dew": words_of(DewItem(start=NINE, end=NINE, outlook=None)),
        "22:30": words_of(settled),
        "Tea": words_of(OWN),
    }

    assert [part for part, words in told.items() if part not in words.lower() and part not in words] == []
