"""At which moment of an evening the telescope points at a planet, and whether anything is offered then."""

from datetime import datetime

from core.air.dispersion import dispersion_at
from core.ladder.aim import Aim, Refusal, aim_spread_arcsec
from core.moments.best_minutes import BestMinutes, highest_within, is_just_before_sunrise
from core.sky.bodies import Body
from core.sky.night import BodyNight, Night
from core.sky.sunlight import LOOKED_AT_BY_DAY, Daylight, daylight_at, is_east_of_sun
from core.sky.track import Position


def aim_at(night: Night, planet: Body, at: datetime) -> Aim:
    """Return the aim at a planet at a time that is asked for.

    Nothing is offered below the horizon. With the Sun up only the bodies of ``LOOKED_AT_BY_DAY`` are
    offered, none of them within 15 degrees of it; before the sky is dark enough for a body the same holds.
    """
    body, position = night.of(planet), night.position(planet, at)
    daylight = daylight_at(night, planet, at)
    return Aim(
        planet=planet,
        at=at,
        altitude_deg=position.altitude_deg,
        apparent_altitude_deg=position.apparent_altitude_deg,
        path=position.path,
        dispersion_arcsec=aim_spread_arcsec(
            dispersion_at(position.apparent_altitude_deg, elevation_m=night.site.elevation_m)
        ),
        declination_deg=position.declination_deg,
        behind=next((span.what for span in body.blocked if span.holds(at)), None),
        through=next((window.warm_air for window in body.windows if window.holds(at)), None),
        daylight=daylight,
        sunrise_is_near=is_just_before_sunrise(night, at),
        refusal=_refusal(night, body, position, daylight),
    )


def aim_at_best(night: Night, planet: Body, best: BestMinutes | None) -> Aim:
    """Return the aim at the highest of a planet's best minutes; nothing is offered where it has none."""
    if best is not None:
        return aim_at(night, planet, highest_within(night, planet, best).time)
    body = night.of(planet)
    beside_the_sun = Daylight(
        body=planet,
        from_sun_deg=body.elongation_deg,
        east_of_sun=is_east_of_sun(planet, body.highest.time),
    )
    return Aim(
        planet=planet,
        at=None,
        altitude_deg=None,
        apparent_altitude_deg=None,
        path=None,
        declination_deg=None,
        # Whoever reads that it has no window may still search for it by day.
        daylight=beside_the_sun if beside_the_sun.is_too_near else None,
        refusal=Refusal.ONLY_BEFORE_SUNRISE if body.why_not is None else Refusal.NO_WINDOW,
        why_not=body.why_not,
    )


def _refusal(night: Night, body: BodyNight, position: Position, daylight: Daylight | None) -> Refusal | None:
    if daylight is not None and daylight.is_too_near:
        return Refusal.TOO_NEAR_THE_SUN
    if position.apparent_altitude_deg < 0.0:
        return Refusal.BELOW_HORIZON
    if body.body in LOOKED_AT_BY_DAY:
        return None
    if daylight is not None:
        return Refusal.NOT_BY_DAY
    if any(window.holds(position.time) for window in body.windows):
        return None
    sun_deg = night.position(Body.SUN, position.time).altitude_deg
    return Refusal.SKY_TOO_BRIGHT if sun_deg > body.dark_below_deg else None
