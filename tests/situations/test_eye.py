"""The observer's own eye: floaters at small exit pupils, and whether glasses stay on.

Thresholds are common practice, no source; the questions are public ones.
"""

import re
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from core.air.blur import Blur
from core.gear.eye import Eye
from core.gear.owned import Eyepiece
from core.ladder.aim import aim_altitude
from core.ladder.ladder import Rung, build_ladder
from core.words.notices import notice_texts
from tests.situations.conftest import AskJson
from tests.situations.owners import barlows, eyepieces, owner, scope

# From the mildest to the strongest, with the exit pupil under which each begins.
FLOATERS = (("begin to show", 1.0), ("a common complaint", 0.7), ("trouble most people", 0.5))


def rung(aperture_mm: float, power: float, *, blur_arcsec: float = 1.0, altitude_deg: float = 60.0) -> Rung:
    return build_ladder(
        scope=scope("reflector", aperture_mm, 20 * power),
        eyepieces=eyepieces(20),
        barlows=(),
        aim=aim_altitude(altitude_deg),
        blur=Blur(overhead_arcsec=blur_arcsec),
    ).rungs[0]


def floaters(found: Rung) -> list[str]:
    return [notice for notice in notice_texts(found.notices) if "floaters" in notice]


@example(aperture_mm=100.0, pupil_mm=1.05, blurs=(0.5, 4.0), altitudes=(80.0, 20.0))
@example(aperture_mm=100.0, pupil_mm=0.95, blurs=(0.5, 4.0), altitudes=(80.0, 20.0))
@example(aperture_mm=100.0, pupil_mm=0.75, blurs=(0.5, 4.0), altitudes=(80.0, 20.0))
@example(aperture_mm=100.0, pupil_mm=0.65, blurs=(0.5, 4.0), altitudes=(80.0, 20.0))
@example(aperture_mm=100.0, pupil_mm=0.55, blurs=(0.5, 4.0), altitudes=(80.0, 20.0))
@example(aperture_mm=100.0, pupil_mm=0.45, blurs=(0.5, 4.0), altitudes=(80.0, 20.0))
@settings(max_examples=100, deadline=None)
@given(
    aperture_mm=st.floats(50, 500),
    pupil_mm=st.floats(0.25, 3.0),
    blurs=st.tuples(st.floats(0.3, 6.0), st.floats(0.3, 6.0)),
    altitudes=st.tuples(st.floats(6, 90), st.floats(6, 90)),
)
def test_floaters_are_told_by_exit_pupil_alone_and_not_by_the_air(
    aperture_mm: float, pupil_mm: float, blurs: tuple[float, float], altitudes: tuple[float, float]
) -> None:
    power = aperture_mm / pupil_mm
    assume(3 <= power <= 900)
    assume(all(abs(pupil_mm - bound) > 1e-6 for _, bound in FLOATERS))

    here, there = (
        floaters(rung(aperture_mm, power, blur_arcsec=blur, altitude_deg=altitude))
        for blur, altitude in zip(blurs, altitudes, strict=True)
    )

    assert here == there
    expected = [words for words, under_mm in FLOATERS if pupil_mm < under_mm]
    assert len(here) == bool(expected)
    if expected:
        assert expected[-1] in here[0]
        told_mm = re.match(r"Exit pupil (\d\.\d\d) mm", here[0])
        assert told_mm is not None
        assert float(told_mm[1]) == pytest.approx(pupil_mm, abs=0.005 + 1e-9)


@pytest.mark.parametrize("power", [120, 170, 250])
def test_less_power_both_eyes_and_a_larger_aperture_are_offered(power: float) -> None:
    for words in floaters(rung(80, power)):
        assert ("both eyes" in words) == (power > 80 / 0.7)
        assert ("larger aperture at the same power" in words) == (power > 80 / 0.7)


@pytest.mark.parametrize("power", [100, 150, 200, 300])
def test_a_larger_aperture_at_the_same_power_never_shows_more_floaters(power: float) -> None:
    strengths = [words for words, _ in FLOATERS]

    def strength(aperture_mm: float) -> int:
        told = floaters(rung(aperture_mm, power))
        return next((strengths.index(words) + 1 for words in strengths if told and words in told[0]), 0)

    found = [strength(aperture_mm) for aperture_mm in (60, 80, 100, 150, 200, 300, 400)]

    assert all(before >= after for before, after in pairwise(found))
    assert found[0] > found[-1] == 0


# Glasses, astigmatism, eye relief in mm, exit pupil in mm, and what is said of it.
@pytest.mark.parametrize(
    ("glasses", "astigmatism", "relief_mm", "pupil_mm", "words"),
    [
        # Only near- or far-sighted: off, and refocus.
        (True, False, 4.5, 0.8, "without astigmatism take them off and refocus"),
        (True, False, 10, 4.0, "without astigmatism take them off and refocus"),
        (True, False, None, 1.5, "Eye relief unknown"),
        (True, False, 20, 1.5, None),
        # Astigmatism: mostly off at a small exit pupil, on at low power.
        (True, True, 4.5, 0.8, "try without them"),
        (True, True, 4.5, 4.0, "a longer eyepiece in a Barlow is the usual cure"),
        (True, True, None, 4.0, "whether glasses can stay on is unknown too"),
        (True, True, 16, 4.0, None),
        (True, True, 15, 0.8, None),
        # No glasses, no word of them.
        (False, False, 4.5, 0.8, None),
        (False, False, None, 4.0, None),
    ],
)
def test_glasses_on_or_off(
    ask_json: AskJson,
    glasses: bool,
    astigmatism: bool,
    relief_mm: float | None,
    pupil_mm: float,
    words: str | None,
) -> None:
    focal_length_mm = 6.0
    kit = owner(
        scope("reflector", 150, 150 / pupil_mm * focal_length_mm),
        eyepieces=(Eyepiece(name="6 mm", focal_length_mm=focal_length_mm, eye_relief_mm=relief_mm),),
        eye=Eye(glasses=glasses, astigmatism=astigmatism),
    )

    (found,) = ask_json(kit, "ladder")["rungs"]

    told = " ".join(notice for notice in found["notices"] if "lasses" in notice or "them off" in notice)
    assert (told == "") == (words is None)
    assert words is None or words in told


@example(relief_mm=14.9, astigmatism=False, focal_length_mm=10.0, factor=None)
@example(relief_mm=15.0, astigmatism=False, focal_length_mm=10.0, factor=None)
@settings(max_examples=60, deadline=None)
@given(
    relief_mm=st.none() | st.floats(1, 40),
    astigmatism=st.booleans(),
    focal_length_mm=st.floats(3, 40),
    factor=st.sampled_from([None, 2.0]),
)
def test_unknown_eye_relief_is_never_called_fine(
    relief_mm: float | None, astigmatism: bool, focal_length_mm: float, factor: float | None
) -> None:
    owned = evolve(eyepieces(focal_length_mm)[0], eye_relief_mm=relief_mm)

    ladder = build_ladder(
        scope=scope("reflector", 150, 1200),
        eyepieces=(owned,),
        barlows=barlows(factor) if factor else (),
        eye=Eye(glasses=True, astigmatism=astigmatism),
        aim=aim_altitude(60.0),
        blur=Blur(overhead_arcsec=1.0),
    )

    for found in ladder.rungs:
        told = [text for text in notice_texts(found.notices) if text.startswith("Eye relief")]
        if relief_mm is None:
            assert "unknown" in told[0]
        elif relief_mm < 15:
            assert "too short for glasses, which need 15 to 20 mm as a rule of thumb" in told[0]
        else:
            assert told == []
