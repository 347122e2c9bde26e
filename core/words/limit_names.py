"""The names of what limits power, the same wherever they stand."""

from typing import Final

from core.air.finest_detail import LimitKind

# What sets a ceiling has one name wherever it stands. Aperture and air always bound power together.
_TOGETHER_NAME: Final = "aperture and air"
_NAMES: Final = {
    LimitKind.APERTURE: _TOGETHER_NAME,
    LimitKind.USUAL_AIR: "the usual air",
    LimitKind.TONIGHT_AIR: _TOGETHER_NAME,
    LimitKind.MIRROR: "aperture, air and warm mirror",
    LimitKind.HEIGHT: _TOGETHER_NAME,
}
# With the other word of the trade for the air, which each view says once.
_TOGETHER_EXPLAINED: Final = "aperture and air (seeing)"
_EXPLAINED: Final = {
    LimitKind.APERTURE: _TOGETHER_EXPLAINED,
    LimitKind.USUAL_AIR: "the usual air (seeing)",
    LimitKind.TONIGHT_AIR: _TOGETHER_EXPLAINED,
    LimitKind.MIRROR: "aperture, air (seeing) and warm mirror",
    LimitKind.HEIGHT: _TOGETHER_EXPLAINED,
}
# And what has the largest share in it.
_MOSTLY: Final = {
    LimitKind.APERTURE: "{limit}, mostly the aperture",
    LimitKind.USUAL_AIR: "{limit}",
    LimitKind.TONIGHT_AIR: "{limit}, mostly the air",
    LimitKind.MIRROR: "{limit}, mostly the mirror",
    LimitKind.HEIGHT: "{limit}, mostly the height, which smears the colours",
}


def limit_name(kind: LimitKind, *, explain_air: bool = False) -> str:
    """Return the name of a limit, as inside a sentence; ``explain_air`` adds the word "seeing" to the air."""
    return (_EXPLAINED if explain_air else _NAMES)[kind]


def limit_in_full(kind: LimitKind, *, explain_air: bool = False) -> str:
    """Return the same with what has the largest share in it: ``aperture and air, mostly the air``."""
    return _MOSTLY[kind].format(limit=limit_name(kind, explain_air=explain_air))
