"""What is worth looking for, told as whole sentences with every figure in its place."""

import re
from datetime import UTC, datetime

import pytest
from attrs import evolve

from core.looks.expectation import Chance, Expectation, Feature, Ground
from core.looks.picture.subject import subject_at
from core.looks.worth_looking import expect
from core.sky.bodies import TARGETS, Body
from core.sky.moons import Moon, moon_events
from core.words.looking_for import expectation_text, feature_text, ground_text

# A figure that is not there leaves two spaces, or a space before what follows it.
HOLE = re.compile(r"  | [,;.:]|^[ ,;]|\{|\}|, at most [;,]|about $")

NARROW_GAP = Expectation(
    feature=Feature.RING_GAP,
    chance=Chance.POSSIBLE,
    ground=Ground.SIZE_IN_NARROW_RING,
    size_arcsec=0.7,
    detail_arcsec=0.805,
    opening_deg=8.5,
    from_power=100.0,
)


@pytest.mark.parametrize("body", TARGETS)
@pytest.mark.parametrize(
    "when", ["2009-09-04T20:00", "2017-06-15T22:00", "2025-04-15T04:00", "2026-11-24T03:00"]
)
@pytest.mark.parametrize("detail_arcsec", [None, 0.4, 3.0])
@pytest.mark.parametrize("highest_power", [None, 30.0, 300.0])
def test_no_figure_is_missing(
    body: Body, when: str, detail_arcsec: float | None, highest_power: float | None
) -> None:
    subject = subject_at(body, datetime.fromisoformat(when).replace(tzinfo=UTC))
    events = (
        moon_events(subject.disc.time, subject.disc.time.replace(hour=23)) if body is Body.JUPITER else ()
    )

    found = expect(subject, finest_detail_arcsec=detail_arcsec, highest_power=highest_power, events=events)

    for item in found:
        assert not HOLE.search(expectation_text(item)), expectation_text(item)


@pytest.mark.parametrize(
    ("item", "words"),
    [
        (
            NARROW_GAP,
            (
                "Possible: The gap in the ring. A dark line, at most 0.70″; the finest detail tonight is "
                "0.81″, but the ring is only 9° open. From about 100x."
            ),
        ),
        (
            evolve(NARROW_GAP, chance=Chance.UNLIKELY, ground=Ground.RING_TOO_NARROW, opening_deg=3.25),
            "Unlikely: The gap in the ring. The ring is only 3.3° open. From about 100x.",
        ),
        (
            evolve(NARROW_GAP, ground=Ground.TONIGHT_STOPS, highest_power=62.5),
            (
                "Possible: The gap in the ring. Usually from about 100x, and tonight stops at 63x. "
                "From about 100x."
            ),
        ),
    ],
)
def test_a_sentence_as_a_whole(item: Expectation, words: str) -> None:
    assert expectation_text(item) == words


def test_moons_beside_jupiter_are_counted() -> None:
    moons = Expectation(
        feature=Feature.BRIGHT_MOONS, chance=Chance.LIKELY, ground=Ground.BESIDE_THE_PLANET, count=4
    )

    assert ground_text(moons) == "all four stand beside it at this time"
    assert ground_text(evolve(moons, count=3)) == "3 of four stand beside it at this time"


def test_a_shadow_is_told_by_its_moon() -> None:
    shadow = Expectation(
        feature=Feature.MOON_SHADOW, chance=Chance.POSSIBLE, ground=Ground.SIZE, moon=Moon.GANYMEDE
    )

    assert feature_text(shadow) == "Ganymede's shadow on the disc"
