"""Fields: the barrel caps the stop, and what asks for more is cut and said so."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.gear.fields import ShownField, shown_field, usable_stop_mm, widest_stop_mm
from core.gear.owned import BARRELS_MM, Eyepiece
from tests.core.gear.examples import eyepiece


def shown(thing: Eyepiece, focal_length_mm: float = 1000) -> ShownField:
    length = thing.focal_length_mm
    assert length is not None
    found = shown_field(
        thing,
        eyepiece_focal_length_mm=length,
        apparent_field_deg=thing.apparent_field_deg,
        focal_length_mm=focal_length_mm,
    )
    assert found is not None
    return found


def test_a_field_inside_the_barrel_is_apparent_field_over_power() -> None:
    found = shown(eyepiece(25, 50))

    assert found == ShownField(true_field_deg=1.25, apparent_field_deg=50, cut=False)


def test_a_40_mm_of_68_degrees_does_not_fit_the_usual_barrel() -> None:
    # 40 mm x 68° asks for a stop of 47.5 mm; 27 mm over 1000 mm is 1.547° (published, see gear.csv).
    found = shown(eyepiece(40, 68))

    assert found.cut
    assert found.true_field_deg == pytest.approx(1.54689, abs=1e-5)
    assert found.apparent_field_deg == pytest.approx(38.7, abs=0.1)
    wide = shown(eyepiece(50, 68, barrel_mm=50.8))
    assert wide.cut
    assert wide.true_field_deg == pytest.approx(math.degrees(2 * math.atan(46 / 2000)))


def test_the_figures_of_a_usual_long_eyepiece_stand() -> None:
    """40 mm of 44 degrees behind 2000 mm and 0.63: 1.40°, as observers reckon it (common practice)."""
    found = shown(eyepiece(40, 44), 1260)

    assert not found.cut
    assert found.true_field_deg == pytest.approx(1.40, abs=0.005)
    assert not shown(eyepiece(32, 52)).cut
    assert not shown(eyepiece(40, 68, barrel_mm=50.8)).cut


def test_a_typed_field_stop_is_preferred_and_capped_too() -> None:
    assert shown(eyepiece(25, 52, field_stop_mm=21.2)).true_field_deg == pytest.approx(1.2146, abs=1e-4)
    impossible = shown(eyepiece(32, 52, field_stop_mm=31))
    assert impossible.cut
    assert impossible.true_field_deg == pytest.approx(1.54689, abs=1e-5)


@pytest.mark.parametrize(
    ("thing", "stop_mm"),
    [
        (eyepiece(25, 52, field_stop_mm=21.2), 21.2),
        (eyepiece(32, 52, field_stop_mm=31), 27.0),  # what the usual barrel leaves (common practice)
        (eyepiece(25, 52), 22.7),  # 25 x 52 degrees in radians, 0.9076
        (eyepiece(40, 68), 27.0),
        (eyepiece(40, 68, barrel_mm=50.8), 46.0),
        (eyepiece(25), None),
    ],
)
def test_the_stop_is_the_one_typed_else_what_the_field_asks_for_and_never_wider_than_the_barrel(
    thing: Eyepiece, stop_mm: float | None
) -> None:
    assert thing.focal_length_mm is not None

    found = usable_stop_mm(thing, thing.focal_length_mm, thing.apparent_field_deg)

    assert found == (None if stop_mm is None else pytest.approx(stop_mm, abs=0.02))


def test_without_any_figure_there_is_no_field() -> None:
    found = shown_field(
        eyepiece(10), eyepiece_focal_length_mm=10, apparent_field_deg=None, focal_length_mm=1000
    )

    assert found is None


@given(st.floats(2, 60), st.floats(20, 120), st.sampled_from(BARRELS_MM), st.floats(200, 4000))
def test_no_field_is_wider_than_the_barrel(
    length: float, apparent: float, barrel: float, focal: float
) -> None:
    found = shown(eyepiece(length, apparent, barrel_mm=barrel), focal)

    # Apparent field over power may be a little wider than the stop shows, by the distortion in the figures.
    widest = 1.15 * math.degrees(widest_stop_mm(barrel) / focal)
    assert found.true_field_deg <= widest * (1 + 1e-9)
