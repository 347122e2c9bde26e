"""The owner's filters on a planet: which first, for what, and when there is too little light."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.air.blur import Blur
from core.gear.owned import Eyepiece, Filter, Telescope
from core.ladder.ladder import build_ladder
from core.looks.filter_offers import SUITED, YELLOW, FilterAim, FilterOffers, Offer, filter_offers, ranked
from core.looks.filters import wratten_table
from core.sky.bodies import Body
from core.sky.night import compute_night
from core.words.filters import filter_sentences, filters_heading
from tests.core.gear.examples import eyepiece, telescope
from tests.core.looks.test_looks import SITE
from tests.core.telling import appearance_of, best_aim

MARKINGS = SUITED[Body.MARS][FilterAim.DARK_MARKINGS]
BELTS_OF_SATURN = SUITED[Body.SATURN][FilterAim.BELTS]
BOX = (eyepiece(25, 52), eyepiece(10, 60), eyepiece(6, 60))
SIX = telescope()
GREY = Filter(name="Moon filter", transmittance=0.13)


def wratten(number: str) -> Filter:
    return Filter(name=f"No. {number}", wratten=number)


def offers_on(
    body: Body,
    *owned: Filter,
    evening: date = date(2026, 12, 5),
    scope: Telescope = SIX,
    eyepieces: tuple[Eyepiece, ...] = BOX,
    blur_arcsec: float = 1.0,
    power: float | None = None,
) -> FilterOffers:
    night = compute_night(SITE, evening)
    ladder = build_ladder(
        scope=scope,
        eyepieces=eyepieces,
        barlows=(),
        aim=best_aim(night, body),
        blur=Blur(overhead_arcsec=blur_arcsec),
    )
    appearance = appearance_of(night, body, ladder=ladder)
    assert ladder.climb_to is not None
    found = filter_offers(owned, appearance, power or ladder.climb_to)
    assert found is not None
    return found


def names(found: FilterOffers, aim: FilterAim) -> list[str]:
    return [
        each.filter.name
        for group in found.by_aim
        if group.aim is aim
        for each in group.offers
        if each.offer is Offer.OFFERED
    ]


def aims(found: FilterOffers) -> list[FilterAim]:
    return [group.aim for group in found.by_aim]


def test_every_filter_of_the_ranking_has_that_use_in_the_table() -> None:
    for body, suited in SUITED.items():
        for numbers in suited.values():
            for number in numbers:
                assert body in {use.body for use in wratten_table()[number].uses}, (body, number)
    assert set(YELLOW) <= set(wratten_table())


def test_mars_in_a_small_scope_takes_orange_before_red() -> None:
    found = ranked(
        [wratten("25A"), wratten("21"), wratten("80A")],
        MARKINGS,
        surface_brightness=4.3,
        aperture_mm=114,
        power=142,
    )

    assert [(each.filter.name, each.offer) for each in found] == [
        ("No. 21", Offer.OFFERED),
        ("No. 25A", Offer.USUALLY_LARGER_APERTURE),
    ]
    assert found[1].smallest_aperture_mm == 200


def test_a_dark_filter_at_a_small_exit_pupil_is_too_dark() -> None:
    (found,) = ranked(
        [wratten("58")], BELTS_OF_SATURN, surface_brightness=6.9, aperture_mm=250, power=250 / 0.7
    )

    # By hand: 1.08e5 x 10^-2.76 x 0.238 x 0.385 mm² is 17.2 td; 50 td take a pupil of 1.19 mm, 250 / 1.19.
    assert found.light_trolands == pytest.approx(17.2, abs=0.2)
    assert found.offer is Offer.TOO_DARK
    assert found.enough_up_to == pytest.approx(209, abs=2)


def test_a_filter_too_dark_for_the_whole_pupil_is_so_at_every_power() -> None:
    (found,) = ranked([wratten("47")], ("47",), surface_brightness=12.0, aperture_mm=250, power=40)

    assert (found.offer, found.enough_up_to) == (Offer.TOO_DARK, None)


@given(st.floats(60, 500), st.floats(20, 600), st.floats(0, 10))
def test_up_to_the_power_told_there_is_light_enough(aperture: float, power: float, brightness: float) -> None:
    (found,) = ranked(
        [wratten("80A")], ("80A",), surface_brightness=brightness, aperture_mm=aperture, power=power
    )

    if found.enough_up_to is None or power > found.enough_up_to * 1.001:
        assert found.offer is Offer.TOO_DARK
    elif power < found.enough_up_to * 0.999:
        assert found.offer is not Offer.TOO_DARK


def test_a_moon_filter_is_for_glare_and_never_for_saturn() -> None:
    assert aims(offers_on(Body.SATURN, GREY)) == []
    moon = offers_on(Body.MOON, GREY, evening=date(2026, 12, 23), power=48)
    assert names(moon, FilterAim.GLARE) == ["Moon filter"]


def test_no_glare_where_there_is_little_light() -> None:
    """Jupiter at 747 cd/m²: 150 mm at 120x give 920 td, 400 mm at 60x over 25,000 td (pupil 6.7 mm)."""
    spring = date(2027, 2, 10)
    assert offers_on(Body.JUPITER, GREY, evening=spring, power=120).by_aim == ()
    large = offers_on(Body.JUPITER, GREY, evening=spring, scope=telescope(aperture_mm=400), power=60)
    assert names(large, FilterAim.GLARE) == ["Moon filter"]


def test_jupiter_glares_in_large_apertures_only() -> None:
    """80 mm at 19x have an exit pupil of 4.2 mm and 10,000 td, but more power is the cure there."""
    small = offers_on(
        Body.JUPITER, GREY, evening=date(2027, 2, 10), scope=telescope(aperture_mm=80), power=19
    )

    assert small.by_aim == ()


def test_why_not_is_told_in_two_sentences_however_many_there_are() -> None:
    owned = tuple(wratten(number) for number in ("21", "23A", "25", "29", "47"))
    found = offers_on(Body.MARS, *owned, evening=date(2027, 2, 19), scope=telescope(aperture_mm=80))

    said = filter_sentences(found)
    assert said[0] == "For the dark markings: No. 21."
    assert said[1] == (
        "Usually kept for a larger aperture, by a rule of thumb: "
        "No. 23A (from 100 mm) and No. 25 (from 200 mm)."
    )
    # By hand: 2058 cd/m² x 0.063 and x 0.02 take pupils of 0.70 and 1.24 mm for 50 td.
    assert said[2] == (
        "Too dark at this power: No. 29 (light enough up to about 110x) "
        "and No. 47 (light enough up to about 60x)."
    )
    assert len(said) == 5


def test_a_filter_is_offered_only_for_what_may_be_seen_without_it() -> None:
    spring, blue = date(2027, 2, 10), wratten("80A")
    good = offers_on(Body.JUPITER, blue, evening=spring)
    small = telescope(aperture_mm=60, focal_length_mm=700)
    poor = offers_on(Body.JUPITER, blue, evening=spring, scope=small, blur_arcsec=3.0)

    assert FilterAim.RED_SPOT in aims(good)
    assert FilterAim.RED_SPOT not in aims(poor)


def test_a_yellow_filter_for_smeared_colours_only_below_35_degrees() -> None:
    """From 41° N Saturn culminates on 5 December 2026 above 50°, Mercury never comes near 35° in the dark."""
    yellow = wratten("12")
    assert FilterAim.SMEARED_COLOURS not in aims(offers_on(Body.SATURN, yellow))
    low = offers_on(Body.MERCURY, yellow, evening=date(2027, 2, 3), blur_arcsec=1.45)
    assert names(low, FilterAim.SMEARED_COLOURS) == ["No. 12"]


def test_what_is_said_of_filters_on_saturn() -> None:
    owned = (Filter(name="Light blue", wratten="82A"), Filter(name="Yellow", wratten="8"), wratten("58"))
    found = offers_on(Body.SATURN, *owned, power=150)

    assert filters_heading(found) == "Filters on Saturn at 150x"
    said = filter_sentences(found)
    # By hand: 187.3 cd/m² x 0.238 x 0.785 mm² is 35 td; 50 td take a pupil of 1.195 mm, 125x.
    assert said == (
        "For the belts: Yellow, else Light blue.",
        "Too dark at this power: No. 58 (light enough up to about 120x).",
        "Expect a small gain in contrast and no new features (common practice).",
        "No filter here makes the Sun safe to look at.",
    )


def test_what_no_filter_helps_is_said_and_without_a_filter_nothing_is() -> None:
    assert filter_sentences(offers_on(Body.SATURN, GREY)) == ("None of your filters would help here.",)
    assert filter_sentences(offers_on(Body.SATURN)) == ()
