"""Two telescopes side by side under the same sky."""

from datetime import datetime

from attrs import frozen

from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook
from core.air.readiness import Readiness, readiness_in_still_air
from core.ladder.advice import Advice, find_advice
from core.ladder.differences import Difference, find_differences
from core.ladder.ladder import Ladder
from core.ladder.side import Side, build_side
from core.ladder.winner import COOLING_TIE, DETAIL_TIE, FIELD_TIE, LIGHT_TIE, Winner, winner
from core.sky.bodies import Body


@frozen(kw_only=True)
class Comparison:
    """Both sides and what they come to.

    Each ``..._winner`` is None where a figure is missing; differences too small to notice are a tie.
    """

    planet: Body | None
    at: datetime | None
    a: Side
    b: Side
    detail_winner: Winner | None
    light_winner: Winner | None
    field_winner: Winner | None
    cooling_winner: Winner | None
    advice: Advice
    differences: tuple[Difference, ...]


def compare(
    a: Ladder,
    b: Ladder,
    *,
    disc_arcsec: float | None = None,
    readiness: tuple[Readiness, Readiness] | None = None,
    steady_arcsec: float = FIRST_LOOK_BLUR_ARCSEC[FirstLook.STEADY],
    minutes_outside: tuple[float | None, float | None] = (None, None),
) -> Comparison:
    """Return the comparison of two ladders built for the same aim and the same air.

    ``disc_arcsec`` is the planet's diameter, None without a planet; ``readiness`` when each is ready, without
    it for still air 17 °C colder than both; ``steady_arcsec`` the blur overhead of a steady night;
    ``minutes_outside`` how long each has stood outside, None where nobody said that it does.
    """
    if a.aim != b.aim or a.blur != b.blur:
        raise ValueError("both ladders must be built for the same aim and the same air")
    ready_a, ready_b = readiness or tuple(
        readiness_in_still_air(each.scope, blur=each.blur) for each in (a, b)
    )
    side_a, side_b = (
        build_side(
            ladder,
            other.scope,
            disc_arcsec=disc_arcsec,
            readiness=ready,
            steady_arcsec=steady_arcsec,
            minutes_outside=minutes,
        )
        for ladder, other, ready, minutes in (
            (a, b, ready_a, minutes_outside[0]),
            (b, a, ready_b, minutes_outside[1]),
        )
    )
    advice = find_advice(side_a, side_b)
    return Comparison(
        planet=a.aim.planet,
        at=a.aim.at,
        a=side_a,
        b=side_b,
        detail_winner=winner(
            side_a.finest_detail_arcsec, side_b.finest_detail_arcsec, tie=DETAIL_TIE, smaller_wins=True
        ),
        light_winner=winner(side_a.light_ratio_to_other, side_b.light_ratio_to_other, tie=LIGHT_TIE**2),
        field_winner=winner(side_a.widest_field_deg, side_b.widest_field_deg, tie=FIELD_TIE),
        cooling_winner=winner(side_a.ready_minutes, side_b.ready_minutes, tie=COOLING_TIE, smaller_wins=True),
        advice=advice,
        differences=find_differences(side_a, side_b, advice),
    )
