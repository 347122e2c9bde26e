"""Tonight's air in words: how far it blurs, and where that figure comes from."""

from typing import Final

from core.air.blur import Blur, BlurSource
from core.air.first_look import FirstLook, Judged, Scale, ScaleStep
from core.ladder.aim import Aim
from core.words.directions import altitude_text
from core.words.quantities import trimmed_text

# Below this a blur is told to a hundredth of an arcsecond, above to a tenth.
_HUNDREDTHS_BELOW_ARCSEC: Final = 2.0

_SOURCES: Final = {
    BlurSource.ASSUMED: "assumed fair",
    BlurSource.GIVEN: "as given",
    BlurSource.LOG: "usual here by your log",
    BlurSource.VERDICTS: "from your verdicts",
}
_BRIEFLY: Final = {
    BlurSource.ASSUMED: "blur {blur}, assumed",
    BlurSource.GIVEN: "blur {blur}",
    BlurSource.LOG: "blur {blur}, usual here by your log",
    BlurSource.VERDICTS: "blur {blur}, from your verdicts",
}
_JUDGED: Final = "judged {what} at {height}"
_JUDGED_OVERHEAD: Final = "judged {what}"
_FIRST_LOOKS: Final = {
    FirstLook.STEADY: "steady",
    FirstLook.FAIR: "fair",
    FirstLook.BOILING: "boiling",
}
# Bare keys, wherever the keyboard is.
FIRST_LOOK_KEYS: Final = {FirstLook.STEADY: "1", FirstLook.FAIR: "2", FirstLook.BOILING: "3"}
_OF_TEN: Final = "{number} of ten"
_STEPS: Final = {
    ScaleStep(Scale.FIVE_STEPS, 1): "I of five",
    ScaleStep(Scale.FIVE_STEPS, 2): "II of five",
    ScaleStep(Scale.FIVE_STEPS, 3): "III of five",
    ScaleStep(Scale.FIVE_STEPS, 4): "IV of five",
    ScaleStep(Scale.FIVE_STEPS, 5): "V of five",
    **{ScaleStep(Scale.TEN_STEPS, number): _OF_TEN.format(number=number) for number in range(1, 11)},
}
# What is seen at each step: of five steps in any telescope, of ten a star in about 127 mm (common practice).
_MEANINGS: Final = {
    ScaleStep(Scale.FIVE_STEPS, 1): "perfectly still",
    ScaleStep(Scale.FIVE_STEPS, 2): "slight quivers, calm for seconds",
    ScaleStep(Scale.FIVE_STEPS, 3): "moderate, larger tremors",
    ScaleStep(Scale.FIVE_STEPS, 4): "poor, troubled all the time",
    ScaleStep(Scale.FIVE_STEPS, 5): "very bad, hardly a shape",
    ScaleStep(Scale.TEN_STEPS, 10): "star: disc and all rings still",
    ScaleStep(Scale.TEN_STEPS, 9): "star: disc and inner ring still",
    ScaleStep(Scale.TEN_STEPS, 8): "star: sharp disc, rings on the move",
    ScaleStep(Scale.TEN_STEPS, 7): "star: disc sharp at times, whole rings at times",
    ScaleStep(Scale.TEN_STEPS, 6): "star: disc always there, bits of ring always",
    ScaleStep(Scale.TEN_STEPS, 5): "star: disc always there, bits of ring often",
    ScaleStep(Scale.TEN_STEPS, 4): "star: a disc often, bits of ring at times",
    ScaleStep(Scale.TEN_STEPS, 3): "star: a blob, brighter in the middle",
    ScaleStep(Scale.TEN_STEPS, 2): "star: a large blob, smaller at times",
    ScaleStep(Scale.TEN_STEPS, 1): "star: a large boiling blob",
}
_STEP: Final = "{step}: {meaning}"
_WHERE: Final = "as seen at {planet}'s height, {height}"
_WHERE_AT: Final = "as seen at {height}"
_WHERE_OVERHEAD: Final = "as seen overhead"
_OVERHEAD: Final = "blur {blur} overhead, {source}"


def blur_text(blur: Blur) -> str:
    """Return the figure of a blur overhead: ``1.45″``, ``3″``."""
    arcsec = blur.overhead_arcsec
    return f"{trimmed_text(arcsec, 2 if arcsec < _HUNDREDTHS_BELOW_ARCSEC else 1)}″"


def source_text(blur: Blur) -> str:
    """Return where the figure of a blur comes from: ``as given``, ``judged fair at 25°``."""
    return _SOURCES[blur.source] if blur.judged is None else _judged_text(blur.judged)


def judgement_text(by: FirstLook | ScaleStep) -> str:
    """Return what somebody said of the air: ``fair``, ``II of five``."""
    return _FIRST_LOOKS[by] if isinstance(by, FirstLook) else _STEPS[by]


def step_words(step: ScaleStep) -> str:
    """Return a step of a scale with what it means: ``II of five: slight quivers, calm for seconds``."""
    return _STEP.format(step=_STEPS[step], meaning=_MEANINGS[step])


def judged_where_words(aim: Aim) -> str:
    """Return at which height the air is judged, now that the telescope points there."""
    if aim.path is None or aim.altitude_deg is None or aim.overhead:
        return _WHERE_OVERHEAD
    template = _WHERE_AT if aim.planet is None else _WHERE
    return template.format(
        planet="" if aim.planet is None else aim.planet.label, height=altitude_text(aim.altitude_deg)
    )


def blur_words(blur: Blur) -> str:
    """Return a blur in few words, its source only where that is not the owner: ``blur 1.45″, assumed``."""
    return _BRIEFLY[blur.source].format(blur=blur_text(blur))


def overhead_blur_words(blur: Blur) -> str:
    """Return a blur and its source: ``blur 1.45″ overhead, assumed fair``."""
    return _OVERHEAD.format(blur=blur_text(blur), source=source_text(blur))


def _judged_text(judged: Judged) -> str:
    what = judgement_text(judged.by)
    if judged.altitude_deg is None:
        return _JUDGED_OVERHEAD.format(what=what)
    return _JUDGED.format(what=what, height=altitude_text(judged.altitude_deg))
