"""What follows from the state: computed when first asked for, and kept until its causes change."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from functools import partial
from typing import TYPE_CHECKING, Generic, TypeVar

from core.answer import Answer, answer, best_planet
from core.evening import EveningItem, plan_evening
from core.kit.compare import Comparison, compare
from core.kit.ladder import Ladder, build_ladder
from core.sky.aim import Aim, aim_at, aim_overhead
from core.sky.bodies import Body
from core.sky.civil import evening_span, tonight
from core.sky.night import Night, compute_night
from core.sky.site import Site

if TYPE_CHECKING:
    from gui.state import AppState

T = TypeVar("T")

# Evenings that stay at hand, so that stepping back a day shows at once.
_KEPT_NIGHTS = 8


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
    """Values that follow from an ``AppState``; see the properties of the same names there."""

    def __init__(self, state: "AppState") -> None:
        self._state = state
        self._nights = Kept[Night](_KEPT_NIGHTS)
        self._best = Kept[Body | None](_KEPT_NIGHTS)
        self._ladders = Kept[Ladder](4)
        self._comparisons = Kept[Comparison]()
        self._answers = Kept[Answer]()
        self._items = Kept[tuple[EveningItem, ...]]()

    def night(self) -> Night | None:
        """Return the evening at the site."""
        site, evening = self._state.site, self._state.evening
        if site is None or not self._state.sky_ready:
            return None
        return self._nights.get((site, evening), partial(compute_night, site, evening))

    def best_planet(self) -> Body | None:
        """Return the planet that this evening serves best."""
        night = self.night()
        if night is None:
            return None
        return self._best.get((night.site, night.evening), partial(best_planet, night))
