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
from core.sky.why_not import NoWindow, WhyNot
from core.words.finding import NOTHING_TO_FIND, findings_text, ways_to_find
from core.words.why_not import why_not_words
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


def test_a_body_that_touches_the_horizon_is_not_told_to_be_above_nought() -> None:
    touching = NoWindow(kind=WhyNot.TOO_LOW, highest_deg=0.2, sun_lowest_deg=-40.0, sun_below_deg=-4.0)

    assert why_not_words(Body.MARS, touching) == "never clear of the horizon in a dark sky"
    higher = evolve(touching, highest_deg=7.2)
    assert why_not_words(Body.MARS, higher) == "never above 7° in a dark sky"
