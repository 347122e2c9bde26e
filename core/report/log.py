"""The log as plain text for a terminal."""

from collections.abc import Sequence
from itertools import groupby

from core.plain_text import WIDTH, cut, printable, wrapped
from core.record.log_entry import LogEntry
from core.words.dates import weekday_text
from core.words.log import entry_clock, gear_text, verdict_text, where_text
from core.words.reports import LOG_LINE

_INDENT = "       "


def log_text(entries: Sequence[LogEntry], *, clock: int, width: int = WIDTH) -> str:
    """Return lines of the log as text, evening by evening, each with the time of its own place.

    ``clock`` is 24 or 12 hours.
    """
    lines: list[str] = []
    for (evening, site), those in groupby(entries, key=lambda entry: (entry.evening, entry.site_name)):
        heading = ", ".join(part for part in (weekday_text(evening), printable(site)) if part)
        lines += ["", cut(heading, width)]
        for entry in those:
            lines += _lines_of(entry, clock, width)
    return "\n".join(lines[1:])


def _lines_of(entry: LogEntry, clock: int, width: int) -> list[str]:
    time = entry_clock(entry, hours=clock).time(entry.at)
    told = [text for text in (where_text(entry), verdict_text(entry), gear_text(entry)) if text]
    lines = wrapped(
        printable(LOG_LINE.format(time=time, words="  ".join(told)).rstrip()), width, indent=_INDENT
    )
    for paragraph in entry.note.splitlines():
        lines += [_INDENT + line for line in wrapped(printable(paragraph), width - len(_INDENT))]
    return lines
