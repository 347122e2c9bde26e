"""How far to climb and what stops it: which powers are named, and which fact chooses the kind of sentence."""

from datetime import UTC, datetime, timedelta

import pytest
from attrs import evolve

from core.air.limits import Ceiling
from core.gear.owned import Barlow
from core.ladder.aim import Refusal
from core.ladder.ladder import Ladder, Standing
from core.ladder.mirror_climb import MirrorClimb
from core.moments.best_minutes import BestMinutes
from core.sky.bodies import Body
from core.sky.windows import Grade, Window
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect
from core.words.how_far import climb_words, first_steps_words
from core.words.site_clock import SiteClock
from tests.core.drawing.examples import BINOCULAR, FEW, NONE, TWELVE_INCH, eyepiece, ladder
from tests.core.evenings import GOOD, LISBON, night

CLOCK = SiteClock(zone=LISBON.zone)  # on winter's UTC
NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)
BEST = BestMinutes(windows=(Window(start=NINE, end=NINE + HOUR, grade=Grade.BEST, warm_air=None),), rank=5)

# Under a ceiling of 185x: 48, 120 and 150x; 48 and 120x; 156x alone; over it 300x alone; just over it 188x.
THREE = ladder(kit=(FEW[0], ()))
TWO = ladder(kit=((eyepiece(25), eyepiece(10)), ()))
ONE = ladder(kit=((eyepiece(7.7),), ()))
OVER = ladder(kit=((eyepiece(4),), ()))
JUST_OVER = ladder(kit=((eyepiece(25), eyepiece(10), eyepiece(6.4)), ()))
ZOOM = evolve(BINOCULAR, power=None, power_min=10, power_max=30)


def climb(of: Ladder | None, limiter: Limiter = Limiter.NOTHING, **known: object) -> str:
    evening = night(LISBON, GOOD)
    prospect = Prospect(night=evening, body=evening.of(Body.SATURN), ladder=of, **known)  # type: ignore[arg-type]
    return climb_words(prospect, limiter, CLOCK)


def with_ceiling(of: Ladder, power: float) -> Ladder:
    return evolve(of, ceiling=Ceiling(power=power, set_by=of.ceiling.set_by))


def test_what_is_lacking_is_told() -> None:
    assert climb(None) == "Add a telescope in Gear to see how far you can climb."
    assert climb(None, owns_eyepieces=True) == climb(None)
    assert climb(ladder(kit=NONE)) == "Add an eyepiece in Gear to see how far you can climb."
    assert climb(ladder(kit=NONE), owns_eyepieces=True) == "None of your eyepieces fits this telescope."


def test_where_nothing_is_offered_or_no_one_can_say_the_reason_stands_alone() -> None:
    refused = evolve(THREE, aim=evolve(THREE.aim, refusal=Refusal.NOT_BY_DAY))
    low = ladder(altitude_deg=3.0)

    assert climb(refused) == "Saturn is not to be seen by day: the Sun is up."
    assert climb(low) == "Saturn is seen 3.2° high: no air path is given below 5°."


BEARS = "aperture and tonight's air (seeing) can bear about 185x"
NOTHING_BETWEEN = "you own nothing between that and the ceiling of about 185x"


@pytest.mark.parametrize(
    ("of", "steps"),
    [
        (THREE, "25 mm first, 48x; then 10 mm, 120x, and up to 150x"),
        (TWO, "25 mm first, 48x; then 10 mm, 120x"),
        (ONE, "Stay with 7.7 mm, 156x"),
    ],
)
def test_the_first_two_are_named_and_a_top_beyond_them_and_what_stops_there(of: Ladder, steps: str) -> None:
    assert climb(of) == f"{steps}."
    assert climb(of, Limiter.TONIGHT_AIR) == f"{steps}: {BEARS}."
    assert climb(of, Limiter.NO_RUNG_NEAR) == f"{steps}: {NOTHING_BETWEEN}."
    # The ladder shows what is borne now, and the figure told is that of the best moment.
    earlier = climb(of, Limiter.TONIGHT_AIR, now=NINE - HOUR, best=BEST)
    assert earlier == f"{steps}: with Saturn at its best, {BEARS}."
    rising = night(LISBON, GOOD).of(Body.SATURN).highest
    in_hours = climb(of, Limiter.TONIGHT_AIR, now=NINE - HOUR, best=BEST, rising_on=rising)
    assert in_hours == f"{steps}: with Saturn at its highest in your hours, {BEARS}."
    assert climb(of, Limiter.TONIGHT_AIR, now=NINE, best=BEST, rising_on=rising) == f"{steps}: {BEARS}."


@pytest.mark.parametrize(
    "limiter", [Limiter.TONIGHT_AIR, Limiter.MIRROR_LAGS, Limiter.USUAL_AIR, Limiter.APERTURE]
)
def test_what_bears_no_more_is_named_with_its_power(limiter: Limiter) -> None:
    assert "tonight's air (seeing) can bear about 185x" in climb(THREE, limiter)


@pytest.mark.parametrize("limiter", [Limiter.HEIGHT, Limiter.WARM_AIR, Limiter.SHAKES, Limiter.NOTHING])
def test_other_limiters_leave_the_ceiling_untold(limiter: Limiter) -> None:
    assert "185x" not in climb(THREE, limiter)


@pytest.mark.parametrize(
    ("of", "now", "told"),
    [
        (THREE, NINE + HOUR / 2, False),
        (THREE, NINE - HOUR, True),
        (THREE, None, False),
        (TWO, NINE - HOUR, True),
        (ONE, NINE - HOUR, True),
    ],
)
def test_where_now_is_another_moment_than_the_best_the_planet_s_best_is_named(
    of: Ladder, now: datetime | None, told: bool
) -> None:
    """The ladder shows what is borne now, and the figure told is that of the best moment."""
    assert ("Saturn at its best" in climb(of, Limiter.TONIGHT_AIR, now=now, best=BEST)) is told
    # Where the ceiling is not told, it needs no moment.
    assert "at its best" not in climb(of, Limiter.NOTHING, now=now, best=BEST)


@pytest.mark.parametrize(
    ("lengths_mm", "steps"),
    [
        ((25, 10, 8, 6.4), "25 mm first, 48x; then 10 mm, 120x, and up to 150x"),
        ((25, 10, 6.4), "25 mm first, 48x; then 10 mm, 120x"),
        ((7.7, 6.4), "Stay with 7.7 mm, 156x"),
    ],
)
def test_what_lies_just_over_a_gap_under_the_ceiling_is_told(
    lengths_mm: tuple[float, ...], steps: str
) -> None:
    """188x over a ceiling of 185x is within 5 %; over one of 175x, still in the band, it is not."""
    of = ladder(kit=(tuple(eyepiece(length) for length in lengths_mm), ()))

    assert climb(of, Limiter.NO_RUNG_NEAR) == f"{steps}; 188x, right at the ceiling, is worth a try."
    assert climb(with_ceiling(of, 175.0), Limiter.NO_RUNG_NEAR) == (
        f"{steps}: you own nothing between that and the ceiling of about 175x, though 188x is worth a try."
    )


def test_what_is_right_at_the_ceiling_is_so_up_to_five_per_cent() -> None:
    # 187.5x: 5 % over 178.6x.
    words = [climb(with_ceiling(JUST_OVER, power), Limiter.NO_RUNG_NEAR) for power in (178.6, 178.4)]

    assert ["right at the ceiling" in told for told in words] == [True, False]


def test_only_what_is_worth_a_try_counts_as_such() -> None:
    tried = [rung for rung in JUST_OVER.rungs if rung.standing is Standing.TRY]
    assert [round(rung.power) for rung in tried] == [188]
    # Of two the lower is named.
    higher = evolve(tried[0], power=200.0)
    assert "188x" in climb(evolve(JUST_OVER, rungs=(*JUST_OVER.rungs, higher)), Limiter.NO_RUNG_NEAR)


@pytest.mark.parametrize(
    ("limiter", "expect"),
    [
        (Limiter.NO_RUNG_NEAR, ": expect a soft view."),
        (Limiter.TONIGHT_AIR, ": expect a soft view."),
        (Limiter.EXIT_PUPIL, ", with an exit pupil of only 0.50 mm: expect a dim, soft view."),
    ],
)
def test_a_lowest_power_over_the_ceiling_is_told_with_both(limiter: Limiter, expect: str) -> None:
    """150 mm at 300x leave an exit pupil of 150 / 300 = 0.5 mm."""
    assert climb(OVER, limiter) == (
        "Even your lowest power, 300x, is over the 185x that aperture and tonight's air (seeing) can bear"
        f"{expect}"
    )
    assert first_steps_words(OVER) == ""


def test_a_telescope_that_is_not_usable_yet_is_kept_low() -> None:
    assert climb(THREE, Limiter.MIRROR_WARM) == (
        "Stay near 48x: this evening the telescope never comes close to the air's temperature (an estimate)."
    )
    assert climb(THREE, Limiter.MIRROR_WARM, ready_at=NINE) == (
        "Stay near 48x until the telescope is usable at about 21:00 (an estimate), then climb to 150x."
    )
    assert climb(OVER, Limiter.MIRROR_WARM, ready_at=NINE) == (
        "Stay near 300x until the telescope is usable at about 21:00 (an estimate)."
    )


def test_without_a_start_it_is_the_lowest_power_that_is_kept() -> None:
    assert "48x" in climb(evolve(THREE, start=None), Limiter.MIRROR_WARM)
    assert "120x" in climb(evolve(THREE, start=120.0), Limiter.MIRROR_WARM)


@pytest.mark.parametrize("limiter", [Limiter.TONIGHT_AIR, Limiter.MIRROR_WARM])
def test_what_a_cooling_mirror_adds_comes_last(limiter: Limiter) -> None:
    climbs = MirrorClimb(at=NINE, power=90.0, later=NINE + HOUR, later_power=165.0)
    told = climb(THREE, limiter, ready_at=NINE, mirror_climb=climbs)

    assert told.startswith(climb(THREE, limiter, ready_at=NINE))
    assert told.index("150x") < told.index("165x") < told.index("22:00")


@pytest.mark.parametrize(("limiter", "told"), [(Limiter.SHAKES, True), (Limiter.TONIGHT_AIR, False)])
def test_a_mount_that_shakes_is_told_after_the_climb(limiter: Limiter, told: bool) -> None:
    shaky = evolve(THREE, scope=evolve(THREE.scope, settles_s=4.0))

    assert ("4 s" in climb(shaky, limiter)) is told


@pytest.mark.parametrize(
    ("limiter", "told"),
    [
        (Limiter.NOTHING, "."),
        (Limiter.APERTURE, ": aperture and tonight's air (seeing) can bear about 92x."),
        (Limiter.NO_RUNG_NEAR, ", all that this instrument has: tonight would bear about 92x."),
    ],
)
def test_built_in_powers_have_no_eyepiece(limiter: Limiter, told: str) -> None:
    """50 mm of aperture: 92x together with the air, far over what is built in."""
    assert climb(ladder(BINOCULAR), limiter) == f"Stay at 10x{told}"
    assert climb(ladder(ZOOM), limiter) == f"Start at 10x, climb to 30x{told}"


@pytest.mark.parametrize("limiter", [Limiter.NOTHING, Limiter.TONIGHT_AIR, Limiter.NO_RUNG_NEAR])
def test_where_only_a_reducer_leads_up_the_step_over_the_ceiling_is_a_try(limiter: Limiter) -> None:
    """Beside 48x and 188x there is 150x with a reducer alone, and nobody fits one in the dark."""
    kit = ((eyepiece(25), eyepiece(6.4), eyepiece(4)), (Barlow(name="0.5x", factor=0.5),))
    words = climb(evolve(ladder(kit=kit), start=48.0), limiter)

    assert words == "25 mm first, 48x; 6.4 mm, 188x, is worth a try."


def test_the_first_steps_alone_name_no_ceiling_and_no_limit() -> None:
    assert first_steps_words(THREE) == climb(THREE)
    assert "220x" not in first_steps_words(ladder(TWELVE_INCH))
    assert "25 mm + 2x, 120x" in first_steps_words(ladder(TWELVE_INCH))
