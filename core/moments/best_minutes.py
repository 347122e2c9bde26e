"""Which minutes of an evening are a planet's best, and which planet an evening serves best.

The order in which windows are preferred is ours: free of warm air and above 30 degrees first, since a
warm roof spoils more than the difference between 35 and 50 degrees does.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, timedelta

from attrs import evolve, frozen

from core.sky.bodies import Body
from core.sky.night import BodyNight, Grade, Night, Position, Window
from core.sky.windows import blocked_words, warm_air_words

# Long enough to climb the ladder once; a shorter window counts only together with its neighbours (ours).
SHORTEST_USEFUL = timedelta(minutes=20)
# A smaller disc shows little more than that it is one (ours); the Moon is no planet to choose for.
SMALLEST_SHOWN_ARCSEC = 5.0

_WORTH = {
    (Grade.BEST, False): 5,
    (Grade.FAIR, False): 4,
    (Grade.BEST, True): 3,
    (Grade.FAIR, True): 2,
    (Grade.LOW, False): 1,
    (Grade.LOW, True): 0,
}
_WORTH_A_CLIMB = _WORTH[Grade.FAIR, False]
# Off the planet, and the cap on, this long before sunrise (safety; ours).
STOP_BEFORE_SUNRISE = timedelta(minutes=10)
# Windows and blocked spans that touch are told apart by rounding only.
TOUCHING = timedelta(seconds=2)


@frozen(kw_only=True)
class BestMinutes:
    """One run of adjoining windows, in order, and what ends it in words, None when it just sinks.

    ``worth`` is that of the poorest of them, from 5 (above 45 degrees, clean air) to 0 (low, in warm air).
    """

    windows: tuple[Window, ...]
    worth: int
    then: str | None

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

    def window_at(self, moment: datetime) -> Window:
        """Return the window that holds a moment, or the nearest one."""
        return min(self.windows, key=lambda window: _distance(window, moment))


def stop_time(night: Night) -> datetime | None:
    """Return when the telescope must be off the sky, 10 minutes before sunrise; None without a sunrise."""
    return None if night.sun.rise is None else night.sun.rise - STOP_BEFORE_SUNRISE


def find_best_minutes(night: Night, body: Body, *, since: datetime | None = None) -> BestMinutes | None:
    """Return the best minutes of one body, none earlier than ``since`` or later than the stop before sunrise.

    They are the longest run of the best worth that lasts 20 minutes; where only lower worths last so long,
    a run of those, with the better minutes inside it. None where no window is left.
    """
    windows = list(_clipped(night, night.of(body).windows, since))
    if not windows:
        return None
    worths = sorted({worth(window) for window in windows}, reverse=True)
    longest = [max(_runs(windows, least), key=_duration) for least in worths]
    run = next((run for run in longest if _duration(run) >= SHORTEST_USEFUL), longest[-1])
    return BestMinutes(windows=run, worth=min(map(worth, run)), then=_what_ends(run, night.of(body)))


def worth(window: Window) -> int:
    """Return how much a window is worth, from 5 (above 45 degrees, clean air) to 0 (low, in warm air)."""
    return _WORTH[window.grade, window.warm_air is not None]


def highest_within(night: Night, body: Body, best: BestMinutes) -> Position:
    """Return where a body is highest during its best minutes."""
    turns = [night.of(body).highest, *night.of(body).transits]
    inside = [position for position in turns if best.start <= position.time <= best.end]
    ends = [night.position(body, moment) for moment in (best.start, best.end)]
    return max([*inside, *ends], key=lambda position: position.altitude_deg)


def best_planet(night: Night) -> Body | None:
    """Return the planet that an evening serves best, None when nothing has a window.

    Ours: planets in clean air above 30 degrees for 20 minutes come before all others, then those with a
    disc of at least 5 arcsec, then those with 20 minutes at all; among equals the longest time above 45
    degrees, the longest above 30, the greatest height. The Moon is taken only when no planet has a window.
    """
    offered = [(body, best) for body in night.bodies if (best := find_best_minutes(night, body.body))]
    planets = [(body, best) for body, best in offered if body.body is not Body.MOON]
    chosen = max(planets or offered, key=lambda each: _service(night, *each), default=None)
    return None if chosen is None else chosen[0].body


def is_worth_a_climb(best: BestMinutes) -> bool:
    """Tell whether there are 20 minutes above 30 degrees in clean air."""
    return best.worth >= _WORTH_A_CLIMB and best.duration >= SHORTEST_USEFUL


def _service(
    night: Night, body: BodyNight, best: BestMinutes
) -> tuple[bool, bool, bool, timedelta, timedelta, float]:
    clean = [window for window in body.windows if worth(window) >= _WORTH_A_CLIMB]
    above_45 = sum((w.end - w.start for w in clean if w.grade is Grade.BEST), timedelta())
    above_30 = sum((w.end - w.start for w in clean), timedelta())
    return (
        is_worth_a_climb(best),
        body.diameter_arcsec >= SMALLEST_SHOWN_ARCSEC,
        best.duration >= SHORTEST_USEFUL,
        above_45,
        above_30,
        highest_within(night, body.body, best).altitude_deg,
    )


def _clipped(night: Night, windows: Iterable[Window], since: datetime | None) -> Iterator[Window]:
    """Yield what is left of windows from ``since`` on, ended in time before sunrise."""
    stop, rise = stop_time(night), night.sun.rise
    for window in windows:
        start = window.start if since is None else max(window.start, since)
        end = window.end
        if stop is not None and rise is not None and window.start < rise:
            end = min(end, stop)
        if start < end:
            yield evolve(window, start=start, end=end)


def _runs(windows: Sequence[Window], least: int) -> Iterator[tuple[Window, ...]]:
    """Yield the runs of windows that touch one another and are worth ``least`` or more."""
    run: list[Window] = []
    for window in windows:
        if worth(window) < least:
            continue
        if run and window.start - run[-1].end > TOUCHING:
            yield tuple(run)
            run = []
        run.append(window)
    if run:
        yield tuple(run)


def _duration(run: Sequence[Window]) -> timedelta:
    return run[-1].end - run[0].start


def _what_ends(run: Sequence[Window], body: BodyNight) -> str | None:
    """Return what begins where a run of windows ends: warm air or blocked sky."""
    end = run[-1].end
    for window in body.windows:
        if window.warm_air is not None and abs(window.start - end) <= TOUCHING:
            return warm_air_words(window.warm_air)
    for span in body.blocked:
        if abs(span.start - end) <= TOUCHING:
            return blocked_words(span.what)
    return None


def _distance(window: Window, moment: datetime) -> timedelta:
    if window.start <= moment <= window.end:
        return timedelta(0)
    return min(abs(window.start - moment), abs(window.end - moment))
