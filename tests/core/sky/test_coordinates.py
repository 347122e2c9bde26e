"""Coordinates and bearings as people write them come out as the degrees they mean."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.problems import ProblemsError
from core.sky.coordinates import Axis, format_coordinate, parse_coordinate, true_azimuth_deg


@pytest.mark.parametrize(
    ("text", "axis", "expected_deg"),
    [
        ("41.15", Axis.LATITUDE, 41.15),
        ("41,15", Axis.LATITUDE, 41.15),
        ("  -33.86 ", Axis.LATITUDE, -33.86),
        ("−33.86", Axis.LATITUDE, -33.86),
        ("33.86 S", Axis.LATITUDE, -33.86),
        ("s33.86", Axis.LATITUDE, -33.86),
        ("41°9′ N", Axis.LATITUDE, 41.15),
        ("41 09 00 N", Axis.LATITUDE, 41.15),
        ("41:09:00", Axis.LATITUDE, 41.15),
        ("41°09'00\"N", Axis.LATITUDE, 41.15),
        ("41° 9,5' N", Axis.LATITUDE, 41 + 9.5 / 60),
        ("0 30 S", Axis.LATITUDE, -0.5),
        ("-0 30", Axis.LATITUDE, -0.5),
        ("8°36′36″ W", Axis.LONGITUDE, -8.61),
        ("W 8 36 36", Axis.LONGITUDE, -8.61),
        ("351.39", Axis.LONGITUDE, -8.61),
        ("360", Axis.LONGITUDE, 0.0),
        ("180", Axis.LONGITUDE, 180.0),
        ("-180", Axis.LONGITUDE, -180.0),
        ("90", Axis.LATITUDE, 90.0),
        ("3 W", Axis.DECLINATION, -3.0),
        ("2°30′ E", Axis.DECLINATION, 2.5),
        ("-0,5", Axis.DECLINATION, -0.5),
    ],
)
def test_every_usual_way_of_writing_an_angle_is_taken(text: str, axis: Axis, expected_deg: float) -> None:
    assert parse_coordinate(text, axis) == pytest.approx(expected_deg, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "axis", "told"),
    [
        ("95", Axis.LATITUDE, "latitude: must be from -90 to 90 degrees, not 95"),
        ("200 W", Axis.LONGITUDE, "longitude: must be from -180 to 180 degrees, not 200"),
        ("-190", Axis.LONGITUDE, "longitude: must be from -180 to 180 degrees, not -190"),
        ("3 N", Axis.DECLINATION, "magnetic declination: takes E or W once, not N"),
        ("200", Axis.DECLINATION, "magnetic declination: must be from -180 to 180 degrees, not 200"),
        ("12 E", Axis.LATITUDE, "latitude: takes N or S once, not E"),
        ("N 12 S", Axis.LATITUDE, "latitude: takes N or S once, not N and S"),
        ("-12 S", Axis.LATITUDE, "latitude: '-12 S' has both a sign and S; give one of them"),
        ("12 61 N", Axis.LATITUDE, "latitude: minutes and seconds must be less than 60"),
        ("12.5 30", Axis.LATITUDE, "latitude: degrees before minutes must be a whole number"),
        ("12 30.5 10", Axis.LATITUDE, "latitude: minutes before seconds must be a whole number"),
        (
            "north",
            Axis.LATITUDE,
            "latitude: 'north' is not understood; write it like 41.15, 41 09 00 N or 41°9′ N",
        ),
        ("", Axis.LATITUDE, "latitude: '' is not understood; write it like 41.15, 41 09 00 N or 41°9′ N"),
        (
            "nan",
            Axis.LONGITUDE,
            "longitude: 'nan' is not understood; write it like -8.61, 8 36 36 W or 8°36.6′ W",
        ),
    ],
)
def test_what_is_no_angle_is_refused_in_one_sentence(text: str, axis: Axis, told: str) -> None:
    with pytest.raises(ProblemsError) as refused:
        parse_coordinate(text, axis)

    assert str(refused.value) == told


@given(st.floats(-180, 180, allow_nan=False))
def test_what_is_shown_reads_back_to_half_a_second(value_deg: float) -> None:
    shown = format_coordinate(value_deg, Axis.LONGITUDE)

    assert parse_coordinate(shown, Axis.LONGITUDE) == pytest.approx(value_deg, abs=0.5 / 3600 + 1e-9)


@pytest.mark.parametrize(
    ("bearing_deg", "declination_deg", "expected_deg"),
    # East declination adds to a bearing, west takes from it (navigators' rule, from memory).
    [(100, 10, 110), (100, -10, 90), (355, 10, 5), (5, -10, 355)],
)
def test_a_bearing_and_the_declination_give_the_true_azimuth(
    bearing_deg: float, declination_deg: float, expected_deg: float
) -> None:
    assert true_azimuth_deg(bearing_deg, declination_deg) == expected_deg
