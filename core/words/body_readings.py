"""Each body at one moment, in words: how high it stands, where, how far up the ladder, and what comes."""

from collections.abc import Sequence
from datetime import datetime
from typing import Final

from attrs import frozen

from core.air.blur import Blur
from core.air.limits import ceiling_of
from core.gear.owned import Telescope
from core.ladder.aim import Aim, Refusal
from core.moments.aiming import aim_at
from core.sky.bodies import Body
from core.sky.events import HORIZON_DEG, SUN_HORIZON_DEG
from core.sky.night import BodyNight, Night
from core.words.air import blur_words
from core.words.directions import altitude_text, azimuth_text, compass_letters, compass_text
from core.words.obstacles import blocked_words, warm_air_words
from core.words.quantities import path_text, power_text
from core.words.site_clock import SiteClock

_NOW: Final = "Now, {when}"
_AT: Final = "At {when}"
_NOTE: Final = "Altitudes ignore refraction; the air path includes it."
_NOTE_WITH_CEILING: Final = (
    "Altitudes ignore refraction; the air path includes it. Ceiling: an estimate for {scope}, {blur}."
)
_ALL: Final = "At {when}. {readings}."
_READING: Final = "{body}: {facts}"
_ALTITUDE: Final = "altitude {altitude}"
_AZIMUTH: Final = "azimuth {azimuth} {compass}"
_AZIMUTH_SHORTLY: Final = "{azimuth} {compass}"
_PATH: Final = "path {path}"
_CEILING: Final = "ceiling {power}"
_SETS: Final = "sets {time}"
_RISES: Final = "rises {time}"
_BELOW: Final = "below the horizon"
_ALL_BELOW: Final = "Below the horizon: {bodies}"
_REFUSED: Final = {
    Refusal.TOO_NEAR_THE_SUN: "beside the Sun",
    Refusal.NOT_BY_DAY: "not by day",
    Refusal.SKY_TOO_BRIGHT: "sky too bright",
}


@frozen(kw_only=True)
class BodyReading:
    """One body at one moment, in words as they are shown; ``ceiling`` is empty without a telescope."""

    body: Body
    is_up: bool
    altitude: str
    direction: str
    short_direction: str
    path: str
    ceiling: str
    remark: str

    @property
    def sentence(self) -> str:
        """All of it in one sentence, for the chart's description."""
        altitude = _ALTITUDE.format(altitude=self.altitude)
        parts = [altitude, self.direction, self.path, self.ceiling, self.remark]
        return _READING.format(body=self.body.heading, facts=", ".join(part for part in parts if part))


@frozen(kw_only=True)
class CeilingBasis:
    """What a ceiling is worked out from: the telescope in hand, tonight's air, and its mirror's own blur."""

    scope: Telescope | None
    blur: Blur
    usual_air: float
    mirror_arcsec: float = 0.0


def read_bodies(
    night: Night, moment: datetime, basis: CeilingBasis, clock: SiteClock
) -> tuple[BodyReading, ...]:
    """Return a reading of every body of a night at a moment (UTC)."""
    return tuple(_read(night, body, moment, basis, clock) for body in night.bodies)


def is_sun_up(night: Night, moment: datetime) -> bool:
    """Tell whether any of the Sun is above the horizon."""
    return night.position(Body.SUN, moment).altitude_deg > SUN_HORIZON_DEG


def readings_text(readings: Sequence[BodyReading], when: str) -> str:
    """Return the readings as a description for those who cannot see the chart; what is up comes first."""
    ordered = sorted(readings, key=lambda reading: not reading.is_up)
    return _ALL.format(when=when, readings=". ".join(reading.sentence for reading in ordered))


def moment_words(when: str, *, is_now: bool) -> str:
    """Return the moment of the readings as their heading, ``Now, 21:30``."""
    return (_NOW if is_now else _AT).format(when=when)


def all_below_words(readings: Sequence[BodyReading]) -> str:
    """Return which bodies are down, in one line; empty where none is."""
    bodies = ", ".join(reading.body.heading for reading in readings if not reading.is_up)
    return _ALL_BELOW.format(bodies=bodies) if bodies else ""


def readings_note(scope: Telescope | None, blur: Blur) -> str:
    """Return which altitude is meant, and what the ceilings rest on."""
    if scope is None:
        return _NOTE
    return _NOTE_WITH_CEILING.format(scope=scope.name, blur=blur_words(blur))


def _read(
    night: Night, body: BodyNight, moment: datetime, basis: CeilingBasis, clock: SiteClock
) -> BodyReading:
    position = night.position(body.body, moment)
    up = position.altitude_deg > HORIZON_DEG
    # For safety: beside the Sun and by day no power is offered, and no time at which to look.
    aim = aim_at(night, body.body, moment)
    refusal = aim.refusal if up else None
    remark = _remark(body, moment, clock) if up else _next_rise(body, moment, clock)
    azimuth = azimuth_text(position.azimuth_deg)
    return BodyReading(
        body=body.body,
        is_up=up,
        altitude=altitude_text(position.altitude_deg),
        direction=_AZIMUTH.format(azimuth=azimuth, compass=compass_text(position.azimuth_deg)) if up else "",
        short_direction=_AZIMUTH_SHORTLY.format(
            azimuth=azimuth, compass=compass_letters(position.azimuth_deg)
        )
        if up
        else "",
        path=_PATH.format(path=path_text(position.path)) if position.path is not None else "",
        ceiling="" if refusal else _ceiling(aim, basis),
        remark=_REFUSED.get(refusal, remark) if refusal else remark,
    )


def _ceiling(aim: Aim, basis: CeilingBasis) -> str:
    if basis.scope is None:
        return ""
    limits = aim.limits_of(
        basis.scope, blur=basis.blur, mirror_arcsec=basis.mirror_arcsec, usual_air=basis.usual_air
    )
    power = ceiling_of(limits).power
    return "" if power is None else _CEILING.format(power=power_text(power))


def _remark(body: BodyNight, moment: datetime, clock: SiteClock) -> str:
    for span in body.blocked:
        if span.holds(moment):
            return blocked_words(span.what)
    for window in body.windows:
        if window.holds(moment) and window.warm_air is not None:
            return warm_air_words(window.warm_air)
    setting = next((time for time in body.sets if time > moment), None)
    return _SETS.format(time=clock.time(setting)) if setting else ""


def _next_rise(body: BodyNight, moment: datetime, clock: SiteClock) -> str:
    rising = next((time for time in body.rises if time > moment), None)
    return _RISES.format(time=clock.time(rising)) if rising else _BELOW
