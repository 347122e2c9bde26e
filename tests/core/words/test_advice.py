"""Which of two telescopes to take: a paragraph for each kind of advice, and for what stands outside."""

import pytest
from attrs import evolve

from core.ladder.advice import AdviceKind, Outside, OutsideKind, find_advice
from core.ladder.aim import aim_altitude
from core.ladder.compare import compare
from core.words.advice import advice_text
from tests.core.ladder.side_by_side import comparison, ladder, lens, mirror

# A larger one that shows 1.0 arcsec tonight and 0.7 on a steady night, and a smaller with 1.4 and 0.9.
_FOUND = comparison(mirror(130), mirror(200))
LARGE = evolve(_FOUND.b, finest_detail_arcsec=1.0, steady_detail_arcsec=0.7)
SMALL = evolve(_FOUND.a, finest_detail_arcsec=1.4, steady_detail_arcsec=0.9)
ADVICE = evolve(find_advice(LARGE, SMALL), steady=(0.7, 0.9), outside=None)
ALIKE = (
    "Mirror 200 or Mirror 130, for tonight and for steady nights alike: they show the same detail, about "
    "1.4″, and the rest decides."
)


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (
            AdviceKind.CLEARLY_FINER,
            (
                "Mirror 200 for tonight and for steady nights: it shows clearly finer detail, about 1″ "
                "against 1.4″ in this air and 0.7″ against 0.9″ on a steady night."
            ),
        ),
        (
            AdviceKind.CLEARLY_FINER_IN_STEADY_AIR,
            (
                "Mirror 200 for tonight, which is a steady night: it shows clearly finer detail, about 1″ "
                "against 1.4″."
            ),
        ),
        (
            AdviceKind.LITTLE_FINER,
            (
                "Mirror 200 for tonight by a little, and for steady nights: it shows about 1″ against 1.4″ "
                "in this air and 0.7″ against 0.9″ on a steady night."
            ),
        ),
        (
            AdviceKind.LITTLE_FINER_IN_STEADY_AIR,
            "Mirror 200 by a little for tonight, which is a steady night: it shows about 1″ against 1.4″.",
        ),
        (
            AdviceKind.LITTLE_FINER_BUT_SLOW,
            (
                "Mirror 200 for a long evening and for steady nights, Mirror 130 for a short look tonight, "
                "since it is usable sooner: in this air they show about 1″ against 1.4″, on a steady night "
                "0.7″ against 0.9″."
            ),
        ),
        (
            AdviceKind.ONLY_ON_STEADY_NIGHTS,
            (
                "Mirror 200 for steady nights; for tonight either will do, since through this air both show "
                "about 1.4″. On a steady night they show 0.7″ against 0.9″."
            ),
        ),
        (
            AdviceKind.FINER_ONLY_NOW,
            (
                "Mirror 200 for tonight: it shows about 1″ against 1.4″ as things stand; on a steady night, "
                "when both are cool, they show about the same, 0.9″."
            ),
        ),
        (
            AdviceKind.EACH_HAS_ITS_NIGHTS,
            (
                "Mirror 200 for tonight, Mirror 130 for steady nights: as things stand they show about 1″ "
                "against 1.4″, on a steady night, when both are cool, 0.7″ against 0.9″."
            ),
        ),
        (AdviceKind.ALIKE, ALIKE),
    ],
)
def test_which_to_take(kind: AdviceKind, words: str) -> None:
    assert advice_text(evolve(ADVICE, kind=kind)) == words


def test_of_two_alike_the_clearer_is_told_with_what_is_in_the_way() -> None:
    found = comparison(mirror(150), lens(150), 1.2)
    clearer = find_advice(found.a, found.b)

    assert clearer.kind is AdviceKind.ALIKE_BUT_CLEARER
    assert advice_text(clearer) == (
        "Lens 150 by a little, for tonight and for steady nights: it shows the same detail as Mirror 150, "
        "about 1.1″, with a little more contrast, since nothing of its diameter is in the way of its light, "
        "against 25%."
    )


def test_where_neither_shows_detail_the_reason_is_told() -> None:
    low = aim_altitude(2)

    assert advice_text(compare(ladder(lens(100), aim=low), ladder(mirror(254), aim=low)).advice) == (
        "A body at this height is seen 2.3° high: no air path is given below 5°. Neither telescope shows "
        "fine detail there."
    )


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (
            OutsideKind.READY,
            (
                "Mirror 200 already stands outside and should be usable; Mirror 130 still wants about 40 "
                "minutes (an estimate)."
            ),
        ),
        (
            OutsideKind.READY_SOON,
            (
                "Mirror 200 already stands outside and wants about 10 more minutes; Mirror 130, carried out "
                "now, would want about 40 (an estimate)."
            ),
        ),
        (
            OutsideKind.BOTH_WAIT,
            "Both stand outside: Mirror 200 wants about 10 more minutes, Mirror 130 about 40 (an estimate).",
        ),
    ],
)
def test_what_standing_outside_already_changes(kind: OutsideKind, words: str) -> None:
    outside = Outside(kind=kind, side=LARGE, other=SMALL, minutes=12.0, other_minutes=38.0)

    assert advice_text(evolve(ADVICE, kind=AdviceKind.ALIKE, outside=outside)) == f"{ALIKE} {words}"
