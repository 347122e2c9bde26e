"""Values that follow from others: worked out when asked for, and kept while what they rest on is the same.

A class of such values says what is given (``given``) and what follows from it (``lazy``). What a value rests
on is noted while it is worked out, so that nobody writes down a key for it. A successor takes over every
value of its predecessor whose grounds are still the same, found out when it is asked for.
"""

from collections.abc import Callable
from typing import Any, Generic, Self, TypeVar, overload

from attrs import frozen

Owner = TypeVar("Owner", bound="Following")
T = TypeVar("T")


@frozen(eq=False)
class _Known:
    """A value that is at hand, and each value that was read to find it, in order."""

    value: Any
    grounds: dict[str, Any]


class Following:
    """Base of a class whose values follow from each other; frozen in all but what it has found out.

    ``predecessor`` is the one that stood here before, with values that may still hold.
    """

    _inherited: dict[str, _Known]
    _found: dict[str, _Known]
    _reading: list[dict[str, Any]]

    def __init__(self, predecessor: Self | None = None) -> None:
        self._set("_inherited", {} if predecessor is None else predecessor.known())
        self._set("_found", {})
        self._set("_reading", [])

    def _set(self, name: str, value: object) -> None:
        object.__setattr__(self, name, value)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} is frozen: {name} cannot be set")

    def known(self) -> dict[str, _Known]:
        """Return what has been found out, here or before, by the values' names."""
        return {**self._inherited, **self._found}

    def differs_from(self, before: "Following", *values: "Lazy[Any, Any]") -> bool:
        """Tell whether any of some values is another one than before.

        A value that nobody had asked for until then counts as another one.
        """
        known = before.known()
        return any(
            value.name not in known or not _alike(known[value.name].value, self.value_of(value))
            for value in values
        )

    def value_of(self, value: "Lazy[Any, T]") -> T:
        """Return a value, found out now where it is not at hand."""
        known = self._found.get(value.name)
        if known is None:
            known = self._found[value.name] = self._know(value)
        if self._reading:
            self._reading[-1][value.name] = known.value
        found: T = known.value
        return found

    def _know(self, value: "Lazy[Any, Any]") -> _Known:
        before = self._inherited.get(value.name)
        if before is not None and not value.is_given and self._still_hold(before.grounds):
            return before
        grounds: dict[str, Any] = {}
        self._reading.append(grounds)
        try:
            found = value.find(self)
        finally:
            self._reading.pop()
        if before is not None and _alike(before.value, found):
            # The very same object, so that whatever rests on it holds too.
            found = before.value
        return _Known(found, grounds)

    def _still_hold(self, grounds: dict[str, Any]) -> bool:
        """Tell whether values, asked for in the order in which they were read, are the same as then."""
        self._reading.append({})
        try:
            return all(getattr(self, name) is value for name, value in grounds.items())
        finally:
            self._reading.pop()


class Lazy(Generic[Owner, T]):
    """One value of a ``Following`` class; read from the class itself it stands for the value."""

    def __init__(self, find: Callable[[Owner], T], *, is_given: bool) -> None:
        self.name = find.__name__
        self.find = find
        self.is_given = is_given
        self.__doc__ = find.__doc__

    @overload
    def __get__(self, following: None, owner: type[Owner]) -> "Lazy[Owner, T]": ...
    @overload
    def __get__(self, following: Owner, owner: type[Owner]) -> T: ...

    def __get__(self, following: Owner | None, owner: type[Owner]) -> "T | Lazy[Owner, T]":
        return self if following is None else following.value_of(self)


def lazy(find: Callable[[Owner], T]) -> Lazy[Owner, T]:
    """Return a value that follows from others of its class."""
    return Lazy(find, is_given=False)


def given(find: Callable[[Owner], T]) -> Lazy[Owner, T]:
    """Return a value that rests on nothing but what its object was made with."""
    return Lazy(find, is_given=True)


def _alike(one: object, other: object) -> bool:
    return one is other or (type(one) is type(other) and bool(one == other))
