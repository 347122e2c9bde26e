"""The kinds of thing an observer owns, and the edits of a profile's lists of them.

Each edit takes a profile and returns the profile after it; nothing here knows of widgets.
"""

import itertools
import unicodedata
from enum import StrEnum
from typing import Any, TypeAlias

from attrs import evolve, frozen

from core.drawing.signs import Sign
from core.gear.owned import Barlow, Eyepiece, Filter, Telescope
from core.record.observer import Profile
from core.record.profile import with_ids
from core.sky.site import Site
from core.words.gear_advice import (
    ENOUGH_FOR_BARLOW,
    ENOUGH_FOR_EYEPIECE,
    ENOUGH_FOR_FILTER,
    ENOUGH_FOR_SITE,
    ENOUGH_FOR_TELESCOPE,
)
from core.words.gear_edits import COPY_NAME, NUMBERED_NAME

Thing: TypeAlias = Telescope | Eyepiece | Barlow | Filter | Site


class Kind(StrEnum):
    """A group of the list, by the name of its field in a profile; the observer is a group of one."""

    TELESCOPE = "telescopes"
    EYEPIECE = "eyepieces"
    BARLOW = "barlows"
    FILTER = "filters"
    SITE = "sites"
    OBSERVER = "observer"

    @property
    def heading(self) -> str:
        """The name of the group."""
        return self.value.capitalize()

    @property
    def sign(self) -> Sign:
        """The small drawing beside its name."""
        return _ABOUT[self].sign

    @property
    def singular(self) -> str:
        """The name of one thing of the group, as inside a sentence."""
        return _ABOUT[self].singular

    @property
    def short(self) -> str:
        """The name of one thing, as short as can be."""
        return self.singular.split()[0]

    @property
    def id_stem(self) -> str:
        """How the ids of such things begin."""
        return self.value[:-1]

    @property
    def one_more(self) -> str:
        """The singular with its article."""
        return _ABOUT[self].one_more

    @property
    def enough(self) -> str:
        """What is enough to begin one thing, and how it may be typed; nothing for the observer."""
        return _ABOUT[self].enough


@frozen(kw_only=True)
class _About:
    """A kind's sign, what one of them is called, with its article too, and what is enough to begin one."""

    sign: Sign
    singular: str
    one_more: str
    enough: str = ""


_ABOUT = {
    Kind.TELESCOPE: _About(
        sign=Sign.REFRACTOR,
        singular="telescope",
        one_more="a telescope",
        enough=ENOUGH_FOR_TELESCOPE,
    ),
    Kind.EYEPIECE: _About(
        sign=Sign.EYEPIECE,
        singular="eyepiece",
        one_more="an eyepiece",
        enough=ENOUGH_FOR_EYEPIECE,
    ),
    Kind.BARLOW: _About(
        sign=Sign.BARLOW,
        singular="Barlow or reducer",
        one_more="a Barlow or reducer",
        enough=ENOUGH_FOR_BARLOW,
    ),
    Kind.FILTER: _About(
        sign=Sign.FILTER,
        singular="filter",
        one_more="a filter",
        enough=ENOUGH_FOR_FILTER,
    ),
    Kind.SITE: _About(
        sign=Sign.SITE,
        singular="site",
        one_more="a site",
        enough=ENOUGH_FOR_SITE,
    ),
    Kind.OBSERVER: _About(
        sign=Sign.OBSERVER,
        singular="observer",
        one_more="an observer",
    ),
}
LISTED = tuple(kind for kind in Kind if kind is not Kind.OBSERVER)


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
        thing = evolve(thing, id=_free_id(things, kind.id_stem))
    return with_things(profile, kind, (*things, thing))


def replaced(profile: Profile, kind: Kind, index: int, thing: Thing) -> Profile:
    """Return the profile with another thing in one place."""
    things = list(things_of(profile, kind))
    things[index] = thing
    return with_things(profile, kind, tuple(things))


def copied(profile: Profile, kind: Kind, index: int) -> Profile:
    """Return the profile with a copy of a thing, right after it and under a name of its own."""
    things = things_of(profile, kind)
    copy = evolve(
        things[index], id="", name=free_name(profile, kind, COPY_NAME.format(name=things[index].name))
    )
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


def _free_id(things: tuple[Thing, ...], stem: str) -> str:
    taken = {thing.id for thing in things}
    return next(free for number in itertools.count(1) if (free := f"{stem}-{number}") not in taken)
