"""When the finder is aligned, with what keeps it from the Sun."""

from datetime import UTC, date, datetime, timedelta

import pytest

from core.gear.owned import Telescope
from core.situation.choices import EveningSteps
from core.situation.situation import Situation
from core.sky.site import Site
from core.tonight.steps import ItemKind
from core.words.evening_cautions import evening_cautions
from tests.core.tonight.chosen_evening import (
    CLOSED,
    LENS,
    OULU,
    PORTO,
    TEN_INCH,
    WINTER,
    one,
    situation,
    words,
)


@pytest.mark.parametrize("scope", [TEN_INCH, LENS, CLOSED])
@pytest.mark.parametrize("site", [PORTO, OULU])
def test_no_finder_is_aligned_before_the_telescope_is_out(scope: Telescope, site: Site) -> None:
    for month in range(1, 13):
        found = situation(scope, site=site, evening=date(2027, month, 5))
        if any(item.kind is ItemKind.FINDER for item in found.evening_steps):
            assert one(found, ItemKind.FINDER).start >= one(found, ItemKind.CARRY_OUT).start


def test_whoever_is_late_aligns_the_finder_in_what_is_left_of_the_day_or_on_a_lamp() -> None:
    # Sunset at Porto is at 17:05 on this evening (astronomy-engine), so that by day it ends at 16:55.
    def at(hour: int, minute: int) -> Situation:
        return situation(now=datetime(2026, 12, 5, hour, minute, tzinfo=UTC))

    in_time, late, too_late = at(15, 0), at(16, 40), at(16, 50)
    assert f"{one(in_time, ItemKind.FINDER).start:%H:%M}" == "16:25"

    assert one(late, ItemKind.CARRY_OUT).start == one(late, ItemKind.FINDER).start == late.now
    assert one(late, ItemKind.FINDER).end == one(in_time, ItemKind.FINDER).end
    assert "more than 30° from the Sun" in words(late, one(late, ItemKind.FINDER))
    assert "lamp or a bright star" in words(too_late, one(too_late, ItemKind.FINDER))


def test_one_who_wants_it_by_day_all_the_same_has_it_then() -> None:
    # Sunset is at 19:01, and such a telescope need not be out before half past eight.
    at = datetime(2027, 9, 5, 17, 30, tzinfo=UTC)
    own = EveningSteps(evening=at.date(), site_id="porto", moved=(("finder", at),))
    usual, moved = (situation(LENS, evening=at.date(), steps=steps) for steps in ((), (own,)))

    assert "lamp or a bright star" in words(usual, one(usual, ItemKind.FINDER))
    assert one(moved, ItemKind.FINDER).start == at
    assert one(moved, ItemKind.CARRY_OUT).start <= at
    assert "more than 30° from the Sun" in words(moved, one(moved, ItemKind.FINDER))


def test_a_finder_left_until_dark_is_aligned_on_a_lamp_or_a_star() -> None:
    by_day = situation(now=datetime(2026, 12, 5, 15, 0, tzinfo=UTC))
    at_nine = situation(now=datetime(2026, 12, 5, 21, 0, tzinfo=UTC))
    done = situation(
        now=datetime(2026, 12, 5, 21, 0, tzinfo=UTC),
        steps=(EveningSteps(evening=WINTER, site_id="porto", done=frozenset({"finder"})),),
    )

    assert "more than 30° from the Sun" in words(by_day, one(by_day, ItemKind.FINDER))
    assert "lamp or a bright star" in words(at_nine, one(at_nine, ItemKind.FINDER))
    assert at_nine.night is not None
    assert at_nine.night.sun.set is not None
    assert one(at_nine, ItemKind.FINDER).start >= at_nine.night.sun.set
    assert one(done, ItemKind.FINDER).is_done
    assert one(done, ItemKind.FINDER).start == one(by_day, ItemKind.FINDER).start


def test_a_finder_moved_into_the_dark_is_aligned_on_a_lamp_and_never_at_sunset() -> None:
    found = situation()
    assert found.night is not None
    sunset = found.night.sun.set
    assert sunset is not None

    def moved_to(at: datetime) -> Situation:
        steps = EveningSteps(evening=WINTER, site_id="porto", moved=(("finder", at),))
        return situation(steps=(steps,))

    earlier, at_sunset = moved_to(sunset - timedelta(hours=2)), moved_to(sunset - timedelta(minutes=20))
    assert one(earlier, ItemKind.FINDER).start == sunset - timedelta(hours=2)
    assert one(earlier, ItemKind.FINDER).is_moved
    assert "blinds at once" in words(earlier, one(earlier, ItemKind.FINDER))
    # It would end after sunset, with the Sun itself on the horizon in between.
    assert one(at_sunset, ItemKind.FINDER).start >= sunset
    assert "lamp" in words(at_sunset, one(at_sunset, ItemKind.FINDER))


def test_in_a_summer_at_65_north_the_finder_keeps_clear_of_the_sun() -> None:
    # The Sun sets at 23:50 and rises at 03:09 on this evening (astronomy-engine within a minute).
    found = situation(site=OULU, evening=date(2027, 7, 12))
    assert found.night is not None
    assert found.night.sun.set is not None
    for item in found.evening_steps:
        if item.kind is ItemKind.FINDER and item.end <= found.night.sun.set:
            assert "blinds at once" in words(found, item)
            assert item.end <= found.night.sun.set - timedelta(minutes=10)
    assert any("before sunrise" in caution for caution in evening_cautions(found))
