"""An evening as plain text for a terminal."""

from itertools import zip_longest
from typing import Final

from core.moments.best_minutes import offered_windows
from core.plain_text import WIDTH, columns, cut, printable, shown_name, stacked, width_of, wrapped
from core.situation.situation import Situation
from core.sky.events import BodyState
from core.sky.night import BodyNight, Night
from core.words.answer import answer_words
from core.words.cautions import CAP_BEFORE_SUNRISE
from core.words.dates import weekday_text
from core.words.directions import altitude_text
from core.words.evening_cautions import near_the_sun_cautions
from core.words.finding import HANDS, HEADING, finding_sentences
from core.words.obstacles import warm_air_words
from core.words.pairs import pair_sentences
from core.words.reasons import answer_reasons
from core.words.reports import ABOUT_HEIGHTS, EVENING, IN_THE_DARK, ITEM, WARM_WINDOW, WINDOW
from core.words.site_clock import SiteClock, clock_of
from core.words.sun import sun_times_sentence
from core.words.units import Units
from core.words.why_not import why_not_words

# Narrower than this the words of the last column would be all line breaks.
_LEAST_ROOM: Final = 26


_Row = tuple[str, str, str, str, str]


def heights_text(situation: Situation, *, width: int = WIDTH) -> str:
    """Return an evening as text; its first line is the answer. The situation must have a night."""
    night, site_clock = situation.night, clock_of(situation)
    assert night is not None
    assert site_clock is not None
    lines = wrapped(printable(answer_words(situation)), width)
    lines += [
        "",
        cut(EVENING.format(site=shown_name(night.site.name), day=weekday_text(night.evening)), width),
    ]
    lines += wrapped(ABOUT_HEIGHTS.format(zone=night.site.time_zone), width)
    lines += wrapped(sun_times_sentence(night.sun, site_clock), width)
    lines += ["", *_heights_table(night, site_clock, width)]
    lines += [line for words in near_the_sun_cautions(night) for line in wrapped(words, width)]
    lines += wrapped(CAP_BEFORE_SUNRISE, width)
    lines += [line for words in pair_sentences(situation) for line in wrapped(printable(words), width)]
    lines += _ways_to_find(situation, site_clock, width)
    lines += ["", "Why"]
    for reason in answer_reasons(situation.answer, site_clock, units=Units(situation.preferences)):
        lines += wrapped(ITEM.format(words=printable(reason)), width, indent="  ")
    return "\n".join(lines)


def _ways_to_find(situation: Situation, clock: SiteClock, width: int) -> list[str]:
    """Return how each body is found, a paragraph each, or nothing where nothing is offered."""
    if not situation.findings:
        return []
    lines = ["", HEADING]
    for finding in situation.findings:
        words = " ".join(finding_sentences(finding, clock, has_scope=situation.scope is not None))
        lines += wrapped(ITEM.format(words=printable(words)), width, indent="  ")
    return lines + wrapped(HANDS, width)


def _heights_table(night: Night, clock: SiteClock, width: int) -> list[str]:
    """Return the table of bodies; the last column is wrapped into what room is left."""
    header = ("", "rises", "transit", "highest", "sets")
    cells = [_body_cells(body, clock) for body in night.bodies]
    rows = [header]
    starts = []
    for body_rows in cells:
        starts.append(len(rows))
        rows += body_rows
    left = columns(rows, right=(3,))
    offset = max(map(width_of, left)) + 2
    if width - offset < _LEAST_ROOM:
        return _narrow_table(night, clock, [header, *(row for rows in cells for row in rows)], width)
    lines = [left[0].ljust(offset) + IN_THE_DARK]
    for body, start, body_rows in zip(night.bodies, starts, cells, strict=True):
        right = _window_lines(night, body, clock, width - offset)
        for one, other in zip_longest(left[start : start + len(body_rows)], right, fillvalue=""):
            lines.append((one + " " * (offset - width_of(one)) + other).rstrip())
    return lines


def _narrow_table(night: Night, clock: SiteClock, rows: list[_Row], width: int) -> list[str]:
    """Return the table of bodies with what each offers below it and not beside it."""
    header, *others = rows
    side_by_side = columns(rows, right=(3,))
    fits = max(map(width_of, side_by_side)) <= width
    lines = [side_by_side[0]] if fits else []
    bodies = iter(night.bodies)
    body: BodyNight | None = None
    for row, line in zip(others, side_by_side[1:], strict=True):
        if row[0]:
            lines += _below(night, body, clock, width)
            body = next(bodies)
        lines += [line] if fits else stacked(header, row, width)
    return lines + _below(night, body, clock, width)


def _below(night: Night, body: BodyNight | None, clock: SiteClock, width: int) -> list[str]:
    return [] if body is None else [f"  {line}" for line in _window_lines(night, body, clock, width - 2)]


def _body_cells(body: BodyNight, clock: SiteClock) -> list[_Row]:
    """Return the rows of one body: as many as it has rises, transits or sets, at least one."""
    rows = zip_longest(
        [body.body.heading],
        [clock.time(time) for time in body.rises] or ["-"],
        [clock.time(position.time) for position in body.transits] or ["-"],
        [altitude_text(body.highest.altitude_deg)],
        [clock.time(time) for time in body.sets] or ["-"],
        fillvalue="",
    )
    return list(rows)


def _window_lines(night: Night, body: BodyNight, clock: SiteClock, width: int) -> list[str]:
    lines = []
    if body.windows and body.state is BodyState.ALWAYS_UP:
        lines.append("always up")
    for window in offered_windows(night, body.body):
        words = (WINDOW if window.warm_air is None else WARM_WINDOW).format(
            span=clock.span(window.start, window.end),
            grade=window.grade.value,
            air="" if window.warm_air is None else printable(warm_air_words(window.warm_air)),
        )
        lines += wrapped(words, width, indent="  ")
    if body.why_not is not None:
        lines += wrapped(printable(why_not_words(body.body, body.why_not)), width, indent="  ")
    return lines
