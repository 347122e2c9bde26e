"""What one more thing would give, and which eyepiece gives a wanted power."""

from core.ladder.gaps import eyepieces_for_power, what_if, widest_gap
from tests.core.gear.examples import barlow, eyepiece, fixed, telescope


def test_equal_steps_are_told_at_the_lowest() -> None:
    gap = widest_gap([100, 200], 400)

    assert gap is not None
    assert (gap.low_power, gap.high_power) == (50, 100)


def test_what_if_tells_powers_and_duplicates() -> None:
    """A 12 mm behind 1200 mm with a 2x: 100x, within 15 % of the owned 96x, and 200x, not so near 240x."""
    found = what_if(telescope(), [eyepiece(25), eyepiece(10)], [barlow(2)], 300, eyepiece(12))

    assert list(found.powers) == [100, 200]
    assert found.duplicates == 1


def test_what_if_of_a_barlow_counts_every_eyepiece() -> None:
    found = what_if(telescope(), [eyepiece(25), eyepiece(10)], [barlow(2)], 300, barlow(3))

    assert list(found.powers) == [144, 360]


def test_the_eyepiece_for_a_wanted_power_with_and_without_each_barlow() -> None:
    reducer = barlow(0.5)

    found = eyepieces_for_power(telescope(), [barlow(2), reducer], 200)

    assert [(each.barlow and each.barlow.factor, each.focal_length_mm) for each in found] == [
        (None, 6),
        (2, 12),
        (0.5, 3),
    ]
    assert eyepieces_for_power(fixed(power=20), [], 30) == ()
