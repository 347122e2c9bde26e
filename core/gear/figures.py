"""Figures of gear as people write them: ``4 1/2"``, ``f/8``, ``8-24``, ``20-60×80``, ``0,63x``.

Each function returns numbers in mm, degrees or plain powers, or raises ``FigureError`` with one sentence;
what is doubtful is asked through ``DoubtfulFigureError`` and never guessed. Ranges are those of ``ranges``;
what counts as unlikely is common practice without a source.
"""

import math
import re

from attrs import frozen

from core.checks import Within, within
from core.gear.fahrenheit import FAHRENHEIT_PER_CELSIUS, to_celsius, to_fahrenheit
from core.gear.numbers import (
    Candidate,
    DoubtfulFigureError,
    FigureError,
    Unit,
    number_text,
    out_of_range,
    parse_length_mm,
    parse_number,
    shown,
    split_length,
    tidy,
    to_mm,
)
from core.gear.owned import BARRELS_MM
from core.gear.ranges import (
    APERTURE_MM,
    APPARENT_FIELD_DEG,
    BARLOW_FACTOR,
    EYEPIECE_MM,
    FOCAL_LENGTH_MM,
    OWN_POWER,
    REDUCER_FACTOR,
    TEMPERATURE_C,
)

# An aperture typed without its unit is believed inside these and asked about outside.
_LIKELY_APERTURE = {Unit.MM: within(40, 600), Unit.INCH: within(1.5, 25)}
_FOCAL_RATIOS = within(1.5, 40)
_BARREL_NAMES = "24.5, 31.75 or 50.8 mm (0.965, 1.25 or 2 in)"
_BARREL_TOLERANCE_MM = 0.3

_RATIO = re.compile(r"(?:f ?[/:]?|1 ?:) ?(?P<ratio>\d.*)", re.IGNORECASE)
_RANGE = re.compile(r"(?P<low>[\d.,/ ]*\d) ?(?:-|to|\.\.\.?) ?(?P<high>[\d.,/ ]*\d)")
_ZOOM = re.compile(r"\s*\bzoom\s*$", re.IGNORECASE)
_TEMPERATURE = re.compile(r"(?P<number>.*?\d[.,]?) ?°? ?(?P<unit>[CF]|celsius|fahrenheit)?", re.IGNORECASE)


@frozen
class ZoomRange:
    """An eyepiece's focal length in mm; ``high_mm`` is None unless it is a zoom."""

    low_mm: float
    high_mm: float | None = None


@frozen
class FixedFigures:
    """What is written on a fixed-power instrument: powers, and the aperture in mm where it is told."""

    power_min: float
    power_max: float | None
    aperture_mm: float | None


def parse_aperture_mm(text: str, *, unit: Unit = Unit.MM) -> float:
    """Return an aperture in mm (20 to 2000); ``unit`` is the owner's own, for a figure without one.

    A bare figure that would be an unusual aperture is asked about: ``8`` may be inches, ``900`` a focal
    length.

    >>> parse_aperture_mm("6 in")
    152.4
    """
    number, own_unit = split_length(text)
    if own_unit is None:
        if "/" in number:  # nobody writes fractions of a millimetre
            unit = _ask_about_fraction(text, number, unit)
        _ask_about_aperture(text, number, unit)
    return _aperture_mm(text, unit)


def parse_focal_length_mm(text: str, *, aperture_mm: float | None = None, unit: Unit = Unit.MM) -> float:
    """Return a telescope's focal length in mm (50 to 20,000), also from a focal ratio such as ``f/8``.

    A bare figure too short for a focal length is asked about where it can be a focal ratio.

    >>> parse_focal_length_mm("f/8", aperture_mm=150)
    1200.0
    """
    if match := _RATIO.fullmatch(tidy(text)):
        return _focal_length_from_ratio(match["ratio"], text, aperture_mm)
    number, own_unit = split_length(text)
    if own_unit is None and aperture_mm is not None:
        value = _plain_number(number)
        if value is not None and to_mm(value, unit) < FOCAL_LENGTH_MM.low and _FOCAL_RATIOS.holds(value):
            candidate = Candidate(f"f/{number_text(value)}", round(value * aperture_mm, 6))
            raise _question(text, "is very short for a focal length: did you mean the focal ratio", candidate)
    return parse_length_mm(
        text, low_mm=FOCAL_LENGTH_MM.low, high_mm=FOCAL_LENGTH_MM.high, what="The focal length", unit=unit
    )


def parse_eyepiece_mm(text: str) -> ZoomRange:
    """Return an eyepiece's focal length in mm (2 to 60), or both ends of a zoom: ``8-24``.

    A figure ten times too long, as when a decimal mark is lost, is asked about.

    >>> parse_eyepiece_mm("8-24")
    ZoomRange(low_mm=8.0, high_mm=24.0)
    """
    text = _ZOOM.sub("", text)
    number, unit = split_length(text)
    match = _RANGE.fullmatch(tidy(number))
    suffix = "" if unit is None else f" {unit}"
    if match is None:
        return ZoomRange(_one_eyepiece_mm(text))
    ends = sorted(_one_eyepiece_mm(match[end] + suffix) for end in ("low", "high"))
    if ends[0] == ends[1]:
        return ZoomRange(ends[0])
    return ZoomRange(ends[0], ends[1])


def parse_barrel_mm(text: str) -> float:
    """Return one of the three barrels in mm, written in inches or mm, with or without the unit.

    >>> parse_barrel_mm("1 1/4")
    31.75
    """
    number, unit = split_length(text)
    units = (Unit.MM, Unit.INCH) if unit is None else (unit,)
    value = _plain_number(number, high=100)
    if value is not None:
        for barrel_mm in BARRELS_MM:
            if any(abs(value * tried.mm - barrel_mm) <= _BARREL_TOLERANCE_MM for tried in units):
                return barrel_mm
    raise FigureError(f"A barrel is {_BARREL_NAMES}, not “{shown(text)}”.")


def parse_factor(text: str, *, reducer: bool = False) -> float:
    """Return the factor of a Barlow (1.1 to 5) or a reducer (0.3 to 0.95): ``2x``, ``×2,5``, ``0.63``.

    A percentage, a focal ratio, and in a reducer's box a figure with its decimal mark lost (``6.3``, ``63``)
    are asked about, and so is a figure past 5 in any box.

    >>> parse_factor("×2,5")
    2.5
    """
    plain = tidy(text).lower().replace("×", "x").strip("x ")
    figure = plain.removesuffix("%").strip()
    if match := _RATIO.fullmatch(figure):
        figure = match["ratio"]
    value = parse_number(figure, low=-1000, high=1000, what="The factor")
    is_reducer, is_barlow = REDUCER_FACTOR.holds(value), BARLOW_FACTOR.holds(value)
    if figure == plain and (is_reducer or (is_barlow and not reducer)):
        return value
    shifted = (round(value / divisor, 6) for divisor in (10, 100))
    candidates = [Candidate(f"{number_text(each)}x", each) for each in shifted if REDUCER_FACTOR.holds(each)]
    if candidates:
        raise _question(text, "is not a factor as it stands: did you mean", *candidates)
    if reducer:
        raise FigureError(f"A reducer's factor must be {_ends(REDUCER_FACTOR)}, not “{shown(text)}”.")
    raise FigureError(
        f"A factor must be {_ends(BARLOW_FACTOR)} for a Barlow or {_ends(REDUCER_FACTOR)} for a reducer,"
        f" not “{shown(text)}”."
    )


def parse_fixed_instrument(text: str) -> FixedFigures:
    """Return what a fixed-power instrument says of itself: ``20-60x80``, ``10×50``, ``25x``.

    Powers are from 1 to 500, the aperture from 20 to 2000 mm. Figures in the wrong order are asked about.
    """
    tidied = tidy(text).lower().replace("×", "x").removesuffix("mm").strip()
    powers, mark, aperture = (part.strip() for part in tidied.partition("x"))
    low, high = _power_range(powers, text)
    if not mark or not aperture:
        return FixedFigures(low, high, None)
    value = _plain_number(aperture)
    if high is None and value is not None and value < APERTURE_MM.low <= low:
        swapped = Candidate(f"{number_text(value)}x{number_text(low)}", value)
        raise _question(text, "has an aperture too small to be true: did you mean", swapped)
    aperture_mm = parse_number(
        aperture, low=APERTURE_MM.low, high=APERTURE_MM.high, what="The aperture", unit="mm"
    )
    return FixedFigures(low, high, aperture_mm)


def parse_power(text: str, *, high: float = OWN_POWER.high) -> float:
    """Return a power, with or without its x, from 1 to ``high``."""
    figure = tidy(text).lower().replace("×", "x").strip("x ")
    return parse_number(figure, low=OWN_POWER.low, high=high, what="The power")


def parse_apparent_field_deg(text: str) -> float:
    """Return an eyepiece's apparent field in degrees (20 to 120)."""
    figure = re.sub(r" ?(°|deg|degrees?)$", "", tidy(text), flags=re.IGNORECASE)
    low, high, unit = APPARENT_FIELD_DEG.low, APPARENT_FIELD_DEG.high, APPARENT_FIELD_DEG.unit
    return parse_number(figure, low=low, high=high, what="The apparent field", unit=unit)


def parse_temperature_c(text: str, *, fahrenheit: bool = False) -> float:
    """Return a temperature in °C (-60 to 60); ``fahrenheit`` is the owner's own unit for a bare figure.

    >>> parse_temperature_c("68 °F")
    20.0
    """
    figure, is_fahrenheit = _split_temperature(text, fahrenheit=fahrenheit)
    low_c, high_c = TEMPERATURE_C.low, TEMPERATURE_C.high
    if not is_fahrenheit:
        return parse_number(figure, low=low_c, high=high_c, what="The temperature", unit="°C")
    low_f, high_f = to_fahrenheit(low_c), to_fahrenheit(high_c)
    value = parse_number(figure, low=low_f, high=high_f, what="The temperature", unit="°F")
    return round(to_celsius(value), 6)


def parse_temperature_difference_c(text: str, *, fahrenheit: bool = False) -> float:
    """Return a difference of temperatures in °C (-60 to 60), typed in either unit.

    >>> parse_temperature_difference_c("18 °F")
    10.0
    """
    figure, is_fahrenheit = _split_temperature(text, fahrenheit=fahrenheit)
    low_c, high_c = TEMPERATURE_C.low, TEMPERATURE_C.high
    if not is_fahrenheit:
        return parse_number(figure, low=low_c, high=high_c, what="The difference", unit="°C")
    low_f, high_f = FAHRENHEIT_PER_CELSIUS * low_c, FAHRENHEIT_PER_CELSIUS * high_c
    difference_f = parse_number(figure, low=low_f, high=high_f, what="The difference", unit="°F")
    return round(difference_f / FAHRENHEIT_PER_CELSIUS, 6)


def _ask_about_fraction(text: str, number: str, unit: Unit) -> Unit:
    """Return inches for a bare fraction, or raise the question where that is not the owner's unit."""
    value_mm = _aperture_mm(number, Unit.INCH)
    if unit is not Unit.INCH:
        inches = Candidate(f"{number_text(value_mm / Unit.INCH.mm)} in", value_mm)
        raise _question(text, "has no unit: did you mean", inches)
    return unit


def _ask_about_aperture(text: str, number: str, unit: Unit) -> None:
    """Raise the question that an unlikely bare aperture deserves."""
    value = _plain_number(number)
    likely = _LIKELY_APERTURE[unit]
    if value is None or likely.holds(value):
        return
    readings = (Candidate(f"{number_text(value)} {each}", to_mm(value, each)) for each in Unit)
    candidates = [each for each in readings if _LIKELY_APERTURE[Unit.MM].holds(each.value)]
    as_typed = Candidate(f"{number_text(value)} {unit}", to_mm(value, unit))
    possible = APERTURE_MM.holds(as_typed.value)
    if candidates:
        if possible:
            candidates.append(as_typed)
        raise _question(text, "is unusual for an aperture: did you mean", *candidates)
    if value > likely.high and possible:
        question = (
            f"“{shown(text)}” is very large for an aperture: is it the focal length? "
            f"If it is the aperture, write {as_typed.text}."
        )
        raise DoubtfulFigureError(question, (as_typed,))


def _focal_length_from_ratio(ratio_text: str, text: str, aperture_mm: float | None) -> float:
    if aperture_mm is None:
        raise FigureError(f"“{shown(text)}” is a focal ratio; give the aperture first.")
    ratio = parse_number(ratio_text, low=_FOCAL_RATIOS.low, high=_FOCAL_RATIOS.high, what="The focal ratio")
    focal_length_mm = round(ratio * aperture_mm, 6)
    if not FOCAL_LENGTH_MM.holds(focal_length_mm):
        low_mm, high_mm = FOCAL_LENGTH_MM.low, FOCAL_LENGTH_MM.high
        raise out_of_range(text, low=low_mm, high=high_mm, what="The focal length", unit="mm")
    return focal_length_mm


def _one_eyepiece_mm(text: str) -> float:
    low_mm, high_mm = EYEPIECE_MM.low, EYEPIECE_MM.high
    number, unit = split_length(text)
    value = _plain_number(number)
    if unit is None and value is not None and value > high_mm and EYEPIECE_MM.holds(value / 10):
        candidate = Candidate(f"{number_text(value / 10)} mm", round(value / 10, 6))
        raise _question(text, "is too long for an eyepiece: did you mean", candidate)
    return parse_length_mm(text, low_mm=low_mm, high_mm=high_mm, what="The focal length of an eyepiece")


def _power_range(powers: str, text: str) -> tuple[float, float | None]:
    if not powers:
        raise FigureError(f"“{shown(text)}” has no power; write it like 10x50 or 20-60x80.")
    match = _RANGE.fullmatch(powers)
    if match is None:
        return parse_power(powers), None
    low, high = sorted((parse_power(match["low"]), parse_power(match["high"])))
    return (low, None) if low == high else (low, high)


def _split_temperature(text: str, *, fahrenheit: bool) -> tuple[str, bool]:
    match = _TEMPERATURE.fullmatch(tidy(text))
    if match is None:
        return text, fahrenheit
    unit = (match["unit"] or "").upper()
    return match["number"], unit.startswith("F") if unit else fahrenheit


def _plain_number(text: str, *, high: float = math.inf) -> float | None:
    """Return a number without any doubt about it, else None."""
    try:
        return parse_number(text, high=high)
    except FigureError:
        return None


def _aperture_mm(text: str, unit: Unit) -> float:
    low_mm, high_mm = APERTURE_MM.low, APERTURE_MM.high
    return parse_length_mm(text, low_mm=low_mm, high_mm=high_mm, what="The aperture", unit=unit)


def _ends(allowed: Within) -> str:
    return f"from {allowed.low:g} to {allowed.high:g}"


def _question(text: str, why: str, *candidates: Candidate) -> DoubtfulFigureError:
    readings = " or ".join(candidate.text for candidate in candidates)
    return DoubtfulFigureError(f"“{shown(text)}” {why} {readings}?", candidates)
