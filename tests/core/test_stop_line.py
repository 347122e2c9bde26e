"""Through a whole year nothing is offered, unasked, with the Sun up or after the time to stop."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from core.record.profile import read_profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import TARGETS, Body
from core.sky.night import Night
from core.tonight.steps import TargetItem

SAMPLES = sorted((Path(__file__).parents[2] / "sample_profiles").glob("*.toml"))
FIRST = date(2026, 12, 1)
# Off the planet so long before sunrise (safety; ours).
STOP = timedelta(minutes=10)
LONG_AGO = datetime(2001, 1, 1, tzinfo=UTC)


def situations(sample: Path, days: range) -> Iterator[Situation]:
    """Yield one situation for each evening and body at a sample's first site; the night is found once."""
    profile = read_profile(sample)
    before = None
    for day in days:
        for planet in TARGETS:
            choices = Choices(profile=profile, evening=FIRST + timedelta(days=day), planet=planet)
            before = Situation(choices, LONG_AGO, before=before)
            yield before


def moments(situation: Situation) -> Iterator[datetime]:
    """Yield every moment that a situation offers without being asked for one."""
    for aim in (situation.best_aim, situation.aim):
        if aim.at is not None:
            yield aim.at
    if situation.best is not None:
        yield situation.best.start
        yield situation.best.end - timedelta(seconds=1)
        yield situation.time
    for item in situation.evening_steps:
        if isinstance(item, TargetItem):
            yield item.start
            yield item.end - timedelta(seconds=1)


def sun_is_down(night: Night, moment: datetime) -> bool:
    """Tell whether a moment lies in the dark half: after sunset, and 10 minutes or more before sunrise."""
    rise = night.sun.rise
    if rise is not None and rise - STOP < moment < rise:
        return False
    return night.position(Body.SUN, moment).altitude_deg <= -0.83


def check(sample: Path, days: range) -> int:
    """Hold every moment of some evenings to the rule, and return how many were looked at."""
    count = 0
    for situation in situations(sample, days):
        night = situation.night
        assert night is not None
        offered = set(moments(situation))
        for moment in offered:
            where = f"{situation.planet}, evening of {situation.evening}, {moment}"
            assert sun_is_down(night, moment), where
        if situation.best is None:
            assert situation.aim.at is None
            ladder = situation.ladder
            assert ladder is None or (ladder.rungs, ladder.start, ladder.ceiling.power) == ((), None, None)
            appearance = situation.appearance
            assert appearance is None or (appearance.sights, appearance.expectations) == ((), ())
        count += len(offered)
    return count


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_some_evenings_of_a_year_keep_the_stop_line(sample: Path) -> None:
    assert check(sample, range(0, 365, 23)) > 200


@pytest.mark.long
@pytest.mark.timeout(900)
@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_a_whole_year_keeps_the_stop_line(sample: Path) -> None:
    assert check(sample, range(365)) > 5000


@pytest.mark.parametrize(
    ("site", "planet", "evening", "sunrise"),
    [
        # Sunrise at 6:53 am in Duluth and at 07:51 in Thessaloniki (situations of their own).
        ("minnesota", Body.JUPITER, date(2027, 9, 19), datetime(2027, 9, 20, 11, 53, tzinfo=UTC)),
        ("greece", Body.VENUS, date(2027, 1, 12), datetime(2027, 1, 13, 5, 51, tzinfo=UTC)),
    ],
)
def test_named_mornings(site: str, planet: Body, evening: date, sunrise: datetime) -> None:
    (sample,) = (path for path in SAMPLES if site in path.stem)
    situation = Situation(Choices(profile=read_profile(sample), evening=evening, planet=planet), LONG_AGO)
    assert situation.night is not None
    assert situation.night.sun.rise is not None
    assert abs(situation.night.sun.rise - sunrise) < timedelta(minutes=2)
    for moment in moments(situation):
        assert moment <= situation.night.sun.rise - STOP
    if situation.best is not None:
        assert situation.best_aim.at is not None
        assert situation.best.holds(situation.best_aim.at)
