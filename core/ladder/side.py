"""One of two telescopes set side by side: what it would give tonight, in figures."""

from attrs import frozen

from core.air.blur import blur_at
from core.air.finest_detail import FINEST_DETAIL_AT_EYE_ARCSEC, finest_detail
from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook
from core.air.readiness import Readiness
from core.gear.aperture import clear_area_mm2, working_aperture_mm
from core.gear.collimation import Collimation, collimation_of
from core.gear.optics import dawes_arcsec
from core.gear.owned import Telescope
from core.ladder.ladder import Ladder


@frozen(kw_only=True)
class Side:
    """One telescope of a comparison; its ladder stands for limits, drift and powers.

    ``light_ratio_to_other`` compares clear areas of aperture. ``resolution_arcsec`` is Dawes' limit,
    ``finest_detail_arcsec`` the finest detail that reaches the eye through aperture and air together, or
    the coarser one that a built-in power can show, ``steady_detail_arcsec`` that of a steady night at the
    same height. ``elements_across_disc`` counts such details across the planet. ``readiness`` tells when it
    is usable and when its mirror has settled; ``minutes_outside`` how long it has stood outside, None where
    nobody said that it does. What cannot be told is None.
    """

    ladder: Ladder
    light_ratio_to_other: float
    resolution_arcsec: float
    finest_detail_arcsec: float | None
    steady_detail_arcsec: float | None
    disc_diameter_arcmin_at_ceiling: float | None
    disc_diameter_arcmin_at_climb: float | None
    elements_across_disc: float | None
    is_steady_now: bool
    minutes_outside: float | None
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
    def ready_minutes(self) -> float | None:
        """The likely minutes from being carried out until it is ready, None where it never quite is."""
        return None if self.usable_minutes is None else self.usable_minutes[1]

    @property
    def waits_minutes(self) -> float | None:
        """The likely minutes from now until it is ready, counting those it has stood outside."""
        if self.ready_minutes is None:
            return None
        return max(0.0, self.ready_minutes - (self.minutes_outside or 0.0))

    @property
    def blur_there_arcsec(self) -> float | None:
        """The blur of the air at the height looked at, None where no air path can be given."""
        path = self.ladder.aim.path
        return None if path is None else blur_at(self.ladder.blur.overhead_arcsec, path)

    @property
    def usable_power(self) -> float | None:
        """The ceiling, or a built-in power that stays under it; None without a ceiling."""
        return usable_power(self.ladder)

    @property
    def is_stopped_by_built_in_power(self) -> bool:
        """Whether a power that is built in stops it before any limit does."""
        ceiling_power, power = self.ladder.ceiling.power, self.usable_power
        return ceiling_power is not None and power is not None and power < ceiling_power


def build_side(
    ladder: Ladder,
    other: Telescope,
    *,
    disc_arcsec: float | None,
    readiness: Readiness,
    steady_arcsec: float = FIRST_LOOK_BLUR_ARCSEC[FirstLook.STEADY],
    minutes_outside: float | None = None,
) -> Side:
    """Return the figures of one telescope beside the other, ready when ``readiness`` says.

    ``steady_arcsec`` is the blur overhead of a steady night.
    """
    scope, power = ladder.scope, usable_power(ladder)
    detail_arcsec = _finest_arcsec(ladder)
    is_steady_now = ladder.blur.overhead_arcsec <= steady_arcsec
    fields = [rung.true_field_deg for rung in ladder.rungs if rung.true_field_deg is not None]
    return Side(
        ladder=ladder,
        light_ratio_to_other=clear_area_mm2(scope) / clear_area_mm2(other),
        resolution_arcsec=dawes_arcsec(working_aperture_mm(scope)),
        finest_detail_arcsec=detail_arcsec,
        steady_detail_arcsec=_steady_detail_arcsec(ladder, min(steady_arcsec, ladder.blur.overhead_arcsec)),
        disc_diameter_arcmin_at_ceiling=_looks_arcmin(disc_arcsec, power),
        disc_diameter_arcmin_at_climb=_looks_arcmin(disc_arcsec, ladder.climb_to),
        elements_across_disc=(
            None if disc_arcsec is None or detail_arcsec is None else disc_arcsec / detail_arcsec
        ),
        is_steady_now=is_steady_now,
        minutes_outside=minutes_outside,
        readiness=readiness,
        lowest_power=ladder.rungs[0].power if ladder.rungs else None,
        widest_field_deg=max(fields, default=None),
        collimation=collimation_of(scope),
    )


def _looks_arcmin(disc_arcsec: float | None, power: float | None) -> float | None:
    return None if disc_arcsec is None or power is None else disc_arcsec * power / 60.0


def usable_power(ladder: Ladder) -> float | None:
    """Return the ceiling, or a built-in power that stays under it; None without a ceiling."""
    ceiling_power, own = ladder.ceiling.power, ladder.scope.highest_own_power
    return ceiling_power if ceiling_power is None or own is None else min(own, ceiling_power)


def _finest_arcsec(ladder: Ladder) -> float | None:
    """Return the finest detail in arcsec that reaches the eye, None where no air path can be given."""
    if ladder.limits.detail is None or ladder.ceiling.power is None:
        return None
    return _through_own_power(ladder.limits.detail.arcsec, ladder.scope)


def _steady_detail_arcsec(ladder: Ladder, steady_arcsec: float) -> float | None:
    """Return the same of a night as steady as ``steady_arcsec`` overhead, the mirror cool."""
    path = ladder.aim.path
    if path is None or ladder.ceiling.power is None:
        return None
    detail = finest_detail(
        aperture_mm=working_aperture_mm(ladder.scope),
        blur_arcsec=blur_at(steady_arcsec, path),
        dispersion_arcsec=ladder.aim.dispersion_arcsec,
    )
    return _through_own_power(detail.arcsec, ladder.scope)


def _through_own_power(finest_arcsec: float, scope: Telescope) -> float:
    """Return the finest detail, or the coarser one that a built-in power can show."""
    own = scope.highest_own_power
    return finest_arcsec if own is None else max(finest_arcsec, FINEST_DETAIL_AT_EYE_ARCSEC / own)
