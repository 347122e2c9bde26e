"""Invented sites and kits for the tests of the drawings; the places are real."""

from datetime import UTC, date, datetime
from functools import cache

from attrs import evolve

from core.air.blur import Blur
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.aim import Aim, aim_altitude
from core.ladder.ladder import Ladder, build_ladder
from core.looks.picture.sight import Sight
from core.looks.picture.subject import subject_at
from core.sky.bodies import Body
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site, WarmAir

# Names that a drawing must show as they are: signs of a formula, other scripts, marks that do not print.
ODD_NAMES = (
    "$$",
    "Ba$$in",
    '10" $best$ scope',
    "8″ f/5",
    "a_{b}^c \\frac",
    "望遠鏡",
    "تلسكوب",
    "🔭 dob",
    "two\nlines\tand a tab",
    "the neighbour's very big old walnut tree beside the garden wall",
)

PORTO = Site(
    name="Terrace",
    latitude_deg=41.15,
    longitude_deg=-8.61,
    elevation_m=90,
    time_zone="Europe/Lisbon",
    blocked=(
        BlockedSky(
            azimuth_from_deg=190, azimuth_to_deg=265, below_altitude_deg=28, what="roof ridge", heated=True
        ),
    ),
    warm_air=(WarmAir(azimuth_from_deg=205, azimuth_to_deg=215, below_altitude_deg=50, what="chimney"),),
)
BERLIN = Site(name="Yard", latitude_deg=52.5, longitude_deg=13.4, time_zone="Europe/Berlin")
TROMSO = Site(name="Jetty", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")
KATHMANDU = Site(name="Roof", latitude_deg=27.7, longitude_deg=85.3, time_zone="Asia/Kathmandu")

SIX_INCH = Telescope(name="Six-inch", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200)
TWELVE_INCH = Telescope(
    name="Twelve-inch", kind=TelescopeKind.REFLECTOR, aperture_mm=305, focal_length_mm=1500
)
SMALL = Telescope(name="Small", kind=TelescopeKind.REFRACTOR, aperture_mm=60, focal_length_mm=700)
BINOCULAR = Telescope(name="Pair", kind=TelescopeKind.FIXED, aperture_mm=50, power=10)


def eyepiece(focal_length_mm: float, name: str = "") -> Eyepiece:
    return Eyepiece(
        name=name or f"{focal_length_mm:g} mm", focal_length_mm=focal_length_mm, apparent_field_deg=52
    )


FEW = ((eyepiece(25), eyepiece(10), eyepiece(8)), (Barlow(name="2x", factor=2),))
MANY = (
    tuple(eyepiece(length) for length in (40, 32, 25, 20, 17, 15, 12.5, 10, 8, 6, 5, 4)),
    (Barlow(name="2x", factor=2), Barlow(name="2.5x", factor=2.5)),
)
NONE: tuple[tuple[Eyepiece, ...], tuple[Barlow, ...]] = ((), ())


def aim(altitude_deg: float = 44.0, planet: Body | None = Body.SATURN) -> Aim:
    return evolve(aim_altitude(altitude_deg), planet=planet)


def ladder(
    scope: Telescope = SIX_INCH,
    kit: tuple[tuple[Eyepiece, ...], tuple[Barlow, ...]] = FEW,
    *,
    altitude_deg: float = 44.0,
    blur_arcsec: float = 1.2,
    usual_air: float = 300.0,
) -> Ladder:
    return build_ladder(
        scope=scope,
        eyepieces=kit[0],
        barlows=kit[1],
        aim=aim(altitude_deg),
        blur=Blur(overhead_arcsec=blur_arcsec),
        usual_air=usual_air,
    )


def sight(
    which: Ladder,
    power: float | None = None,
    body: Body = Body.SATURN,
    time: datetime = datetime(2026, 11, 24, 20, tzinfo=UTC),
) -> Sight | None:
    """Return what the rung nearest to a power shows; the Moon is full at the usual time."""
    if not which.rungs:
        return None
    rung = min(which.rungs, key=lambda rung: abs(rung.power - (power or which.climb_to or 0.0)))
    return Sight(
        subject=subject_at(body, time),
        scope=which.scope,
        power=rung.power,
        air_arcsec=1.5,
        true_field_deg=rung.true_field_deg,
    )


def site_at(latitude_deg: float, longitude_deg: float, time_zone: str) -> Site:
    return Site(name="Place", latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone=time_zone)


@cache
def night_at(site: Site, day: date) -> Night:
    return compute_night(site, day)
