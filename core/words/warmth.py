"""What the temperatures of the evening mean for the telescope in hand."""

from datetime import datetime
from typing import Final

from core.situation.situation import Situation
from core.words.cooling import mirror_climb_text, readiness_text, time_outside_text
from core.words.dew import dew_text
from core.words.site_clock import SiteClock, clock_of

LOWEST_IS_TOO_WARM: Final = "The lowest of the night cannot be above the air now and at dusk."
_TAKEN_OUT: Final = (
    "The mirror is reckoned as if it was carried out at {time}, as planned, for nobody has said so."
)
_AS_PLANNED: Final = "Out since {time}, as planned"
_NO_AIR: Final = "With the air now, or at dusk, this tells when the telescope has cooled."
_NO_INSIDE: Final = (
    "With the temperature inside, this tells how far the mirror's own warmth still blurs the view."
)


def taken_out_words(taken: datetime, clock: SiteClock) -> str:
    """Return that a telescope is taken to have gone out as planned, for nobody said so."""
    return _TAKEN_OUT.format(time=clock.time(taken))


def as_planned_words(taken: datetime, clock: SiteClock) -> str:
    """Return the caption of the button that says so: ``Out since 16:21, as planned``."""
    return _AS_PLANNED.format(time=clock.time(taken))


def warmth_sentences(situation: Situation) -> tuple[str, ...]:
    """Return when the telescope is ready, how the ceiling climbs until then, and when dew settles.

    First what is still needed to tell it.
    """
    clock, readiness, since = clock_of(situation), situation.readiness, situation.outside_since
    if clock is None or situation.scope is None:
        return ()
    told, climb, dew = situation.temperatures, situation.mirror_climb, situation.dew
    found = []
    if told is None or told.air_c is None:
        found.append(_NO_AIR)
    elif situation.warmth_is_assumed:
        found.append(_NO_INSIDE)
    taken = situation.taken_out_at
    if taken is not None:
        found.append(taken_out_words(taken, clock))
    if readiness is not None:
        out = since or taken
        unit = situation.preferences.temperature
        words = readiness_text(readiness, unit=unit)
        found.append(words if out is None else time_outside_text(readiness, out, clock, unit=unit))
    if climb is not None:
        found.append(mirror_climb_text(climb, clock, now=situation.present))
    if dew is not None:
        found.append(dew_text(dew, clock))
    return tuple(filter(None, found))
