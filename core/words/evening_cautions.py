"""Words of safety that a whole evening carries."""

from typing import Final

from core.situation.situation import Situation
from core.sky.night import Night
from core.sky.sunlight import TOO_NEAR_THE_SUN_DEG
from core.words.cautions import CAP_BEFORE_SUNRISE, SUNLIGHT_BLINDS, beside_the_sun
from core.words.evening import item_words
from core.words.names import listed
from core.words.site_clock import SiteClock, clock_of

_STANDS: Final = "{body} {where}"
_NEAR: Final = (
    "{bodies}: never search for it while any of the Sun is up. {blinds}",
    "{bodies}: never search for them while any of the Sun is up. {blinds}",
)


def evening_cautions(situation: Situation) -> tuple[str, ...]:
    """Return what must be known for safety in an evening: by day, beside the Sun, and before it rises."""
    night, clock = situation.night, clock_of(situation)
    if night is None or clock is None:
        return ()
    return (*near_the_sun_cautions(night), *cautious_steps(situation, clock), CAP_BEFORE_SUNRISE)


def cautious_steps(situation: Situation, clock: SiteClock) -> tuple[str, ...]:
    """Return the words of those steps of an evening that concern safety."""
    unit = situation.preferences.temperature
    return tuple(item_words(item, clock, unit=unit) for item in situation.evening_steps if item.caution)


def near_the_sun_cautions(night: Night) -> tuple[str, ...]:
    """Return the warning about what stands too near the Sun to be searched for, if anything does."""
    near = [
        _STANDS.format(
            body=body.body.heading, where=beside_the_sun(body.body, body.elongation_deg, body.highest.time)
        )
        for body in night.bodies
        if body.elongation_deg < TOO_NEAR_THE_SUN_DEG
    ]
    if not near:
        return ()
    return (_NEAR[len(near) > 1].format(bodies=listed(near), blinds=SUNLIGHT_BLINDS),)
