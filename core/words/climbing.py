"""What to do on a rung and after it, and what deserves a word about it."""

from typing import Final

from core.gear.aperture import working_aperture_mm
from core.ladder.ladder import Ladder, Rung
from core.words.limits import limit_name
from core.words.notices import notice_texts
from core.words.quantities import drift_text, field_text, per_mm_text, power_text, pupil_text

_PUPIL: Final = "pupil {pupil}"
_FIELD: Final = "field {field}"
_DRIFT: Final = "drift {drift}"
_OVER: Final = "Over what {limit} allows: when it looks soft, step back to {top}."
_AT_THE_TOP: Final = "As far as {limit} allows. Give it a minute or two, and wait for the still moments."
_NEXT: Final = "Next {power}, {label}: refocus, re-centre, let the mount settle, watch a minute or two."
_PER_MM: Final = "{power} is {per_mm} of aperture."
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


def next_step_text(rung: Rung, ladder: Ladder) -> str:
    """Return what to do after a rung, and why; common practice: one rung at a time."""
    top = ladder.climb_to
    if top is None or ladder.ceiling.set_by is None:
        return ""
    limit = limit_name(ladder.ceiling.set_by, explain_air=True)
    if rung.power >= top:
        return (_OVER if rung.power > top else _AT_THE_TOP).format(limit=limit, top=power_text(top))
    following = next(other for other in ladder.rungs if other.power > rung.power)
    return _NEXT.format(power=power_text(following.power), label=following.label)


def rung_detail(rung: Rung, ladder: Ladder) -> str:
    """Return all that deserves a word about a rung, as sentences."""
    per_mm = per_mm_text(rung.power, working_aperture_mm(ladder.scope))
    words = [next_step_text(rung, ladder), _PER_MM.format(power=power_text(rung.power), per_mm=per_mm)]
    if rung is ladder.rungs[0]:
        words += notice_texts(ladder.notices)
    words += notice_texts(rung.notices)
    if rung.alternatives:
        others = (
            _OTHER.format(label=other.label, power=power_text(other.power)) for other in rung.alternatives
        )
        words.append(_NEARLY_THE_SAME.format(others=", ".join(others)))
    return " ".join(word for word in words if word)
