"""How a planet looks, as one value, as JSON and as text."""

import json
from datetime import UTC, date, datetime, timedelta

import attrs
import pytest

from core.air.blur import Blur
from core.export.looks import looks_json
from core.gear.owned import Barlow, Diagonal, Eyepiece, Telescope, TelescopeKind
from core.ladder.ladder import Ladder, build_ladder
from core.looks.happenings import find_happenings
from core.looks.planet_appearance import PlanetAppearance
from core.moments.spot_seen import spot_passes_seen
from core.record.observer import RedSpot
from core.report.looks import looks_text
from core.sky.bodies import TARGETS, Body
from core.sky.night import Night, compute_night
from core.sky.site import Site
from core.words.aim import aim_notices
from core.words.happenings import old_longitude_warning
from tests.core.telling import appearance_of, best_aim

SITE = Site(
    id="terrace",
    name="Back terrace",
    latitude_deg=41.15,
    longitude_deg=-8.61,
    elevation_m=90,
    time_zone="Europe/Lisbon",
)
SCOPE = Telescope(
    id="six",
    name="Six-inch",
    kind=TelescopeKind.REFLECTOR,
    aperture_mm=150,
    focal_length_mm=1200,
    obstruction_mm=35,
)
EYEPIECES = (
    Eyepiece(name="25 mm", focal_length_mm=25, apparent_field_deg=52),
    Eyepiece(name="8 mm", focal_length_mm=8),
)
BARLOWS = (Barlow(name="2x", factor=2),)


@pytest.fixture(scope="module")
def night() -> Night:
    return compute_night(SITE, date(2026, 12, 5))


def ladder_at(
    night: Night, body: Body, at: datetime | None = None, scope: Telescope = SCOPE, blur: float = 1.45
) -> Ladder:
    return build_ladder(
        scope=scope,
        eyepieces=EYEPIECES,
        barlows=BARLOWS,
        aim=best_aim(night, body, at),
        blur=Blur(overhead_arcsec=blur),
    )


def appearance_at(
    night: Night, body: Body, at: datetime | None = None, scope: Telescope = SCOPE
) -> PlanetAppearance:
    return appearance_of(night, body, ladder=ladder_at(night, body, at, scope))


@pytest.mark.parametrize("body", TARGETS)
def test_every_body_can_be_told_as_json_and_as_text(night: Night, body: Body) -> None:
    appearance = appearance_at(night, body)

    told = json.loads(json.dumps(looks_json(appearance), allow_nan=False))
    text = looks_text(appearance)

    assert told["schema"] == 1
    assert told["planet"] == body.value
    assert told["disc"]["equatorial_diameter_arcsec"] >= told["disc"]["polar_diameter_arcsec"] - 1e-9
    assert max(map(len, text.splitlines())) <= 80


def test_json_has_every_key_for_every_body(night: Night) -> None:
    keys = {body: looks_json(appearance_of(night, body)).keys() for body in TARGETS}

    assert len({frozenset(found) for found in keys.values()}) == 1


def test_the_disc_agrees_with_the_evening_s_own_figures(night: Night) -> None:
    body = night.of(Body.SATURN)

    appearance = appearance_of(night, Body.SATURN, at=body.transits[0].time)
    disc = appearance.subject.disc

    assert disc.equatorial_diameter_arcsec == pytest.approx(body.diameter_arcsec, rel=1e-4)
    assert disc.magnitude == pytest.approx(body.magnitude, abs=1e-6)
    assert disc.illuminated_fraction == pytest.approx(body.illuminated_fraction, abs=1e-4)
    assert disc.elongation_deg == pytest.approx(body.elongation_deg, abs=0.02)


def test_without_a_telescope_there_are_facts_but_no_promises(night: Night) -> None:
    appearance = appearance_of(night, Body.JUPITER)
    told = looks_json(appearance)

    assert not appearance.sights
    assert not appearance.expectations
    assert told["scope"] is told["view"] is told["blur"] is None
    assert told["rungs"] == told["expectations"] == []
    assert told["disc"]["magnitude"] < -1.5
    assert "What to look for" not in looks_text(appearance)


def test_moons_are_told_from_east_to_west_around_jupiter(night: Night) -> None:
    appearance = appearance_at(night, Body.JUPITER)
    east_to_west = sorted(
        [*((moon.x_radii, moon.moon.label) for moon in appearance.subject.moons), (0, "Jupiter")]
    )

    line = next(line for line in looks_text(appearance).splitlines() if line.startswith("moons"))

    places = [line.index(name) for _, name in east_to_west]
    assert places == sorted(places)


def test_only_what_happens_in_the_window_is_worth_staying_for(night: Night) -> None:
    appearance = appearance_at(night, Body.JUPITER)
    windows = night.of(Body.JUPITER).windows

    assert set(appearance.happenings.events_to_see) < set(appearance.happenings.events)
    for event in appearance.happenings.events_to_see:
        assert any(event.start < window.end and window.start < event.end for window in windows)
    flags = [event["well_placed"] for event in looks_json(appearance)["moon_events"]]
    assert flags.count(True) == len(appearance.happenings.events_to_see)


def test_the_red_spot_passes_about_every_ten_hours_and_warns_when_old(night: Night) -> None:
    measured = RedSpot(longitude_deg=70, on=date(2026, 11, 1))
    fresh = spot_passes_seen(night, measured)
    old = spot_passes_seen(night, attrs.evolve(measured, on=date(2026, 5, 1)))

    # A turn of System II takes 9 h 55.7 min (WGCCRE 2015: 870.27 degrees a day).
    for first, second in zip(fresh.times, fresh.times[1:], strict=False):
        assert abs(second - first - timedelta(hours=9, minutes=55.7)) < timedelta(minutes=1)
    assert old_longitude_warning(fresh) is None
    assert fresh.times == old.times
    warning = old_longitude_warning(old)
    assert warning is not None
    assert warning.startswith("The red spot's longitude was measured 218 days away")
    assert appearance_of(night, Body.JUPITER).happenings.red_spot is None
    assert find_happenings(night, Body.SATURN, fresh).red_spot is None


def test_each_rung_has_its_size_in_words(night: Night) -> None:
    appearance = appearance_at(night, Body.SATURN)
    rungs = looks_json(appearance)["rungs"]

    assert appearance.ladder is not None
    assert [rung["power"] for rung in rungs] == [rung.power for rung in appearance.ladder.rungs]
    assert rungs[0]["apparent_size"] == "half as wide as the Moon to the naked eye"
    assert rungs[1]["true_field_deg"] is not None
    assert rungs[2]["true_field_deg"] is None


def test_the_view_is_turned_as_in_the_telescope(night: Night) -> None:
    transit = night.of(Body.SATURN).transits[0].time
    refractor = attrs.evolve(SCOPE, kind=TelescopeKind.REFRACTOR, obstruction_mm=None, diagonal=Diagonal.STAR)

    reflector_view = looks_json(appearance_at(night, Body.SATURN, transit))["view"]
    refractor_view = looks_json(appearance_at(night, Body.SATURN, transit, refractor))["view"]
    driven_view = looks_json(appearance_at(night, Body.SATURN, transit, attrs.evolve(SCOPE, driven=True)))[
        "view"
    ]

    # In the south at its highest, north is up to the naked eye and west to the right.
    assert reflector_view["turning"] == "upside_down"
    assert reflector_view["north_at_clock"] == 6
    assert reflector_view["drift_at_clock"] == 9
    assert "side of the tube" in reflector_view["note"]
    assert refractor_view["turning"] == "mirrored"
    assert refractor_view["north_at_clock"] == 12
    assert refractor_view["drift_at_clock"] == 9
    assert refractor_view["note"] is None
    assert driven_view["drift_at_clock"] is None


def test_colours_are_called_a_limit_only_where_they_spread_beyond_aperture_and_air(night: Night) -> None:
    """Jupiter at 25 degrees: the spread is 1.9 arcsec (450 to 650 nm); 100 mm resolves 1.16 (Dawes)."""
    track = night.of(Body.JUPITER).track
    low = datetime.fromtimestamp(track.unix_s[(track.altitude_deg > 15.0).argmax()], UTC)
    high = night.of(Body.JUPITER).highest.time

    def limits(at: datetime, blur: float, scope: Telescope = SCOPE) -> bool:
        return appearance_of(
            night, Body.JUPITER, ladder=ladder_at(night, Body.JUPITER, at, scope, blur)
        ).dispersion_limits

    small = Telescope(name="small", kind=TelescopeKind.REFRACTOR, aperture_mm=30, focal_length_mm=500)
    assert limits(low, 0.8)
    assert not limits(low, 3.0)  # the air hides more
    assert not limits(low, 0.8, small)  # so does so small an aperture: 3.9 arcsec
    assert not limits(high, 0.8)


def test_nothing_is_offered_too_near_the_sun_and_the_caution_is_said(night: Night) -> None:
    appearance = appearance_at(night, Body.MERCURY)

    (caution,) = aim_notices(appearance.aim)
    assert "Sunlight through any optics blinds at once." in caution
    assert not appearance.sights
    assert not appearance.expectations
    assert caution in " ".join(looks_text(appearance).split())


def test_a_planet_below_the_horizon_has_facts_but_no_picture(night: Night) -> None:
    set_time = night.of(Body.SATURN).sets[-1] + timedelta(hours=1)

    appearance = appearance_at(night, Body.SATURN, set_time)

    assert appearance.position.altitude_deg < 0.0
    assert appearance.dispersion is None
    assert appearance.sights == ()
    assert "below the horizon" in looks_text(appearance)


def test_names_of_the_owner_cannot_command_a_terminal(night: Night) -> None:
    nasty = attrs.evolve(SCOPE, name="\x1b[31mred\n\x07")
    site = attrs.evolve(night, site=attrs.evolve(SITE, name="\x1b]0;title\x07"))

    text = looks_text(appearance_of(site, Body.SATURN, ladder=ladder_at(site, Body.SATURN, scope=nasty)))

    assert not set(text) & {"\x1b", "\x07"}


def test_the_text_of_saturn_reads_as_it_should(night: Night) -> None:
    lines = looks_text(appearance_at(night, Body.SATURN)).splitlines()

    assert lines[0] == "Saturn at 20:09, Sat 5 December 2026, Back terrace"
    assert lines[1] == "It stands 50° high in the south, 1.3 times the air overhead."
    assert any(line.startswith("ring") and "6.1° open, southern face" in line for line in lines)
    assert "What to look for (an estimate)" in lines


@pytest.mark.parametrize(("aperture_mm", "focal_length_mm"), [(2000.0, 50.0), (100.0, 20_000.0)])
@pytest.mark.parametrize("body", [Body.SATURN, Body.MOON])
def test_gear_at_the_ends_of_its_ranges_is_told_of_as_well(
    night: Night, body: Body, aperture_mm: float, focal_length_mm: float
) -> None:
    ends = build_ladder(
        scope=Telescope(
            name="Ends",
            kind=TelescopeKind.REFLECTOR,
            aperture_mm=aperture_mm,
            focal_length_mm=focal_length_mm,
            barrel_mm=50.8,
            stack_barlows=True,
        ),
        eyepieces=(
            Eyepiece(name="2 mm", focal_length_mm=2, field_stop_mm=0.5),
            Eyepiece(name="60 mm", focal_length_mm=60, apparent_field_deg=120, barrel_mm=50.8),
        ),
        barlows=(
            Barlow(name="5x", factor=5),
            Barlow(name="4x", factor=4),
            Barlow(name="0.3x", factor=0.3, barrel_mm=50.8),
        ),
        aim=best_aim(night, body),
        blur=Blur(overhead_arcsec=8),
    )

    appearance = appearance_of(night, body, ladder=ends)

    assert appearance.sights
    assert json.dumps(looks_json(appearance), allow_nan=False)
    assert max(map(len, looks_text(appearance).splitlines())) <= 80
