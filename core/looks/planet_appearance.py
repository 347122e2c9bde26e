"""How one planet looks at a time and a site: everything about it as one value."""

from datetime import date, datetime

from attrs import evolve, frozen

from core.air.blur import blur_at
from core.air.dispersion import Dispersion, dispersion_at
from core.air.finest_detail import LimitKind
from core.air.mirror import combined_blur_arcsec
from core.gear.aperture import working_aperture_mm
from core.ladder.aim import Aim
from core.ladder.ladder import Ladder
from core.looks.face import face_of
from core.looks.features import FeatureChance, Seen, features_of
from core.looks.happenings import NOTHING_HAPPENS, Happenings
from core.looks.picture.sight import SHOWN_FIELD_DEG, SHOWN_POWER, Sight
from core.looks.picture.stillness import Stillness
from core.looks.picture.subject import Subject, subject_at
from core.looks.picture.turn import zenith_angle_deg
from core.sky.bodies import Body
from core.sky.night import Night
from core.sky.site import Site
from core.sky.track import Position


@frozen(kw_only=True)
class PlanetAppearance:
    """How one planet appears at a time, seen from a site, and what a telescope makes of it.

    ``dispersion`` is None below 5 degrees; ``dispersion_limits`` tells whether it, rather than aperture
    and air, hides detail. Without a telescope there is no ``ladder``, no sight and no expectation, nor is
    there where the ``aim`` offers nothing or stands in too much air.
    """

    site: Site
    evening: date
    planet: Body
    time: datetime
    aim: Aim
    position: Position
    subject: Subject
    happenings: Happenings = NOTHING_HAPPENS
    dispersion: Dispersion | None = None
    dispersion_limits: bool = False
    ladder: Ladder | None = None
    sights: tuple[Sight, ...] = ()
    expectations: tuple[FeatureChance, ...] = ()


def find_planet_appearance(
    night: Night, planet: Body, *, aim: Aim, happenings: Happenings
) -> PlanetAppearance:
    """Return how a planet looks where an aim at it points, at its highest where the aim has no moment.

    ``happenings`` are the planet's own in that evening. What a telescope makes of it is left out.
    """
    time = aim.at or night.of(planet).highest.time
    position = night.position(planet, time)
    spot = happenings.red_spot
    return PlanetAppearance(
        site=night.site,
        evening=night.evening,
        planet=planet,
        time=time,
        position=position,
        subject=subject_at(planet, time, red_spot_longitude_deg=None if spot is None else spot.longitude_deg),
        happenings=happenings,
        dispersion=dispersion_at(position.apparent_altitude_deg, elevation_m=night.site.elevation_m),
        aim=aim,
    )


def seen_through(
    ladder: Ladder,
    bare: PlanetAppearance,
    stillness: Stillness = Stillness.MOSTLY,
    *,
    to_come: Happenings | None = None,
) -> PlanetAppearance:
    """Return how a planet looks with what telescope and air of a ladder for the same aim make of it.

    ``stillness`` tells which moments the sights are of; ``to_come`` is what of the evening's happenings is
    to be expected, all of them where it is not given.
    """
    offered = bare.aim.is_offered
    return evolve(
        bare,
        dispersion_limits=_is_limited_by_colours(ladder),
        ladder=ladder,
        sights=_sights(ladder, bare, stillness) if offered else (),
        expectations=_expectations(ladder, bare.subject, to_come or bare.happenings) if offered else (),
    )


def _sights(ladder: Ladder, bare: PlanetAppearance, stillness: Stillness) -> tuple[Sight, ...]:
    """Return what each rung shows, lowest power first; none where there is too much air to tell.

    A power beyond 10,000x is left out, and a field beyond 40 degrees taken as unknown.
    """
    position, dispersion = bare.position, bare.dispersion
    if position.path is None:
        return ()
    return tuple(
        Sight(
            subject=bare.subject,
            scope=ladder.scope,
            power=rung.power,
            air_arcsec=_blur_arcsec(ladder, position.path),
            spread_arcsec=0.0 if dispersion is None else dispersion.arcsec,
            true_field_deg=_shown_field_deg(rung.true_field_deg),
            zenith_angle_deg=zenith_angle_deg(
                bare.site.latitude_deg, position.altitude_deg, position.azimuth_deg
            ),
            stillness=stillness,
        )
        for rung in ladder.rungs
        if SHOWN_POWER.holds(rung.power)
    )


def _blur_arcsec(ladder: Ladder, path: float) -> float:
    """Return the blur of air and warm mirror together."""
    air_arcsec, mirror_arcsec = blur_at(ladder.blur.overhead_arcsec, path), ladder.limits.mirror_arcsec
    return float(combined_blur_arcsec(air_arcsec, mirror_arcsec)) if mirror_arcsec else air_arcsec


def _shown_field_deg(field_deg: float | None) -> float | None:
    return field_deg if field_deg is not None and SHOWN_FIELD_DEG.holds(field_deg) else None


def _is_limited_by_colours(ladder: Ladder) -> bool:
    """Tell whether the colours that height smears have the largest share of the finest detail."""
    detail = ladder.limits.detail
    return detail is not None and detail.largest_part is LimitKind.HEIGHT


def _expectations(ladder: Ladder, subject: Subject, happenings: Happenings) -> tuple[FeatureChance, ...]:
    """Return what to expect at the highest power that tonight bears; nothing without an eyepiece.

    Where every power of the kit is too high that is the lowest of them.
    """
    detail = ladder.limits.detail
    if detail is None or ladder.ceiling.power is None or not ladder.rungs:
        return ()
    lowest = ladder.rungs[0].power
    seen = Seen(
        finest_arcsec=detail.arcsec,
        aperture_mm=working_aperture_mm(ladder.scope),
        power=lowest if ladder.climb_to is None else ladder.climb_to,
    )
    return features_of(
        face_of(subject, happenings.events_to_see, spot_stays_away=happenings.spot_stays_away), seen
    )
