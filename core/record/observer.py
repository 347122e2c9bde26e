"""One observer with everything that a profile file holds, as frozen values."""

from datetime import date
from enum import StrEnum

from attrs import field, frozen

from core.checks import one_of, within
from core.gear.eye import USUAL_EYE, Eye
from core.gear.owned import Barlow, Eyepiece, Filter, Telescope
from core.sky.site import Site


class LengthUnit(StrEnum):
    """How lengths are shown; they are kept in millimetres."""

    MM = "mm"
    INCH = "in"


class TemperatureUnit(StrEnum):
    """How temperatures are shown; they are kept in degrees Celsius."""

    CELSIUS = "c"
    FAHRENHEIT = "f"


@frozen(kw_only=True)
class Preferences:
    """How figures are shown."""

    length: LengthUnit = LengthUnit.MM
    temperature: TemperatureUnit = TemperatureUnit.CELSIUS
    clock: int = field(default=24, validator=one_of(12, 24))


@frozen(kw_only=True)
class RedSpot:
    """Jupiter's red spot: its System II longitude, and the day that was true."""

    longitude_deg: float = field(validator=within(0, 360, "degrees"))
    on: date


@frozen(kw_only=True)
class Profile:
    """Everything about one observer; empty lists are allowed, as in a profile just begun."""

    observer: str = ""
    eye: Eye = USUAL_EYE
    preferences: Preferences = Preferences()
    red_spot: RedSpot | None = None
    sites: tuple[Site, ...] = ()
    telescopes: tuple[Telescope, ...] = ()
    eyepieces: tuple[Eyepiece, ...] = ()
    barlows: tuple[Barlow, ...] = ()
    filters: tuple[Filter, ...] = ()
