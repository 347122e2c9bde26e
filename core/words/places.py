"""Where a town lies, in words: told apart from others of its name, and by its clock."""

from collections import Counter
from collections.abc import Sequence
from typing import Final

from core.sky.coordinates import Axis, format_coordinate
from core.sky.places import Place
from core.words.quantities import angle_text

NO_TOWN: Final = (
    "No town of more than 15,000 people has the name “{name}”; a larger one nearby will do as well."
)
ASK_ELEVATION: Final = "How high does {town} lie above the sea? Roughly will do; 0 is sea level."
_MOST_DECIMALS: Final = 2
_IN_LIST: Final = "{place}   {where}"
_ROUGHLY: Final = "{latitude} {north} {longitude} {east}"
_WITH_CLOCK: Final = "{latitude}, {longitude}, clock of {zone}"


def place_with_clock(place: Place) -> str:
    """Return a place's coordinates and its clock in words."""
    latitude = format_coordinate(place.latitude_deg, Axis.LATITUDE)
    longitude = format_coordinate(place.longitude_deg, Axis.LONGITUDE)
    return _WITH_CLOCK.format(latitude=latitude, longitude=longitude, zone=place.time_zone)


def place_lines(places: Sequence[Place]) -> list[str]:
    """Return each place with where it is, as finely as it takes to tell it from the others."""
    by_fineness = [[_roughly(place, decimals) for place in places] for decimals in range(_MOST_DECIMALS + 1)]
    often = [Counter(texts) for texts in by_fineness]
    where = (
        next((text for text, known in zip(texts, often, strict=True) if known[text] == 1), texts[-1])
        for texts in zip(*by_fineness, strict=True)
    )
    return [_IN_LIST.format(place=place.label, where=text) for place, text in zip(places, where, strict=True)]


def _roughly(place: Place, decimals: int) -> str:
    north = "N" if place.latitude_deg >= 0 else "S"
    east = "E" if place.longitude_deg >= 0 else "W"
    latitude, longitude = (
        angle_text(abs(angle_deg), decimals) for angle_deg in (place.latitude_deg, place.longitude_deg)
    )
    return _ROUGHLY.format(latitude=latitude, north=north, longitude=longitude, east=east)
