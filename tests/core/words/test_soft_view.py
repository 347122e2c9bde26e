"""Why a view is soft: how sure the sentence is, and that each cause has a trial of its own."""

import pytest

from core.tonight.soft_view import Cause, LikelyCause, Question
from core.words.soft_view import cause_text, question_text


def told(cause: Cause | None, share: float = 0.8) -> str:
    return cause_text(LikelyCause(cause=cause, share=share))


@pytest.mark.parametrize(
    ("question", "words"),
    [
        (
            Question.SHARP_AFTER_FOCUSING,
            (
                "Turn the focuser slowly through the sharpest point and back, on the planet's edge or a "
                "bright star. Is the view sharp now?"
            ),
        ),
        (
            Question.FOCUS_PASSES,
            "Does the focuser pass the sharpest point, so that it gets soft again on both sides?",
        ),
        (Question.LESS_POWER_HELPS, "Is the view clearly sharper with the next lower power?"),
        # Without an obstruction there is no dark middle.
        (
            Question.RING_IS_EVEN,
            (
                "Take a bright star high up a little out of focus. Is its ring round and even, and its dark "
                "middle, if it has one, in the centre?"
            ),
        ),
        (Question.SLOW_SWIRLS, "Do slow swirls, like smoke, drift across that star out of focus?"),
        (Question.STARS_TWINKLE, "Do stars high up twinkle strongly to the bare eye?"),
        (Question.GLOW, "Is everything dim, with a glow round what is bright?"),
        (Question.HIGH_STAR_IS_SOFT, "Is a bright star high up just as soft at the same power?"),
        (
            Question.CALMS_DOWN_UNTOUCHED,
            "Does the view get sharp when nobody touches the telescope or walks about?",
        ),
        (
            Question.TURNS_WITH_THE_HEAD,
            "Does the blur turn with your head, or go when you keep your glasses on?",
        ),
        (
            Question.CALMS_WHEN_STEPPING_ASIDE,
            "Does the view calm down when whoever stands before the opening of the tube steps aside?",
        ),
    ],
)
def test_each_question_is_answered_by_looking(question: Question, words: str) -> None:
    assert question_text(question) == words


@pytest.mark.parametrize(("share", "sure"), [(0.59, "Perhaps"), (0.6, "Most likely"), (1.0, "Most likely")])
def test_it_is_most_likely_from_six_tenths_on(share: float, sure: str) -> None:
    assert told(Cause.POWER, share) == f"{sure} the power is more than this air bears. Go one rung back."


@pytest.mark.parametrize(
    ("cause", "words"),
    [
        (
            Cause.FOCUS,
            (
                "it was not quite in focus. Refocus after every change of eyepiece, and now and then as the "
                "tube cools."
            ),
        ),
        (
            Cause.FOCUS_OUT_OF_REACH,
            (
                "the focuser does not reach the sharpest point. Draw the eyepiece a little out of its holder "
                "and hold it there. If that helps, it needs a spacer; if it does not, and the focuser is as "
                "far in as it goes, leave out the diagonal or the Barlow."
            ),
        ),
        (
            Cause.DEW,
            (
                "there is dew on the glass. Look at the glass with a dim red light, from the side. Do not "
                "wipe it: warm it gently, or let it dry indoors with the caps off, and use a shield. Heaters "
                "by the maker's instructions."
            ),
        ),
        (
            Cause.COLLIMATION,
            (
                "the mirrors or lenses are not in line. Check the alignment on a star high up at high power, "
                "as the maker describes; never near the Sun."
            ),
        ),
        (
            Cause.COOLING,
            (
                "the telescope is still warmer than the air. Stay at low power for half an hour more, with "
                "the fan on if it has one, and try again."
            ),
        ),
        (
            Cause.OWN_WARMTH,
            (
                "the warmth of somebody's own body rises before the tube. Stand to the side of the opening, "
                "on the side that the breeze blows towards."
            ),
        ),
        (
            Cause.WARM_AIR,
            (
                "the line of sight goes through warm air. Move the telescope, or wait until the planet has "
                "left the roof or chimney behind."
            ),
        ),
        (
            Cause.HEIGHT,
            (
                "the planet is low: its light comes through much air, and its colours are spread. Wait until "
                "it is higher, or take less power; a yellow filter takes some colour away."
            ),
        ),
        (
            Cause.AIR,
            (
                "the air (seeing) is unsteady. Stay a step lower and watch for the calm moments, two minutes "
                "at a time; try again later."
            ),
        ),
        (
            Cause.SMALL_PUPIL,
            (
                "the exit pupil is so small that the view is dim and floaters show. Go one rung back: less "
                "power gives a brighter view."
            ),
        ),
        (
            Cause.MOUNT,
            (
                "the telescope trembles. Take your hands off and wait; spread the legs lower, hang a weight "
                "under the tripod, or set it on the ground."
            ),
        ),
        (
            Cause.EYE,
            (
                "it is the eye itself, at this wide an exit pupil. Keep your glasses on, or take the next "
                "higher power: its narrower pupil hides most of it."
            ),
        ),
    ],
)
def test_each_cause_is_told_with_the_one_thing_to_try(cause: Cause, words: str) -> None:
    assert told(cause) == f"Most likely {words}"


def test_what_cannot_be_judged_is_left_for_another_night() -> None:
    assert told(None) == (
        "It cannot be judged tonight from these answers. Go back to the power that showed most, watch for a "
        "few calm minutes, and ask again on another night or on another planet."
    )
