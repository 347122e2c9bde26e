"""Two telescopes to look through, and times as short as they are written."""

from datetime import UTC, datetime

from core.gear.owned import Diagonal, Telescope, TelescopeKind

REFLECTOR = Telescope(
    name="six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200, obstruction_mm=35
)
REFRACTOR = Telescope(
    name="small", kind=TelescopeKind.REFRACTOR, aperture_mm=80, focal_length_mm=900, diagonal=Diagonal.STAR
)


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)
