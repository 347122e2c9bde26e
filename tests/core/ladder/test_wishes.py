"""What one more thing would give: read from what is typed, and told apart from what is owned."""

import pytest

from core.air.blur import Blur
from core.gear.numbers import DoubtfulFigureError
from core.gear.owned import Barlow, Eyepiece
from core.ladder.aim import aim_overhead
from core.ladder.ladder import build_ladder
from core.ladder.wishes import parse_thing, rungs_with
from core.problems import ProblemsError
from tests.core.gear.examples import barlow, eyepiece, telescope


@pytest.mark.parametrize("text", ["6 mm", "6mm", " 6 ", "6,0 mm"])
def test_an_eyepiece_is_read_from_its_focal_length(text: str) -> None:
    thing = parse_thing(text)
    assert isinstance(thing, Eyepiece)
    assert (thing.focal_length_mm, thing.name) == (6, "6 mm")


@pytest.mark.parametrize(
    ("text", "factor"),
    [("2.5x", 2.5), ("2,5×", 2.5), ("x3", 3), ("0.63x", 0.63), ("1.5", 1.5), ("0,63", 0.63)],
)
def test_a_barlow_is_read_from_its_factor(text: str, factor: float) -> None:
    thing = parse_thing(text)
    assert isinstance(thing, Barlow)
    assert thing.factor == factor


def test_a_zoom_is_read_from_both_ends() -> None:
    thing = parse_thing("8-24")
    assert isinstance(thing, Eyepiece)
    assert (thing.focal_length_min_mm, thing.focal_length_max_mm) == (8, 24)


def test_a_figure_that_may_be_either_is_asked_about() -> None:
    with pytest.raises(DoubtfulFigureError, match=r"did you mean 2\.5 mm or 2\.5x") as asked:
        parse_thing("2,5")
    for candidate in asked.value.candidates:
        parse_thing(candidate.text)


@pytest.mark.parametrize(("text", "is_asked"), [("1.9", False), ("2", True), ("5", True), ("5.1", False)])
def test_only_what_eyepieces_and_barlows_share_is_asked_about(text: str, is_asked: bool) -> None:
    """Eyepieces are from 2 mm, Barlows up to 5x."""
    if is_asked:
        with pytest.raises(DoubtfulFigureError):
            parse_thing(text)
    else:
        assert isinstance(parse_thing(text), Barlow if float(text) < 2 else Eyepiece)


@pytest.mark.parametrize("text", ["", "many", "100 mm", "9x"])
def test_what_is_neither_is_refused(text: str) -> None:
    with pytest.raises(ProblemsError):
        parse_thing(text)


@pytest.mark.parametrize("text", ["6 mm", "8-24", "2.5x"])
def test_it_comes_in_a_barrel_that_the_telescope_takes(text: str) -> None:
    assert parse_thing(text, scope=telescope(barrel_mm=24.5)).barrel_mm == 24.5
    assert parse_thing(text, scope=telescope(barrel_mm=50.8)).barrel_mm == 31.75
    assert parse_thing(text).barrel_mm == 31.75


def test_only_rungs_that_are_new_are_told() -> None:
    """By hand: 12 mm gives 100x and with 2x 200x, within 3 % of the 98.4x and 196.7x of an owned 12.2 mm."""
    owned, barlows = [eyepiece(12.2)], [barlow(2)]
    ladder = build_ladder(
        scope=telescope(), eyepieces=owned, barlows=barlows, aim=aim_overhead(), blur=Blur.assumed()
    )

    assert rungs_with(ladder, owned, barlows, eyepiece(12)) == ()
    # 1200 / 6 is 200x, also within 3 %; only its 400x is new.
    assert [round(rung.power) for rung in rungs_with(ladder, owned, barlows, eyepiece(6))] == [400]
    # 3 x 98.4; the 2x and the 3x are not stacked.
    (rung,) = rungs_with(ladder, owned, barlows, barlow(3))
    assert (round(rung.power), rung.label) == (295, "12.2 mm + 3x")
