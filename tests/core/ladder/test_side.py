"""The figures of each of two telescopes set side by side, by hand."""

import pytest

from core.gear.collimation import Collimation
from core.gear.owned import Telescope
from core.ladder.compare import compare
from core.ladder.winner import Winner
from core.words.comparison import collimation_text, verdict_texts
from tests.core.gear.examples import telescope
from tests.core.ladder.side_by_side import BINOCULARS, SPOTTER, closed, comparison, ladder, lens, mirror


def test_figures_of_a_side() -> None:
    """200 mm leave 1.045 arcsec of 1.45, so 222x, at which Jupiter of 45 arcsec looks 166 arcmin across."""
    clear = telescope("Clear", 200, 1000, obstruction_mm=0)
    found = comparison(clear, lens(100), 1.45, 90)

    assert found.a.light_ratio_to_other == pytest.approx(4)
    assert found.b.light_ratio_to_other == pytest.approx(0.25)
    assert found.a.disc_diameter_arcmin_at_ceiling == pytest.approx(166.5, rel=2e-3)
    assert found.a.elements_across_disc == pytest.approx(43.06, rel=1e-3)
    assert found.a.resolution_arcsec == pytest.approx(0.58)
    assert found.a.finest_detail_arcsec == pytest.approx(1.045, rel=1e-3)
    assert found.a.lowest_power == 40
    assert found.a.widest_field_deg == pytest.approx(1.3)
    assert found.b.collimation == Collimation(is_needed=False)
    assert collimation_text(found.b.collimation) == "No collimation needed."
    assert found.a.usable_minutes is not None
    low, likely, high = found.a.usable_minutes
    assert low < likely < high
    # A 33 mm mirror settles long after it is usable; a lens is told to be usable only.
    assert found.a.settled_minutes is not None
    assert found.a.settled_minutes > high
    assert found.b.settled_minutes is None


def test_an_obstruction_takes_its_share_of_the_light() -> None:
    half = telescope("Half", 200, 1000, obstruction_mm=100)

    assert comparison(half, lens(100)).a.light_ratio_to_other == pytest.approx(3)


def test_a_built_in_power_limits_what_is_seen() -> None:
    """At 20x an eye that needs 232 arcsec sees 11.6 arcsec; Jupiter of 45 arcsec looks 15 arcmin across."""
    found = comparison(BINOCULARS, lens(76), 0.8, 90)

    assert found.a.finest_detail_arcsec == pytest.approx(11.6)
    assert found.a.disc_diameter_arcmin_at_ceiling == pytest.approx(15)
    words = " ".join(verdict_texts(found))
    assert "Binoculars may climb to about 20x (limited by its built-in power)" in words


def test_alignment_grows_strict_with_the_cube_of_the_focal_ratio() -> None:
    fast, slow = telescope("Fast", 200, 800), telescope("Slow", 150, 1200)

    assert "8 times as exact as at f/8" in collimation_text(comparison(fast, lens(100)).a.collimation)
    assert "exact" not in collimation_text(comparison(slow, lens(100)).a.collimation)


@pytest.mark.parametrize("scope", [telescope("Fast", 200, 800), telescope("Slow", 150, 1200), closed(127)])
def test_a_look_into_a_mirror_by_day_keeps_away_from_the_sun(scope: Telescope) -> None:
    told = collimation_text(comparison(scope, lens(100)).a.collimation)

    assert "by day, indoors or in shade and never towards the Sun" in told


def test_below_five_degrees_there_is_no_verdict_on_detail() -> None:
    found = comparison(lens(76), mirror(254), 1.0, 2)

    assert found.detail_winner is None
    assert found.a.finest_detail_arcsec is None
    assert found.a.elements_across_disc is None
    assert "Neither telescope shows fine detail there." in verdict_texts(found)[0]
    assert found.light_winner is Winner.B


def test_without_a_planet_there_is_no_disc() -> None:
    found = compare(ladder(lens(76)), ladder(mirror(254)))

    assert found.a.disc_diameter_arcmin_at_ceiling is None
    assert found.a.elements_across_disc is None


# What it may climb to by limit and by its own power, and whether it is the latter that stops it.
STOPPED = [(mirror(150), False), (lens(76), False), (BINOCULARS, True), (SPOTTER, True)]


@pytest.mark.parametrize(("scope", "is_stopped"), STOPPED)
def test_only_a_built_in_power_stops_a_climb_before_the_ceiling(scope: Telescope, is_stopped: bool) -> None:
    side = comparison(scope, mirror(114), 1.0).a

    assert side.is_stopped_by_built_in_power is is_stopped
    assert side.usable_power == (scope.highest_own_power if is_stopped else side.ladder.ceiling.power)


def test_a_steady_night_is_one_at_least_as_steady_as_what_the_owner_calls_so() -> None:
    """0.8 arcsec overhead is what is called steady where the owner has not said."""
    found = {blur: comparison(mirror(150), lens(100), blur).a for blur in (0.5, 0.8, 0.9, 1.45)}

    assert {blur: side.is_steady_now for blur, side in found.items()} == {
        0.5: True,
        0.8: True,
        0.9: False,
        1.45: False,
    }
    # 150 mm leave hypot(116/150, 0.6 x 0.8) = 0.910 arcsec of a steady night, and less of a steadier one.
    details = [found[blur].steady_detail_arcsec for blur in (0.5, 0.8, 0.9, 1.45)]
    assert details == pytest.approx([0.829, 0.910, 0.910, 0.910], abs=0.002)


def test_what_the_owner_calls_a_steady_night_counts_for_both() -> None:
    """Of 1.1 arcsec 150 mm leave hypot(116/150, 0.66) = 1.017 arcsec, 100 mm hypot(1.16, 0.66) = 1.335."""
    steady, fair = (
        compare(ladder(mirror(150), blur), ladder(lens(100), blur), steady_arcsec=1.1) for blur in (1.0, 1.45)
    )

    assert [side.is_steady_now for side in (steady.a, steady.b, fair.a, fair.b)] == [True, True, False, False]
    assert fair.a.steady_detail_arcsec == pytest.approx(1.017, abs=0.001)
    assert fair.b.steady_detail_arcsec == pytest.approx(1.335, abs=0.001)


def test_the_disc_at_the_highest_power_owned() -> None:
    """Of 120, 200 and 240x the first is the last under the 199x of fair air: 45 arcsec look 90 arcmin."""
    kit = comparison(telescope("Six", 150, 1200), lens(100), 1.45, 90).a

    assert kit.ladder.climb_to == 120
    assert kit.disc_diameter_arcmin_at_climb == pytest.approx(90)


def test_a_mirror_settles_by_the_air_in_which_both_are_compared() -> None:
    """In air that boils the ceiling gets sooner to nine tenths of what it ends at than in steady air."""
    steady, boiling = (compare(ladder(mirror(254), blur), ladder(lens(100), blur)).a for blur in (0.5, 3.0))

    assert steady.settled_minutes is not None
    assert boiling.settled_minutes is not None
    assert boiling.settled_minutes < steady.settled_minutes


def test_what_has_stood_outside_waits_only_for_the_rest() -> None:
    one, other = ladder(mirror(150)), ladder(mirror(254))
    plain, out, long_out = (
        compare(one, other, minutes_outside=(minutes, None)).a for minutes in (None, 10.0, 600.0)
    )

    assert plain.ready_minutes is not None
    assert plain.ready_minutes == plain.readiness.usable.likely_minutes
    assert plain.waits_minutes == plain.ready_minutes
    assert out.waits_minutes == pytest.approx(plain.ready_minutes - 10.0)
    assert long_out.waits_minutes == 0.0
