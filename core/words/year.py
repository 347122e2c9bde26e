"""A planet's year in words: the best weeks, the highest and the largest, and what it does in the sky."""

import math
from collections.abc import Iterator
from datetime import date, datetime
from typing import Final

from core.sky.apparent import instant
from core.sky.bodies import Body
from core.sky.events import BEST_DEG, FAIR_DEG, LOWEST_USEFUL_DEG
from core.words.dates import date_text, month_text, weekday_text
from core.words.directions import altitude_text
from core.words.names import listed, opening
from core.words.site_clock import SiteClock
from core.words.sizes import disc_size_text
from core.year.phenomena import Aspect, Phenomenon
from core.year.year import Year

# The parts of a month, by their last day.
_PARTS: Final = ((10, "early"), (20, "mid"), (31, "late"))


def best_weeks_text(year: Year) -> str:
    """Return the best weeks as one or two sentences.

    ``Saturn is best from mid-August to late December 2027, above 45° in a dark sky. Highest around 4 October
    2027, 57°; largest around 18 October 2027, 19.9″.``
    """
    name, best = opening(year.planet), year.best
    if best.highest is None or best.largest is None:
        never = f"{name} is never above {LOWEST_USEFUL_DEG:.0f}° in a dark sky"
        return f"{never}{_clear(year)} in these twelve months."
    spoken = _Dates()
    highest_deg = float(year.outlook.best_altitude_deg[best.highest])
    if year.planet is Body.MOON:
        first = f"{name} comes round every month."
    elif best.above_deg is None:
        low = "stays under" if highest_deg < FAIR_DEG else "is only briefly above"
        first = (
            f"{name} {low} {FAIR_DEG:.0f}° in a dark sky{_clear(year)}; it is best {_weeks(year, spoken)}."
        )
    else:
        weeks = _weeks(year, spoken)
        first = f"{name} is best {weeks}, above {best.above_deg:.0f}° in a dark sky{_clear(year)}."
    height = altitude_text(highest_deg, under_deg=FAIR_DEG)
    highest = spoken.day(year.dates[best.highest])
    size = disc_size_text(float(year.outlook.diameter_arcsec[best.largest]))
    if best.highest == best.largest:
        return f"{first} Highest and largest around {highest}: {height}, {size}."
    largest = spoken.day(year.dates[best.largest])
    return f"{first} Highest around {highest}, {height}; largest around {largest}, {size}."


def evening_text(year: Year, number: int, clock: SiteClock) -> str:
    """Return one evening in a sentence, its date first.

    ``Sat 5 December 2026: Saturn up to 50° in the dark, at 19:10; 6.0 h above 30°, 2.9 h above 45°; 18.5″.``
    """
    outlook, day = year.outlook, year.dates[number]
    parts = [f"{weekday_text(day)}: {year.planet.label} {_highest_text(year, number, clock)}"]
    by_height = ((FAIR_DEG, outlook.dark_hours_30), (BEST_DEG, outlook.dark_hours_45))
    hours = [f"{each[number]:.1f} h above {high:.0f}°" for high, each in by_height if each[number] >= 0.05]
    if hours:
        parts.append(", ".join(hours))
    parts.append(disc_size_text(float(outlook.diameter_arcsec[number])))
    parts += [each.aspect.value for each in year.phenomena if local_day(year, each.time) == day]
    return f"{'; '.join(parts)}."


def _highest_text(year: Year, number: int, clock: SiteClock) -> str:
    altitude_deg = float(year.outlook.best_altitude_deg[number])
    if math.isnan(altitude_deg):
        return f"not up in a dark sky{_clear(year)}"
    height = altitude_text(max(altitude_deg, 0.0), under_deg=FAIR_DEG)
    return f"up to {height} in the dark, at {clock.time(instant(year.outlook.best_s[number]))}"


def phenomena_lines(year: Year) -> Iterator[str]:
    """Yield what the planet does, one kind to a line, in the order in which they first come.

    ``greatest elongation east on 3 February 2027 (18° from the Sun) and 28 May (23° from the Sun)``.
    """
    for aspect in dict.fromkeys(each.aspect for each in year.phenomena):
        spoken, of_kind = _Dates(), [each for each in year.phenomena if each.aspect is aspect]
        days = [spoken.day(local_day(year, each.time)) + _from_sun(each) for each in of_kind]
        yield f"{aspect.value} on {listed(days)}"


def _from_sun(phenomenon: Phenomenon) -> str:
    if phenomenon.aspect not in (Aspect.GREATEST_ELONGATION_EAST, Aspect.GREATEST_ELONGATION_WEST):
        return ""
    return f" ({phenomenon.elongation_deg:.0f}° from the Sun)"


def local_day(year: Year, moment: datetime) -> date:
    """Return the date of a moment by the site's clock."""
    return moment.astimezone(year.site.zone).date()


def _clear(year: Year) -> str:
    return ", clear of what blocks the view" if year.site.blocked else ""


def _weeks(year: Year, spoken: "_Dates") -> str:
    """Return the stretches: ``from mid-August to late December 2027 and in mid-March 2028``."""
    last = len(year.dates) - 1
    return listed(list(_each_stretch(year, last, spoken)))


def _each_stretch(year: Year, last: int, spoken: "_Dates") -> Iterator[str]:
    for start, end in year.best.stretches:
        first_day, last_day = year.dates[start], year.dates[end]
        if start == 0 and end == last:
            yield "all year"
        elif start == 0:
            yield f"until {spoken.part(last_day)}"
        elif end == last:
            yield f"from {spoken.part(first_day)} on"
        elif _part_of(first_day) == _part_of(last_day):
            yield f"in {spoken.part(first_day)}"
        else:
            yield f"from {spoken.part(first_day)} to {spoken.part(last_day)}"


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
        name = _part_of(day)[2]
        words = f"mid-{month_text(day)}" if name == "mid" else f"{name} {month_text(day)}"
        return self._with_year(words, day)

    def _with_year(self, words: str, day: date) -> str:
        known, self._year = self._year, day.year
        return words if known == day.year else f"{words} {day.year}"
