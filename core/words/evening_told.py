"""A whole evening told in words: its steps, close pairs, and what happens on Jupiter."""

from typing import Final

from core.looks.happenings import find_happenings
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.night import Night
from core.words.dates import weekday_text
from core.words.evening import NOTHING_TO_PREPARE, item_title, item_words
from core.words.happenings import happening_words
from core.words.pairs import pair_sentences
from core.words.site_clock import SiteClock

_HEADING: Final = "{day}, {site}"
_STEP: Final = "{times}  {title}\n{words}\n"
_ON_JUPITER: Final = "On Jupiter"


def evening_heading(night: Night) -> str:
    """Return the day and the site of an evening."""
    return _HEADING.format(day=weekday_text(night.evening), site=night.site.name)


def evening_told(situation: Situation, night: Night, clock: SiteClock) -> str:
    """Return the evening of a situation with all that is to be said about it."""
    unit = situation.preferences.temperature
    lines = [
        _STEP.format(
            times=clock.times(item.start, item.end),
            title=item_title(item),
            words=item_words(item, clock, unit=unit),
        )
        for item in situation.evening_steps
    ]
    lines += pair_sentences(situation)
    if night.of(Body.JUPITER).windows:
        # Whatever planet is in hand.
        happenings = find_happenings(night, Body.JUPITER, situation.red_spot_passes)
        lines += [_ON_JUPITER, *happening_words(Body.JUPITER, happenings, clock)]
    return "\n".join(lines) or NOTHING_TO_PREPARE
