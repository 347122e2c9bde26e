"""What the Sun does in an evening, in words."""

from typing import Final

from core.sky.events import SUN_HORIZON_DEG
from core.sky.night import SunNight
from core.words.quantities import angle_text
from core.words.site_clock import SiteClock

_DOES_NOT_SET: Final = "The Sun does not set on this evening."
# By whether it sets and whether it rises in the evening.
_COURSES: Final = {
    (True, True): ("The Sun sets {set} and rises {rise}; it gets {depth} below the horizon at most."),
    (True, False): "The Sun sets {set}; it gets {depth} below the horizon at most.",
    (False, True): "The Sun rises {rise}; it gets {depth} below the horizon at most.",
    (False, False): ("The Sun does not rise on this evening; it gets {depth} below the horizon at most."),
}
_ON_THE_HORIZON: Final = "The Sun stays up: at its lowest it is on the horizon."
_STAYS_UP: Final = "The Sun stays up: at its lowest it is {depth} above the horizon."
_STAYS_DOWN: Final = "The Sun stays down: at its lowest it is {depth} below the horizon."
_DARK: Final = {
    (True, True): "The Sun sets {set} and rises {rise}; the sky is fully dark {dark}.",
    (True, False): "The Sun sets {set}; the sky is fully dark {dark}.",
    (False, True): "The Sun rises {rise}; the sky is fully dark {dark}.",
}
_NOT_DARK: Final = {
    (True, True): (
        "The Sun sets {set} and rises {rise}, at most {depth} down: the sky never gets fully dark."
    ),
    (True, False): "The Sun sets {set}, at most {depth} down: the sky never gets fully dark.",
    (False, True): "The Sun rises {rise}, at most {depth} down: the sky never gets fully dark.",
}


def sun_course_sentence(sun: SunNight, clock: SiteClock) -> str:
    """Return when the Sun sets and rises, and how deep it gets below the horizon."""
    if sun.lowest_altitude_deg > SUN_HORIZON_DEG:
        return _DOES_NOT_SET
    return _COURSES[sun.set is not None, sun.rise is not None].format(**_figures(sun, clock))


def sun_times_sentence(sun: SunNight, clock: SiteClock) -> str:
    """Return when the Sun sets and rises, and from when to when the sky is fully dark."""
    case, figures = (sun.set is not None, sun.rise is not None), _figures(sun, clock)
    if case not in _DARK:
        if abs(sun.lowest_altitude_deg) < -SUN_HORIZON_DEG:
            return _ON_THE_HORIZON
        return (_STAYS_UP if sun.lowest_altitude_deg > 0 else _STAYS_DOWN).format(**figures)
    if sun.astronomical_dusk is None or sun.astronomical_dawn is None:
        return _NOT_DARK[case].format(**figures)
    return _DARK[case].format(dark=clock.span(sun.astronomical_dusk, sun.astronomical_dawn), **figures)


def _figures(sun: SunNight, clock: SiteClock) -> dict[str, str]:
    return {
        "set": "" if sun.set is None else clock.time(sun.set),
        "rise": "" if sun.rise is None else clock.time(sun.rise),
        "depth": angle_text(abs(sun.lowest_altitude_deg)),
    }
