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
    assert "telescope" in climb(None)
    assert "Add an eyepiece" in climb(ladder(kit=NONE))
    assert "fits" in climb(ladder(kit=NONE), owns_eyepieces=True)
    assert "eyepieces" not in climb(None, owns_eyepieces=True)


def test_where_nothing_is_offered_or_no_one_can_say_the_reason_stands_alone() -> None:
    refused = evolve(THREE, aim=evolve(THREE.aim, refusal=Refusal.NOT_BY_DAY))
    low = ladder(altitude_deg=3.0)

    assert "the Sun is up" in climb(refused)
    assert "5°" in climb(low)
    assert all(words.endswith(".") and ".." not in words for words in (climb(refused), climb(low)))
    assert not any("48x" in climb(each) for each in (refused, low))


@pytest.mark.parametrize(
    ("of", "powers"),
    [(THREE, ("25 mm", "48x", "10 mm", "120x", "150x")), (TWO, ("25 mm", "48x", "10 mm", "120x"))],
)
@pytest.mark.parametrize("limiter", [Limiter.NOTHING, Limiter.TONIGHT_AIR, Limiter.NO_RUNG_NEAR])
def test_the_first_two_are_named_and_a_top_beyond_them(
    of: Ladder, powers: tuple[str, ...], limiter: Limiter
) -> None:
    words = climb(of, limiter)

    assert [words.index(power) for power in powers] == sorted(words.index(power) for power in powers)
    assert ("up to" in words) is (of is THREE)
    assert "Stay" not in words
    assert ("185x" in words) is (limiter is not Limiter.NOTHING)


@pytest.mark.parametrize("limiter", [Limiter.NOTHING, Limiter.TONIGHT_AIR, Limiter.NO_RUNG_NEAR])
def test_a_start_that_is_the_top_is_stayed_with(limiter: Limiter) -> None:
    words = climb(ONE, limiter)

    assert words.startswith("Stay with 7.7 mm, 156x")
    assert not {"first", "then", "None"} & set(words.replace(",", "").split())


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


def test_a_gap_under_the_ceiling_is_told_and_what_lies_just_over_it() -> None:
    """188x over a ceiling of 185x is within 5 %; over one of 175x, still in the band, it is not."""
    gap, at_it = climb(THREE, Limiter.NO_RUNG_NEAR), climb(JUST_OVER, Limiter.NO_RUNG_NEAR)
    over = climb(with_ceiling(JUST_OVER, 175.0), Limiter.NO_RUNG_NEAR)

    assert "you own nothing" in gap
    assert "try" not in gap
    assert "188x, right at the ceiling" in at_it
    assert "185x" not in at_it
    assert "188x is worth a try" in over
    assert "about 175x" in over


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
    ("limiter", "dims"),
    [(Limiter.NO_RUNG_NEAR, False), (Limiter.TONIGHT_AIR, False), (Limiter.EXIT_PUPIL, True)],
)
def test_a_lowest_power_over_the_ceiling_is_told_with_both(limiter: Limiter, dims: bool) -> None:
    """150 mm at 300x leave an exit pupil of 150 / 300 = 0.5 mm."""
    words = climb(OVER, limiter)

    assert words.index("300x") < words.index("185x")
    assert "aperture and tonight's air" in words
    assert ("0.50 mm" in words, "dim" in words) == (dims, dims)
    assert first_steps_words(OVER) == ""


def test_a_telescope_that_is_not_usable_yet_is_kept_low() -> None:
    never = climb(THREE, Limiter.MIRROR_WARM)
    then = climb(THREE, Limiter.MIRROR_WARM, ready_at=NINE)
    no_top = climb(OVER, Limiter.MIRROR_WARM, ready_at=NINE)

    assert [power in never for power in ("48x", "150x")] == [True, False]
    assert "never" in never
    assert [part in then for part in ("48x", "21:00", "150x")] == [True, True, True]
    assert [part in no_top for part in ("300x", "21:00", "climb")] == [True, True, False]
    assert all("an estimate" in words for words in (never, then, no_top))


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
    ("limiter", "ceiling", "is_all"),
    [(Limiter.NOTHING, False, False), (Limiter.APERTURE, True, False), (Limiter.NO_RUNG_NEAR, True, True)],
)
def test_built_in_powers_have_no_eyepiece(limiter: Limiter, ceiling: bool, is_all: bool) -> None:
    """50 mm of aperture: 92x together with the air, far over what is built in."""
    single, zoom = climb(ladder(BINOCULAR), limiter), climb(ladder(ZOOM), limiter)

    assert single.startswith("Stay at 10x")
    assert [power in zoom for power in ("10x", "30x")] == [True, True]
    assert zoom.startswith("Start")
    for words in (single, zoom):
        assert "eyepiece" not in words
        assert ("92x" in words, "all that" in words) == (ceiling, is_all)


@pytest.mark.parametrize("limiter", [Limiter.NOTHING, Limiter.TONIGHT_AIR, Limiter.NO_RUNG_NEAR])
def test_where_only_a_reducer_leads_up_the_step_over_the_ceiling_is_a_try(limiter: Limiter) -> None:
    """Beside 48x and 188x there is 150x with a reducer alone, and nobody fits one in the dark."""
    kit = ((eyepiece(25), eyepiece(6.4), eyepiece(4)), (Barlow(name="0.5x", factor=0.5),))
    words = climb(evolve(ladder(kit=kit), start=48.0), limiter)

    assert [part in words for part in ("25 mm", "48x", "6.4 mm", "188x", "try")] == [True] * 5
    assert not any(part in words for part in ("150x", "185x", "0.5x"))


def test_the_first_steps_alone_name_no_ceiling_and_no_limit() -> None:
    assert first_steps_words(THREE) == climb(THREE)
    assert "220x" not in first_steps_words(ladder(TWELVE_INCH))
    assert "25 mm + 2x, 120x" in first_steps_words(ladder(TWELVE_INCH))
