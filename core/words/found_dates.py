"""The evenings that fit what was wished for, in words."""

from datetime import date, datetime
from typing import Final

from core.moments.hours import Hour, Twilight, are_assumed
from core.plain_text import printable
from core.sky.bodies import Body
from core.sky.events import LOWEST_USEFUL_DEG
from core.sky.site import Site
from core.words.cautions import CAP_BEFORE_SUNRISE, MERCURY_AND_SUN
from core.words.dates import date_text, weekday_text
from core.words.directions import altitude_text
from core.words.names import capitalised, listed
from core.words.quantities import about_power_text, percent_text, rounded_text
from core.words.site_clock import SiteClock
from core.year.dates import HOW_MANY, DateWishes, FoundDate, FoundDates, WishSeen

_ANY_DAY: Final = date(2000, 1, 1)
_ABOVE: Final = "{body} above {height}"
_WISHED: Final = "{bodies} for 20 minutes or more {hours}{moon}"
_HOURS: Final = "between {start} and {end}"
_USUAL_HOURS: Final = "in your usual hours ({start} to {end})"
_ASSUMED_HOURS: Final = "in assumed hours ({start} to {end})"
_MOON: Final = ", with {low} to {high}% of the Moon lit"
_ALL_FOUND: Final = "The next ten evenings at {site} with {wished}."
_SOME_FOUND: Final = "Only {count} at {site} until {last} with {wished}."
_ONE: Final = "one evening"
_SEVERAL: Final = "{count} evenings"
# By whether a height could be less, and whether a Moon is asked for.
_NONE_FOUND: Final = {
    (True, True): (
        "No evening at {site} until {last} has {wished}. Ask for less height, for other hours or for "
        "another Moon."
    ),
    (True, False): (
        "No evening at {site} until {last} has {wished}. Ask for less height or for other hours."
    ),
    (False, True): "No evening at {site} until {last} has {wished}. Ask for other hours or for another Moon.",
    (False, False): "No evening at {site} until {last} has {wished}. Ask for other hours.",
}
_DAY: Final = "{day}, Moon {lit} lit"
_SEEN: Final = "{body} {spans}, up to {height}"
_SEEN_CEILING: Final = "{body} {spans}, up to {height}: about {power} in usual air"


def found_sentence(found: FoundDates, site: Site, *, usual: tuple[Hour, Hour], clock: SiteClock) -> str:
    """Return what was wished for, and how many evenings have it.

    ``usual`` are the owner's usual hours.
    """
    wishes = found.wishes
    count = len(found.evenings)
    if count == HOW_MANY:
        template = _ALL_FOUND
    elif count:
        template = _SOME_FOUND
    else:
        could_be_less = any(wish.above_deg > LOWEST_USEFUL_DEG for wish in wishes.heights)
        template = _NONE_FOUND[could_be_less, wishes.moon_percent is not None]
    return template.format(
        count=_ONE if count == 1 else _SEVERAL.format(count=count),
        site=printable(site.name),
        last=date_text(found.searched_to),
        wished=_wished_text(wishes, usual, clock),
    )


def found_cautions(found: FoundDates, *, usual: tuple[Hour, Hour]) -> tuple[str, ...]:
    """Return the words of safety: of Mercury, and of hours that end with the dawn."""
    mercury = any(wish.body is Body.MERCURY for wish in found.wishes.heights)
    until_dawn = (found.wishes.end or usual[1]) is Twilight.DAWN
    return (*([MERCURY_AND_SUN] if mercury else []), *([CAP_BEFORE_SUNRISE] if until_dawn else []))


def day_words(evening: FoundDate) -> str:
    """Return an evening's date and how much of the Moon is lit: ``Wed 6 January 2027, Moon 1% lit``."""
    return _DAY.format(day=weekday_text(evening.evening), lit=percent_text(evening.moon_lit))


def seen_words(seen: WishSeen, clock: SiteClock) -> str:
    """Return when a body is as wished on an evening, and how high it gets then."""
    template = _SEEN if seen.ceiling_power is None else _SEEN_CEILING
    return template.format(
        body=capitalised(seen.body.heading),
        spans=listed(clock.span(span.start, span.end) for span in seen.spans),
        height=altitude_text(seen.highest.altitude_deg),
        power="" if seen.ceiling_power is None else about_power_text(seen.ceiling_power),
    )


def hour_text(hour: Hour, clock: SiteClock) -> str:
    """Return an hour of the clock, or the word for one that moves with the Sun."""
    if isinstance(hour, Twilight):
        return hour.value
    return clock.time_of_day(datetime.combine(_ANY_DAY, hour, tzinfo=clock.zone))


def _wished_text(wishes: DateWishes, usual: tuple[Hour, Hour], clock: SiteClock) -> str:
    bodies = listed(
        _ABOVE.format(body=wish.body.label, height=altitude_text(wish.above_deg)) for wish in wishes.heights
    )
    is_usual = wishes.start is None and wishes.end is None
    template = _HOURS
    if is_usual:
        template = _ASSUMED_HOURS if are_assumed(usual) else _USUAL_HOURS
    start, end = wishes.start or usual[0], wishes.end or usual[1]
    moon = ""
    if wishes.moon_percent is not None:
        low, high = map(rounded_text, wishes.moon_percent)
        moon = _MOON.format(low=low, high=high)
    hours = template.format(start=hour_text(start, clock), end=hour_text(end, clock))
    return _WISHED.format(bodies=bodies, hours=hours, moon=moon)
