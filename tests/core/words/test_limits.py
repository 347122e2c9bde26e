"""What is told of a ladder's limits: the figures, and which fact chooses the kind of sentence."""

import pytest
from attrs import evolve

from core.air.blur import Blur, BlurSource
from core.air.finest_detail import LimitKind
from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook, Judged, Scale, ScaleStep
from core.air.limits import Ceiling, Line
from core.gear.owned import Telescope
from core.ladder.aim import Refusal, aim_overhead
from core.ladder.ladder import Ladder, build_ladder
from core.words.limit_names import limit_in_full, limit_name
from core.words.limits import (
    all_limits_sentence,
    band_words,
    ceiling_beside,
    ceiling_figure_text,
    ceiling_sentence,
    ceiling_title,
    ladder_note,
    lifted_sentence,
    limit_lines,
    limit_words,
    limits_sentence,
    what_sets_ceiling,
)
from tests.core.drawing.examples import FEW, SIX_INCH, TWELVE_INCH, aim, ladder

# 150 mm at 44° in 1.2″: 300x by aperture and by the usual air, 185x together, likely 163 to 207x.
USUAL = ladder()
LOW = ladder(altitude_deg=3.0)


def in_air(blur: Blur, *, scope: Telescope = SIX_INCH, mirror_arcsec: float = 0.0) -> Ladder:
    return build_ladder(
        scope=scope,
        eyepieces=FEW[0],
        barlows=FEW[1],
        aim=aim(),
        blur=blur,
        mirror_arcsec=mirror_arcsec,
    )


def set_by(kind: LimitKind, of: Ladder = USUAL) -> Ladder:
    return evolve(of, ceiling=Ceiling(power=170.0, set_by=kind))


def test_the_band_has_its_two_ends_and_none_without_an_air() -> None:
    assumed = evolve(USUAL, blur=evolve(USUAL.blur, source=BlurSource.ASSUMED))

    assert "163–207x" in band_words(USUAL)
    assert ("likely" in band_words(USUAL), "perhaps" in band_words(USUAL)) == (True, False)
    assert ("likely" in band_words(assumed), "perhaps" in band_words(assumed)) == (False, True)
    assert band_words(LOW) == ""


def test_without_a_ceiling_the_reason_stands_in_its_place() -> None:
    """No air path is given below 5° of height."""
    assert ceiling_figure_text(LOW) is None
    for words in (ceiling_sentence(LOW), ladder_note(LOW)):
        assert words.startswith("No ceiling: ")
        assert "5°" in words
    assert "telescope" in ladder_note(None)
    refused = evolve(USUAL, aim=evolve(USUAL.aim, refusal=Refusal.NOT_BY_DAY))
    assert ladder_note(refused) == ""


def test_a_ceiling_is_told_with_what_sets_it_and_where() -> None:
    assert ceiling_figure_text(USUAL) == f"185x, by {limit_in_full(LimitKind.TONIGHT_AIR)}"
    assert "the ceiling" in ladder_note(USUAL)
    assert "(seeing)" in ladder_note(USUAL)
    assert "170x" in ceiling_title(169.7)
    assert ceiling_beside("the usual air").endswith(" the usual air")
    assert [part in ceiling_sentence(USUAL) for part in ("185x", "Saturn", "44°")] == [True, True, True]


@pytest.mark.parametrize(
    ("kind", "part", "other"),
    [
        (LimitKind.APERTURE, "mostly by the aperture", "the air"),
        (LimitKind.USUAL_AIR, "usual air", "mostly"),
        (LimitKind.TONIGHT_AIR, "mostly by the air", "aperture"),
        (LimitKind.MIRROR, "warm mirror", "usual"),
        (LimitKind.HEIGHT, "height", "mirror"),
    ],
)
def test_the_largest_part_of_a_ceiling_is_named(kind: LimitKind, part: str, other: str) -> None:
    words = ceiling_sentence(set_by(kind))

    assert part in words
    assert other not in words
    assert "170x" in words


@pytest.mark.parametrize("is_assumed", [False, True])
@pytest.mark.parametrize(
    ("kind", "part"),
    [
        (LimitKind.APERTURE, "tonight's air"),
        (LimitKind.USUAL_AIR, "on most nights"),
        (LimitKind.TONIGHT_AIR, "tonight's air"),
        (LimitKind.MIRROR, "warm mirror"),
        (LimitKind.HEIGHT, "at this height"),
    ],
)
def test_what_can_bear_a_power(kind: LimitKind, part: str, is_assumed: bool) -> None:
    source = BlurSource.ASSUMED if is_assumed else BlurSource.GIVEN
    words = what_sets_ceiling(set_by(kind, evolve(USUAL, blur=evolve(USUAL.blur, source=source))))

    assert part in words
    # What most nights bear is no guess about this one.
    assert ("assumed" in words) is (is_assumed and kind is not LimitKind.USUAL_AIR)


def test_the_word_seeing_is_added_to_the_air_where_it_is_asked_for_alone() -> None:
    for kind in LimitKind:
        assert "seeing" not in limit_name(kind)
        assert "seeing" not in limit_in_full(kind)
        assert "(seeing)" in limit_name(kind, explain_air=True)
        assert limit_in_full(kind, explain_air=True).startswith(limit_name(kind, explain_air=True))
        assert ("mostly" in limit_in_full(kind)) is (kind is not LimitKind.USUAL_AIR)


@pytest.mark.parametrize(("usual_air", "told"), [(300.0, False), (301.0, True), (400.0, True)])
def test_a_usual_limit_that_is_lifted_is_told(usual_air: float, told: bool) -> None:
    words = lifted_sentence(ladder(usual_air=usual_air))

    assert (words != "") is told
    assert (f"{usual_air:.0f}x" in words) is told


def test_the_three_limits_in_the_order_of_a_tie() -> None:
    lines = limit_lines(USUAL)

    assert [line.kind for line in lines] == [Line.APERTURE, Line.USUAL_AIR, Line.TOGETHER]
    assert [line.power for line in lines] == ["300x", "300x", "185x"]
    assert [line.sets_ceiling for line in lines] == [False, False, True]
    assert "1.2″" in lines[2].why
    assert "mirror" not in lines[2].why


def test_too_low_there_is_no_figure_for_the_air() -> None:
    line = limit_lines(LOW)[2]

    assert (line.power, line.sets_ceiling) == ("none", False)
    assert "low" in line.why


@pytest.mark.parametrize(
    ("aperture_mm", "figure"),
    [(203.2, "203.2 mm"), (150.0, "150 mm"), (152.4004, "152.4 mm"), (1234.567, "1234.57 mm")],
)
def test_twice_per_mm_is_told_of_the_owner_s_own_figure(aperture_mm: float, figure: str) -> None:
    words = limit_lines(ladder(evolve(SIX_INCH, aperture_mm=aperture_mm)))[0].why

    assert words.split(" of ")[1] == figure
    assert words.startswith("2x per mm")


@pytest.mark.parametrize(("mirror_arcsec", "told"), [(0.0, False), (0.04, False), (0.06, True), (0.6, True)])
def test_a_warm_mirror_counts_from_a_twentieth_of_an_arcsecond(mirror_arcsec: float, told: bool) -> None:
    warm = in_air(Blur(overhead_arcsec=1.2), mirror_arcsec=mirror_arcsec)

    assert ("mirror" in limit_lines(warm)[2].why) is told
    assert ("mirror" in all_limits_sentence(warm)) is told


def test_a_mirror_worse_than_the_air_is_told_as_such() -> None:
    """Through the air of 44°, 1.2″ overhead is 1.5″ (Kolmogorov: 1.44 times the air to the power of 0.6)."""
    milder, worse = (in_air(Blur(overhead_arcsec=1.2), mirror_arcsec=arcsec) for arcsec in (1.3, 1.7))

    assert ["outweighs" in all_limits_sentence(each) for each in (milder, worse)] == [False, True]
    assert "1.3″" in all_limits_sentence(milder)
    assert "1.7″" in all_limits_sentence(worse)


def test_all_limits_are_told_with_their_figures() -> None:
    words = all_limits_sentence(ladder(TWELVE_INCH))

    # 305 mm: 610x by twice per mm; the usual 300x; the air alone; together.
    assert [words.index(power) for power in ("610x", "300x", "235x", "220x")] == sorted(
        words.index(power) for power in ("610x", "300x", "235x", "220x")
    )
    assert "unknown" in all_limits_sentence(LOW)
    assert all_limits_sentence(LOW).count("300x") == 2


def test_rules_of_thumb_name_a_first_look_or_the_figure() -> None:
    fair = FIRST_LOOK_BLUR_ARCSEC[FirstLook.FAIR]
    figure, look = limits_sentence(USUAL), limits_sentence(in_air(Blur(overhead_arcsec=fair)))
    assumed = limits_sentence(in_air(Blur.assumed()))

    assert ("1.2″" in figure, "fair" in figure) == (True, False)
    assert ("″" in look, "fair" in look) == (False, True)
    assert ["assumed" in words for words in (figure, look, assumed)] == [False, False, True]
    assert [power in figure for power in ("300x", "185x")] == [True, True]
    assert "assumed" in limits_sentence(in_air(evolve(USUAL.blur, source=BlurSource.ASSUMED)))
    assert limits_sentence(LOW).count("300x") == 2
    assert "together" not in limits_sentence(LOW)


@pytest.mark.parametrize(("usual_air", "groups"), [(301.2, 1), (301.3, 2)])
def test_lines_within_four_in_a_thousand_share_one(usual_air: float, groups: int) -> None:
    """300x times 1.004 is 301.2x."""
    limits = evolve(USUAL.limits, aperture=300.0, usual_air=usual_air)
    lines = limit_words(evolve(USUAL, limits=limits))

    assert len(lines) == 1 + groups
    assert [line.power for line in lines[:2]] == [pytest.approx(185.2, abs=0.1), 300.0]
    assert lines[1].kinds == ((Line.APERTURE, Line.USUAL_AIR) if groups == 1 else (Line.APERTURE,))


def test_across_a_ladder_it_stands_where_and_by_what_air_it_holds() -> None:
    overhead = evolve(USUAL, aim=aim_overhead())

    assert "44°" in limit_words(USUAL)[0].words
    assert "overhead" in limit_words(overhead)[0].words
    assert "90°" not in limit_words(overhead)[0].words
    assert "seeing" in limit_words(USUAL)[0].words
    assert "seeing" not in limit_words(USUAL, explain_air=False)[0].words
    # Without a line of its own for the air, the usual one explains it.
    assert "seeing" in limit_words(LOW)[0].words
    assert "seeing" not in limit_words(LOW, explain_air=False)[0].words


def test_a_judged_air_is_named_by_a_first_look_but_not_by_a_step_of_a_scale() -> None:
    """A look judged low is carried overhead, so that its figure is no longer the usual one."""
    look = Blur(overhead_arcsec=1.1, judged=Judged(by=FirstLook.BOILING, altitude_deg=20.0))
    step = Blur(overhead_arcsec=1.45, judged=Judged(by=ScaleStep(Scale.FIVE_STEPS, 3)))
    by_look, by_step = limits_sentence(in_air(look)), limits_sentence(in_air(step))

    assert ("boiling" in by_look, "″" in by_look) == (True, False)
    assert ("fair" in by_step, "1.45″" in by_step) == (False, True)
