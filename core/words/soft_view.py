"""The view is soft: the questions, the likeliest cause, and one thing to try."""

from typing import Final

from core.tonight.soft_view import Cause, LikelyCause, Question

TITLE: Final = "The view is soft: why?"
QUESTIONS: Final = {
    Question.SHARP_AFTER_FOCUSING: (
        "Turn the focuser slowly through the sharpest point and back, on the planet's edge or a bright star. "
        "Is the view sharp now?"
    ),
    Question.FOCUS_PASSES: (
        "Does the focuser pass the sharpest point, so that it gets soft again on both sides?"
    ),
    Question.LESS_POWER_HELPS: "Is the view clearly sharper with the next lower power?",
    Question.RING_IS_EVEN: (
        "Take a bright star high up a little out of focus. Is its ring round and even, and its dark middle, "
        "if it has one, in the centre?"
    ),
    Question.SLOW_SWIRLS: "Do slow swirls, like smoke, drift across that star out of focus?",
    Question.STARS_TWINKLE: "Do stars high up twinkle strongly to the bare eye?",
    Question.GLOW: "Is everything dim, with a glow round what is bright?",
    Question.HIGH_STAR_IS_SOFT: "Is a bright star high up just as soft at the same power?",
    Question.CALMS_DOWN_UNTOUCHED: (
        "Does the view get sharp when nobody touches the telescope or walks about?"
    ),
    Question.TURNS_WITH_THE_HEAD: ("Does the blur turn with your head, or go when you keep your glasses on?"),
    Question.CALMS_WHEN_STEPPING_ASIDE: (
        "Does the view calm down when whoever stands before the opening of the tube steps aside?"
    ),
}
_CAUSES: Final = {
    Cause.FOCUS: "it was not quite in focus",
    Cause.FOCUS_OUT_OF_REACH: "the focuser does not reach the sharpest point",
    Cause.DEW: "there is dew on the glass",
    Cause.COLLIMATION: "the mirrors or lenses are not in line",
    Cause.COOLING: "the telescope is still warmer than the air",
    Cause.OWN_WARMTH: "the warmth of somebody's own body rises before the tube",
    Cause.WARM_AIR: "the line of sight goes through warm air",
    Cause.HEIGHT: "the planet is low: its light comes through much air, and its colours are spread",
    Cause.AIR: "the air (seeing) is unsteady",
    Cause.POWER: "the power is more than this air bears",
    Cause.SMALL_PUPIL: "the exit pupil is so small that the view is dim and floaters show",
    Cause.MOUNT: "the telescope trembles",
    Cause.EYE: "it is the eye itself, at this wide an exit pupil",
}
_TRY: Final = {
    Cause.FOCUS: "Refocus after every change of eyepiece, and now and then as the tube cools.",
    Cause.FOCUS_OUT_OF_REACH: (
        "Draw the eyepiece a little out of its holder and hold it there. If that helps, it needs a spacer; "
        "if it does not, and the focuser is as far in as it goes, leave out the diagonal or the Barlow."
    ),
    Cause.DEW: (
        "Look at the glass with a dim red light, from the side. Do not wipe it: warm it gently, or let it "
        "dry indoors with the caps off, and use a shield. Heaters by the maker's instructions."
    ),
    Cause.COLLIMATION: (
        "Check the alignment on a star high up at high power, as the maker describes; never near the Sun."
    ),
    Cause.COOLING: "Stay at low power for half an hour more, with the fan on if it has one, and try again.",
    Cause.OWN_WARMTH: "Stand to the side of the opening, on the side that the breeze blows towards.",
    Cause.WARM_AIR: "Move the telescope, or wait until the planet has left the roof or chimney behind.",
    Cause.HEIGHT: ("Wait until it is higher, or take less power; a yellow filter takes some colour away."),
    Cause.AIR: "Stay a step lower and watch for the calm moments, two minutes at a time; try again later.",
    Cause.POWER: "Go one rung back.",
    Cause.SMALL_PUPIL: "Go one rung back: less power gives a brighter view.",
    Cause.MOUNT: (
        "Take your hands off and wait; spread the legs lower, hang a weight under the tripod, or set it on "
        "the ground."
    ),
    Cause.EYE: "Keep your glasses on, or take the next higher power: its narrower pupil hides most of it.",
}
_MOST_LIKELY: Final = "Most likely {cause}. {trial}"
_PERHAPS: Final = "Perhaps {cause}. {trial}"
_CANNOT_BE_JUDGED: Final = (
    "It cannot be judged tonight from these answers. Go back to the power that showed most, watch for a few "
    "calm minutes, and ask again on another night or on another planet."
)
_SURE_FROM: Final = 0.6
A_GUIDE: Final = (
    "Common practice and rules of thumb; your own eyes and the maker's instructions count for more."
)


def question_text(question: Question) -> str:
    """Return a question to be answered with yes, no or cannot tell."""
    return QUESTIONS[question]


def cause_text(likely: LikelyCause) -> str:
    """Return the likeliest cause and one thing to try, or that it cannot be judged."""
    if likely.cause is None:
        return _CANNOT_BE_JUDGED
    template = _MOST_LIKELY if likely.share >= _SURE_FROM else _PERHAPS
    return template.format(cause=_CAUSES[likely.cause], trial=_TRY[likely.cause])
