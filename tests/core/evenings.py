"""Places, evenings and kits that the tests of the answer share."""

from collections.abc import Mapping
from datetime import UTC, date, datetime
from functools import cache
from typing import Any

from attrs import evolve

from core.air.blur import Blur
from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site, WarmAir
from tests.core.telling import Told


def place(name: str, latitude_deg: float, longitude_deg: float, zone: str) -> Site:
    return Site(name=name, latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone=zone)


LISBON = place("Lisbon", 38.72, -9.14, "Europe/Lisbon")
TROMSO = place("Tromso", 69.65, 18.96, "Europe/Oslo")
FAIRBANKS = place("Fairbanks", 64.84, -147.72, "America/Anchorage")
SCOTLAND = place("Scotland", 56.5, -3.0, "Europe/London")
MID_UK = place("Mid-UK", 53.0, -2.0, "Europe/London")
SOUTH_40 = place("40 south", -40.0, 175.0, "Pacific/Auckland")
MELBOURNE = place("Melbourne", -37.8, 145.0, "Australia/Melbourne")

WALLED = evolve(LISBON, blocked=(BlockedSky(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=90),))
ROOF = BlockedSky(
    azimuth_from_deg=45, azimuth_to_deg=315, below_altitude_deg=65, what="roof ridge", heated=False
)
BEHIND_ROOF = evolve(LISBON, blocked=(ROOF,))
OVER_CHIMNEY = evolve(
    LISBON,
    warm_air=(WarmAir(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=90, what="chimney"),),
)
HEATED_WALL = evolve(
    LISBON,
    blocked=(
        BlockedSky(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=44, what="flats", heated=True),
    ),
)

# Jupiter stood above 45 degrees from Lisbon in the small hours after this evening (62 at its transit:
# declination +12.6 and latitude 38.7 leave 90 - 38.7 + 12.6 = 63.9 at most).
GOOD = date(2026, 12, 5)


@cache
def night(site: Site, evening: date) -> Night:
    return compute_night(site, evening)


def eyepieces(*focal_lengths_mm: float) -> tuple[Eyepiece, ...]:
    return tuple(Eyepiece(name=f"{mm:g} mm", focal_length_mm=mm) for mm in focal_lengths_mm)


def reflector(aperture_mm: float, focal_length_mm: float) -> Telescope:
    return Telescope(
        name="reflector",
        kind=TelescopeKind.REFLECTOR,
        aperture_mm=aperture_mm,
        focal_length_mm=focal_length_mm,
    )


def refractor(aperture_mm: float, focal_length_mm: float) -> Telescope:
    return Telescope(
        name="refractor",
        kind=TelescopeKind.REFRACTOR,
        aperture_mm=aperture_mm,
        focal_length_mm=focal_length_mm,
    )


SIX = reflector(150, 1200)
THREE_INCH = refractor(76, 900)
TWELVE_INCH = reflector(305, 1525)
FULL_BOX = eyepieces(40, 25, 20, 16, 12, 10, 8, 6, 5, 4)
DOUBLE = (Barlow(name="2x", factor=2),)
STEADY, FAIR, BOILING = (Blur(overhead_arcsec=FIRST_LOOK_BLUR_ARCSEC[look]) for look in FirstLook)
VERY_STEADY = Blur(overhead_arcsec=0.4)
KIT: Mapping[str, Any] = {"scope": SIX, "eyepieces": FULL_BOX, "barlows": DOUBLE}
IN_THE_NIGHT = datetime(2026, 12, 6, 4, 0, tzinfo=UTC)


def check_words(told: Told) -> None:
    assert told.planet is not None
    # In the last minutes before sunrise it says only to stop.
    assert told.planet.heading in told.sentence or told.sentence.startswith("Off the planet")
    assert told.sentence.endswith(".")
    assert "None" not in told.sentence
    assert "nan" not in told.sentence
    assert told.reasons
    assert all(reason.strip().endswith(".") for reason in told.reasons)
