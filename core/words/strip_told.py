"""What the strip on top tells, in one line, for where there is no room for the strip itself."""

from collections.abc import Sequence
from datetime import UTC
from typing import Final

from core.situation.given import to_minute
from core.situation.situation import Situation
from core.words.dates import short_weekday_text
from core.words.site_clock import SiteClock

_BETWEEN: Final = " · "
_UNIVERSAL: Final = "{time} UT"


def strip_parts(situation: Situation) -> tuple[str, ...]:
    """Return the evening, the scope and the site in hand, those that there are, and last the clock."""
    site, scope = situation.site, situation.scope
    named = [each.name for each in (scope, site) if each is not None]
    return short_weekday_text(situation.evening), *named, _clock(situation)


def strip_told(parts: Sequence[str]) -> str:
    """Return some of the parts in one line."""
    return _BETWEEN.join(parts)


def _clock(situation: Situation) -> str:
    site, minute = situation.site, to_minute(situation.now)
    if site is None:
        return _UNIVERSAL.format(time=SiteClock(zone=UTC).time(minute))
    return SiteClock(zone=site.zone, hours=situation.preferences.clock).time(minute)
