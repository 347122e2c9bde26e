"""What is written beside rungs and limits."""

import pytest
from attrs import evolve

from core.air.blur import Blur, BlurSource
from core.air.limits import Line
from core.drawing.rung_order import rung_at_power
from core.gear.owned import Eyepiece
from core.ladder.ladder import Ladder, build_ladder
from core.words.ladder import (
    Standpoint,
    no_ceiling_text,
    part_sentence,
    part_text,
    run_words,
    rung_words,
)
from core.words.limits import limit_words, limits_sentence
from core.words.quantities import drift_text
from tests.core.drawing.examples import FEW, MANY, SIX_INCH, TWELVE_INCH, aim, eyepiece, ladder


def remark_at(which: Ladder, power: float, *, chosen_power: float | None = None, brief: bool = False) -> str:
    rung, chosen = rung_at_power(which.rungs, power), rung_at_power(which.rungs, chosen_power)
    assert rung is not None
    return rung_words(rung, which, Standpoint(rung=chosen), brief=brief).remark


def test_limits_that_tie_share_one_label() -> None:
    # 150 mm: 2x per mm is 300x, which is the usual limit of the air as well (common practice, no source).
    limits = limit_words(ladder(SIX_INCH))

    assert [(round(limit.power), limit.words) for limit in limits][-1] == (
        300,
        "aperture limit and usual air",
    )
    assert limits[-1].kinds == (Line.APERTURE, Line.USUAL_AIR)


def test_limits_apart_have_labels_of_their_own() -> None:
    words = [limit.words for limit in limit_words(ladder(TWELVE_INCH))]

    assert words == ["aperture and air (seeing) at 44°", "usual air", "aperture limit"]


def test_the_lowest_limit_is_the_ceiling() -> None:
    assert [limit.is_ceiling for limit in limit_words(ladder(TWELVE_INCH))] == [True, False, False]


def test_both_words_for_the_air_are_there_even_without_a_limit_for_tonight() -> None:
    words = [limit.words for limit in limit_words(ladder(SIX_INCH, altitude_deg=3.0))]

    assert words == ["aperture limit and usual air (seeing)"]


def test_assumed_air_says_so() -> None:
    assumed = build_ladder(scope=SIX_INCH, eyepieces=FEW[0], barlows=FEW[1], aim=aim(), blur=Blur.assumed())

    assert limit_words(assumed)[0].words == "aperture and air (seeing) at 44°, assumed"


@pytest.mark.parametrize(
    ("power", "remark"),
    [(48, "begin here"), (96, ""), (150, "top tonight"), (240, "not tonight"), (300, "not tonight")],
)
def test_remarks_of_a_usual_night(power: float, remark: str) -> None:
    # 1.2 arcsec overhead at 44 degrees stops the ladder between 150x and 240x.
    assert remark_at(ladder(), power) == remark


@pytest.mark.parametrize(
    ("power", "remark"), [(120, "you are here"), (48, "you are here"), (150, "you are here, top tonight")]
)
def test_the_rung_in_hand_is_told(power: float, remark: str) -> None:
    assert remark_at(ladder(), power, chosen_power=power) == remark


@pytest.mark.parametrize(("brief", "words"), [(False, ("begin here", "next")), (True, ("first", "next"))])
def test_nobody_stands_on_a_rung_that_was_not_taken(brief: bool, words: tuple[str, str]) -> None:
    which = ladder()
    first, following = (rung_at_power(which.rungs, power) for power in (48, 120))
    assert first is not None
    assert following is not None
    standpoint = Standpoint(rung=first, is_taken=False, following=following)

    told = [rung_words(rung, which, standpoint, brief=brief).remark for rung in (first, following)]

    assert tuple(told) == words


def test_a_measured_factor_stands_where_the_power_is_counted_with_it() -> None:
    measured = evolve(FEW[1][0], measured_factor=2.15)
    which = build_ladder(
        scope=SIX_INCH, eyepieces=FEW[0], barlows=(measured,), aim=aim(), blur=Blur.assumed()
    )

    told = rung_words(which.rungs[-1], which)

    assert told.eyepiece == told.eyepiece_briefly == "8 mm + 2x (2.15x)"


def test_a_rung_of_two_barlows_is_marked_approximate() -> None:
    stacked = build_ladder(
        scope=evolve(TWELVE_INCH, stack_barlows=True),
        eyepieces=MANY[0][:1],
        barlows=MANY[1],
        aim=aim(),
        blur=Blur.assumed(),
    )

    assert rung_words(stacked.rungs[-1], stacked).power.startswith("~")


@pytest.mark.parametrize(
    ("drift_s", "words"), [(41.2, "41 s"), (119.4, "119 s"), (150.0, "2.5 min"), (7200.0, "over 1 h")]
)
def test_drift_in_words(drift_s: float, words: str) -> None:
    assert drift_text(drift_s) == words


@pytest.mark.parametrize(
    ("blur", "air"),
    [
        (Blur(overhead_arcsec=2.0), "with a blur of 2″ overhead."),
        (Blur(overhead_arcsec=2.0, source=BlurSource.ASSUMED), "with a blur of 2″ overhead, assumed."),
        (Blur(overhead_arcsec=0.8), "with steady air."),
        (Blur.assumed(), "with fair air, assumed."),
    ],
)
def test_the_three_limits_are_told_with_the_air_that_they_rest_on(blur: Blur, air: str) -> None:
    told = limits_sentence(evolve(ladder(), blur=blur))

    # 150 mm bear 2 x 150; common practice.
    assert told.startswith(
        "Rules of thumb: aperture 300x, usual air 300x and aperture and air (seeing) together "
    )
    assert told.endswith(air)


@pytest.mark.parametrize("brief", [False, True])
def test_a_rung_of_what_is_not_owned_says_so_and_nothing_of_the_climb(brief: bool) -> None:
    which = ladder()
    told, owned = (
        [rung_words(rung, which, brief=brief, is_owned=is_owned).remark for rung in which.rungs]
        for is_owned in (False, True)
    )

    assert len(set(told)) == 1
    assert told[0] not in ("", *owned)
    # Where there is little room it is the shorter.
    assert (len(told[0].split()) == 1) is brief


# Over a ceiling of 185x: 25, 10 and 6.4 mm give 48, 120 and 188x, and 60 mm 20x.
KIT = (tuple(map(eyepiece, (60, 25, 10, 6.4))), ())


@pytest.mark.parametrize(
    ("power", "blur", "words"),
    [
        (20, Blur(overhead_arcsec=1.2), ("for finding", "For finding: low for looking at a planet.", "find")),
        (48, Blur(overhead_arcsec=1.2), ("begin here", "Begin here.", "first")),
        (120, Blur(overhead_arcsec=1.2), ("top tonight", "Top tonight.", "top")),
        (187.5, Blur(overhead_arcsec=1.2), ("worth a try", "", "try")),
        (
            187.5,
            Blur(overhead_arcsec=1.2, source=BlurSource.ASSUMED),
            ("perhaps worth a try", "", "try"),
        ),
        (187.5, Blur.assumed(), ("not tonight", "", "")),
    ],
)
def test_what_part_a_rung_plays_tonight(power: float, blur: Blur, words: tuple[str, str, str]) -> None:
    which = build_ladder(scope=SIX_INCH, eyepieces=KIT[0], barlows=(), aim=aim(), blur=blur)
    rung = rung_at_power(which.rungs, power)
    assert rung is not None

    told = (part_text(rung, which), part_sentence(rung, which), rung_words(rung, which, brief=True).remark)

    assert told == words


def test_a_start_that_is_the_top_is_both() -> None:
    which = ladder(kit=((eyepiece(7.7),), ()))
    (rung,) = which.rungs

    assert part_text(rung, which) == "begin here, top tonight"
    assert part_sentence(rung, which) == "Begin here and stay."
    assert rung_words(rung, which, brief=True).remark == "top"


def test_a_rung_between_plays_no_part() -> None:
    rung = rung_at_power(ladder().rungs, 96)
    assert rung is not None

    assert (part_text(rung, ladder()), part_sentence(rung, ladder())) == ("", "")
    assert rung_words(rung, ladder()).with_remark == "25 mm + 2x"


@pytest.mark.parametrize(
    ("brief", "here", "back"), [(False, "you are here", "back to here, top tonight"), (True, "here", "back")]
)
def test_a_rung_to_go_back_to_is_told_as_such(brief: bool, here: str, back: str) -> None:
    which = ladder()
    high, top = (rung_at_power(which.rungs, power) for power in (240, 150))
    assert high is not None
    assert top is not None
    standpoint = Standpoint(rung=high, following=top)

    assert rung_words(top, which, standpoint, brief=brief).remark == back
    assert rung_words(high, which, standpoint, brief=brief).remark.split(", ")[0] == here


def test_the_columns_of_a_rung_and_the_remark_where_it_has_none_of_its_own() -> None:
    """150 mm at 48x: a pupil of 3.1 mm; 52 degrees over 48 are 1.08, crossed in 260 s."""
    words = rung_words(ladder().rungs[0], ladder())

    assert (words.power, words.eyepiece, words.exit_pupil, words.field, words.drift) == (
        *("48x", "25 mm", "3.1 mm", "1.1°", "4.3 min"),
    )
    assert words.with_remark == "25 mm, begin here"
    blind = rung_words(evolve(ladder().rungs[0], true_field_deg=None, drift_s=None), ladder())
    assert (blind.field, blind.drift) == ("", "")
    low = ladder(altitude_deg=3.0)
    assert (no_ceiling_text(ladder()), no_ceiling_text(low)[:6]) == ("", "Saturn")


ZOOM = build_ladder(
    scope=SIX_INCH,
    eyepieces=(Eyepiece(name="Zoom", focal_length_min_mm=8, focal_length_max_mm=24),),
    barlows=FEW[1],
    aim=aim(),
    blur=Blur(overhead_arcsec=1.2),
)


@pytest.mark.parametrize(
    ("brief", "by_powers", "is_owned", "words"),
    [
        (False, False, True, ("100–300x", "Zoom + 2x", "8–24 mm + 2x", "")),
        (False, False, False, ("100–300x", "Zoom + 2x", "8–24 mm + 2x", "not owned")),
        (True, False, False, ("100–300x", "Zoom + 2x", "8–24 mm + 2x", "new")),
        # A name is cut before a figure: where there is little room the powers stand in its place.
        (True, False, True, ("zoom", "100–300x, 2x in", "100–300x, 2x in", "")),
        (True, True, True, ("100–300x", "Zoom + 2x", "8–24 mm + 2x", "")),
    ],
)
def test_the_run_of_a_zoom(brief: bool, by_powers: bool, is_owned: bool, words: tuple[str, ...]) -> None:
    told = run_words(ZOOM.rungs[-1], (100.0, 300.0), brief=brief, by_powers=by_powers, is_owned=is_owned)

    assert (told.power, told.eyepiece, told.eyepiece_briefly, told.remark) == words
    assert told.is_owned is is_owned
    assert (told.exit_pupil, told.field, told.drift) == ("", "", "")


def test_the_run_of_a_zoom_without_a_barlow() -> None:
    told = run_words(ZOOM.rungs[0], (50.0, 150.0), brief=True, is_owned=True)

    assert (told.power, told.eyepiece) == ("zoom", "50–150x")
    assert run_words(ZOOM.rungs[0], (50.0, 150.0)).is_owned is False
