"""What deserves a word about a rung, a kit or a thing in it: the sentence of each kind of notice."""

import pytest
from attrs import evolve

from core.ladder.ladder import Ladder
from core.ladder.notices import Notice, NoticeKind
from core.record.observer import LengthUnit, Preferences
from core.words.notices import (
    claimed_power_text,
    factor_text,
    ladder_notice_texts,
    misfit_text,
    misfit_texts,
    notice_text,
    notice_texts,
    rung_notice_texts,
)
from core.words.units import Units
from tests.core.drawing.examples import ladder
from tests.core.gear.examples import barlow, eyepiece, telescope

# Every figure that any kind speaks of.
FIGURES = Notice(
    kind=NoticeKind.NO_EYEPIECE,
    scope="Six-inch",
    combination="10 mm + 2x",
    power=240.0,
    limit=185.0,
    aperture_mm=60.0,
    used_aperture_mm=45.4,
    exit_pupil_mm=8.0,
    eye_pupil_mm=6.0,
    eye_relief_mm=7.5,
    barrel_mm=31.75,
    stop_mm=27.0,
    factor=2.0,
    measured_factor=2.15,
    count=3000,
)
HELPS = "less power, both eyes, or a larger aperture at the same power helps."
TOO_SHORT = "Eye relief 7.5 mm is too short for glasses, which need 15 to 20 mm as a rule of thumb;"
UNKNOWN = "Eye relief unknown, so whether glasses can stay on is unknown too;"
SMALL_PUPIL = "with so small an exit pupil most astigmatism does not show, so try without them."
TAKE_OFF = "without astigmatism take them off and refocus."
CURE = "with astigmatism a longer eyepiece in a Barlow is the usual cure."


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (
            NoticeKind.NO_EYEPIECE,
            "Add an eyepiece in Gear, and the powers that it gives Six-inch appear here.",
        ),
        (NoticeKind.NOTHING_FITS, "No eyepiece owned fits Six-inch, so there is no power to show yet."),
        (
            NoticeKind.NOTHING_UNDER_CEILING,
            (
                "Nothing owned stays under the ceiling of 185x. The best of it is 10 mm + 2x at 240x, 4.0x "
                "per mm: expect a soft view."
            ),
        ),
        (
            NoticeKind.MASKED_MIRROR,
            (
                "With the off-axis mask it is a telescope of 45.4 mm without obstruction: a steadier and "
                "dimmer view, with less detail than the whole 60 mm shows. The mirror cools no faster."
            ),
        ),
        (
            NoticeKind.MASKED_LENS,
            (
                "With the mask it is a telescope of 45.4 mm: a steadier and dimmer view, with less detail "
                "than the whole 60 mm shows."
            ),
        ),
        (
            NoticeKind.TOO_MANY_COMBINATIONS,
            (
                "This kit can be put together in more ways than are looked at, the first 3,000: those with "
                "the fewest Barlows, in the order of your list."
            ),
        ),
        (
            NoticeKind.BINOVIEWER_PAIR,
            (
                "In the bino-viewer a pair of 10 mm + 2x gives about 240x, with half of the light for each "
                "eye; the 2x of its corrector changes with spacing."
            ),
        ),
        (
            NoticeKind.BINOVIEWER_WITHOUT_PAIR,
            (
                "The bino-viewer wants two equal eyepieces, and there is no such pair here; these powers are "
                "without it."
            ),
        ),
        (
            NoticeKind.FAR_OVER_APERTURE,
            "Far too much for 60 mm of aperture: 4.0x per mm. The limit is 185x, 2x per mm.",
        ),
        (
            NoticeKind.OVER_APERTURE,
            (
                "Over the aperture limit of 185x, 2x per mm: at 4.0x per mm the view grows dimmer and shows "
                "no more."
            ),
        ),
        (NoticeKind.OVER_USUAL_AIR, "Over 185x, the most that the air usually allows any aperture."),
        (NoticeKind.OVER_LIFTED_AIR, "Over 185x, more than even a rare steady night allows."),
        (NoticeKind.OVER_TONIGHTS_AIR, "Not tonight: over the ceiling of about 185x."),
        (
            NoticeKind.WORTH_A_TRY,
            "Over the ceiling of about 185x, but worth a try in calm moments.",
        ),
        (
            NoticeKind.FLOATERS_STRONG,
            f"Exit pupil 8.0 mm: floaters in the eye trouble most people (a rule of thumb); {HELPS}",
        ),
        (
            NoticeKind.FLOATERS_COMMON,
            f"Exit pupil 8.0 mm: floaters in the eye are a common complaint (a rule of thumb); {HELPS}",
        ),
        (
            NoticeKind.FLOATERS_BEGIN,
            "Exit pupil 8.0 mm: floaters in the eye begin to show (a rule of thumb).",
        ),
        (
            NoticeKind.LIGHT_WASTED,
            (
                "Exit pupil 8.0 mm is wider than your pupil of 6.0 mm: some light is wasted, as if the "
                "aperture were 25% narrower."
            ),
        ),
        (
            NoticeKind.TWO_BARLOWS,
            "Two Barlows together: the power is approximate, since their spacing changes it.",
        ),
        (
            NoticeKind.REDUCER,
            "A reducer's factor changes with spacing, so this power is approximate.",
        ),
        (
            NoticeKind.VIGNETTING,
            "With the reducer the edge of this field may be dim or cut off (vignetting).",
        ),
        (NoticeKind.MEASURED_FACTOR, "Counted with the measured 2.15x, not the marked 2x."),
        (
            NoticeKind.FIELD_CUT,
            (
                "The field is cut to what a 31.75 mm barrel leaves room for, a field stop of about 27 mm; "
                "the figures of this eyepiece ask for more."
            ),
        ),
        (NoticeKind.GLASSES_OFF, f"{TOO_SHORT} {TAKE_OFF}"),
        (NoticeKind.GLASSES_OFF_SMALL_PUPIL, f"{TOO_SHORT} {SMALL_PUPIL}"),
        (NoticeKind.LONGER_EYEPIECE, f"{TOO_SHORT} {CURE}"),
        (NoticeKind.RELIEF_UNKNOWN_OFF, f"{UNKNOWN} {TAKE_OFF}"),
        (NoticeKind.RELIEF_UNKNOWN_SMALL_PUPIL, f"{UNKNOWN} {SMALL_PUPIL}"),
        (NoticeKind.RELIEF_UNKNOWN_LONGER_EYEPIECE, f"{UNKNOWN} {CURE}"),
    ],
)
def test_each_kind_has_its_sentence(kind: NoticeKind, words: str) -> None:
    assert notice_text(evolve(FIGURES, kind=kind)) == words


def test_a_notice_needs_only_the_figures_that_its_kind_speaks_of() -> None:
    bare = Notice(kind=NoticeKind.TWO_BARLOWS)

    assert notice_text(bare) == notice_text(evolve(FIGURES, kind=NoticeKind.TWO_BARLOWS))


def test_an_aperture_is_told_in_the_owner_s_unit() -> None:
    inches = Units(Preferences(length=LengthUnit.INCH))
    masked = evolve(FIGURES, kind=NoticeKind.MASKED_LENS, aperture_mm=152.4, used_aperture_mm=101.6)

    assert notice_text(masked, inches).startswith("With the mask it is a telescope of 4 in: ")
    assert notice_text(masked, inches).endswith("than the whole 6 in shows.")
    assert claimed_power_text(120, 152.4, inches) == (
        "120x is 0.8x per mm, within the 305x that 6 in of aperture bears."
    )


def test_what_is_said_twice_is_told_once_in_its_order() -> None:
    one, other = (evolve(FIGURES, kind=kind) for kind in (NoticeKind.TWO_BARLOWS, NoticeKind.WORTH_A_TRY))

    assert notice_texts((one, other, one)) == (notice_text(one), notice_text(other))


def noticed() -> Ladder:
    """Return a ladder with a notice for itself and one for each of its rungs, pointed near sunrise."""
    kit, of_rung = (evolve(FIGURES, kind=kind) for kind in (NoticeKind.MASKED_LENS, NoticeKind.WORTH_A_TRY))
    plain = ladder()
    return evolve(
        plain,
        aim=evolve(plain.aim, sunrise_is_near=True),
        notices=(kit,),
        rungs=tuple(evolve(rung, notices=(of_rung,)) for rung in plain.rungs),
    )


def test_the_first_rung_repeats_what_is_said_of_the_ladder_with_safety_first() -> None:
    of = noticed()
    whole = ladder_notice_texts(of)

    assert [words.split()[0] for words in whole] == ["The", "With"]
    assert whole[0].startswith("The Sun rises within minutes")
    worth_a_try = ("Over the ceiling of about 185x, but worth a try in calm moments.",)
    assert rung_notice_texts(of.rungs[0], of) == (*whole, *worth_a_try)
    assert rung_notice_texts(of.rungs[1], of) == worth_a_try


def test_a_claim_is_held_against_twice_the_millimetres() -> None:
    """60 mm bear 120x (common practice)."""
    assert claimed_power_text(525, 60) == "525x is 8.8x per mm; 60 mm of aperture bears about 120x."
    assert claimed_power_text(120, 60) == "120x is 2.0x per mm, within the 120x that 60 mm of aperture bears."


def test_how_far_a_factor_can_be_trusted() -> None:
    spacing = "changes with its distance to the eyepiece, so"

    assert factor_text(barlow(2)) == f"A Barlow's factor {spacing} 2x is approximate."
    assert factor_text(barlow(0.63)) == f"A reducer's factor {spacing} 0.63x is approximate."
    assert factor_text(barlow(2, measured_factor=2.15)) == (
        "Counted with the measured 2.15x, not the marked 2x."
    )


def test_what_does_not_go_into_the_focuser_is_told_with_both_barrels() -> None:
    wide = eyepiece(30, barrel_mm=50.8)
    words = "30 mm has a 50.8 mm barrel and does not fit the 31.75 mm focuser of Six-inch."

    assert misfit_text(wide, telescope()) == words
    assert misfit_texts(evolve(ladder(), misfits=(wide,))) == (words,)
