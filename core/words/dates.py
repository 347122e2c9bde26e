"""How dates are written out; times of day are those of ``core.words.site_clock``."""

from datetime import date
from typing import Final

# Not from strftime, whose names follow the machine's language and not the program's.
_MONTHS: Final = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_WEEKDAYS: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def date_text(day: date, *, beside: date | None = None) -> str:
    """Return a date, ``12 March 2027``; the year is left out when it is that of ``beside``."""
    month = month_text(day)
    if beside is not None and beside.year == day.year:
        return f"{day.day} {month}"
    return f"{day.day} {month} {day.year}"


def month_text(day: date) -> str:
    """Return the name of a date's month: ``March``."""
    return _MONTHS[day.month - 1]


def short_date_text(day: date) -> str:
    """Return a date without its year, the month cut to three letters: ``5 Dec``."""
    return f"{day.day} {month_text(day)[:3]}"


def short_weekday_text(day: date) -> str:
    """Return a date as it stands under an axis: ``Sat 5 Dec``."""
    return f"{_WEEKDAYS[day.weekday()]} {short_date_text(day)}"


def weekday_text(day: date) -> str:
    """Return a date with its weekday, ``Sat 5 December 2026``."""
    return f"{_WEEKDAYS[day.weekday()]} {date_text(day)}"
