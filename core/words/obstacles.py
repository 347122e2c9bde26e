"""What hides a body or warms the air in front of it, by the owner's own names."""

from typing import Final

from core.moments.best_minutes import BestMinutes
from core.sky.windows import blocked_words, warm_air_words

_SEEN_THROUGH: Final = "seen through {air}"


def then_words(best: BestMinutes) -> str | None:
    """Return what begins where best minutes end, ``behind blocked sky (roof)``; None if nothing."""
    if best.then_behind is not None:
        return blocked_words(best.then_behind)
    return None if best.then_through is None else warm_air_words(best.then_through)


def sight_words(*, behind: str | None, through: str | None) -> str | None:
    """Return what a body is behind or seen through, None where the view is free."""
    if behind is not None:
        return blocked_words(behind)
    return None if through is None else _SEEN_THROUGH.format(air=warm_air_words(through))
