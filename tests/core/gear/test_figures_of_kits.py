"""Figures of eyepieces, Barlows and instruments with a power of their own, as people write them."""

from collections.abc import Callable

import pytest

from core.gear.figures import (
    FixedFigures,
    ZoomRange,
    parse_apparent_field_deg,
    parse_barrel_mm,
    parse_eyepiece_mm,
    parse_factor,
    parse_fixed_instrument,
    parse_power,
    parse_temperature_c,
    parse_temperature_difference_c,
)
from core.gear.numbers import FigureError
from tests.core.gear.answers import doubt, refusal


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
    # 18 F apart are 10 °C apart, and 10 are 10 where the owner's own unit is °C.
    assert parse_temperature_difference_c("18", fahrenheit=True) == pytest.approx(10)
    assert (parse_temperature_difference_c("10"), parse_temperature_c("10")) == (10, 10)
    assert "from -60 to 60 °C" in refusal(parse_temperature_c, "300")


@pytest.mark.parametrize(
    ("parse", "low", "high"),
    [(parse_temperature_c, "-76 F", "140 F"), (parse_temperature_difference_c, "-108 F", "108 F")],
)
def test_temperatures_in_fahrenheit_have_the_same_range(
    parse: Callable[[str], float], low: str, high: str
) -> None:
    """-60 and 60 °C are -76 and 140 °F, and 60 °C apart are 108 °F apart."""
    assert (parse(low), parse(high)) == (-60, 60)
    for beyond in ("-109 F", "141 F"):
        with pytest.raises(FigureError, match=f"from {low[:-2]} to {high[:-2]} °F"):
            parse(beyond)


def test_fields_and_powers() -> None:
    assert parse_apparent_field_deg("52°") == 52
    assert parse_apparent_field_deg("100 deg") == 100
    assert "from 20 to 120 degrees" in refusal(parse_apparent_field_deg, "130")
    assert parse_power("150x") == 150
    assert parse_power("675×", high=5000) == 675
    assert refusal(parse_power, "675x") == "The power must be from 1 to 500, not “675”."
