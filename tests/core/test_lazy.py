"""Values that follow from others are worked out once, and again only when what they rest on is another."""

import pytest

from core.lazy import Following, given, lazy


class Box(Following):
    """A box of given sides whose worth follows from its base and its height."""

    def __init__(self, sides: tuple[int, int, int], before: "Box | None" = None) -> None:
        super().__init__(before)
        self._set("sides", sides)
        self._set("worked_out", [])

    sides: tuple[int, int, int]
    worked_out: list[str]

    @given
    def width(self) -> int:
        return self.sides[0]

    @given
    def depth(self) -> int:
        return self.sides[1]

    @given
    def height(self) -> int:
        return self.sides[2]

    @lazy
    def base(self) -> int:
        self.worked_out.append("base")
        return self.width * self.depth

    @lazy
    def label(self) -> str:
        self.worked_out.append("label")
        return f"base {self.base}"

    @lazy
    def worth(self) -> tuple[str, int]:
        self.worked_out.append("worth")
        # The height counts only on a base.
        return self.label, self.height if self.base else 0


def test_a_value_is_worked_out_when_asked_for_and_once() -> None:
    box = Box((2, 3, 4))
    assert box.worked_out == []
    assert box.worth == ("base 6", 4)
    assert box.worth is box.worth
    assert box.worked_out == ["worth", "label", "base"]


def test_a_successor_works_out_only_what_rests_on_the_change() -> None:
    first = Box((2, 3, 4))
    assert first.worth == ("base 6", 4)
    second = Box((2, 3, 5), first)
    assert second.worth == ("base 6", 5)
    assert second.worked_out == ["worth"]


def test_a_change_that_comes_to_the_same_ends_there() -> None:
    first = Box((2, 3, 4))
    kept = first.worth
    second = Box((3, 2, 4), first)
    assert second.worth is kept
    assert second.worked_out == ["base"]


def test_what_was_not_read_is_no_ground() -> None:
    first = Box((0, 3, 4))
    assert first.worth == ("base 0", 0)
    second = Box((0, 3, 9), first)
    assert second.worth == ("base 0", 0)


def test_values_outlive_a_successor_that_nobody_asked() -> None:
    first = Box((2, 3, 4))
    kept = first.label
    third = Box((2, 3, 4), Box((7, 7, 7), first))
    assert third.label is kept
    assert third.worked_out == []


def test_two_are_compared_by_what_they_come_to() -> None:
    first = Box((2, 3, 4))
    assert first.worth
    second = Box((3, 2, 4), first)
    assert second.differs_from(first, Box.width)
    assert not second.differs_from(first, Box.base, Box.label, Box.worth)
    unread = Box((1, 1, 1))
    assert Box((1, 1, 1), unread).differs_from(unread, Box.base)


def test_nothing_can_be_set() -> None:
    with pytest.raises(AttributeError, match="Box is frozen"):
        Box((1, 1, 1)).height = 2
