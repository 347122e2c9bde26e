"""What to do on a rung, in sentences and in a few words: the power, the part and the reason that count."""

from datetime import UTC, datetime, timedelta

import pytest
from attrs import evolve

from core.air.blur import Blur, BlurSource
from core.ladder.belief import Evidence
from core.ladder.climb import Move, NextStep
from core.ladder.ladder import Ladder, build_ladder
from core.record.log_entry import Verdict
from core.record.observer import LengthUnit, Preferences, Profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.climbing import (
    next_step_briefly,
    next_step_text,
    rung_detail,
    rung_figures,
    rung_said,
    what_next_words,
)
from core.words.site_clock import SiteClock
from core.words.units import Units
from tests.core.evenings import FULL_BOX, LISBON, SIX
from tests.core.gear.examples import barlow, eyepiece, telescope
from tests.core.ladder.test_climb import NINE, judged, ladder, rung, step_from

CLOCK = SiteClock(zone=LISBON.zone, hours=24)  # on winter's UTC
FAIR = ladder()
TAUGHT = evolve(FAIR, blur=Blur(overhead_arcsec=1.45, source=BlurSource.VERDICTS))


def stay(**told: object) -> NextStep:
    return NextStep(move=Move.STAY, rung=rung(FAIR, 150), **told)  # type: ignore[arg-type]


def back(chance: float, seen: Evidence | None = None) -> NextStep:
    return NextStep(
        move=Move.BACK, rung=rung(FAIR, 240), to=rung(FAIR, 200), chance=chance, above=None, just_seen=seen
    )


MORE, LESS = judged((0, 200, 240, Verdict.MORE), (0, 200, 240, Verdict.LESS))
ABOVE = rung(FAIR, 200)
AGAIN = NINE + timedelta(minutes=25)

# The step, the ladder, the sentences, and the few words.
TOLD = [
    (
        step_from(120, FAIR),
        FAIR,
        "Next 150x, 8 mm: refocus, re-centre, let the mount settle, watch a minute or two.",
        "next 150x, 8 mm",
    ),
    (
        step_from(150, FAIR),
        FAIR,
        (
            "200x, 6 mm, is worth a try: refocus, re-centre, let the mount settle, watch a minute or two. It "
            "may show no more."
        ),
        "try 200x, 6 mm",
    ),
    (
        step_from(240, FAIR),
        FAIR,
        "Over what aperture and air (seeing) can bear: when it looks soft, step back to 150x, 8 mm.",
        "back to 150x, 8 mm",
    ),
    (
        back(0.7),
        TAUGHT,
        "Back to 200x, 6 mm: this step has most likely cost detail.",
        "back to 200x, 6 mm",
    ),
    (
        back(0.55),
        TAUGHT,
        "Perhaps back to 200x, 6 mm: this step may have cost detail.",
        "back to 200x, 6 mm",
    ),
    (
        back(0.7, LESS),
        TAUGHT,
        "Back to 200x, 6 mm: you saw less at 240x than at 200x.",
        "back to 200x, 6 mm",
    ),
    (
        back(0.7, MORE),
        TAUGHT,
        (
            "You saw more at 240x than at 200x, though it is over what aperture and air (seeing) are likely "
            "to bear: compare it with 200x, 6 mm."
        ),
        "compare 200x, 6 mm",
    ),
    (
        stay(),
        FAIR,
        "The highest power of this telescope. Give it a minute or two, and wait for the still moments.",
        "stay here",
    ),
    (
        stay(above=ABOVE),
        FAIR,
        (
            "As far as aperture and air (seeing) can take you. Give it a minute or two, and wait for the "
            "still moments."
        ),
        "stay here",
    ),
    (
        stay(above=ABOVE),
        TAUGHT,
        "Stay here: from your verdicts more power would not show more. Wait for the still moments.",
        "stay here",
    ),
    (
        stay(above=ABOVE, try_again_at=AGAIN),
        TAUGHT,
        "Stay here. 200x is worth another try from about 21:25, when the air may have changed.",
        "stay; try 200x at 21:25",
    ),
    (
        stay(above=ABOVE, is_gap=True),
        FAIR,
        (
            "Stay here: aperture and air (seeing) bear about 199x, but you own nothing between 150x and "
            "200x. Wait for the still moments."
        ),
        "stay here",
    ),
    (
        stay(above=ABOVE, is_over_usual_air=True),
        FAIR,
        "As far as the usual air goes, though the air may bear more tonight: lift that limit to try 200x.",
        "stay here",
    ),
]


@pytest.mark.parametrize(("step", "of", "words", "brief"), TOLD)
def test_what_to_do_after_a_rung(step: NextStep, of: Ladder, words: str, brief: str) -> None:
    assert next_step_text(step, of, CLOCK) == words
    assert next_step_briefly(step, CLOCK) == brief


def test_who_has_not_begun_is_told_with_what_to_begin() -> None:
    begin = next_step_text(step_from(120, FAIR), FAIR, CLOCK, has_begun=False)

    assert begin == (
        "Begin with 120x, 10 mm. Next 150x, 8 mm: refocus, re-centre, let the mount settle, watch a minute "
        "or two."
    )
    # All else is told alike to both.
    assert next_step_text(step_from(150, FAIR), FAIR, CLOCK, has_begun=False) == TOLD[1][2]


def test_without_a_clock_no_time_is_told() -> None:
    step = stay(above=ABOVE, try_again_at=AGAIN)

    assert "another try" not in next_step_text(step, TAUGHT, None)
    assert next_step_briefly(step, None) == "stay here"


def test_the_figures_of_a_rung_and_the_rung_as_a_reader_says_it() -> None:
    """150 mm at 120x leave 1.25 mm; 52 degrees over 120 are 26 arcmin, gone in 104 s at 15.041 arcsec/s."""
    ten = rung(FAIR, 120)

    assert rung_figures(ten) == "pupil 1.3 mm  ·  field 26′  ·  drift 104 s"
    assert rung_said(ten, FAIR) == f"Power ladder, in hand: 120x, 10 mm, {rung_figures(ten)}"
    blind = ladder()
    bare = evolve(rung(blind, 120), true_field_deg=None, drift_s=None)
    assert rung_figures(bare) == "pupil 1.3 mm"


def test_what_deserves_a_word_about_a_rung() -> None:
    """Most looking is done at 1.2 to 1.5x per mm (common practice): below 180x here nothing is said."""
    kit = build_ladder(
        scope=telescope(),
        eyepieces=[eyepiece(mm, 52) for mm in (25, 12, 6.9, 6.5, 6)],
        barlows=[barlow(2)],
        aim=FAIR.aim,
        blur=FAIR.blur,
    )

    assert rung_detail(rung(kit, 48), kit) == ""
    assert "of aperture" not in rung_detail(rung(kit, 1200 / 6.9), kit)  # 174x
    assert rung_detail(rung(kit, 1200 / 6.5), kit).startswith("185x is 1.2x per mm of aperture")
    alike = rung_detail(rung(kit, 200), kit)
    assert alike.startswith("200x is 1.3x per mm of aperture; 1.2x to 1.5x is usual, 2x the limit.")
    assert alike.endswith("Nearly the same power: 12 mm + 2x (200x).")


KIT = Profile(
    sites=(evolve(LISBON, id="s"),),
    telescopes=(evolve(SIX, id="six"),),
    eyepieces=tuple(evolve(each, id=f"e{number}") for number, each in enumerate(FULL_BOX)),
)
IN_THE_NIGHT = datetime(2026, 12, 6, 2, 0, tzinfo=UTC)


def what_next(planet: Body, power: float | None, moment: datetime, profile: Profile = KIT) -> str:
    return what_next_words(Situation(Choices(profile=profile, planet=planet, rung_power=power), moment))


@pytest.mark.parametrize(
    ("power", "words"),
    [
        (None, "Once Jupiter is in sight, begin with 30x, 40 mm, and go on from there to 60x, 20 mm."),
        (48.0, "Once Jupiter is in sight, go on from here to 60x, 20 mm."),
        (150.0, "Once Jupiter is in sight, 200x, 6 mm, is worth a try."),
        (240.0, "For Jupiter at 05:34 this is likely too much: 150x, 8 mm, will show as much."),
    ],
)
def test_of_a_planet_still_to_come_it_is_told_what_will_be_to_do(power: float | None, words: str) -> None:
    """Jupiter rises before eleven, and is at its best, its transit, at 05:34."""
    assert what_next(Body.JUPITER, power, NINE) == words


def test_a_planet_that_is_gone_has_the_ladder_of_its_best() -> None:
    """Saturn sets at two; its transit was at 20:11."""
    assert what_next(Body.SATURN, 48.0, IN_THE_NIGHT) == (
        "Saturn is no longer to be seen this evening; this is its ladder of 20:11."
    )


def test_of_a_planet_to_come_too_a_gap_and_the_highest_power_owned_are_told() -> None:
    """Of 30, 100 and 300x; of the first two alone; and of 600x in place of 300x."""
    kit = KIT.eyepieces
    low, gap = (
        evolve(KIT, eyepieces=eyepieces) for eyepieces in ((kit[0], kit[4]), (kit[0], kit[4], kit[9]))
    )
    far = evolve(KIT, eyepieces=(kit[0], kit[4], evolve(kit[9], focal_length_mm=2, name="2 mm")))

    assert what_next(Body.JUPITER, 100.0, NINE, low) == "This is the highest power of this telescope."
    assert what_next(Body.JUPITER, 100.0, NINE, far) == (
        "For Jupiter at 05:34 this is as far as it pays to go."
    )
    poor = Choices(profile=gap, planet=Body.JUPITER, rung_power=100.0, blur=Blur(overhead_arcsec=2.0))
    assert what_next_words(Situation(poor, NINE)) == (
        "For Jupiter at 05:34 aperture and air (seeing) bear about 154x, but you own nothing between 100x "
        "and 300x."
    )


def test_in_the_last_minutes_before_sunrise_it_is_only_to_stop() -> None:
    last = datetime(2026, 12, 6, 7, 20, tzinfo=UTC)

    assert what_next(Body.JUPITER, 120.0, last) == (
        "Off the planet and cap the telescope by 07:30: 10 min left. The Sun rises at 07:40."
    )
    bare = Situation(Choices(profile=evolve(KIT, telescopes=()), planet=Body.SATURN), NINE)
    assert what_next_words(bare) == ""


def test_with_a_large_aperture_the_air_stops_before_the_limit_of_twice_per_mm() -> None:
    """305 mm and more: on most nights the air decides (common practice)."""
    large = build_ladder(
        scope=telescope(aperture_mm=305, focal_length_mm=1525),
        eyepieces=[eyepiece(4)],
        barlows=[],
        aim=FAIR.aim,
        blur=FAIR.blur,
    )
    (only,) = large.rungs

    assert rung_detail(only, large).startswith(
        "381x is 1.3x per mm of aperture; 2x is the limit, and the air mostly stops you before. "
    )


def test_the_lowest_rung_carries_what_is_said_of_the_kit_in_the_owner_s_unit() -> None:
    masked = build_ladder(
        scope=telescope(aperture_mm=152.4, mask_mm=101.6),
        eyepieces=[eyepiece(25), eyepiece(10)],
        barlows=[],
        aim=FAIR.aim,
        blur=FAIR.blur,
    )
    inches = Units(Preferences(length=LengthUnit.INCH))
    low, high = (rung_detail(each, masked, inches) for each in masked.rungs)

    assert "it is a telescope of 4 in" in low
    assert "than the whole 6 in shows" in low
    assert "telescope of" not in high
    assert "101.6 mm" in rung_detail(masked.rungs[0], masked)
