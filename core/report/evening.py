"""The evening in order as plain text for a terminal."""

from typing import Final

from core.plain_text import WIDTH, printable, shown_name, wrapped
from core.situation.situation import Situation
from core.words.answer import answer_words
from core.words.cautions import CAP_BEFORE_SUNRISE
from core.words.controls import EVENING_STEP
from core.words.dates import weekday_text
from core.words.evening import NOTHING_TO_PREPARE, item_title, item_words
from core.words.evening_cautions import near_the_sun_cautions
from core.words.pairs import pair_sentences
from core.words.reports import EVENING_IN_ORDER
from core.words.site_clock import clock_of
from core.words.sun import sun_times_sentence

_INDENT: Final = "    "


def evening_text(situation: Situation, *, width: int = WIDTH) -> str:
    """Return the steps of an evening as text; its first line is the answer. There must be a night."""
    night, clock = situation.night, clock_of(situation)
    assert night is not None
    assert clock is not None
    lines = wrapped(printable(answer_words(situation)), width)
    heading = EVENING_IN_ORDER.format(
        site=shown_name(night.site.name), day=weekday_text(night.evening), zone=night.site.time_zone
    )
    lines += ["", *wrapped(heading, width), *wrapped(sun_times_sentence(night.sun, clock), width), ""]
    for item in situation.evening_steps:
        title = printable(item_title(item))
        step = EVENING_STEP.format(times=clock.times(item.start, item.end), title=title)
        lines += wrapped(step, width, indent=_INDENT)
        words = printable(item_words(item, clock, unit=situation.preferences.temperature))
        if words != title:
            lines += wrapped(_INDENT + words, width, indent=_INDENT)
    if not situation.evening_steps:
        lines += wrapped(NOTHING_TO_PREPARE, width)
    for words in pair_sentences(situation):
        lines += ["", *wrapped(printable(words), width)]
    for caution in (*near_the_sun_cautions(night), CAP_BEFORE_SUNRISE):
        lines += ["", *wrapped(caution, width)]
    return "\n".join(lines)
