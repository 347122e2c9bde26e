"""What follows from the state: computed when first asked for, and kept until its causes change."""

from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, date, datetime, timedelta
from functools import partial
from typing import TYPE_CHECKING, Generic, TypeVar

from core.air.cooling import Readiness, estimate_cooling
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.aim import Aim, aim_at, aim_overhead
from core.ladder.ladder import Ladder, build_ladder
from core.problems import ProblemsError
from core.sky.bodies import Body
from core.sky.civil import evening_span, tonight
from core.sky.ephemeris import check_date, usable_dates
from core.sky.night import Night, compute_night
from core.sky.site import Site
from core.tonight.answer import Answer, answer, best_planet
from core.tonight.plan import EveningItem, plan_evening
from core.year.better import better_evening
from gui.clock import to_minute

if TYPE_CHECKING:
    from gui.readable_state import ReadableState

T = TypeVar("T")

# Evenings that stay at hand, so that stepping back a day shows at once.
_KEPT_NIGHTS = 8
# Before this hour of the site's clock, "tonight" is taken to be the night in progress.
_NIGHT_ENDS_H = 6
# Any place does for reading the tables.
_ANY_SITE = Site(name="Greenwich", latitude_deg=51.48, longitude_deg=0.0, time_zone="Europe/London")


class Kept(Generic[T]):
    """The newest few results of a computation, by what they were computed from."""

    def __init__(self, limit: int = 1) -> None:
        self._limit = limit
        self._results: dict[tuple[object, ...], T] = {}

    def get(self, key: tuple[object, ...], compute: Callable[[], T]) -> T:
        """Return the result for the key, computing it when it is not at hand."""
        if key not in self._results:
            result = compute()
            while len(self._results) >= self._limit:
                self._results.pop(next(iter(self._results)))
            self._results[key] = result
        return self._results[key]


class Derived:
    """Values that follow from a ``ReadableState``; see the properties of the same names there."""

    def __init__(self, state: "ReadableState") -> None:
        self._state = state
        self.night_problem = ""
        self._nights = Kept[Night](_KEPT_NIGHTS)
        self._best = Kept[Body | None](_KEPT_NIGHTS)
        self._ladders = Kept[Ladder](4)
        self._answers = Kept[Answer]()
        self._items = Kept[tuple[EveningItem, ...]]()

    def night(self) -> Night | None:
        """Return the evening at the site."""
        site, evening = self._state.site, self._state.evening
        self.night_problem = ""
        if site is None or not self._state.sky_ready:
            return None
        try:
            return self._nights.get((site, evening), partial(compute_night, site, evening))
        except ProblemsError as error:
            # A machine's clock or a change of site can lead to an evening that cannot be had.
            self.night_problem = str(error)
            return None

    def best_planet(self) -> Body | None:
        """Return the planet that this evening serves best, or the nearest miss."""
        night = self.night()
        if night is None:
            return None
        return self._best.get((night.site, night.evening), partial(_best_or_nearest, night))

    def aim(self) -> Aim:
        """Return where the scope points.

        The moment looked at counts when the planet can then be looked at; else it is taken at its best.
        """
        night, planet = self.night(), self._state.planet
        if night is None or planet is None:
            return aim_overhead()
        moment = self._state.time
        if self._state.following_now:
            windows = night.of(planet).windows
            if not any(window.start <= moment < window.end for window in windows):
                return aim_at(night, planet)
            return aim_at(night, planet, moment)
        chosen = aim_at(night, planet, moment)
        return chosen if chosen.path is not None else aim_at(night, planet)

    def ladder(self) -> Ladder | None:
        """Return the ladder of the scope in hand."""
        return self.ladder_of(self._state.scope, self.aim())

    def ladder_of(
        self,
        scope: Telescope | None,
        aim: Aim,
        *,
        eyepieces: tuple[Eyepiece, ...] | None = None,
        barlows: tuple[Barlow, ...] | None = None,
    ) -> Ladder | None:
        """Return the ladder of any scope pointed anywhere in tonight's air; the usual kit is the owner's."""
        if scope is None:
            return None
        profile, blur, usual_air = self._state.profile, self._state.blur, self._state.usual_air
        eyepieces = profile.eyepieces if eyepieces is None else eyepieces
        barlows = profile.barlows if barlows is None else barlows
        build = partial(
            build_ladder,
            scope=scope,
            eyepieces=eyepieces,
            barlows=barlows,
            eye=profile.eye,
            aim=aim,
            blur=blur,
            usual_air=usual_air,
        )
        key = (scope, eyepieces, barlows, profile.eye, aim, blur, usual_air)
        return self._ladders.get(key, build)

    def readiness(self) -> Readiness | None:
        """Return when the scope in hand is ready, counted from when it was carried out."""
        state = self._state
        if state.scope is None or state.outside_since is None:
            return None
        return estimate_cooling(state.scope, warmer_by_c=state.warmer_by_c)

    def answer(self) -> Answer | None:
        """Return the one answer on top; tonight's is about the hours still to come."""
        night, state = self.night(), self._state
        if night is None:
            return None
        profile = state.profile
        now = to_minute(state.now) if state.follows_tonight else None
        give = partial(
            answer,
            night,
            planet=state.planet,
            scope=state.scope,
            eyepieces=profile.eyepieces,
            barlows=profile.barlows,
            eye=profile.eye,
            blur=state.blur,
            usual_air=state.usual_air,
            readiness=state.readiness,
            outside_since=state.outside_since,
            now=now,
            clock=profile.preferences.clock,
            better=better_evening,
        )
        where_and_when = (night.site, night.evening, state.planet, now)
        kit = (state.scope, profile.eyepieces, profile.barlows, profile.eye, profile.preferences.clock)
        conditions = (state.blur, state.usual_air, state.readiness, state.outside_since)
        return self._answers.get((*where_and_when, *kit, *conditions), give)

    def items(self) -> tuple[EveningItem, ...]:
        """Return the evening in order."""
        night, state = self.night(), self._state
        if night is None:
            return ()
        hours = state.profile.preferences.clock
        plan = partial(
            plan_evening,
            night,
            state.scope,
            planet=state.planet,
            readiness=state.readiness,
            outside_since=state.outside_since,
            clock=hours,
        )
        key = (night.site, night.evening, state.scope, state.planet, hours)
        return self._items.get((*key, state.readiness, state.outside_since), plan)

    # Evenings and moments.

    def tonight(self) -> date:
        """Return tonight's date at the site; a guess by the hour until the sky tables have been read."""
        site, now = self._state.site, self._state.now
        if site is not None and self._state.sky_ready:
            with suppress(ProblemsError):
                return tonight(site, now)
        local = now.astimezone(site.zone if site else UTC)
        return (local - timedelta(hours=_NIGHT_ENDS_H)).date()

    def check_evening(self, evening: date) -> None:
        """Raise ProblemsError for an evening that the planet tables or the site's calendar do not have."""
        check_date(evening)
        if self._state.site is not None:
            evening_span(self._state.site, evening)

    def within_evening(self, moment: datetime) -> datetime:
        """Return a moment, or the end of the evening that it lies beyond."""
        site = self._state.site
        if site is None:
            return moment
        start, end = evening_span(site, self._state.evening)
        return min(max(moment, start), end - timedelta(minutes=1))

    def best_moment(self) -> datetime:
        """Return the planet's best moment of the evening, or else the middle of the evening."""
        night, planet = self.night(), self._state.planet
        if night is not None and planet is not None:
            best = aim_at(night, planet).at
            if best is not None:
                return to_minute(best)
        site, evening = self._state.site, self._state.evening
        if site is None:
            return self._state.time
        start, end = evening_span(site, evening)
        return to_minute(start + (end - start) / 2)

    def sky_reader(self) -> Callable[[], object]:
        """Return work that reads all that the sky tables need, for a thread of its own."""
        return partial(_read_sky, self._state.site or _ANY_SITE, self._state.evening)


def _read_sky(site: Site, evening: date) -> None:
    first, last = usable_dates()
    with suppress(ProblemsError):  # a date that the site skipped
        compute_night(site, min(max(evening, first), last))


def _best_or_nearest(night: Night) -> Body | None:
    """Return the planet that an evening serves best, or the one that comes nearest to a view."""
    return best_planet(night) or answer(night).planet
