"""Which minutes of an evening are a planet's best.

The order in which windows are preferred is ours: free of warm air and above 30 degrees first, since a
warm roof spoils more than the difference between 35 and 50 degrees does.
"""

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta

from attrs import evolve, frozen

from core.moments.hours import LAST_CALL, STOP_BEFORE_SUNRISE, HoursOut
from core.sky.bodies import Body
from core.sky.night import BodyNight, Night
from core.sky.spans import Span
from core.sky.track import Position
from core.sky.windows import Grade, Window

# Long enough to climb the ladder once; a shorter window counts only together with its neighbours (ours).
SHORTEST_USEFUL = timedelta(minutes=20)

_RANKS = {
    (Grade.BEST, False): 5,
    (Grade.FAIR, False): 4,
    (Grade.BEST, True): 3,
    (Grade.FAIR, True): 2,
    (Grade.LOW, False): 1,
    (Grade.LOW, True): 0,
}
# From 30 degrees up in clean air.
WORTH_A_CLIMB = _RANKS[Grade.FAIR, False]
# Windows and blocked spans that touch are told apart by rounding only.
TOUCHING = timedelta(seconds=2)


@frozen(kw_only=True)
class BestMinutes:
    """One run of adjoining windows, in order.

    ``rank`` is that of the poorest of them, from 5 (above 45 degrees, clean air) to 0 (low, in warm air).
    Where they end behind something or in warm air, ``then_behind`` or ``then_through`` names it.
    ``in_hours`` is false of those that lie, at least in part, outside the owner's hours.
    """

    windows: tuple[Window, ...]
    rank: int
    then_behind: str | None = None
    then_through: str | None = None
    in_hours: bool = True

    @property
    def start(self) -> datetime:
        """When they begin."""
        return self.windows[0].start

    @property
    def end(self) -> datetime:
        """When they end."""
        return self.windows[-1].end

    @property
    def duration(self) -> timedelta:
        """How long they last."""
        return self.end - self.start

    def holds(self, moment: datetime) -> bool:
        """Tell whether a moment is one of them."""
        return self.start <= moment < self.end

    def window_at(self, moment: datetime) -> Window:
        """Return the window that holds a moment, or the nearest one."""
        return min(self.windows, key=lambda window: _distance(window, moment))


def stop_time(night: Night) -> datetime | None:
    """Return when the telescope must be off the sky, 10 minutes before sunrise; None without a sunrise."""
    return None if night.sun.rise is None else night.sun.rise - STOP_BEFORE_SUNRISE


def is_just_before_sunrise(night: Night, moment: datetime) -> bool:
    """Tell whether a moment lies after the time to stop, and the Sun has not risen yet."""
    stop, rise = stop_time(night), night.sun.rise
    return stop is not None and rise is not None and stop <= moment < rise


def find_best_minutes(
    night: Night, body: Body, *, since: datetime | None = None, hours: HoursOut | None = None
) -> BestMinutes | None:
    """Return the best minutes of one body, none earlier than ``since`` or later than the stop before sunrise.

    They are the longest run of the best rank that lasts 20 minutes; where only lower ranks last so long, a
    run of those, with the better minutes inside it. They lie in the ``hours``, where these hold 20 minutes of
    any rank, else wherever they are best. None where no window is left.
    """
    windows = offered_windows(night, body, since=since)
    if hours is not None:
        inside = minutes_of(night.of(body), within(windows, hours.start, hours.end))
        if inside is not None and inside.duration >= SHORTEST_USEFUL:
            return inside
    best = minutes_of(night.of(body), windows)
    if best is None or hours is None:
        return best
    return evolve(best, in_hours=hours.start <= best.start and best.end <= hours.end)


def minutes_of(body: BodyNight, windows: Sequence[Window]) -> BestMinutes | None:
    """Return the best run of some windows of a body, which are in order; None without any."""
    if not windows:
        return None
    ranks = sorted({rank_of(window) for window in windows}, reverse=True)
    longest = [max(_runs(windows, least), key=_duration) for least in ranks]
    return as_one_run(body, next((run for run in longest if _duration(run) >= SHORTEST_USEFUL), longest[-1]))


def as_one_run(body: BodyNight, windows: Sequence[Window]) -> BestMinutes:
    """Return windows of a body that touch one another as one run, with what ends it."""
    behind, through = _what_ends(windows, body)
    return BestMinutes(
        windows=tuple(windows), rank=min(map(rank_of, windows)), then_behind=behind, then_through=through
    )


def joined(windows: Sequence[Window]) -> list[Span]:
    """Return the spans of windows that are in order, made one where they touch."""
    spans: list[Span] = []
    for window in windows:
        if spans and window.start - spans[-1].end <= TOUCHING:
            spans[-1] = Span(start=spans[-1].start, end=window.end)
        else:
            spans.append(Span(start=window.start, end=window.end))
    return spans


def within(windows: Sequence[Window], start: datetime, end: datetime) -> tuple[Window, ...]:
    """Return what of some windows lies between two times."""
    return tuple(
        _cut(window, max(window.start, start), min(window.end, end))
        for window in windows
        if window.start < end and start < window.end
    )


def offered_windows(night: Night, body: Body, *, since: datetime | None = None) -> tuple[Window, ...]:
    """Return what is left of a body's windows from ``since`` on, ended in time before sunrise."""
    stop, rise = stop_time(night), night.sun.rise
    offered = []
    for window in night.of(body).windows:
        start = window.start if since is None else max(window.start, since)
        end = window.end
        if stop is not None and rise is not None and window.start < rise:
            end = min(end, stop)
        if start < end:
            offered.append(_cut(window, start, end))
    return tuple(offered)


def _cut(window: Window, start: datetime, end: datetime) -> Window:
    """Return a window with other ends, the same one where they are its own."""
    is_whole = window.start == start and window.end == end
    return window if is_whole else evolve(window, start=start, end=end)


def rank_of(window: Window) -> int:
    """Return how good a window is, from 5 (above 45 degrees, clean air) to 0 (low, in warm air)."""
    return _RANKS[window.grade, window.warm_air is not None]


def highest_within(night: Night, body: Body, best: BestMinutes) -> Position:
    """Return where a body is highest during its best minutes.

    There the most details fit across its disc, for within one evening they follow the height. It is never in
    the last minutes before the stop line, unless they are nothing but those; then it is when they begin.
    """
    # The end itself is no longer one of them.
    last, stop = best.end - timedelta(seconds=1), stop_time(night)
    if stop is not None and best.end > stop - LAST_CALL and best.start <= stop:
        last = max(best.start, stop - LAST_CALL)
    turns = [night.of(body).highest, *night.of(body).transits]
    inside = [position for position in turns if best.start <= position.time <= last]
    ends = [night.position(body, moment) for moment in (best.start, last)]
    return max([*inside, *ends], key=lambda position: position.altitude_deg)


def is_worth_a_climb(best: BestMinutes) -> bool:
    """Tell whether there are 20 minutes above 30 degrees in clean air."""
    return best.rank >= WORTH_A_CLIMB and best.duration >= SHORTEST_USEFUL


def _runs(windows: Sequence[Window], least: int) -> Iterator[tuple[Window, ...]]:
    """Yield the runs of windows that touch one another and are of rank ``least`` or better."""
    run: list[Window] = []
    for window in windows:
        if rank_of(window) < least:
            continue
        if run and window.start - run[-1].end > TOUCHING:
            yield tuple(run)
            run = []
        run.append(window)
    if run:
        yield tuple(run)


def _duration(run: Sequence[Window]) -> timedelta:
    return run[-1].end - run[0].start


def _what_ends(run: Sequence[Window], body: BodyNight) -> tuple[str | None, str | None]:
    """Return what hides the body, and what warms the air before it, where a run of windows ends."""
    end = run[-1].end
    for window in body.windows:
        if window.warm_air not in (None, run[-1].warm_air) and abs(window.start - end) <= TOUCHING:
            return None, window.warm_air
    for span in body.blocked:
        if abs(span.start - end) <= TOUCHING:
            return span.what, None
    return None, None


def _distance(window: Window, moment: datetime) -> timedelta:
    if window.start <= moment <= window.end:
        return timedelta(0)
    return min(abs(window.start - moment), abs(window.end - moment))
