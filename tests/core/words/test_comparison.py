"""What two telescopes side by side come to: the sentence of each difference, and of the collimation."""

import pytest
from attrs import evolve

from core.ladder.aim import aim_overhead
from core.ladder.compare import compare
from core.ladder.differences import Difference, DifferenceKind
from core.words.comparison import collimation_text, conditions_text, difference_texts, verdict_texts
from tests.core.evenings import GOOD
from tests.core.ladder.side_by_side import comparison, ladder, lens, mirror

# 200 mm and 130 mm, each at f/5, overhead in 1.45 arcsec.
FOUND = comparison(mirror(130), mirror(200))
RULES = "Detail, ceilings and times are rules of thumb; apertures, light and fields are not."
CHECK = (
    "Check the collimation roughly by day, indoors or in shade and never towards the Sun, then by a star "
    "test at high power once it is cool."
)


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (
            DifferenceKind.CLIMBS,
            (
                "Mirror 200 may climb to about 222x (limited by aperture and air, mostly the air), Mirror "
                "130 to about 186x (limited by aperture and air, mostly the aperture)."
            ),
        ),
        (
            DifferenceKind.FINER_WHILE_STEADY,
            (
                "It depends on the air: at this height Mirror 200 shows more only while the blur overhead is "
                "under about 100″; in worse air nobody could tell the two apart."
            ),
        ),
        (
            DifferenceKind.FINER_AT_NO_HEIGHT,
            "In tonight's air Mirror 200 shows no finer detail at any height.",
        ),
        (
            DifferenceKind.FINER_AT_ANY_HEIGHT,
            "In tonight's air Mirror 200 shows finer detail at any useful height.",
        ),
        (
            DifferenceKind.FINER_FROM_HEIGHT,
            "In tonight's air Mirror 200 shows finer detail only above about 100°.",
        ),
        (DifferenceKind.LIGHT_ALIKE, "They gather about the same light."),
        (DifferenceKind.LITTLE_MORE_LIGHT, "Mirror 200 gathers a little more light."),
        # The clear areas are as 200² to 130².
        (
            DifferenceKind.MORE_LIGHT,
            "Mirror 200 gathers 2.4 times the light, so that its view is brighter.",
        ),
        (
            DifferenceKind.WIDER_PUPIL,
            (
                "Mirror 200 gathers 2.4 times the light: at 100x its exit pupil is 2.0 mm against 1.3 mm, so "
                "that its view is brighter."
            ),
        ),
        (
            DifferenceKind.WIDER_PUPIL_FEWER_FLOATERS,
            (
                "Mirror 200 gathers 2.4 times the light: at 100x its exit pupil is 2.0 mm against 1.3 mm, so "
                "that its view is brighter and shows fewer floaters."
            ),
        ),
        (
            DifferenceKind.UNOBSTRUCTED,
            (
                "Mirror 200 has nothing in the way of its light, Mirror 130 25% of its diameter: a small "
                "gain in contrast, for soft markings."
            ),
        ),
        (
            DifferenceKind.LESS_OBSTRUCTED,
            (
                "Mirror 200 has less in the way of its light, 25% of its diameter against 25%: a small gain "
                "in contrast, for soft markings."
            ),
        ),
        (
            DifferenceKind.NOTHING_UNDER_CEILING,
            "None of its eyepieces stays under the ceiling of Mirror 200.",
        ),
        (
            DifferenceKind.SHORT_OF_CEILING,
            "With its eyepieces Mirror 200 reaches only 100x of its 222x.",
        ),
        (
            DifferenceKind.WIDER_FIELD,
            "Mirror 200 shows the wider field, 1.3° against 2°: easier for finding.",
        ),
        (
            DifferenceKind.READY_SOONER,
            "Mirror 200 is usable sooner: about 25 to 55 minutes to cool against 15 to 35.",
        ),
        (
            DifferenceKind.FOLLOWS,
            "Mirror 200 follows the sky; Mirror 130 must be nudged along by hand.",
        ),
        (
            DifferenceKind.FOLLOWS_WITH_DRIFT,
            "Mirror 200 follows the sky; Mirror 130 must be nudged along by hand, every 100 s or so at 130x.",
        ),
        (
            DifferenceKind.COLLIMATION,
            "Mirror 200 needs its collimation checked; the other needs none.",
        ),
        (
            DifferenceKind.OBSTRUCTION_ASSUMED,
            "Mirror 200's secondary mirror is taken as 25% of its aperture wide (assumed).",
        ),
    ],
)
def test_each_difference_has_its_sentence(kind: DifferenceKind, words: str) -> None:
    difference = Difference(kind=kind, side=FOUND.b, other=FOUND.a, figure=100.0)
    only = evolve(FOUND, differences=(difference,))

    assert difference_texts(only) == (words,)
    # Which to take comes before it.
    assert verdict_texts(only)[1:] == (words,)
    assert verdict_texts(only)[0].startswith("Mirror 200 ")


def test_the_faster_the_mirror_the_more_exact_its_collimation_must_be() -> None:
    """As the cube of the focal ratio: 8 over 5 is 1.6, and 4.1 to the third (common practice)."""
    lens_beside = comparison(mirror(150), lens(150))

    assert collimation_text(FOUND.a.collimation) == (
        f"{CHECK} At f/5 it must be about 4.1 times as exact as at f/8."
    )
    assert collimation_text(evolve(FOUND.a.collimation, times_as_exact=None)) == CHECK
    assert collimation_text(evolve(FOUND.a.collimation, focal_ratio=None)) == CHECK
    assert collimation_text(lens_beside.b.collimation) == "No collimation needed."


def test_where_they_point_and_through_which_air_they_are_compared() -> None:
    overhead = compare(ladder(mirror(150), aim=aim_overhead()), ladder(lens(100), aim=aim_overhead()))
    low = comparison(mirror(150), lens(100), 3.0, 30)

    assert conditions_text(overhead, GOOD) == (
        f"Both straight overhead, with a blur of 1.45″ overhead (as given). {RULES}"
    )
    assert conditions_text(low, GOOD) == (
        f"Both at 30° on the evening of 5 December 2026, with a blur of 3″ overhead (as given). {RULES}"
    )
