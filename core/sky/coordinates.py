"""Latitudes, longitudes and compass bearings as people write them."""

import re
from enum import StrEnum

from attrs import frozen

from core.problems import refuse

_NUMBER = r"\d+(?:[.,]\d+)?"
_DEGREES = rf"(?P<degrees>{_NUMBER})\s*(?:°|º|deg|d|\s|:|$)\s*"
_MINUTES = rf"(?:(?P<minutes>{_NUMBER})\s*(?:'|′|’|m|\s|:|$)\s*)?"
_SECONDS = rf"(?:(?P<seconds>{_NUMBER})\s*(?:\"|″|”|''|s|\s|$)\s*)?"
_ANGLE = re.compile(rf"(?P<sign>[+-]?)\s*{_DEGREES}{_MINUTES}{_SECONDS}", re.IGNORECASE)


class Axis(StrEnum):
    """What an angle is measured along: one of the coordinates, or how far east of north a compass points."""

    LATITUDE = "latitude"
    LONGITUDE = "longitude"
    DECLINATION = "magnetic declination"


@frozen
class _AxisRule:
    positive: str
    negative: str
    highest_deg: float
    example: str


_RULES = {
    Axis.LATITUDE: _AxisRule("N", "S", 90.0, "41.15, 41 09 00 N or 41°9′ N"),
    # Counted eastward through the whole circle, 0 to 360, is taken as well.
    Axis.LONGITUDE: _AxisRule("E", "W", 360.0, "-8.61, 8 36 36 W or 8°36.6′ W"),
    Axis.DECLINATION: _AxisRule("E", "W", 180.0, "3 W, -3 or 3°30′ E"),
}


def parse_coordinate(text: str, axis: Axis) -> float:
    """Return the degrees, north and east positive, that a text means.

    Takes decimals with a point or a comma, or degrees, minutes and seconds with or without their signs,
    and N, S, E or W before or after. Longitudes come back from -180 to 180.

    Raises
    ------
    ProblemsError
        If the text is no such angle, is out of range, or names a direction of the other axis.

    >>> parse_coordinate("8°36′36″ W", Axis.LONGITUDE)
    -8.61
    """
    rule = _RULES[axis]
    bare, direction = _without_direction(text, rule, axis)
    match = _ANGLE.fullmatch(bare)
    if match is None:
        raise refuse(f"{text.strip()!r} is not understood; write it like {rule.example}", where=axis.value)
    if match["sign"] and direction:
        raise refuse(f"{text.strip()!r} has both a sign and {direction}; give one of them", where=axis.value)
    minutes, seconds = _number(match["minutes"]), _number(match["seconds"])
    if minutes >= 60 or seconds >= 60:
        raise refuse("minutes and seconds must be less than 60", where=axis.value)
    if minutes and not _number(match["degrees"]).is_integer():
        raise refuse("degrees before minutes must be a whole number", where=axis.value)
    if seconds and not minutes.is_integer():
        raise refuse("minutes before seconds must be a whole number", where=axis.value)
    size_deg = _number(match["degrees"]) + minutes / 60 + seconds / 3600
    is_negative = match["sign"] == "-" or direction == rule.negative
    highest_deg = 180.0 if is_negative or direction else rule.highest_deg
    if size_deg > min(highest_deg, rule.highest_deg):
        limit = "-90 to 90" if axis is Axis.LATITUDE else "-180 to 180"
        raise refuse(f"must be from {limit} degrees, not {bare.strip()}", where=axis.value)
    value_deg = -size_deg if is_negative else size_deg
    return value_deg - 360.0 if value_deg > 180.0 else value_deg


def _without_direction(text: str, rule: _AxisRule, axis: Axis) -> tuple[str, str]:
    """Split off N, S, E or W; return the rest and the letter, empty where there is none."""
    plain = " ".join(text.replace("−", "-").split())
    match = re.fullmatch(r"([NSEW]?)\s*([-+\d].*?)\s*([NSEW]?)", plain, re.IGNORECASE)
    if match is None:
        return plain, ""
    before, rest, after = match[1].upper(), match[2], match[3].upper()
    letter = before or after
    if (before and after) or (letter and letter not in (rule.positive, rule.negative)):
        given = " and ".join(filter(None, (before, after)))
        raise refuse(f"takes {rule.positive} or {rule.negative} once, not {given}", where=axis.value)
    return rest, letter


def _number(text: str | None) -> float:
    return float(text.replace(",", ".")) if text else 0.0


def format_coordinate(value_deg: float, axis: Axis) -> str:
    """Return degrees, minutes and whole seconds with the direction, such as ``8°36′36″ W``.

    >>> format_coordinate(-8.61, Axis.LONGITUDE)
    '8°36′36″ W'
    """
    rule = _RULES[axis]
    whole_seconds = round(abs(value_deg) * 3600)
    minutes, seconds = divmod(whole_seconds, 60)
    degrees, minutes = divmod(minutes, 60)
    return f"{degrees}°{minutes:02d}′{seconds:02d}″ {rule.negative if value_deg < 0 else rule.positive}"


def true_azimuth_deg(bearing_deg: float, declination_deg: float) -> float:
    """Return the true azimuth of a compass bearing, both in degrees clockwise.

    ``declination_deg`` is the magnetic declination of the place, positive where the needle points east
    of true north.

    >>> true_azimuth_deg(350.0, 15.0)
    5.0
    """
    return (bearing_deg + declination_deg) % 360.0
