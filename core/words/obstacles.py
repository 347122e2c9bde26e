"""What hides a body or warms the air in front of it, by the owner's own names."""

from collections.abc import Sequence
from typing import Final

from core.moments.best_minutes import BestMinutes
from core.sky.site import BlockedSky, WarmAir
from core.sky.sky_parts import UNNAMED_BLOCK, UNNAMED_WARM
from core.words.names import listed
from core.words.quantities import angle_text

_BEHIND: Final = "behind blocked sky"
_BEHIND_NAMED: Final = "behind blocked sky ({names})"
_WARM_AIR: Final = "warm air"
_WARM_AIR_NAMED: Final = "warm air ({name})"
_NOTE_BEHIND: Final = "behind {name}"
_NOTE_WARM: Final = "warm air, {name}"
_BLOCKED_SECTOR: Final = "{name}: azimuth {first} to {last}, below {altitude}"
_HEATED_SECTOR: Final = "{name}, heated: azimuth {first} to {last}, below {altitude}"
SHAPING_THE_SKY: Final = (
    "Degrees: true azimuth clockwise from north, and apparent altitude. Measure heights from where the tube "
    "stands, as high as the tube is: beside a low one a fence reaches higher than before a standing eye. "
    "By a rule of thumb a heated roof also spoils the air up to 10° above it."
)
SECTOR_IN_HAND: Final = "In hand: {sector}"
SECTOR_TO_CHOOSE: Final = "1 obstacle; Page Down chooses it"
SECTORS_TO_CHOOSE: Final = "{count} obstacles; Page Down chooses one"
SECTOR_ALONE: Final = "{sector}."
NO_SECTORS: Final = "No obstacles"
_HEATED: Final = "heated"
_SEEN_THROUGH: Final = "seen through {air}"


def blocked_words(name: str) -> str:
    """Return where a body is when something hides it, ``behind blocked sky (roof ridge)``."""
    return all_blocked_words(() if name == UNNAMED_BLOCK else (name,))


def all_blocked_words(names: Sequence[str]) -> str:
    """Return where a body is that one thing or another hides, ``behind blocked sky (roof and trees)``."""
    return _BEHIND_NAMED.format(names=listed(names)) if names else _BEHIND


def warm_air_words(name: str) -> str:
    """Return warm air by what warms it, ``warm air (chimney)``, whatever words the owner chose for it."""
    return _WARM_AIR if name == UNNAMED_WARM else _WARM_AIR_NAMED.format(name=name)


def blocked_note(name: str) -> str:
    """Return the same in the few words that have room beside a curve, ``behind roof ridge``."""
    return name if name == UNNAMED_BLOCK else _NOTE_BEHIND.format(name=name)


def warm_air_note(name: str) -> str:
    """Return warm air in the few words that have room beside a curve, ``warm air, chimney``."""
    return name if name == UNNAMED_WARM else _NOTE_WARM.format(name=name)


def sector_words(sector: BlockedSky | WarmAir) -> str:
    """Return a sector of blocked sky or warm air: what it is, from where to where, how high."""
    name = sector.what or (UNNAMED_BLOCK if isinstance(sector, BlockedSky) else UNNAMED_WARM)
    is_heated = isinstance(sector, BlockedSky) and sector.heated and _HEATED not in name
    return (_HEATED_SECTOR if is_heated else _BLOCKED_SECTOR).format(
        name=name,
        first=angle_text(sector.azimuth_from_deg),
        last=angle_text(sector.azimuth_to_deg),
        altitude=angle_text(sector.below_altitude_deg),
    )


def then_words(best: BestMinutes) -> str | None:
    """Return what begins where best minutes end, ``behind blocked sky (roof)``; None if nothing."""
    if best.then_behind is not None:
        return blocked_words(best.then_behind)
    return None if best.then_through is None else warm_air_words(best.then_through)


def sight_words(*, behind: str | None, through: str | None) -> str | None:
    """Return what a body is behind or seen through, None where the view is free."""
    if behind is not None:
        return blocked_words(behind)
    return None if through is None else _SEEN_THROUGH.format(air=warm_air_words(through))
