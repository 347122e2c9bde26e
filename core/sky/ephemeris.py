"""Where the bodies are, as the JPL ephemeris DE421 has it: the one module that asks skyfield.

Everything here is geocentric. The ephemeris comes with the installed package ``skyfield-data``; nothing
is ever fetched, and the Earth's rotation comes from the tables built into skyfield.
"""

import atexit
import zlib
from copy import copy
from datetime import date, timedelta
from functools import cache, lru_cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.plain_text import cut, printable
from core.problems import Problem, ProblemsError, refuse
from core.sky.bodies import FACTS, Body

if TYPE_CHECKING:
    from skyfield.positionlib import Astrometric
    from skyfield.timelib import Time


DAY_S: Final = 86_400.0
AU_KM: Final = 149_597_870.7  # IAU 2012 resolution B2
MOON_MEAN_DISTANCE_KM: Final = 384_400.0
UNIX_EPOCH_JD: Final = 2_440_587.5
# Days from 1970-01-01T00 to the epoch J2000.0, 2000-01-01T12.
J2000_DAYS: Final = 2_451_545.0 - UNIX_EPOCH_JD
# 1991.25, the epoch of the Hipparcos catalogue.
_HIPPARCOS_JD: Final = 2_448_349.0625

# First and last day of DE421, and what is kept clear of its ends, for light time and for the nodes that
# an interpolation needs on either side.
_FILE_STARTS: Final = date(1899, 7, 29)
_FILE_ENDS: Final = date(2053, 10, 9)
_MARGIN: Final = timedelta(days=16)
_TABLE_NAME: Final = "de421.bsp"
# Of the table as skyfield-data 6.0 and 7.0 carry it, byte for byte the same.
_TABLE_CRC32: Final = 0xA120E487
_PIECE_BYTES: Final = 65_536
_LONGEST_REASON: Final = 100

_TARGET_NAMES: Final = {
    Body.SUN: "sun",
    Body.MERCURY: "mercury",
    Body.VENUS: "venus",
    Body.MARS: "mars",
    Body.JUPITER: "jupiter barycenter",
    Body.SATURN: "saturn barycenter",
    Body.URANUS: "uranus barycenter",
    Body.NEPTUNE: "neptune barycenter",
    Body.MOON: "moon",
}

# Where the published formula gives no magnitude: Neptune before 2000 at its largest phase angles. The
# mean of its range at unit distances, right within 0.06 (Mallama and Hilton 2018, equation 16).
_NEPTUNE_UNIT_MAGNITUDE: Final = -6.95


class EphemerisRangeError(ProblemsError):
    """A date for which there is no ephemeris; names the first and the last usable one."""

    def __init__(self, asked: date) -> None:
        first, last = usable_dates()
        super().__init__(
            Problem("", f"{asked} is outside the planet tables: choose a date from {first} to {last}")
        )


def usable_dates() -> tuple[date, date]:
    """Return the first and the last date whose evening can be computed."""
    return _FILE_STARTS + _MARGIN, _FILE_ENDS - _MARGIN


def check_date(evening: date) -> None:
    """Raise EphemerisRangeError unless the evening of a date can be computed."""
    first, last = usable_dates()
    if not first <= evening <= last:
        raise EphemerisRangeError(evening)


def _unreadable(why: str) -> ProblemsError:
    repair = "install it again with: python -m pip install --force-reinstall skyfield-data"
    what = f"is missing or damaged ({cut(printable(why), _LONGEST_REASON)}); {repair}"
    return refuse(what, where=f"the planet table {_TABLE_NAME}")


def _crc32_of(path: Path) -> int:
    """Return the checksum of a file, read in pieces: mapped it would count as the program's memory."""
    checksum = 0
    with path.open("rb") as file:
        while piece := file.read(_PIECE_BYTES):
            checksum = zlib.crc32(piece, checksum)
    return checksum


@frozen
class _Sky:
    """What skyfield holds open: the ephemeris (a memory map of its file) and the time scales."""

    bodies: Any
    timescale: Any


def load_library() -> None:
    """Load skyfield, which is otherwise loaded when the first position is asked for."""
    import skyfield.api  # noqa: F401 - loaded, not used


@cache
def _sky() -> _Sky:
    from skyfield.api import load, load_file

    try:
        # The package's own path function warns once its Earth-rotation table (not used here) is old.
        path = Path(str(files("skyfield_data") / "data" / _TABLE_NAME))
        is_whole = _crc32_of(path) == _TABLE_CRC32
        bodies = load_file(str(path)) if is_whole else None
        timescale = load.timescale(builtin=True)
    except Exception as error:  # noqa: BLE001 - a damaged installation fails in many ways
        raise _unreadable(getattr(error, "strerror", None) or str(error)) from None
    if bodies is None:
        raise _unreadable("its content is not the published one")
    atexit.register(bodies.close)
    return _Sky(bodies, timescale)


@cache
def _leap_seconds() -> tuple[Floats, Floats]:
    """Return the Unix seconds at which TAI-UTC changed, and its value from then on."""
    timescale = _sky().timescale
    changed_s = (np.asarray(timescale.leap_dates, dtype=float) - UNIX_EPOCH_JD) * DAY_S
    offsets_s = np.asarray(timescale.leap_offsets, dtype=float)
    return changed_s, np.concatenate([offsets_s[:1] - 1.0, offsets_s])


def terrestrial_days(unix_s: Floats) -> Floats:
    """Return days of Terrestrial Time since 1970-01-01T00 TT for Unix seconds, any shape.

    Before 1972, when UTC had no leap seconds, TAI-UTC is held at 10 s, as skyfield does.
    """
    changed_s, offsets_s = _leap_seconds()
    offset_s = offsets_s[np.searchsorted(changed_s, unix_s, side="right")]
    return np.asarray((unix_s + offset_s + 32.184) / DAY_S)


@cache
def node_limits() -> tuple[int, int]:
    """Return the first and the last whole terrestrial day for which positions can be asked."""
    epoch = date(1970, 1, 1)
    # A day at the start for light to come from Neptune (4.2 hours); the last day is not whole.
    return (_FILE_STARTS - epoch).days + 1, (_FILE_ENDS - epoch).days - 1


@lru_cache(maxsize=64)
def _node_moments(first_node: int, count: int) -> tuple[Any, Any]:
    """Return skyfield's time and Earth for a run of nodes; every body shares their costly nutation."""
    sky = _sky()
    time = sky.timescale.tt_jd(UNIX_EPOCH_JD + first_node + np.arange(count, dtype=float))
    return time, sky.bodies["earth"].at(time)


def node_vectors_au(body: Body, first_node: int, count: int) -> Floats:
    """Return apparent geocentric positions at whole terrestrial days, shape (count, 3), in au.

    Nodes are days of TERRESTRIAL time since 1970. The axes are the true equator and equinox of date;
    light time, aberration and the bending of light are in, the length is that of the light path.
    """
    from skyfield.framelib import true_equator_and_equinox_of_date

    _, earth = _node_moments(first_node, count)
    apparent = earth.observe(_sky().bodies[_TARGET_NAMES[body]]).apparent()
    return np.ascontiguousarray(apparent.frame_xyz(true_equator_and_equinox_of_date).au.T)


def node_sidereal_rad(first_node: int, count: int) -> Floats:
    """Return Greenwich apparent sidereal time (radians) at whole terrestrial days, shape (count,)."""
    time, _ = _node_moments(first_node, count)
    return np.asarray(time.gast * (np.pi / 12.0))


@frozen(kw_only=True)
class SizeAndLight:
    """How bodies look from the centre of the Earth; each field has the shape (N,) of the times asked.

    ``diameter_arcsec`` is the equatorial one; ``illuminated_fraction`` counts the disc's area.
    """

    diameter_arcsec: Floats
    magnitude: Floats
    illuminated_fraction: Floats
    distance_au: Floats


def size_and_light(body: Body, unix_s: Floats) -> SizeAndLight:
    """Return how a body looks at Unix seconds (N,).

    Sources: planets' magnitudes of Mallama and Hilton 2018 (Astronomy and Computing 25, 10), the formulae as
    skyfield has them, with distances and phase from the Sun's true place and without the turning of Mars
    (0.06); the Moon's of Allen's Astrophysical Quantities (1976),
    as quoted by Krisciunas and Schaefer 1991 (PASP 103, 1033), scaled by both distances: a fair guess
    only, and above all near new Moon.
    """
    seen, sun = _observed(body, unix_s)
    distance_km = seen.distance().km
    return SizeAndLight(
        diameter_arcsec=np.degrees(2.0 * np.arcsin(FACTS[body].equatorial_radius_km / distance_km)) * 3600.0,
        magnitude=_magnitude(body, seen, sun),
        illuminated_fraction=(1.0 + np.cos(np.radians(_phase_deg(seen)))) / 2.0,
        distance_au=distance_km / AU_KM,
    )


def magnitude(body: Body, unix_s: Floats) -> Floats:
    """Return the magnitudes (N,) alone that ``size_and_light`` would give."""
    return _magnitude(body, *_observed(body, unix_s))


def _observed(body: Body, unix_s: Floats) -> tuple["Astrometric", "Astrometric"]:
    """Return a body and the Sun as seen from the centre of the Earth at Unix seconds (N,)."""
    sky = _sky()
    time = sky.timescale.tt_jd(UNIX_EPOCH_JD + terrestrial_days(np.atleast_1d(unix_s)))
    earth = sky.bodies["earth"].at(time)
    return earth.observe(sky.bodies[_TARGET_NAMES[body]]), earth.observe(sky.bodies["sun"])


def _phase_deg(seen: "Astrometric") -> Floats:
    return np.asarray(seen.phase_angle(_sky().bodies["sun"]).degrees)


def _magnitude(body: Body, seen: "Astrometric", sun: "Astrometric") -> Floats:
    sun_distance_au = np.asarray((seen.xyz.au - sun.xyz.au) ** 2).sum(axis=0) ** 0.5
    if body is Body.MOON:
        return _moon_magnitude(_phase_deg(seen), seen.distance().km, sun_distance_au)
    return _planet_magnitude(body, seen, sun, sun_distance_au)


def _moon_magnitude(phase_deg: Floats, distance_km: Floats, sun_distance_au: Floats) -> Floats:
    by_phase = -12.73 + 0.026 * phase_deg + 4e-9 * phase_deg**4
    return np.asarray(by_phase + 5.0 * np.log10(distance_km / MOON_MEAN_DISTANCE_KM * sun_distance_au))


def _planet_magnitude(body: Body, seen: "Astrometric", sun: "Astrometric", sun_distance_au: Floats) -> Floats:
    from skyfield.magnitudelib import planetary_magnitude
    from skyfield.positionlib import ICRF

    # The library reads distances and phase off the place of the observer, as if the Sun stood still in the
    # middle of the planets' orbits: up to 0.18 off for Mercury. Counted from the Sun that place is right.
    from_sun = copy(seen)
    from_sun.center_barycentric = ICRF(-sun.xyz.au, t=seen.t)
    magnitude = np.asarray(planetary_magnitude(from_sun), dtype=float)
    if body is Body.NEPTUNE:
        rough = _NEPTUNE_UNIT_MAGNITUDE + 5.0 * np.log10(sun_distance_au * seen.distance().au)
        magnitude = np.where(np.isnan(magnitude), rough, magnitude)
    return magnitude


@frozen(kw_only=True, eq=False)
class StarPlaces:
    """Where stars stand in the sky of the Hipparcos catalogue, in 1991.25; each field has the shape (N,).

    The proper motion in right ascension has the cosine of the declination in it.
    """

    ra_deg: Floats
    dec_deg: Floats
    ra_mas_a_year: Floats
    dec_mas_a_year: Floats


def star_vectors(stars: StarPlaces, unix_s: float) -> Floats:
    """Return apparent directions to stars at a time, shape (N, 3), of length 1.

    The axes are the true equator and equinox of date, as of ``node_vectors_au``.
    """
    from skyfield.framelib import true_equator_and_equinox_of_date
    from skyfield.starlib import Star

    sky = _sky()
    star = Star(
        ra_hours=stars.ra_deg / 15.0,
        dec_degrees=stars.dec_deg,
        ra_mas_per_year=stars.ra_mas_a_year,
        dec_mas_per_year=stars.dec_mas_a_year,
        epoch=_HIPPARCOS_JD,
    )
    apparent = sky.bodies["earth"].at(_moment(unix_s)).observe(star).apparent()
    places = np.asarray(apparent.frame_xyz(true_equator_and_equinox_of_date).au.T)
    return np.ascontiguousarray(places / np.linalg.norm(places, axis=1, keepdims=True))


@cache
def _constellations() -> tuple[Any, dict[str, str]]:
    from skyfield.api import load_constellation_map, load_constellation_names

    return load_constellation_map(), dict(load_constellation_names())


def constellation_of(direction: Floats, unix_s: float) -> str:
    """Return the Latin name of the constellation in which a direction (3,) lies at a time.

    The axes are the true equator and equinox of date. The boundaries are the IAU's (Roman 1987, Publications
    of the Astronomical Society of the Pacific 99, 695), as skyfield carries them.
    """
    from skyfield.positionlib import ICRF

    constellation_at, names = _constellations()
    time = _moment(unix_s)
    return names[str(constellation_at(ICRF(time.M.T @ direction, t=time)))]


def _moment(unix_s: float) -> "Time":
    days = float(terrestrial_days(np.array([unix_s]))[0])
    moment: Time = _sky().timescale.tt_jd(UNIX_EPOCH_JD + days)
    return moment
