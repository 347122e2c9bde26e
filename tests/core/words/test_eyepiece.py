"""The picture in the eyepiece, in words: how large it looks, its moons, and which way up it is."""

from datetime import UTC, datetime

import ephem
import pytest
from attrs import evolve

from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.looks.picture.sight import Sight
from core.looks.picture.subject import subject_at
from core.sky.bodies import Body
from core.words.eyepiece import (
    close_up_words,
    enlarged_words,
    enlarged_words_with_circle,
    moon_words,
    power_and_width_words,
    scale_words,
    size_words,
    turning_note,
    turning_words,
    whole_field_words,
    width_words,
)

SCOPE = Telescope(
    name="80 mm",
    kind=TelescopeKind.REFRACTOR,
    aperture_mm=80,
    focal_length_mm=600,
    diagonal=Diagonal.ERECT,
)


def sight_of(body: Body, time: datetime) -> Sight:
    """Return what an erect view with north on top shows."""
    return Sight(subject=subject_at(body, time), scope=SCOPE, power=48, air_arcsec=1.45, zenith_angle_deg=0.0)


def test_titan_is_told_by_its_distance_and_the_clock() -> None:
    """On 2026-11-14 at 0 h Titan stands 19.3 radii, so 9.7 widths, west of Saturn (PyEphem: x = -19.3)."""
    sight = sight_of(Body.SATURN, datetime(2026, 11, 14, tzinfo=UTC))

    # Erect and with north on top, west is at three o'clock; Saturn's axis leans by a few degrees only.
    told = moon_words(sight)
    assert told.startswith("Titan stands ")
    assert told.endswith(" times the width of Saturn away, towards 3 o'clock.")
    assert float(told.split()[2]) == pytest.approx(19.3 / 2.0, abs=0.1)


def test_jupiter_s_moons_stand_in_their_order() -> None:
    """On 2026-11-24 at 3 h, from east to west by PyEphem's x: the view is erect, east on the left."""
    time = datetime(2026, 11, 24, 3, tzinfo=UTC)
    # PyEphem's x grows eastwards, in radii of Jupiter.
    east = {"Jupiter": 0.0}
    for moon in (ephem.Io, ephem.Europa, ephem.Ganymede, ephem.Callisto):
        found = moon(time.replace(tzinfo=None))
        if found.earth_visible and found.sun_visible:
            east[found.name] = float(found.x)
    in_order = ", ".join(sorted(east, key=east.__getitem__, reverse=True))

    assert moon_words(sight_of(Body.JUPITER, time)) == f"Its moons from left to right: {in_order}."


@pytest.mark.parametrize("body", [Body.MARS, Body.MOON, Body.VENUS])
def test_what_has_no_moons_to_show_says_nothing_of_them(body: Body) -> None:
    assert moon_words(sight_of(body, datetime(2026, 11, 24, 3, tzinfo=UTC))) == ""


@pytest.mark.parametrize(
    ("times", "words"),
    [
        (0.4, "smaller than it looks"),
        # Within a sixth it is called as large.
        (0.857, "smaller than it looks"),
        (0.858, "about as large as it looks"),
        (1.166, "about as large as it looks"),
        (1.167, "enlarged 1.2 times"),
        (2.24, "enlarged 2.2 times"),
        (3.04, "enlarged 3 times"),
        (8.6, "enlarged 9 times"),
    ],
)
def test_how_much_it_is_enlarged(times: float, words: str) -> None:
    assert enlarged_words(times) == words


SATURN = sight_of(Body.SATURN, datetime(2026, 11, 14, tzinfo=UTC))
MARS, MOON = (sight_of(body, datetime(2026, 11, 24, 3, tzinfo=UTC)) for body in (Body.MARS, Body.MOON))


def test_how_large_it_looks_is_told_with_its_ring_where_it_has_one() -> None:
    """Mars, 7.6 seconds of arc across that night, is 6.1 minutes at 48x."""
    assert size_words(SATURN) == (
        "At 48x Saturn looks 15′ across (with its ring 35′), half as wide as the Moon to the naked eye."
    )
    assert size_words(MARS) == "At 48x Mars looks 6.1′ across, a fifth as wide as the Moon to the naked eye."
    assert (width_words(SATURN), width_words(SATURN, brief=True)) == ("35′ wide", "35′")
    assert power_and_width_words(SATURN) == "48x: 35′ wide"


def test_what_is_wider_than_the_field_fills_it_and_is_shown_in_part() -> None:
    close = evolve(MOON, power=480, true_field_deg=0.1)

    assert (width_words(close), width_words(close, brief=True)) == ("fills it", "fills it")
    assert power_and_width_words(close) == "480x: fills it"
    assert close_up_words(close) == "A part of it is enlarged, where day meets night."
    assert close_up_words(SATURN) == ""


def test_what_stands_under_the_pictures() -> None:
    assert whole_field_words(1.08) == "the whole field, 1.1°"
    assert enlarged_words_with_circle(2.24) == "enlarged 2.2 times; circle: the naked-eye Moon"
    assert scale_words(1.0) == (
        "All at one scale, about as large as it looks; the circle is the Moon to the naked eye"
    )


@pytest.mark.parametrize(
    ("diagonal", "turned", "drift"),
    [
        (Diagonal.ERECT, "Seen the right way up, north at 12 o'clock", "3 o'clock"),
        (Diagonal.NONE, "Seen upside down, north at 6 o'clock", "9 o'clock"),
        (
            Diagonal.STAR,
            "Seen the right way up, but mirror-reversed left to right, north at 12 o'clock",
            "9 o'clock",
        ),
    ],
)
def test_which_way_up_it_is_seen_and_where_it_drifts(diagonal: Diagonal, turned: str, drift: str) -> None:
    """With north on top the sky drifts westwards: to the right, to the left where the view is turned."""
    driven, nudged = (
        turning_words(evolve(SATURN, scope=evolve(SCOPE, diagonal=diagonal, driven=driven)))
        for driven in (True, False)
    )

    assert driven == f"{turned}."
    assert nudged == f"{turned}; it drifts towards {drift}."


def test_of_a_reflector_it_is_told_that_it_depends_on_where_one_stands() -> None:
    note = "A reflector's eyepiece sits at the side of the tube: what is up depends on where you stand."
    reflector = evolve(SCOPE, kind=TelescopeKind.REFLECTOR, diagonal=Diagonal.NONE)

    assert turning_note(SCOPE) is None
    assert turning_note(reflector) == note
    assert turning_words(evolve(SATURN, scope=reflector)).endswith(f" {note}")
