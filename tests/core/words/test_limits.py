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

    assert [band_words(each) for each in (USUAL, assumed, LOW)] == [
        "likely 163–207x",
        "perhaps 163–207x",
        "",
    ]


def test_without_a_ceiling_the_reason_stands_in_its_place() -> None:
    """No air path is given below 5° of height."""
    assert ceiling_figure_text(LOW) is None
    for words in (ceiling_sentence(LOW), ladder_note(LOW)):
        assert words == "No ceiling: Saturn is seen 3.2° high: no air path is given below 5°."
    assert ladder_note(None) == "Add a telescope in Gear, and its ladder appears here."
    refused = evolve(USUAL, aim=evolve(USUAL.aim, refusal=Refusal.NOT_BY_DAY))
    assert ladder_note(refused) == ""


def test_a_ceiling_is_told_with_what_sets_it_and_where() -> None:
    assert ceiling_figure_text(USUAL) == "185x, by aperture and air, mostly the air"
    assert ladder_note(USUAL) == (
        "the ceiling, set by aperture and air (seeing), mostly the air: a rule of thumb, not a lock"
    )
    assert ceiling_title(169.7) == "170x ceiling"
    assert ceiling_beside("the usual air") == "ceiling: the usual air"
    assert ceiling_sentence(USUAL) == "Ceiling about 185x for Saturn at 44°, mostly by the air."


AIR, ASSUMED_AIR = "tonight's air (seeing)", "tonight's air (seeing, assumed fair)"


@pytest.mark.parametrize(
    ("kind", "by", "in_full", "bearer", "assumed"),
    [
        (
            LimitKind.APERTURE,
            "mostly by the aperture",
            "aperture and air, mostly the aperture",
            f"aperture and {AIR}",
            f"aperture and {ASSUMED_AIR}",
        ),
        # What most nights bear is no guess about this one.
        (
            LimitKind.USUAL_AIR,
            "by the usual air",
            "the usual air",
            "the air on most nights",
            "the air on most nights",
        ),
        (
            LimitKind.TONIGHT_AIR,
            "mostly by the air",
            "aperture and air, mostly the air",
            f"aperture and {AIR}",
            f"aperture and {ASSUMED_AIR}",
        ),
        (
            LimitKind.MIRROR,
            "mostly by the warm mirror",
            "aperture, air and warm mirror, mostly the mirror",
            f"aperture, {AIR} and the warm mirror",
            f"aperture, {ASSUMED_AIR} and the warm mirror",
        ),
        (
            LimitKind.HEIGHT,
            "mostly by the height, which smears the colours",
            "aperture and air, mostly the height, which smears the colours",
            f"aperture and {AIR} at this height",
            f"aperture and {ASSUMED_AIR} at this height",
        ),
    ],
)
def test_what_has_the_largest_part_in_a_ceiling_is_named(
    kind: LimitKind, by: str, in_full: str, bearer: str, assumed: str
) -> None:
    in_assumed_air = evolve(USUAL, blur=evolve(USUAL.blur, source=BlurSource.ASSUMED))

    assert ceiling_sentence(set_by(kind)) == f"Ceiling about 170x for Saturn at 44°, {by}."
    assert limit_in_full(kind) == in_full
    assert what_sets_ceiling(set_by(kind)) == bearer
    assert what_sets_ceiling(set_by(kind, in_assumed_air)) == assumed
    # With the trade's other word for the air, where it is asked for.
    assert limit_in_full(kind, explain_air=True) == in_full.replace("air", "air (seeing)", 1)
    assert in_full.startswith(limit_name(kind))
    assert "mostly" not in limit_name(kind)


@pytest.mark.parametrize(("usual_air", "told"), [(300.0, False), (301.0, True), (400.0, True)])
def test_a_usual_limit_that_is_lifted_is_told(usual_air: float, told: bool) -> None:
    lifted = (
        f"The usual limit is lifted to {usual_air:.0f}x for tonight. Nights that bear so much are rare: "
        "believe the view, not the number."
    )

    assert lifted_sentence(ladder(usual_air=usual_air)) == (lifted if told else "")


def test_the_three_limits_in_the_order_of_a_tie() -> None:
    lines = limit_lines(USUAL)

    assert [line.kind for line in lines] == [Line.APERTURE, Line.USUAL_AIR, Line.TOGETHER]
    assert [line.power for line in lines] == ["300x", "300x", "185x"]
    assert [line.sets_ceiling for line in lines] == [False, False, True]
    assert [line.name for line in lines] == [
        "The aperture",
        "The usual air",
        "Aperture and air (seeing)",
    ]
    assert [line.why for line in lines] == ["2x per mm of 150 mm", "common practice", "blur 1.2″"]


def test_too_low_there_is_no_figure_for_the_air() -> None:
    line = limit_lines(LOW)[2]

    assert (line.power, line.why, line.sets_ceiling) == ("none", "too low to say", False)


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

    mirror = f"; warm mirror {'0.1' if mirror_arcsec == 0.06 else '0.6'}″"
    assert limit_lines(warm)[2].why == f"blur 1.2″{mirror if told else ''}"
    assert ("mirror" in all_limits_sentence(warm)) is told


def test_a_mirror_worse_than_the_air_is_told_as_such() -> None:
    """Through the air of 44°, 1.2″ overhead is 1.5″ (Kolmogorov: 1.44 times the air to the power of 0.6)."""
    milder, worse = (in_air(Blur(overhead_arcsec=1.2), mirror_arcsec=arcsec) for arcsec in (1.3, 1.7))

    assert all_limits_sentence(milder) == (
        "Limits of power there: aperture 300x, usual air 300x, tonight's air (seeing) with the warm mirror "
        "174x (blur 1.2″ overhead, as given; mirror 1.3″), all together 150x; the lowest is the ceiling."
    )
    assert all_limits_sentence(worse) == (
        "Limits of power there: aperture 300x, usual air 300x, the warm mirror 154x (its blur of 1.7″ "
        "outweighs that of the air (seeing); blur 1.2″ overhead, as given), all together 137x; the lowest is "
        "the ceiling."
    )


def test_all_limits_are_told_with_their_figures() -> None:
    """305 mm: 610x by twice per mm; the usual 300x; the air alone; together."""
    assert all_limits_sentence(ladder(TWELVE_INCH)) == (
        "Limits of power there: aperture 610x, usual air 300x, tonight's air (seeing) 235x (blur 1.2″ "
        "overhead, as given), aperture and air together 220x; the lowest is the ceiling."
    )
    assert all_limits_sentence(LOW) == (
        "Limits of power there: aperture 300x, usual air 300x, tonight's air (seeing) unknown."
    )


def test_rules_of_thumb_name_a_first_look_or_the_figure() -> None:
    fair = Blur(overhead_arcsec=FIRST_LOOK_BLUR_ARCSEC[FirstLook.FAIR])
    guessed = evolve(USUAL.blur, source=BlurSource.ASSUMED)
    limits = "Rules of thumb: aperture 300x, usual air 300x and aperture and air (seeing) together"

    assert [
        limits_sentence(each) for each in (USUAL, in_air(guessed), in_air(fair), in_air(Blur.assumed()))
    ] == [
        f"{limits} 185x with a blur of 1.2″ overhead.",
        f"{limits} 185x with a blur of 1.2″ overhead, assumed.",
        f"{limits} 167x with fair air.",
        f"{limits} 167x with fair air, assumed.",
    ]
    assert limits_sentence(LOW) == "Rules of thumb: aperture 300x and usual air 300x."


@pytest.mark.parametrize(("usual_air", "groups"), [(301.2, 1), (301.3, 2)])
def test_lines_within_four_in_a_thousand_share_one(usual_air: float, groups: int) -> None:
    """300x times 1.004 is 301.2x."""
    limits = evolve(USUAL.limits, aperture=300.0, usual_air=usual_air)
    lines = limit_words(evolve(USUAL, limits=limits))

    assert len(lines) == 1 + groups
    assert [line.power for line in lines[:2]] == [pytest.approx(185.2, abs=0.1), 300.0]
    assert lines[1].kinds == ((Line.APERTURE, Line.USUAL_AIR) if groups == 1 else (Line.APERTURE,))


def test_across_a_ladder_it_stands_where_and_by_what_air_it_holds() -> None:
    def lowest(of: Ladder, *, explain_air: bool = True) -> str:
        return limit_words(of, explain_air=explain_air)[0].words

    overhead, assumed = evolve(USUAL, aim=aim_overhead()), evolve(USUAL, blur=Blur.assumed())

    assert lowest(USUAL) == "aperture and air (seeing) at 44°"
    assert lowest(USUAL, explain_air=False) == "aperture and air at 44°"
    assert lowest(assumed) == "aperture and air (seeing) at 44°, assumed"
    assert lowest(overhead) == "aperture and air (seeing) overhead"
    assert lowest(evolve(overhead, blur=Blur.assumed())) == "aperture and air (seeing) overhead, assumed"
    # Without a line of its own for the air, the usual one explains it.
    assert lowest(LOW) == "aperture limit and usual air (seeing)"
    assert lowest(LOW, explain_air=False) == "aperture limit and usual air"


def test_a_judged_air_is_named_by_a_first_look_but_not_by_a_step_of_a_scale() -> None:
    """A look judged low is carried overhead, so that its figure is no longer the usual one."""
    look = Blur(overhead_arcsec=1.1, judged=Judged(by=FirstLook.BOILING, altitude_deg=20.0))
    step = Blur(overhead_arcsec=1.45, judged=Judged(by=ScaleStep(Scale.FIVE_STEPS, 3)))
    by_look, by_step = limits_sentence(in_air(look)), limits_sentence(in_air(step))

    assert ("boiling" in by_look, "″" in by_look) == (True, False)
    assert ("fair" in by_step, "1.45″" in by_step) == (False, True)
