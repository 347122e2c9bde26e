"""A planet's year as plain text for a terminal."""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from core.arrays import Floats
from core.gear.combinations import Combination
from core.plain_text import WIDTH, cut, shown_name, table, wrapped
from core.sky.events import BodyState
from core.sky.instant import instant
from core.words.directions import altitude_text
from core.words.pairs import meetings
from core.words.quantities import rounded_text
from core.words.reports import ITEM
from core.words.site_clock import SiteClock
from core.words.sizes import disc_size_text
from core.words.year import best_weeks_text, cautions, light_nights_text, phenomena_lines
from core.words.year_notes import year_notes
from core.words.year_report import HEIGHT_AND_TIME, about_year_words, date_in_column, every_seventh_words
from core.year.year import Year

_EVERY_DAYS: Final = 7
_HEADER: Final = ("evening", "rises", "transit", "sets", "best in dark", "h>30°", "h>45°", "size")
_RIGHT: Final = (5, 6, 7)


def year_text(year: Year, *, kit: Sequence[Combination] = (), clock: int = 24, width: int = WIDTH) -> str:
    """Return a year as text: the best weeks in words, what the planet does, and every seventh evening.

    ``kit`` is all that fits the telescope, for the power that holds two bodies close together.
    """
    site_clock = SiteClock(zone=year.site.zone, hours=clock)
    lines = wrapped(best_weeks_text(year), width)
    for sentence in (light_nights_text(year), *cautions(year)):
        lines += wrapped(sentence, width) if sentence else []
    site = shown_name(year.site.name)
    lines += ["", cut(every_seventh_words(site, year.dates[0], year.dates[-1]), width)]
    lines += wrapped(about_year_words(year), width)
    lines.append("")
    for words in phenomena_lines(year):
        lines += wrapped(ITEM.format(words=words), width, indent="  ")
    notes = [*year_notes(year, site_clock), *meetings(year, kit, site_clock)]
    for words in notes:
        lines += wrapped(ITEM.format(words=words), width, indent="  ")
    if year.phenomena or notes:
        lines.append("")
    return "\n".join([*lines, *_table(year, site_clock, width)])


def _table(year: Year, clock: SiteClock, width: int) -> list[str]:
    return table([_HEADER, *_rows(year, clock)], width, right=_RIGHT)


def _rows(year: Year, clock: SiteClock) -> Iterator[tuple[str, ...]]:
    outlook, spoken = year.outlook, None
    for number in range(0, len(year.dates), _EVERY_DAYS):
        day = year.dates[number]
        usual = {BodyState.ALWAYS_UP: "up", BodyState.NEVER_UP: "down"}.get(outlook.state(number), "-")
        yield (
            date_in_column(day, spoken),
            _first(outlook.rises.of(number), clock, usual),
            _first(outlook.transits.of(number), clock, "-"),
            _first(outlook.sets.of(number), clock, usual),
            _best(outlook.best_altitude_deg[number], outlook.best_s[number], clock),
            _hours(outlook.dark_hours_30[number]),
            _hours(outlook.dark_hours_45[number]),
            disc_size_text(float(outlook.diameter_arcsec[number])),
        )
        spoken = day


def _first(times_s: Floats, clock: SiteClock, otherwise: str) -> str:
    return clock.time(instant(times_s[0])) if len(times_s) else otherwise


def _best(altitude_deg: float, time_s: float, clock: SiteClock) -> str:
    if np.isnan(altitude_deg):
        return "-"
    height = altitude_text(max(altitude_deg, 0.0))
    return HEIGHT_AND_TIME.format(height=height, time=clock.time(instant(time_s)))


def _hours(hours: float) -> str:
    return rounded_text(hours, 1) if hours > 0.0 else "-"
