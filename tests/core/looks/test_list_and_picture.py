"""What is called likely is visible in the picture of the same power and air, and what is unlikely is not."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from functools import cache

import pytest
from attrs import evolve, frozen

from core.air.dispersion import spread_arcsec
from core.air.finest_detail import finest_detail
from core.looks.face import Face, face_of
from core.looks.feature_rules import Feature, Likelihood
from core.looks.features import Seen, features_of
from core.looks.picture.subject import Subject, subject_at
from core.sky.bodies import Body
from core.sky.moons import MoonEventKind, moon_events
from tests.core.looks.seen_contrast import MEASURES, View, sight_of

ALTITUDE_DEG = 50.0
APERTURES_MM = (80.0, 150.0, 400.0)
AIRS_ARCSEC = (0.8, 1.45, 3.0)
POWERS = (25.0, 48.0, 80.0, 120.0)
HIGHEST_POWER = 300.0

# From which contrast at the retina a thing is seen: one bound for each kind, whatever the planet, aperture,
# air and power. A long band shows from the least, what is small needs more (Blackwell 1946, J. Opt. Soc. Am.
# 36, 624, from memory: the least contrast rises as the target shrinks). The figures are ours.
BAND, PATCH, SMALL_AND_DARK = 0.036, 0.094, 0.075
# A phase is seen where the disc looks so many arcsec narrower than it is wide: a little more than the minute
# of arc that a normal eye parts (ISO 8596). A disc is one where it looks a third wider than a star.
NARROWER_ARCSEC, WIDER = 70.0, 1.0 / 3.0
VISIBLE_FROM = {
    Feature.MAIN_BELTS: BAND,
    Feature.THIN_BELTS: BAND,
    Feature.GLOBE_BELT: BAND,
    Feature.RED_SPOT: PATCH,
    Feature.DARK_MARKINGS: PATCH,
    Feature.NORTH_CAP: PATCH,
    Feature.SOUTH_CAP: PATCH,
    Feature.MOON_SHADOW: SMALL_AND_DARK,
    Feature.RING: SMALL_AND_DARK,
    Feature.RING_LINE: SMALL_AND_DARK,
    Feature.RING_SPACE: SMALL_AND_DARK,
    Feature.RING_GAP: SMALL_AND_DARK,
    Feature.GLOBE_SHADOW: SMALL_AND_DARK,
    Feature.PHASE: NARROWER_ARCSEC,
    Feature.SMALL_DISC: WIDER,
}
# Points of light; what the picture leaves out; and the ring's shadow, which in the picture runs into the ring
# before it.
NOT_MEASURED = {
    Feature.MOONS,
    Feature.TITAN,
    Feature.FINE_GAP,
    Feature.FAINT_MARKINGS,
    Feature.RELIEF,
    Feature.RAYS,
    Feature.RING_SHADOW,
}

# Large and small, open and closed, full and not; Mars with its darkest side towards us (longitude 290) and
# outside the season of dust, of which a picture knows nothing.
WHEN = {
    Body.JUPITER: ("2027-02-10T21:00", "2026-09-10T03:00"),
    Body.SATURN: ("2026-12-20T18:00", "2029-08-01T03:00", "2025-05-20T03:00", "2025-03-25T09:00"),
    Body.MARS: ("2027-02-19T08:40", "2026-11-20T01:00", "2025-01-15T22:20"),
    Body.VENUS: ("2026-08-15T18:00", "2026-10-01T16:00", "2026-04-20T18:00"),
    Body.MERCURY: ("2026-11-20T06:00", "2026-11-27T06:00"),
    Body.URANUS: ("2026-11-25T22:00",),
    Body.NEPTUNE: ("2026-09-26T22:00",),
}


@frozen(kw_only=True)
class Case:
    """One feature at one power, as the list tells it and as the picture shows it."""

    feature: Feature
    likelihood: Likelihood
    contrast: float
    where: str


def shown(body: Body, when: str) -> tuple[Subject, Face]:
    """A planet with what there may be on it: on Jupiter the next shadow, and the spot in the middle."""
    time = datetime.fromisoformat(when).replace(tzinfo=UTC)
    if body is not Body.JUPITER:
        subject = subject_at(body, time)
        return subject, face_of(subject)
    crossing = next(
        event
        for event in moon_events(time, time + timedelta(days=9))
        if event.kind is MoonEventKind.SHADOW_TRANSIT
    )
    middle = crossing.start + (crossing.end - crossing.start) / 2
    facing = subject_at(body, middle).disc.central_meridian_deg("II")
    subject = subject_at(body, middle, red_spot_longitude_deg=facing)
    casting = tuple(moon for moon in subject.moons if moon.moon is crossing.moon)
    return evolve(subject, moons=casting), face_of(subject, (crossing,))


@cache
def cases(body: Body) -> tuple[Case, ...]:
    return tuple(_cases(body))


def _cases(body: Body) -> Iterator[Case]:
    spread = float(spread_arcsec(ALTITUDE_DEG))
    for when in WHEN[body]:
        subject, face = shown(body, when)
        for aperture_mm in APERTURES_MM:
            for air_arcsec in AIRS_ARCSEC:
                finest = finest_detail(
                    aperture_mm=aperture_mm, blur_arcsec=air_arcsec, dispersion_arcsec=spread
                )
                highest = min(finest.power, HIGHEST_POWER)
                for power in (*(each for each in POWERS if each < highest), highest):
                    how = Seen(finest_arcsec=finest.arcsec, aperture_mm=aperture_mm, power=power)
                    view = View(
                        sight_of(
                            subject,
                            aperture_mm=aperture_mm,
                            power=power,
                            air_arcsec=air_arcsec,
                            spread_arcsec=spread,
                        )
                    )
                    for item in features_of(face, how):
                        if item.feature in MEASURES and item.likelihood is not Likelihood.POSSIBLE:
                            yield Case(
                                feature=item.feature,
                                likelihood=item.likelihood,
                                contrast=MEASURES[item.feature](view),
                                where=f"{when}, {aperture_mm:.0f} mm, {air_arcsec} arcsec, {power:.0f}x",
                            )


@pytest.mark.parametrize("body", WHEN)
def test_what_is_likely_is_visible_in_the_picture(body: Body) -> None:
    hidden = [
        case
        for case in cases(body)
        if case.likelihood is Likelihood.LIKELY and case.contrast < VISIBLE_FROM[case.feature]
    ]

    assert not hidden


@pytest.mark.parametrize("body", WHEN)
def test_what_is_unlikely_is_not(body: Body) -> None:
    visible = [
        case
        for case in cases(body)
        if case.likelihood is Likelihood.UNLIKELY and case.contrast >= VISIBLE_FROM[case.feature]
    ]

    assert not visible


def test_every_feature_is_measured_or_said_not_to_be() -> None:
    assert set(MEASURES) == set(VISIBLE_FROM)
    assert set(MEASURES) | NOT_MEASURED == set(Feature)
    found = {(case.feature, case.likelihood) for body in WHEN for case in cases(body)}
    # Both ways of each but for what is always the one: no cap of the south faces us on these days.
    assert found >= {
        (feature, likelihood)
        for feature in MEASURES
        for likelihood in (Likelihood.LIKELY, Likelihood.UNLIKELY)
    } - {(Feature.SOUTH_CAP, Likelihood.LIKELY)}
