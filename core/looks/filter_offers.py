"""Which of the owner's filters to try on a planet, for what, and whether they leave light enough.

Which filter suits what is common practice, no source; a filter gives a small gain in contrast at most.
"""

from collections.abc import Iterator, Sequence
from enum import IntEnum, StrEnum
from typing import Final

from attrs import frozen

from core.gear.aperture import working_aperture_mm
from core.gear.eye import USUAL_EYE, Eye
from core.gear.optics import exit_pupil_mm
from core.gear.owned import Filter
from core.looks.feature_rules import Feature, Likelihood
from core.looks.light_at_eye import (
    ENOUGH_TROLANDS,
    GLARE_TROLANDS,
    light_trolands,
    pupil_for_mm,
    surface_brightness_mag,
)
from core.looks.owned_filters import transmittance_of, used_as
from core.looks.planet_appearance import PlanetAppearance
from core.sky.bodies import Body

# From here on an aperture is large enough for Jupiter to glare at low power; in less, more power is the cure.
LARGE_APERTURE_MM: Final = 200.0
# They cut the blue end, which the air smears most.
YELLOW: Final = ("8", "12", "15")


class FilterAim(StrEnum):
    """What a filter is to help with."""

    BELTS = "belts"
    RED_SPOT = "red_spot"
    FESTOONS = "festoons"
    RING = "ring"
    DARK_MARKINGS = "dark_markings"
    POLAR_CAP = "polar_cap"
    CLOUDS = "clouds"
    DUST = "dust"
    TERMINATOR = "terminator"
    CONTRAST = "contrast"
    GLARE = "glare"
    SMEARED_COLOURS = "smeared_colours"


# What observers take, the likeliest help first. Filters for a bright sky are left out: by day nothing is
# offered unasked.
SUITED: Final[dict[Body, dict[FilterAim, tuple[str, ...]]]] = {
    Body.MARS: {
        FilterAim.DARK_MARKINGS: ("21", "23A", "15", "25", "8", "11", "29"),
        FilterAim.POLAR_CAP: ("56", "58", "80A", "61", "44A", "25"),
        FilterAim.CLOUDS: ("80A", "82A", "38A", "47", "44A"),
        FilterAim.DUST: ("15", "12", "23A", "25"),
    },
    Body.JUPITER: {
        FilterAim.BELTS: ("82A", "80A", "11", "56", "8", "58", "21", "38A", "61"),
        FilterAim.RED_SPOT: ("80A", "56", "58", "38A", "61"),
        FilterAim.FESTOONS: ("15", "12", "21"),
        FilterAim.GLARE: ("96-0.9",),
    },
    Body.SATURN: {
        FilterAim.BELTS: ("8", "82A", "11", "80A", "58", "38A", "61"),
        FilterAim.RING: ("11",),
    },
    Body.VENUS: {
        FilterAim.CLOUDS: ("80A", "47", "38A", "82A", "58", "15", "61"),
        FilterAim.TERMINATOR: ("25",),
        FilterAim.GLARE: ("96-0.9",),
    },
    Body.MOON: {
        FilterAim.GLARE: ("96-0.9", "80A"),
        FilterAim.CONTRAST: ("56", "11", "8"),
    },
}
# A filter shows nothing new: one of these must be possible without it.
_NEEDS: Final = {
    FilterAim.BELTS: {Feature.MAIN_BELTS, Feature.GLOBE_BELT},
    FilterAim.RED_SPOT: {Feature.RED_SPOT},
    FilterAim.FESTOONS: {Feature.THIN_BELTS},
    FilterAim.RING: {Feature.RING},
    FilterAim.DARK_MARKINGS: {Feature.DARK_MARKINGS},
    FilterAim.POLAR_CAP: {Feature.NORTH_CAP, Feature.SOUTH_CAP},
    FilterAim.TERMINATOR: {Feature.PHASE},
    # Of Mars and of Venus.
    FilterAim.CLOUDS: {Feature.DARK_MARKINGS, Feature.PHASE},
}


class Offer(IntEnum):
    """Whether a filter is offered, the better first."""

    OFFERED = 0
    USUALLY_LARGER_APERTURE = 1
    TOO_DARK = 2


@frozen(kw_only=True)
class FilterOffer:
    """One of the owner's filters on a planet at one power, and whether there is light enough for it.

    ``smallest_aperture_mm`` is the usual least aperture of the table, 0 for any; ``enough_up_to`` the
    highest power that leaves light enough, None where even the eye's whole pupil does not.
    """

    filter: Filter
    offer: Offer
    light_trolands: float
    smallest_aperture_mm: float
    enough_up_to: float | None


@frozen(kw_only=True)
class FiltersFor:
    """The owner's filters that suit one aim, the one to try first at the front."""

    aim: FilterAim
    offers: tuple[FilterOffer, ...]


@frozen(kw_only=True)
class FilterOffers:
    """What the owner's filters are good for on a planet at one power; of no use where ``by_aim`` is empty."""

    planet: Body
    power: float
    owned: tuple[Filter, ...]
    by_aim: tuple[FiltersFor, ...]


def filter_offers(
    owned: Sequence[Filter], appearance: PlanetAppearance, power: float, *, eye: Eye = USUAL_EYE
) -> FilterOffers | None:
    """Return what to try on a planet at one power; None without a telescope or anything to expect."""
    if appearance.ladder is None or not appearance.expectations:
        return None
    brightness = surface_brightness_mag(appearance.subject.disc)
    aperture_mm = working_aperture_mm(appearance.ladder.scope)
    found = (
        FiltersFor(
            aim=aim,
            offers=ranked(
                owned,
                numbers,
                surface_brightness=brightness,
                aperture_mm=aperture_mm,
                power=power,
                eye=eye,
            ),
        )
        for aim, numbers in _aims_of(appearance, brightness, exit_pupil_mm(aperture_mm, power), eye)
    )
    return FilterOffers(
        planet=appearance.planet,
        power=power,
        owned=tuple(owned),
        by_aim=tuple(each for each in found if each.offers),
    )


def ranked(
    owned: Sequence[Filter],
    numbers: Sequence[str],
    *,
    surface_brightness: float,
    aperture_mm: float,
    power: float,
    eye: Eye = USUAL_EYE,
) -> tuple[FilterOffer, ...]:
    """Return those of the owner's filters that are among some Wratten numbers, in the order of these.

    Those with light enough come first, then those usually kept for larger apertures (mm), then those too
    dark at this power. ``surface_brightness`` is in mag/arcsec².
    """
    found: list[tuple[tuple[int, int], FilterOffer]] = []
    for thing in owned:
        facts, passed = used_as(thing), transmittance_of(thing)
        if facts is None or passed is None or facts.wratten not in numbers:
            continue
        pupil_mm = exit_pupil_mm(aperture_mm, power)
        light = light_trolands(surface_brightness, pupil_mm, transmittance=passed, eye=eye)
        needed_mm = pupil_for_mm(ENOUGH_TROLANDS, surface_brightness, transmittance=passed)
        one = FilterOffer(
            filter=thing,
            offer=_offer(light, aperture_mm, facts.smallest_aperture_mm),
            light_trolands=light,
            smallest_aperture_mm=facts.smallest_aperture_mm,
            enough_up_to=None if needed_mm > eye.pupil_mm else aperture_mm / needed_mm,
        )
        found.append(((one.offer, numbers.index(facts.wratten)), one))
    return tuple(one for _, one in sorted(found, key=lambda each: each[0]))


def _offer(light: float, aperture_mm: float, smallest_aperture_mm: float) -> Offer:
    if light < ENOUGH_TROLANDS:
        return Offer.TOO_DARK
    return Offer.OFFERED if aperture_mm >= smallest_aperture_mm else Offer.USUALLY_LARGER_APERTURE


def _aims_of(
    appearance: PlanetAppearance, brightness: float, pupil_mm: float, eye: Eye
) -> Iterator[tuple[FilterAim, tuple[str, ...]]]:
    """Yield what there is for a filter to help with just now, and the numbers that help."""
    visible = {item.feature for item in appearance.expectations if item.likelihood is not Likelihood.UNLIKELY}
    season = appearance.subject.season
    for aim, numbers in SUITED.get(appearance.planet, {}).items():
        if aim in _NEEDS and not _NEEDS[aim] & visible:
            continue
        if aim is FilterAim.DUST and (season is None or not season.dust_likely):
            continue
        if aim is FilterAim.GLARE and not _glares(appearance, brightness, pupil_mm, eye):
            continue
        yield aim, numbers
    if appearance.dispersion is not None and appearance.dispersion.yellow_helps:
        yield FilterAim.SMEARED_COLOURS, YELLOW


def _glares(appearance: PlanetAppearance, brightness: float, pupil_mm: float, eye: Eye) -> bool:
    """Tell whether a disc glares at an exit pupil; of Jupiter that is said of large apertures only."""
    assert appearance.ladder is not None  # there is a power
    is_small = working_aperture_mm(appearance.ladder.scope) < LARGE_APERTURE_MM
    if appearance.planet is Body.JUPITER and is_small:
        return False
    return light_trolands(brightness, pupil_mm, eye=eye) >= GLARE_TROLANDS
