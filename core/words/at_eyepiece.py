"""What is told at the eyepiece in the dark: few words, to be read from two metres."""

from datetime import datetime
from typing import Final

from attrs import evolve, frozen

from core.ladder.climb import Move
from core.moments.next_change import NextChange, ViewChange
from core.record.log_entry import Verdict
from core.situation.situation import Situation
from core.sky.sky_parts import UNNAMED_BLOCK
from core.words.aim import aim_notices
from core.words.answer import answer_words, nothing_offered_words
from core.words.climbing import next_step_briefly, next_step_text
from core.words.directions import altitude_text, compass_text
from core.words.limits import lifted_sentence
from core.words.log import VERDICT_LABELS
from core.words.names import opening
from core.words.notices import notice_texts
from core.words.obstacles import warm_air_words
from core.words.quantities import power_text
from core.words.site_clock import SiteClock, clock_of, minutes_between
from core.words.verdicts import VERDICT_KEYS, asked_words

_SUBJECT: Final = "{planet} {height} {direction}"
_AT: Final = "{planet} {height} {direction} at {time}"
_WITH_FILTER: Final = "{part}, filter: {filter}"
_CHANGES: Final = {
    ViewChange.COMES: "up in {minutes}",
    ViewChange.BEHIND: "behind {what} in {minutes}",
    ViewChange.WARM_AIR: "through {what} in {minutes}",
    ViewChange.CLEAR_AIR: "clear of warm air in {minutes}",
    ViewChange.LOW: "under 30° in {minutes}",
    ViewChange.HIGH_ENOUGH: "above 30° in {minutes}",
    ViewChange.TOO_LOW: "too low in {minutes}",
    ViewChange.BRIGHT_SKY: "sky too bright in {minutes}",
    ViewChange.STOP: "cap the telescope in {minutes}",
}
_UNNAMED_BLOCK: Final = "what blocks the sky"
_MINUTES: Final = "{minutes} min"
_HOURS: Final = "{hours} h {minutes:02} min"
_CAP_IN: Final = "cap the telescope: {minutes} left"
_CAP_NOW: Final = "cap the telescope now"
_VERDICT: Final = "{key} {label}"
KEYS: Final = (
    "Up, Down step · Enter takes what is next · F filter · Backspace takes a verdict back · - + light · "
    "Esc leaves"
)
# Longer than this is told in hours too.
_HOUR_MINUTES: Final = 60


@frozen(kw_only=True)
class EyepieceWords:
    """The words of the mode at the eyepiece, an empty one where there is nothing to tell.

    ``notices`` are whole sentences, ``verdicts`` the buttons with their keys, which do nothing
    before there is a step that ``can_be_judged``; ``refusal`` takes the place of
    rung and next step where nothing is offered.
    """

    subject: str
    time: str
    power: str = ""
    part: str = ""
    next_step: str = ""
    change: str = ""
    asked: str = ""
    notices: tuple[str, ...] = ()
    verdicts: tuple[tuple[Verdict, str], ...] = ()
    can_be_judged: bool = False
    refusal: str = ""
    keys: str = KEYS

    def with_notice(self, sentence: str) -> "EyepieceWords":
        """Return the words with one more notice, unless it is empty."""
        return evolve(self, notices=(sentence, *self.notices)) if sentence else self

    @property
    def said(self) -> str:
        """All of it as a reader of the screen says it."""
        told = (self.subject, self.time, self.power, self.part, self.next_step, self.change, self.asked)
        return ". ".join(word for word in (*told, *self.notices, self.refusal) if word)


def eyepiece_words(situation: Situation) -> EyepieceWords:
    """Return what is told at the eyepiece now."""
    clock, ladder, rung, aim = clock_of(situation), situation.ladder, situation.rung, situation.aim
    time = "" if clock is None else clock.time(situation.minute)
    call, planet = situation.last_call, situation.planet
    subject = _subject(situation, clock) if call is None or planet is None else opening(planet)
    if ladder is None or rung is None:
        refusal = answer_words(situation)
        if ladder is not None:
            refusal = nothing_offered_words(situation) or " ".join(notice_texts(ladder.notices))
        return EyepieceWords(subject=subject, time=time, refusal=refusal)
    step, filter_in = situation.next_step, situation.filter_in
    part = rung.label
    if filter_in is not None:
        part = _WITH_FILTER.format(part=part, filter=filter_in.name)
    next_words = "" if step is None else next_step_briefly(step, clock)
    change = "" if situation.next_change is None else change_text(situation.next_change, situation.minute)
    if call is not None:
        # In the last minutes before sunrise nothing counts but to stop.
        left = minutes_text(call.stop, call.now)
        next_words, change = _CAP_NOW if call.is_past else _CAP_IN.format(minutes=left), ""
    stop = answer_words(situation) if call is not None else ""
    why = ""
    if step is not None and step.move is not Move.UP and call is None:
        why = next_step_text(step, ladder, clock)
    notices = (stop, *aim_notices(aim), why, lifted_sentence(ladder))
    return EyepieceWords(
        subject=subject,
        time=time,
        power=power_text(rung.power),
        part=part,
        next_step=next_words,
        change=change,
        asked=asked_words(situation),
        notices=tuple(notice for notice in notices if notice),
        verdicts=_verdicts() if call is None or situation.can_be_judged else (),
        can_be_judged=situation.can_be_judged,
    )


def change_text(change: NextChange, now: datetime) -> str:
    """Return what happens next to the view, and in how long: ``behind roof ridge in 23 min``."""
    what = _UNNAMED_BLOCK if change.what == UNNAMED_BLOCK else change.what
    if change.kind is ViewChange.WARM_AIR:
        what = warm_air_words(change.what)
    return _CHANGES[change.kind].format(what=what, minutes=minutes_text(change.at, now))


def minutes_text(until: datetime, now: datetime) -> str:
    """Return the full minutes left: ``23 min``, ``2 h 05 min``."""
    hours, minutes = divmod(max(minutes_between(now, until), 0), _HOUR_MINUTES)
    return _HOURS.format(hours=hours, minutes=minutes) if hours else _MINUTES.format(minutes=minutes)


def _subject(situation: Situation, clock: SiteClock | None) -> str:
    """Return the planet with its height, and for when where that is not now."""
    aim = situation.aim
    if aim.planet is None or aim.altitude_deg is None:
        return "" if situation.planet is None else opening(situation.planet)
    planet, height = opening(aim.planet), altitude_text(aim.altitude_deg)
    direction, night = "", situation.night
    if night is not None:
        moment = aim.at or situation.minute
        direction = compass_text(night.position(aim.planet, moment).azimuth_deg)
    if aim.at is None or clock is None or aim.at == situation.minute:
        return _SUBJECT.format(planet=planet, height=height, direction=direction).rstrip()
    return _AT.format(planet=planet, height=height, direction=direction, time=clock.time(aim.at))


def _verdicts() -> tuple[tuple[Verdict, str], ...]:
    return tuple(
        (verdict, _VERDICT.format(key=key, label=VERDICT_LABELS[verdict]))
        for verdict, key in VERDICT_KEYS.items()
    )
