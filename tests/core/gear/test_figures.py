"""Figures as people write them: what is read, what is asked, what is refused."""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.figures import (
    ZoomRange,
    parse_aperture_mm,
    parse_apparent_field_deg,
    parse_barrel_mm,
    parse_eyepiece_mm,
    parse_factor,
    parse_fixed_instrument,
    parse_focal_length_mm,
    parse_power,
    parse_temperature_c,
    parse_temperature_difference_c,
)
from core.gear.numbers import FigureError, Unit, parse_number
from tests.core.gear.answers import doubt, refusal

NO_BREAK, NARROW_NO_BREAK = "\u00a0", "\u202f"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12,5", 12.5),
        ("12.5", 12.5),
        (" 12,5 ", 12.5),
        (f"12,5{NO_BREAK}", 12.5),
        ("1200,5", 1200.5),
        ("1200,500", 1200.5),
        (f"1{NARROW_NO_BREAK}200,5", 1200.5),
        ("1 200", 1200),
        (",5", 0.5),
        ("5.", 5),
        ("½", 0.5),
        ("4½", 4.5),
        ("4 1/2", 4.5),
        ("1¼", 1.25),
        ("10¾", 10.75),
        ("3/4", 0.75),
        ("42/2", 21),  # two halves are no part of four and two halves
        ("40/2", 20),
        ("-5", -5),
        ("−5,5", -5.5),
        ("+5", 5),
        ("0.965", 0.965),
        ("0,500", 0.5),
        ("１２．５", 12.5),
        ("١٢٫٥", 12.5),
    ],
)
def test_a_number_with_either_decimal_mark(text: str, value: float) -> None:
    assert parse_number(text) == value


@pytest.mark.parametrize(
    "text",
    ["", "  ", "abc", "nan", "inf", "-inf", "1e3", "0x10", "12 5", "1,2,3", "1/0", "--5", "True", "9" * 50],
)
def test_what_is_no_number_is_refused_in_one_sentence(text: str) -> None:
    sentence = refusal(parse_number, text)

    assert sentence.endswith(".")
    assert "\n" not in sentence


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("1.200", [1.2, 1200]),
        ("1,200", [1.2, 1200]),
        ("120,500", [120.5, 120_500]),
        ("1.200,5", [1200.5]),
        ("1,200.5", [1200.5]),
        ("1.200.000", [1_200_000]),
        ("41/2", [4.5, 20.5]),
        ("101/2", [10.5, 50.5]),
    ],
)
def test_a_number_with_two_readings_is_asked_about(text: str, values: list[float]) -> None:
    assert [value for _, value in doubt(parse_number, text)] == values


def test_three_decimals_are_no_doubt_where_thousands_cannot_be_meant() -> None:
    assert parse_number("38.722", low=-90, high=90) == 38.722
    assert parse_eyepiece_mm("12,500") == ZoomRange(12.5)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("114", 114),
        ("4.5 in", 114.3),
        ('4 1/2"', 114.3),
        ("4½ in", 114.3),
        ("4½″", 114.3),
        ("4½”", 114.3),
        ("4½“", 114.3),
        ("4.5''", 114.3),
        ('4-1/2"', 114.3),
        (f"4{NO_BREAK}1/2{NO_BREAK}in", 114.3),
        ("4,5 inches", 114.3),
        ("11.4 cm", 114),
        ("11,4cm", 114),
        ("0.203 m", 203),
        ("8 in", 203.2),
        ("8 IN.", 203.2),
        ("900 mm", 900),
        ("114,3", 114.3),
        ("150 millimetres", 150),
        ("10-inch", 254),
        ("10–inch", 254),
        ("8 - in", 203.2),
        ("4 3/4-inch", 120.65),
        ("4½-inch", 114.3),
        ("203-mm", 203),
    ],
)
def test_apertures(text: str, mm: float) -> None:
    assert parse_aperture_mm(text) == mm


@pytest.mark.parametrize(
    ("text", "candidates"),
    [
        ("8", [("8 cm", 80), ("8 in", 203.2)]),
        ("900", [("900 mm", 900)]),
        ("41/2", [("4.5 in", 114.3), ("20.5 in", 520.7)]),
        ("41/2-inch", [("4.5 in", 114.3), ("20.5 in", 520.7)]),
        ("4 1/2", [("4.5 in", 114.3)]),
        ("30", [("30 cm", 300), ("30 mm", 30)]),
        ("1.200", [("1200 mm", 1200)]),
    ],
)
def test_an_unlikely_bare_aperture_is_asked_about(text: str, candidates: list[tuple[str, float]]) -> None:
    assert doubt(parse_aperture_mm, text) == candidates


def test_owners_of_inches_type_inches() -> None:
    def parse(text: str) -> float:
        return parse_aperture_mm(text, unit=Unit.INCH)

    assert parse("8") == 203.2
    assert parse("4 1/2") == 114.3
    assert parse("203 mm") == 203
    assert doubt(parse, "114") == [("114 mm", 114)]
    # 20 to 2000 mm over 25.4 mm an inch.
    with pytest.raises(FigureError, match=r"The aperture must be from 0\.79 to 78\.74 in, not “900 in”"):
        parse("900 in")


@pytest.mark.parametrize("text", ["8", "900", "41/2", "4 1/2", "30", "1.200", "25"])
def test_every_offered_reading_can_be_typed_without_doubt(text: str) -> None:
    for typed, value in doubt(parse_aperture_mm, text):
        assert parse_aperture_mm(typed) == value


@pytest.mark.parametrize(("text", "shown"), [("-5", "“-5”"), ("5 m", "“5 m”"), ("3000 mm", "“3000 mm”")])
def test_an_aperture_out_of_range_is_told_the_range(text: str, shown: str) -> None:
    assert refusal(parse_aperture_mm, text) == f"The aperture must be from 20 to 2000 mm, not {shown}."


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1200", 1200),
        ("f/8", 1200),
        ("F/8", 1200),
        ("f8", 1200),
        ("f/ 8,5", 1275),
        ("f:8", 1200),
        ("1:8", 1200),
        ("1200-mm", 1200),
        ("48 in", 1219.2),
        ("1,2 m", 1200),
        ("1 200 mm", 1200),
    ],
)
def test_focal_lengths(text: str, mm: float) -> None:
    assert parse_focal_length_mm(text, aperture_mm=150) == mm


@pytest.mark.parametrize(("ratio", "mm"), [("f/1.5", 225), ("f/40", 6000), ("1:4", 600)])
def test_a_focal_ratio_is_from_one_and_a_half_to_forty(ratio: str, mm: float) -> None:
    assert parse_focal_length_mm(ratio, aperture_mm=150) == mm


def test_other_focal_ratios_are_refused_with_that_range() -> None:
    for ratio in ("f/1.4", "f/41"):
        with pytest.raises(FigureError, match=r"from 1\.5 to 40"):
            parse_focal_length_mm(ratio, aperture_mm=150)


def test_a_focal_ratio_needs_the_aperture() -> None:
    assert refusal(parse_focal_length_mm, "f/8") == "“f/8” is a focal ratio; give the aperture first."


def test_a_focal_length_out_of_range_is_told_in_the_owners_unit_to_a_hundredth() -> None:
    """50 and 20,000 mm are 1.9685 and 787.4016 in, of 25.4 mm each."""
    with pytest.raises(FigureError, match=r"from 1\.97 to 787\.4 in, not"):
        parse_focal_length_mm("900", unit=Unit.INCH)


def test_a_bare_focal_ratio_and_a_grouped_figure_are_asked_about() -> None:
    def parse(text: str) -> float:
        return parse_focal_length_mm(text, aperture_mm=150)

    assert doubt(parse, "8") == [("f/8", 1200)]
    assert doubt(parse, "1.200") == [("1200 mm", 1200)]


PARSERS: list[Callable[[str], object]] = [
    parse_number,
    parse_aperture_mm,
    parse_focal_length_mm,
    parse_eyepiece_mm,
    parse_barrel_mm,
    parse_factor,
    parse_fixed_instrument,
    parse_power,
    parse_apparent_field_deg,
    parse_temperature_c,
    parse_temperature_difference_c,
]


@settings(deadline=None)
@given(st.text(max_size=50) | st.text(alphabet="0123456789.,/- x½¼\"'mcinf°%×–", max_size=12))
def test_any_text_is_read_asked_about_or_refused(text: str) -> None:
    for parse in PARSERS:
        sentence = ""
        try:
            parse(text)
        except FigureError as error:
            sentence = str(error)
        assert "\n" not in sentence


@settings(deadline=None)
@given(st.floats(2, 60).map(lambda value: round(value, 2)))
def test_the_decimal_mark_of_either_habit_never_changes_the_figure(focal_length_mm: float) -> None:
    with_point = f"{focal_length_mm}"

    assert parse_eyepiece_mm(with_point) == ZoomRange(focal_length_mm)
    assert parse_eyepiece_mm(with_point.replace(".", ",")) == ZoomRange(focal_length_mm)


def test_a_refused_text_is_repeated_whole_up_to_forty_signs() -> None:
    forty = "9" * 40

    assert refusal(parse_power, forty).endswith(f"not “{forty}”.")
    assert refusal(parse_power, f"{forty}9") == f"“{forty[1:]}…” is too long for a number."


@pytest.mark.parametrize(
    ("parse", "text", "sentence"),
    [
        (parse_factor, "2000", "The factor must be from -1000 to 1000, not “2000”."),
        (parse_temperature_difference_c, "500", "The difference must be from"),
        (parse_fixed_instrument, "20x3000", "The aperture must be from 20 to 2000 mm, not “3000”."),
    ],
)
def test_a_refusal_names_what_and_the_allowed_range(
    parse: Callable[[str], object], text: str, sentence: str
) -> None:
    assert refusal(parse, text).startswith(sentence)
