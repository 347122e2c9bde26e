"""What to buy in a sentence that tells what it is for."""

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.aim import aim_altitude, aim_overhead
from core.ladder.buying import BuyKind, Candidate, Purchase, what_to_buy
from core.ladder.gaps import WhatIf, what_if
from core.ladder.ladder import build_ladder
from core.words.buying import buying_sentence, buying_words, purpose_text, wanted_sentence, what_if_sentence
from tests.core.gear.examples import barlow, eyepiece, fixed, telescope


def said(scope: Telescope, eyepieces: list[Eyepiece], barlows: list[Barlow]) -> str:
    return buying_sentence(scope, what_to_buy(scope, eyepieces, barlows))


def test_what_to_buy_and_what_for() -> None:
    # 1200 / 6 is 200x; what is owned gives 150x and 240x.
    assert said(telescope(), [eyepiece(25), eyepiece(10), eyepiece(8)], [barlow(2)]) == (
        "A 6 mm eyepiece (200x) would help most, for nights that bear 150x to 240x: you have nothing between."
    )


def test_nothing_is_bought_for_powers_that_no_usual_night_bears() -> None:
    """A kit up to 369x: on most nights the air bears no more than 300x (common practice)."""
    kit = [eyepiece(30), eyepiece(18), eyepiece(12), eyepiece(7)]
    scope = telescope(aperture_mm=254, focal_length_mm=1200)

    told = said(scope, kit, [Barlow(name="2x", factor=2.0, measured_factor=2.15)])

    assert "215x to 300x" in told
    assert not any(power in told for power in ("369x", "514x"))


def test_nothing_to_buy() -> None:
    owned = [eyepiece(length_mm) for length_mm in (32, 25, 12, 8, 6)]

    assert said(telescope(), owned, [barlow(2)]) == (
        "Nothing to buy: on most nights you have a power near the best one."
    )
    assert said(fixed(power=20.0), [], []) == ""


PURCHASE = Purchase(
    thing=Candidate(kind=BuyKind.BARLOW, factor=2.0),
    powers=(120.0,),
    from_power=90.0,
    to_power=240.0,
    for_finding=False,
    finds_too=False,
    loss_before=0.1,
    loss_after=0.01,
)
AND_FINDING = "and for finding a planet with"


@pytest.mark.parametrize(
    ("low", "high", "words", "finds_too"),
    [
        (
            90.0,
            240.0,
            "for nights that bear 90x to 240x: you have nothing between",
            f"for nights that bear 90x to 240x, where you have nothing between, {AND_FINDING}",
        ),
        (
            90.0,
            None,
            "for nights that bear more than 90x: you have nothing above",
            f"for nights that bear more than 90x, where you have nothing above, {AND_FINDING}",
        ),
        (
            None,
            240.0,
            "for nights that bear less than 240x: you have nothing below",
            f"for nights that bear less than 240x, where you have nothing below, {AND_FINDING}",
        ),
        # On most nights the air bears no more than 300x (common practice).
        (
            None,
            400.0,
            "for nights that bear less than 300x: you have nothing below",
            f"for nights that bear less than 300x, where you have nothing below, {AND_FINDING}",
        ),
        (
            200.0,
            400.0,
            "for nights that bear 200x to 300x: you have nothing between",
            f"for nights that bear 200x to 300x, where you have nothing between, {AND_FINDING}",
        ),
        (
            300.0,
            400.0,
            "for nights that bear 300x to 400x: you have nothing between",
            f"for nights that bear 300x to 400x, where you have nothing between, {AND_FINDING}",
        ),
        (
            None,
            None,
            "for finding a planet with and for the first look at it: you have no power yet",
            "for finding a planet with and for the first look at it: you have no power yet",
        ),
    ],
)
def test_what_a_purchase_is_for(low: float | None, high: float | None, words: str, finds_too: str) -> None:
    purchase = evolve(PURCHASE, from_power=low, to_power=high)

    assert purpose_text(purchase) == words
    assert purpose_text(evolve(purchase, finds_too=True)) == finds_too
    assert purpose_text(evolve(purchase, for_finding=True)) == (
        "for finding a planet with: you have no power with an exit pupil of 2 to 6 mm"
    )


def test_for_a_table_a_purchase_is_told_in_few_words() -> None:
    told = [
        buying_words(telescope(), PURCHASE),
        buying_words(telescope(), None),
        buying_words(fixed(power=20.0), PURCHASE),
    ]

    assert told == [
        "A 2x Barlow, for nights that bear 90x to 240x: you have nothing between",
        "Nothing",
        "Nothing; its power is built in",
    ]
    assert buying_sentence(telescope(), PURCHASE) == (
        "A 2x Barlow (120x) would help most, for nights that bear 90x to 240x: you have nothing between."
    )


def test_a_zoom_is_named_by_both_ends() -> None:
    scope = telescope(aperture_mm=200, focal_length_mm=2000)

    words = said(scope, [eyepiece(25), eyepiece(10)], [])

    # 2000 / 21 and 2000 / 7, or 2000 / 24 and 2000 / 8.
    assert words.startswith(
        ("A 7-21 mm zoom eyepiece (95x to 286x) would", "An 8-24 mm zoom eyepiece (83x to 250x) would")
    )


def test_a_zoom_s_reach_counts_the_barlow_that_is_owned() -> None:
    """A zoom counts as seven settings; with more powers than that some of them need what is owned."""
    zoom = Candidate(kind=BuyKind.ZOOM, focal_length_mm=8.0, to_focal_length_mm=24.0)
    seven = tuple(map(float, (50, 60, 72, 87, 104, 125, 150)))
    alone, with_barlow = (
        buying_sentence(telescope(), evolve(PURCHASE, thing=zoom, powers=powers))
        for powers in (seven, (*seven, 300.0))
    )

    assert alone.startswith("An 8-24 mm zoom eyepiece (50x to 150x) would help most, ")
    assert with_barlow.startswith(
        "An 8-24 mm zoom eyepiece (50x to 300x, counting your Barlow) would help most, "
    )


def shown(barlows: list[Barlow], thing: Eyepiece | Barlow, *, ceiling: float = 300.0) -> str:
    scope, owned = telescope(), [eyepiece(25), eyepiece(10)]
    kit = build_ladder(scope=scope, eyepieces=owned, barlows=barlows, aim=aim_overhead(), blur=Blur.assumed())
    return what_if_sentence(kit, what_if(scope, owned, barlows, ceiling, thing))


def test_what_a_thing_that_is_not_owned_would_give() -> None:
    """1200 mm over each focal length; 50x and the ceiling count as ends of the gaps."""
    assert shown([], eyepiece(6)) == (
        "A 6 mm eyepiece would give 200x. The widest gap would shrink from 120x to 300x to 50x to 120x."
    )
    assert shown([], eyepiece(11)).endswith("It is within 15 % of a power you have.")
    assert shown([barlow(2)], eyepiece(11)).endswith("All of these are within 15 % of a power you have.")
    assert shown([barlow(2)], eyepiece(12)).endswith("One of these is within 15 % of a power you have.")
    # Six settings, steps of at most 1.25x, each with and without the 2x; 48, 96, 120 and 240x are owned.
    told = shown([barlow(2)], Eyepiece(name="zoom", focal_length_min_mm=8, focal_length_max_mm=24))
    assert told.startswith("A zoom eyepiece would give 12 powers from 50x to 300x.")
    assert told.endswith("6 of these are within 15 % of a power you have.")
    # Under a ceiling of 50x there is no gap to tell of.
    assert shown([], eyepiece(6), ceiling=50.0) == "A 6 mm eyepiece would give 200x."


def test_nothing_can_be_weighed_for_binoculars_or_without_a_ceiling() -> None:
    binoculars = build_ladder(
        scope=fixed("Binoculars", power=20), eyepieces=[], barlows=[], aim=aim_overhead(), blur=Blur.assumed()
    )
    told = "Binoculars has powers of its own; nothing can be put into it."

    assert what_if_sentence(binoculars, None) == wanted_sentence(binoculars, [], 60.0) == told
    low = build_ladder(
        scope=telescope(), eyepieces=[eyepiece(25)], barlows=[], aim=aim_altitude(2.0), blur=Blur.assumed()
    )
    assert what_if_sentence(low, None) == "Without a ceiling there is nothing to weigh it by."


def test_what_gives_nothing_or_shrinks_no_gap_is_told_as_that() -> None:
    """A reducer of 0.5x makes 24x of 48x and 60x of 120x, both lower than what the gaps count from."""
    assert shown([], barlow(0.5)) == (
        "A 0.5x reducer would give 24x and 60x. The widest gap would stay 120x to 300x."
    )
    nothing = WhatIf(thing=eyepiece(18), powers=(), duplicates=0, before=None, after=None)
    assert what_if_sentence(KIT, nothing) == "An 18 mm eyepiece would give no power with what you own."


@pytest.mark.parametrize(
    ("length_mm", "begins"),
    [
        (8, "An 8 mm"),
        (8.5, "An 8.5 mm"),
        (11, "An 11 mm"),
        (18, "An 18 mm"),
        (28, "A 28 mm"),
        (10, "A 10 mm"),
    ],
)
def test_a_length_has_the_article_that_is_said_before_it(length_mm: float, begins: str) -> None:
    assert shown([], eyepiece(length_mm)).startswith(f"{begins} eyepiece would give ")


KIT = build_ladder(
    scope=telescope(),
    eyepieces=[eyepiece(25), eyepiece(10)],
    barlows=[barlow(2)],
    aim=aim_overhead(),
    blur=Blur.assumed(),
)


@pytest.mark.parametrize(
    ("power", "words"),
    [
        (100.0, "100x takes 12 mm or 24 mm with 2x. The nearest you have is 96x, 25 mm + 2x."),
        # As ratios 120x is nearer to 169x than 240x is, and farther from 170x.
        (169.0, "169x takes 7.1 mm or 14 mm with 2x. The nearest you have is 120x, 10 mm."),
        (170.0, "170x takes 7.1 mm or 14 mm with 2x. The nearest you have is 240x, 10 mm + 2x."),
        (
            240.0,
            (
                "240x takes 5 mm or 10 mm with 2x. The nearest you have is 240x, 10 mm + 2x. 240x is over "
                "the 199x that aperture and air can bear."
            ),
        ),
        (2.0, "No eyepiece made gives 2x here. The nearest you have is 48x, 25 mm."),
    ],
)
def test_which_eyepieces_give_a_wanted_power(power: float, words: str) -> None:
    """1200 mm over the power; twice that with a 2x."""
    assert wanted_sentence(KIT, [barlow(2)], power) == words


def test_without_any_eyepiece_there_is_no_nearest() -> None:
    empty = build_ladder(scope=telescope(), eyepieces=[], barlows=[], aim=aim_overhead(), blur=Blur.assumed())

    assert wanted_sentence(empty, [], 100.0) == "100x takes 12 mm."


@pytest.mark.parametrize(
    ("lengths_mm", "told"),
    [
        ((25, 20, 15, 12), "48x, 60x, 80x and 100x"),
        ((25, 20, 15, 12, 10), "5 powers from 48x to 120x"),
    ],
)
def test_more_than_four_powers_are_told_by_their_ends(lengths_mm: tuple[float, ...], told: str) -> None:
    powers = tuple(1200 / length for length in lengths_mm)
    trial = WhatIf(thing=eyepiece(25), powers=powers, duplicates=0, before=None, after=None)

    assert what_if_sentence(KIT, trial) == f"A 25 mm eyepiece would give {told}."
