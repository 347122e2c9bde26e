"""The words about a rung: what they say, and when they keep silent."""

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.air.limits import find_limits
from core.gear.combinations import combinations, misfits
from core.gear.eye import Eye
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.notices import NoticeKind, kit_notices, rung_notices
from core.record.observer import LengthUnit, Preferences
from core.words.notices import (
    claimed_power_text,
    factor_text,
    misfit_text,
    notice_texts,
)
from core.words.units import Units
from tests.core.gear.examples import barlow, eyepiece, fixed, refractor, telescope

STEADY = Blur(overhead_arcsec=0.4)
BARE_EYE = Eye()
GLASSES = Eye(glasses=True)
ASTIGMATIC = Eye(glasses=True, astigmatism=True)


def notices(
    scope: Telescope,
    owned: Eyepiece | None,
    *lenses: Barlow,
    eye: Eye = BARE_EYE,
    blur: Blur = STEADY,
    usual_air: float = 300.0,
) -> str:
    """Return all notices of the highest power as one text."""
    limits = find_limits(aperture_mm=scope.aperture_mm, path=1.0, blur=blur, usual_air=usual_air)
    highest = combinations(scope, [owned] if owned else [], lenses)[-1]
    return " ".join(notice_texts(rung_notices(highest, scope=scope, limits=limits, eye=eye)))


def test_an_easy_power_needs_no_words() -> None:
    assert notices(telescope(), eyepiece(10, 50)) == ""


@pytest.mark.parametrize(
    ("focal_length_mm", "words", "ratio"),
    [
        (9, "Far too much for 60 mm", "3.3x per mm"),
        (10, "Far too much for 60 mm", "3.0x per mm"),
        (10.1, "Over the aperture limit of 120x", "3.0x per mm"),  # 2.97
        (12, "Over the aperture limit of 120x", "2.5x per mm"),
    ],
)
def test_past_the_aperture_limit(focal_length_mm: float, words: str, ratio: str) -> None:
    said = notices(refractor("Small", 60, 900), eyepiece(focal_length_mm), barlow(2))

    assert words in said
    assert ratio in said


def test_past_the_usual_air_and_lifted() -> None:
    large = telescope(aperture_mm=254)

    assert "Over 300x, the most that the air usually allows" in notices(large, eyepiece(3.5))
    assert (
        notices(large, eyepiece(3.5), usual_air=400)
        == "Exit pupil 0.74 mm: floaters in the eye begin to show (a rule of thumb)."
    )
    assert "more than even a rare steady night allows" in notices(large, eyepiece(2.5), usual_air=400)


def test_past_tonights_air_only() -> None:
    said = notices(telescope(aperture_mm=254), eyepiece(8), blur=Blur(overhead_arcsec=2.32))

    # 254 mm and 2.32 arcsec leave 1.465 arcsec, 158x; a calm moment 186x.
    assert said == ""
    said = notices(telescope(aperture_mm=254), eyepiece(7), blur=Blur(overhead_arcsec=2.32))
    assert said == "Over the ceiling of about 158x, but worth a try in calm moments."
    said = notices(telescope(aperture_mm=254), eyepiece(6), blur=Blur(overhead_arcsec=2.32))
    assert said.startswith("Not tonight: over the ceiling of about 158x.")


# Common practice: under 1 mm floaters begin, under 0.7 mm a common complaint, under 0.5 mm most people.
@pytest.mark.parametrize(
    ("exit_pupil_mm", "words"),
    [
        (1.0, None),
        (0.95, "begin to show"),
        (0.7, "begin to show"),
        (0.65, "a common complaint"),
        (0.5, "a common complaint"),
        (0.45, "trouble most people"),
    ],
)
def test_floaters_by_exit_pupil(exit_pupil_mm: float, words: str | None) -> None:
    scope = telescope(aperture_mm=100, focal_length_mm=1000)

    said = notices(scope, eyepiece(exit_pupil_mm * 10))

    assert ("floaters" in said) == (words is not None)
    assert words is None or words in said
    assert words is None or f"{exit_pupil_mm:.2f} mm" in said


def test_an_exit_pupil_wider_than_the_eye_wastes_light() -> None:
    """40 mm at f/5 leaves 8 mm; an eye of 6 mm uses three quarters of that width."""
    fast = telescope(aperture_mm=200, focal_length_mm=1000)

    said = notices(fast, eyepiece(40), eye=Eye(pupil_mm=6))

    assert said == (
        "Exit pupil 8.0 mm is wider than your pupil of 6.0 mm: some light is wasted, "
        "as if the aperture were 25% narrower."
    )
    assert notices(fast, eyepiece(40), eye=Eye(pupil_mm=8)) == ""


def test_two_barlows_are_approximate() -> None:
    said = notices(telescope(stack_barlows=True), eyepiece(40), barlow(2), barlow(1.5))

    assert "Two Barlows together: the power is approximate" in said


# An 8-inch f/10 with a 0.63 reducer: the 40 mm of 44 degrees is cut by the rear opening, the 25 mm is not.
@pytest.mark.parametrize(
    ("owned", "vignettes"),
    [
        (eyepiece(25, 50), False),
        (eyepiece(25, 52), False),
        (eyepiece(40, 44), True),
        (eyepiece(50, 50, barrel_mm=50.8), True),
        (eyepiece(40, field_stop_mm=27), True),
        (eyepiece(40), True),
        (eyepiece(32), True),
        (eyepiece(31), False),
        (eyepiece(12), False),
    ],
)
def test_a_reducer_with_a_long_eyepiece_may_vignette(owned: Eyepiece, vignettes: bool) -> None:
    scope = telescope(aperture_mm=203, focal_length_mm=2032, barrel_mm=50.8)
    reducer = barlow(0.63, barrel_mm=50.8)
    limits = find_limits(aperture_mm=203, path=1.0, blur=STEADY)

    with_reducer, without = combinations(scope, [owned], [reducer])

    said = " ".join(notice_texts(rung_notices(with_reducer, scope=scope, limits=limits, eye=BARE_EYE)))
    assert ("vignetting" in said) == vignettes
    assert "this power is approximate" in said
    assert not {NoticeKind.REDUCER, NoticeKind.VIGNETTING} & {
        notice.kind for notice in rung_notices(without, scope=scope, limits=limits, eye=BARE_EYE)
    }


@pytest.mark.parametrize(
    ("relief_mm", "eye", "words"),
    [
        (5, BARE_EYE, None),
        (None, BARE_EYE, None),
        (18, GLASSES, None),
        (15, GLASSES, None),
        (14.9, GLASSES, "take them off and refocus"),
        (18, ASTIGMATIC, None),
        (5, GLASSES, "take them off and refocus"),
        (None, GLASSES, "Eye relief unknown"),
        (None, ASTIGMATIC, "Eye relief unknown"),
    ],
)
def test_eye_relief_and_glasses(relief_mm: float | None, eye: Eye, words: str | None) -> None:
    said = notices(telescope(), eyepiece(10, eye_relief_mm=relief_mm), eye=eye)

    assert ("Eye relief" in said) == (words is not None)
    assert words is None or words in said


def test_astigmatism_shows_at_low_power_and_hides_at_high() -> None:
    """Exit pupils of 3.1 and 0.8 mm; 5 mm of relief is far under the 15 to 20 that glasses want."""
    low = notices(telescope(), eyepiece(25, eye_relief_mm=5), eye=ASTIGMATIC)
    high = notices(telescope(), eyepiece(6, eye_relief_mm=5), eye=ASTIGMATIC)

    assert "a longer eyepiece in a Barlow is the usual cure" in low
    assert "try without them" in high


@pytest.mark.parametrize(("focal_length_mm", "shows"), [(16, True), (15.9, False)])
def test_astigmatism_shows_from_two_millimetres_of_exit_pupil(focal_length_mm: float, shows: bool) -> None:
    """At f/8 16 mm leave just 2 mm (common practice)."""
    told = notices(telescope(), eyepiece(focal_length_mm, eye_relief_mm=5), eye=ASTIGMATIC)

    assert ("longer" in told) is shows


def test_no_word_of_eye_relief_without_an_eyepiece() -> None:
    assert notices(fixed(power=20), None, eye=ASTIGMATIC) == ""


def test_a_makers_greatest_power_beside_the_real_limit() -> None:
    """Claims seen in shops: 675x for 4.5 inches, where 2x per mm gives 229x."""
    assert claimed_power_text(675, 114.3) == ("675x is 5.9x per mm; 114.3 mm of aperture bears about 229x.")
    assert claimed_power_text(200, 114.3) == (
        "200x is 1.7x per mm, within the 229x that 114.3 mm of aperture bears."
    )


def test_apertures_are_told_in_inches_to_who_chose_them() -> None:
    """100 mm are 3.94 in, 254 mm are 10 in."""
    inches, masked = Units(Preferences(length=LengthUnit.INCH)), telescope(aperture_mm=254, mask_mm=100)
    lowest = combinations(masked, [eyepiece(25)], [])[0]
    (told,) = notice_texts(
        kit_notices(lowest, scope=masked, eyepieces=[eyepiece(25)], ceiling_power=200), inches
    )

    assert "a telescope of 3.94 in without obstruction" in told
    assert "less detail than the whole 10 in shows" in told
    assert "4.5 in of aperture bears about 229x" in claimed_power_text(675, 114.3, inches)


def test_what_does_not_fit_is_named_with_both_barrels() -> None:
    wide = eyepiece(32, barrel_mm=50.8)

    found = misfits(telescope(), [wide, eyepiece(10)], [barlow(2, barrel_mm=24.5)])

    assert [misfit_text(thing, telescope()) for thing in found] == [
        "32 mm has a 50.8 mm barrel and does not fit the 31.75 mm focuser of Six-inch."
    ]
    assert misfits(fixed(power=10), [wide], []) == ()


@pytest.mark.parametrize(
    ("lens", "words"),
    [
        (barlow(2), "A Barlow's factor changes with its distance to the eyepiece, so 2x is approximate."),
        (
            barlow(0.63),
            "A reducer's factor changes with its distance to the eyepiece, so 0.63x is approximate.",
        ),
        (barlow(2, measured_factor=2.2), "Counted with the measured 2.2x, not the marked 2x."),
    ],
)
def test_how_far_a_factor_can_be_trusted(lens: Barlow, words: str) -> None:
    assert factor_text(lens) == words


def test_a_field_that_the_barrel_cannot_show_is_cut_and_said() -> None:
    """40 mm of 68 degrees asks for a stop of 47.5 mm; a 31.75 mm barrel leaves room for about 27."""
    assert notices(telescope(), eyepiece(40, 68)) == (
        "The field is cut to what a 31.75 mm barrel leaves room for, a field stop of about 27 mm; "
        "the figures of this eyepiece ask for more."
    )
    assert notices(telescope(), eyepiece(20, 68)) == ""


def test_a_measured_factor_is_said_beside_the_marked_one() -> None:
    assert notices(telescope(), eyepiece(25, 52), barlow(2, measured_factor=2.2)) == (
        "Counted with the measured 2.2x, not the marked 2x."
    )


def kit_words(scope: Telescope, *owned: Eyepiece) -> str:
    lowest = combinations(scope, owned, [])[0]
    return " ".join(notice_texts(kit_notices(lowest, scope=scope, eyepieces=owned, ceiling_power=200)))


def test_only_of_a_kit_that_is_cut_it_is_told_how_many_ways_are_looked_at() -> None:
    owned = (eyepiece(25), eyepiece(10))
    lowest = combinations(telescope(), owned, [])[0]

    def kinds(**more: bool) -> list[NoticeKind]:
        found = kit_notices(lowest, scope=telescope(), eyepieces=owned, ceiling_power=200, **more)
        return [notice.kind for notice in found]

    assert kinds() == kinds(is_cut=False) == []
    assert kinds(is_cut=True) == [NoticeKind.TOO_MANY_COMBINATIONS]


def test_a_mask_and_a_bino_viewer_are_told_of_the_kit() -> None:
    assert kit_words(telescope(), eyepiece(25)) == ""
    masked = kit_words(telescope(aperture_mm=254, mask_mm=100), eyepiece(25))
    assert "a telescope of 100 mm without obstruction" in masked
    assert "less detail than the whole 254 mm shows" in masked
    lens = kit_words(refractor("Large", 120, 1000, mask_mm=60), eyepiece(25))
    assert "a telescope of 60 mm: a steadier and dimmer view" in lens
    assert "mirror" not in lens
    assert "obstruction" not in lens
    paired = kit_words(telescope(binoviewer_factor=1.7), eyepiece(25), evolve(eyepiece(25), name="second"))
    assert "a pair of 25 mm gives about 82x, with half of the light for each eye" in paired
    alone = kit_words(telescope(binoviewer_factor=1.7), eyepiece(25), eyepiece(10))
    assert "wants two equal eyepieces" in alone
