"""What verdicts do to the situation: the ladder's air, the next step, other planets and other scopes."""

from datetime import UTC, date, datetime, timedelta
from importlib import resources
from pathlib import Path

import attrs
import pytest

from core.air.blur import Blur, BlurSource
from core.air.usual_air import BlurDistribution
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.climb import Move
from core.ladder.experience import UsualAir
from core.ladder.ladder import Ladder
from core.record.log_entry import LogEntry, Verdict
from core.record.profile import read_profile
from core.situation.choices import Choices
from core.situation.log_line import log_line
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.climbing import next_step_briefly, next_step_text, what_next_words
from core.words.site_clock import clock_of

EVENING = date(2026, 12, 5)
NINE = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)  # nine in the evening at Thessaloniki


@pytest.fixture(scope="module")
def choices() -> Choices:
    """Saturn high at nine over Thessaloniki, with an invented kit of many steps."""
    with resources.as_file(resources.files("sample_profiles").joinpath("balcony_greece.toml")) as path:
        sample = read_profile(Path(path))
    kit = attrs.evolve(
        sample,
        telescopes=(
            Telescope(
                id="six", name="Six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200
            ),
            Telescope(
                id="ten", name="Ten", kind=TelescopeKind.REFLECTOR, aperture_mm=254, focal_length_mm=1200
            ),
        ),
        eyepieces=tuple(
            Eyepiece(id=f"e{mm:g}", name=f"{mm:g} mm", focal_length_mm=mm, apparent_field_deg=52)
            for mm in (25, 15, 12, 10, 8, 6, 5, 4)
        ),
        barlows=(Barlow(id="r", name="0.6x", factor=0.6),),
    )
    return Choices(profile=kit, evening=EVENING, planet=Body.SATURN, scope_id="six")


def _at(choices: Choices, minutes: float, **others: object) -> Situation:
    moment = NINE + timedelta(minutes=minutes)
    return Situation(attrs.evolve(choices, time=moment, **others), moment)  # type: ignore[arg-type]


def _ladder(situation: Situation) -> Ladder:
    assert situation.ladder is not None
    return situation.ladder


def _judged(
    choices: Choices, minutes: float, powers: tuple[float, float], verdict: Verdict
) -> tuple[LogEntry, ...]:
    before, power = powers
    situation = _at(choices, minutes, power_before=before, rung_power=power)
    assert situation.rung is not None
    assert situation.rung.power == power
    return (*choices.verdicts, log_line(situation, at=situation.now, verdict=verdict))


def _after(choices: Choices, *steps: tuple[tuple[float, float], Verdict]) -> Choices:
    for number, (powers, verdict) in enumerate(steps):
        choices = attrs.evolve(choices, verdicts=_judged(choices, 4.0 * number, powers, verdict))
    return choices


def test_without_verdicts_the_air_is_what_was_said(choices: Choices) -> None:
    assert _ladder(_at(choices, 0)).blur == Blur.assumed()
    assert not _at(choices, 0).has_taught


def test_a_line_carries_what_was_used(choices: Choices) -> None:
    (line,) = _judged(choices, 0, (100, 120), Verdict.MORE)

    assert (line.evening, line.at, line.planet) == (EVENING, NINE, Body.SATURN)
    assert (line.scope_id, line.aperture_mm, line.focal_length_mm) == ("six", 150, 1200)
    assert (line.eyepiece_name, line.eyepiece_focal_length_mm) == ("10 mm", 10)
    assert (line.from_power, line.power, line.verdict) == (100, 120, Verdict.MORE)
    assert line.time_zone == "Europe/Athens"
    assert line.altitude_deg is not None
    assert line.altitude_deg > 40


def test_more_detail_raises_the_ceiling_and_less_lowers_it(choices: Choices) -> None:
    first = _ladder(_at(choices, 8)).ceiling.power
    better = _ladder(_at(_after(choices, ((120, 200), Verdict.MORE), ((200, 240), Verdict.MORE)), 8))
    worse = _ladder(_at(_after(choices, ((100, 150), Verdict.LESS), ((80, 120), Verdict.LESS)), 8))

    assert first is not None
    assert better.ceiling.power is not None
    assert worse.ceiling.power is not None
    assert worse.ceiling.power < first < better.ceiling.power
    for ladder in (better, worse):
        assert ladder.blur.source is BlurSource.VERDICTS
        assert ladder.limits.band is not None
        low, high = ladder.limits.band
        assert low < (ladder.ceiling.power or 0.0) < high


@pytest.mark.parametrize("powers", [(48.0, 80.0), (48.0, 96.0), (80.0, 100.0), (200.0, 240.0)])
def test_the_first_verdict_moves_the_ceiling_only_the_way_that_it_says(
    choices: Choices, powers: tuple[float, float]
) -> None:
    """With nothing said of the air: from the blur that the ladder assumes."""
    kit = (*choices.profile.barlows, Barlow(id="b", name="2x", factor=2.0))
    choices = attrs.evolve(choices, profile=attrs.evolve(choices.profile, barlows=kit))
    first = _ladder(_at(choices, 0)).ceiling.power or 0.0
    better = _ladder(_at(_after(choices, (powers, Verdict.MORE)), 0)).ceiling.power or 0.0
    worse = _ladder(_at(_after(choices, (powers, Verdict.LESS)), 0)).ceiling.power or 0.0

    assert worse <= first <= better
    assert worse < better


def test_what_one_scope_taught_on_saturn_tells_of_another_on_jupiter(choices: Choices) -> None:
    taught = _after(choices, ((100, 150), Verdict.LESS), ((80, 120), Verdict.LESS))
    there = {"scope_id": "ten", "planet": Body.JUPITER}
    later = 60 * 6.0  # Jupiter is up after midnight

    plain = _ladder(_at(choices, later, **there)).limits.together
    carried = _ladder(_at(taught, later, **there)).limits.together

    assert plain is not None
    assert carried is not None
    assert carried < plain


def test_what_was_learned_fades_and_belongs_to_its_evening_and_site(choices: Choices) -> None:
    taught = _after(choices, ((100, 150), Verdict.LESS), ((80, 120), Verdict.LESS))
    soon, late = (_ladder(_at(taught, minutes)).blur.overhead_arcsec for minutes in (10, 200))

    assert 1.45 < late < soon
    another = attrs.evolve(taught, evening=date(2026, 12, 6))
    assert not _at(another, 24 * 60).has_taught
    elsewhere = attrs.evolve(taught.verdicts[0], site_id="elsewhere")
    assert not _at(attrs.evolve(choices, verdicts=(elsewhere,)), 10).has_taught


def test_warm_air_and_notes_teach_nothing(choices: Choices) -> None:
    (line,) = _judged(choices, 0, (100, 150), Verdict.LESS)
    for other in (
        attrs.evolve(line, in_warm_air=True),
        attrs.evolve(line, verdict=Verdict.CANNOT_TELL),
        attrs.evolve(line, from_power=None),
        attrs.evolve(line, verdict=None, note="dew"),
    ):
        assert not _at(attrs.evolve(choices, verdicts=(other,)), 5).has_taught


class TestNextStep:
    def test_it_goes_up_one_rung_at_a_time_of_at_least_a_fifth(self, choices: Choices) -> None:
        step = _at(choices, 0, rung_power=100.0).next_step

        assert step is not None
        assert step.move is Move.UP
        assert step.to is not None
        assert step.to.power == 120  # 10 mm

    def test_it_never_fits_a_reducer_in_the_dark(self, choices: Choices) -> None:
        """5 mm with the reducer gives 144x, between 120x and 150x."""
        ladder = _ladder(_at(choices, 0))
        assert any(rung.power == pytest.approx(144) for rung in ladder.rungs)

        step = _at(choices, 0, rung_power=120.0).next_step

        assert step is not None
        assert step.to is not None
        assert step.to.power == 150

    def test_after_less_detail_it_goes_back_and_later_offers_another_try(self, choices: Choices) -> None:
        up = ((100, 120), Verdict.MORE), ((120, 150), Verdict.MORE), ((150, 200), Verdict.LESS)
        taught = _after(choices, *up)

        at_200 = _at(taught, 10, rung_power=200.0).next_step
        at_150 = _at(taught, 10, rung_power=150.0)

        assert at_200 is not None
        assert at_200.move is Move.BACK
        assert at_200.to is not None
        assert at_200.to.power == 150
        step = at_150.next_step
        assert step is not None
        assert step.move is Move.STAY
        assert step.above is not None
        assert step.above.power == 200
        words = next_step_text(step, _ladder(at_150), clock_of(at_150))
        assert words.startswith(("Stay here. 200x is worth another try from about", "Stay here: from your"))

    def test_where_nothing_is_owned_up_to_the_ceiling_it_says_that_the_kit_is_the_reason(
        self, choices: Choices
    ) -> None:
        """150x and then 240x: under a ceiling of about 180x there is nothing to take."""
        few = tuple(each for each in choices.profile.eyepieces if each.id in ("e25", "e10", "e8"))
        kit = (Barlow(id="b", name="2x", factor=2.0),)
        gappy = attrs.evolve(choices, profile=attrs.evolve(choices.profile, eyepieces=few, barlows=kit))
        situation = _at(_after(gappy, ((120, 150), Verdict.MORE)), 0, rung_power=150.0)

        step, ladder = situation.next_step, _ladder(situation)

        assert step is not None
        assert step.move is Move.STAY
        assert step.is_gap
        words = next_step_text(step, ladder, None)
        assert "you own nothing between 150x and 240x" in words
        assert "your verdicts" not in words

    def test_a_power_given_up_is_left_for_a_while_and_then_offered(self, choices: Choices) -> None:
        """In fair air 150x is within reach all the same, so the belief alone would send one back at once."""
        taught = _after(choices, ((48, 120), Verdict.MORE), ((120, 150), Verdict.LESS))
        given_up = max(entry.at for entry in taught.verdicts)

        soon, later = (_at(taught, minutes, rung_power=120.0) for minutes in (10, 30))

        assert soon.next_step is not None
        assert soon.next_step.move is Move.STAY
        again = soon.next_step.try_again_at
        assert again is not None
        assert timedelta(minutes=15) <= again - given_up <= timedelta(minutes=20)
        assert later.next_step is not None
        assert later.next_step.move is Move.UP
        assert later.next_step.to is not None
        assert later.next_step.to.power == 150

    def test_what_was_just_seen_comes_before_what_is_believed(self, choices: Choices) -> None:
        seen_more = _after(choices, ((150, 200), Verdict.LESS), ((240, 300), Verdict.MORE))
        seen_less = _after(choices, ((120, 150), Verdict.MORE), ((150, 200), Verdict.LESS))

        told = []
        for taught, power in ((seen_more, 300.0), (seen_less, 200.0)):
            situation = _at(taught, 4, rung_power=power)
            assert situation.next_step is not None
            clock = clock_of(situation)
            words = next_step_text(situation.next_step, _ladder(situation), clock)
            told.append((words, next_step_briefly(situation.next_step, clock)))

        more = (
            "You saw more at 300x than at 240x, though it is over what aperture and air (seeing) are "
            "likely to bear: compare it with 240x, 5 mm."
        )
        assert told == [
            (more, "compare 240x, 5 mm"),
            ("Back to 150x, 8 mm: you saw less at 200x than at 150x.", "back to 150x, 8 mm"),
        ]

    def test_of_a_planet_still_to_come_nothing_is_said_as_if_it_were_seen(self, choices: Choices) -> None:
        """Jupiter is best at 05:26; what was given up on Saturn at nine is no reason to stay there now."""
        taught = _after(choices, ((100, 120), Verdict.MORE), ((120, 150), Verdict.MORE))
        taught = attrs.evolve(taught, evening=None, planet=Body.JUPITER)
        told = []
        for verdicts in (taught.verdicts, _judged(taught, 12, (150, 200), Verdict.LESS)):
            now = NINE + timedelta(minutes=20)
            for power in (150.0, 240.0):
                here = attrs.evolve(taught, verdicts=verdicts, rung_power=power, power_before=None, time=None)
                told.append(what_next_words(Situation(here, now)))

        assert all("Jupiter" in words for words in told)
        assert not any("stay here" in words.lower() or "another try" in words for words in told)
        assert "For Jupiter at 05:26 this is likely too much: 200x, 6 mm, will show as much." in told

    def test_over_the_usual_limit_it_only_says_so(self, choices: Choices) -> None:
        steady = _after(
            attrs.evolve(choices, scope_id="ten", blur=Blur(overhead_arcsec=0.35)),
            ((150, 200), Verdict.MORE),
            ((200, 240), Verdict.MORE),
            ((240, 300), Verdict.MORE),
        )
        # 4 mm gives 300x; 0.8x is no step, so an eyepiece of 3 mm stands above the usual limit.
        three = Eyepiece(id="e3", name="3 mm", focal_length_mm=3, apparent_field_deg=52)
        kit = attrs.evolve(steady.profile, eyepieces=(*steady.profile.eyepieces, three))
        situation = _at(attrs.evolve(steady, profile=kit), 13, rung_power=300.0)

        step = situation.next_step

        assert step is not None
        assert step.move is Move.STAY
        assert step.is_over_usual_air
        assert "lift that limit to try 400x" in next_step_text(step, _ladder(situation), None)
        lifted = _at(attrs.evolve(situation.choices, lifted_on=EVENING), 13, rung_power=300.0).next_step
        assert lifted is not None
        assert lifted.move is Move.UP


def test_a_sites_usual_air_by_its_log_is_the_first_guess_and_feeds_what_to_buy(choices: Choices) -> None:
    coarse = UsualAir(
        site_id=_at(choices, 0).choices.profile.sites[0].id,
        blur=BlurDistribution(median_arcsec=3.5, spread=0.2),
        nights=7,
    )
    with_log = attrs.evolve(choices, usual_airs=(coarse,))

    assert _ladder(_at(with_log, 0)).blur == Blur(overhead_arcsec=3.5, source=BlurSource.LOG)
    given = Blur(overhead_arcsec=0.8)
    assert _at(with_log, 0, blur=given).usual_blur_arcsec == 3.5, "seasons are for many nights"
    assert _at(choices, 0, blur=given).usual_blur_arcsec == 1.6
    assert _ladder(_at(with_log, 0, blur=given)).blur == given
    taught = _after(with_log, ((100, 150), Verdict.MORE))
    assert _at(taught, 300).blur_now.overhead_arcsec == pytest.approx(3.5, rel=0.05)
    # Air that hardly ever bears 100x wants no short eyepiece.
    few = attrs.evolve(choices.profile, eyepieces=choices.profile.eyepieces[:1], barlows=())
    bought = [_at(attrs.evolve(each, profile=few), 0).to_buy for each in (choices, with_log)]
    assert bought[0] is not None
    assert bought[1] is not None
    assert bought[0].thing != bought[1].thing
