"""What is due now or in a few minutes, a sentence each."""

from datetime import timedelta
from typing import Final

from core.sky.events import BEST_DEG
from core.sky.moons import MoonEventKind
from core.tonight.notices_due import (
    CrossingDue,
    Due,
    HiddenDue,
    MoonEventDue,
    RedSpotDue,
    StepDue,
    TransitDue,
    WarmAirDue,
)
from core.words.directions import altitude_text, compass_text
from core.words.evening import item_title
from core.words.names import opening
from core.words.obstacles import blocked_words, warm_air_words
from core.words.quantities import angle_text
from core.words.site_clock import SiteClock

_MINUTE: Final = timedelta(minutes=1)
_STEP_SOON: Final = "In {minutes} min, at {at}: {title}."
_STEP_NOW: Final = "Due now, {at}: {title}."
# By whether it rises, and whether it is the upper of the two heights.
_CROSSINGS: Final = {
    (True, True): "{body} has risen above {level}: the best of the air begins.",
    (True, False): "{body} has risen above {level}: now it is worth a climb.",
    (False, True): "{body} has sunk below {level}: fair, no longer the best.",
    (False, False): "{body} has sunk below {level}: thick air from here on.",
}
_HIDDEN: Final = "{body} goes {behind} in {minutes} min, at {at}."
_WARM: Final = "{body} is seen through {air} in {minutes} min, from {at}."
_TRANSIT: Final = "{body} is at its highest now: {height} in the {direction}."
_MOON_EVENTS: Final = {
    MoonEventKind.TRANSIT: "{moon} begins to cross Jupiter's disc now, until {end}.",
    MoonEventKind.SHADOW_TRANSIT: "{moon}'s shadow begins to cross Jupiter's disc now, until {end}.",
    MoonEventKind.OCCULTATION: "{moon} goes behind Jupiter now.",
    MoonEventKind.ECLIPSE: "{moon} goes into Jupiter's shadow now.",
}
# By whether its longitude is old.
_RED_SPOT: Final = (
    "The red spot has come round Jupiter's edge; it is in the middle at {middle}.",
    "The red spot has come round Jupiter's edge; it is in the middle at about {middle} (old longitude).",
)


def notice_words(notice: Due, clock: SiteClock) -> str:
    """Return a notice as a sentence."""
    at, minutes = clock.time(notice.at), -(-(notice.at - notice.now) // _MINUTE)
    match notice:
        case StepDue():
            template = _STEP_SOON if notice.is_to_come else _STEP_NOW
            return template.format(minutes=minutes, at=at, title=item_title(notice.item))
        case CrossingDue():
            template = _CROSSINGS[notice.is_rising, notice.level_deg == BEST_DEG]
            return template.format(body=opening(notice.body), level=angle_text(notice.level_deg))
        case HiddenDue():
            behind = blocked_words(notice.what)
            return _HIDDEN.format(body=opening(notice.body), behind=behind, minutes=minutes, at=at)
        case WarmAirDue():
            air = warm_air_words(notice.what)
            return _WARM.format(body=opening(notice.body), air=air, minutes=minutes, at=at)
        case TransitDue():
            position = notice.position
            return _TRANSIT.format(
                body=opening(notice.body),
                height=altitude_text(position.altitude_deg),
                direction=compass_text(position.azimuth_deg),
            )
        case MoonEventDue():
            event = notice.event
            return _MOON_EVENTS[event.kind].format(moon=event.moon.label, end=clock.time(event.end))
        case RedSpotDue():
            return _RED_SPOT[notice.is_old].format(middle=clock.time(notice.middle))
    raise AssertionError(notice)  # every kind has its words
