"""The picture in the eyepiece, in words: its moons, and how much it is enlarged."""

from datetime import UTC, datetime

import ephem
import pytest

from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.looks.picture.sight import Sight
from core.looks.picture.subject import subject_at
from core.sky.bodies import Body
from core.words.eyepiece import enlarged_words, moon_words

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
        (0.9, "about as large as it looks"),
        (1.1, "about as large as it looks"),
        (2.24, "enlarged 2.2 times"),
        (8.6, "enlarged 9 times"),
    ],
)
def test_how_much_it_is_enlarged(times: float, words: str) -> None:
    assert enlarged_words(times) == words
