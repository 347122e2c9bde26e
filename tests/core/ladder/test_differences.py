"""What tells two telescopes apart, as facts: which kinds there are of it, of whom, and with which figure."""

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.gear.owned import Eyepiece, Telescope
from core.ladder.aim import aim_altitude, aim_overhead
from core.ladder.compare import Comparison, compare
from core.ladder.differences import Difference, DifferenceKind
from core.ladder.ladder import Ladder, build_ladder
from tests.core.gear.examples import eyepiece, fixed, refractor, telescope
from tests.core.ladder.side_by_side import BINOCULARS, closed, comparison, ladder, lens, mirror

Kind = DifferenceKind


def only(found: Comparison, *kinds: Kind) -> Difference | None:
    """Return the one difference of these kinds, None where there is none."""
    told = [each for each in found.differences if each.kind in kinds]
    assert len(told) <= 1
    return told[0] if told else None


def kit_of(scope: Telescope, *eyepieces: Eyepiece, blur_arcsec: float = 1.45) -> Ladder:
    return build_ladder(
        scope=scope,
        eyepieces=eyepieces,
        barlows=[],
        aim=aim_overhead(),
        blur=Blur(overhead_arcsec=blur_arcsec),
    )


# Two apertures, and the blur overhead up to which the larger shows 5 % finer detail, worked by hand:
# 0.6 b = sqrt(((116/a)² - 1.1025 (116/A)²) / 0.1025). Past 3 arcsec, air that boils, nobody compares.
WORST = [
    (127, 150, 2.18),
    (100, 120, 2.92),
    (100, 122, None),  # 3.08
    (100, 130, None),  # 3.56
    (80, 254, None),
    (150, 154, None),  # 2.7 % apart, which nobody can tell
]


@pytest.mark.parametrize(("one_mm", "other_mm", "blur_arcsec"), WORST)
def test_the_blur_up_to_which_the_larger_shows_more(
    one_mm: float, other_mm: float, blur_arcsec: float | None
) -> None:
    found = only(comparison(mirror(one_mm), mirror(other_mm), 1.0), Kind.FINER_WHILE_STEADY)

    if blur_arcsec is None:
        assert found is None
    else:
        assert found is not None
        assert found.side.scope.aperture_mm == other_mm
        assert found.figure == pytest.approx(blur_arcsec, abs=0.01)


# The blur overhead, and from which altitude 150 mm show more than 127: where the path, as air lengthens it by
# its power of 0.6, makes 2.18 arcsec of it. 1.0: 3.66 times, about 16 degrees; 1.8: 1.38 times, about 46.
HEIGHTS = [
    (0.3, Kind.FINER_AT_ANY_HEIGHT, None),
    (1.0, Kind.FINER_FROM_HEIGHT, 15.7),
    (1.8, Kind.FINER_FROM_HEIGHT, 46.5),
    (2.3, Kind.FINER_AT_NO_HEIGHT, None),
]


@pytest.mark.parametrize(("blur_arcsec", "kind", "altitude_deg"), HEIGHTS)
def test_the_height_from_which_the_larger_shows_more(
    blur_arcsec: float, kind: Kind, altitude_deg: float | None
) -> None:
    found = only(
        comparison(mirror(127), mirror(150), blur_arcsec, 60),
        Kind.FINER_AT_ANY_HEIGHT,
        Kind.FINER_AT_NO_HEIGHT,
        Kind.FINER_FROM_HEIGHT,
    )

    assert found is not None
    assert (found.kind, found.side.scope.aperture_mm) == (kind, 150)
    assert found.figure == (None if altitude_deg is None else pytest.approx(altitude_deg, abs=0.7))


def test_of_binoculars_and_below_five_degrees_nothing_depends_on_the_air() -> None:
    for found in (comparison(BINOCULARS, mirror(127)), comparison(mirror(127), mirror(150), altitude_deg=2)):
        assert only(found, Kind.FINER_WHILE_STEADY) is None


def clear(aperture_mm: float) -> Telescope:
    return refractor(f"Lens {aperture_mm:g}", aperture_mm, 1000)


# Two clear apertures: the ratio of their areas is that of light.
LIGHT = [
    (100, 102, Kind.LIGHT_ALIKE),  # 1.04; under 5 % nobody can tell
    (100, 103, Kind.LITTLE_MORE_LIGHT),  # 1.06
    (100, 111, Kind.LITTLE_MORE_LIGHT),  # 1.23
    (100, 113, Kind.WIDER_PUPIL_FEWER_FLOATERS),  # 1.28; 173x leave 0.6 mm of exit pupil
    (200, 300, Kind.WIDER_PUPIL_FEWER_FLOATERS),
]


@pytest.mark.parametrize(("one_mm", "other_mm", "kind"), LIGHT)
def test_which_gathers_more_light(one_mm: float, other_mm: float, kind: Kind) -> None:
    found = only(
        comparison(clear(one_mm), clear(other_mm)),
        Kind.LIGHT_ALIKE,
        Kind.LITTLE_MORE_LIGHT,
        Kind.MORE_LIGHT,
        Kind.WIDER_PUPIL,
        Kind.WIDER_PUPIL_FEWER_FLOATERS,
    )

    assert found is not None
    assert found.kind is kind
    assert found.side.scope.aperture_mm == (one_mm if kind is Kind.LIGHT_ALIKE else other_mm)


def test_a_wider_pupil_spares_floaters_only_where_the_other_is_under_a_millimetre() -> None:
    """In air of 3 arcsec 150 mm bear some 118x (the plan's check value): 1.27 mm."""
    boiling = only(comparison(clear(150), clear(250), 3.0), Kind.WIDER_PUPIL, Kind.WIDER_PUPIL_FEWER_FLOATERS)

    assert boiling is not None
    assert boiling.kind is Kind.WIDER_PUPIL
    assert boiling.figure == pytest.approx(118, abs=1)


def test_where_no_power_is_common_to_both_only_light_is_told() -> None:
    """A built-in power on either side, and no air path two degrees up."""
    for found in (
        comparison(BINOCULARS, mirror(254)),
        comparison(mirror(100), fixed("Large binoculars", 150, power=25)),
        comparison(clear(100), clear(200), altitude_deg=2),
    ):
        assert only(found, Kind.WIDER_PUPIL, Kind.WIDER_PUPIL_FEWER_FLOATERS) is None
        assert only(found, Kind.MORE_LIGHT) is not None


# The shortest eyepiece behind 1200 mm, under the 199x of fair air on 150 mm, and what is told of the kit.
REACH = [
    (6.1, None),  # 197x
    (7.4, None),  # 162x, over eight tenths
    (7.7, Kind.SHORT_OF_CEILING),  # 156x
    (25, Kind.SHORT_OF_CEILING),
    (5, Kind.NOTHING_UNDER_CEILING),  # 240x, alone
]


@pytest.mark.parametrize(("shortest_mm", "kind"), REACH)
def test_what_a_kit_reaches_of_its_ceiling(shortest_mm: float, kind: Kind | None) -> None:
    full = kit_of(mirror(254), eyepiece(25), eyepiece(5.4))  # 235x of 236x
    found = only(
        compare(kit_of(telescope(), eyepiece(shortest_mm)), full),
        Kind.SHORT_OF_CEILING,
        Kind.NOTHING_UNDER_CEILING,
    )

    assert (found and found.kind) == kind
    if found is not None:
        assert found.side.scope == telescope()
        assert found.figure == (1200 / shortest_mm if kind is Kind.SHORT_OF_CEILING else None)


def test_of_a_kit_without_eyepieces_and_of_a_built_in_power_no_reach_is_told() -> None:
    told = compare(kit_of(telescope()), kit_of(BINOCULARS))

    assert only(told, Kind.SHORT_OF_CEILING, Kind.NOTHING_UNDER_CEILING) is None


@pytest.mark.parametrize(
    ("one_deg", "other_deg", "wider"), [(52, 56, None), (52, 58, "Other"), (58, 52, "One"), (None, 52, None)]
)
def test_a_field_a_tenth_wider_is_worth_a_word(
    one_deg: float | None, other_deg: float, wider: str | None
) -> None:
    one = kit_of(telescope("One"), eyepiece(25, one_deg))
    other = kit_of(telescope("Other", 151), eyepiece(25, other_deg))

    found = only(compare(one, other), Kind.WIDER_FIELD)

    assert (found and found.side.scope.name) == wider


def test_who_follows_the_sky_and_how_soon_the_other_has_lost_it() -> None:
    """15 mm of 50 degrees behind 1200 mm: 0.625 degrees, which drift by in 149.6 s at 15.041 arcsec/s."""
    motor = kit_of(telescope("Driven", driven=True), eyepiece(25))

    with_field = compare(kit_of(lens(100), eyepiece(12.5, 50)), motor)
    unknown = compare(kit_of(lens(100), eyepiece(12.5)), motor)
    too_much = compare(kit_of(lens(100), eyepiece(4, 50)), motor)
    both = compare(kit_of(telescope("Other", driven=True), eyepiece(25)), motor)

    found = only(with_field, Kind.FOLLOWS_WITH_DRIFT)
    assert found is not None
    assert found.side.scope.name == "Driven"
    assert found.figure == pytest.approx(149.6, abs=0.1)
    for told in (unknown, too_much):
        plain = only(told, Kind.FOLLOWS, Kind.FOLLOWS_WITH_DRIFT)
        assert plain is not None
        assert (plain.kind, plain.side.scope.name) == (Kind.FOLLOWS, "Driven")
    assert only(both, Kind.FOLLOWS, Kind.FOLLOWS_WITH_DRIFT) is None


# Minutes from being carried out until each is ready, and which of the two is told to be so sooner.
READY = [
    ((30, 60), "Mirror 150"),
    ((60, 30), "Mirror 254"),
    ((30, 34), "Mirror 150"),
    ((30, 32), None),
    ((None, 30), None),
]


@pytest.mark.parametrize(("minutes", "sooner"), READY)
def test_a_tenth_of_the_wait_is_worth_a_word(minutes: tuple[float | None, float], sooner: str | None) -> None:
    one, other = ladder(mirror(150)), ladder(mirror(254))
    plain = compare(one, other)
    ready = [
        evolve(side.readiness, never=True)
        if wait is None
        else evolve(side.readiness, usable=evolve(side.readiness.usable, likely_minutes=wait))
        for side, wait in zip((plain.a, plain.b), minutes, strict=True)
    ]

    found = only(compare(one, other, readiness=(ready[0], ready[1])), Kind.READY_SOONER)

    assert (found and found.side.scope.name) == sooner


def test_whose_collimation_and_whose_obstruction_is_told() -> None:
    """Lenses keep their collimation; a secondary mirror that the owner has not measured is assumed."""
    measured = telescope("Measured", 203, 1200, obstruction_mm=50)

    found = comparison(lens(102), closed(203))
    care, assumed = only(found, Kind.COLLIMATION), only(found, Kind.OBSTRUCTION_ASSUMED)
    assert care is not None
    assert assumed is not None
    assert (care.side.scope, assumed.side.scope) == (closed(203), closed(203))
    assert only(comparison(measured, closed(203)), Kind.COLLIMATION) is None
    assert only(comparison(measured, lens(102)), Kind.OBSTRUCTION_ASSUMED) is None
    masked = telescope("Masked", 254, 1200, mask_mm=80)
    assert only(comparison(masked, lens(102)), Kind.OBSTRUCTION_ASSUMED) is None
    # Of the same telescope twice it is told once.
    assert only(comparison(mirror(150), mirror(150)), Kind.OBSTRUCTION_ASSUMED) is not None


def test_only_where_both_have_a_ceiling_it_is_told_how_far_they_climb() -> None:
    high, low = (comparison(lens(80), mirror(254), altitude_deg=height) for height in (60, 2))

    climbs = only(high, Kind.CLIMBS)
    assert climbs is not None
    assert climbs.side.scope == mirror(254)
    assert only(low, Kind.CLIMBS) is None
    assert high.a.ladder.aim == aim_altitude(60)
