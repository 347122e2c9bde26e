"""Which values of a situation differ from before."""

from collections.abc import Callable
from typing import Any

from core.lazy import Lazy
from core.situation.situation import Situation
from gui.state import AppState, Change

SEEN = (
    *(
        Situation.night,
        Situation.site,
        Situation.scope,
        Situation.planet,
        Situation.time,
        Situation.now,
    ),
    *(Situation.ladder, Situation.evening_steps, Situation.preferences),
)


def differing(state: AppState, act: Callable[[], object]) -> set[Lazy[Any, Any]]:
    """Return which of the values that views show are other ones after an act."""
    before = state.situation
    for value in SEEN:
        getattr(before, value.name)
    changes: list[Change] = []
    state.changed.connect(changes.append)
    act()
    state.changed.disconnect(changes.append)
    return {value for value in SEEN if any(change.of(value) for change in changes)}
