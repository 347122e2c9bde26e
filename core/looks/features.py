"""What to expect of a planet in one telescope at one power: every feature, and how likely it is seen.

Sizes follow from published elements (rings, moons, discs) and, for markings, from usual widths as shares of
the disc (common practice, no source).
"""

from collections.abc import Iterator
from typing import Final

import numpy as np
from attrs import frozen

from core.looks.face import Face
from core.looks.feature_rules import (
    RULES,
    STEP,
    SURE,
    Feature,
    HeldBack,
    Likelihood,
    between,
    by_detail,
    likelihood,
    lost_by_power,
    probability,
)
from core.sky.bodies import FACTS, Body
from core.sky.moons import Moon
from core.sky.ring import B_RING_KM, OUTER_EDGE_KM, Ring

# Widths as shares of the equatorial diameter.
_MAIN_BELT: Final = 0.085
_THIN_BELT: Final = 0.035
_RED_SPOT: Final = 0.10
_GLOBE_BELT: Final = 0.10
_DARK_MARKING: Final = 0.20
# The narrow gap in the outer ring (Colwell et al. 2009, from memory).
_FINE_GAP_KM: Final = 325.0
# Saturn's largest moon, 8.4 mag, takes some aperture (common practice).
TITAN_MM: Final = (25.0, 60.0)
# A ring must be open to be a line, more to be a shape (ours).
_LINE_OPENING_DEG: Final = (0.3, 1.0)
_RING_OPENING_DEG: Final = (1.0, 3.0)
# A gap or a shadow in it wants a ring so many finest details from its near to its far edge, else it is too
# short a stroke: about 3 and 8.5 degrees where 1 arcsec shows (ours).
_WIDE_RING_DETAILS: Final = (2.3, 6.5)
# Of a ring this far open nobody says that it is hardly open (ours).
_WELL_OPEN_DEG: Final = 12.0
# The Moon's unlit share: shadows need some, rays want little (ours).
_RELIEF_UNLIT: Final = (0.01, 0.04)
_RAYS_LIT: Final = (0.6, 0.9)
_MOON_KM_PER_ARCSEC: Final = 1.86  # in the middle of the disc, at the mean distance
# A crater shows as a ring when it is this many finest details and this large to the eye (ours).
_CRATER_DETAILS: Final = 2.0
_CRATER_LOOKS_ARCSEC: Final = 400.0


@frozen(kw_only=True)
class Seen:
    """What a body is looked at with: the finest detail in arcsec, the aperture in mm, and the power."""

    finest_arcsec: float
    aperture_mm: float
    power: float


@frozen(kw_only=True)
class FeatureChance:
    """One feature of a face, seen so: its size in arcsec, and its place on the scale of steps.

    ``size_arcsec`` is None where size does not tell. ``held_back_by`` is what takes most away, None where
    nothing does; ``looks_full_from`` the power from which it looks large enough. ``smallest_km`` is told of
    the Moon's relief only, ``moon`` of a shadow the moon that casts it.
    """

    feature: Feature
    face: Face
    seen: Seen
    size_arcsec: float | None
    steps: float
    held_back_by: HeldBack | None
    looks_full_from: float | None = None
    smallest_km: float | None = None
    moon: Moon | None = None

    @property
    def likelihood(self) -> Likelihood:
        """Likely, possible or unlikely."""
        return likelihood(self.steps)

    @property
    def probability(self) -> float:
        """The same as a smooth probability, 0 to 1."""
        return probability(self.steps)


def features_of(face: Face, seen: Seen) -> tuple[FeatureChance, ...]:
    """Return the features of a body, the likeliest first and else in the order in which they are told.

    Finer points, as the narrow gap in the ring, are left out where there is no chance of them at all.
    """
    every = {
        Body.JUPITER: _jupiter,
        Body.SATURN: _saturn,
        Body.MARS: _mars,
        Body.VENUS: _inner,
        Body.MERCURY: _inner,
        Body.URANUS: _outer,
        Body.NEPTUNE: _outer,
        Body.MOON: _moon,
    }[face.body]
    return tuple(sorted(every(face, seen), key=lambda each: each.likelihood))


def _judge(
    feature: Feature,
    size_arcsec: float,
    face: Face,
    seen: Seen,
    *held: tuple[HeldBack, float],
    less: float = 0.0,
    moon: Moon | None = None,
    outline_arcsec: float | None = None,
) -> FeatureChance:
    """Return a feature's chance; each of ``held`` is a bound on the scale of steps and what sets it.

    ``less`` is taken off at the end, for dust; ``outline_arcsec`` is what must look large where that is not
    the feature's own size.
    """
    rule = RULES[feature]
    large_arcsec = size_arcsec if outline_arcsec is None else outline_arcsec
    bounds = [(HeldBack.DETAIL, by_detail(rule, size_arcsec, seen.finest_arcsec)), *held]
    tightest, bound = min(bounds, key=lambda each: each[1])
    lost = lost_by_power(rule, large_arcsec, seen.power)
    taken = {tightest: SURE - bound, HeldBack.POWER: lost, HeldBack.DUST: less}
    if likelihood(bound - less) is Likelihood.UNLIKELY:
        # More power would not make it any likelier.
        del taken[HeldBack.POWER]
    most = max(taken, key=taken.__getitem__)
    return FeatureChance(
        feature=feature,
        face=face,
        seen=seen,
        size_arcsec=size_arcsec,
        steps=max(bound - lost - less, 0.0),
        held_back_by=most if taken[most] > 0.0 else None,
        looks_full_from=rule.looks_arcsec / large_arcsec if large_arcsec > 0.0 else None,
        moon=moon,
    )


def _hidden(feature: Feature, why: HeldBack, face: Face, seen: Seen) -> FeatureChance:
    return FeatureChance(feature=feature, face=face, seen=seen, size_arcsec=None, steps=0.0, held_back_by=why)


def _where_any(chance: FeatureChance) -> Iterator[FeatureChance]:
    """Yield a finer point only where there is a chance of it, so that a list tells what matters."""
    if chance.steps > 0.0:
        yield chance


def _jupiter(face: Face, seen: Seen) -> Iterator[FeatureChance]:
    diameter = face.diameter_arcsec
    if face.widest_moon_arcsec is not None:
        yield _judge(Feature.MOONS, face.widest_moon_arcsec, face, seen)
    yield _judge(Feature.MAIN_BELTS, _MAIN_BELT * diameter, face, seen)
    yield _judge(Feature.THIN_BELTS, _THIN_BELT * diameter, face, seen)
    if not face.spot_stays_away:
        yield _judge(Feature.RED_SPOT, _RED_SPOT * diameter, face, seen)
    for moon, shadow_arcsec in face.shadows:
        yield _judge(Feature.MOON_SHADOW, shadow_arcsec, face, seen, moon=moon)


def _saturn(face: Face, seen: Seen) -> Iterator[FeatureChance]:
    if face.ring is not None:
        yield from _ring(face, face.ring, seen)
    yield _judge(Feature.GLOBE_BELT, _GLOBE_BELT * face.diameter_arcsec, face, seen)
    aperture = between(seen.aperture_mm, possible_from=TITAN_MM[0], likely_from=TITAN_MM[1])
    yield FeatureChance(
        feature=Feature.TITAN,
        face=face,
        seen=seen,
        size_arcsec=None,
        steps=aperture,
        held_back_by=HeldBack.APERTURE if aperture < SURE else None,
    )


def _ring(face: Face, ring: Ring, seen: Seen) -> Iterator[FeatureChance]:
    opening = abs(ring.opening_deg)
    arcsec_per_km = ring.major_axis_arcsec / 2.0 / OUTER_EDGE_KM
    globe_km = FACTS[Body.SATURN].equatorial_radius_km
    line, shape = (
        (HeldBack.OPENING, between(opening, possible_from=low, likely_from=high))
        for low, high in (_LINE_OPENING_DEG, _RING_OPENING_DEG)
    )
    wide = (
        HeldBack.OPENING if opening < _WELL_OPEN_DEG else HeldBack.DETAIL,
        between(
            ring.minor_axis_arcsec / seen.finest_arcsec,
            possible_from=_WIDE_RING_DETAILS[0],
            likely_from=_WIDE_RING_DETAILS[1],
        ),
    )
    lit = (HeldBack.UNLIT_SIDE, SURE if ring.lit_side_seen else 0.0)
    if opening < _RING_OPENING_DEG[1]:
        yield _judge(Feature.RING_LINE, ring.major_axis_arcsec, face, seen, line, lit)
    yield _judge(Feature.RING, ring.major_axis_arcsec, face, seen, shape, lit)
    # The faint inner ring leaves the space dark: it is as wide as up to the bright one, and beside the globe
    # as high as that is open there.
    beside_globe_km = float(np.sqrt(B_RING_KM[0] ** 2 - globe_km**2))
    high_km = 2.0 * beside_globe_km * float(np.sin(np.radians(opening)))
    wide_km = B_RING_KM[0] - globe_km
    narrow_km = min(wide_km, high_km)
    # It is seen by its area, and no sooner than the ring itself.
    sooner = RULES[Feature.RING_SPACE].looks_arcsec / RULES[Feature.RING].looks_arcsec
    looks = min(float(np.sqrt(narrow_km * wide_km)) * arcsec_per_km, sooner * ring.major_axis_arcsec)
    yield _judge(Feature.RING_SPACE, narrow_km * arcsec_per_km, face, seen, lit, outline_arcsec=looks)
    yield _judge(Feature.RING_GAP, ring.gap_width_arcsec, face, seen, wide, lit)
    yield from _where_any(_judge(Feature.FINE_GAP, _FINE_GAP_KM * arcsec_per_km, face, seen, wide, lit))
    # The globe's shadow falls beside it on the ring behind, as far as the Sun stands aside of us.
    behind_km = float(np.sqrt(B_RING_KM[1] ** 2 - globe_km**2))
    beside = behind_km * float(np.sin(np.radians(face.phase_angle_deg))) * arcsec_per_km
    yield from _where_any(_judge(Feature.GLOBE_SHADOW, beside, face, seen, shape, lit))
    peeps = _ring_shadow_km(ring) * arcsec_per_km
    yield from _where_any(_judge(Feature.RING_SHADOW, peeps, face, seen))


def _ring_shadow_km(ring: Ring) -> float:
    """Return how much of the ring's shadow in the middle of the globe the ring itself leaves to be seen.

    Both reach as far from the equator as the tangents of the two latitudes say, on ground taken as upright:
    a Sun higher than we are sends the shadow out beyond the ring, a lower one leaves it inside.
    """
    globe_km = FACTS[Body.SATURN].equatorial_radius_km
    ours, sun = (
        float(np.tan(np.radians(latitude_deg)))
        for latitude_deg in (abs(ring.opening_deg), abs(ring.sun_latitude_deg))
    )
    whole_km = (OUTER_EDGE_KM - B_RING_KM[0]) * sun
    if not ring.lit_side_seen:
        return whole_km
    outside_km = (OUTER_EDGE_KM - globe_km) * (sun - ours)
    inside_km = (B_RING_KM[0] - globe_km) * (ours - sun)
    return min(max(outside_km, inside_km), whole_km)


def _mars(face: Face, seen: Seen) -> Iterator[FeatureChance]:
    dust = STEP if face.dust else 0.0
    yield _judge(Feature.DARK_MARKINGS, _DARK_MARKING * face.diameter_arcsec, face, seen, less=dust)
    caps = ((Feature.NORTH_CAP, face.north_cap_arcsec), (Feature.SOUTH_CAP, face.south_cap_arcsec))
    for feature, reach_arcsec in caps:
        if reach_arcsec is None:
            yield _hidden(feature, HeldBack.TURNED_AWAY, face, seen)
        else:
            yield _judge(feature, reach_arcsec, face, seen, less=dust)
    phase = _judge(Feature.PHASE, _unlit_arcsec(face), face, seen, outline_arcsec=face.diameter_arcsec)
    yield from _where_any(phase)


def _inner(face: Face, seen: Seen) -> Iterator[FeatureChance]:
    # A crescent is known by its dark side as much as by its lit one: half the disc is all that is needed.
    size = min(_unlit_arcsec(face), face.diameter_arcsec / 2.0)
    yield _judge(Feature.PHASE, size, face, seen, outline_arcsec=face.diameter_arcsec)
    yield _hidden(Feature.FAINT_MARKINGS, HeldBack.NEVER, face, seen)


def _outer(face: Face, seen: Seen) -> Iterator[FeatureChance]:
    yield _judge(Feature.SMALL_DISC, face.diameter_arcsec, face, seen)
    yield _hidden(Feature.FAINT_MARKINGS, HeldBack.NEVER, face, seen)


def _moon(face: Face, seen: Seen) -> Iterator[FeatureChance]:
    """Yield relief along the line of day and night, and rays; the smallest crater is told in km."""
    unlit, lit = 1.0 - face.illuminated_fraction, face.illuminated_fraction
    smallest = max(_CRATER_DETAILS * seen.finest_arcsec, _CRATER_LOOKS_ARCSEC / seen.power)
    relief = between(unlit, possible_from=_RELIEF_UNLIT[0], likely_from=_RELIEF_UNLIT[1])
    yield FeatureChance(
        feature=Feature.RELIEF,
        face=face,
        seen=seen,
        size_arcsec=smallest,
        steps=relief,
        held_back_by=HeldBack.PHASE if relief < SURE else None,
        smallest_km=smallest * _MOON_KM_PER_ARCSEC,
    )
    rays = between(lit, possible_from=_RAYS_LIT[0], likely_from=_RAYS_LIT[1])
    yield FeatureChance(
        feature=Feature.RAYS,
        face=face,
        seen=seen,
        size_arcsec=None,
        steps=rays,
        held_back_by=HeldBack.PHASE if rays < SURE else None,
    )


def _unlit_arcsec(face: Face) -> float:
    return face.diameter_arcsec * (1.0 - face.illuminated_fraction)
