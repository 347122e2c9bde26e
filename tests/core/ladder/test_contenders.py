"""Which two telescopes stand side by side."""

from attrs import evolve

from core.gear.owned import TelescopeKind
from core.gear.starter import starter_kits
from core.ladder.contenders import (
    Contender,
    Pick,
    contender_of,
    offered_picks,
    scope_of,
    second_pick,
    told_apart,
)
from core.record.observer import Profile
from tests.core.gear.examples import barlow, eyepiece, telescope

ONE, TWO, THREE = (evolve(telescope(name, 150, 1200), id=name) for name in ("one", "two", "three"))
OWNED = Profile(telescopes=(ONE, TWO, THREE))
FIRST, SECOND, THIRD = Pick("one"), Pick("two"), Pick("three")


def test_the_second_is_the_one_wanted_unless_it_is_the_first_or_gone() -> None:
    assert second_pick(THIRD, FIRST, OWNED, in_hand=None) == THIRD
    assert second_pick(FIRST, FIRST, OWNED, in_hand=None) == SECOND
    assert second_pick(Pick("sold"), FIRST, OWNED, in_hand=None) == SECOND
    usual = Pick(kit=starter_kits()[0])
    assert second_pick(usual, FIRST, OWNED, in_hand=None) == usual
    assert scope_of(usual, OWNED) is starter_kits()[0].telescope
    assert scope_of(Pick("sold"), OWNED) is None


def test_else_it_is_another_of_the_owner_s_beside_the_one_in_hand_where_there_is_one() -> None:
    assert second_pick(None, FIRST, OWNED, in_hand=SECOND) == THIRD
    two = Profile(telescopes=(ONE, TWO))
    assert second_pick(None, FIRST, two, in_hand=SECOND) == SECOND
    assert second_pick(None, FIRST, Profile(telescopes=(ONE,)), in_hand=FIRST) is None


def test_what_is_offered_are_the_owner_s_first_and_never_the_one_beside() -> None:
    offered = offered_picks(OWNED, beside=SECOND)

    assert offered[:2] == (FIRST, THIRD)
    assert len(offered) == 2 + len(starter_kits())


def test_a_usual_telescope_has_its_usual_eyepieces_or_the_owner_s() -> None:
    box, lens = (eyepiece(25), eyepiece(10)), (barlow(2),)
    owner = evolve(OWNED, eyepieces=box, barlows=lens)
    kit = next(kit for kit in starter_kits() if kit.telescope.kind is not TelescopeKind.FIXED)
    usual = Pick(kit=kit)

    own = contender_of(FIRST, owner, with_usual_eyepieces=True)
    assert own == Contender(scope=ONE, eyepieces=box, barlows=lens)
    as_sold = contender_of(usual, owner, with_usual_eyepieces=True)
    assert as_sold is not None
    assert as_sold.scope == kit.telescope
    assert [each.focal_length_mm for each in as_sold.eyepieces] == list(kit.eyepieces_mm)
    assert as_sold.barlows == ()
    narrow = evolve(kit, telescope=evolve(kit.telescope, barrel_mm=24.5))
    in_narrow = contender_of(Pick(kit=narrow), owner, with_usual_eyepieces=True)
    assert in_narrow is not None
    assert {each.barrel_mm for each in in_narrow.eyepieces} == {24.5}
    with_own = contender_of(usual, owner, with_usual_eyepieces=False)
    assert with_own == Contender(scope=kit.telescope, eyepieces=box, barlows=lens)
    assert contender_of(Pick("sold"), owner, with_usual_eyepieces=True) is None


def test_two_of_one_name_are_told_apart() -> None:
    one, same = (
        Contender(scope=evolve(ONE, name="Spotter", id=name), eyepieces=(), barlows=()) for name in "ab"
    )
    other = evolve(same, scope=evolve(same.scope, name="Binocular"))

    assert told_apart(one, other) == (one, other)
    first, second = told_apart(one, same)
    assert (first.scope.name, second.scope.name) == ("Spotter", "Spotter (the other)")
    assert second.scope.id == "b"
