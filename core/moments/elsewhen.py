"""What an hour before or after the owner's own would give: one clause, where it would give much. Ours."""

from collections.abc import Mapping
from datetime import datetime
from typing import Final

from attrs import frozen

from core.moments.best_minutes import is_worth_a_climb, minutes_of, offered_windows, within
from core.moments.hours import HoursOut
from core.moments.worth import EveningWorth
from core.sky.bodies import Body
from core.sky.night import Night

# Worth telling is what gives nearly as much as the hours themselves, and half as much again as the same body
# gives in them.
_NEARLY_AS_MUCH: Final = 0.8
_MUCH_MORE: Final = 1.5
# Nine steps at N = 6, twice what is worth nothing.
_LEAST: Final = 9 * 0.69


@frozen(kw_only=True)
class Elsewhen:
    """A body that is good at another hour than the owner's own; ``is_earlier`` for one before them."""

    body: Body
    start: datetime
    end: datetime
    is_earlier: bool


def find_elsewhen(
    night: Night,
    worths: Mapping[Body, EveningWorth],
    *,
    planet: Body,
    hours: HoursOut,
    since: datetime | None = None,
) -> Elsewhen | None:
    """Return what the hours outside the owner's would give much of, beside ``planet`` in them, or None.

    It must stand above 30 degrees in clean air for 20 minutes then; the Moon is never told.
    """
    in_hand = worths[planet].inside if planet in worths else 0.0
    offers = [
        (worth, amount, is_earlier)
        for worth in worths.values()
        for amount, is_earlier in ((worth.later, False), (worth.earlier, True))
        if worth.body is not Body.MOON
        and amount >= max(_NEARLY_AS_MUCH * in_hand, _MUCH_MORE * worth.inside, _LEAST)
    ]
    for worth, _, is_earlier in sorted(offers, key=lambda offer: -offer[1]):
        windows = offered_windows(night, worth.body, since=since)
        outside = (night.start, hours.start) if is_earlier else (hours.end, night.end)
        best = minutes_of(night.of(worth.body), within(windows, *outside))
        if best is not None and is_worth_a_climb(best):
            return Elsewhen(body=worth.body, start=best.start, end=best.end, is_earlier=is_earlier)
    return None
