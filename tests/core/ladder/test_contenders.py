"""Which two telescopes stand side by side."""

from attrs import evolve

from core.gear.starter import starter_kits
from core.ladder.contenders import Pick, offered_picks, scope_of, second_pick
from core.record.observer import Profile
from tests.core.gear.examples import telescope

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
