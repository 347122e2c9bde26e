"""Evenings of the sample observers, hour by hour."""

from datetime import date, datetime, timedelta
from datetime import time as clock_time
from functools import cache
from pathlib import Path

from attrs import evolve

from core.record.profile import read_profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import Site
from core.words.answer import answer_words

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


def answer_at(site: Site, local: str, planet: Body | None = None) -> str:
    profile = evolve(read_profile(SAMPLES / f"{BALCONY}.toml"), sites=(site,))
    now = datetime.fromisoformat(local).replace(tzinfo=site.zone)
    return answer_words(Situation(Choices(profile=profile, planet=planet), now))
