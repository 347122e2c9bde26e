"""What to do on a rung and after it, and what deserves a word about it."""

from datetime import datetime
from typing import Final

from core.air.blur import BlurSource
from core.air.finest_detail import LimitKind
from core.gear.aperture import working_aperture_mm
from core.ladder.climb import LIKELY_FROM, Move, NextStep
from core.ladder.ladder import Ladder, Rung
from core.ladder.usual_powers import USUAL_NIGHT_APERTURE_MM
from core.record.log_entry import Verdict
from core.situation.situation import Situation
from core.words.ladder import part_text
from core.words.last_call import last_call_words
from core.words.limit_names import limit_name
from core.words.mount import settling_words
from core.words.names import opening
from core.words.notices import notice_texts
from core.words.quantities import drift_text, field_text, per_mm_text, power_text, pupil_text
from core.words.site_clock import SiteClock, clock_of
from core.words.units import USUAL_UNITS, Units

_SAID: Final = "Power ladder, in hand: {words}"
_PUPIL: Final = "pupil {pupil}"
_FIELD: Final = "field {field}"
_DRIFT: Final = "drift {drift}"
_OVER: Final = "Over what {limit} can bear: when it looks soft, step back to {to}, {label}."
_BACK: Final = "Back to {to}, {label}: this step has most likely cost detail."
_BACK_PERHAPS: Final = "Perhaps back to {to}, {label}: this step may have cost detail."
# What was seen just now comes before what is believed.
_BACK_SEEN: Final = "Back to {to}, {label}: you saw less at {here} than at {seen}."
_BACK_THOUGH_MORE: Final = (
    "You saw more at {here} than at {seen}, though it is over what aperture and air (seeing) are likely to "
    "bear: compare it with {to}, {label}."
)
_BY_WHAT_WAS_SEEN: Final = {Verdict.LESS: _BACK_SEEN, Verdict.MORE: _BACK_THOUGH_MORE}
_NEXT: Final = "Next {to}, {label}: refocus, re-centre, {settle}, watch a minute or two."
_BEGIN: Final = (
    "Begin with {here}, {here_label}. Next {to}, {label}: refocus, re-centre, {settle}, watch a minute or "
    "two."
)
_LATER_BEGIN: Final = (
    "Once {planet} is in sight, begin with {here}, {here_label}, and go on from there to {to}, {label}."
)
_TRY: Final = (
    "{to}, {label}, is worth a try: refocus, re-centre, {settle}, watch a minute or two. It may show no more."
)
_TOP_OWNED: Final = (
    "The highest power of this telescope. Give it a minute or two, and wait for the still moments."
)
_AT_THE_TOP: Final = (
    "As far as {limit} can take you. Give it a minute or two, and wait for the still moments."
)
_GAP: Final = (
    "Stay here: aperture and air (seeing) bear about {ceiling}, but you own nothing between {here} and "
    "{above}. Wait for the still moments."
)
_SETTLED: Final = "Stay here: from your verdicts more power would not show more. Wait for the still moments."
_AGAIN: Final = "Stay here. {above} is worth another try from about {time}, when the air may have changed."
_USUAL: Final = (
    "As far as {usual} goes, though the air may bear more tonight: lift that limit to try {above}."
)
# Of a planet that is still to come, by what to do and whether it is only worth a try.
_LATER: Final = {
    (Move.UP, False): "Once {planet} is in sight, go on from here to {to}, {label}.",
    (Move.UP, True): "Once {planet} is in sight, {to}, {label}, is worth a try.",
    (Move.BACK, False): "For {planet} at {at} this is likely too much: {to}, {label}, will show as much.",
    (Move.BACK, True): "For {planet} at {at} this is likely too much: {to}, {label}, will show as much.",
    (Move.STAY, False): "For {planet} at {at} this is as far as it pays to go.",
}
_LATER_GAP: Final = (
    "For {planet} at {at} aperture and air (seeing) bear about {ceiling}, but you own nothing between {here} "
    "and {above}."
)
_HIGHEST_OWNED: Final = "This is the highest power of this telescope."
_GONE: Final = "{planet} is no longer to be seen this evening; this is its ladder of {at}."
# By what to do and whether it is only worth a try; the same in a few words.
_BRIEFLY: Final = {
    (Move.UP, False): "next {to}, {label}",
    (Move.UP, True): "try {to}, {label}",
    (Move.BACK, False): "back to {to}, {label}",
    (Move.BACK, True): "back to {to}, {label}",
    (Move.STAY, False): "stay here",
}
_BRIEFLY_COMPARE: Final = "compare {to}, {label}"
_STAY_AND_TRY: Final = "stay; try {above} at {time}"
# By whether the aperture decides on a usual night, or the air before it.
_PER_MM: Final = {
    True: "{power} is {per_mm} of aperture; 1.2x to 1.5x is usual, 2x the limit.",
    False: "{power} is {per_mm} of aperture; 2x is the limit, and the air mostly stops you before.",
}
# Below what is usual it says nothing of a power.
_TOLD_FROM_PER_MM: Final = 1.2
_NEARLY_THE_SAME: Final = "Nearly the same power: {others}."
_OTHER: Final = "{label} ({power})"


def rung_figures(rung: Rung) -> str:
    """Return a rung's exit pupil, field and drift in one line."""
    figures = [_PUPIL.format(pupil=pupil_text(rung.exit_pupil_mm))]
    if rung.true_field_deg is not None:
        figures.append(_FIELD.format(field=field_text(rung.true_field_deg)))
    if rung.drift_s is not None:
        figures.append(_DRIFT.format(drift=drift_text(rung.drift_s)))
    return "  ·  ".join(figures)


def rung_said(rung: Rung, ladder: Ladder) -> str:
    """Return a ladder and its rung in hand as a reader of the screen says them."""
    said = (power_text(rung.power), rung.label, part_text(rung, ladder), rung_figures(rung))
    return _SAID.format(words=", ".join(word for word in said if word))


def what_next_words(situation: Situation) -> str:
    """Return what to do after the rung in hand; in the last minutes before sunrise only to stop."""
    step, ladder, clock, call = (
        situation.next_step,
        situation.ladder,
        clock_of(situation),
        situation.last_call,
    )
    if call is not None and clock is not None:
        return last_call_words(call, clock)
    if step is None or ladder is None:
        return ""
    if situation.is_out_of_sight and clock is not None:
        return _later_words(step, ladder, clock, now=situation.minute, has_begun=situation.rung_is_taken)
    return next_step_text(step, ladder, clock, has_begun=situation.rung_is_taken)


def _later_words(step: NextStep, ladder: Ladder, clock: SiteClock, *, now: datetime, has_begun: bool) -> str:
    """Return what will be to do on a planet that is not in sight now, or that it was."""
    planet, at = ladder.aim.planet, ladder.aim.at
    if planet is None or at is None:
        return ""
    if at < now:
        return _GONE.format(planet=opening(planet), at=clock.time(at))
    if step.move is Move.STAY and step.above is None:
        return _HIGHEST_OWNED
    template = _LATER[step.move, step.is_a_try]
    if step.move is Move.STAY and step.is_gap:
        template = _LATER_GAP
    elif step.move is Move.UP and not (has_begun or step.is_a_try):
        template = _LATER_BEGIN
    return template.format(
        planet=planet.label,
        at=clock.time(at),
        here=power_text(step.rung.power),
        here_label=step.rung.label,
        above="" if step.above is None else power_text(step.above.power),
        ceiling="" if ladder.ceiling.power is None else power_text(ladder.ceiling.power),
        to="" if step.to is None else power_text(step.to.power),
        label="" if step.to is None else step.to.label,
    )


def next_step_text(step: NextStep, ladder: Ladder, clock: SiteClock | None, *, has_begun: bool = True) -> str:
    """Return what to do after a rung, and why; common practice: one rung at a time.

    Who has not begun yet is told with which rung.
    """
    set_by = ladder.ceiling.set_by
    if set_by is None:
        return ""
    template = _template(step, ladder, clock)
    if template is _NEXT and not has_begun:
        template = _BEGIN
    return template.format(
        limit=limit_name(set_by, explain_air=True),
        usual=limit_name(LimitKind.USUAL_AIR),
        to="" if step.to is None else power_text(step.to.power),
        label="" if step.to is None else step.to.label,
        here=power_text(step.rung.power),
        here_label=step.rung.label,
        above="" if step.above is None else power_text(step.above.power),
        seen="" if step.just_seen is None else power_text(step.just_seen.from_power),
        ceiling="" if ladder.ceiling.power is None else power_text(ladder.ceiling.power),
        settle=settling_words(ladder.scope),
        time="" if step.try_again_at is None or clock is None else clock.time(step.try_again_at),
    )


def next_step_briefly(step: NextStep, clock: SiteClock | None) -> str:
    """Return the same in a few words, to be read from afar: ``next 150x, 8 mm``."""
    if step.to is None:
        if step.above is None or step.try_again_at is None or clock is None:
            return _BRIEFLY[Move.STAY, False]
        return _STAY_AND_TRY.format(above=power_text(step.above.power), time=clock.time(step.try_again_at))
    is_compared = step.just_seen is not None and step.just_seen.verdict is Verdict.MORE
    template = _BRIEFLY_COMPARE if is_compared else _BRIEFLY[step.move, step.is_a_try]
    return template.format(to=power_text(step.to.power), label=step.to.label)


def _template(step: NextStep, ladder: Ladder, clock: SiteClock | None) -> str:
    has_taught = ladder.blur.source is BlurSource.VERDICTS
    if step.move is Move.BACK:
        if step.just_seen is not None and step.just_seen.verdict in _BY_WHAT_WAS_SEEN:
            return _BY_WHAT_WAS_SEEN[step.just_seen.verdict]
        if not has_taught:
            return _OVER
        return _BACK if step.chance >= LIKELY_FROM else _BACK_PERHAPS
    if step.move is Move.UP:
        return _TRY if step.is_a_try else _NEXT
    if step.above is None:
        return _TOP_OWNED
    if step.is_over_usual_air:
        return _USUAL
    if step.try_again_at is not None and clock is not None:
        return _AGAIN
    if step.is_gap:
        return _GAP
    return _SETTLED if has_taught else _AT_THE_TOP


def rung_detail(rung: Rung, ladder: Ladder, units: Units = USUAL_UNITS) -> str:
    """Return all that deserves a word about a rung, as sentences; what to do next stands apart."""
    per_mm = per_mm_text(rung.power, working_aperture_mm(ladder.scope))
    is_told = rung.power >= _TOLD_FROM_PER_MM * working_aperture_mm(ladder.scope)
    aperture_decides = working_aperture_mm(ladder.scope) <= USUAL_NIGHT_APERTURE_MM
    told = _PER_MM[aperture_decides].format(power=power_text(rung.power), per_mm=per_mm)
    words = [told] if is_told else []
    if rung is ladder.rungs[0]:
        words += notice_texts(ladder.notices, units)
    words += notice_texts(rung.notices, units)
    if rung.alternatives:
        others = (
            _OTHER.format(label=other.label, power=power_text(other.power)) for other in rung.alternatives
        )
        words.append(_NEARLY_THE_SAME.format(others=", ".join(others)))
    return " ".join(word for word in words if word)
