"""How a planet looks, in words: the same on the screen, in a terminal and on paper."""

from collections.abc import Iterable, Iterator
from typing import Final

from core.air.dispersion import YELLOW_CUTS
from core.looks.picture.subject import Subject
from core.looks.planet_appearance import PlanetAppearance
from core.sky.bodies import Body
from core.sky.disc import CentralMeridian, Disc
from core.sky.mars_season import MarsSeason
from core.sky.moon_phase import MoonPhase
from core.sky.moons import MoonPosition
from core.sky.ring import Ring
from core.words.aim import aim_notices, no_ceiling_words
from core.words.dates import weekday_text
from core.words.directions import altitude_text, azimuth_text, compass_text
from core.words.filters import yellow_filter_text
from core.words.happenings import happening_words, next_words
from core.words.names import capitalised, opening
from core.words.notices import notice_texts
from core.words.quantities import angle_text, path_text, percent_text, rounded_text
from core.words.site_clock import SiteClock
from core.words.sizes import arcsec_text, disc_size_text

_NOT_OFFERED: Final = "{planet}, evening of {evening}: nothing is offered"
_CAUTION: Final = "Caution: {caution}"
_ALL_LIT: Final = 0.995
_ALL_LIT_BRIEFLY: Final = 0.985
# Larger than this a disc is the Moon's; flattened by less it is told as round.
_MOON_SIZED_ARCSEC: Final = 300.0
_ROUND_WITHIN_ARCSEC: Final = 0.05
_MAGNITUDE: Final = "magnitude {magnitude}"
_DISC: Final = "{size}, {lit} lit"
_WIDE: Final = "{width} wide"
_WIDE_AND_HIGH: Final = "{width} wide, {height} high"
_EAST_OF_SUN: Final = "{angle} east"
_WEST_OF_SUN: Final = "{angle} west"
_LIT: Final = "{lit} lit"
_LIT_SIDE: Final = "faces position angle {angle}"
_AXIS: Final = "position angle {angle}, {tilt}"
_NORTH_TOWARDS_US: Final = "north pole {tilt} towards us"
_SOUTH_TOWARDS_US: Final = "south pole {tilt} towards us"
# Without a system of longitudes, and with one.
_MERIDIAN: Final = ("{longitude}", "system {system} {longitude}")
_MERIDIAN_BRIEFLY: Final = ("{longitude}", "{system} {longitude}")
_CENTRAL_MERIDIAN: Final = "central meridian {found}"
_RING_OPEN: Final = "ring {opening} open"
# By whether the northern face is seen, and whether the lit side is.
_RINGS: Final = {
    (True, True): "{length} by {width}, {opening} open, northern face",
    (True, False): "{length} by {width}, {opening} open, northern face, unlit",
    (False, True): "{length} by {width}, {opening} open, southern face",
    (False, False): "{length} by {width}, {opening} open, southern face, unlit",
}
_SEASON: Final = "{northern} in the north, {southern} in the south (Ls {longitude})"
_SEASON_OF_DUST: Final = (
    "{northern} in the north, {southern} in the south (Ls {longitude}); dust storms are likeliest now"
)
_IN_THE_NORTH: Final = "{season} in the north"
# By whether it lies east, and whether the Moon waxes.
_TERMINATORS: Final = {
    (True, True): "at {longitude} east, the Sun rises there (colongitude {colongitude})",
    (True, False): "at {longitude} east, the Sun sets there (colongitude {colongitude})",
    (False, True): "at {longitude} west, the Sun rises there (colongitude {colongitude})",
    (False, False): "at {longitude} west, the Sun sets there (colongitude {colongitude})",
}
_DAY_MEETS_NIGHT: Final = "day meets night {place}"
_COLOURS: Final = "The air spreads its colours by {spread} ({blue_nm} to {red_nm} nm), blue up, red down."
_COLOURS_LIMIT: Final = (
    "The air spreads its colours by {spread} ({blue_nm} to {red_nm} nm), blue up, red down. "
    "At this height that, more than telescope and air, is what hides detail."
)
_HEADING: Final = "{planet} at {time}, {day}"
_AT_ITS_HIGHEST: Final = "The figures are those of the moment at which it stands highest."
_NOT_UP: Final = "It is below the horizon at this time."
_STANDS_TOO_LOW: Final = "It stands {height} high in the {compass}: too low to look."
_STANDS: Final = "It stands {height} high in the {compass}, {path} times the air overhead."
_FACT: Final = "{label}: {words}."
_SIZE: Final = "{planet}: {size}"
_NO_APPEARANCE: Final = (
    "Choose a site and a planet, and this page shows how the planet looks in the telescope."
)
_REFUSED: Final = "{reason}."
_TOO_LOW: Final = "It stands too low for a picture: no one can say what that much air does."
_MOON: Final = "{moon}"
_MOON_ON_DISC: Final = "{moon} (on the disc)"
_MOON_BEHIND: Final = "{moon} (behind)"
_MOON_IN_SHADOW: Final = "{moon} (in shadow)"


def heading_words(appearance: PlanetAppearance, clock: SiteClock) -> str:
    """Return what is told of, and when: ``Saturn at 20:09, Sat 5 December 2026``; or that nothing is."""
    if appearance.aim.at is None:
        return _NOT_OFFERED.format(
            planet=opening(appearance.planet), evening=weekday_text(appearance.evening)
        )
    return _HEADING.format(
        planet=opening(appearance.planet),
        time=clock.time(appearance.time),
        day=weekday_text(clock.day(appearance.time)),
    )


def standing_words(appearance: PlanetAppearance) -> str:
    """Return where the planet stands and through how much air, as a sentence."""
    position = appearance.position
    if appearance.aim.at is None:
        return _AT_ITS_HIGHEST
    if position.altitude_deg < 0.0:
        return _NOT_UP
    template = _STANDS_TOO_LOW if position.path is None else _STANDS
    return template.format(
        height=altitude_text(position.altitude_deg),
        compass=compass_text(position.azimuth_deg),
        path="" if position.path is None else path_text(position.path),
    )


def paragraphs(appearance: PlanetAppearance, clock: SiteClock) -> Iterator[str]:
    """Yield all that is known of it, a fact or a sentence each; the telescope's view is left out."""
    yield from (_CAUTION.format(caution=caution) for caution in aim_notices(appearance.aim))
    yield from (
        _FACT.format(label=capitalised(label), words=words) for label, words in facts(appearance.subject)
    )
    yield from happening_words(appearance.planet, appearance.happenings, clock)
    yield from filter(None, [air_words(appearance)])


def facts(subject: Subject) -> Iterator[tuple[str, str]]:
    """Yield what there is to know of the disc and of all that belongs to it: a label and its words."""
    disc = subject.disc
    yield "disc", _disc_words(disc)
    yield "brightness", _magnitude_words(disc)
    from_sun = _EAST_OF_SUN if disc.east_of_sun else _WEST_OF_SUN
    yield "from the Sun", from_sun.format(angle=angle_text(disc.elongation_deg))
    if disc.illuminated_fraction < _ALL_LIT:
        yield "lit side", _LIT_SIDE.format(angle=azimuth_text(disc.bright_limb_angle_deg))
    if disc.body is not Body.MOON:
        yield "axis", _AXIS.format(angle=azimuth_text(disc.pole_angle_deg), tilt=_tilt_words(disc))
    if disc.central_meridians:
        yield "central meridian", _meridian_words(disc.central_meridians)
    if subject.ring is not None:
        yield "ring", _ring_words(subject.ring)
    if subject.season is not None:
        yield "season", _season_words(subject.season)
    if subject.phase is not None:
        yield "phase", subject.phase.name.value
        yield "day meets night", _terminator_words(subject.phase)
    if subject.moons:
        yield "moons, east to west", _moons_words(subject.moons)


def brief_words(appearance: PlanetAppearance, clock: SiteClock, *, is_named: bool = True) -> str:
    """Return the looks in a line: size, phase, brightness, what faces us, and what comes next.

    ``is_named`` is False under a heading that names the planet.
    """
    disc, subject = appearance.subject.disc, appearance.subject
    size = _size_words(disc)
    parts = [_SIZE.format(planet=appearance.planet.heading, size=size) if is_named else size]
    if disc.illuminated_fraction < _ALL_LIT_BRIEFLY:
        parts.append(_LIT.format(lit=percent_text(disc.illuminated_fraction)))
    parts.append(_magnitude_words(disc))
    if subject.phase is not None:
        parts += [subject.phase.name.value, _DAY_MEETS_NIGHT.format(place=_terminator_words(subject.phase))]
    if subject.ring is not None:
        parts.append(_RING_OPEN.format(opening=angle_text(abs(subject.ring.opening_deg), 1)))
    if disc.central_meridians:
        # Systems I and II are those of what can be seen.
        found = _meridian_words(disc.central_meridians[:2], _MERIDIAN_BRIEFLY)
        parts.append(_CENTRAL_MERIDIAN.format(found=found))
    if subject.season is not None:
        parts += [_tilt_words(disc), _IN_THE_NORTH.format(season=subject.season.northern)]
    return " · ".join([*parts, *next_words(appearance.happenings, appearance.time, clock)])


def no_picture_words(appearance: PlanetAppearance | None) -> str:
    """Return why there is no picture in the eyepiece."""
    if appearance is None:
        return _NO_APPEARANCE
    if not appearance.aim.is_offered:
        return " ".join(
            (_REFUSED.format(reason=no_ceiling_words(appearance.aim)), *aim_notices(appearance.aim))
        )
    ladder = appearance.ladder
    if appearance.position.path is not None and ladder is not None and not ladder.rungs:
        return " ".join(notice_texts(ladder.notices))
    return _TOO_LOW


def _magnitude_words(disc: Disc) -> str:
    return _MAGNITUDE.format(magnitude=rounded_text(disc.magnitude, 1).replace("-", "−"))


def _disc_words(disc: Disc) -> str:
    return _DISC.format(size=_size_words(disc), lit=percent_text(disc.illuminated_fraction))


def _size_words(disc: Disc) -> str:
    wide, high = disc.equatorial_diameter_arcsec, disc.polar_diameter_arcsec
    if wide > _MOON_SIZED_ARCSEC:
        return _WIDE.format(width=disc_size_text(wide))
    if wide - high < _ROUND_WITHIN_ARCSEC:
        return _WIDE.format(width=arcsec_text(wide))
    return _WIDE_AND_HIGH.format(width=arcsec_text(wide), height=arcsec_text(high))


def _tilt_words(disc: Disc) -> str:
    tilt_deg = disc.sub_earth_latitude_planetographic_deg
    template = _NORTH_TOWARDS_US if tilt_deg >= 0.0 else _SOUTH_TOWARDS_US
    return template.format(tilt=angle_text(abs(tilt_deg), 1))


def _meridian_words(meridians: Iterable[CentralMeridian], templates: tuple[str, str] = _MERIDIAN) -> str:
    without_system, with_system = templates
    return ", ".join(
        (with_system if meridian.system else without_system).format(
            system=meridian.system, longitude=azimuth_text(meridian.longitude_deg)
        )
        for meridian in meridians
    )


def _ring_words(ring: Ring) -> str:
    return _RINGS[ring.northern_face_seen, ring.lit_side_seen].format(
        length=arcsec_text(ring.major_axis_arcsec),
        width=arcsec_text(ring.minor_axis_arcsec),
        opening=angle_text(abs(ring.opening_deg), 1),
    )


def _season_words(season: MarsSeason) -> str:
    return (_SEASON_OF_DUST if season.dust_likely else _SEASON).format(
        northern=season.northern,
        southern=season.southern,
        longitude=azimuth_text(season.solar_longitude_deg),
    )


def _terminator_words(phase: MoonPhase) -> str:
    longitude_deg = phase.terminator_longitude_deg
    return _TERMINATORS[longitude_deg >= 0.0, phase.is_waxing].format(
        longitude=angle_text(abs(longitude_deg)),
        colongitude=azimuth_text(phase.colongitude_deg),
    )


def _moons_words(moons: tuple[MoonPosition, ...]) -> str:
    """Return the moons from the eastern side to the western, with Jupiter in its place."""
    places = [(moon.x_radii, _place_words(moon)) for moon in moons]
    return ", ".join(name for _, name in sorted([*places, (0.0, Body.JUPITER.label)]))


def _place_words(moon: MoonPosition) -> str:
    template = _MOON_IN_SHADOW if moon.eclipsed else _MOON
    if moon.in_transit or moon.occulted:
        template = _MOON_ON_DISC if moon.in_transit else _MOON_BEHIND
    return template.format(moon=moon.moon.label)


def air_words(appearance: PlanetAppearance) -> str:
    """Return how far the air parts the colours, and that it is what limits where it is; or nothing."""
    dispersion = appearance.dispersion
    if dispersion is None:
        return ""
    template = _COLOURS_LIMIT if appearance.dispersion_limits else _COLOURS
    told = template.format(
        spread=arcsec_text(dispersion.arcsec),
        blue_nm=rounded_text(dispersion.blue_nm),
        red_nm=rounded_text(dispersion.red_nm),
    )
    return " ".join((told, yellow_filter_text(YELLOW_CUTS))) if dispersion.yellow_helps else told
