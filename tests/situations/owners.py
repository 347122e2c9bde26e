"""Invented owners: short ways to write down a place and a kit."""

from core.gear.eye import Eye
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.record.observer import Profile
from core.sky.site import BlockedSky, Site, WarmAir


def place(
    latitude_deg: float,
    longitude_deg: float,
    zone: str,
    *,
    blocked: tuple[BlockedSky, ...] = (),
    warm_air: tuple[WarmAir, ...] = (),
    elevation_m: float = 0.0,
) -> Site:
    return Site(
        name="Here",
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        elevation_m=elevation_m,
        time_zone=zone,
        blocked=blocked,
        warm_air=warm_air,
    )


LONDON = place(51.48, 0.0, "Europe/London")
MELBOURNE = place(-37.8, 145.0, "Australia/Melbourne")


def scope(
    kind: str,
    aperture_mm: float,
    focal_length_mm: float | None = None,
    *,
    name: str = "scope",
    **more: object,
) -> Telescope:
    return Telescope(
        name=name,
        kind=TelescopeKind(kind),
        aperture_mm=aperture_mm,
        focal_length_mm=focal_length_mm,
        **more,  # type: ignore[arg-type]  # any field of a telescope
    )


def eyepieces(*focal_lengths_mm: float, apparent_field_deg: float | None = None) -> tuple[Eyepiece, ...]:
    return tuple(
        Eyepiece(name=f"{mm:g} mm", focal_length_mm=mm, apparent_field_deg=apparent_field_deg)
        for mm in focal_lengths_mm
    )


def barlows(*factors: float) -> tuple[Barlow, ...]:
    return tuple(Barlow(name=f"{factor:g}x", factor=factor) for factor in factors)


def owner(
    *telescopes: Telescope,
    eyepieces: tuple[Eyepiece, ...] = (),
    barlows: tuple[Barlow, ...] = (),
    site: Site = LONDON,
    eye: Eye | None = None,
) -> Profile:
    return Profile(
        observer="Noa",
        sites=(site,),
        telescopes=telescopes,
        eyepieces=eyepieces,
        barlows=barlows,
        eye=eye or Eye(),
    )
