"""Tonight's air in words."""

import pytest
from attrs import evolve

from core.air.blur import Blur, BlurSource
from core.air.first_look import SCALE_STEPS, FirstLook, Judged, Scale, ScaleStep
from core.ladder.aim import aim_altitude, aim_overhead
from core.sky.bodies import Body
from core.words.air import (
    blur_text,
    blur_words,
    judged_where_words,
    overhead_blur_words,
    source_text,
    step_words,
)


# Common practice, no source: a hundredth of an arcsecond below two, a tenth above, halves up.
@pytest.mark.parametrize(
    ("arcsec", "told"), [(1.45, "1.45″"), (0.8, "0.8″"), (1.994, "1.99″"), (2.25, "2.3″"), (3.0, "3″")]
)
def test_the_figure_of_a_blur_is_rounded_in_one_way(arcsec: float, told: str) -> None:
    assert blur_text(Blur(overhead_arcsec=arcsec)) == told


def test_how_the_air_was_judged_is_told_with_its_height() -> None:
    at_a_height = Judged(by=FirstLook.FAIR, altitude_deg=25.2)
    by_step, overhead = Judged(by=ScaleStep(Scale.TEN_STEPS, 7)), Judged(by=FirstLook.BOILING)

    assert overhead_blur_words(Blur(overhead_arcsec=0.87, judged=at_a_height)) == (
        "blur 0.87″ overhead, judged fair at 25°"
    )
    assert source_text(Blur(overhead_arcsec=1.16, judged=by_step)) == "judged 7 of ten"
    assert source_text(Blur(overhead_arcsec=3.0, judged=overhead)) == "judged boiling"
    assert source_text(Blur(overhead_arcsec=0.8, judged=Judged(by=FirstLook.STEADY))) == "judged steady"


def test_each_step_of_a_scale_says_what_is_seen() -> None:
    """Of five steps in any telescope, of ten a star's rings in about 127 mm (common practice, from "
    "memory)."""
    assert [step_words(step) for step in SCALE_STEPS] == [
        "I of five: perfectly still",
        "II of five: slight quivers, calm for seconds",
        "III of five: moderate, larger tremors",
        "IV of five: poor, troubled all the time",
        "V of five: very bad, hardly a shape",
        "10 of ten: star: disc and all rings still",
        "9 of ten: star: disc and inner ring still",
        "8 of ten: star: sharp disc, rings on the move",
        "7 of ten: star: disc sharp at times, whole rings at times",
        "6 of ten: star: disc always there, bits of ring always",
        "5 of ten: star: disc always there, bits of ring often",
        "4 of ten: star: a disc often, bits of ring at times",
        "3 of ten: star: a blob, brighter in the middle",
        "2 of ten: star: a large blob, smaller at times",
        "1 of ten: star: a large boiling blob",
    ]


def test_at_which_height_the_air_is_judged() -> None:
    saturn = evolve(aim_altitude(44.0), planet=Body.SATURN)

    assert judged_where_words(saturn) == "as seen at Saturn's height, 44°"
    assert judged_where_words(aim_altitude(44.0)) == "as seen at 44°"
    # Straight up, and where no one can say what so much air does.
    for aim in (aim_overhead(), evolve(aim_altitude(3.0), planet=Body.SATURN)):
        assert judged_where_words(aim) == "as seen overhead"


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
