"""Body by body, what there is to look for and how large it is tonight."""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np
from attrs import evolve

from core.looks.expectation import Chance, Expectation, Feature, Ground, capped, judge
from core.looks.picture.subject import Subject
from core.sky.bodies import Body
from core.sky.disc import Disc
from core.sky.moons import MOON_RADIUS_KM, RADIUS_KM, MoonEvent, MoonEventKind
from core.sky.ring import C_RING_KM, OUTER_EDGE_KM, Ring

# Jupiter's moons show in the least instrument (common practice).
_MOONS_POWER: Final = 10.0
# A ring less open than the first promises no gap, from the second on its width decides (ours).
_GAP_OPENING_DEG: Final = (5.0, 10.0)
# Less open than this the ring is a line, then nothing at all (ours).
_LINE_OPENING_DEG: Final = 1.0
_NOTHING_OPENING_DEG: Final = 0.3
# Near full Moon nothing casts a shadow.
_NEARLY_FULL: Final = 0.97
# Less of a disc lit than this shows as a shadowed side, or as a crescent (ours).
_SHADOWED_BELOW: Final = 0.95
_CRESCENT_BELOW: Final = 0.4
_MOON_KM_PER_ARCSEC: Final = 1.86  # in the middle of the disc, at the mean distance


def expect(
    subject: Subject,
    *,
    finest_detail_arcsec: float | None,
    highest_power: float | None,
    events: Sequence[MoonEvent] = (),
) -> tuple[Expectation, ...]:
    """Return what is worth looking for, the likeliest first.

    ``finest_detail_arcsec`` is the coarsest of aperture, air and built-in power, None when the body stands
    too low to tell; ``highest_power`` is the highest of the kit that tonight bears. ``events`` are what
    Jupiter's moons do in the hours of looking.
    """
    if finest_detail_arcsec is None:
        return (_granted(Feature.NO_DETAIL, Chance.UNLIKELY, Ground.TOO_LOW),)
    found = [capped(item, highest_power) for item in _all_of(subject, finest_detail_arcsec, events)]
    order = list(Chance)
    return tuple(sorted(found, key=lambda item: order.index(item.chance)))


def _all_of(subject: Subject, detail: float, events: Sequence[MoonEvent]) -> Iterator[Expectation]:
    disc = subject.disc
    if disc.body is Body.JUPITER:
        yield from _jupiter(subject, detail, events)
    elif subject.ring is not None:
        yield from _saturn(disc, subject.ring, detail)
    elif disc.body is Body.MARS:
        yield from _mars(subject, detail)
    elif disc.body in (Body.MERCURY, Body.VENUS):
        yield from _inner(disc, detail)
    elif disc.body in (Body.URANUS, Body.NEPTUNE):
        yield from _outer(disc, detail)
    elif disc.body is Body.MOON:
        yield _moon(disc, detail)


def _granted(feature: Feature, chance: Chance, ground: Ground) -> Expectation:
    """Return what no figure decides."""
    return Expectation(feature=feature, chance=chance, ground=ground)


def _jupiter(subject: Subject, detail: float, events: Sequence[MoonEvent]) -> Iterator[Expectation]:
    diameter = subject.disc.equatorial_diameter_arcsec
    yield Expectation(
        feature=Feature.BRIGHT_MOONS,
        chance=Chance.LIKELY,
        ground=Ground.BESIDE_THE_PLANET,
        count=sum(moon.is_visible and not moon.in_transit for moon in subject.moons),
        from_power=_MOONS_POWER,
    )
    yield judge(Feature.MAIN_BELTS, 0.085 * diameter, detail)
    yield judge(Feature.THIN_BELTS, 0.035 * diameter, detail)
    yield judge(Feature.RED_SPOT, 0.12 * diameter, detail)
    casting = (event.moon for event in events if event.kind is MoonEventKind.SHADOW_TRANSIT)
    for moon in dict.fromkeys(casting):
        size = diameter * MOON_RADIUS_KM[moon] / RADIUS_KM
        yield evolve(judge(Feature.MOON_SHADOW, size, detail), moon=moon)


def _saturn(disc: Disc, ring: Ring, detail: float) -> Iterator[Expectation]:
    opening = abs(ring.opening_deg)
    if opening < _GAP_OPENING_DEG[0]:
        yield _nearly_closed(ring, opening, detail)
    else:
        # What makes it look like a ring is the dark space between it and the globe.
        inner_edge = ring.major_axis_arcsec * C_RING_KM[0] / OUTER_EDGE_KM
        space = min((inner_edge - disc.equatorial_diameter_arcsec) / 2.0, ring.minor_axis_arcsec)
        yield evolve(judge(Feature.RING, space, detail), opening_deg=opening)
    yield _gap(ring, opening, detail)
    yield judge(Feature.GLOBE_BELT, 0.1 * disc.equatorial_diameter_arcsec, detail)


def _nearly_closed(ring: Ring, opening: float, detail: float) -> Expectation:
    """Return what a nearly closed ring promises: a longish shape at most."""
    feature, chance = Feature.LONG_SHAPE, Chance.LIKELY
    if opening < _LINE_OPENING_DEG or not ring.lit_side_seen:
        feature, chance = Feature.RING_LINE, Chance.POSSIBLE
    if opening < _NOTHING_OPENING_DEG or ring.major_axis_arcsec < 2.0 * detail:
        chance = Chance.UNLIKELY
    return Expectation(
        feature=feature,
        chance=chance,
        ground=Ground.NEARLY_CLOSED if ring.lit_side_seen else Ground.NEARLY_CLOSED_UNLIT,
        opening_deg=opening,
        size_arcsec=ring.minor_axis_arcsec,
    )


def _gap(ring: Ring, opening: float, detail: float) -> Expectation:
    item = judge(Feature.RING_GAP, ring.gap_width_arcsec, detail)
    chance, ground = item.chance, item.ground
    if not ring.lit_side_seen:
        chance, ground = Chance.UNLIKELY, Ground.RING_UNLIT
    elif opening < _GAP_OPENING_DEG[0]:
        chance, ground = Chance.UNLIKELY, Ground.RING_TOO_NARROW
    elif opening < _GAP_OPENING_DEG[1] and chance is Chance.LIKELY:
        chance, ground = Chance.POSSIBLE, Ground.SIZE_IN_NARROW_RING
    return evolve(item, chance=chance, ground=ground, opening_deg=opening)


def _mars(subject: Subject, detail: float) -> Iterator[Expectation]:
    disc = subject.disc
    yield judge(Feature.DARK_MARKINGS, disc.equatorial_diameter_arcsec / 5.0, detail)
    if subject.season is not None:
        tilt = disc.sub_earth_latitude_planetographic_deg
        # The latitude of each cap's edge, less the tilt of its pole towards us.
        caps = (
            (Feature.NORTH_CAP, subject.season.north_cap_edge_deg - tilt),
            (Feature.SOUTH_CAP, subject.season.south_cap_edge_deg + tilt),
        )
        for cap, turned_deg in caps:
            if turned_deg >= 90.0:
                yield _granted(cap, Chance.UNLIKELY, Ground.TURNED_AWAY)
                continue
            # How far it reaches in from the edge of the disc.
            reach = (1.0 - float(np.sin(np.radians(turned_deg)))) / 2.0 * disc.polar_diameter_arcsec
            yield judge(cap, reach, detail)
    if disc.illuminated_fraction < _SHADOWED_BELOW:
        shadowed = judge(Feature.SHADOWED_SIDE, disc.defect_arcsec, detail)
        yield evolve(shadowed, lit_share=disc.illuminated_fraction)


def _inner(disc: Disc, detail: float) -> Iterator[Expectation]:
    feature = Feature.CRESCENT if disc.illuminated_fraction < _CRESCENT_BELOW else Feature.PHASE
    half = disc.equatorial_diameter_arcsec / 2.0
    phase = evolve(judge(feature, min(disc.defect_arcsec, half), detail), lit_share=disc.illuminated_fraction)
    yield phase if disc.defect_arcsec < half else evolve(phase, ground=Ground.HALF_DISC)
    markings = Feature.CLOUDS if disc.body is Body.VENUS else Feature.GROUND
    yield _granted(markings, Chance.UNLIKELY, Ground.HARDLY_EVER_SEEN)


def _outer(disc: Disc, detail: float) -> Iterator[Expectation]:
    yield judge(Feature.SMALL_DISC, disc.equatorial_diameter_arcsec, detail)
    yield _granted(Feature.MARKINGS, Chance.UNLIKELY, Ground.OUT_OF_REACH)


def _moon(disc: Disc, detail: float) -> Expectation:
    if disc.illuminated_fraction > _NEARLY_FULL:
        return _granted(Feature.RAYS, Chance.LIKELY, Ground.NO_SHADOWS)
    return Expectation(
        feature=Feature.CRATERS,
        chance=Chance.LIKELY,
        ground=Ground.LONG_SHADOWS,
        smallest_km=detail * _MOON_KM_PER_ARCSEC,
    )
