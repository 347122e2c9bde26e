"""The lines of the log as a person reads them."""

from typing import Final
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from core.record.log_entry import LogEntry, Verdict
from core.words.dates import short_date_text
from core.words.directions import altitude_text
from core.words.quantities import power_text
from core.words.site_clock import SiteClock

VERDICT_LABELS: Final = {
    Verdict.MORE: "more detail",
    Verdict.NO_CHANGE: "no change",
    Verdict.LESS: "less detail",
    Verdict.CANNOT_TELL: "cannot tell",
}
_STEP: Final = {
    Verdict.MORE: "{power}: more detail than {before}",
    Verdict.NO_CHANGE: "{power}: no change from {before}",
    Verdict.LESS: "{power}: less detail than {before}",
    Verdict.CANNOT_TELL: "{power}: cannot tell it from {before}",
}
_ALONE: Final = "{power}: {verdict}"
_PLANET_AND_HEIGHT: Final = "{planet} {altitude}"
_GEAR: Final = "{scope}: {parts}"
_LINE: Final = "{day} {time}  {told}"
_NO_LINES: Final = (
    "The log is empty. Verdicts on the ladder are written here by themselves, and lines of your own."
)
_NO_SUCH_LINES: Final = "No line has all of these words."
NOTHING_YET: Final = "There are no lines in the log for {observer} yet."
NOTHING_FOUND: Final = "No line of the log for {observer} fits."
IMPORTED: Final = {
    0: "Nothing new: every line of the file is in the log already.",
    1: "1 line was added to the log.",
}
_IMPORTED_MANY: Final = "{count} lines were added to the log."


def verdict_text(entry: LogEntry) -> str:
    """Return what was said of a step, ``120x: more detail than 96x``; nothing for a note."""
    if entry.verdict is None or entry.power is None:
        return ""
    power = power_text(entry.power)
    if entry.from_power is None:
        return _ALONE.format(power=power, verdict=VERDICT_LABELS[entry.verdict])
    return _STEP[entry.verdict].format(power=power, before=power_text(entry.from_power))


def where_text(entry: LogEntry) -> str:
    """Return the planet and its height, ``Saturn 50°``, as far as they are known."""
    if entry.planet is None:
        return ""
    if entry.altitude_deg is None:
        return entry.planet.heading
    return _PLANET_AND_HEIGHT.format(planet=entry.planet.heading, altitude=altitude_text(entry.altitude_deg))


def gear_text(entry: LogEntry) -> str:
    """Return what was looked through, ``Six-inch reflector: 10 mm, 2x``, as far as it is known."""
    parts = [entry.eyepiece_name, *(each.name for each in (*entry.barlows, *entry.filters))]
    told = ", ".join(part for part in parts if part)
    if not told or not entry.scope_name:
        return entry.scope_name or told
    return _GEAR.format(scope=entry.scope_name, parts=told)


def entry_clock(entry: LogEntry, *, hours: int) -> SiteClock:
    """Return the clock of the place where a line was written; UTC where its zone is not known here."""
    try:
        return SiteClock(zone=ZoneInfo(entry.time_zone), hours=hours)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return SiteClock(zone=ZoneInfo("UTC"), hours=hours)


def line_text(entry: LogEntry, clock: SiteClock) -> str:
    """Return a whole line of the log: when, what on which planet, through what, and the note under it."""
    told = [text for text in (where_text(entry), verdict_text(entry), gear_text(entry)) if text]
    line = _LINE.format(
        day=short_date_text(clock.day(entry.at)), time=clock.time(entry.at), told="  ·  ".join(told)
    ).rstrip()
    return "\n".join([line, *(part for part in entry.note.splitlines() if part.strip())])


def no_lines_text(*, searched: bool) -> str:
    """Return why there are no lines to show."""
    return _NO_SUCH_LINES if searched else _NO_LINES


def imported_text(count: int) -> str:
    """Return how many lines an import added, as a sentence."""
    return IMPORTED.get(count) or _IMPORTED_MANY.format(count=count)
