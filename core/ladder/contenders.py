"""Telescopes picked for a comparison, owned or usual ones, with what is used on them."""

from attrs import evolve, frozen

from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.gear.starter import StarterKit, starter_kits, usual_eyepiece
from core.record.observer import Profile


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


def offered_picks(profile: Profile, *, beside: Pick | None) -> tuple[Pick, ...]:
    """Return every telescope that can be picked beside another, the owner's first."""
    owned = [Pick(scope.id) for scope in profile.telescopes]
    usual = [Pick(kit=kit) for kit in starter_kits()]
    return tuple(pick for pick in (*owned, *usual) if pick != beside)


def scope_of(pick: Pick, profile: Profile) -> Telescope | None:
    """Return the telescope of a pick, None for one that is no longer owned."""
    if pick.kit is not None:
        return pick.kit.telescope
    return next((scope for scope in profile.telescopes if scope.id == pick.scope_id), None)


def second_pick(
    wanted: Pick | None, first: Pick | None, profile: Profile, *, in_hand: Pick | None
) -> Pick | None:
    """Return the second telescope of a comparison: the one wanted, else another of the owner's.

    That is one beside the scope in hand, so that it stays when a usual one takes the first place. None where
    nobody wants one and no other is owned.
    """
    if wanted is not None and wanted != first and scope_of(wanted, profile) is not None:
        return wanted
    owned = [pick for pick in offered_picks(profile, beside=first) if pick.kit is None]
    return next((pick for pick in owned if pick != in_hand), next(iter(owned), None))


def contender_of(pick: Pick, profile: Profile, *, with_usual_eyepieces: bool) -> Contender | None:
    """Return a telescope with what is used on it, None for one that is gone.

    A usual telescope is used with what mostly comes with it, or else with the owner's eyepieces.
    """
    scope = scope_of(pick, profile)
    if scope is None:
        return None
    if pick.kit is None or not with_usual_eyepieces or scope.kind is TelescopeKind.FIXED:
        return Contender(scope=scope, eyepieces=profile.eyepieces, barlows=profile.barlows)
    eyepieces = (usual_eyepiece(length, scope=scope) for length in pick.kit.eyepieces_mm)
    return Contender(scope=scope, eyepieces=tuple(eyepieces), barlows=())


def told_apart(one: Contender, other: Contender) -> tuple[Contender, Contender]:
    """Return two telescopes of which no two have the same name."""
    if one.scope.name != other.scope.name:
        return one, other
    return one, evolve(other, scope=evolve(other.scope, name=f"{other.scope.name} (the other)"))
