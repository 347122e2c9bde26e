"""What is typed for a thing finds it, or is told what there is."""

import unicodedata

import pytest

from core.gear.owned import Telescope, TelescopeKind
from core.problems import ProblemsError
from core.record.choose import choose, choose_planet
from core.sky.bodies import Body


def scope(name: str, identity: str) -> Telescope:
    return Telescope(
        id=identity, name=name, kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200
    )


SIX, SMALL, LUNETTE = scope("Six-inch", "six"), scope("Small one", "80"), scope("Lunette bleutée", "l")
SCOPES = (SIX, SMALL, LUNETTE)


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        (None, SIX),
        ("six", SIX),
        ("SIX", SIX),
        ("six-INCH", SIX),
        ("80", SMALL),
        (" Small one ", SMALL),
        (unicodedata.normalize("NFD", "Lunette bleutée"), LUNETTE),
        (unicodedata.normalize("NFC", "LUNETTE BLEUTÉE"), LUNETTE),
    ],
)
def test_a_name_or_an_id_finds_its_thing(wanted: str | None, found: Telescope) -> None:
    assert choose(SCOPES, wanted, what="telescope") is found


def test_an_id_goes_before_a_name() -> None:
    named_like_an_id = scope("six", "other")

    assert choose((named_like_an_id, SIX), "six", what="telescope") is SIX


def test_the_very_letters_go_before_others() -> None:
    lower, upper = scope("dob", "a"), scope("DOB", "b")

    assert choose((lower, upper), "DOB", what="telescope") is upper
    with pytest.raises(ProblemsError, match=r"“Dob” could be any of “dob” .*“DOB”"):
        choose((lower, upper), "Dob", what="telescope")


def test_what_is_not_there_is_told_with_all_there_is() -> None:
    with pytest.raises(ProblemsError) as caught:
        choose(SCOPES, "seven\x1b", what="telescope", where="--scope")

    (problem,) = caught.value.problems
    assert problem.where == "--scope"
    assert problem.what.startswith("there is no telescope “seven�”; choose one of “Six-inch” (id six), ")
    assert "“Lunette bleutée” (id l)" in problem.what


def test_an_empty_profile_is_told_as_such() -> None:
    with pytest.raises(ProblemsError, match="the profile has no site yet"):
        choose((), None, what="site")


@pytest.mark.parametrize(
    ("word", "body"),
    [("saturn", Body.SATURN), ("Saturn", Body.SATURN), (" the Moon", Body.MOON), ("MOON", Body.MOON)],
)
def test_a_planet_by_its_word(word: str, body: Body) -> None:
    assert choose_planet(word) is body


def test_another_word_is_told_the_planets() -> None:
    with pytest.raises(ProblemsError, match=r"must be one of mercury, .*, moon, not “pluto”"):
        choose_planet("pluto")


def test_the_sun_is_refused_with_its_danger() -> None:
    with pytest.raises(ProblemsError, match="blinds at once"):
        choose_planet("Sun")
