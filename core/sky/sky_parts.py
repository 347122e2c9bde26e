"""The blocked and the warm parts of a site's sky, and when a body is in one of them."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats, Truths
from core.sky.site import WARM_BAND_ABOVE_ROOF_DEG, Site
from core.sky.track import Track

# Edges of blocked sky and warm air are searched between samples a minute apart, twice among so many parts:
# down to a tenth of a second.
_ROUNDS: Final = 2
_PARTS: Final = np.linspace(0.0, 1.0, 25)

# What stands in the way when the owner gave it no name.
UNNAMED_BLOCK: Final = "blocked sky"
UNNAMED_WARM: Final = "warm air"


@frozen(eq=False)
class SkyPart:
    """One part of the site's sky: what it is called, and which directions lie in it."""

    name: str
    is_warm: bool
    contains: Callable[[Floats, Floats], Truths]


def parts_of(site: Site) -> list[SkyPart]:
    """Return the blocked and warm parts of a site's sky; a heated roof has a warm band above it."""
    found = []
    for blocked in site.blocked:
        roof_deg = blocked.below_altitude_deg
        name = blocked.what.strip()
        found.append(
            SkyPart(
                name or UNNAMED_BLOCK,
                is_warm=False,
                contains=partial(_inside, blocked.spans, -90.0, roof_deg),
            )
        )
        if blocked.heated:
            band = partial(_inside, blocked.spans, roof_deg, roof_deg + WARM_BAND_ABOVE_ROOF_DEG)
            found.append(SkyPart(name or UNNAMED_WARM, is_warm=True, contains=band))
    for warm in site.warm_air:
        contains = partial(_inside, warm.spans, -90.0, warm.below_altitude_deg)
        found.append(SkyPart(warm.what.strip() or UNNAMED_WARM, is_warm=True, contains=contains))
    return found


def _inside(
    spans: Callable[[Floats], Truths],
    from_deg: float,
    below_deg: float,
    azimuth_deg: Floats,
    apparent_deg: Floats,
) -> Truths:
    return np.asarray(spans(azimuth_deg) & (apparent_deg >= from_deg) & (apparent_deg < below_deg))


def spans_in(track: Track, sky_parts: Sequence[SkyPart]) -> tuple[Floats, ...]:
    """Return, for each part, the spans (N, 2) in which the body is there; all edges are found together.

    Between two samples of the track the body runs straight and evenly: true to a ten-thousandth of a degree.
    """
    if not sky_parts:
        return ()
    sampled = np.array(
        [sky_part.contains(track.azimuth_deg, track.apparent_altitude_deg) for sky_part in sky_parts]
    )
    which, left = np.nonzero(sampled[:, 1:] != sampled[:, :-1])
    azimuth_deg, apparent_deg = track.azimuth_deg[left], track.apparent_altitude_deg[left]
    turned_deg = (track.azimuth_deg[left + 1] - azimuth_deg + 180.0) % 360.0 - 180.0
    climbed_deg = track.apparent_altitude_deg[left + 1] - apparent_deg
    was, numbers = sampled[which, left, np.newaxis], np.arange(len(which))
    # Each part is asked about its own edges alone, or a site of many would take their square.
    own = np.searchsorted(which, np.arange(len(sky_parts) + 1))
    here = np.empty((len(which), len(_PARTS)), dtype=bool)
    before, after = np.zeros(len(which)), np.ones(len(which))
    for _ in range(_ROUNDS if len(which) else 0):
        parts = before[:, np.newaxis] + (after - before)[:, np.newaxis] * _PARTS
        azimuths_deg = (azimuth_deg[:, np.newaxis] + parts * turned_deg[:, np.newaxis]) % 360.0
        altitudes_deg = apparent_deg[:, np.newaxis] + parts * climbed_deg[:, np.newaxis]
        for sky_part, first_edge, end in zip(sky_parts, own[:-1], own[1:], strict=True):
            if end > first_edge:
                edges = slice(first_edge, end)
                here[edges] = sky_part.contains(azimuths_deg[edges], altitudes_deg[edges])
        first = np.argmax(here[:, 1:] != was, axis=1)
        before, after = parts[numbers, first], parts[numbers, first + 1]
    edges_s = track.unix_s[left] + after * (track.unix_s[left + 1] - track.unix_s[left])
    return tuple(
        _spans_from_edges(edges_s[which == index], track.unix_s[[0, -1]], starts_inside=bool(inside[0]))
        for index, inside in enumerate(sampled)
    )


def _spans_from_edges(edges_s: Floats, ends_s: Floats, *, starts_inside: bool) -> Floats:
    edges = [float(ends_s[0])] if starts_inside else []
    edges.extend(float(edge) for edge in edges_s)
    if len(edges) % 2:
        edges.append(float(ends_s[1]))
    return np.array(edges, dtype=float).reshape(-1, 2)
