"""Figures as people write them: what is read, what is asked, what is refused."""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.figures import (
    FixedFigures,
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
from core.gear.numbers import DoubtfulFigureError, FigureError, Unit, parse_number

NO_BREAK, NARROW_NO_BREAK = "\u00a0", "\u202f"


def doubt(parse: Callable[[str], object], text: str) -> list[tuple[str, float]]:
    """Return the candidates of a doubtful figure as text and value."""
    with pytest.raises(DoubtfulFigureError) as caught:
        parse(text)
    assert caught.value.question.endswith(("?", "."))
    assert str(caught.value) == caught.value.question
    return [(candidate.text, candidate.value) for candidate in caught.value.candidates]


def refusal(parse: Callable[[str], object], text: str) -> str:
    """Return the sentence of a refused figure that is no question."""
    with pytest.raises(FigureError) as caught:
        parse(text)
    assert not isinstance(caught.value, DoubtfulFigureError)
    return str(caught.value)


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


def test_a_focal_ratio_needs_the_aperture() -> None:
    assert refusal(parse_focal_length_mm, "f/8") == "“f/8” is a focal ratio; give the aperture first."


def test_a_bare_focal_ratio_and_a_grouped_figure_are_asked_about() -> None:
    def parse(text: str) -> float:
        return parse_focal_length_mm(text, aperture_mm=150)

    assert doubt(parse, "8") == [("f/8", 1200)]
    assert doubt(parse, "1.200") == [("1200 mm", 1200)]


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("25", (25, None)),
        ("12,5", (12.5, None)),
        ("25 mm", (25, None)),
        ("8-24", (8, 24)),
        ("8–24 mm", (8, 24)),
        ("8—24", (8, 24)),
        ("8 - 24mm", (8, 24)),
        ("8 to 24", (8, 24)),
        ("7,2-21,5", (7.2, 21.5)),
        ("24-8", (8, 24)),
        ("8-24 zoom", (8, 24)),
        ("8-24-mm zoom", (8, 24)),
        ("25-mm", (25, None)),
        ("10-10", (10, None)),
    ],
)
def test_eyepieces_and_zooms(text: str, ends: tuple[float, float | None]) -> None:
    assert parse_eyepiece_mm(text) == ZoomRange(*ends)


def test_an_eyepiece_that_lost_its_decimal_mark_is_asked_about() -> None:
    assert doubt(parse_eyepiece_mm, "125") == [("12.5 mm", 12.5)]
    assert "from 2 to 60 mm" in refusal(parse_eyepiece_mm, "900")
    assert "from 2 to 60 mm" in refusal(parse_eyepiece_mm, "1-24")


@pytest.mark.parametrize(
    ("texts", "barrel_mm"),
    [
        (('1.25"', "1.25", "1,25 in", "1¼”", '1 1/4"', "31.75", "31,7 mm", "31.8", "31.750"), 31.75),
        (('2"', "2", "2-inch", "2 in", "50.8", "50,8 mm", "2″"), 50.8),
        (('0.965"', ".965", "0,965 in", "24.5", "24,5 mm"), 24.5),
    ],
)
def test_barrels(texts: tuple[str, ...], barrel_mm: float) -> None:
    for text in texts:
        assert parse_barrel_mm(text) == barrel_mm


@pytest.mark.parametrize("text", ["", "3", "1.25 mm", "1.5", "abc"])
def test_other_barrels_are_refused_with_the_three(text: str) -> None:
    assert "24.5, 31.75 or 50.8 mm (0.965, 1.25 or 2 in)" in refusal(parse_barrel_mm, text)


@pytest.mark.parametrize(
    ("text", "factor"),
    [("2x", 2), ("2.5x", 2.5), ("×2,5", 2.5), ("x2", 2), ("0.63", 0.63), ("0,63X", 0.63), ("5", 5)],
)
def test_factors(text: str, factor: float) -> None:
    assert parse_factor(text) == factor


@pytest.mark.parametrize("text", ["6.3", "6,3", "63", "63 %", "63%", "f/6.3"])
@pytest.mark.parametrize("reducer", [False, True])
def test_a_reducer_misread_as_focal_ratio_or_percentage_is_asked_about(text: str, reducer: bool) -> None:
    assert doubt(lambda typed: parse_factor(typed, reducer=reducer), text) == [("0.63x", 0.63)]


def test_a_barlow_in_a_reducers_box_is_refused_or_asked_about() -> None:
    def parse(text: str) -> float:
        return parse_factor(text, reducer=True)

    assert parse("0.63") == 0.63
    assert doubt(parse, "3.3") == [("0.33x", 0.33)]
    assert "from 0.3 to 0.95" in refusal(parse, "2x")


@pytest.mark.parametrize("text", ["1", "1.05", "0", "-2", "600", "0.1"])
def test_a_factor_between_or_beyond_the_ranges_is_refused(text: str) -> None:
    sentence = refusal(parse_factor, text)

    assert "from 1.1 to 5 for a Barlow or from 0.3 to 0.95 for a reducer" in sentence


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("20-60x80", (20, 60, 80)),
        ("20-60×80", (20, 60, 80)),
        ("20–60X80", (20, 60, 80)),
        ("20 — 60 x 80 mm", (20, 60, 80)),
        ("15-45x60", (15, 45, 60)),
        ("25x", (25, None, None)),
        ("25", (25, None, None)),
        ("7x50", (7, None, 50)),
        ("8,5x42", (8.5, None, 42)),
    ],
)
def test_fixed_instruments_as_written_on_the_body(
    text: str, figures: tuple[float, float | None, float | None]
) -> None:
    assert parse_fixed_instrument(text) == FixedFigures(*figures)


def test_a_fixed_instrument_back_to_front_is_asked_about() -> None:
    assert doubt(parse_fixed_instrument, "50x10")[0][0] == "10x50"
    assert "has no power" in refusal(parse_fixed_instrument, "x50")
    assert "from 1 to 500" in refusal(parse_fixed_instrument, "600x80")


def test_temperatures_in_both_units() -> None:
    """A garage at 50 F and air at 30 F falling to 20 F: 10, -1.1 and -6.7 °C, a start 11 °C too warm."""
    assert parse_temperature_c("50 F") == 10
    assert parse_temperature_c("30°F") == pytest.approx(-1.1, abs=0.02)
    assert parse_temperature_c("20", fahrenheit=True) == pytest.approx(-6.7, abs=0.04)
    assert parse_temperature_c("−1,1 °C") == -1.1
    assert parse_temperature_c("10 c", fahrenheit=True) == 10
    assert parse_temperature_difference_c("20 F") == pytest.approx(11.1, abs=0.02)
    assert "from -60 to 60 °C" in refusal(parse_temperature_c, "300")


def test_fields_and_powers() -> None:
    assert parse_apparent_field_deg("52°") == 52
    assert parse_apparent_field_deg("100 deg") == 100
    assert "from 20 to 120 degrees" in refusal(parse_apparent_field_deg, "130")
    assert parse_power("150x") == 150
    assert parse_power("675×", high=5000) == 675
    assert refusal(parse_power, "675x") == "The power must be from 1 to 500, not “675”."


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
