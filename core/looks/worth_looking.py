"""Body by body, what there is to look for and how large it is tonight."""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from core.looks import expectation as rules
from core.looks.expectation import Chance, Expectation, arcsec_text, capped, judge
from core.looks.picture.subject import Subject
from core.sky.bodies import Body
from core.sky.disc import Disc
from core.sky.moons import MOON_RADIUS_KM, RADIUS_KM, MoonEvent, MoonEventKind
from core.sky.ring import C_RING_KM, OUTER_EDGE_KM, Ring
from core.words.quantities import two_figures

# Jupiter's moons show in the least instrument (common practice).
_MOONS_POWER: Final = 10.0
# A ring less open than the first promises no gap, from the second on its width decides (ours).
_GAP_OPENING_DEG: Final = (5.0, 10.0)
# Less open than this the ring is a line, then nothing at all (ours).
_LINE_OPENING_DEG: Final = 1.0
_NOTHING_OPENING_DEG: Final = 0.3
# Near full Moon nothing casts a shadow.
_NEARLY_FULL: Final = 0.97
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
        why = "it stands so low that nothing can be said of the air there"
        return (Expectation(what="No detail to count on", chance=Chance.UNLIKELY, why=why),)
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


def _jupiter(subject: Subject, detail: float, events: Sequence[MoonEvent]) -> Iterator[Expectation]:
    diameter = subject.disc.equatorial_diameter_arcsec
    beside = sum(moon.is_visible and not moon.in_transit for moon in subject.moons)
    count = "all four stand beside it" if beside == 4 else f"{beside} of four stand beside it"
    yield Expectation(
        what="The bright moons", chance=Chance.LIKELY, why=f"{count} at this time", from_power=_MOONS_POWER
    )
    yield judge(rules.MAIN_BELTS, "The two main belts", 0.085 * diameter, "each is about", detail)
    yield judge(rules.THIN_BELTS, "Thinner belts", 0.035 * diameter, "each is about", detail)
    yield judge(rules.RED_SPOT, "The red spot, while it faces us", 0.12 * diameter, "pale, about", detail)
    casting = (event.moon for event in events if event.kind is MoonEventKind.SHADOW_TRANSIT)
    for moon in dict.fromkeys(casting):
        size = diameter * MOON_RADIUS_KM[moon] / RADIUS_KM
        yield judge(rules.SHADOW, f"{moon.label}'s shadow on the disc", size, "a black dot of", detail)


def _saturn(disc: Disc, ring: Ring, detail: float) -> Iterator[Expectation]:
    opening = abs(ring.opening_deg)
    if opening < _GAP_OPENING_DEG[0]:
        yield _nearly_closed(ring, opening, detail)
    else:
        # What makes it look like a ring is the dark space between it and the globe.
        inner_edge = ring.major_axis_arcsec * C_RING_KM[0] / OUTER_EDGE_KM
        space = min((inner_edge - disc.equatorial_diameter_arcsec) / 2.0, ring.minor_axis_arcsec)
        words = f"{opening:.0f}° open, with a dark space beside the globe of"
        yield judge(rules.RING, "The ring, apart from the globe", space, words, detail)
    yield _gap(ring, opening, detail)
    width = 0.1 * disc.equatorial_diameter_arcsec
    yield judge(rules.GLOBE_BELT, "A belt on the globe", width, "pale, about", detail)


def _nearly_closed(ring: Ring, opening: float, detail: float) -> Expectation:
    """Return what a nearly closed ring promises: a longish shape at most."""
    what, chance = "A longish shape: the ring is nearly closed", Chance.LIKELY
    if opening < _LINE_OPENING_DEG or not ring.lit_side_seen:
        what, chance = "The ring as a thin line", Chance.POSSIBLE
    if opening < _NOTHING_OPENING_DEG or ring.major_axis_arcsec < 2.0 * detail:
        chance = Chance.UNLIKELY
    width = arcsec_text(ring.minor_axis_arcsec)
    why = f"only {opening:.1f}° open, {width} from its near to its far edge"
    if not ring.lit_side_seen:
        why += ", and its unlit side faces us"
    return Expectation(what=what, chance=chance, why=why)


def _gap(ring: Ring, opening: float, detail: float) -> Expectation:
    item = judge(rules.GAP, "The gap in the ring", ring.gap_width_arcsec, "a dark line, at most", detail)
    chance, why = item.chance, item.why
    if not ring.lit_side_seen:
        chance, why = Chance.UNLIKELY, "the ring's unlit side faces us"
    elif opening < _GAP_OPENING_DEG[0]:
        chance, why = Chance.UNLIKELY, f"the ring is only {opening:.1f}° open"
    elif opening < _GAP_OPENING_DEG[1] and chance is Chance.LIKELY:
        chance, why = Chance.POSSIBLE, f"{why}, but the ring is only {opening:.0f}° open"
    return Expectation(what=item.what, chance=chance, why=why, from_power=item.from_power)


def _mars(subject: Subject, detail: float) -> Iterator[Expectation]:
    disc = subject.disc
    fifth = disc.equatorial_diameter_arcsec / 5.0
    yield judge(rules.DARK_MARKINGS, "Large dark markings", fifth, "a fifth of the disc is", detail)
    if subject.season is not None:
        tilt = disc.sub_earth_latitude_planetographic_deg
        # The latitude of each cap's edge, less the tilt of its pole towards us.
        caps = (
            ("northern", subject.season.north_cap_edge_deg - tilt),
            ("southern", subject.season.south_cap_edge_deg + tilt),
        )
        for name, turned_deg in caps:
            what = f"The {name} polar cap"
            if turned_deg >= 90.0:
                yield Expectation(what=what, chance=Chance.UNLIKELY, why="it is turned away from us")
                continue
            # How far it reaches in from the edge of the disc.
            reach = (1.0 - float(np.sin(np.radians(turned_deg)))) / 2.0 * disc.polar_diameter_arcsec
            words = "bright; in a usual year it now reaches in by"
            yield judge(rules.POLAR_CAP, what, reach, words, detail)
    if disc.illuminated_fraction < 0.95:
        words = f"{disc.illuminated_fraction:.0%} is lit, the dark part is"
        yield judge(
            rules.PHASE, "A shadowed side, like a Moon before full", disc.defect_arcsec, words, detail
        )


def _inner(disc: Disc, detail: float) -> Iterator[Expectation]:
    shape = "The crescent" if disc.illuminated_fraction < 0.4 else "The phase, like a small Moon's"
    lit = f"{disc.illuminated_fraction:.0%} is lit"
    half = disc.equatorial_diameter_arcsec / 2.0
    if disc.defect_arcsec < half:
        yield judge(rules.PHASE, shape, disc.defect_arcsec, f"{lit}, the dark part is", detail)
    else:
        yield judge(rules.PHASE, shape, half, f"{lit}, half the disc is", detail)
    where = "in the clouds" if disc.body is Body.VENUS else "on the ground"
    why = "hardly ever seen by eye, whatever the telescope"
    yield Expectation(what=f"Markings {where}", chance=Chance.UNLIKELY, why=why)


def _outer(disc: Disc, detail: float) -> Iterator[Expectation]:
    diameter = disc.equatorial_diameter_arcsec
    yield judge(rules.SMALL_DISC, "A small disc, not a point like a star", diameter, "it is", detail)
    why = "out of reach of the usual telescopes"
    yield Expectation(what="Markings", chance=Chance.UNLIKELY, why=why)


def _moon(disc: Disc, detail: float) -> Expectation:
    if disc.illuminated_fraction > _NEARLY_FULL:
        why = "near full Moon hardly anything casts a shadow"
        return Expectation(what="Bright rays and dark plains", chance=Chance.LIKELY, why=why)
    smallest_km = two_figures(detail * _MOON_KM_PER_ARCSEC)
    why = f"along the line of day and night, from about {smallest_km} km up"
    return Expectation(what="Craters and mountains with their shadows", chance=Chance.LIKELY, why=why)
