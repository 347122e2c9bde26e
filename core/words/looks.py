"""How a planet looks, in words: the same on the screen, in a terminal and on paper."""

from collections.abc import Iterable, Iterator
from datetime import timedelta
from typing import Final

from core.looks.looks import Happenings, Looks
from core.looks.picture.sight import Sight, window_for
from core.looks.picture.turn import DRIFT_ANGLE_DEG, turning_note
from core.sky.bodies import Body
from core.sky.disc import CentralMeridian, Disc
from core.sky.mars_season import MarsSeason
from core.sky.moon_phase import MoonPhase
from core.sky.moons import MoonEvent, MoonEventKind, MoonPosition
from core.sky.red_spot import WELL_PLACED_MINUTES, RedSpotPasses
from core.sky.ring import Ring
from core.words.dates import date_text, weekday_text
from core.words.names import listed, opening
from core.words.quantities import power_text
from core.words.site_clock import SiteClock
from core.words.sizes import against_moon, apparent_size_text, arcsec_text

_ALL_LIT: Final = 0.995
_ALL_LIT_BRIEFLY: Final = 0.985
_WELL_PLACED: Final = timedelta(minutes=WELL_PLACED_MINUTES)
_EVENT_WORDS: Final = {
    MoonEventKind.TRANSIT: "crosses the disc",
    MoonEventKind.SHADOW_TRANSIT: "its shadow crosses the disc",
    MoonEventKind.OCCULTATION: "is behind Jupiter",
    MoonEventKind.ECLIPSE: "is in Jupiter's shadow",
}

_BRIEF_EVENT_WORDS: Final = {
    MoonEventKind.TRANSIT: "{} on the disc",
    MoonEventKind.SHADOW_TRANSIT: "{}'s shadow on the disc",
    MoonEventKind.OCCULTATION: "{} behind",
    MoonEventKind.ECLIPSE: "{} in shadow",
}


def heading_words(looks: Looks, clock: SiteClock) -> str:
    """Return what is told of, and when: ``Saturn at 20:09, Sat 5 December 2026``."""
    return f"{opening(looks.planet)} at {clock.time(looks.time)}, {weekday_text(clock.day(looks.time))}"


def paragraphs(looks: Looks, clock: SiteClock) -> Iterator[str]:
    """Yield all that is known of the looks, a fact or a sentence each; the telescope's view is left out."""
    if looks.caution is not None:
        yield f"Caution: {looks.caution}"
    yield from (f"{label[0].upper()}{label[1:]}: {words}." for label, words in facts(looks))
    yield from happening_words(looks.planet, looks.happenings, clock)
    yield from filter(None, [air_words(looks)])


def facts(looks: Looks) -> Iterator[tuple[str, str]]:
    """Yield what there is to know of the disc and of all that belongs to it: a label and its words."""
    disc, subject = looks.subject.disc, looks.subject
    yield "disc", _disc_words(disc)
    yield "brightness", _magnitude_words(disc)
    yield "from the Sun", f"{disc.elongation_deg:.0f}° {'east' if disc.east_of_sun else 'west'}"
    if disc.illuminated_fraction < _ALL_LIT:
        yield "lit side", f"faces position angle {disc.bright_limb_angle_deg:.0f}°"
    if looks.planet is not Body.MOON:
        yield "axis", f"position angle {disc.pole_angle_deg:.0f}°, {_tilt_words(disc)}"
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


def brief_words(looks: Looks, clock: SiteClock) -> str:
    """Return the looks in a line: size, phase, brightness, what faces us, and what comes next."""
    disc, subject = looks.subject.disc, looks.subject
    parts = [f"{looks.planet.heading}: {_size_words(disc)}"]
    if disc.illuminated_fraction < _ALL_LIT_BRIEFLY:
        parts.append(f"{disc.illuminated_fraction:.0%} lit")
    parts.append(_magnitude_words(disc))
    if subject.phase is not None:
        parts += [subject.phase.name.value, f"day meets night {_terminator_words(subject.phase)}"]
    if subject.ring is not None:
        parts.append(f"ring {abs(subject.ring.opening_deg):.1f}° open")
    if disc.central_meridians:
        # Systems I and II are those of what can be seen.
        parts.append(f"central meridian {_meridian_words(disc.central_meridians[:2])}".replace("system ", ""))
    if subject.season is not None:
        parts += [_tilt_words(disc), f"{subject.season.northern} in the north"]
    return " · ".join([*parts, *_next_words(looks, clock)])


def _next_words(looks: Looks, clock: SiteClock) -> Iterator[str]:
    """Yield what goes on or comes next at the time of the looks: with the moons, and with the red spot."""
    to_come = [event for event in looks.happenings.events_to_see if event.end > looks.time]
    under_way = sum(event.start <= looks.time for event in to_come)
    for event in to_come[: under_way + 1]:
        words = _BRIEF_EVENT_WORDS[event.kind].format(event.moon.label)
        yield f"{words} {clock.span(event.start, event.end)}"
    spot = looks.happenings.red_spot
    if spot is None:
        return
    passing = next((time for time in spot.times if time + _WELL_PLACED > looks.time), None)
    if passing is not None:
        old = " (old longitude)" if spot.is_old else ""
        yield f"red spot in the middle {clock.time(passing)}{old}"


def no_picture_words(looks: Looks | None) -> str:
    """Return why there is no picture in the eyepiece."""
    if looks is None:
        return "Choose a site and a planet: then this page shows how the planet looks in the telescope."
    return looks.caution or "It stands too low for a picture: no one can say what that much air does."


def size_words(sight: Sight) -> str:
    """Return how large a body looks at a power, against the Moon that everybody knows."""
    size = f"{apparent_size_text(sight.apparent_diameter_arcmin)} across"
    if sight.subject.ring is not None:
        size += f" (with its ring {apparent_size_text(sight.apparent_extent_deg * 60.0)})"
    known = against_moon(sight.apparent_diameter_arcmin)
    return f"At {power_text(sight.power)} {sight.subject.disc.body.label} looks {size}, {known}."


def close_up_words(sight: Sight) -> str:
    """Return which part the enlarged picture shows, where a body is too wide to be shown whole."""
    if sight.apparent_extent_deg <= window_for(sight.subject, sight.power):
        return ""
    return "Enlarged is a part of it, where day meets night."


def turning_words(sight: Sight) -> str:
    """Return how the telescope turns the view, which way is north, and which way it drifts."""
    north, drift = sight.turn.clock_hour(0.0), sight.turn.clock_hour(DRIFT_ANGLE_DEG)
    drifts = "" if sight.scope.driven else f"; it drifts towards {drift} o'clock"
    turned = f"Seen {sight.turn.turning.words}, north at {north} o'clock{drifts}."
    return " ".join(filter(None, (turned, turning_note(sight.scope))))


def _magnitude_words(disc: Disc) -> str:
    return f"magnitude {disc.magnitude:.1f}".replace("-", "−")


def _disc_words(disc: Disc) -> str:
    return f"{_size_words(disc)}, {disc.illuminated_fraction:.0%} lit"


def _size_words(disc: Disc) -> str:
    wide, high = disc.equatorial_diameter_arcsec, disc.polar_diameter_arcsec
    if wide > 300.0:
        return f"{wide / 60.0:.1f}′ wide"
    if wide - high < 0.05:
        return f"{arcsec_text(wide)} wide"
    return f"{arcsec_text(wide)} wide, {arcsec_text(high)} high"


def _tilt_words(disc: Disc) -> str:
    tilt = disc.sub_earth_latitude_planetographic_deg
    return f"{'north' if tilt >= 0.0 else 'south'} pole {abs(tilt):.1f}° towards us"


def _meridian_words(meridians: Iterable[CentralMeridian]) -> str:
    found = (
        f"{f'system {meridian.system} ' if meridian.system else ''}{meridian.longitude_deg:.0f}°"
        for meridian in meridians
    )
    return ", ".join(found)


def _ring_words(ring: Ring) -> str:
    face = "northern" if ring.northern_face_seen else "southern"
    lit = "" if ring.lit_side_seen else ", unlit"
    size = f"{arcsec_text(ring.major_axis_arcsec)} by {arcsec_text(ring.minor_axis_arcsec)}"
    return f"{size}, {abs(ring.opening_deg):.1f}° open, {face} face{lit}"


def _season_words(season: MarsSeason) -> str:
    dust = "; dust storms are likeliest now" if season.dust_likely else ""
    longitude = f"Ls {season.solar_longitude_deg:.0f}°"
    return f"{season.northern} in the north, {season.southern} in the south ({longitude}){dust}"


def _terminator_words(phase: MoonPhase) -> str:
    longitude = phase.terminator_longitude_deg
    side = "east" if longitude >= 0.0 else "west"
    turn = "the Sun rises there" if phase.is_waxing else "the Sun sets there"
    return f"at {abs(longitude):.0f}° {side}, {turn} (colongitude {phase.colongitude_deg:.0f}°)"


def _moons_words(moons: tuple[MoonPosition, ...]) -> str:
    """Return the moons from the eastern side to the western, with Jupiter in its place."""
    places = [(moon.x_radii, f"{moon.moon.label}{_state_words(moon)}") for moon in moons]
    return ", ".join(name for _, name in sorted([*places, (0.0, "Jupiter")]))


def _state_words(moon: MoonPosition) -> str:
    if moon.in_transit:
        return " (on the disc)"
    if moon.occulted:
        return " (behind)"
    return " (in shadow)" if moon.eclipsed else ""


def happening_words(planet: Body, happenings: Happenings, clock: SiteClock) -> Iterator[str]:
    """Yield what happens on a planet this evening, a sentence each; nothing for all but Jupiter."""
    if planet is not Body.JUPITER:
        return
    if not happenings.events_to_see:
        yield "The moons neither cross nor leave the disc while Jupiter is well placed."
    for event in happenings.events_to_see:
        yield _event_words(event, clock)
    if happenings.red_spot is not None:
        yield _red_spot_words(happenings.red_spot, clock)
        if happenings.red_spot.warning is not None:
            yield happenings.red_spot.warning


def _event_words(event: MoonEvent, clock: SiteClock) -> str:
    unseen = [name for name, seen in (("start", event.start_seen), ("end", event.end_seen)) if not seen]
    hidden = f" (its {listed(unseen)} cannot be seen)" if unseen else ""
    when = clock.span(event.start, event.end)
    return f"{when}  {event.moon.label}: {_EVENT_WORDS[event.kind]}{hidden}"


def _red_spot_words(spot: RedSpotPasses, clock: SiteClock) -> str:
    times = listed([clock.time(time) for time in spot.times]) if spot.times else "not this evening"
    return (
        f"The red spot is in the middle at {times}, and well placed for {WELL_PLACED_MINUTES} minutes either"
        f" side (System II longitude {spot.longitude_deg:.0f}° on {date_text(spot.measured_on)})."
    )


def air_words(looks: Looks) -> str:
    """Return how far the air parts the colours, and that it is what limits where it is; or nothing."""
    dispersion = looks.dispersion
    if dispersion is None:
        return ""
    band = f"{dispersion.blue_nm:.0f} to {dispersion.red_nm:.0f} nm"
    words = f"The air parts its colours by {arcsec_text(dispersion.arcsec)} ({band}), blue up, red down."
    if looks.dispersion_limits:
        words += " At this height that, more than telescope and air, is what hides detail."
    return words
