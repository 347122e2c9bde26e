"""The sheet of an evening: its heads, its steps, what stands in its margin and beside each outline."""

from datetime import UTC, datetime, timedelta

import pytest
from attrs import evolve

from core.gear.owned import Diagonal
from core.record.observer import Preferences, TemperatureUnit
from core.situation.choices import Choices, EveningSteps
from core.situation.on_paper import TargetOnPaper, targets_on_paper
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.tonight.steps import OwnStep
from core.words.evening_sheet import (
    about_words,
    event_title,
    foot_words,
    ladder_title,
    outline_facts,
    outline_title,
    outlines_words,
    sheet_cautions,
    steps_of,
    title_words,
)
from core.words.site_clock import SiteClock
from tests.core.warm_evenings import AFTERNOON, EVENING, LENS, PORTO, situation

CLOCK = SiteClock(zone=PORTO.zone)  # on winter's UTC
FOUND = situation()
TARGETS = targets_on_paper(FOUND)
BARE = Situation(Choices(), AFTERNOON)
ABOUT = (
    "Phase, flattening, ring and pole are those of the time given; the sizes are not to one scale. N is the "
    "north pole. The arrow points where an undriven telescope lets it drift."
)


def changed(**profile: object) -> Situation:
    return Situation(
        evolve(FOUND.choices, profile=evolve(FOUND.profile, **profile)),  # type: ignore[arg-type]
        FOUND.now,
    )


def of(body: Body) -> TargetOnPaper:
    return next(target for target in TARGETS if target.body is body)


def test_whose_evening_it_is_and_where_only_where_that_is_wished() -> None:
    noa = changed(observer="Noa", preferences=Preferences(out_from="20:00", out_until="23:00"))

    assert title_words(FOUND) == "Evening of Sat 5 December 2026"
    assert about_words(FOUND, CLOCK, with_place=True) == (
        "Out 17:26–23:30 (assumed) · times of Europe/Lisbon · Porto · 41°09′00″ N, 8°36′36″ W · Six"
    )
    assert about_words(noa, CLOCK, with_place=False) == (
        "Out 20:00–23:00 · times of Europe/Lisbon · Porto · Six · Noa"
    )


def test_a_ladder_without_a_planet_is_for_straight_overhead() -> None:
    assert ladder_title(FOUND, CLOCK) == "Powers for Saturn at 20:09"
    assert ladder_title(changed(sites=()), CLOCK) == "Powers straight overhead"


def test_the_margin_says_only_what_there_is_to_say() -> None:
    hands = (
        "Face what is named: 12 o'clock is straight up from it, 3 o'clock to its right. At arm's length a "
        "fist is about 10° wide, a spread hand 20°, a thumb 2°."
    )
    box = "□ stands for a letter that no font on this computer can write."

    assert foot_words(FOUND, is_all_written=True) == hands
    assert foot_words(FOUND, is_all_written=False, goes_on=True) == (
        f"The evening goes on overleaf. {hands} {box}"
    )
    assert foot_words(BARE, is_all_written=True) == ""
    assert foot_words(BARE, is_all_written=False) == box


def test_a_target_s_step_tells_how_to_find_it_and_which_eyepieces_go_in() -> None:
    found = {step.head: step.words for step in steps_of(FOUND, TARGETS, CLOCK)}
    under_answer = {step.head: step.words for step in steps_of(FOUND, TARGETS, CLOCK, under_answer=True)}
    saturn = (
        "Above 30°. Saturn at 19:31: south, half way up: 49° (azimuth 165°), in Cetus. It lies 15° from "
        "Algenib towards 6 o'clock. To the eye it is a steady, pale yellow star (magnitude 0.6)."
    )

    assert found["21:37–22:07  Neptune"].endswith(" 25 mm first, 48x; then 10 mm, 120x.")
    assert found["17:26–21:37  Saturn"] == f"{saturn} 25 mm first, 48x; then 10 mm, 120x."
    # Of the target in hand the answer over it tells them.
    assert under_answer["17:26–21:37  Saturn"] == saturn
    assert under_answer["21:37–22:07  Neptune"] == found["21:37–22:07  Neptune"]


def test_steps_are_told_in_the_owner_s_unit_and_ticked_where_they_are_done() -> None:
    fahrenheit = changed(preferences=Preferences(temperature=TemperatureUnit.FAHRENHEIT), telescopes=(LENS,))
    at = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
    own = EveningSteps(
        evening=EVENING,
        site_id="porto",
        own=(OwnStep(id="tea", text="Tea for two", at=at),),
        done=frozenset({"kit"}),
    )
    lived = Situation(FOUND.choices.with_steps(own), FOUND.now - timedelta(hours=1))
    steps = {step.head: step for step in steps_of(lived, targets_on_paper(lived), CLOCK)}

    told = steps_of(fahrenheit, targets_on_paper(fahrenheit), CLOCK)
    assert any("°F" in step.words for step in told)
    assert not any("°C" in step.words for step in told)
    # An own step is its title and nothing else.
    assert steps["21:00  Tea for two"].words == ""
    assert [head for head, step in steps.items() if step.is_done] == ["16:16  Lay out the kit"]


def test_words_of_safety_stand_apart_from_the_steps() -> None:
    assert sheet_cautions(BARE, ()) == ()
    assert sheet_cautions(FOUND, TARGETS) == (
        (
            "Mercury 14° west of the Sun: never search for it while any of the Sun is up. Sunlight through "
            "any optics blinds at once."
        ),
        "Off the sky before sunrise: cap telescope and finder, and leave them capped by day.",
    )


def test_an_outline_has_its_title_its_figures_and_what_will_likely_be_seen() -> None:
    saturn, neptune = of(Body.SATURN), of(Body.NEPTUNE)

    assert outline_title(saturn, CLOCK) == "Saturn at 19:31"
    assert list(outline_facts(saturn, CLOCK)) == [
        "18.5″ wide, 16.7″ high · magnitude 0.6 · ring 6.1° open · central meridian I 322°, III 352°",
        # Five of them; more are for the evening itself.
        (
            "Likely: the ring, as a shape around the globe; the dark space between ring and globe; the "
            "globe's shadow on the ring; the ring's shadow on the globe; Titan, the largest moon."
        ),
    ]
    assert list(outline_facts(neptune, CLOCK)) == ["2.3″ wide · magnitude 7.7 · central meridian 90°"]


@pytest.mark.parametrize(
    ("diagonal", "seen"),
    [
        (Diagonal.NONE, "As seen in Lens, upside down."),
        (Diagonal.STAR, "As seen in Lens, the right way up but reversed left to right."),
        (Diagonal.ERECT, "As seen in Lens, the right way up."),
    ],
)
def test_how_the_outlines_are_turned(diagonal: Diagonal, seen: str) -> None:
    assert outlines_words(situation(scope=evolve(LENS, diagonal=diagonal))) == f"{seen} {ABOUT}"


def test_without_a_telescope_they_stand_as_the_eye_sees_them_and_a_reflector_has_its_note() -> None:
    assert outlines_words(BARE) == f"As seen the right way up. {ABOUT}"
    assert outlines_words(FOUND) == (
        "As seen in Six, upside down. A reflector's eyepiece sits at the side of the tube: what is up "
        f"depends on where you stand. {ABOUT}"
    )


def test_among_all_else_in_a_calendar_the_telescope_is_named() -> None:
    assert event_title("Saturn", "Six-inch") == "Saturn · Six-inch"
    assert event_title("Saturn", "") == "Saturn"
