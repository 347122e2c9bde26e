"""What only the terminal's reports say: their headings and marks, and the sentences about a ladder's aim."""

from typing import Final

from core.ladder.aim import Aim
from core.ladder.ladder import Ladder
from core.words.dates import weekday_text
from core.words.ladder import no_ceiling_text
from core.words.limits import what_sets_ceiling
from core.words.names import opening
from core.words.quantities import angle_text, path_text, power_text
from core.words.site_clock import SiteClock

POWER_LADDER: Final = "{scope}: power ladder"
ITEM: Final = "- {words}"
NO_POWER: Final = "no power"
MORE_LIKE_IT: Final = " (+{count})"
MORE_LIKE_IT_MEANS: Final = "(+1): one more combination gives nearly the same power; (+2): two more."
IN_THE_DARK: Final = "in the dark, above 10°"
LOG_LINE: Final = "{time}  {words}"
LIKELIHOOD: Final = "{likelihood:<9} {feature}"
EVENING: Final = "{site}, evening of {day}, noon to noon"
EVENING_IN_ORDER: Final = "{site}, evening of {day}, in order; times are those of {zone}"
ABOUT_HEIGHTS: Final = "Times are those of {zone}; altitudes are geometric, without refraction."
WINDOW: Final = "{span} {grade}"
WARM_WINDOW: Final = "{span} {grade}, {air}"
LOOKS: Final = "{heading}, {site}"
REFUSED: Final = "{reason}."
CAUTION: Final = "Caution: {caution}"
THROUGH: Final = "Through {scope}. {turning}"
WHAT_TO_LOOK_FOR: Final = "What to look for (an estimate)"

_CEILING: Final = "Ceiling about {power}, set by {limit}; a rule of thumb."
_NO_CEILING: Final = "No ceiling: {reason}."
_OVERHEAD: Final = "Straight overhead, since neither a planet nor a height is given."
_NOTHING: Final = "{planet}: nothing is offered this evening."
# By whether there are a planet, a time of it and an air path.
_AIMS: Final = {
    (False, False, False): "{height} high.",
    (False, False, True): "{height} high, {path} times the air overhead.",
    (True, False, False): "{planet}: {height} high.",
    (True, False, True): "{planet}: {height} high, {path} times the air overhead.",
    (True, True, False): "{planet} on {day} at {time}: {height} high.",
    (True, True, True): "{planet} on {day} at {time}: {height} high, {path} times the air overhead.",
}


def ceiling_words(ladder: Ladder) -> str:
    """Return a ladder's ceiling and what sets it, or why there is none, as a sentence."""
    if ladder.ceiling.power is None or not ladder.aim.is_offered:
        return _NO_CEILING.format(reason=no_ceiling_text(ladder))
    return _CEILING.format(power=power_text(ladder.ceiling.power), limit=what_sets_ceiling(ladder))


def aim_words(aim: Aim, clock: SiteClock | None) -> str:
    """Return where the telescope points, and when where there is a ``clock`` to tell it by."""
    if aim.overhead:
        return _OVERHEAD
    if aim.altitude_deg is None:
        assert aim.planet is not None  # only for a planet can there be no moment to offer
        return _NOTHING.format(planet=opening(aim.planet))
    has_time = aim.planet is not None and aim.at is not None and clock is not None
    return _AIMS[aim.planet is not None, has_time, aim.path is not None].format(
        planet="" if aim.planet is None else opening(aim.planet),
        day="" if aim.at is None or clock is None else weekday_text(clock.day(aim.at)),
        time="" if aim.at is None or clock is None else clock.time(aim.at),
        height=angle_text(aim.altitude_deg, 1),
        path="" if aim.path is None else path_text(aim.path),
    )
