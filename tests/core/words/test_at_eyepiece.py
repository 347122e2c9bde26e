"""What is told at the eyepiece in the dark: where the planet is, the rung, the next, and what comes."""

from datetime import UTC, date, datetime, timedelta

import pytest
from attrs import evolve

from core.gear.owned import Barlow, Filter
from core.moments.next_change import NextChange, ViewChange
from core.record.log_entry import Verdict
from core.record.observer import Profile
from core.situation.choices import Choices
from core.situation.log_line import log_line
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.sky_parts import UNNAMED_BLOCK, UNNAMED_WARM
from core.words.at_eyepiece import change_text, eyepiece_words, minutes_text
from core.words.verdicts import asked_words
from tests.core.evenings import FULL_BOX, LISBON, SIX, WALLED

EVENING = date(2026, 12, 5)
NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)  # Lisbon's clock is UTC's in winter
BLUE = Filter(id="blue", name="Light blue", wratten="82A")
KIT = Profile(
    sites=(evolve(LISBON, id="s"),),
    telescopes=(evolve(SIX, id="six"),),
    eyepieces=tuple(evolve(each, id=f"e{number}") for number, each in enumerate(FULL_BOX)),
    barlows=(Barlow(id="b", name="2x", factor=2.0),),
    filters=(BLUE,),
)


def at(moment: datetime = NINE, planet: Body = Body.SATURN, **chosen: object) -> Situation:
    choices = Choices(profile=KIT, evening=EVENING, planet=planet, **chosen)  # type: ignore[arg-type]
    return Situation(choices, moment)


def test_a_rung_in_hand_with_what_is_next_after_it() -> None:
    """Saturn near its transit: 51.6 degrees high at an azimuth of 169 by PyEphem, without refraction."""
    words = eyepiece_words(at(datetime(2026, 12, 5, 19, 45, tzinfo=UTC), rung_power=120.0))

    planet, height, direction = words.subject.split(maxsplit=2)
    assert (planet, direction) == ("Saturn", "south")
    assert height == "52°"
    assert (words.time, words.power, words.part, words.refusal) == ("19:45", "120x", "10 mm", "")
    assert words.next_step == "next 150x, 8 mm"
    assert not words.can_be_judged
    assert words.notices == ()
    assert words.asked == "After a step, press what it did to the detail."
    assert words.said == (
        "Saturn 52° south. 19:45. 120x. 10 mm. next 150x, 8 mm. After a step, press what it did to the "
        "detail."
    )


def test_a_filter_in_use_is_named_beside_the_part() -> None:
    assert eyepiece_words(at(rung_power=120.0, filter_id="blue")).part == "10 mm, filter: Light blue"


def test_verdicts_are_asked_for_on_bare_keys_that_begin_their_words() -> None:
    told = dict(eyepiece_words(at()).verdicts)

    assert set(told) == set(Verdict)
    for words in told.values():
        key, label = words.split(maxsplit=1)
        assert label[0].upper() == key


def test_after_a_step_it_asks_what_that_did_and_then_what_was_said_is_written() -> None:
    stepped = at(rung_power=120.0, power_before=75.0)
    words = eyepiece_words(stepped)

    assert words.can_be_judged
    assert words.asked == asked_words(stepped)
    assert words.asked == (
        "120x after 75x: refocus, re-centre, let the mount settle, watch a minute or two. What did the step "
        "do to the detail?"
    )
    written = {
        Verdict.MORE: "More detail at 120x than at 75x, written down.",
        Verdict.NO_CHANGE: "No more detail at 120x than at 75x, written down.",
        Verdict.LESS: "Less detail at 120x than at 75x, written down.",
        Verdict.CANNOT_TELL: "120x could not be told from 75x: written down, and nothing taken from it.",
    }
    for verdict, told in written.items():
        entry = log_line(stepped, at=NINE, verdict=verdict)
        assert asked_words(at(rung_power=120.0, power_before=75.0, verdicts=(entry,))) == told


def test_of_a_planet_to_come_the_time_is_told_for_which_it_counts() -> None:
    """Jupiter rises at 22:52 (PyEphem)."""
    later = at(planet=Body.JUPITER)
    words = eyepiece_words(later)

    assert words.subject.startswith("Jupiter ")
    _, time = words.subject.split(" at ")
    assert "02:00" < time < "07:30"
    assert words.time == "21:00"
    stepped = at(planet=Body.JUPITER, rung_power=120.0, power_before=75.0)
    assert asked_words(Situation(evolve(stepped.choices, evening=None), NINE)) == (
        "What a step does to Jupiter can be judged once it is in sight."
    )


def test_where_nothing_is_offered_the_reason_takes_the_place_of_the_rung() -> None:
    """A yard walled in up to the zenith, and a kit without eyepieces."""
    walled = Situation(evolve(at().choices, profile=evolve(KIT, sites=(evolve(WALLED, id="s"),))), NINE)
    bare = Situation(evolve(at().choices, profile=evolve(KIT, eyepieces=())), NINE)

    for situation in (walled, bare):
        words = eyepiece_words(situation)
        assert (words.power, words.part, words.next_step, words.verdicts) == ("", "", "", ())
    assert eyepiece_words(walled).refusal == (
        "Saturn is behind blocked sky whenever it is above 10° in a dark sky. It does not get above 10° in a "
        "dark sky, clear of what blocks the view, within two years."
    )
    assert (eyepiece_words(bare).subject, eyepiece_words(bare).refusal) == (
        "Saturn 50° south",
        "Add an eyepiece in Gear, and the powers that it gives reflector appear here.",
    )
    no_site = Situation(evolve(at().choices, profile=evolve(KIT, sites=())), NINE)
    assert eyepiece_words(no_site).time == ""


def test_why_to_go_back_is_told_in_a_sentence_and_a_lifted_limit_with_it() -> None:
    over = eyepiece_words(at(rung_power=300.0))
    lifted = eyepiece_words(at(rung_power=120.0, lifted_on=EVENING))

    assert (over.next_step, over.notices) == (
        "back to 150x, 8 mm",
        ("Over what aperture and air (seeing) can bear: when it looks soft, step back to 150x, 8 mm.",),
    )
    assert lifted.notices == (
        (
            "The usual limit is lifted to 400x for tonight. Nights that bear so much are rare: believe the "
            "view, not the number."
        ),
    )


def test_in_the_last_minutes_before_sunrise_nothing_counts_but_to_stop() -> None:
    """Sunrise at Lisbon on 6 December is at 07:40; ten minutes before it the planet is left."""
    last, past = (
        eyepiece_words(at(datetime(2026, 12, 6, *clock, tzinfo=UTC), Body.JUPITER, rung_power=120.0))
        for clock in ((7, 20), (7, 33))
    )

    assert last.next_step == "cap the telescope: 10 min left"
    assert past.next_step == "cap the telescope now"
    assert last.notices == (
        "Off the planet and cap the telescope by 07:30: 10 min left. The Sun rises at 07:40.",
    )
    assert past.notices == (
        "Off the planet, and cap the telescope and its finder now: the Sun rises in 7 min, at 07:40.",
    )
    for words in (last, past):
        assert (words.subject, words.change, words.asked, words.verdicts) == ("Jupiter", "", "", ())


def test_a_notice_more_comes_first_and_an_empty_one_is_none() -> None:
    words = eyepiece_words(at())

    assert words.with_notice("").notices == words.notices
    assert words.with_notice("The log cannot be written.").notices[0] == "The log cannot be written."


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (23 * 60, "23 min"),
        (59 * 60, "59 min"),
        (60 * 60, "1 h 00 min"),
        (125 * 60, "2 h 05 min"),
        (0, "0 min"),
        (-300, "0 min"),
    ],
)
def test_minutes_left(seconds: int, words: str) -> None:
    assert minutes_text(NINE + timedelta(seconds=seconds), NINE) == words


@pytest.mark.parametrize(
    ("kind", "what", "words"),
    [
        (ViewChange.COMES, "", "up in 23 min"),
        (ViewChange.BEHIND, "roof ridge", "behind roof ridge in 23 min"),
        (ViewChange.WARM_AIR, "chimney", "through warm air (chimney) in 23 min"),
        (ViewChange.WARM_AIR, UNNAMED_WARM, "through warm air in 23 min"),
        (ViewChange.CLEAR_AIR, "", "clear of warm air in 23 min"),
        (ViewChange.LOW, "", "under 30° in 23 min"),
        (ViewChange.HIGH_ENOUGH, "", "above 30° in 23 min"),
        (ViewChange.TOO_LOW, "", "too low in 23 min"),
        (ViewChange.BRIGHT_SKY, "", "sky too bright in 23 min"),
        (ViewChange.STOP, "", "cap the telescope in 23 min"),
        (ViewChange.BEHIND, UNNAMED_BLOCK, "behind what blocks the sky in 23 min"),
    ],
)
def test_what_comes_next(kind: ViewChange, what: str, words: str) -> None:
    change = NextChange(kind=kind, at=NINE + timedelta(minutes=23), what=what)

    assert change_text(change, NINE) == words
