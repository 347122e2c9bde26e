"""Numbers and lengths as people write them, with doubt told from error.

A comma and a point are both decimal marks. Group separators are not taken for granted: ``1.200`` may be 1.2
or 1200, and is asked about unless only the plain decimal lies in the allowed range. Groups parted by spaces
(``1 200``) are clear.
"""

import math
import re
import unicodedata
from collections.abc import Sequence
from enum import StrEnum

from attrs import frozen

from core.checks import Within
from core.problems import Problem, ProblemsError

MM_PER_INCH = 25.4

_FRACTIONS = {sign: f" {unicodedata.normalize('NFKC', sign).replace('⁄', '/')}" for sign in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_PLAIN_DASHES = {ord(dash): "-" for dash in "‐‑‒–—―−﹘﹣－"}
_INCH_MARKS = ("''", "’’", "‘‘", "′′", "″", "“", "”", "„", "‟", "〃", "＂")

_DECIMAL = re.compile(r"(?P<whole>\d*)[.,](?P<part>\d+)|(?P<only>\d+)[.,]?")
_SPACED_GROUPS = re.compile(r"(?P<groups>\d{1,3}(?: \d{3})+)(?:[.,](?P<part>\d+))?")
_MARKED_GROUPS = re.compile(r"\d{1,3}(?:(?:\.\d{3})+,\d+|(?:,\d{3})+\.\d+|(?:\.\d{3}){2,}|(?:,\d{3}){2,})")
_FRACTION = re.compile(r"(?P<above>\d+) ?/ ?(?P<below>\d+)")
_MIXED = re.compile(r"(?P<whole>\d+)(?: |-| - )(?P<above>\d+) ?/ ?(?P<below>\d+)")
_UNIT = r"millimet(?:re|er)s?|mm|centimet(?:re|er)s?|cm|met(?:re|er)s?|m|inch(?:es)?|in\.?|\""
# A hyphen as in "10-inch" belongs to neither.
_LENGTH = re.compile(rf"(?P<number>.*?\d[.,]?) ?-? ?(?P<unit>{_UNIT})", re.IGNORECASE)
_LONGEST_FIGURE = 40


@frozen
class Candidate:
    """One reading of a doubtful figure: its value, and a text that can stand in its place without doubt."""

    text: str
    value: float


class FigureError(ProblemsError):
    """A figure that cannot be read or lies outside its range, told in one sentence."""

    def __init__(self, sentence: str) -> None:
        super().__init__(Problem("", sentence))


class DoubtfulFigureError(FigureError):
    """A figure with more than one reading, or an unlikely one: a question, never a guess."""

    def __init__(self, question: str, candidates: tuple[Candidate, ...]) -> None:
        super().__init__(question)
        self.question = question
        self.candidates = candidates


class Unit(StrEnum):
    """The units in which a length may be typed."""

    MM = "mm"
    CM = "cm"
    M = "m"
    INCH = "in"

    @property
    def mm(self) -> float:
        """How many mm one of it is."""
        return {Unit.MM: 1.0, Unit.CM: 10.0, Unit.M: 1000.0, Unit.INCH: MM_PER_INCH}[self]


def tidy(text: str) -> str:
    """Return the text with plain digits, dashes, inch marks, fractions and single spaces.

    >>> tidy("2½″")
    '2 1/2"'
    """
    for sign, plain in _FRACTIONS.items():
        text = text.replace(sign, plain)
    for mark in _INCH_MARKS:
        text = text.replace(mark, '"')
    text = unicodedata.normalize("NFKC", text).replace("⁄", "/").replace("∕", "/").replace("٫", ".")
    text = text.translate(_PLAIN_DASHES)
    text = "".join(str(unicodedata.decimal(sign)) if sign.isdecimal() else sign for sign in text)
    return " ".join(text.split())


def number_text(value: float) -> str:
    """Return a number as plain digits, without a trailing zero or an exponent."""
    text = f"{value:.6f}"
    return text.rstrip("0").rstrip(".")


def parse_number(
    text: str, *, low: float = -math.inf, high: float = math.inf, what: str = "It", unit: str = ""
) -> float:
    """Return the number in a text, from ``low`` to ``high``, both allowed.

    Raises ``FigureError`` for what is no number or out of range, ``DoubtfulFigureError`` where more than
    one reading is left. ``what`` begins the sentence, ``unit`` follows the figures.
    """
    readings = _readings_within(text, low, high)
    if not readings.values:
        raise out_of_range(text, low=low, high=high, what=what, unit=unit)
    if readings.clear:
        return readings.values[0]
    raise _doubt(
        text, [Candidate(f"{number_text(value)} {unit}".rstrip(), value) for value in readings.values]
    )


def parse_within(text: str, allowed: Within, *, what: str = "") -> float:
    """Return the number in a text, inside a range and in its unit; raises as ``parse_number`` does."""
    return parse_number(text, low=allowed.low, high=allowed.high, what=what, unit=allowed.unit)


def parse_length_mm(
    text: str, *, low_mm: float, high_mm: float, what: str = "It", unit: Unit = Unit.MM
) -> float:
    """Return a length in mm from a figure with or without a unit; ``unit`` is the one left out.

    Takes mm, cm, m, inches in words, marks and fractions. Raises as ``parse_number`` does; the values of
    candidates are in mm.
    """
    number, own_unit = split_length(text)
    used = own_unit or unit
    readings = _readings_within(number, low_mm / used.mm, high_mm / used.mm)
    if not readings.values:
        raise out_of_range(text, low=low_mm / unit.mm, high=high_mm / unit.mm, what=what, unit=unit)
    if readings.clear:
        return to_mm(readings.values[0], used)
    raise _doubt(
        text, [Candidate(f"{number_text(value)} {used}", to_mm(value, used)) for value in readings.values]
    )


def split_length(text: str) -> tuple[str, Unit | None]:
    """Return the number's text and the unit written after it, if any.

    >>> split_length("6 in")
    ('6', <Unit.INCH: 'in'>)
    """
    tidied = tidy(text)
    match = _LENGTH.fullmatch(tidied)
    if match is None:
        return tidied, None
    unit = match["unit"].lower()
    if unit.startswith(("mm", "mil")):
        return match["number"], Unit.MM
    if unit.startswith("c"):
        return match["number"], Unit.CM
    if unit.startswith("m"):
        return match["number"], Unit.M
    return match["number"], Unit.INCH


def to_mm(value: float, unit: Unit) -> float:
    """Return a length in mm, free of the dust of binary fractions."""
    return round(value * unit.mm, 6)


def out_of_range(text: str, *, low: float, high: float, what: str, unit: str = "") -> FigureError:
    """Return the error for a figure outside its range."""
    allowed = f"from {number_text(round(low, 2))} to {number_text(round(high, 2))} {unit}".rstrip()
    return FigureError(f"{what} must be {allowed}, not “{shown(text)}”.")


def shown(text: str) -> str:
    """Return typed text short enough to be repeated in a sentence."""
    plain = "".join(sign if sign.isprintable() else " " for sign in text)
    clean = " ".join(plain.split())
    return clean if len(clean) <= _LONGEST_FIGURE else f"{clean[: _LONGEST_FIGURE - 1]}…"


@frozen
class _Readings:
    """The values that a text may stand for, the plain one first; clear if there is nothing to ask."""

    values: tuple[float, ...]
    clear: bool


def _doubt(text: str, candidates: Sequence[Candidate]) -> DoubtfulFigureError:
    meanings = " or ".join(candidate.text for candidate in candidates)
    return DoubtfulFigureError(f"“{shown(text)}” is not clear: did you mean {meanings}?", tuple(candidates))


def _readings_within(text: str, low: float, high: float) -> _Readings:
    likely, others = _readings(text)
    fitting = tuple(value for value in others if low <= value <= high)
    if likely is None or not low <= likely <= high:
        return _Readings(fitting, clear=False)
    return _Readings((likely, *fitting), clear=not fitting)


def _readings(text: str) -> tuple[float | None, tuple[float, ...]]:
    """Return the plain reading of a figure, None where there is none, and its other possible readings."""
    tidied = tidy(text)
    if len(tidied) > _LONGEST_FIGURE:
        raise FigureError(f"“{shown(text)}” is too long for a number.")
    sign, figure = (-1.0, tidied[1:].lstrip()) if tidied.startswith("-") else (1.0, tidied.removeprefix("+"))
    likely, others = _unsigned_readings(figure, text)
    return (None if likely is None else sign * likely), tuple(sign * value for value in others)


def _unsigned_readings(figure: str, text: str) -> tuple[float | None, tuple[float, ...]]:
    if match := _DECIMAL.fullmatch(figure):
        return _decimal_readings(match)
    if match := _SPACED_GROUPS.fullmatch(figure):
        whole = match["groups"].replace(" ", "")
        return float(f"{whole}.{match['part'] or 0}"), ()
    if _MARKED_GROUPS.fullmatch(figure):
        return None, (_marked_groups_value(figure),)
    if match := _MIXED.fullmatch(figure):
        return float(match["whole"]) + _quotient(match, text), ()
    if match := _FRACTION.fullmatch(figure):
        return _fraction_readings(match, text)
    if not figure:
        raise FigureError("A number is missing.")
    raise FigureError(f"“{shown(text)}” is not a number; write it like 12.5 or 12,5.")


def _decimal_readings(match: re.Match[str]) -> tuple[float, tuple[float, ...]]:
    if match["only"] is not None:
        return float(match["only"]), ()
    whole, part = match["whole"], match["part"]
    value = float(f"{whole or 0}.{part}")
    grouped = len(part) == 3 and 1 <= len(whole) <= 3 and not whole.startswith("0")
    return value, ((float(whole + part),) if grouped else ())


def _marked_groups_value(figure: str) -> float:
    """Return the value of a figure with group marks, with or without the other mark as decimal."""
    last = max(figure.rfind("."), figure.rfind(","))
    if figure.count(figure[last]) > 1:
        return float(figure.replace(figure[last], ""))
    group_mark = "," if figure[last] == "." else "."
    return float(figure.replace(group_mark, "").replace(",", "."))


def _fraction_readings(match: re.Match[str], text: str) -> tuple[float | None, tuple[float, ...]]:
    """Read a fraction; ``41/2`` may be a half added to 4 with the space left out."""
    value = _quotient(match, text)
    above, below = match["above"], int(match["below"])
    if len(above) >= 2 and 0 < int(above[-1]) < below:
        return None, (int(above[:-1]) + int(above[-1]) / below, value)
    return value, ()


def _quotient(match: re.Match[str], text: str) -> float:
    if int(match["below"]) == 0:
        raise FigureError(f"“{shown(text)}” divides by zero.")
    return int(match["above"]) / int(match["below"])
