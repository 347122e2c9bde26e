"""What to expect, told as whole sentences with every figure in its place."""

import math
import re
from datetime import UTC, datetime

import pytest
from attrs import evolve

from core.looks.face import Face, face_of
from core.looks.feature_rules import Feature
from core.looks.features import FeatureChance, Seen, features_of
from core.looks.picture.subject import subject_at
from core.sky.bodies import TARGETS, Body
from core.sky.moons import Moon, moon_events
from core.sky.ring import Ring
from core.words.looking_for import (
    expectation_text,
    feature_text,
    judged_text,
    listed_feature_text,
    reason_text,
    short_text,
)
from core.words.sizes import arcsec_text

# A figure that is not there leaves two spaces, or a space before what follows it.
HOLE = re.compile(r"  | [,;.:]|^[ ,;]|\{|\}|, at most [;,]|about $|0\.00″")


def saturn(opening_deg: float) -> Face:
    ring = Ring(
        opening_deg=opening_deg,
        sun_latitude_deg=opening_deg,
        major_axis_arcsec=44.0,
        minor_axis_arcsec=44.0 * math.sin(math.radians(opening_deg)),
        gap_width_arcsec=0.7,
    )
    return Face(body=Body.SATURN, diameter_arcsec=19, phase_angle_deg=5, ring=ring)


def jupiter(moons_beside: int) -> Face:
    return Face(
        body=Body.JUPITER,
        diameter_arcsec=44,
        moons_beside=moons_beside,
        widest_moon_arcsec=150,
        shadows=((Moon.GANYMEDE, 1.6),),
    )


def one(face: Face, feature: Feature, finest: float = 0.805, power: float = 200) -> FeatureChance:
    seen = Seen(finest_arcsec=finest, aperture_mm=50, power=power)
    return next(each for each in features_of(face, seen) if each.feature is feature)


@pytest.mark.parametrize("body", TARGETS)
@pytest.mark.parametrize(
    "when",
    ["2009-09-04T20:00", "2017-06-15T22:00", "2020-10-13T23:00", "2025-04-15T04:00", "2026-11-24T03:00"],
)
@pytest.mark.parametrize("finest", [0.4, 3.0])
@pytest.mark.parametrize("power", [7.5, 30.0, 300.0])
def test_no_figure_is_missing(body: Body, when: str, finest: float, power: float) -> None:
    subject = subject_at(body, datetime.fromisoformat(when).replace(tzinfo=UTC))
    events = (
        moon_events(subject.disc.time, subject.disc.time.replace(hour=23, minute=59))
        if body is Body.JUPITER
        else ()
    )

    for item in features_of(
        face_of(subject, events), Seen(finest_arcsec=finest, aperture_mm=100, power=power)
    ):
        assert not HOLE.search(expectation_text(item)), expectation_text(item)


@pytest.mark.parametrize(
    ("item", "words"),
    [
        (
            one(saturn(20), Feature.RING_GAP),
            ("Likely: The gap in the ring. A dark line, at most 0.70″. From about 100x."),
        ),
        (
            one(saturn(6.5), Feature.RING_GAP),
            "Possible: The gap in the ring. The ring is only 6.5° open. From about 100x.",
        ),
        (
            one(saturn(2.25), Feature.RING_GAP),
            "Unlikely: The gap in the ring. The ring is only 2.3° open.",
        ),
        (
            one(saturn(20), Feature.RING_GAP, power=62.5),
            "Possible: The gap in the ring. Usually from about 100x, more than the 63x to be had tonight.",
        ),
        (
            one(saturn(20), Feature.TITAN),
            (
                "Possible: Titan, the largest moon. Like a star of magnitude 8.4: it takes about 60 mm of "
                "aperture."
            ),
        ),
        (
            one(Face(body=Body.MARS, diameter_arcsec=20, dust=True), Feature.DARK_MARKINGS),
            (
                "Possible: Large dark markings. A fifth of the disc is 4.0″, but in this season dust storms "
                "may veil them. From about 45x."
            ),
        ),
        (
            one(Face(body=Body.VENUS, diameter_arcsec=40, illuminated_fraction=0.2), Feature.PHASE),
            ("Likely: The crescent. 20% is lit, and the disc is 40″ across. From about 15x."),
        ),
        (
            one(Face(body=Body.MOON, diameter_arcsec=1865, illuminated_fraction=1.0), Feature.RELIEF),
            (
                "Unlikely: Craters and mountains with their shadows. Near full Moon hardly anything casts a "
                "shadow."
            ),
        ),
    ],
)
def test_a_sentence_as_a_whole(item: FeatureChance, words: str) -> None:
    assert expectation_text(item) == words


def test_more_power_is_no_advice_where_the_air_hides_it_anyway() -> None:
    told = short_text(one(saturn(20), Feature.RING_GAP, finest=3.0, power=70))

    assert told == "The gap in the ring: a dark line, at most 0.70″."


def test_a_list_says_once_what_it_is_judged_by() -> None:
    told = judged_text(Seen(finest_arcsec=1.21, aperture_mm=150, power=150))

    assert told == (
        # 232 / 150 = 1.55 (by hand).
        "Judged at 150x, which shows the eye detail from 1.55″ up; aperture and air (seeing) let "
        "1.21″ through."
    )


def test_moons_beside_jupiter_are_counted() -> None:
    assert reason_text(one(jupiter(4), Feature.MOONS)) == "All four stand beside it at this time."
    assert reason_text(one(jupiter(3), Feature.MOONS)) == "Three of four stand beside it at this time."
    assert reason_text(one(jupiter(1), Feature.MOONS)) == "One of four stands beside it at this time."

    told = [reason_text(one(jupiter(count), Feature.MOONS)) for count in (0, 2)]
    assert told == [
        "None of the four stands beside it at this time.",
        "Two of four stand beside it at this time.",
    ]


def test_a_shadow_is_told_by_its_moon() -> None:
    assert feature_text(one(jupiter(4), Feature.MOON_SHADOW)) == "Ganymede's shadow on the disc"


def test_inside_a_list_only_a_name_keeps_its_capital() -> None:
    items = (
        one(saturn(20), Feature.RING_GAP),
        one(saturn(20), Feature.TITAN),
        one(jupiter(4), Feature.MOON_SHADOW),
    )

    assert [listed_feature_text(item) for item in items] == [
        "the gap in the ring",
        "Titan, the largest moon",
        "Ganymede's shadow on the disc",
    ]


MARS = Face(body=Body.MARS, diameter_arcsec=10, illuminated_fraction=0.9, phase_angle_deg=37)
VENUS = Face(body=Body.VENUS, diameter_arcsec=20, illuminated_fraction=0.7, phase_angle_deg=66)


@pytest.mark.parametrize(
    ("face", "feature", "words"),
    [
        (jupiter(4), Feature.MAIN_BELTS, "The two main belts: each is about {size} wide."),
        (jupiter(4), Feature.THIN_BELTS, "Thinner belts: each is about {size} wide."),
        (jupiter(4), Feature.RED_SPOT, "The red spot, while it faces us: pale, about {size} across."),
        (
            jupiter(4),
            Feature.MOON_SHADOW,
            "Ganymede's shadow on the disc: a black dot of {size}, while it crosses.",
        ),
        (
            saturn(20),
            Feature.RING,
            "The ring, as a shape around the globe: 20° open, {size} from tip to tip.",
        ),
        (
            saturn(20),
            Feature.RING_SPACE,
            "The dark space between ring and globe: {size} on either side of the globe.",
        ),
        (
            saturn(20),
            Feature.FINE_GAP,
            "The narrow gap near the ring's outer edge: a dark line, at most {size}.",
        ),
        (saturn(20), Feature.GLOBE_BELT, "A belt on the globe: pale, about {size} wide."),
        (
            saturn(20),
            Feature.GLOBE_SHADOW,
            "The globe's shadow on the ring: a black edge of {size} beside the globe.",
        ),
        (MARS, Feature.DARK_MARKINGS, "Large dark markings: a fifth of the disc is {size}."),
        (
            MARS,
            Feature.PHASE,
            "A shadowed side, like a Moon before full: 90% is lit, the dark part is {size} wide.",
        ),
        (
            VENUS,
            Feature.PHASE,
            "The phase, like a small Moon's: 70% is lit, the dark part is {size} wide.",
        ),
        (
            VENUS,
            Feature.FAINT_MARKINGS,
            "Markings in the clouds: hardly ever seen by eye, whatever the telescope.",
        ),
        (
            evolve(VENUS, body=Body.MERCURY),
            Feature.FAINT_MARKINGS,
            "Markings on the ground: hardly ever seen by eye, whatever the telescope.",
        ),
        (
            Face(body=Body.URANUS, diameter_arcsec=3.7),
            Feature.FAINT_MARKINGS,
            "Markings: out of reach of the usual telescopes.",
        ),
        (
            Face(body=Body.URANUS, diameter_arcsec=3.7),
            Feature.SMALL_DISC,
            "A small disc, not a point like a star: it is {size} across.",
        ),
        (
            Face(body=Body.MOON, diameter_arcsec=1865, illuminated_fraction=0.99),
            Feature.RAYS,
            "Bright rays around young craters: 99% is lit, and the Sun stands high over most of it.",
        ),
        (
            evolve(MARS, north_cap_arcsec=1.1),
            Feature.NORTH_CAP,
            "The northern polar cap: bright; in a usual year it now reaches in by {size}.",
        ),
        (
            evolve(MARS, south_cap_arcsec=1.1),
            Feature.SOUTH_CAP,
            "The southern polar cap: bright; in a usual year it now reaches in by {size}.",
        ),
        (
            evolve(MARS, south_cap_arcsec=1.1, dust=True),
            Feature.SOUTH_CAP,
            (
                "The southern polar cap: in a usual year it now reaches in by {size}, but in this season "
                "dust storms may veil it."
            ),
        ),
        (
            evolve(MARS, south_cap_arcsec=0.04),
            Feature.SOUTH_CAP,
            "The southern polar cap: only its rim is turned towards us.",
        ),
        (
            Face(body=Body.MOON, diameter_arcsec=1865, illuminated_fraction=0.5),
            Feature.RELIEF,
            (
                "Craters and mountains with their shadows: along the line of day and night, craters from "
                "about 1.9 km up."
            ),
        ),
        (
            saturn(1.0),
            Feature.RING_LINE,
            "The ring as a thin line, nearly closed: only 1.0° open, 0.77″ from its near to its far edge.",
        ),
    ],
)
def test_each_thing_to_look_for_is_told_with_its_size(face: Face, feature: Feature, words: str) -> None:
    item = one(face, feature, finest=0.4, power=400)
    size = "" if item.size_arcsec is None else arcsec_text(item.size_arcsec)

    assert short_text(item) == words.format(size=size)


@pytest.mark.parametrize(("opening_deg", "told"), [(9.94, "9.9°"), (10.0, "10°"), (26.4, "26°")])
def test_an_opening_is_told_to_a_tenth_below_ten_degrees(opening_deg: float, told: str) -> None:
    assert f": {told} open, " in short_text(one(saturn(opening_deg), Feature.RING, power=400))
