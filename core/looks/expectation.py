"""What is worth looking for on a planet tonight with one telescope: by size and detail, never by power alone.

Each feature is set against the finest detail that reaches the eye (aperture, air, built-in power), and
after that against the power that tonight allows: power can take a promise away, never make one.
"""

from enum import StrEnum, auto
from typing import Final, NamedTuple

from attrs import evolve, frozen

from core.sky.moons import Moon


class Chance(StrEnum):
    """How likely a feature is to be seen."""

    LIKELY = "likely"
    POSSIBLE = "possible"
    UNLIKELY = "unlikely"


class Feature(StrEnum):
    """What there is to look for."""

    NO_DETAIL = auto()
    BRIGHT_MOONS = auto()
    MAIN_BELTS = auto()
    THIN_BELTS = auto()
    RED_SPOT = auto()
    MOON_SHADOW = auto()
    RING = auto()
    LONG_SHAPE = auto()
    RING_LINE = auto()
    RING_GAP = auto()
    GLOBE_BELT = auto()
    DARK_MARKINGS = auto()
    NORTH_CAP = auto()
    SOUTH_CAP = auto()
    SHADOWED_SIDE = auto()
    CRESCENT = auto()
    PHASE = auto()
    CLOUDS = auto()
    GROUND = auto()
    SMALL_DISC = auto()
    MARKINGS = auto()
    RAYS = auto()
    CRATERS = auto()


class Ground(StrEnum):
    """What a chance rests on; in brackets which figures of the expectation belong to it."""

    TOO_LOW = auto()
    SIZE = auto()  # size, detail; of a ring also its opening, of a phase the lit share
    HALF_DISC = auto()  # size, detail, lit share
    SIZE_IN_NARROW_RING = auto()  # size, detail, opening
    BESIDE_THE_PLANET = auto()  # count
    NEARLY_CLOSED = auto()  # opening, size from the near to the far edge
    NEARLY_CLOSED_UNLIT = auto()  # the same
    RING_TOO_NARROW = auto()  # opening
    RING_UNLIT = auto()
    TURNED_AWAY = auto()
    HARDLY_EVER_SEEN = auto()
    OUT_OF_REACH = auto()
    NO_SHADOWS = auto()
    LONG_SHADOWS = auto()  # size, in km
    TONIGHT_STOPS = auto()  # highest power
    NO_POWER = auto()


@frozen(kw_only=True)
class Expectation:
    """One thing to look for, how likely, and what that rests on; ``from_power`` is where it begins to show.

    Sizes are in arcsec, shares of one, openings in degrees; a figure that does not belong to the ground is
    None. ``detail_arcsec`` is the finest detail tonight, ``count`` how many of Jupiter's four moons stand
    beside it, ``moon`` the one that casts the shadow.
    """

    feature: Feature
    chance: Chance
    ground: Ground
    size_arcsec: float | None = None
    detail_arcsec: float | None = None
    opening_deg: float | None = None
    lit_share: float | None = None
    smallest_km: float | None = None
    count: int | None = None
    moon: Moon | None = None
    from_power: float | None = None
    highest_power: float | None = None


class Rule(NamedTuple):
    """How many finest details wide a feature must be to be likely or possible, and the power it asks for.

    All of them are ours, after common practice: a dark line or a bright cap shows even when it is smaller
    than the finest detail, a pale band only when it is larger.
    """

    likely_from: float
    possible_from: float
    from_power: float


RULES: Final = {
    Feature.MAIN_BELTS: Rule(1.2, 0.6, 50.0),
    Feature.THIN_BELTS: Rule(1.2, 0.8, 100.0),
    Feature.RED_SPOT: Rule(3.0, 1.6, 100.0),
    Feature.MOON_SHADOW: Rule(0.8, 0.5, 100.0),
    Feature.RING: Rule(0.9, 0.4, 25.0),
    Feature.RING_GAP: Rule(0.7, 0.35, 100.0),
    Feature.GLOBE_BELT: Rule(1.6, 0.8, 100.0),
    Feature.DARK_MARKINGS: Rule(1.3, 0.7, 100.0),
    Feature.NORTH_CAP: Rule(0.5, 0.25, 100.0),
    Feature.SOUTH_CAP: Rule(0.5, 0.25, 100.0),
    Feature.SHADOWED_SIDE: Rule(1.0, 0.5, 50.0),
    Feature.CRESCENT: Rule(1.0, 0.5, 50.0),
    Feature.PHASE: Rule(1.0, 0.5, 50.0),
    Feature.SMALL_DISC: Rule(1.5, 1.0, 100.0),
}


def judge(feature: Feature, size_arcsec: float, detail_arcsec: float) -> Expectation:
    """Return what a feature of a size promises, by its rule."""
    rule, ratio = RULES[feature], size_arcsec / detail_arcsec
    if ratio >= rule.likely_from:
        chance = Chance.LIKELY
    else:
        chance = Chance.POSSIBLE if ratio >= rule.possible_from else Chance.UNLIKELY
    return Expectation(
        feature=feature,
        chance=chance,
        ground=Ground.SIZE,
        size_arcsec=size_arcsec,
        detail_arcsec=detail_arcsec,
        from_power=rule.from_power,
    )


def capped(item: Expectation, highest_power: float | None) -> Expectation:
    """Return an expectation as power allows: what needs more than there is, is not promised."""
    if item.from_power is None or item.chance is Chance.UNLIKELY:
        return item
    if highest_power is not None and highest_power >= item.from_power:
        return item
    ground = Ground.NO_POWER if highest_power is None else Ground.TONIGHT_STOPS
    return evolve(item, chance=Chance.UNLIKELY, ground=ground, highest_power=highest_power)
