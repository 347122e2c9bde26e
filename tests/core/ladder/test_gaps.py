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
    # Nobody asks for two at once, though the owner may stack them.
    stacked = eyepieces_for_power(telescope(stack_barlows=True), [barlow(2), barlow(3)], 200)
    assert [each.barlow and each.barlow.factor for each in stacked] == [None, 2, 3]


def test_under_a_ceiling_of_fifty_there_is_no_gap_and_at_its_ends_none_is_counted_twice() -> None:
    assert widest_gap([20, 40], 50) is None
    above = widest_gap([50, 75, 150, 400], 150)
    assert above is not None
    assert (above.low_power, above.high_power, above.ratio) == (75, 150, 2)


def test_what_is_owned_already_or_narrows_another_step_improves_nothing() -> None:
    """48, 120 and 300x under 300x: from 120 to 300x is the widest, 2.5 times; 6 mm halve it to 200x."""
    owned = [eyepiece(25), eyepiece(10), eyepiece(4)]
    found = {mm: what_if(telescope(), owned, [], 300, eyepiece(mm)) for mm in (6, 10, 15)}

    assert {mm: each.improves for mm, each in found.items()} == {6: True, 10: False, 15: False}
    assert {mm: each.duplicates for mm, each in found.items()} == {6: 0, 10: 1, 15: 0}
    before = found[6].before
    assert before is not None
    assert (before.low_power, before.high_power) == (120, 300)


def test_a_power_a_sixth_from_an_owned_one_is_no_duplicate() -> None:
    """10 mm give 120x: 8.7 and 11.4 mm lie within 15 % of it, 8.6 and 11.6 do not."""
    near = [what_if(telescope(), [eyepiece(10)], [], 300, eyepiece(mm)).duplicates for mm in (8.7, 11.4)]
    far = [what_if(telescope(), [eyepiece(10)], [], 300, eyepiece(mm)).duplicates for mm in (8.6, 11.6)]

    assert (near, far) == ([1, 1], [0, 0])
