"""One of two telescopes set side by side: what it would give tonight, in figures."""

from attrs import frozen

from core.air.readiness import Readiness
from core.air.steadiness import FINEST_DETAIL_AT_EYE_ARCSEC
from core.gear.aperture import clear_area_mm2, working_aperture_mm
from core.gear.optics import dawes_arcsec
from core.gear.owned import Telescope, TelescopeKind
from core.ladder.ladder import Ladder

# From this focal ratio a reflector forgives a rough alignment; the tolerance goes with its cube (common
# practice, no source).
FORGIVING_FOCAL_RATIO = 8.0


@frozen(kw_only=True)
class Collimation:
    """Whether the optics of a telescope must be kept aligned, and how exactly.

    ``times_as_exact`` compares a fast reflector of ``focal_ratio`` with one of f/8; both are None where the
    usual care is enough.
    """

    is_needed: bool
    focal_ratio: float | None = None
    times_as_exact: float | None = None


@frozen(kw_only=True)
class Side:
    """One telescope of a comparison; its ladder stands for limits, drift and powers.

    ``light_ratio_to_other`` compares clear areas of aperture. ``resolution_arcsec`` is Dawes' limit,
    ``finest_detail_arcsec`` the finest detail that reaches the eye through aperture and air together, or
    the coarser one that a built-in power can show. ``elements_across_disc`` counts such
    details across the planet. ``readiness`` tells when it is usable and when its mirror has settled. What
    cannot be told is None.
    """

    ladder: Ladder
    light_ratio_to_other: float
    resolution_arcsec: float
    finest_detail_arcsec: float | None
    disc_diameter_arcmin_at_ceiling: float | None
    elements_across_disc: float | None
    readiness: Readiness
    lowest_power: float | None
    widest_field_deg: float | None
    collimation: Collimation

    @property
    def usable_minutes(self) -> tuple[float, float, float] | None:
        """Low, likely and high minutes until it is usable for planets, None where it never quite is."""
        return None if self.readiness.never else self.readiness.usable.minutes

    @property
    def settled_minutes(self) -> float | None:
        """The likely minutes until its mirror has settled; None for a lens."""
        return None if self.readiness.settled is None else self.readiness.settled.likely_minutes

    @property
    def scope(self) -> Telescope:
        """The telescope."""
        return self.ladder.scope

    @property
    def usable_power(self) -> float | None:
        """The ceiling, or a built-in power that stays under it; None without a ceiling."""
        return usable_power(self.ladder)

    @property
    def is_stopped_by_built_in_power(self) -> bool:
        """Whether a power that is built in stops it before any limit does."""
        ceiling_power, power = self.ladder.ceiling.power, self.usable_power
        return ceiling_power is not None and power is not None and power < ceiling_power


def build_side(ladder: Ladder, other: Telescope, *, disc_arcsec: float | None, readiness: Readiness) -> Side:
    """Return the figures of one telescope beside the other, ready when ``readiness`` says."""
    scope, power = ladder.scope, usable_power(ladder)
    blur_arcsec = _finest_arcsec(ladder)
    disc_arcmin = elements = None
    if disc_arcsec is not None and power is not None and blur_arcsec is not None:
        disc_arcmin = disc_arcsec * power / 60.0
        elements = disc_arcsec / blur_arcsec
    fields = [rung.true_field_deg for rung in ladder.rungs if rung.true_field_deg is not None]
    return Side(
        ladder=ladder,
        light_ratio_to_other=clear_area_mm2(scope) / clear_area_mm2(other),
        resolution_arcsec=dawes_arcsec(working_aperture_mm(scope)),
        finest_detail_arcsec=blur_arcsec,
        disc_diameter_arcmin_at_ceiling=disc_arcmin,
        elements_across_disc=elements,
        readiness=readiness,
        lowest_power=ladder.rungs[0].power if ladder.rungs else None,
        widest_field_deg=max(fields, default=None),
        collimation=collimation_of(scope),
    )


def built_in_power(scope: Telescope) -> float | None:
    """Return the highest power of a fixed-power instrument, None for any other."""
    return scope.power if scope.power is not None else scope.power_max


def usable_power(ladder: Ladder) -> float | None:
    """Return the ceiling, or a built-in power that stays under it; None without a ceiling."""
    ceiling_power, own = ladder.ceiling.power, built_in_power(ladder.scope)
    return ceiling_power if ceiling_power is None or own is None else min(own, ceiling_power)


def _finest_arcsec(ladder: Ladder) -> float | None:
    """Return the finest detail in arcsec that reaches the eye, None where no air path can be given."""
    if ladder.limits.detail is None or ladder.ceiling.power is None:
        return None
    own = built_in_power(ladder.scope)
    finest = ladder.limits.detail.arcsec
    return finest if own is None else max(finest, FINEST_DETAIL_AT_EYE_ARCSEC / own)


def collimation_of(scope: Telescope) -> Collimation:
    """Return what the alignment of the optics asks of the owner (common practice)."""
    if scope.kind in (TelescopeKind.REFRACTOR, TelescopeKind.FIXED):
        return Collimation(is_needed=False)
    ratio = scope.focal_ratio
    if scope.kind is not TelescopeKind.REFLECTOR or ratio is None or ratio >= FORGIVING_FOCAL_RATIO:
        return Collimation(is_needed=True)
    return Collimation(is_needed=True, focal_ratio=ratio, times_as_exact=(FORGIVING_FOCAL_RATIO / ratio) ** 3)
