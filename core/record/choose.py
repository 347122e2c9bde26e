"""Find one of an observer's things by what was typed for it."""

import unicodedata
from collections.abc import Sequence
from typing import Protocol, TypeVar

from core.plain_text import cut, printable
from core.problems import refuse
from core.sky.bodies import TARGETS, Body

_LONGEST_NAME = 40


class Named(Protocol):
    """Anything with a name and an id."""

    @property
    def id(self) -> str:
        """The stable id."""

    @property
    def name(self) -> str:
        """The owner's name for it."""


Thing = TypeVar("Thing", bound=Named)


def choose(things: Sequence[Thing], wanted: str | None, *, what: str, where: str = "") -> Thing:
    """Return the thing with an id or a name, the first one when ``wanted`` is None.

    An id goes before a name, and the very letters before the same in upper or lower case; spelling is
    compared in Unicode's composed form. ``what`` names the kind ("telescope") and ``where`` the place of
    the request in the ProblemsError that lists what there is.
    """
    if not things:
        raise refuse(f"the profile has no {what} yet", where=where)
    if wanted is None:
        return things[0]
    asked = _composed(wanted)
    for found in (
        [thing for thing in things if _composed(thing.id) == asked],
        [thing for thing in things if _composed(thing.name) == asked],
        [thing for thing in things if asked.casefold() in {_folded(thing.id), _folded(thing.name)}],
    ):
        if len(found) == 1:
            return found[0]
        if found:
            raise refuse(f"{_quoted(wanted)} could be any of {_listing(found)}", where=where)
    raise refuse(f"there is no {what} {_quoted(wanted)}; choose one of {_listing(things)}", where=where)


def choose_planet(wanted: str, *, where: str = "") -> Body:
    """Return the body that a word means; the Sun is refused by name."""
    word = _folded(wanted).removeprefix("the ")
    for body in TARGETS:
        if word == body.value:
            return body
    known = ", ".join(body.value for body in TARGETS)
    if word == Body.SUN.value:
        raise refuse(
            f"the Sun is no target: looking at it through any optics blinds at once; choose one of {known}",
            where=where,
        )
    raise refuse(f"must be one of {known}, not {_quoted(wanted)}", where=where)


def _composed(text: str) -> str:
    return unicodedata.normalize("NFC", text.strip())


def _folded(text: str) -> str:
    return _composed(text).casefold()


def _quoted(text: str) -> str:
    return f"“{cut(printable(text), _LONGEST_NAME)}”"


def _listing(things: Sequence[Named]) -> str:
    return ", ".join(
        f"{_quoted(thing.name)} (id {cut(printable(thing.id), _LONGEST_NAME)})" for thing in things
    )
