"""The mirror of one telescope, as far as cooling goes; see ``mirror`` for what it does in the air."""

from attrs import evolve, frozen

from core.air.cooling import usable_time
from core.air.mirror import (
    MINUTES_PER_MM,
    MINUTES_PER_MM_RANGE,
    AirCourse,
    assumed_thickness_mm,
    own_time_factor,
    settled_minutes,
    settling_constant_minutes,
)
from core.air.usual_air import USUAL_AIR_POWER
from core.gear.owned import Telescope


@frozen(kw_only=True)
class CoolingMirror:
    """A mirror's thickness and time constant; ``thickness_assumed`` where the owner has not said it.

    ``own_factor`` is by how much the owner's measured time changed the time constant, 1 without one.
    """

    thickness_mm: float
    thickness_assumed: bool
    constant_minutes: float
    own_factor: float

    @property
    def constant_range_minutes(self) -> tuple[float, float]:
        """The time constant with the least and the most that a millimetre of glass may take."""
        low, high = (each / MINUTES_PER_MM for each in MINUTES_PER_MM_RANGE)
        return self.constant_minutes * low, self.constant_minutes * high


@frozen(kw_only=True)
class Settled:
    """After how many minutes outside the ceiling first reaches 90 % of the value that it ends at."""

    low_minutes: float
    likely_minutes: float
    high_minutes: float


def mirror_of(scope: Telescope) -> CoolingMirror | None:
    """Return a telescope's mirror, the same behind a mask; None where a lens forms the image."""
    if scope.has_lens:
        return None
    given = scope.mirror_thickness_mm
    thickness_mm = assumed_thickness_mm(scope.aperture_mm) if given is None else given
    factor = _own_factor(scope)
    return CoolingMirror(
        thickness_mm=thickness_mm,
        thickness_assumed=given is None,
        constant_minutes=settling_constant_minutes(
            thickness_mm, fan=scope.fan, closed=scope.is_closed, own_factor=factor
        ),
        own_factor=factor,
    )


def settled_range(
    mirror: CoolingMirror,
    air: AirCourse,
    *,
    aperture_mm: float,
    blur_arcsec: float,
    start_c: float,
    end_minutes: float,
    out_minutes: float = 0.0,
    usual_air: float = USUAL_AIR_POWER,
) -> Settled:
    """Return after how many minutes outside a mirror has settled; arguments as in ``settled_minutes``.

    The range is that of the time constant.
    """
    low_constant, high_constant = mirror.constant_range_minutes
    low, likely, high = (
        settled_minutes(
            air,
            aperture_mm=aperture_mm,
            blur_arcsec=blur_arcsec,
            start_c=start_c,
            constant_minutes=constant,
            end_minutes=end_minutes,
            out_minutes=out_minutes,
            usual_air=usual_air,
        )
        for constant in (low_constant, mirror.constant_minutes, high_constant)
    )
    # Near the end of the night a slower glass ends at so little that it seems to be there sooner.
    return Settled(low_minutes=min(low, likely), likely_minutes=likely, high_minutes=max(likely, high))


def _own_factor(scope: Telescope) -> float:
    if scope.cooling_minutes is None or scope.cooling_from_c is None:
        return 1.0
    unmeasured = evolve(scope, cooling_minutes=None, cooling_from_c=None)
    predicted = usable_time(unmeasured, warmer_by_c=scope.cooling_from_c).likely_minutes
    return own_time_factor(scope.cooling_minutes, predicted)
