"""The edits of a profile's lists of what is owned.

Each edit takes a profile and returns the profile after it; nothing here knows of widgets.
"""

import itertools
import unicodedata
from typing import Any, Protocol

from attrs import evolve

from core.record.observer import Profile
from core.record.profile import with_ids
from core.words.gear_edits import COPY_NAME, NUMBERED_NAME
from core.words.owned_kinds import Kind


class Thing(Protocol):
    """One thing that is owned, of whatever kind."""

    @property
    def id(self) -> str:
        """What it goes by in the log and among its kind."""

    @property
    def name(self) -> str:
        """What its owner calls it."""


def things_of(profile: Profile, kind: Kind) -> tuple[Thing, ...]:
    """Return the things of one kind, in the owner's order; none for the observer."""
    return () if kind is Kind.OBSERVER else getattr(profile, kind.value)


def with_things(profile: Profile, kind: Kind, things: tuple[Thing, ...]) -> Profile:
    """Return the profile with other things of one kind; each new one gets its id."""
    changes: dict[str, Any] = {kind.value: things}
    return with_ids(evolve(profile, **changes))


def added(profile: Profile, kind: Kind, thing: Thing, *, id_from_name: bool = True) -> Profile:
    """Return the profile with one more thing, at the end of its kind.

    Its id comes from its name, or, when that is still to change, from its kind.
    """
    things = things_of(profile, kind)
    if not id_from_name:
        thing = _changed(thing, id=_free_id(things, kind.stem))
    return with_things(profile, kind, (*things, thing))


def replaced(profile: Profile, kind: Kind, index: int, thing: Thing) -> Profile:
    """Return the profile with another thing in one place."""
    things = list(things_of(profile, kind))
    things[index] = thing
    return with_things(profile, kind, tuple(things))


def copied(profile: Profile, kind: Kind, index: int) -> Profile:
    """Return the profile with a copy of a thing, right after it and under a name of its own."""
    things = things_of(profile, kind)
    name = free_name(profile, kind, COPY_NAME.format(name=things[index].name))
    copy = _changed(things[index], id="", name=name)
    return with_things(profile, kind, (*things[: index + 1], copy, *things[index + 1 :]))


def removed(profile: Profile, kind: Kind, index: int) -> Profile:
    """Return the profile without one thing."""
    things = things_of(profile, kind)
    return with_things(profile, kind, (*things[:index], *things[index + 1 :]))


def moved(profile: Profile, kind: Kind, index: int, step: int) -> Profile:
    """Return the profile with one thing further up (step -1) or down (step 1); it stops at both ends."""
    things = list(things_of(profile, kind))
    target = min(max(index + step, 0), len(things) - 1)
    things.insert(target, things.pop(index))
    return with_things(profile, kind, tuple(things))


def same_name(one: str, other: str) -> bool:
    """Tell whether two names are the same to a reader, however their accents are stored."""
    return unicodedata.normalize("NFC", one.strip()) == unicodedata.normalize("NFC", other.strip())


def name_is_taken(profile: Profile, kind: Kind, name: str, *, but_for: int | None = None) -> bool:
    """Tell whether another thing of the kind has the name already."""
    return any(
        index != but_for and same_name(thing.name, name)
        for index, thing in enumerate(things_of(profile, kind))
    )


def free_name(profile: Profile, kind: Kind, wanted: str, *, but_for: int | None = None) -> str:
    """Return the wanted name, with a number after it when it is taken."""
    name, number = wanted, 1
    while name_is_taken(profile, kind, name, but_for=but_for):
        number += 1
        name = NUMBERED_NAME.format(name=wanted, number=number)
    return name


def _changed(thing: Thing, **changes: str) -> Thing:
    owned: Any = thing
    changed: Thing = evolve(owned, **changes)
    return changed


def _free_id(things: tuple[Thing, ...], stem: str) -> str:
    taken = {thing.id for thing in things}
    return next(free for number in itertools.count(1) if (free := f"{stem}-{number}") not in taken)
