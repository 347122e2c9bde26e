"""What happens on Jupiter in an evening, in words: its moons' passages and those of the red spot."""

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Final

from core.looks.happenings import Happenings
from core.sky.bodies import Body
from core.sky.moons import MoonEvent, MoonEventKind
from core.sky.red_spot import WELL_PLACED_MINUTES, RedSpotPasses
from core.words.dates import date_text, weekday_text
from core.words.names import listed
from core.words.quantities import angle_text
from core.words.site_clock import SiteClock

_WELL_PLACED: Final = timedelta(minutes=WELL_PLACED_MINUTES)
_EVENT_WORDS: Final = {
    MoonEventKind.TRANSIT: "crosses the disc",
    MoonEventKind.SHADOW_TRANSIT: "its shadow crosses the disc",
    MoonEventKind.OCCULTATION: "is behind Jupiter",
    MoonEventKind.ECLIPSE: "is in Jupiter's shadow",
}
# By whether the start and the end can be seen.
_EVENTS: Final = {
    (True, True): "{span}  {moon}: {event}",
    (False, True): "{span}  {moon}: {event} (its start cannot be seen)",
    (True, False): "{span}  {moon}: {event} (its end cannot be seen)",
    (False, False): "{span}  {moon}: {event} (its start and end cannot be seen)",
}
_BRIEF_EVENT_WORDS: Final = {
    MoonEventKind.TRANSIT: "{} on the disc",
    MoonEventKind.SHADOW_TRANSIT: "{}'s shadow on the disc",
    MoonEventKind.OCCULTATION: "{} behind",
    MoonEventKind.ECLIPSE: "{} in shadow",
}
_NO_EVENTS: Final = "No moon crosses the disc, goes behind it or is eclipsed while Jupiter is well placed."
_RED_SPOT: Final = (
    "The red spot is in the middle {times}, and well placed for {minutes} minutes either side "
    "(System II longitude {longitude} on {day})."
)
_RED_SPOT_NEXT: Final = (
    "The red spot is not in the middle while Jupiter can be looked at this evening; next it is {next_time} "
    "(System II longitude {longitude} on {day})."
)
_RED_SPOT_NOT_SOON: Final = (
    "The red spot is not in the middle while Jupiter can be looked at this evening, nor in the months ahead "
    "(System II longitude {longitude} on {day})."
)
_PASSAGE: Final = "at {time} on {day}"
_OLD_LONGITUDE: Final = (
    "The red spot's longitude was measured {days} days away from this evening. The spot drifts: it may pass "
    "{minutes} minutes or more early or late. Enter a newer longitude."
)
_NEXT_RED_SPOT: Final = "red spot in the middle {time}"
_NEXT_RED_SPOT_OLD: Final = "red spot in the middle {time} (old longitude)"
_NEXT_EVENT: Final = "{event} {span}"


def happening_words(planet: Body, happenings: Happenings, clock: SiteClock) -> Iterator[str]:
    """Yield what happens on a planet this evening, a sentence each; nothing for all but Jupiter."""
    if planet is not Body.JUPITER:
        return
    if not happenings.events_to_see:
        yield _NO_EVENTS
    for event in happenings.events_to_see:
        yield _event_words(event, clock)
    if happenings.red_spot is not None:
        yield _red_spot_words(happenings.red_spot, clock)
        yield from filter(None, [old_longitude_warning(happenings.red_spot)])


def _event_words(event: MoonEvent, clock: SiteClock) -> str:
    return _EVENTS[event.start_seen, event.end_seen].format(
        span=clock.span(event.start, event.end), moon=event.moon.label, event=_EVENT_WORDS[event.kind]
    )


def _red_spot_words(spot: RedSpotPasses, clock: SiteClock) -> str:
    figures = {
        "minutes": WELL_PLACED_MINUTES,
        "longitude": angle_text(spot.longitude_deg),
        "day": date_text(spot.measured_on),
    }
    if spot.times:
        return _RED_SPOT.format(times=listed(_passage(time, clock) for time in spot.times), **figures)
    if spot.next_seen is None:
        return _RED_SPOT_NOT_SOON.format(**figures)
    return _RED_SPOT_NEXT.format(next_time=_passage(spot.next_seen, clock), **figures)


def _passage(time: datetime, clock: SiteClock) -> str:
    return _PASSAGE.format(time=clock.time(time), day=weekday_text(clock.day(time)))


def old_longitude_warning(spot: RedSpotPasses) -> str | None:
    """Return what must be known of a red spot whose longitude is old, as sentences; None if it is not."""
    if not spot.is_old:
        return None
    return _OLD_LONGITUDE.format(days=spot.days_from_measured, minutes=spot.uncertain_by_minutes)


def next_words(happenings: Happenings, time: datetime, clock: SiteClock) -> Iterator[str]:
    """Yield what goes on at a time or comes next: with the moons, and with the red spot."""
    to_come = [event for event in happenings.events_to_see if event.end > time]
    under_way = sum(event.start <= time for event in to_come)
    for event in to_come[: under_way + 1]:
        yield _NEXT_EVENT.format(
            event=_BRIEF_EVENT_WORDS[event.kind].format(event.moon.label),
            span=clock.span(event.start, event.end),
        )
    spot = happenings.red_spot
    if spot is None:
        return
    passing = next((passage for passage in spot.times if passage + _WELL_PLACED > time), None)
    if passing is not None:
        yield (_NEXT_RED_SPOT_OLD if spot.is_old else _NEXT_RED_SPOT).format(time=clock.time(passing))
