"""Tonight's air in words."""

import pytest

from core.air.blur import Blur, BlurSource
from core.air.first_look import SCALE_STEPS, FirstLook, Judged, Scale, ScaleStep
from core.words.air import blur_text, blur_words, overhead_blur_words, source_text, step_words


# Common practice, no source: a hundredth of an arcsecond below two, a tenth above, halves up.
@pytest.mark.parametrize(
    ("arcsec", "told"), [(1.45, "1.45″"), (0.8, "0.8″"), (1.994, "1.99″"), (2.25, "2.3″"), (3.0, "3″")]
)
def test_the_figure_of_a_blur_is_rounded_in_one_way(arcsec: float, told: str) -> None:
    assert blur_text(Blur(overhead_arcsec=arcsec)) == told


def test_how_the_air_was_judged_is_told_with_its_height() -> None:
    at_a_height = Judged(by=FirstLook.FAIR, altitude_deg=25.2)
    by_step = Judged(by=ScaleStep(Scale.TEN_STEPS, 7))

    assert overhead_blur_words(Blur(overhead_arcsec=0.87, judged=at_a_height)) == (
        "blur 0.87″ overhead, judged fair at 25°"
    )
    assert source_text(Blur(overhead_arcsec=1.16, judged=by_step)) == "judged 7 of ten"


def test_each_step_of_a_scale_has_words_of_its_own() -> None:
    words = [step_words(step) for step in SCALE_STEPS]

    assert len(set(words)) == 15
    assert words[1] == "II of five: slight quivers, calm for seconds"


@pytest.mark.parametrize(
    ("source", "briefly", "fully"),
    [
        (BlurSource.ASSUMED, "blur 1.45″, assumed", "blur 1.45″ overhead, assumed fair"),
        (BlurSource.GIVEN, "blur 1.45″", "blur 1.45″ overhead, as given"),
        (BlurSource.LOG, "blur 1.45″, usual here by your log", "blur 1.45″ overhead, usual here by your log"),
        (BlurSource.VERDICTS, "blur 1.45″, from your verdicts", "blur 1.45″ overhead, from your verdicts"),
    ],
)
def test_the_source_of_a_blur_is_told(source: BlurSource, briefly: str, fully: str) -> None:
    blur = Blur(overhead_arcsec=1.45, source=source)

    assert (blur_words(blur), overhead_blur_words(blur)) == (briefly, fully)
