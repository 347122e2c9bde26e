"""What is set beside the owner's kit for a look: other telescopes, and one more eyepiece or Barlow."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from attrs import evolve, frozen

from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.gear.starter import StarterKit, starter_kits, usual_eyepiece
from core.ladder.compare import Comparison, compare
from core.ladder.gaps import WhatIf, suggest, what_if
from core.ladder.ladder import Ladder, Rung
from core.ladder.wishes import rungs_with
from core.words.names import listed
from gui.aspect import Aspect
from gui.derived import Derived, Kept

if TYPE_CHECKING:
    from gui.state import AppState

_KEPT = 6


@frozen
class Pick:
    """A telescope that is picked for a comparison: one of the owner's by its id, or a usual one."""

    scope_id: str = ""
    kit: StarterKit | None = None


@frozen(kw_only=True)
class Contender:
    """A telescope in a comparison, and the eyepieces and Barlows that are used on it."""

    scope: Telescope
    eyepieces: tuple[Eyepiece, ...]
    barlows: tuple[Barlow, ...]


class Beside:
    """The two telescopes of a comparison, and the thing not owned that is tried out.

    ``usual_eyepieces`` says that a usual telescope is used with what mostly comes with it, and not with the
    owner's eyepieces. ``thing`` is an eyepiece or a Barlow that the person typed to see what it would give.
    """

    def __init__(self, state: "AppState", derived: Derived, emit: Callable[[Aspect], None]) -> None:
        self._state = state
        self._derived = derived
        self._emit = emit
        self._comparisons = Kept[Comparison]()
        self._advice = Kept[WhatIf | None](_KEPT)
        self._wished = Kept[tuple[Rung, ...]](_KEPT)
        self.reset()

    def reset(self) -> None:
        """Begin with nothing beside the owner's kit."""
        self._first_kit: StarterKit | None = None
        self._second: Pick | None = None
        self.usual_eyepieces = True
        self.thing: Eyepiece | Barlow | None = None

    # Two telescopes.

    @property
    def first(self) -> Pick | None:
        """The first telescope: the one in hand, unless a usual one was picked in its place."""
        if self._first_kit is not None:
            return Pick(kit=self._first_kit)
        scope = self._state.scope
        return None if scope is None else Pick(scope.id)

    @property
    def second(self) -> Pick | None:
        """The second telescope, or None; where it has come to stand first, another of the owner's."""
        if self._second is None or self._scope_of(self._second) is None:
            return None
        if self._second != self.first:
            return self._second
        others = (Pick(scope.id) for scope in self._state.profile.telescopes)
        return next((pick for pick in others if pick != self.first), None)

    def offered(self, *, beside: Pick | None) -> tuple[tuple[Pick, str], ...]:
        """Return every telescope that can be picked beside another, with its name, the owner's first."""
        owned = [(Pick(scope.id), scope.name) for scope in self._state.profile.telescopes]
        usual = [(Pick(kit=kit), f"Usual: {kit.telescope.name}") for kit in starter_kits()]
        return tuple(each for each in (*owned, *usual) if each[0] != beside)

    def choose_first(self, pick: Pick) -> None:
        """Take another first telescope."""
        self._first_kit = pick.kit
        if pick.kit is None:
            self._state.set_scope(pick.scope_id)
        else:
            self._emit(Aspect.SCOPE)

    def choose_second(self, pick: Pick | None) -> None:
        """Take another second telescope, or none."""
        self._second = pick
        self._emit(Aspect.SCOPE)

    def swap(self) -> None:
        """Let the two telescopes change places."""
        first, second = self.first, self.second
        if first is not None and second is not None:
            self._second = first
            self.choose_first(second)

    def set_usual_eyepieces(self, usual: bool) -> None:
        """Use usual telescopes with what mostly comes with them, or with the owner's eyepieces."""
        self.usual_eyepieces = usual
        self._emit(Aspect.SCOPE)

    def comparison(self) -> Comparison | None:
        """Return both telescopes under the sky in hand, or None without a second one."""
        ladders = self.ladders()
        if ladders is None:
            return None
        aim, night = ladders[0].aim, self._state.night
        disc_arcsec = night.of(aim.planet).diameter_arcsec if night and aim.planet else None
        compute = partial(compare, *ladders, disc_arcsec=disc_arcsec)
        return self._comparisons.get((*ladders, disc_arcsec), compute)

    def usual_words(self) -> str:
        """Return with which eyepieces the usual telescopes are used, as sentences; empty without any."""
        kits = [pick.kit for pick in (self.first, self.second) if pick is not None and pick.kit is not None]
        return " ".join(
            f"{kit.telescope.name} is used with {self._eyepieces_of(kit)}."
            for kit in kits
            if kit.eyepieces_mm
        )

    def _eyepieces_of(self, kit: StarterKit) -> str:
        if not self.usual_eyepieces:
            return "your eyepieces"
        lengths = listed(f"{length:g}" for length in kit.eyepieces_mm)
        comes = "eyepieces that mostly come" if len(kit.eyepieces_mm) > 1 else "eyepiece that mostly comes"
        return f"the {lengths} mm {comes} with it"

    def contender(self, pick: Pick) -> Contender | None:
        """Return a telescope with what is used on it, None for one that is gone."""
        scope, profile = self._scope_of(pick), self._state.profile
        if scope is None:
            return None
        if pick.kit is None or not self.usual_eyepieces or scope.kind is TelescopeKind.FIXED:
            return Contender(scope=scope, eyepieces=profile.eyepieces, barlows=profile.barlows)
        eyepieces = (usual_eyepiece(length, scope=scope) for length in pick.kit.eyepieces_mm)
        return Contender(scope=scope, eyepieces=tuple(eyepieces), barlows=())

    def contenders(self) -> tuple[Contender, Contender] | None:
        """Return both telescopes with what is used on them, named so that they can be told apart."""
        if self.first is None or self.second is None:
            return None
        one, other = self.contender(self.first), self.contender(self.second)
        if one is None or other is None:
            return None
        if one.scope.name == other.scope.name:
            other = evolve(other, scope=evolve(other.scope, name=f"{other.scope.name} (the other)"))
        return one, other

    def ladders(self) -> tuple[Ladder, Ladder] | None:
        """Return the ladders of both telescopes."""
        found = self.contenders()
        if found is None:
            return None
        aim = self._derived.aim()
        one, other = (
            self._derived.ladder_of(each.scope, aim, eyepieces=each.eyepieces, barlows=each.barlows)
            for each in found
        )
        return None if one is None or other is None else (one, other)

    # One more thing.

    def try_out(self, thing: Eyepiece | Barlow | None) -> None:
        """Show what a thing not owned would give, or with None go back to what would help most."""
        if thing != self.thing:
            self.thing = thing
            self._emit(Aspect.TRIED)

    def advice(self, ladder: Ladder, kit: Contender | None = None) -> WhatIf | None:
        """Return what the thing tried out would give on a ladder, or else the purchase that would help most.

        ``kit`` is what is used on its telescope, the owner's when it is left out.
        """
        ceiling, scope = ladder.ceiling.power, ladder.scope
        if ceiling is None or scope.kind is TelescopeKind.FIXED:
            return None
        eyepieces, barlows = self._used_on(kit)
        find: Callable[[], WhatIf | None]
        if self.thing is None:
            find = partial(suggest, scope, eyepieces, barlows, ceiling)
        else:
            find = partial(what_if, scope, eyepieces, barlows, ceiling, self.thing)
        return self._advice.get((scope, eyepieces, barlows, ceiling, self.thing), find)

    def wished(self, ladder: Ladder, kit: Contender | None = None) -> tuple[Rung, ...]:
        """Return the rungs that ``advice`` would add to a ladder."""
        advice = self.advice(ladder, kit)
        if advice is None:
            return ()
        find = partial(rungs_with, ladder, *self._used_on(kit), advice.thing)
        return self._wished.get((ladder, advice), find)

    def _used_on(self, kit: Contender | None) -> tuple[tuple[Eyepiece, ...], tuple[Barlow, ...]]:
        used = kit or self._state.profile
        return used.eyepieces, used.barlows

    def _scope_of(self, pick: Pick) -> Telescope | None:
        if pick.kit is not None:
            return pick.kit.telescope
        owned = self._state.profile.telescopes
        return next((scope for scope in owned if scope.id == pick.scope_id), None)
