"""The strip in one line: the evening, what is in hand, and the clock, as far as there are any."""

from datetime import UTC, datetime

from attrs import evolve

from core.record.observer import Preferences, Profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.words.strip_told import strip_parts, strip_told
from tests.core.evenings import LISBON, SIX

# Summer time: an hour ahead of UTC.
NOW = datetime(2026, 8, 15, 20, 59, 50, tzinfo=UTC)
WHOLE = Profile(
    sites=(evolve(LISBON, id="s"),),
    telescopes=(evolve(SIX, id="six"),),
    preferences=Preferences(clock=12),
)


def told(profile: Profile) -> str:
    return strip_told(strip_parts(Situation(Choices(profile=profile), NOW)))


def test_the_clock_is_the_site_s_and_without_a_site_universal_time() -> None:
    """The minute that has begun is told, as on any clock."""
    assert told(WHOLE) == "Sat 15 Aug · reflector · Lisbon · 9:59 pm"
    assert told(evolve(WHOLE, telescopes=())) == "Sat 15 Aug · Lisbon · 9:59 pm"
    assert told(evolve(WHOLE, sites=())) == "Sat 15 Aug · reflector · 20:59 UT"
