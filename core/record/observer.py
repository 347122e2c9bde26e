"""One observer with everything that a profile file holds, as frozen values."""

from datetime import date, time
from enum import StrEnum
from typing import Final

from attrs import field, frozen

from core.air.blur import BLUR_ARCSEC
from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook
from core.checks import clock_time_or, one_of, uuid_or_nothing, within
from core.gear.eye import USUAL_EYE, Eye
from core.gear.owned import Barlow, Eyepiece, Filter, Telescope
from core.sky.bodies import FACTS, TARGETS, Body
from core.sky.site import Site

FROM_DUSK = "dusk"
UNTIL_DAWN = "dawn"
USUAL_OUT_UNTIL = "23:30"  # ours
_NOON = time(12)
# The number of this form of file. A key that comes, goes or changes its meaning raises it; what older files
# then need is in `core.record.migrations`.
SCHEMA: Final = 2


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
    """How figures are shown, and the usual hours outside.

    ``out_from`` and ``out_until`` are times at the site (``"19:30"``), those before noon of the next
    date; or the words ``"dusk"`` and ``"dawn"``.
    """

    length: LengthUnit = LengthUnit.MM
    temperature: TemperatureUnit = TemperatureUnit.CELSIUS
    clock: int = field(default=24, validator=one_of(12, 24))
    out_from: str = field(default=FROM_DUSK, validator=clock_time_or(FROM_DUSK))
    out_until: str = field(default=USUAL_OUT_UNTIL, validator=clock_time_or(UNTIL_DAWN))

    def __attrs_post_init__(self) -> None:
        start, end = self.out_from_time, self.out_until_time
        if start and end and _since_noon(end) <= _since_noon(start):
            raise ValueError(
                "out_until must be after out_from, where times before noon are those of the next morning;"
                f" {self.out_until} is not after {self.out_from}"
            )

    @property
    def out_from_time(self) -> time | None:
        """When the usual hours outside begin, None for dusk."""
        return None if self.out_from == FROM_DUSK else time.fromisoformat(self.out_from)

    @property
    def out_until_time(self) -> time | None:
        """When the usual hours outside end, None for dawn."""
        return None if self.out_until == UNTIL_DAWN else time.fromisoformat(self.out_until)


def _since_noon(moment: time) -> tuple[bool, time]:
    """Return what puts the times of one evening, from noon to noon, in their order."""
    return (moment < _NOON, moment)


@frozen(kw_only=True)
class FirstLookBlur:
    """The usual overhead blur of each first look at this observer's sites, in arcsec."""

    steady_arcsec: float = field(default=FIRST_LOOK_BLUR_ARCSEC[FirstLook.STEADY], validator=BLUR_ARCSEC)
    fair_arcsec: float = field(default=FIRST_LOOK_BLUR_ARCSEC[FirstLook.FAIR], validator=BLUR_ARCSEC)
    boiling_arcsec: float = field(default=FIRST_LOOK_BLUR_ARCSEC[FirstLook.BOILING], validator=BLUR_ARCSEC)

    def __attrs_post_init__(self) -> None:
        if not self.steady_arcsec < self.fair_arcsec < self.boiling_arcsec:
            raise ValueError(
                "steady_arcsec must be less than fair_arcsec, and that less than boiling_arcsec; they are"
                f" {self.steady_arcsec:g}, {self.fair_arcsec:g} and {self.boiling_arcsec:g}"
            )

    def arcsec_of(self, look: FirstLook) -> float:
        """Return the blur of one first look."""
        blur: float = getattr(self, f"{look.value}_arcsec")
        return blur

    def look_of(self, arcsec: float) -> FirstLook | None:
        """Return the first look whose blur is a figure, None for one of no look."""
        return next((look for look in FirstLook if self.arcsec_of(look) == arcsec), None)


def _dark_enough(body: Body) -> float:
    """Return a field for one body; never with the Sun up, for nothing is offered then unasked."""
    usual_deg = FACTS[body].dark_enough_sun_altitude_deg
    sun_altitude_deg: float = field(default=usual_deg, validator=within(-18, -0.833, "degrees"))
    return sun_altitude_deg


@frozen(kw_only=True)
class DarkEnough:
    """The height in degrees under which the Sun must stand for each body to be worth a look."""

    mercury_deg: float = _dark_enough(Body.MERCURY)
    venus_deg: float = _dark_enough(Body.VENUS)
    mars_deg: float = _dark_enough(Body.MARS)
    jupiter_deg: float = _dark_enough(Body.JUPITER)
    saturn_deg: float = _dark_enough(Body.SATURN)
    uranus_deg: float = _dark_enough(Body.URANUS)
    neptune_deg: float = _dark_enough(Body.NEPTUNE)
    moon_deg: float = _dark_enough(Body.MOON)

    def sun_altitude_deg_of(self, body: Body) -> float:
        """Return the Sun's height for one body to look at."""
        altitude_deg: float = getattr(self, f"{body.value}_deg")
        return altitude_deg

    def sun_altitudes_deg(self) -> dict[Body, float]:
        """Return the Sun's height for every body to look at."""
        return {body: self.sun_altitude_deg_of(body) for body in TARGETS}


@frozen(kw_only=True)
class RedSpot:
    """Jupiter's red spot: its System II longitude, and the day that was true."""

    longitude_deg: float = field(validator=within(0, 360, "degrees"))
    on: date


@frozen(kw_only=True)
class Profile:
    """Everything about one observer; empty lists are allowed, as in a profile just begun.

    ``id`` is a UUID, empty until the first save.
    """

    id: str = field(default="", validator=uuid_or_nothing)
    observer: str = ""
    eye: Eye = USUAL_EYE
    preferences: Preferences = Preferences()
    air: FirstLookBlur = FirstLookBlur()
    dark: DarkEnough = DarkEnough()
    red_spot: RedSpot | None = None
    sites: tuple[Site, ...] = ()
    telescopes: tuple[Telescope, ...] = ()
    eyepieces: tuple[Eyepiece, ...] = ()
    barlows: tuple[Barlow, ...] = ()
    filters: tuple[Filter, ...] = ()
