"""How a planet looks as a plain dictionary for JSON.

::

    {"schema":1, "planet":"jupiter", "at":t|null, "evening":"2026-12-05", "site":{"id","name"},
     "altitude_deg":n|null, "azimuth_deg":n|null, "path":n|null, "caution":"words"|null,
     "finding":{"constellation","from":[{"what","angle_deg":n,"bearing_deg":n}],"disc_from_power":n|null}|null,
     "disc":{"equatorial_diameter_arcsec":n,"polar_diameter_arcsec":n,"distance_au":n,"sun_distance_au":n,
             "phase_angle_deg":n,"illuminated_fraction":n,"bright_limb_angle_deg":n,"pole_angle_deg":n,
             "elongation_deg":n,"east_of_sun":true,"magnitude":n,
             "sub_earth_latitude_planetocentric_deg":n,"sub_earth_latitude_planetographic_deg":n,
             "sub_solar_latitude_planetocentric_deg":n,"sub_solar_latitude_planetographic_deg":n,
             "central_meridians":[{"system":"I"|null,"west_longitude_deg":n}]},
     "ring":{"opening_deg":n,"sun_latitude_deg":n,"major_axis_arcsec":n,"minor_axis_arcsec":n,
             "gap_width_arcsec":n,"lit_side_seen":true}|null,
     "mars_season":{"solar_longitude_deg":n,"northern","southern","dust_likely":false}|null,
     "moon_phase":{"name","ahead_of_sun_deg":n,"colongitude_deg":n,"terminator_east_longitude_deg":n,
                   "libration_longitude_deg":n,"libration_latitude_deg":n}|null,
     "moons":[{"moon":"io","x_west_radii":n,"y_north_radii":n,"z_towards_radii":n,"in_transit":false,
               "occulted":false,"eclipsed":false,"shadow_x_west_radii":n|null,"shadow_y_north_radii":n|null}],
     "moon_events":[{"moon":"io","kind":"transit|shadow_transit|occultation|eclipse","start":t,"end":t,
                     "start_seen":true,"end_seen":true,"well_placed":true}],     # of the whole evening
     "red_spot":{"longitude_deg":n,"on":"2026-11-01","passes":[t],"next":t|null,
                 "uncertain_by_minutes":n,"warning":"words"|null}|null,
     "dispersion":{"arcsec":n,"blue_nm":n,"red_nm":n,"is_limit":false,"yellow_filter_cuts":n|null}|null,
     "scope":{"id","name"}|null, "blur":{"overhead_arcsec":n,"source"}|null,
     "view":{"turning":"erect|upside_down|mirrored","note":"words"|null,"north_at_clock":n,
             "drift_at_clock":n|null}|null,
     "rungs":[{"power":n,"true_field_deg":n|null,"apparent_diameter_arcmin":n,"apparent_size":"words",
               "overfills":false|null}],
     "judged_at":{"power":n,"finest_detail_arcsec":n}|null,
     "expectations":[{"what":"words","size_arcsec":n|null,"chance":"likely|possible|unlikely","probability":n,
                      "why":"words","from_power":n|null}],
     "filters":{"power":n,"by_aim":[{"aim":"belts","filters":[{"id","name",
                "offer":"offered|usually_larger_aperture|too_dark","light_trolands":n,"usually_from_mm":n|null,
                "enough_up_to":n}]}],"words":["words"]}|null,
     "limits":["words"]}                                     # what the picture in the eyepiece leaves out

Altitudes are geometric; position angles run from celestial north through east; longitudes of the discs are
west. Where nothing is offered, what needs a moment or a direction is null. A landmark's bearing is clockwise
from straight up as one faces it. Places of moons are in radii of Jupiter. A moon's event is ``well_placed``
inside a window, and only such passages of the red spot are told, else the next one. ``is_limit`` says that
colours parted by the air hide more than telescope and air do; ``yellow_filter_cuts`` is the share that a
yellow filter takes of that. Directions of the view are hours of a clock's face.
"""

from core.air.dispersion import YELLOW_CUTS
from core.export.parts import SCHEMA, JsonObject, number, scope_json, time_json
from core.ladder.ladder import Ladder
from core.looks.filter_offers import FilterOffers
from core.looks.finding import Finding
from core.looks.picture.sight import Sight
from core.looks.picture.subject import Subject
from core.looks.picture.turn import DRIFT_ANGLE_DEG
from core.looks.planet_appearance import PlanetAppearance
from core.sky.disc import Disc
from core.sky.moons import MoonEvent, MoonPosition
from core.sky.red_spot import RedSpotPasses
from core.sky.stars import Star
from core.words.aim import aim_notices
from core.words.eyepiece import PICTURE_LIMITS, turning_note
from core.words.filters import filter_sentences
from core.words.happenings import old_longitude_warning
from core.words.looking_for import feature_text, ground_text
from core.words.sizes import against_moon


def looks_json(
    appearance: PlanetAppearance, *, filters: FilterOffers | None = None, finding: Finding | None = None
) -> JsonObject:
    """Return a planet's appearance: the disc and all on it, what a telescope makes of it, what to expect.

    ``filters`` are what the owner's filters are good for, ``finding`` how the planet is found.
    """
    ladder = appearance.ladder
    # Without a moment to offer there is no direction to look in either.
    position = None if appearance.aim.at is None else appearance.position
    to_see = appearance.happenings.events_to_see
    return {
        "schema": SCHEMA,
        "planet": appearance.planet.value,
        "at": None if position is None else time_json(appearance.time),
        "evening": appearance.evening.isoformat(),
        "site": {"id": appearance.site.id, "name": appearance.site.name},
        "altitude_deg": None if position is None else number(position.altitude_deg),
        "azimuth_deg": None if position is None else number(position.azimuth_deg),
        "path": None if position is None else number(position.path),
        "caution": " ".join(aim_notices(appearance.aim)) or None,
        "finding": _finding(finding),
        "disc": _disc(appearance.subject.disc),
        **_belongings(appearance.subject),
        "moons": [_moon(moon) for moon in appearance.subject.moons],
        "moon_events": [_event(event, well_placed=event in to_see) for event in appearance.happenings.events],
        "red_spot": _red_spot(appearance.happenings.red_spot),
        "dispersion": None if position is None else _dispersion(appearance),
        "scope": scope_json(None if ladder is None else ladder.scope),
        "blur": _blur(ladder),
        "view": _view(appearance.sights),
        "rungs": [_rung(sight) for sight in appearance.sights],
        "expectations": [
            {
                "what": feature_text(item),
                "size_arcsec": number(item.size_arcsec),
                "chance": item.likelihood.name.lower(),
                "probability": number(item.probability),
                "why": ground_text(item),
                "from_power": number(item.looks_full_from),
            }
            for item in appearance.expectations
        ],
        "judged_at": _judged(appearance),
        "filters": _filters(filters),
        "limits": list(PICTURE_LIMITS),
    }


def _filters(offers: FilterOffers | None) -> JsonObject | None:
    """Return the owner's filters by what they are to help with, the one to try first at the front."""
    if offers is None or not offers.owned:
        return None
    return {
        "power": number(offers.power),
        "by_aim": [
            {
                "aim": group.aim.value,
                "filters": [
                    {
                        "id": each.filter.id,
                        "name": each.filter.name,
                        "offer": each.offer.name.lower(),
                        "light_trolands": number(each.light_trolands),
                        "usually_from_mm": number(each.smallest_aperture_mm or None),
                        "enough_up_to": number(each.enough_up_to),
                    }
                    for each in group.offers
                ],
            }
            for group in offers.by_aim
        ],
        "words": list(filter_sentences(offers)),
    }


def _finding(finding: Finding | None) -> JsonObject | None:
    if finding is None:
        return None
    return {
        "constellation": finding.constellation,
        "from": [
            {
                "what": landmark.what.label if isinstance(landmark.what, Star) else landmark.what.value,
                "angle_deg": number(landmark.angle_deg),
                "bearing_deg": number(landmark.bearing_deg),
            }
            for landmark in finding.landmarks
        ],
        "disc_from_power": None if finding.disc_from is None else number(finding.disc_from.power),
    }


def _disc(disc: Disc) -> JsonObject:
    return {
        "equatorial_diameter_arcsec": number(disc.equatorial_diameter_arcsec),
        "polar_diameter_arcsec": number(disc.polar_diameter_arcsec),
        "distance_au": number(disc.distance_au),
        "sun_distance_au": number(disc.sun_distance_au),
        "phase_angle_deg": number(disc.phase_angle_deg),
        "illuminated_fraction": number(disc.illuminated_fraction),
        "bright_limb_angle_deg": number(disc.bright_limb_angle_deg),
        "pole_angle_deg": number(disc.pole_angle_deg),
        "elongation_deg": number(disc.elongation_deg),
        "east_of_sun": disc.east_of_sun,
        "magnitude": number(disc.magnitude),
        "sub_earth_latitude_planetocentric_deg": number(disc.sub_earth_latitude_planetocentric_deg),
        "sub_earth_latitude_planetographic_deg": number(disc.sub_earth_latitude_planetographic_deg),
        "sub_solar_latitude_planetocentric_deg": number(disc.sub_solar_latitude_planetocentric_deg),
        "sub_solar_latitude_planetographic_deg": number(disc.sub_solar_latitude_planetographic_deg),
        "central_meridians": [
            {"system": meridian.system or None, "west_longitude_deg": number(meridian.longitude_deg)}
            for meridian in disc.central_meridians
        ],
    }


def _belongings(subject: Subject) -> JsonObject:
    """Return what only one body has, None for all others."""
    ring, season, phase = subject.ring, subject.season, subject.phase
    return {
        "ring": None
        if ring is None
        else {
            "opening_deg": number(ring.opening_deg),
            "sun_latitude_deg": number(ring.sun_latitude_deg),
            "major_axis_arcsec": number(ring.major_axis_arcsec),
            "minor_axis_arcsec": number(ring.minor_axis_arcsec),
            "gap_width_arcsec": number(ring.gap_width_arcsec),
            "lit_side_seen": ring.lit_side_seen,
        },
        "mars_season": None
        if season is None
        else {
            "solar_longitude_deg": number(season.solar_longitude_deg),
            "northern": season.northern,
            "southern": season.southern,
            "dust_likely": season.dust_likely,
        },
        "moon_phase": None
        if phase is None
        else {
            "name": phase.name.value,
            "ahead_of_sun_deg": number(phase.ahead_of_sun_deg),
            "colongitude_deg": number(phase.colongitude_deg),
            "terminator_east_longitude_deg": number(phase.terminator_longitude_deg),
            "libration_longitude_deg": number(phase.libration_longitude_deg),
            "libration_latitude_deg": number(phase.libration_latitude_deg),
        },
    }


def _moon(moon: MoonPosition) -> JsonObject:
    return {
        "moon": moon.moon.value,
        "x_west_radii": number(moon.x_radii),
        "y_north_radii": number(moon.y_radii),
        "z_towards_radii": number(moon.z_radii),
        "in_transit": moon.in_transit,
        "occulted": moon.occulted,
        "eclipsed": moon.eclipsed,
        "shadow_x_west_radii": number(moon.shadow_x_radii),
        "shadow_y_north_radii": number(moon.shadow_y_radii),
    }


def _event(event: MoonEvent, *, well_placed: bool) -> JsonObject:
    return {
        "moon": event.moon.value,
        "kind": event.kind.value,
        "start": time_json(event.start),
        "end": time_json(event.end),
        "start_seen": event.start_seen,
        "end_seen": event.end_seen,
        "well_placed": well_placed,
    }


def _red_spot(spot: RedSpotPasses | None) -> JsonObject | None:
    if spot is None:
        return None
    return {
        "longitude_deg": number(spot.longitude_deg),
        "on": spot.measured_on.isoformat(),
        "passes": [time_json(time) for time in spot.times],
        "next": time_json(spot.next_seen),
        "uncertain_by_minutes": spot.uncertain_by_minutes,
        "warning": old_longitude_warning(spot),
    }


def _dispersion(appearance: PlanetAppearance) -> JsonObject | None:
    if appearance.dispersion is None:
        return None
    return {
        "arcsec": number(appearance.dispersion.arcsec),
        "blue_nm": number(appearance.dispersion.blue_nm),
        "red_nm": number(appearance.dispersion.red_nm),
        "is_limit": appearance.dispersion_limits,
        "yellow_filter_cuts": YELLOW_CUTS if appearance.dispersion.yellow_helps else None,
    }


def _blur(ladder: Ladder | None) -> JsonObject | None:
    if ladder is None:
        return None
    return {"overhead_arcsec": number(ladder.blur.overhead_arcsec), "source": ladder.blur.source.value}


def _judged(appearance: PlanetAppearance) -> JsonObject | None:
    """Return the power and the finest detail by which the expectations are judged."""
    if not appearance.expectations:
        return None
    seen = appearance.expectations[0].seen
    return {"power": number(seen.power), "finest_detail_arcsec": number(seen.finest_arcsec)}


def _view(sights: tuple[Sight, ...]) -> JsonObject | None:
    """Return how the telescope turns the view; directions are hours on a clock's face."""
    if not sights:
        return None
    turn = sights[0].turn
    return {
        "turning": turn.turning.value,
        "note": turning_note(sights[0].scope),
        "north_at_clock": turn.clock_hour(0.0),
        "drift_at_clock": None if sights[0].scope.driven else turn.clock_hour(DRIFT_ANGLE_DEG),
    }


def _rung(sight: Sight) -> JsonObject:
    return {
        "power": number(sight.power),
        "true_field_deg": number(sight.true_field_deg),
        "apparent_diameter_arcmin": number(sight.apparent_diameter_arcmin),
        "apparent_size": against_moon(sight.apparent_diameter_arcmin),
        "overfills": sight.overfills,
    }
