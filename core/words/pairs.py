"""Bodies that stand close together, in words."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from core.gear.combinations import Combination, highest_holding
from core.moments.pairs import ClosePair
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.dates import weekday_text
from core.words.names import opening
from core.words.quantities import power_text, rounded_text
from core.words.site_clock import SiteClock, clock_of

if TYPE_CHECKING:
    from core.year.year import Year

_PAIR: Final = "{a} and {b} stand {apart} apart at {time}."
_PAIR_HELD: Final = "{a} and {b} stand {apart} apart at {time}: one field holds both up to {power} ({label})."
_PAIR_TOO_WIDE: Final = (
    "{a} and {b} stand {apart} apart at {time}: too far for one field of your eyepieces, not for binoculars."
)
_IN_YEAR: Final = "Close to {body}, while both can be looked at: {meetings}."
_MEETING: Final = "{other}, {apart} on {day} at {time}"
_MEETING_HELD: Final = "{other}, {apart} on {day} at {time} (one field up to {power})"
# So many of a year are told.
_TOLD: Final = 4


def pair_sentences(situation: Situation) -> Iterator[str]:
    """Yield what stands close together this evening, a sentence each."""
    clock = clock_of(situation)
    if clock is not None:
        for pair in situation.pairs:
            yield pair_sentence(pair, situation.kit_powers, clock)


def pair_sentence(pair: ClosePair, kit: Sequence[Combination], clock: SiteClock) -> str:
    """Return that two bodies stand close together, and the highest power that holds both."""
    holding = highest_holding(kit, pair.across_deg)
    has_fields = any(each.true_field_deg is not None for each in kit)
    template = _PAIR_HELD if holding is not None else _PAIR_TOO_WIDE if has_fields else _PAIR
    return template.format(
        a=opening(pair.a),
        b=pair.b.label,
        apart=apart_text(pair.separation_deg),
        time=clock.time(pair.at),
        power="" if holding is None else power_text(holding.power),
        label="" if holding is None else holding.label,
    )


def meetings(year: "Year", kit: Sequence[Combination], clock: SiteClock) -> Iterator[str]:
    """Yield a sentence of what comes close to a planet in its year, the first few; nothing of nothing."""
    if year.pairs:
        told = "; ".join(_meeting(year.planet, pair, kit, clock) for pair in year.pairs[:_TOLD])
        yield _IN_YEAR.format(body=year.planet.label, meetings=told)


def pairs_in_hand(situation: Situation) -> Iterator[str]:
    """Yield what stands close to the planet in hand in the hours that are left, a sentence each."""
    clock, hours = clock_of(situation), situation.hours_left
    if clock is None or hours is None:
        return
    for pair in situation.pairs:
        if situation.planet in (pair.a, pair.b) and hours.holds(pair.at):
            yield pair_sentence(pair, situation.kit_powers, clock)


def apart_text(angle_deg: float) -> str:
    """Return an angle between two bodies: ``1.3°``, below a degree in minutes of arc: ``25′``."""
    if angle_deg >= 1.0:
        return f"{rounded_text(angle_deg, 1)}°"
    return f"{rounded_text(angle_deg * 60.0)}′"


def _meeting(body: Body, pair: ClosePair, kit: Sequence[Combination], clock: SiteClock) -> str:
    holding = highest_holding(kit, pair.across_deg)
    return (_MEETING if holding is None else _MEETING_HELD).format(
        other=(pair.b if pair.a is body else pair.a).label,
        apart=apart_text(pair.separation_deg),
        day=weekday_text(clock.day(pair.at)),
        time=clock.time(pair.at),
        power="" if holding is None else power_text(holding.power),
    )
