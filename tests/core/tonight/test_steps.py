"""Each step of an evening where an observer would look for it, with the words of safety on every path."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from attrs import evolve

from core.air.readiness import readiness_in_still_air
from core.air.temperatures import Temperatures
from core.gear.owned import Stand, Telescope, TelescopeKind
from core.moments.hours import Twilight
from core.record.observer import TemperatureUnit
from core.situation.choices import (
    EveningHours,
    EveningSteps,
    EveningTemperatures,
    ScopeOutside,
)
from core.sky.bodies import Body
from core.tonight.steps import CarryOutItem, EveningItem, ItemKind, OwnStep, step_in_hand
from core.words.evening import item_title, item_words
from core.words.site_clock import clock_of
from tests.core.tonight.chosen_evening import (
    CLOSED,
    LENS,
    OULU,
    PORTO,
    TEN_INCH,
    TROMSO,
    WINTER,
    kinds,
    one,
    situation,
    words,
)


def test_an_evening_runs_from_the_kit_to_packing_up_in_order() -> None:
    found = situation()
    starts = [item.start for item in found.evening_steps]

    assert starts == sorted(starts)
    for earlier, later in [
        (ItemKind.COLLIMATION, ItemKind.KIT),
        (ItemKind.KIT, ItemKind.CARRY_OUT),
        (ItemKind.PLACE, ItemKind.CARRY_OUT),
        (ItemKind.CARRY_OUT, ItemKind.FINDER),
        (ItemKind.FINDER, ItemKind.COVERS),
        (ItemKind.COVERS, ItemKind.TARGET),
        (ItemKind.TARGET, ItemKind.PACK_UP),
    ]:
        assert kinds(found).index(earlier) < kinds(found).index(later)
    # Out until half past eleven: hours before sunrise there is no stop line to keep.
    assert ItemKind.STOP not in kinds(found)


def test_no_cover_comes_off_before_the_sun_is_down() -> None:
    found = situation()
    assert found.night is not None
    sunset = found.night.sun.set
    assert sunset is not None
    early = situation(
        steps=(
            EveningSteps(
                evening=WINTER,
                site_id="porto",
                moved=((ItemKind.COVERS.value, sunset - timedelta(hours=2)),),
            ),
        )
    )

    assert one(found, ItemKind.COVERS).start == sunset
    assert one(early, ItemKind.COVERS).start == sunset
    assert "the Sun is down" in words(found, one(found, ItemKind.COVERS))


@pytest.mark.parametrize(
    ("scope", "checked_on", "is_due"),
    [
        # Common practice, no source: a fast mirror is checked each time, a slow one every few weeks.
        (TEN_INCH, None, True),
        (TEN_INCH, date(2026, 12, 4), True),
        (TEN_INCH, date(2026, 12, 5), False),
        (evolve(TEN_INCH, focal_length_mm=2000), date(2026, 12, 4), False),
        (evolve(TEN_INCH, focal_length_mm=2000), date(2026, 11, 1), True),
        (CLOSED, date(2026, 11, 1), False),
        (LENS, None, False),
    ],
)
def test_a_rough_check_of_the_collimation_where_the_date_or_the_kind_asks_for_it(
    scope: Telescope, checked_on: date | None, is_due: bool
) -> None:
    found = situation(evolve(scope, collimated_on=checked_on))

    assert (ItemKind.COLLIMATION in kinds(found)) is is_due
    if is_due:
        assert "never towards the Sun" in words(found, one(found, ItemKind.COLLIMATION))


def test_only_what_can_be_out_of_line_gets_a_star_test_after_dusk() -> None:
    found = situation()
    assert found.night is not None
    dusk = found.night.sun.civil_dusk
    assert dusk is not None

    assert one(found, ItemKind.STAR_TEST).start >= dusk
    assert ItemKind.STAR_TEST not in kinds(situation(LENS))


def test_in_the_polar_night_nothing_speaks_of_daylight() -> None:
    found = situation(site=TROMSO)
    told = " ".join(words(found, item) for item in found.evening_steps)

    assert "lamp or a bright star" in told
    assert "daylight" not in told
    assert "sunset" not in told
    assert ItemKind.STOP not in kinds(found)
    assert ItemKind.PACK_UP in kinds(found)


def test_mercury_at_dawn_ends_at_the_stop_line() -> None:
    # Greatest elongation west on 20 November 2026 (Astronomical Almanac, from memory): a morning planet.
    found = situation(
        evening=date(2026, 11, 20),
        planet=Body.MERCURY,
        hours=(EveningHours(evening=date(2026, 11, 20), start=Twilight.DUSK, end=Twilight.DAWN),),
    )
    assert found.night is not None
    sunrise = found.night.sun.rise
    assert sunrise is not None
    mercury = [item for item in found.evening_steps if item.key == "target:mercury"]

    assert mercury
    assert all(item.end <= sunrise - timedelta(minutes=10) for item in mercury)
    assert "Cap the telescope and its finder" in words(found, one(found, ItemKind.STOP))


def test_front_glass_in_unknown_damp_is_told_of_a_shield_and_a_mirror_is_not() -> None:
    closed = situation(CLOSED)
    told = words(closed, one(closed, ItemKind.DEW))

    assert "shield" in told
    assert "local electrical rules" in told
    assert ItemKind.DEW not in kinds(situation())


def test_dew_is_told_with_its_hour_its_glass_and_the_dew_point_in_the_owner_s_unit() -> None:
    told = EveningTemperatures(
        evening=WINTER,
        site_id="porto",
        told_at=datetime(2026, 12, 5, 16, 0, tzinfo=UTC),
        temperatures=Temperatures(indoor_c=19, now_c=12, lowest_c=4, humidity_pct=80),
    )
    found = situation(CLOSED, temperatures=(told,))
    item, clock = one(found, ItemKind.DEW), clock_of(found)
    assert clock is not None

    assert "front glass" in words(found, item)
    # 12 °C at 80 % of relative humidity: dew point 8.7 °C (a published table, from memory: 8.6 to 8.7).
    assert "The dew point is about 9 °C" in words(found, item)
    assert "about 48 °F" in item_words(item, clock, unit=TemperatureUnit.FAHRENHEIT)


def test_the_place_is_asked_about_in_words_that_fit_what_it_stands_on() -> None:
    grass, balcony = situation(), situation(evolve(TEN_INCH, stands_on=Stand.BALCONY))

    assert "grass rather than asphalt" in words(grass, one(grass, ItemKind.PLACE))
    assert "tiled roof" in words(grass, one(grass, ItemKind.PLACE))
    assert "grass" not in words(balcony, one(balcony, ItemKind.PLACE))
    assert "Shut doors and windows" in words(balcony, one(balcony, ItemKind.PLACE))


def test_what_was_ticked_off_moved_and_added_counts_for_this_evening_alone() -> None:
    at = datetime(2026, 12, 5, 20, 0, tzinfo=UTC)
    notes = EveningSteps(
        evening=WINTER,
        site_id="porto",
        done=frozenset({"kit", "target:saturn"}),
        moved=(("carry_out", at - timedelta(hours=3)),),
        own=(OwnStep(id="1", text="Tea for two", at=at),),
    )
    found, next_evening = (
        situation(steps=(notes,), evening=evening) for evening in (WINTER, date(2026, 12, 6))
    )
    tea = one(found, ItemKind.OWN)

    assert one(found, ItemKind.KIT).is_done
    assert [item.key for item in found.evening_steps if item.is_done] == ["kit", "target:saturn"]
    assert one(found, ItemKind.CARRY_OUT).start == at - timedelta(hours=3)
    # A ten-inch mirror counts from when it really goes out.
    assert one(found, ItemKind.READY).start > at - timedelta(hours=3)
    assert (item_title(tea), tea.start) == ("Tea for two", at)
    assert not any(item.is_done or item.kind is ItemKind.OWN for item in next_evening.evening_steps)


def test_a_moved_stop_line_or_target_stays_where_sun_and_sky_put_it() -> None:
    notes = EveningSteps(
        evening=WINTER,
        site_id="porto",
        moved=tuple(
            (key, datetime(2026, 12, 5, 20, 0, tzinfo=UTC)) for key in ("stop", "target:saturn", "ready")
        ),
    )
    before, after = situation(), situation(steps=(notes,))

    assert before.evening_steps == after.evening_steps


def test_one_that_stands_outside_is_told_neither_of_the_house_nor_of_carrying() -> None:
    since = datetime(2026, 12, 5, 18, 0, tzinfo=UTC)
    note = ScopeOutside(evening=WINTER, site_id="porto", scope_id="ten", since=since)
    found = situation(outside=(note,))

    assert ItemKind.COLLIMATION not in kinds(found)
    assert ItemKind.STAR_TEST in kinds(found)
    assert item_title(one(found, ItemKind.CARRY_OUT)) == "Outside"


def test_whoever_is_out_at_dawn_is_told_once_to_cap() -> None:
    found = situation(hours=(EveningHours(evening=WINTER, start=Twilight.DUSK, end=Twilight.DAWN),))

    assert ItemKind.STOP in kinds(found)
    assert ItemKind.PACK_UP not in kinds(found)


def test_every_step_of_a_year_says_something_and_lies_in_its_evening() -> None:
    for scope in (TEN_INCH, LENS, CLOSED):
        for site in (PORTO, OULU, TROMSO):
            for number in range(0, 365, 45):
                found = situation(scope, site=site, evening=WINTER + timedelta(days=number))
                assert found.night is not None
                for item in found.evening_steps:
                    assert found.night.start <= item.start <= item.end
                    assert item.start < found.night.end
                    assert item_title(item)
                    assert words(found, item).endswith(".")


def test_the_mirror_cools_from_when_its_owner_means_to_carry_it_out() -> None:
    told = EveningTemperatures(
        evening=WINTER,
        site_id="porto",
        told_at=datetime(2026, 12, 5, 14, 0, tzinfo=UTC),
        temperatures=Temperatures(indoor_c=20, now_c=10, lowest_c=6),
    )
    early = datetime(2026, 12, 5, 15, 0, tzinfo=UTC)
    notes = EveningSteps(evening=WINTER, site_id="porto", moved=(("carry_out", early),))
    at = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)
    usual, moved = situation(temperatures=(told,)), situation(temperatures=(told,), steps=(notes,))

    assert moved.mirror_course is not None
    assert usual.mirror_course is not None
    assert moved.mirror_course.out_at == early
    assert moved.mirror_course.excess_c(at) < usual.mirror_course.excess_c(at)


@pytest.mark.parametrize(
    ("chosen", "marked"),
    [
        ({}, {ItemKind.COLLIMATION, ItemKind.CARRY_OUT, ItemKind.FINDER, ItemKind.PACK_UP}),
        # For the finder it is carried out by day.
        ({"scope": LENS}, {ItemKind.CARRY_OUT, ItemKind.FINDER, ItemKind.DEW, ItemKind.PACK_UP}),
        (
            {"site": OULU, "evening": date(2026, 8, 20)},
            {ItemKind.COLLIMATION, ItemKind.CARRY_OUT, ItemKind.FINDER, ItemKind.STOP},
        ),
    ],
)
def test_what_has_to_do_with_the_sun_or_with_mains_is_marked_as_a_caution(
    chosen: dict[str, Any], marked: set[ItemKind]
) -> None:
    """Optics by daylight, a heater in the wet, what stays out through the day, the end before sunrise."""
    found = situation(**chosen)

    assert {item.kind for item in found.evening_steps if item.caution} == marked


def at(hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 12, 5, hour, minute, tzinfo=UTC)


def test_the_step_in_hand_is_what_began_last_and_else_what_comes_next() -> None:
    kit = EveningItem(kind=ItemKind.KIT, start=at(17), end=at(17))
    ready = EveningItem(kind=ItemKind.READY, start=at(17, 20), end=at(18, 30))
    saturn = EveningItem(kind=ItemKind.TARGET, start=at(17, 30), end=at(18, 30))
    moon = EveningItem(kind=ItemKind.TARGET, start=at(18), end=at(19))
    stop = EveningItem(kind=ItemKind.STOP, start=at(23, 30), end=at(23, 30))
    steps = [kit, ready, saturn, moon, stop]

    assert step_in_hand(steps, None) is step_in_hand(steps, at(16, 59)) is step_in_hand(steps, at(17)) is kit
    # A mere moment is told for ten minutes; an estimate is nothing to do.
    assert step_in_hand(steps, at(17, 9)) is kit
    assert step_in_hand(steps, at(17, 10)) is step_in_hand(steps, at(17, 59)) is saturn
    assert step_in_hand(steps, at(18)) is step_in_hand(steps, at(18, 59)) is moon
    assert step_in_hand(steps, at(19)) is step_in_hand(steps, at(23, 39)) is stop
    assert step_in_hand(steps, at(23, 40)) is None
    assert step_in_hand([evolve(kit, is_done=True), saturn], at(17)) is saturn
    assert step_in_hand([], at(17)) is None
    # The last quarter of an hour before the stop line belongs to it alone.
    late = EveningItem(kind=ItemKind.TARGET, start=at(23), end=at(23, 30))
    assert step_in_hand([late, stop], at(23, 14)) is late
    assert step_in_hand([late, stop], at(23, 15)) is stop


def test_a_telescope_that_should_be_out_comes_before_what_is_done_with_it() -> None:
    out = CarryOutItem(
        start=at(17),
        end=at(17),
        is_outside=False,
        is_late=True,
        readiness=readiness_in_still_air(
            Telescope(name="Six-inch", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200)
        ),
        body=Body.SATURN,
        first_look=at(17, 10),
        in_shade=False,
    )
    covers = EveningItem(kind=ItemKind.COVERS, start=at(17), end=at(17))
    saturn = EveningItem(kind=ItemKind.TARGET, start=at(16, 40), end=at(18, 30))

    assert step_in_hand([saturn, out, covers], at(17)) is out
    assert step_in_hand([saturn, evolve(out, is_done=True), covers], at(17)) is covers
