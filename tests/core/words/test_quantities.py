"""Figures as words: as many digits as they deserve, plain ones, and halves rounded up."""

import pytest

from core.words.quantities import (
    about_power_text,
    angle_text,
    detail_text,
    drift_text,
    factor_figure,
    field_text,
    inches_text,
    length_text,
    millimetres_text,
    path_text,
    per_mm_text,
    percent_text,
    power_text,
    pupil_text,
    rounded,
    rounded_text,
    times_text,
    two_figures,
)


# By hand. Python's own formats round a half to even, or down where the binary fraction is short.
@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [
        (162.5, 0, "163"),
        (0.5, 0, "1"),
        (2.5, 0, "3"),
        (0.05, 1, "0.1"),
        (2.675, 2, "2.68"),
        (1.005, 2, "1.01"),
        (0.15, 1, "0.2"),
        (162.49, 0, "162"),
        (1200 / 8 * (13 / 12), 0, "163"),
        (162.499_999_999_999_97, 0, "163"),
        (-0.5, 0, "-1"),
        (-0.4, 0, "0"),
        (0.0, 1, "0.0"),
        (1235.0, -1, "1240"),
        (1e-7, 2, "0.00"),
        (4e20, 0, "400000000000000000000"),
    ],
)
def test_halves_round_up_and_nothing_else_does(value: float, decimals: int, text: str) -> None:
    assert rounded_text(value, decimals) == text
    assert rounded(value, decimals) == float(text)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.000_67, "0.00067"),
        (0.000_067, "0.000067"),
        (0.574, "0.57"),
        (0.0, "0"),
        (1.0, "1"),
        (1.25, "1.3"),
        (1.78, "1.8"),
        (9.96, "10"),
        (99.4, "99"),
        (99.6, "100"),
        (125.0, "130"),
        (232.0, "230"),
        (1536.0, "1500"),
    ],
)
def test_two_figures_are_written_without_an_exponent(value: float, text: str) -> None:
    assert two_figures(value) == text


@pytest.mark.parametrize(
    ("ratio", "text"), [(152.4, "150 times"), (1.78, "1.8 times"), (0.0066, "0.0066 times")]
)
def test_how_much_more_light_is_never_told_with_an_exponent(ratio: float, text: str) -> None:
    assert times_text(ratio) == text


@pytest.mark.parametrize(
    ("power", "text"),
    [
        (7.5, "7.5x"),
        (9.94, "9.9x"),
        (9.95, "10x"),
        (10.0, "10x"),
        (10.4, "10x"),
        (10.5, "11x"),
        (162.5, "163x"),
    ],
)
def test_a_power_keeps_a_tenth_below_ten(power: float, text: str) -> None:
    assert power_text(power) == text


def test_a_power_per_mm_keeps_a_tenth() -> None:
    assert [per_mm_text(power, 60.0) for power in (150.0, 75.0, 120.0)] == [
        "2.5x per mm",
        "1.3x per mm",
        "2.0x per mm",
    ]


def test_a_length_keeps_the_two_decimals_of_a_barrel_and_no_zeros() -> None:
    assert [length_text(mm) for mm in (31.75, 8.0, 24.5, 4.125)] == ["31.75 mm", "8 mm", "24.5 mm", "4.1 mm"]


@pytest.mark.parametrize(
    ("exit_pupil_mm", "text"),
    [(4.0, "4.0 mm"), (1.25, "1.3 mm"), (1.0, "1.0 mm"), (0.99, "0.99 mm"), (0.645, "0.65 mm")],
)
def test_an_exit_pupil_keeps_a_hundredth_below_a_millimetre(exit_pupil_mm: float, text: str) -> None:
    assert pupil_text(exit_pupil_mm) == text


@pytest.mark.parametrize(
    ("field_deg", "text"),
    [
        (12.4, "12°"),
        (1.26, "1.3°"),
        (1.0, "1°"),
        (0.99, "59′"),
        (0.5, "30′"),
        (1 / 60, "1′"),
        (0.0166, "60″"),
        (0.005, "18″"),
        (None, "unknown"),
    ],
)
def test_a_field_is_told_in_degrees_minutes_or_seconds_of_arc(field_deg: float | None, text: str) -> None:
    assert field_text(field_deg) == text


@pytest.mark.parametrize(
    ("drift_s", "text"),
    [
        (41.2, "41 s"),
        (40.5, "41 s"),
        (119.4, "119 s"),
        (119.6, "2.0 min"),
        (120.0, "2.0 min"),
        (150.0, "2.5 min"),
        (3590.0, "59.8 min"),
        (3600.0, "over 1 h"),
        (7200.0, "over 1 h"),
        (None, "unknown"),
    ],
)
def test_a_drift_in_words(drift_s: float | None, text: str) -> None:
    assert drift_text(drift_s) == text


def test_a_mount_that_follows_the_sky_has_no_drift() -> None:
    assert drift_text(None, driven=True) == "none: driven"


def test_a_share_is_told_in_whole_per_cent() -> None:
    assert [percent_text(share) for share in (0.25, 0.125, 0.005)] == ["25%", "13%", "1%"]


@pytest.mark.parametrize(
    ("length_in", "inches", "millimetres"),
    [
        (4.5, "4.5", "114.3"),
        (4.75, "4.75", "120.65"),
        (3.5625, "3.5625", "90.5"),
        (150 / 25.4, "5.91", "150"),
        (31.75 / 25.4, "1.25", "31.75"),
        (80.04 / 25.4, "3.15", "80.04"),
    ],
)
def test_a_converted_length_tells_no_more_than_was_measured(
    length_in: float, inches: str, millimetres: str
) -> None:
    """25.4 mm make an inch by its definition; a typed figure stays as it was typed."""
    assert inches_text(length_in) == inches
    assert millimetres_text(length_in * 25.4) == millimetres


@pytest.mark.parametrize(
    ("power", "text"),
    [
        (7.4, "7x"),
        (9.4, "9x"),
        (9.6, "10x"),
        # From ten on in steps of five, from a hundred on of ten.
        (12.4, "10x"),
        (12.5, "15x"),
        (97.4, "95x"),
        (99.0, "100x"),
        (100.0, "100x"),
        (104.0, "100x"),
        (106.0, "110x"),
        (143.0, "140x"),
    ],
)
def test_a_power_by_a_rule_of_thumb_is_told_as_roughly_as_it_is_known(power: float, text: str) -> None:
    assert about_power_text(power) == text


def test_angles_paths_and_factors() -> None:
    assert (angle_text(44.5), angle_text(-0.84, 1)) == ("45°", "-0.8°")
    assert path_text(1.45) == "1.5"
    assert (factor_figure(0.63), factor_figure(2.0), factor_figure(2.15)) == ("0.63x", "2x", "2.15x")
    assert (detail_text(0.772), detail_text(1.0)) == ("0.77″", "1″")
