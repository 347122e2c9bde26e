"""Invented telescopes set side by side, shared by the tests of comparing."""

from core.air.blur import Blur
from core.gear.owned import Telescope, TelescopeKind
from core.ladder.aim import Aim, aim_altitude, aim_overhead
from core.ladder.compare import Comparison, compare
from core.ladder.ladder import Ladder, build_ladder
from tests.core.gear.examples import barlow, eyepiece, fixed, refractor, telescope

EYEPIECES = [eyepiece(25, 52), eyepiece(10, 50), eyepiece(6, 50)]
BARLOWS = [barlow(2)]


def ladder(scope: Telescope, blur_arcsec: float = 1.45, aim: Aim | None = None) -> Ladder:
    return build_ladder(
        scope=scope,
        eyepieces=EYEPIECES,
        barlows=BARLOWS,
        aim=aim or aim_overhead(),
        blur=Blur(overhead_arcsec=blur_arcsec),
    )


def comparison(
    a: Telescope, b: Telescope, blur_arcsec: float = 1.45, altitude_deg: float = 90, disc_arcsec: float = 45
) -> Comparison:
    aim = aim_altitude(altitude_deg)
    return compare(ladder(a, blur_arcsec, aim), ladder(b, blur_arcsec, aim), disc_arcsec=disc_arcsec)


def mirror(aperture_mm: float) -> Telescope:
    return telescope(f"Mirror {aperture_mm:g}", aperture_mm, aperture_mm * 5)


def lens(aperture_mm: float) -> Telescope:
    return refractor(f"Lens {aperture_mm:g}", aperture_mm, aperture_mm * 10)


def closed(aperture_mm: float) -> Telescope:
    return telescope(f"Closed {aperture_mm:g}", aperture_mm, aperture_mm * 12, TelescopeKind.CATADIOPTRIC)


SPOTTER = fixed(power_min=20, power_max=60)
BINOCULARS = fixed("Binoculars", power=20)
