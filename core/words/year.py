"""A planet's year in words: the best weeks, the highest and the largest, and what it does in the sky."""

import math
from collections.abc import Iterator
from datetime import date, datetime
from typing import Final

from core.sky.bodies import Body
from core.sky.events import BEST_DEG, FAIR_DEG, LOWEST_USEFUL_DEG
from core.sky.instant import instant
from core.words.cautions import MERCURY_AND_SUN, inferior_conjunction_caution
from core.words.dates import date_text, month_text, short_date_text, weekday_text
from core.words.directions import altitude_text
from core.words.names import listed, opening
from core.words.quantities import angle_text, rounded_text
from core.words.site_clock import SiteClock
from core.words.sizes import disc_size_text
from core.year.best_weeks import Stretches
from core.year.phenomena import ELONGATIONS, Aspect, Phenomenon
from core.year.year import Year

# The parts of a month, by their last day.
_PARTS: Final = ((10, "early {month}"), (20, "mid-{month}"), (31, "late {month}"))
_SHORTEST_TOLD_H: Final = 0.05
# A disc is told to be large from so many times that of the highest evening on (ours).
_MUCH_LARGER: Final = 1.25

# Of two templates the second is for a site where something blocks the view.
_NEVER: Final = (
    "{name} is never above {lowest} in a dark sky in these twelve months.",
    "{name} is never above {lowest} in a dark sky, clear of what blocks the view, in these twelve months.",
)
_MOON: Final = "{name} comes round every month."
_BEST: Final = (
    "{name} is best {weeks}, above {bound} in a dark sky.",
    "{name} is best {weeks}, above {bound} in a dark sky, clear of what blocks the view.",
)
_LOW: Final = (
    "{name} stays under {bound} in a dark sky; it is best {weeks}.",
    "{name} stays under {bound} in a dark sky, clear of what blocks the view; it is best {weeks}.",
)
_LOW_BUT_LARGEST: Final = (
    "{name} is best {weeks}: low, but largest, {size} at {height} in a dark sky.",
    (
        "{name} is best {weeks}: low, but largest, {size} at {height} in a dark sky, clear of what blocks "
        "the view."
    ),
)
_BRIEFLY: Final = (
    "{name} is only briefly above {bound} in a dark sky; it is best {weeks}.",
    "{name} is only briefly above {bound} in a dark sky, clear of what blocks the view; it is best {weeks}.",
)
_BOTH: Final = "{first} Highest and largest around {day}: {height}, {size}."
_EACH_BUT_SMALL: Final = (
    "{first} Highest around {highest}, {height}, but only {small} then; largest around {largest}, {size}."
)
_EACH: Final = "{first} Highest around {highest}, {height}; largest around {largest}, {size}."

_HIGHER_BUT_SMALL: Final = "{first} Highest around {highest}, {height}, but only {size} then."
_LIGHT_NIGHTS: Final = (
    "The night sky here stays too light {weeks}: the Sun gets less than {depth} below the horizon."
)
_MIDNIGHT_SUN: Final = "The Sun does not set here {weeks}."

_ALL_YEAR: Final = "all year"
_UNTIL: Final = "until {last}"
_FROM: Final = "from {first} on"
_FROM_TO: Final = "from {first} to {last}"
_IN: Final = "in {part}"

_WITH_YEAR: Final = "{words} {year}"

_EVENING: Final = "{day}: {facts}."
_UP_TO: Final = "{name} up to {height} in the dark, at {time}"
_NOT_UP: Final = "{name} not up in a dark sky"
_NOT_UP_CLEAR: Final = "{name} not up in a dark sky, clear of what blocks the view"
_STAYS_LIGHT: Final = "the sky does not get dark enough"
_HOURS: Final = "{hours} h above {bound}"

_ASPECTS: Final = {
    Aspect.OPPOSITION: "opposition",
    Aspect.CONJUNCTION: "conjunction",
    Aspect.INFERIOR_CONJUNCTION: "inferior conjunction",
    Aspect.SUPERIOR_CONJUNCTION: "superior conjunction",
    Aspect.GREATEST_ELONGATION_EAST: "greatest elongation east",
    Aspect.GREATEST_ELONGATION_WEST: "greatest elongation west",
    Aspect.HALF_LIT: "half lit",
    Aspect.FULL_MOON: "full Moon",
    Aspect.NEW_MOON: "new Moon",
}
_PHENOMENON: Final = "{aspect} on {days}"
_DAY_FROM_SUN: Final = "{day} ({angle} from the Sun)"
_ELONGATION_EAST_ON: Final = ("greatest elongation east {day}", "elongation east {day}", "{angle} east")
_ELONGATION_WEST_ON: Final = ("greatest elongation west {day}", "elongation west {day}", "{angle} west")
_ON: Final = ("{aspect} {day}", "{aspect}")


def best_weeks_text(year: Year) -> str:
    """Return the best weeks as one or two sentences.

    ``Saturn is best from mid-August to late December 2027, above 45° in a dark sky. Highest around 4 October
    2027, 57°; largest around 18 October 2027, 19.9″.``
    """
    best, spoken = year.best, _Dates()
    if best.highest is None or best.largest is None:
        return _sentence(_NEVER, year, lowest=angle_text(LOWEST_USEFUL_DEG))
    highest_deg = float(year.outlook.best_altitude_deg[best.highest])
    if _is_low_but_largest(year):
        return _low_but_largest(year, spoken)
    if year.planet is Body.MOON:
        first = _MOON.format(name=opening(year.planet))
    elif best.above_deg is not None:
        first = _sentence(_BEST, year, weeks=_weeks(year, spoken), bound=angle_text(best.above_deg))
    else:
        low = _LOW if highest_deg < FAIR_DEG else _BRIEFLY
        first = _sentence(low, year, weeks=_weeks(year, spoken), bound=angle_text(FAIR_DEG))
    height = altitude_text(highest_deg, under_deg=FAIR_DEG)
    highest_on = spoken.day(year.dates[best.highest])
    size = disc_size_text(float(year.outlook.diameter_arcsec[best.largest]))
    if best.highest == best.largest:
        return _BOTH.format(first=first, day=highest_on, height=height, size=size)
    largest_on = spoken.day(year.dates[best.largest])
    template = _EACH_BUT_SMALL if _is_small_when_highest(year) else _EACH
    small = disc_size_text(float(year.outlook.diameter_arcsec[best.highest]))
    return template.format(
        first=first, highest=highest_on, height=height, small=small, largest=largest_on, size=size
    )


def _is_low_but_largest(year: Year) -> bool:
    """Tell whether the best evening is a low one, and a higher one shows a much smaller disc."""
    best = year.best
    if best.highest is None or best.above_deg is not None:
        return False
    return bool(year.outlook.best_altitude_deg[best.highest] >= FAIR_DEG) and _is_small_when_highest(year)


def _is_small_when_highest(year: Year) -> bool:
    """Tell whether the disc is much smaller on the highest evening than on the best one."""
    best, diameter_arcsec = year.best, year.outlook.diameter_arcsec
    if best.sharpest is None or best.highest is None or year.planet is Body.MOON:
        return False
    return bool(diameter_arcsec[best.sharpest] >= _MUCH_LARGER * diameter_arcsec[best.highest])


def _low_but_largest(year: Year, spoken: "_Dates") -> str:
    best, outlook = year.best, year.outlook
    assert best.sharpest is not None
    assert best.highest is not None
    first = _sentence(
        _LOW_BUT_LARGEST,
        year,
        weeks=_weeks(year, spoken),
        size=disc_size_text(float(outlook.diameter_arcsec[best.sharpest])),
        height=altitude_text(float(outlook.best_altitude_deg[best.sharpest]), under_deg=FAIR_DEG),
    )
    return _HIGHER_BUT_SMALL.format(
        first=first,
        highest=spoken.day(year.dates[best.highest]),
        height=altitude_text(float(outlook.best_altitude_deg[best.highest]), under_deg=FAIR_DEG),
        size=disc_size_text(float(outlook.diameter_arcsec[best.highest])),
    )


def _sentence(templates: tuple[str, str], year: Year, **figures: str) -> str:
    """Fill a template, or the one beside it for a site where something blocks the view."""
    free, obstructed = templates
    return (obstructed if year.site.blocked else free).format(name=opening(year.planet), **figures)


def light_nights_text(year: Year) -> str | None:
    """Return when the nights are too light for the planet, said of the sky; None where they never are.

    ``The night sky here stays too light from mid-May to late July 2027: the Sun gets less than 12° below the
    horizon.``
    """
    if not year.light_nights:
        return None
    weeks = listed(list(_each_stretch(year, year.light_nights, _Dates())))
    if year.dark_below_deg > -1.0:
        return _MIDNIGHT_SUN.format(weeks=weeks)
    return _LIGHT_NIGHTS.format(weeks=weeks, depth=angle_text(-year.dark_below_deg))


def cautions(year: Year) -> tuple[str, ...]:
    """Return what must be known of the Sun before anyone looks for the planet in this year, as sentences."""
    found = [MERCURY_AND_SUN] if year.planet is Body.MERCURY else []
    spoken = _Dates()
    days = [
        spoken.day(local_day(year, each.time))
        for each in year.phenomena
        if each.aspect is Aspect.INFERIOR_CONJUNCTION
    ]
    if days:
        found.append(inferior_conjunction_caution(year.planet, listed(days)))
    return tuple(found)


def evening_text(year: Year, number: int, clock: SiteClock) -> str:
    """Return one evening in a sentence, its date first.

    ``Sat 5 December 2026: Saturn up to 50° in the dark, at 19:10; 6.0 h above 30°, 2.9 h above 45°; 18.5″.``
    """
    outlook, day = year.outlook, year.dates[number]
    parts = [_highest_text(year, number, clock)]
    by_height = ((FAIR_DEG, outlook.dark_hours_30), (BEST_DEG, outlook.dark_hours_45))
    hours = [
        _HOURS.format(hours=rounded_text(float(each[number]), 1), bound=angle_text(bound))
        for bound, each in by_height
        if each[number] >= _SHORTEST_TOLD_H
    ]
    if hours:
        parts.append(", ".join(hours))
    parts.append(disc_size_text(float(outlook.diameter_arcsec[number])))
    parts += [aspect_text(each.aspect) for each in year.phenomena if local_day(year, each.time) == day]
    return _EVENING.format(day=weekday_text(day), facts="; ".join(parts))


def _highest_text(year: Year, number: int, clock: SiteClock) -> str:
    altitude_deg, name = float(year.outlook.best_altitude_deg[number]), year.planet.label
    if math.isnan(altitude_deg) and not year.outlook.sky_dark_hours[number]:
        return _STAYS_LIGHT
    if math.isnan(altitude_deg):
        return (_NOT_UP_CLEAR if year.site.blocked else _NOT_UP).format(name=name)
    height = altitude_text(max(altitude_deg, 0.0), under_deg=FAIR_DEG)
    return _UP_TO.format(name=name, height=height, time=clock.time(instant(year.outlook.best_s[number])))


def aspect_text(aspect: Aspect) -> str:
    """Return what a planet does, as a name: ``greatest elongation east``."""
    return _ASPECTS[aspect]


def phenomena_lines(year: Year) -> Iterator[str]:
    """Yield what the planet does, one kind to a line, in the order in which they first come.

    ``greatest elongation east on 3 February 2027 (18° from the Sun) and 28 May (23° from the Sun)``.
    """
    for aspect in dict.fromkeys(each.aspect for each in year.phenomena):
        if aspect is Aspect.HALF_LIT:  # told with the others of ``year_notes``
            continue
        spoken, of_kind = _Dates(), [each for each in year.phenomena if each.aspect is aspect]
        days = [_day_text(each, spoken.day(local_day(year, each.time))) for each in of_kind]
        yield _PHENOMENON.format(aspect=aspect_text(aspect), days=listed(days))


def _day_text(phenomenon: Phenomenon, day: str) -> str:
    if phenomenon.aspect not in ELONGATIONS:
        return day
    return _DAY_FROM_SUN.format(day=day, angle=angle_text(phenomenon.elongation_deg))


def mark_texts(phenomenon: Phenomenon, day: date) -> tuple[str, ...]:
    """Return what a planet does on a date, for a chart: from the longest words to the shortest."""
    templates = {
        Aspect.GREATEST_ELONGATION_EAST: _ELONGATION_EAST_ON,
        Aspect.GREATEST_ELONGATION_WEST: _ELONGATION_WEST_ON,
    }.get(phenomenon.aspect, _ON)
    figures = {
        "aspect": aspect_text(phenomenon.aspect),
        "day": short_date_text(day),
        "angle": angle_text(phenomenon.elongation_deg),
    }
    return tuple(template.format(**figures) for template in templates)


def local_day(year: Year, moment: datetime) -> date:
    """Return the date of a moment by the site's clock."""
    return moment.astimezone(year.site.zone).date()


def _weeks(year: Year, spoken: "_Dates") -> str:
    """Return the stretches: ``from mid-August to late December 2027 and in mid-March 2028``."""
    return listed(list(_each_stretch(year, year.best.stretches, spoken)))


def _each_stretch(year: Year, stretches: Stretches, spoken: "_Dates") -> Iterator[str]:
    last_evening = len(year.dates) - 1
    for start, end in stretches:
        first_day, last_day = year.dates[start], year.dates[end]
        if start == 0 and end == last_evening:
            yield _ALL_YEAR
        elif start == 0:
            yield _UNTIL.format(last=spoken.part(last_day))
        elif end == last_evening:
            yield _FROM.format(first=spoken.part(first_day))
        elif _part_of(first_day) == _part_of(last_day):
            yield _IN.format(part=spoken.part(first_day))
        else:
            first, last = spoken.part(first_day), spoken.part(last_day)
            yield _FROM_TO.format(first=first, last=last)


def _part_of(day: date) -> tuple[int, int, str]:
    return day.year, day.month, next(name for until, name in _PARTS if day.day <= until)


class _Dates:
    """Writes dates one after another, and the year of each only where it is not that of the one before."""

    def __init__(self) -> None:
        self._year: int | None = None

    def day(self, day: date) -> str:
        """Return a date: ``4 October 2027``."""
        return self._with_year(date_text(day, beside=day), day)

    def part(self, day: date) -> str:
        """Return a part of a month: ``mid-September 2027``."""
        return self._with_year(_part_of(day)[2].format(month=month_text(day)), day)

    def _with_year(self, words: str, day: date) -> str:
        known, self._year = self._year, day.year
        return words if known == day.year else _WITH_YEAR.format(words=words, year=day.year)
