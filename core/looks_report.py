"""How a planet looks, as plain text for a terminal of 80 columns."""

from collections.abc import Iterator, Sequence
from typing import Final

from core.expectation import arcsec_text
from core.kit.rounding import field_text, power_text
from core.looks import Looks
from core.picture.known_sizes import angle_text, moons_text
from core.picture.sight import Sight
from core.picture.turn import DRIFT_ANGLE_DEG, turning_note
from core.sky.bodies import Body
from core.sky.disc import Disc
from core.sky.mars_season import MarsSeason
from core.sky.moon_phase import MoonPhase
from core.sky.moons import MoonEvent, MoonEventKind, MoonPosition
from core.sky.red_spot import WELL_PLACED_MINUTES, RedSpotPasses
from core.sky.ring import Ring
from core.terminal import WIDTH, columns, cut, printable, width_of, wrapped
from core.wording import SiteClock, altitude_text, compass_text, date_text, listed, opening, weekday_text

_LONGEST_NAME: Final = 28
_ALL_LIT: Final = 0.995
_EVENT_WORDS: Final = {
    MoonEventKind.TRANSIT: "crosses the disc",
    MoonEventKind.SHADOW_TRANSIT: "its shadow crosses the disc",
    MoonEventKind.OCCULTATION: "is behind Jupiter",
    MoonEventKind.ECLIPSE: "is in Jupiter's shadow",
}


def looks_text(looks: Looks, *, clock: int = 24, width: int = WIDTH) -> str:
    """Return a planet's looks as text: the disc, what happens on it, the view, and what to expect."""
    site_clock = SiteClock(zone=looks.site.zone, hours=clock)
    lines = [*_heading(looks, site_clock, width), ""]
    lines += _beside(list(_facts(looks)), width)
    paragraphs = [*_happenings(looks, site_clock), *_air(looks)]
    for paragraph in paragraphs:
        lines += wrapped(paragraph, width, indent="  ")
    lines += [*_view(looks, width), *_expectations(looks, width)]
    return "\n".join(lines)


def _beside(rows: Sequence[tuple[str, str]], width: int) -> Iterator[str]:
    """Yield labels with their words beside them, wrapped under themselves."""
    offset = max(width_of(label) for label, _ in rows) + 2
    for label, words in rows:
        first, *more = wrapped(words, width - offset)
        yield label.ljust(offset) + first
        yield from (" " * offset + line for line in more)


def _heading(looks: Looks, clock: SiteClock, width: int) -> Iterator[str]:
    place = cut(printable(looks.site.name), _LONGEST_NAME)
    when = f"{clock.time(looks.time)}, {weekday_text(clock.day(looks.time))}"
    yield from wrapped(f"{opening(looks.planet)} at {when}, {place}", width)
    height = altitude_text(looks.position.altitude_deg)
    if looks.position.altitude_deg < 0.0:
        yield "It is below the horizon at this time."
    elif looks.position.path is None:
        yield f"It stands {height} high in the {compass_text(looks.position.azimuth_deg)}: too low to look."
    else:
        path = f"{looks.position.path:.2f} times the air overhead"
        yield f"It stands {height} high in the {compass_text(looks.position.azimuth_deg)}, {path}."
    if looks.caution is not None:
        yield from wrapped(f"Caution: {looks.caution}", width)


def _facts(looks: Looks) -> Iterator[tuple[str, str]]:
    disc, subject = looks.subject.disc, looks.subject
    yield "disc", _disc_words(disc)
    yield "brightness", f"magnitude {disc.magnitude:.1f}"
    yield "from the Sun", f"{disc.elongation_deg:.0f}° {'east' if disc.east_of_sun else 'west'}"
    if disc.illuminated_fraction < _ALL_LIT:
        yield "lit side", f"faces position angle {disc.bright_limb_angle_deg:.0f}°"
    tilt = disc.sub_earth_latitude_planetographic_deg
    if looks.planet is not Body.MOON:
        towards = "north" if tilt >= 0.0 else "south"
        yield "axis", f"position angle {disc.pole_angle_deg:.0f}°, {towards} pole {abs(tilt):.1f}° towards us"
    if disc.central_meridians:
        yield "central meridian", _meridian_words(disc)
    if subject.ring is not None:
        yield "ring", _ring_words(subject.ring)
    if subject.season is not None:
        yield "season", _season_words(subject.season)
    if subject.phase is not None:
        yield "phase", subject.phase.name.value
        yield "day meets night", _terminator_words(subject.phase)
    if subject.moons:
        yield "moons, east to west", _moons_words(subject.moons)


def _disc_words(disc: Disc) -> str:
    wide, high = disc.equatorial_diameter_arcsec, disc.polar_diameter_arcsec
    if wide > 300.0:
        size = f"{wide / 60.0:.1f}′ wide"
    elif wide - high < 0.05:
        size = f"{arcsec_text(wide)} wide"
    else:
        size = f"{arcsec_text(wide)} wide, {arcsec_text(high)} high"
    return f"{size}, {disc.illuminated_fraction:.0%} lit"


def _meridian_words(disc: Disc) -> str:
    found = (
        f"{f'system {meridian.system} ' if meridian.system else ''}{meridian.longitude_deg:.0f}°"
        for meridian in disc.central_meridians
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


def _happenings(looks: Looks, clock: SiteClock) -> Iterator[str]:
    if looks.planet is not Body.JUPITER:
        return
    yield ""
    if not looks.events_to_see:
        yield "The moons neither cross nor leave the disc while Jupiter is well placed."
    for event in looks.events_to_see:
        yield _event_words(event, clock)
    if looks.red_spot is not None:
        yield _red_spot_words(looks.red_spot, clock)
        if looks.red_spot.warning is not None:
            yield looks.red_spot.warning


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


def _air(looks: Looks) -> Iterator[str]:
    dispersion = looks.dispersion
    if dispersion is None:
        return
    yield ""
    band = f"{dispersion.blue_nm:.0f} to {dispersion.red_nm:.0f} nm"
    words = f"The air parts its colours by {arcsec_text(dispersion.arcsec)} ({band}), blue up, red down."
    if looks.dispersion_limits:
        words += " At this height that, more than telescope and air, is what hides detail."
    yield words


def _view(looks: Looks, width: int) -> Iterator[str]:
    if looks.ladder is None or not looks.sights:
        return
    first = looks.sights[0]
    yield ""
    name = cut(printable(looks.ladder.scope.name), _LONGEST_NAME)
    north, drift = first.turn.clock_hour(0.0), first.turn.clock_hour(DRIFT_ANGLE_DEG)
    drifts = "" if first.scope.driven else f"; it drifts towards {drift} o'clock"
    turned = f"Through {name}: seen {first.turn.turning.words}, north at {north} o'clock{drifts}."
    yield from wrapped(" ".join(filter(None, (turned, turning_note(first.scope)))), width)
    rows = [("power", "field", "looks", "naked-eye Moons wide"), *map(_rung, looks.sights)]
    yield from (cut(line, width) for line in columns(rows, right=(0, 1, 2, 3)))


def _rung(sight: Sight) -> tuple[str, str, str, str]:
    field = "?" if sight.true_field_deg is None else field_text(sight.true_field_deg)
    if sight.overfills:
        return power_text(sight.power), field, "fills it", ""
    size = angle_text(sight.apparent_diameter_arcmin)
    return power_text(sight.power), field, size, moons_text(sight.apparent_diameter_arcmin)


def _expectations(looks: Looks, width: int) -> Iterator[str]:
    if not looks.expectations:
        return
    yield ""
    yield "What to look for (an estimate)"
    for item in looks.expectations:
        yield from wrapped(f"{item.chance.value:<9} {item.what}: {item.why}.", width, indent=" " * 10)
