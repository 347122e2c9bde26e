"""Telescopes picked for a comparison, in words: how they are named, and what is used on them."""

from collections.abc import Iterable
from typing import Final

from core.gear.starter import StarterKit
from core.ladder.contenders import Pick, scope_of
from core.record.observer import Profile
from core.situation.situation import Situation
from core.words.names import listed
from core.words.quantities import trimmed_text

_USUAL: Final = "Usual: {name}"
_USED_WITH_OWN: Final = "{name} is used with your eyepieces."
_USED_WITH_ONE: Final = "{name} is used with the {lengths} mm eyepiece that mostly comes with it."
_USED_WITH_SOME: Final = "{name} is used with the {lengths} mm eyepieces that mostly come with it."


def pick_names(picks: Iterable[Pick], profile: Profile) -> tuple[tuple[Pick, str], ...]:
    """Return picks with their names; one that is no longer owned has an empty one."""
    return tuple((pick, _name(pick, profile)) for pick in picks)


def used_with_words(situation: Situation) -> str:
    """Return with which eyepieces the usual telescopes of a comparison are used; empty without any."""
    picks = (situation.first_pick, situation.second_pick)
    kits = [pick.kit for pick in picks if pick is not None and pick.kit is not None]
    return " ".join(_used_with(kit, usual=situation.with_usual_eyepieces) for kit in kits if kit.eyepieces_mm)


def _name(pick: Pick, profile: Profile) -> str:
    scope = scope_of(pick, profile)
    if scope is None:
        return ""
    return scope.name if pick.kit is None else _USUAL.format(name=scope.name)


def _used_with(kit: StarterKit, *, usual: bool) -> str:
    name = kit.telescope.name
    if not usual:
        return _USED_WITH_OWN.format(name=name)
    template = _USED_WITH_ONE if len(kit.eyepieces_mm) == 1 else _USED_WITH_SOME
    return template.format(name=name, lengths=listed(trimmed_text(length, 2) for length in kit.eyepieces_mm))
