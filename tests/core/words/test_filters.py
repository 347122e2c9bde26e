"""Filters in words: which to try for what, why not the others, and what to expect of them."""

import pytest

from core.gear.owned import Filter
from core.looks.filter_offers import FilterAim, FilterOffer, FilterOffers, FiltersFor, Offer
from core.looks.filters import FilterFacts, FilterUse
from core.sky.bodies import Body
from core.words.filters import (
    filter_choices,
    filter_facts,
    filter_sentences,
    filters_heading,
    kept_for_larger_text,
    yellow_filter_text,
)

YELLOW, BLUE, RED = (
    Filter(id=number, name=name, wratten=number)
    for number, name in (("8", "Yellow"), ("80A", "Blue"), ("25", "Red"))
)
GAIN = "Expect a small gain in contrast and no new features (common practice)."
SUN = "No filter here makes the Sun safe to look at."


def offer(
    which: Filter, offered: Offer = Offer.OFFERED, *, enough_up_to: float | None = 144.0
) -> FilterOffer:
    return FilterOffer(
        filter=which,
        offer=offered,
        light_trolands=10.0,
        smallest_aperture_mm=200.0,
        enough_up_to=enough_up_to,
    )


def told(*groups: tuple[FilterAim, tuple[FilterOffer, ...]]) -> tuple[str, ...]:
    by_aim = tuple(FiltersFor(aim=aim, offers=offers) for aim, offers in groups)
    owned = (YELLOW, BLUE)
    return filter_sentences(FilterOffers(planet=Body.MARS, power=150.0, owned=owned, by_aim=by_aim))


@pytest.mark.parametrize(
    ("aim", "words"),
    [
        (FilterAim.BELTS, "the belts"),
        (FilterAim.RED_SPOT, "the red spot"),
        (FilterAim.FESTOONS, "bluish streaks beside the belts (festoons)"),
        (FilterAim.RING, "the ring"),
        (FilterAim.DARK_MARKINGS, "the dark markings"),
        (FilterAim.POLAR_CAP, "the polar cap"),
        (FilterAim.CLOUDS, "clouds"),
        (FilterAim.DUST, "dust clouds"),
        (FilterAim.TERMINATOR, "the line of day and night"),
        (FilterAim.CONTRAST, "contrast"),
        (FilterAim.GLARE, "less glare"),
        (FilterAim.SMEARED_COLOURS, "less colour smeared by the air"),
    ],
)
def test_what_to_try_first_and_what_else(aim: FilterAim, words: str) -> None:
    assert told((aim, (offer(YELLOW),))) == (f"For {words}: Yellow.", GAIN, SUN)
    assert told((aim, (offer(YELLOW), offer(BLUE), offer(RED)))) == (
        f"For {words}: Yellow, else Blue.",
        GAIN,
        SUN,
    )


def test_why_the_others_are_not_offered_is_told_once_of_each() -> None:
    """Powers as limits of light are told in steps of ten, cut down."""
    larger, dark = offer(BLUE, Offer.USUALLY_LARGER_APERTURE), offer(RED, Offer.TOO_DARK)

    assert told((FilterAim.CLOUDS, (offer(YELLOW), larger, dark)), (FilterAim.DUST, (larger, dark))) == (
        "For clouds: Yellow.",
        "Usually kept for a larger aperture, by a rule of thumb: Blue (from 200 mm).",
        "Too dark at this power: Red (light enough up to about 140x).",
        GAIN,
        SUN,
    )
    for never in (None, 9.0):
        dark = offer(RED, Offer.TOO_DARK, enough_up_to=never)
        # Where nothing is offered no gain is promised.
        assert told((FilterAim.DUST, (dark,))) == ("Too dark at this power: Red (at any power).", SUN)


def test_filters_that_help_with_nothing_and_none_at_all() -> None:
    assert told() == ("None of your filters would help here.",)
    nothing = FilterOffers(planet=Body.MARS, power=150.0, owned=(), by_aim=())
    assert filter_sentences(nothing) == ()
    assert filters_heading(nothing) == "Filters on Mars at 150x"
    assert filter_choices((YELLOW,)) == (("", "none"), ("8", "Yellow"))


def test_what_is_known_of_a_filter() -> None:
    facts = FilterFacts(
        wratten="8",
        colour="light yellow",
        transmittance=0.83,
        daylight=False,
        smallest_aperture_mm=0.0,
        uses=(FilterUse(body=Body.MARS, what="dust and dark markings"),),
    )

    assert filter_facts(facts) == (
        "Light yellow, passes 83% of the light.",
        "Mars: dust and dark markings.",
    )
    assert yellow_filter_text(0.28) == "A yellow filter (8, 12 or 15) cuts that by about 28%."


def test_one_that_is_kept_for_larger_apertures_says_from_which() -> None:
    """A deep red (29) is kept for 200 mm and more (common practice)."""
    deep = Filter(name="Deep red", wratten="29")
    kept = kept_for_larger_text(deep, 150.0)

    assert kept is not None
    assert kept.startswith("Deep red passes ")
    assert kept.endswith("% of the light and is usually kept for apertures from 200 mm up, a rule of thumb.")
    assert kept_for_larger_text(deep, 200.0) is None
    assert kept_for_larger_text(Filter(name="Odd", transmittance=0.5), 60.0) is None
