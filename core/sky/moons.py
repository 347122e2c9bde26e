"""Jupiter's four bright moons: where they stand beside the planet, and when they and their shadows cross it.

Orbits: the L1.2 theory as astronomy-engine has it (within 750 km). Every time belongs to the middle of
the moon or of its shadow at Jupiter's edge, and to the loss of half its light in an eclipse. Left out:
the time light takes between a moon and the cloud tops (at most 6 s).
"""

from datetime import UTC, datetime
from enum import StrEnum
from typing import Final

import astronomy
import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky.axes import LIGHT_KM_S, array_of, direction, pose
from core.sky.bodies import FACTS, Body
from core.sky.ephemeris import AU_KM, DAY_S
from core.sky.even_curve import NODES, EvenCurve

RADIUS_KM: Final = FACTS[Body.JUPITER].equatorial_radius_km
_FLATNESS: Final = FACTS[Body.JUPITER].polar_radius_km / RADIUS_KM

# Orbits are read this often and joined by smooth curves (Io: within 0.0002 Jupiter radii).
_NODE_STEP_S: Final = 7200.0
_STEP_S: Final = 60.0
# Over many days, for shadows alone; their times are then right within two minutes.
_SHADOW_NODE_STEP_S: Final = 10_800.0
_SHADOW_STEP_S: Final = 300.0
_AWAY: Final = 1.0


class Moon(StrEnum):
    """The four bright moons, from the innermost outwards."""

    IO = "io"
    EUROPA = "europa"
    GANYMEDE = "ganymede"
    CALLISTO = "callisto"

    @property
    def label(self) -> str:
        """The name as shown to a person."""
        return self.value.capitalize()


# WGCCRE 2015 (Archinal et al. 2018), mean radii.
MOON_RADIUS_KM: Final = {
    Moon.IO: 1821.49,
    Moon.EUROPA: 1560.8,
    Moon.GANYMEDE: 2631.2,
    Moon.CALLISTO: 2410.3,
}


@frozen(kw_only=True)
class MoonPosition:
    """Where a moon stands, in equatorial radii of Jupiter: x west, y north along the axis, z towards us.

    ``shadow_x_radii`` and ``shadow_y_radii`` are where its shadow falls on the face that we see, None
    where it falls elsewhere.
    """

    moon: Moon
    x_radii: float
    y_radii: float
    z_radii: float
    in_transit: bool
    occulted: bool
    eclipsed: bool
    shadow_x_radii: float | None
    shadow_y_radii: float | None

    @property
    def is_visible(self) -> bool:
        """Whether the moon can be seen at all: neither behind Jupiter nor in its shadow."""
        return not (self.occulted or self.eclipsed)


class MoonEventKind(StrEnum):
    """What can happen between a moon and Jupiter."""

    TRANSIT = "transit"
    SHADOW_TRANSIT = "shadow_transit"
    OCCULTATION = "occultation"
    ECLIPSE = "eclipse"


# What keeps the start or the end of a passage from being seen.
_HIDING: Final = {
    MoonEventKind.OCCULTATION: MoonEventKind.ECLIPSE,
    MoonEventKind.ECLIPSE: MoonEventKind.OCCULTATION,
}


@frozen(kw_only=True)
class MoonEvent:
    """One moon's passage from ``start`` to ``end`` (aware UTC).

    ``start_seen`` and ``end_seen`` tell whether that moment shows: a moon that comes out of the shadow
    while still behind Jupiter does not.
    """

    moon: Moon
    kind: MoonEventKind
    start: datetime
    end: datetime
    start_seen: bool
    end_seen: bool


@frozen
class _Places:
    """The four moons at N times (4, N, 3), and whence they are looked at; lengths in radii of Jupiter."""

    moons: Floats
    to_earth: Floats
    to_sun: Floats
    earth_radii: Floats
    sun_radii: Floats
    pole: Floats

    def seen_from(self, towards: Floats, distance: Floats) -> Floats:
        """Return x, y, z (4, N, 3) as projected for an eye at a distance in a direction (N, 3)."""
        x_axis, y_axis = _axes_across(towards, self.pole)
        toward = np.einsum("mnk,nk->mn", self.moons, towards)
        nearer = distance / (distance - toward)
        west = np.einsum("mnk,nk->mn", self.moons, x_axis) * nearer
        north = np.einsum("mnk,nk->mn", self.moons, y_axis) * nearer
        return np.stack([west, north, toward], axis=-1)

    def outside_disc(self, projected: Floats, towards: Floats) -> Floats:
        """Return a measure (4, N) that is under zero within Jupiter's outline, as seen from a direction."""
        sine = towards @ self.pole
        outline = np.sqrt(sine**2 + _FLATNESS**2 * (1.0 - sine**2))
        return np.asarray(projected[..., 0] ** 2 + (projected[..., 1] / outline) ** 2 - 1.0)

    def shadows(self) -> tuple[Floats, Floats]:
        """Return where each shadow falls, x and y (4, N, 2), and how squarely that ground faces us (4, N).

        NaN where no shadow falls on Jupiter.
        """
        # With the axis stretched, Jupiter is a sphere of radius 1.
        beam = direction(self.moons - self.sun_radii[:, None] * self.to_sun)
        moons, onward = self._stretched(self.moons), self._stretched(beam)
        along = np.einsum("mnk,mnk->mn", onward, onward)
        half = np.einsum("mnk,mnk->mn", moons, onward)
        root = half**2 - along * (np.einsum("mnk,mnk->mn", moons, moons) - 1.0)
        with np.errstate(invalid="ignore"):
            way = np.where(half < 0.0, (-half - np.sqrt(root)) / along, np.nan)
        ground = self.moons + way[..., None] * beam
        upright = self._stretched(self._stretched(ground))
        facing = np.einsum("mnk,nk->mn", upright, self.to_earth)
        x_axis, y_axis = _axes_across(self.to_earth, self.pole)
        across = [np.einsum("mnk,nk->mn", ground, axis) for axis in (x_axis, y_axis)]
        return np.stack(across, axis=-1), facing

    def _stretched(self, vectors: Floats) -> Floats:
        return np.asarray(vectors + (vectors @ self.pole)[..., None] * self.pole * (1.0 / _FLATNESS - 1.0))


def _axes_across(towards: Floats, pole: Floats) -> tuple[Floats, Floats]:
    """Return the directions (N, 3) that look west and north to an eye in a direction (N, 3)."""
    north = direction(pole - (towards @ pole)[:, None] * towards)
    return np.cross(north, towards), north


def _places_at(unix_s: Floats) -> _Places:
    """Return the moons at Unix seconds (N,), each with the light time from itself."""
    moons, to_earth, to_sun, earth, sun = [], [], [], [], []
    poses = [pose(Body.JUPITER, float(moment)) for moment in unix_s]
    for turned in poses:
        info = astronomy.JupiterMoons(turned.left)
        states = (info.io, info.europa, info.ganymede, info.callisto)
        sight = turned.to_earth
        found = []
        for state in states:
            place = array_of(state.Position()) * AU_KM
            velocity_km_s = np.array([state.vx, state.vy, state.vz]) * AU_KM / DAY_S
            found.append((place + velocity_km_s * (place @ sight) / LIGHT_KM_S) / RADIUS_KM)
        moons.append(found)
        to_earth.append(sight)
        to_sun.append(turned.to_sun)
        earth.append(np.linalg.norm(turned.from_earth_au) * AU_KM / RADIUS_KM)
        sun.append(np.linalg.norm(turned.from_sun_au) * AU_KM / RADIUS_KM)
    return _Places(
        moons=np.moveaxis(np.array(moons), 0, 1),
        to_earth=np.array(to_earth),
        to_sun=np.array(to_sun),
        earth_radii=np.array(earth),
        sun_radii=np.array(sun),
        pole=poses[0].pole,
    )


def _places_over(
    start_s: float, end_s: float, *, step_s: float = _STEP_S, node_step_s: float = _NODE_STEP_S
) -> tuple[Floats, _Places]:
    """Return times at even steps and the moons at them, through curves over places some hours apart."""
    nodes_s = np.linspace(start_s, end_s, max(int((end_s - start_s) / node_step_s) + 1, NODES))
    times_s = np.arange(start_s, end_s, step_s)
    known = _places_at(nodes_s)

    def joined(values: Floats, axis: int) -> Floats:
        rows = np.moveaxis(values, axis, 0)
        curve = EvenCurve(start_s, float(nodes_s[1] - nodes_s[0]), rows.reshape(len(nodes_s), -1))
        return np.moveaxis(curve(times_s).T.reshape(len(times_s), *rows.shape[1:]), 0, axis)

    places = _Places(
        moons=joined(known.moons, 1),
        to_earth=direction(joined(known.to_earth, 0)),
        to_sun=direction(joined(known.to_sun, 0)),
        earth_radii=joined(known.earth_radii, 0),
        sun_radii=joined(known.sun_radii, 0),
        pole=known.pole,
    )
    return times_s, places


def moon_positions(time: datetime) -> tuple[MoonPosition, ...]:
    """Return where the four moons stand at a time (aware), from Io to Callisto."""
    places = _places_at(np.array([time.timestamp()]))
    seen = places.seen_from(places.to_earth, places.earth_radii)
    measures = {kind: values[:, 0] for kind, values in _measures(places).items()}
    shadows, _ = places.shadows()
    found = []
    for index, moon in enumerate(Moon):
        casts = measures[MoonEventKind.SHADOW_TRANSIT][index] < 0.0
        found.append(
            MoonPosition(
                moon=moon,
                x_radii=float(seen[index, 0, 0]),
                y_radii=float(seen[index, 0, 1]),
                z_radii=float(seen[index, 0, 2]),
                in_transit=bool(measures[MoonEventKind.TRANSIT][index] < 0.0),
                occulted=bool(measures[MoonEventKind.OCCULTATION][index] < 0.0),
                eclipsed=bool(measures[MoonEventKind.ECLIPSE][index] < 0.0),
                shadow_x_radii=float(shadows[index, 0, 0]) if casts else None,
                shadow_y_radii=float(shadows[index, 0, 1]) if casts else None,
            )
        )
    return tuple(found)


def moon_events(start: datetime, end: datetime) -> tuple[MoonEvent, ...]:
    """Return what the moons do between two times (aware), in order; what is under way at either is whole."""
    # The longest passage, a transit of Callisto, takes under six hours.
    margin_s = 6.0 * 3600.0
    first_s, last_s = start.timestamp(), end.timestamp()
    times_s, places = _places_over(first_s - margin_s, last_s + margin_s)
    measures = _measures(places)
    events = []
    for kind, values in measures.items():
        for index, moon in enumerate(Moon):
            for begin_s, finish_s in _spans_below_zero(times_s, values[index]):
                if begin_s >= last_s or finish_s <= first_s:
                    continue
                hidden_by = _HIDING.get(kind)
                hidden = None if hidden_by is None else measures[hidden_by][index]
                events.append(
                    MoonEvent(
                        moon=moon,
                        kind=kind,
                        start=datetime.fromtimestamp(begin_s, UTC),
                        end=datetime.fromtimestamp(finish_s, UTC),
                        start_seen=hidden is None or bool(np.interp(begin_s, times_s, hidden) > 0.0),
                        end_seen=hidden is None or bool(np.interp(finish_s, times_s, hidden) > 0.0),
                    )
                )
    return tuple(sorted(events, key=lambda event: (event.start, event.moon, event.kind)))


def shadow_spans(start: datetime, end: datetime) -> dict[Moon, Floats]:
    """Return when each moon's shadow lies on Jupiter between two times (aware), Unix seconds, (N, 2).

    Cut at both ends; within two minutes of ``moon_events``, and much quicker over many days.
    """
    times_s, places = _places_over(
        start.timestamp(), end.timestamp(), step_s=_SHADOW_STEP_S, node_step_s=_SHADOW_NODE_STEP_S
    )
    from_sun = places.seen_from(places.to_sun, places.sun_radii)
    measures = _shadow_measure(places, from_sun, places.outside_disc(from_sun, places.to_sun))
    spans = (_spans_below_zero(times_s, measure) for measure in measures)
    return {moon: np.reshape(each, (-1, 2)) for moon, each in zip(Moon, spans, strict=True)}


def _measures(places: _Places) -> dict[MoonEventKind, Floats]:
    """Return, for each kind of passage, a measure (4, N) that is under zero while it lasts."""
    from_earth = places.seen_from(places.to_earth, places.earth_radii)
    from_sun = places.seen_from(places.to_sun, places.sun_radii)
    earth_outside = places.outside_disc(from_earth, places.to_earth)
    sun_outside = places.outside_disc(from_sun, places.to_sun)
    return {
        MoonEventKind.TRANSIT: np.where(from_earth[..., 2] > 0.0, earth_outside, _AWAY),
        MoonEventKind.SHADOW_TRANSIT: _shadow_measure(places, from_sun, sun_outside),
        MoonEventKind.OCCULTATION: np.where(from_earth[..., 2] < 0.0, earth_outside, _AWAY),
        MoonEventKind.ECLIPSE: np.where(from_sun[..., 2] < 0.0, sun_outside, _AWAY),
    }


def _shadow_measure(places: _Places, from_sun: Floats, sun_outside: Floats) -> Floats:
    """Return a measure (4, N) that is under zero while a moon's shadow falls on the face that we see."""
    _, facing = places.shadows()
    shadow_outside = np.where(np.isnan(facing), sun_outside, np.maximum(sun_outside, -facing))
    return np.where(from_sun[..., 2] > 0.0, shadow_outside, _AWAY)


def _spans_below_zero(times_s: Floats, values: Floats) -> list[tuple[float, float]]:
    """Return the spans in which a measure is under zero, cut at the ends of the times."""
    below = values < 0.0
    turns = np.flatnonzero(below[1:] != below[:-1])
    share = values[turns] / (values[turns] - values[turns + 1])
    crossings = (times_s[turns] + share * (times_s[turns + 1] - times_s[turns])).tolist()
    if below[0]:
        crossings.insert(0, float(times_s[0]))
    if below[-1]:
        crossings.append(float(times_s[-1]))
    return list(zip(crossings[::2], crossings[1::2], strict=True))
