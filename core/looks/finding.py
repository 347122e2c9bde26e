"""How to find a body: where it stands, from what it is found, from which power on it is a disc."""

from datetime import datetime
from typing import Final

from attrs import frozen

from core.gear.aperture import working_aperture_mm
from core.gear.combinations import Combination
from core.gear.optics import dawes_arcsec, is_past_limit
from core.gear.owned import Telescope
from core.looks.feature_rules import RULES, Feature
from core.sky.bodies import Body
from core.sky.ephemeris import constellation_of
from core.sky.landmarks import FAINT, Landmark, find_landmarks
from core.sky.night import Night
from core.sky.sunlight import Daylight, daylight_at
from core.sky.track import Position
from core.sky.viewpoint import Viewpoint

# Up to this magnitude the eye alone finds it under a fair sky; fainter, binoculars or the finder
# (common practice, no source).
_NAKED_EYE_MAGNITUDE: Final = 5.0
# A power within a tenth is as good as the one that a rule of thumb asks for (ours).
_NEARLY: Final = 0.9
# Fainter than this nothing tells it from the many stars around it but a chart (common practice, no source);
# nor where no star that guides to it stands in the same field of binoculars, some 7 degrees.
_CHART_FROM_MAGNITUDE: Final = 6.5
_BINOCULAR_FIELD_DEG: Final = 7.0


@frozen(kw_only=True)
class DiscFrom:
    """The power from which a body looks like a disc, and what of the kit gives it first.

    ``combination`` is None where the kit has no such power, ``at_once`` whether its lowest is one.
    ``borne_power`` is what aperture and air bear then where that is less than it takes, else None.
    """

    power: float
    has_kit: bool
    combination: Combination | None
    at_once: bool
    borne_power: float | None = None


@frozen(kw_only=True)
class Finding:
    """How a body is found at one time.

    ``daylight`` is None while no part of the Sun is up. ``disc_from`` is None of the Moon, without a
    telescope, and where the telescope's aperture leaves it a star at any power.
    """

    body: Body
    position: Position
    sun_azimuth_deg: float
    constellation: str
    magnitude: float
    landmarks: tuple[Landmark, ...]
    daylight: Daylight | None
    disc_from: DiscFrom | None

    @property
    def takes_glass(self) -> bool:
        """Whether it is too faint for the eye alone."""
        return self.body in FAINT or self.magnitude > _NAKED_EYE_MAGNITUDE

    @property
    def takes_chart(self) -> bool:
        """Whether angles from something bright only lead near it, and a chart of faint stars to it."""
        if not self.takes_glass:
            return False
        is_led_to = any(each.angle_deg <= _BINOCULAR_FIELD_DEG for each in self.landmarks)
        return self.magnitude > _CHART_FROM_MAGNITUDE or not is_led_to


def find(
    night: Night,
    body: Body,
    time: datetime,
    *,
    scope: Telescope | None,
    kit: tuple[Combination, ...],
    ceiling_power: float | None = None,
) -> Finding:
    """Return how a body is found at a time.

    ``kit`` is all that fits the telescope, lowest power first, ``ceiling_power`` what aperture and air bear
    there and then, None where that is not known.
    """
    unix_s = time.timestamp()
    its_night = night.of(body)
    return Finding(
        body=body,
        position=night.position(body, time),
        sun_azimuth_deg=night.position(Body.SUN, time).azimuth_deg,
        constellation=constellation_of(Viewpoint.of(night.site).place(body, unix_s), unix_s),
        magnitude=its_night.magnitude,
        landmarks=find_landmarks(night, body, time),
        daylight=daylight_at(night, body, time),
        disc_from=None
        if body is Body.MOON or scope is None
        else _disc_from(its_night.diameter_arcsec, working_aperture_mm(scope), kit, ceiling_power),
    )


def _disc_from(
    diameter_arcsec: float, aperture_mm: float, kit: tuple[Combination, ...], ceiling_power: float | None
) -> DiscFrom | None:
    if diameter_arcsec < dawes_arcsec(aperture_mm):
        return None
    power = RULES[Feature.SMALL_DISC].looks_arcsec / diameter_arcsec
    combination = next((each for each in kit if each.power >= _NEARLY * power), None)
    taken = power if combination is None else combination.power
    return DiscFrom(
        power=power,
        has_kit=bool(kit),
        combination=combination,
        at_once=bool(kit) and kit[0].power >= _NEARLY * power,
        borne_power=ceiling_power if is_past_limit(taken, ceiling_power) else None,
    )
