"""What only the terminal's report of a year says: its heading, what its columns rest on, its dates."""

from datetime import date
from typing import Final

from core.words.dates import date_text, short_date_text
from core.words.quantities import two_figures
from core.year.year import Year

HEIGHT_AND_TIME: Final = "{height:>3} at {time}"
_EVERY_SEVENTH: Final = "{site}, every seventh evening from {first} to {last}"
_DATE_AND_YEAR: Final = "{day} {year}"
_ABOUT_YEAR: Final = (
    "Times are those of {zone}; altitudes are geometric. The sky counts as dark for {planet} when the Sun is "
    "{below} below the horizon. Best in dark: the greatest altitude then; h>30° and h>45°: the hours above "
    "those heights then."
)
_ABOUT_CLEAR_YEAR: Final = (
    "Times are those of {zone}; altitudes are geometric. The sky counts as dark for {planet} when the Sun is "
    "{below} below the horizon, and it is clear of what blocks the sky. Best in dark: the greatest "
    "altitude then; h>30° and h>45°: the hours above those heights then."
)


def every_seventh_words(site: str, first: date, last: date) -> str:
    """Return the heading of a year's table."""
    return _EVERY_SEVENTH.format(site=site, first=date_text(first), last=date_text(last))


def date_in_column(day: date, before: date | None) -> str:
    """Return a date of a column, with its year where that is a new one."""
    if before is not None and before.year == day.year:
        return short_date_text(day)
    return _DATE_AND_YEAR.format(day=short_date_text(day), year=day.year)


def about_year_words(year: Year) -> str:
    """Return what the columns of a year's table rest on."""
    template = _ABOUT_CLEAR_YEAR if year.site.blocked else _ABOUT_YEAR
    return template.format(
        zone=year.site.time_zone, planet=year.planet.label, below=f"{two_figures(-year.dark_below_deg)}°"
    )
