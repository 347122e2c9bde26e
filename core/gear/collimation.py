"""Whether the optics of a telescope must be kept aligned, how exactly, and when a check is due."""

from datetime import date
from typing import Final

from attrs import frozen

from core.gear.owned import Telescope, TelescopeKind

# From this focal ratio a reflector forgives a rough alignment; the tolerance goes with its cube (common
# practice, no source).
FORGIVING_FOCAL_RATIO: Final = 8.0
# A rough check is due after so many days, for a reflector faster than this each evening (ours).
CHECK_LASTS_DAYS: Final = {TelescopeKind.REFLECTOR: 14, TelescopeKind.CATADIOPTRIC: 90}
CHECKED_EACH_EVENING_BELOW: Final = 5.0


@frozen(kw_only=True)
class Collimation:
    """Whether the optics of a telescope must be kept aligned, and how exactly.

    ``times_as_exact`` compares a fast reflector of ``focal_ratio`` with one of f/8; both are None where the
    usual care is enough.
    """

    is_needed: bool
    focal_ratio: float | None = None
    times_as_exact: float | None = None


def collimation_of(scope: Telescope) -> Collimation:
    """Return what the alignment of the optics asks of the owner (common practice)."""
    if scope.has_lens:
        return Collimation(is_needed=False)
    ratio = scope.focal_ratio
    if scope.kind is not TelescopeKind.REFLECTOR or ratio is None or ratio >= FORGIVING_FOCAL_RATIO:
        return Collimation(is_needed=True)
    return Collimation(is_needed=True, focal_ratio=ratio, times_as_exact=(FORGIVING_FOCAL_RATIO / ratio) ** 3)


def is_check_due(scope: Telescope, evening: date) -> bool:
    """Tell whether the alignment should be looked over before an evening; always where no check is noted."""
    if not collimation_of(scope).is_needed:
        return False
    if scope.collimated_on is None:
        return True
    ratio = scope.focal_ratio
    is_fast = (
        scope.kind is TelescopeKind.REFLECTOR and ratio is not None and ratio < CHECKED_EACH_EVENING_BELOW
    )
    return (evening - scope.collimated_on).days > (0 if is_fast else CHECK_LASTS_DAYS[scope.kind])
