"""How a body is found, in words, as an observer would read it."""

import re
from datetime import UTC, date, datetime

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.gear.owned import Eyepiece, Telescope, TelescopeKind
from core.record.observer import Profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.finding import (
    NOTHING_TO_FIND,
    brief_finding_sentences,
    finding_sentences,
    findings_text,
    landmark_text,
    ways_to_find,
)
from core.words.site_clock import clock_of
from tests.core.evenings import FULL_BOX, LISBON, SIX

EVENING = date(2026, 12, 5)
AT_NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
# The Sun is up, Venus stands high in the south-east, and the Moon, a crescent, not far below it.
BY_DAY = datetime(2026, 12, 6, 9, 30, tzinfo=UTC)
KIT = Profile(sites=(evolve(LISBON, id="s"),), telescopes=(evolve(SIX, id="six"),), eyepieces=FULL_BOX)


def situation(time: datetime, planet: Body | None = None, profile: Profile = KIT) -> Situation:
    choices = Choices(profile=profile, evening=EVENING, time=time, time_is_asked=True, planet=planet)
    return Situation(choices, datetime(2026, 12, 1, tzinfo=UTC))


def paragraph(text: str, body: str) -> str:
    return next(each for each in text.split("\n\n") if f"{body} at " in each)


def test_uranus_is_told_with_constellation_stars_colour_and_power() -> None:
    words = paragraph(findings_text(situation(AT_NINE, Body.URANUS)), "Uranus")

    # In Taurus through 2026 to 2032 (common knowledge of its path), between Aldebaran and the Pleiades.
    assert words.startswith("Uranus at 21:00: ")
    assert "in Taurus" in words
    assert "from Aldebaran" in words or "from Alcyone" in words
    assert "blue-green" in words
    assert "binoculars" in words
    # Common practice: from about a hundred times.
    assert any(f"from about {power}x" in words for power in (80, 85, 90, 95, 100, 110))
    assert "150x" not in words
    assert "take 12 mm, 100x" in words


def test_the_planet_in_hand_comes_first_and_each_tells_its_own_time() -> None:
    text = findings_text(situation(AT_NINE, Body.NEPTUNE))

    assert text.startswith("Neptune at 21:00")
    # Jupiter rises before midnight and is found at its best.
    assert "Jupiter at 21:00" not in text
    assert "Jupiter at " in text
    assert text.endswith("a thumb 2°.")


def test_venus_by_day_comes_with_the_caution_and_a_wall_and_from_the_moon_alone() -> None:
    at = situation(BY_DAY, Body.VENUS)
    words = paragraph(findings_text(at), "Venus")

    # Venus is west of the Sun in December 2026: morning star, half a year after its time in the evening.
    assert words.startswith("Venus stands 4")
    assert "west of the Sun" in words
    assert "Sunlight through any optics blinds at once." in words
    assert "wall or a house hides the Sun, in the south-east" in words
    assert "end before the shadow leaves you" in words
    assert "from the Moon towards" in words
    assert "Spica" not in words
    # Beside the caution of the page it is not said twice.
    assert not any("blinds" in sentence for sentence in ways_to_find(at))


def test_a_planet_east_of_the_sun_takes_the_other_edge_of_the_wall() -> None:
    # Venus is an evening star in August 2026, greatest elongation on the 15th (published tables).
    choices = Choices(
        profile=KIT,
        evening=date(2026, 8, 15),
        time=datetime(2026, 8, 15, 16, 0, tzinfo=UTC),
        time_is_asked=True,
        planet=Body.VENUS,
    )
    words = paragraph(findings_text(Situation(choices, datetime(2026, 8, 1, tzinfo=UTC))), "Venus")

    assert "east of the Sun" in words
    assert "clear of its eastern edge: the Sun then goes further behind it." in words


def test_by_day_nothing_else_is_told_for_that_moment() -> None:
    text = findings_text(situation(BY_DAY, Body.VENUS))

    for body in ("Saturn", "Mars", "Uranus", "Neptune"):
        assert f"{body} at 09:30" not in text


def test_unasked_nothing_is_told_by_day() -> None:
    at_noon = Situation(Choices(profile=KIT), BY_DAY)

    assert "hides the Sun" not in findings_text(at_noon)


@pytest.mark.parametrize(("aperture_mm", "stays"), [(40, True), (80, False)])
def test_neptune_stays_a_star_in_a_very_small_aperture(aperture_mm: float, stays: bool) -> None:
    # Neptune is 2.3 arcsec across, and 40 mm resolve 2.9 (Dawes).
    scope = Telescope(
        id="t", name="Small", kind=TelescopeKind.REFRACTOR, aperture_mm=aperture_mm, focal_length_mm=400
    )
    words = paragraph(
        findings_text(situation(AT_NINE, Body.NEPTUNE, evolve(KIT, telescopes=(scope,)))), "Neptune"
    )

    assert ("stays a star" in words) is stays
    assert ("more than your eyepieces give" in words) is not stays


def test_a_low_power_alone_and_no_telescope() -> None:
    one = evolve(KIT, eyepieces=(Eyepiece(name="40 mm", focal_length_mm=40),))
    assert "more than your eyepieces give" in findings_text(situation(AT_NINE, Body.URANUS, one))
    empty = paragraph(findings_text(situation(AT_NINE, Body.URANUS, evolve(KIT, eyepieces=()))), "Uranus")
    # With nothing to put in, from which power a disc shows is told, and nothing of what is owned.
    assert re.search(r"A disc, no longer a star, from about \d+x\.", empty)
    bare = evolve(KIT, telescopes=(), eyepieces=())
    assert "A disc" not in findings_text(situation(AT_NINE, Body.URANUS, bare))
    none = Situation(Choices(), AT_NINE)
    assert findings_text(none) == NOTHING_TO_FIND


def test_neptune_takes_a_chart_and_is_hardly_a_disc_where_the_air_bears_too_little() -> None:
    """At magnitude 7.7 it is one of many such stars: no angle from a bright one picks it out."""
    low = datetime(2026, 12, 5, 23, 15, tzinfo=UTC)
    words = paragraph(findings_text(situation(low, Body.NEPTUNE)), "Neptune")

    assert "takes a chart, followed from star to star" in words
    assert "Hardly a disc tonight" in words
    assert "take 8 mm" not in words
    # A nearer, fainter star serves better than a bright one 16 degrees away.
    assert "Piscium" in words
    assert "Algenib" not in words
    assert "chart" not in paragraph(findings_text(situation(low, Body.SATURN)), "Saturn")
    steady = evolve(situation(low, Body.NEPTUNE).choices, blur=Blur(overhead_arcsec=0.4))
    found = paragraph(findings_text(Situation(steady, datetime(2026, 12, 1, tzinfo=UTC))), "Neptune")
    assert "Hardly a disc" not in found


CHART = (
    "That leads only near it: to tell it from the stars around it takes a chart, followed from star to star."
)
OUTSIDE = "Too faint for the eye alone: in binoculars or a good finder it is"


@pytest.mark.parametrize(
    ("body", "sentences"),
    [
        (
            Body.URANUS,
            (
                "Uranus at 21:00: east, half way up: 51° (azimuth 105°), in Taurus.",
                f"It lies 9° from Aldebaran towards 12 o'clock and 24° from Algol towards 4 o'clock. {CHART}",
                f"{OUTSIDE} a star of a pale blue-green, among others like it (magnitude 5.6).",
                "A disc, no longer a star, from about 90x: take 12 mm, 100x.",
            ),
        ),
        (
            Body.NEPTUNE,
            (
                "Neptune at 21:00: south-west, half way up: 47° (azimuth 208°), in Pisces.",
                (
                    "It lies 6° from Saturn towards 4 o'clock, 8° from Omega Piscium towards 7 o'clock and "
                    f"7° from Lambda Piscium towards 9 o'clock. {CHART}"
                ),
                (
                    f"{OUTSIDE} a faint star of a pale blue, if you see its colour at all, among others like "
                    "it (magnitude 7.7)."
                ),
                "A disc, no longer a star, from about 150x: take 8 mm, 150x.",
            ),
        ),
        (
            Body.SATURN,
            (
                "Saturn at 21:00: south, half way up: 50° (azimuth 199°), in Cetus.",
                "It lies 15° from Algenib towards 8 o'clock.",
                "To the eye it is a steady, pale yellow star (magnitude 0.6).",
                "Even your lowest power shows a disc, not a star.",
            ),
        ),
        (
            Body.VENUS,
            (
                "Venus at 07:15: south-east, a third of the way up: 31° (azimuth 138°), in Virgo.",
                "It lies 15° from the Moon towards 12 o'clock.",
                "To the eye it is brilliant white, brighter than any star (magnitude −4.8).",
                "Even your lowest power shows a disc, not a star.",
            ),
        ),
        (Body.MOON, ("The Moon at 07:15: south-east, low: 16° (azimuth 136°), in Libra.",)),
    ],
)
def test_how_each_is_found_in_its_sentences(body: Body, sentences: tuple[str, ...]) -> None:
    """5 December 2026, each at nine or at its best; the figures are held against tables elsewhere."""
    at = situation(AT_NINE, Body.SATURN if body in (Body.VENUS, Body.MOON) else body)
    clock = clock_of(at)
    assert clock is not None
    finding = next(each for each in at.findings if each.body is body)

    assert tuple(finding_sentences(finding, clock, has_scope=True)) == sentences
    # Without a telescope nothing of a disc; on the sheet of an evening it is told of a faint one alone.
    without_disc = tuple(sentence for sentence in sentences if "disc" not in sentence)
    assert tuple(finding_sentences(finding, clock, has_scope=False)) == without_disc
    brief = tuple(brief_finding_sentences(finding, clock))
    assert brief == (sentences if body in (Body.URANUS, Body.NEPTUNE) else without_disc)


def test_a_colour_and_a_height_for_each_planet_of_the_night() -> None:
    text = findings_text(situation(AT_NINE, Body.SATURN))

    assert "To the eye it is a steady orange star (magnitude 0.4)." in paragraph(text, "Mars")
    assert (
        "To the eye it is a steady, creamy white star, brighter than any real one (magnitude −2.2)."
        in paragraph(text, "Jupiter")
    )


@pytest.mark.parametrize(
    ("disc", "words"),
    [
        ({"has_kit": False}, "A disc, no longer a star, from about 90x."),
        (
            {"combination": None},
            "A disc, no longer a star, from about 90x: more than your eyepieces give.",
        ),
        (
            {"borne_power": 73.0},
            (
                "Hardly a disc tonight: that takes about 90x, and there aperture and air (seeing) bear about "
                "75x."
            ),
        ),
        # What is borne is enough, or as good as enough, but nothing owned lies between.
        (
            {"borne_power": 95.0},
            (
                "A disc, no longer a star, from about 90x: your first such power, 100x, is over the 95x or "
                "so that aperture and air (seeing) bear."
            ),
        ),
        (
            {"borne_power": 91.0},
            (
                "A disc, no longer a star, from about 90x: your first such power, 100x, is over the 90x or "
                "so that aperture and air (seeing) bear."
            ),
        ),
        ({"at_once": True}, "Even your lowest power shows a disc, not a star."),
        ({}, "A disc, no longer a star, from about 90x: take 12 mm, 100x."),
        (None, "In an aperture this small it stays a star at any power."),
    ],
)
def test_from_which_power_it_is_a_disc(disc: dict[str, object] | None, words: str) -> None:
    at = situation(AT_NINE, Body.URANUS)
    found, clock = at.finding, clock_of(at)
    assert found is not None
    assert found.disc_from is not None
    assert clock is not None
    changed = None if disc is None else evolve(found.disc_from, **disc)  # type: ignore[arg-type]

    *_, last = finding_sentences(evolve(found, disc_from=changed), clock, has_scope=True)

    assert last == words


def test_an_instrument_of_its_own_powers_is_set_to_one() -> None:
    """30 to 120x in steps of at most 1.25 times: 98x is the first over some 92x."""
    zoom = Telescope(
        id="z", name="Zoom", kind=TelescopeKind.FIXED, aperture_mm=100, power_min=30, power_max=120
    )
    text = findings_text(situation(AT_NINE, Body.URANUS, evolve(KIT, telescopes=(zoom,), eyepieces=())))

    assert paragraph(text, "Uranus").endswith(
        "A disc, no longer a star, from about 90x: set the telescope to 98x."
    )


def test_what_is_near_is_told_to_a_tenth_of_a_degree() -> None:
    at = situation(AT_NINE, Body.URANUS)
    assert at.finding is not None
    (landmark, _) = at.finding.landmarks

    near, far = (landmark_text(evolve(landmark, angle_deg=angle)) for angle in (2.94, 3.0))

    assert near == "2.9° from Aldebaran towards 12 o'clock"
    assert far == "3° from Aldebaran towards 12 o'clock"


def test_where_nothing_bright_is_near_only_the_chart_is_told() -> None:
    at = situation(AT_NINE, Body.NEPTUNE)
    clock = clock_of(at)
    assert at.finding is not None
    assert clock is not None

    alone = list(finding_sentences(evolve(at.finding, landmarks=()), clock, has_scope=False))

    assert alone[1] == "To tell it from the stars around it takes a chart, followed from star to star."
