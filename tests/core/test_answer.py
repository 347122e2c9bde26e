"""The one answer: each state has the limiter that bites first, told in words that are true for it."""

from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta
from functools import cache
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from core.air.cooling import estimate_cooling
from core.air.steadiness import Blur, FirstLook
from core.answer import Answer, Limiter, answer, best_planet
from core.kit.gear import Barlow, Eyepiece, Telescope, TelescopeKind
from core.kit.ladder import build_ladder
from core.sky.aim import aim_altitude
from core.sky.bodies import TARGETS, Body
from core.sky.night import Grade, Night, compute_night
from core.sky.site import BlockedSky, Site, WarmAir


def place(name: str, latitude_deg: float, longitude_deg: float, zone: str) -> Site:
    return Site(name=name, latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone=zone)


LISBON = place("Lisbon", 38.72, -9.14, "Europe/Lisbon")
TROMSO = place("Tromso", 69.65, 18.96, "Europe/Oslo")
FAIRBANKS = place("Fairbanks", 64.84, -147.72, "America/Anchorage")
SCOTLAND = place("Scotland", 56.5, -3.0, "Europe/London")
MID_UK = place("Mid-UK", 53.0, -2.0, "Europe/London")
SOUTH_40 = place("40 south", -40.0, 175.0, "Pacific/Auckland")
MELBOURNE = place("Melbourne", -37.8, 145.0, "Australia/Melbourne")

WALLED = evolve(LISBON, blocked=(BlockedSky(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=90),))
ROOF = BlockedSky(
    azimuth_from_deg=45, azimuth_to_deg=315, below_altitude_deg=65, what="roof ridge", heated=False
)
BEHIND_ROOF = evolve(LISBON, blocked=(ROOF,))
OVER_CHIMNEY = evolve(
    LISBON,
    warm_air=(WarmAir(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=90, what="chimney"),),
)
HEATED_WALL = evolve(
    LISBON,
    blocked=(
        BlockedSky(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=44, what="flats", heated=True),
    ),
)

# Jupiter stood above 45 degrees from Lisbon in the small hours after this evening (62 at its transit:
# declination +12.6 and latitude 38.7 leave 90 - 38.7 + 12.6 = 63.9 at most).
GOOD = date(2026, 12, 5)


@cache
def night(site: Site, evening: date) -> Night:
    return compute_night(site, evening)


def eyepieces(*focal_lengths_mm: float) -> tuple[Eyepiece, ...]:
    return tuple(Eyepiece(name=f"{mm:g} mm", focal_length_mm=mm) for mm in focal_lengths_mm)


def reflector(aperture_mm: float, focal_length_mm: float) -> Telescope:
    return Telescope(
        name="reflector",
        kind=TelescopeKind.REFLECTOR,
        aperture_mm=aperture_mm,
        focal_length_mm=focal_length_mm,
    )


def refractor(aperture_mm: float, focal_length_mm: float) -> Telescope:
    return Telescope(
        name="refractor",
        kind=TelescopeKind.REFRACTOR,
        aperture_mm=aperture_mm,
        focal_length_mm=focal_length_mm,
    )


SIX = reflector(150, 1200)
THREE_INCH = refractor(76, 900)
TWELVE_INCH = reflector(305, 1525)
FULL_BOX = eyepieces(40, 25, 20, 16, 12, 10, 8, 6, 5, 4)
DOUBLE = (Barlow(name="2x", factor=2),)
STEADY, FAIR, BOILING = (Blur.of_first_look(look) for look in FirstLook)
VERY_STEADY = Blur(overhead_arcsec=0.4)
KIT: Mapping[str, Any] = {"scope": SIX, "eyepieces": FULL_BOX, "barlows": DOUBLE}
IN_THE_NIGHT = datetime(2026, 12, 6, 4, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("site", "evening", "planet", "given", "limiter"),
    [
        # Never up: both planets were lower than -4 degrees at their highest (skyfield, DE421).
        (TROMSO, date(2027, 11, 28), Body.VENUS, KIT, Limiter.NEVER_UP),
        (TROMSO, date(2027, 11, 28), Body.MARS, {}, Limiter.NEVER_UP),
        # No dark sky: midnight Sun, or a Sun that gets 10 degrees down where Uranus needs 12.
        (TROMSO, date(2026, 6, 21), Body.JUPITER, KIT, Limiter.NO_DARK_SKY),
        (TROMSO, date(2026, 6, 21), Body.SATURN, {}, Limiter.NO_DARK_SKY),
        (SCOTLAND, date(2026, 6, 21), Body.URANUS, KIT, Limiter.NO_DARK_SKY),
        # Up with the Sun only: set before it though 27 degrees away (Fairbanks), 6 degrees from it (London).
        (FAIRBANKS, date(2016, 8, 16), Body.MERCURY, KIT, Limiter.NO_DARK_SKY),
        (
            place("London", 51.5, 0.0, "Europe/London"),
            date(2010, 10, 29),
            Body.VENUS,
            KIT,
            Limiter.NO_DARK_SKY,
        ),
        # Hidden: all the sky, or the part of it that Jupiter crosses.
        (WALLED, GOOD, Body.JUPITER, KIT, Limiter.BLOCKED),
        (BEHIND_ROOF, GOOD, Body.JUPITER, {}, Limiter.BLOCKED),
        # Too low: 6.9 degrees at sunset from 40 south; 5.8 degrees at sunset from Scotland; 9.5 from the Sun.
        (SOUTH_40, date(2013, 2, 16), Body.MERCURY, KIT, Limiter.TOO_LOW),
        (SCOTLAND, date(2021, 9, 1), Body.VENUS, KIT, Limiter.TOO_LOW),
        (MELBOURNE, date(2009, 2, 5), Body.JUPITER, KIT, Limiter.TOO_LOW),
        # Mirror: carried out minutes ago, or in air that falls faster than a closed tube follows.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {
                **KIT,
                "now": IN_THE_NIGHT,
                "readiness": estimate_cooling(SIX),
                "outside_since": IN_THE_NIGHT - timedelta(minutes=5),
            },
            Limiter.MIRROR_WARM,
        ),
        (
            OVER_CHIMNEY,
            GOOD,
            Body.JUPITER,
            {**KIT, "readiness": estimate_cooling(SIX, falling_c_per_h=8)},
            Limiter.MIRROR_WARM,
        ),
        # Warm air before height and before the air of the night; a heated wall warms ten degrees above it.
        (OVER_CHIMNEY, GOOD, Body.JUPITER, {**KIT, "blur": BOILING}, Limiter.WARM_AIR),
        (OVER_CHIMNEY, GOOD, Body.JUPITER, {}, Limiter.WARM_AIR),
        (HEATED_WALL, GOOD, Body.NEPTUNE, KIT, Limiter.WARM_AIR),
        # Height: 11.5 degrees at transit (Mars 2018, mid-UK), 20 degrees (Jupiter 2021, Scotland).
        (MID_UK, date(2018, 7, 27), Body.MARS, KIT, Limiter.HEIGHT),
        (SCOTLAND, date(2021, 8, 19), Body.JUPITER, {**KIT, "blur": BOILING}, Limiter.HEIGHT),
        (SCOTLAND, date(2021, 8, 19), Body.SATURN, {}, Limiter.HEIGHT),
        # Tonight's air: a 12-inch in average air, a 3-inch in boiling air, and nothing said about the air.
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": TWELVE_INCH, "blur": FAIR}, Limiter.TONIGHT_AIR),
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": THREE_INCH, "blur": BOILING}, Limiter.TONIGHT_AIR),
        (LISBON, GOOD, Body.SATURN, KIT, Limiter.TONIGHT_AIR),
        # Usual air: the air of the night would bear more than 300x, the aperture too.
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": TWELVE_INCH, "blur": VERY_STEADY}, Limiter.USUAL_AIR),
        # Aperture: a 3-inch on a steady night; 60 mm with nothing longer than 6 mm (150x, limit 120x).
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": THREE_INCH, "blur": STEADY}, Limiter.APERTURE),
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": refractor(60, 900), "eyepieces": eyepieces(6), "barlows": DOUBLE, "blur": STEADY},
            Limiter.APERTURE,
        ),
        # 150 mm lifted to 400x: its aperture limit of 300x still holds.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {**KIT, "blur": VERY_STEADY, "usual_air": 400.0},
            Limiter.APERTURE,
        ),
        # Exit pupil: the only power is 225x on 60 mm, 0.27 mm wide, far past its 120x.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": refractor(60, 900), "eyepieces": eyepieces(4), "blur": STEADY},
            Limiter.EXIT_PUPIL,
        ),
        # No rung near: one low eyepiece on a steady night; one short one on a boiling night; ten times only.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": SIX, "eyepieces": eyepieces(25), "blur": STEADY},
            Limiter.NO_RUNG_NEAR,
        ),
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": reflector(254, 1200), "eyepieces": eyepieces(4), "blur": BOILING},
            Limiter.NO_RUNG_NEAR,
        ),
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": Telescope(name="binocular", kind=TelescopeKind.FIXED, aperture_mm=50, power=10)},
            Limiter.NO_RUNG_NEAR,
        ),
        (LISBON, GOOD, Body.JUPITER, {"scope": SIX}, Limiter.NO_RUNG_NEAR),
        # Nothing is known to limit while there is no telescope.
        (LISBON, GOOD, Body.JUPITER, {}, Limiter.NOTHING),
    ],
)
def test_each_state_is_limited_by_what_bites_first(
    site: Site, evening: date, planet: Body, given: Mapping[str, Any], limiter: Limiter
) -> None:
    told = answer(night(site, evening), planet=planet, **given)

    assert told.limiter is limiter
    assert told.planet is planet
    check_words(told)


def check_words(told: Answer) -> None:
    assert told.planet is not None
    assert told.planet.heading in told.sentence
    assert told.sentence.endswith(".")
    assert "None" not in told.sentence
    assert "nan" not in told.sentence
    assert told.reasons
    assert all(reason.strip().endswith(".") for reason in told.reasons)


def test_the_kinds_of_absence_are_told_apart_in_words() -> None:
    def sentence(site: Site, evening: date, planet: Body) -> str:
        return answer(night(site, evening), planet=planet).sentence

    never_up = sentence(TROMSO, date(2027, 11, 28), Body.MARS)
    no_dark_sky = sentence(TROMSO, date(2026, 6, 21), Body.JUPITER)
    with_the_sun = sentence(FAIRBANKS, date(2016, 8, 16), Body.MERCURY)
    hidden = sentence(BEHIND_ROOF, GOOD, Body.JUPITER)
    too_low = sentence(SOUTH_40, date(2013, 2, 16), Body.MERCURY)

    assert "never up" in never_up
    assert "never gets dark enough" in no_dark_sky
    assert "only while the Sun is up" in with_the_sun
    assert "behind blocked sky (roof ridge)" in hidden
    assert "never above" in too_low
    assert "always up" in " ".join(answer(night(TROMSO, date(2026, 6, 21)), planet=Body.JUPITER).reasons)


def test_a_good_answer_names_minutes_rungs_and_the_limit() -> None:
    told = answer(night(LISBON, GOOD), planet=Body.SATURN, **KIT)

    # Saturn, near the equator of the sky, gets 52 degrees high: 1.27 times the air overhead. Fair air then
    # bears 232 / (1.45 x 1.27^0.6) = 139x; of the box, 1200 / 40 = 30x is lowest, and 120x comes before 150x.
    assert told.best is not None
    assert "Start at 30x, climb to 120x: tonight's air (seeing, assumed fair) bears about 13" in told.sentence
    first, last = (moment + timedelta(seconds=30) for moment in (told.best.start, told.best.end))
    assert told.sentence.startswith(f"Saturn is best {first:%H:%M}–{last:%H:%M}. "), "Lisbon keeps UTC then"


def test_what_ends_the_best_minutes_is_named() -> None:
    roof = evolve(
        LISBON,
        blocked=(
            BlockedSky(azimuth_from_deg=180, azimuth_to_deg=270, below_altitude_deg=89, what="roof ridge"),
        ),
    )

    told = answer(night(roof, GOOD), planet=Body.SATURN)

    assert "then behind blocked sky (roof ridge)" in told.sentence


@pytest.mark.parametrize("planet", [Body.SATURN, Body.JUPITER])
def test_only_minutes_still_to_come_are_offered(planet: Body) -> None:
    whole = answer(night(LISBON, GOOD), planet=planet, **KIT)
    assert whole.best is not None
    middle = whole.best.start + whole.best.duration / 2

    told = answer(night(LISBON, GOOD), planet=planet, now=middle, **KIT)

    assert told.best is not None
    assert told.best.start == middle
    assert told.best.end == whole.best.end
    assert "at its best now, until" in told.sentence
    # The powers are those of this very moment.
    assert told.ladder is not None
    assert told.ladder.aim.at == middle


def test_a_planet_that_is_done_is_said_to_be_done() -> None:
    saturn = night(LISBON, GOOD).of(Body.SATURN)
    after = saturn.windows[-1].end + timedelta(minutes=10)

    told = answer(night(LISBON, GOOD), planet=Body.SATURN, now=after, **KIT)

    assert told.limiter is Limiter.TOO_LOW
    assert "Saturn is done for this evening: under 10° since" in told.sentence
    assert told.best is None


def test_dawn_ends_an_evening_as_too_bright() -> None:
    mars = night(LISBON, GOOD).of(Body.MARS)

    told = answer(night(LISBON, GOOD), planet=Body.MARS, now=mars.windows[-1].end + timedelta(minutes=30))

    assert told.limiter is Limiter.NO_DARK_SKY
    assert "too bright" in told.sentence


def test_a_moment_outside_the_evening_changes_nothing() -> None:
    plain = answer(night(LISBON, GOOD), planet=Body.SATURN, **KIT)

    told = answer(night(LISBON, GOOD), planet=Body.SATURN, now=datetime(2027, 1, 20, 20, tzinfo=UTC), **KIT)

    assert told == plain


def test_best_minutes_stop_well_before_sunrise() -> None:
    told = answer(night(LISBON, GOOD), planet=Body.VENUS, **KIT)
    sunrise = night(LISBON, GOOD).sun.rise

    assert told.best is not None
    assert sunrise is not None
    assert night(LISBON, GOOD).of(Body.VENUS).windows[-1].end > told.best.end
    assert told.best.end <= sunrise - timedelta(minutes=10)
    assert any("before sunrise, and cap the telescope" in reason for reason in told.reasons)


def test_searching_beside_the_sun_is_warned_of() -> None:
    told = answer(night(place("London", 51.5, 0.0, "Europe/London"), date(2010, 10, 29)), planet=Body.VENUS)

    # Elongation 5.9 degrees (skyfield, DE421).
    assert "Venus stands only 6° from the Sun" in told.reasons[0]
    assert "blinds at once" in told.reasons[0]


def test_a_poor_answer_gives_the_next_better_date() -> None:
    asked = []

    def better() -> date:
        asked.append(1)
        return date(2027, 3, 12)

    poor = answer(night(MID_UK, date(2018, 7, 27)), planet=Body.MARS, better_date=better)
    good = answer(night(LISBON, GOOD), planet=Body.JUPITER, better_date=better)

    assert poor.sentence.endswith("It stands above 30° in a dark sky from 12 March 2027.")
    assert "above 30°" not in good.sentence
    assert len(asked) == 1, "the search is started only when its answer is told"


def test_a_date_that_never_comes_is_told_too() -> None:
    told = answer(night(TROMSO, date(2027, 11, 28)), planet=Body.MARS, better_date=lambda: None)

    assert told.sentence.endswith("It does not stand above 30° in a dark sky within a year.")


def test_a_poor_planet_points_to_a_better_one() -> None:
    told = answer(night(LISBON, GOOD), planet=Body.MERCURY)

    assert any(reason.startswith("On this evening Jupiter is better placed") for reason in told.reasons)


def test_a_telescope_not_yet_cool_keeps_low_until_it_is() -> None:
    readiness = estimate_cooling(SIX)
    out = IN_THE_NIGHT - timedelta(minutes=5)
    told = answer(
        night(LISBON, GOOD),
        planet=Body.JUPITER,
        now=IN_THE_NIGHT,
        readiness=readiness,
        outside_since=out,
        **KIT,
    )
    assert readiness.likely_minutes is not None
    ready = out + timedelta(minutes=readiness.likely_minutes)

    assert "Stay near 30x until the telescope is ready at about 04:2" in told.sentence
    assert "(an estimate), then climb to" in told.sentence
    later = answer(
        night(LISBON, GOOD),
        planet=Body.JUPITER,
        now=ready,
        readiness=readiness,
        outside_since=out,
        **KIT,
    )
    assert later.limiter is Limiter.TONIGHT_AIR


def test_without_a_site_or_kit_it_says_what_to_add_next() -> None:
    assert "Add a site" in answer(None).sentence
    assert answer(None).reasons
    assert "Add a telescope" in answer(night(LISBON, GOOD)).sentence
    assert "Add an eyepiece" in answer(night(LISBON, GOOD), scope=SIX).sentence


def test_an_eyepiece_that_fits_nothing_is_not_an_eyepiece_missing() -> None:
    wide = (Eyepiece(name="30 mm", focal_length_mm=30, barrel_mm=50.8),)

    told = answer(night(LISBON, GOOD), planet=Body.JUPITER, scope=SIX, eyepieces=wide)

    assert told.limiter is Limiter.NO_RUNG_NEAR
    assert "None of your eyepieces fits" in told.sentence


def test_what_observers_use_is_told_beside_what_is_allowed() -> None:
    four_inch = refractor(102, 1000)
    steady = {"eyepieces": FULL_BOX, "barlows": DOUBLE, "blur": VERY_STEADY}
    small = answer(night(LISBON, GOOD), planet=Body.JUPITER, scope=four_inch, **steady)
    large = answer(night(LISBON, GOOD), planet=Body.JUPITER, scope=TWELVE_INCH, **steady)

    # Common practice, no source: about 150x is routine with 102 mm, and Jupiter is rarely viewed over 200x.
    assert any("observers use 122x to 153x most on a usual night" in reason for reason in small.reasons)
    assert not any("usual night" in reason for reason in large.reasons)
    assert any("Jupiter rarely gains from more than 200x" in reason for reason in large.reasons)


def test_a_twelve_hour_clock_is_kept_throughout() -> None:
    told = answer(night(LISBON, GOOD), planet=Body.JUPITER, clock=12, **KIT)

    assert " am–" in told.sentence
    assert any(" pm" in reason for reason in told.reasons)


def test_the_evening_s_planet_is_one_that_can_be_seen_well() -> None:
    # From Scotland in that week Jupiter and Saturn stayed under 30 degrees and Uranus did not.
    assert best_planet(night(SCOTLAND, date(2021, 8, 19))) is Body.URANUS
    assert best_planet(night(LISBON, GOOD)) is Body.JUPITER
    assert best_planet(night(TROMSO, date(2026, 6, 21))) is None
    assert best_planet(night(WALLED, GOOD)) is None


def test_an_evening_with_nothing_still_has_an_answer() -> None:
    for evening in (night(TROMSO, date(2026, 6, 21)), night(WALLED, GOOD)):
        told = answer(evening, **KIT)

        assert told.limiter in (Limiter.NO_DARK_SKY, Limiter.BLOCKED)
        check_words(told)


@given(
    latitude_deg=st.floats(-89, 89),
    longitude_deg=st.floats(-180, 180),
    evening=st.dates(date(2024, 1, 1), date(2030, 12, 31)),
    planet=st.sampled_from(TARGETS),
    hours_in=st.floats(-3, 27),
)
@settings(max_examples=25, deadline=None)
def test_the_answer_holds_wherever_and_whenever(
    latitude_deg: float, longitude_deg: float, evening: date, planet: Body, hours_in: float
) -> None:
    found = compute_night(
        Site(name="x", latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone="UTC"), evening
    )
    now = found.start + timedelta(hours=hours_in)
    body = found.of(planet)

    told = answer(found, planet=planet, now=now, **KIT)

    check_words(told)
    if not body.windows:
        assert told.limiter in (Limiter.NEVER_UP, Limiter.NO_DARK_SKY, Limiter.BLOCKED, Limiter.TOO_LOW)
    if told.best is not None:
        inside = found.start <= now < found.end
        assert not inside or told.best.start >= now
        for part in told.best.windows:
            assert any(window.start <= part.start < part.end <= window.end for window in body.windows)
        if told.limiter is Limiter.HEIGHT and not inside:
            assert {window.grade for window in told.best.windows} == {Grade.LOW}


# What the ceiling must do whatever the kit: the answer climbs no further than it allows.

ALTITUDES_DEG = st.floats(5, 90)
BLURS_ARCSEC = st.floats(0.2, 8)
APERTURES_MM = st.floats(20, 1000)


def ceiling(aperture_mm: float, altitude_deg: float, blur_arcsec: float) -> float:
    ladder = build_ladder(
        scope=reflector(aperture_mm, 1200),
        eyepieces=FULL_BOX,
        barlows=DOUBLE,
        aim=aim_altitude(altitude_deg),
        blur=Blur(overhead_arcsec=blur_arcsec),
    )
    assert ladder.ceiling.power is not None
    return ladder.ceiling.power


@given(APERTURES_MM, ALTITUDES_DEG, ALTITUDES_DEG, BLURS_ARCSEC)
def test_a_higher_planet_never_lowers_the_ceiling(
    aperture_mm: float, one_deg: float, other_deg: float, blur_arcsec: float
) -> None:
    low, high = sorted((one_deg, other_deg))

    assert ceiling(aperture_mm, high, blur_arcsec) >= ceiling(aperture_mm, low, blur_arcsec)


@given(APERTURES_MM, ALTITUDES_DEG, BLURS_ARCSEC, BLURS_ARCSEC)
def test_worse_air_never_raises_the_ceiling(
    aperture_mm: float, altitude_deg: float, one_arcsec: float, other_arcsec: float
) -> None:
    better, worse = sorted((one_arcsec, other_arcsec))

    assert ceiling(aperture_mm, altitude_deg, worse) <= ceiling(aperture_mm, altitude_deg, better)


@given(APERTURES_MM, APERTURES_MM, ALTITUDES_DEG, BLURS_ARCSEC)
def test_a_bigger_aperture_never_lowers_the_ceiling(
    one_mm: float, other_mm: float, altitude_deg: float, blur_arcsec: float
) -> None:
    small, big = sorted((one_mm, other_mm))

    assert ceiling(big, altitude_deg, blur_arcsec) >= ceiling(small, altitude_deg, blur_arcsec)
