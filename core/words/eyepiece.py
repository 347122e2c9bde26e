"""The picture in the eyepiece, in words: how large it looks, which way up it stands, what it leaves out."""

from typing import Final

from core.gear.owned import Telescope, TelescopeKind
from core.looks.picture.sight import Sight, window_for
from core.looks.picture.turn import DRIFT_ANGLE_DEG, Turning
from core.words.quantities import power_text
from core.words.sizes import against_moon, apparent_size_text

# Said wherever the picture is shown.
PICTURE_LIMITS: Final = (
    "The picture is computed from the planet's disc, your telescope and tonight's air.",
    "Belts, caps and plains are plain bands and patches, not what is there tonight.",
    "It shows a long look: in still moments the eye catches more.",
    "In a small aperture the air moves the image about more than it blurs it.",
    "It may look softer than the ceiling suggests: the ceiling is a rule of thumb, this is a calculation.",
    "Your eye is taken to blur by 2 arcminutes at the eyepiece; yours may be sharper, or not so sharp.",
    "Not shown: how dim the view grows with power, colours, and faults of the optics.",
)
_SIZE: Final = "At {power} {body} looks {size} across, {known}."
_SIZE_WITH_RING: Final = "At {power} {body} looks {size} across (with its ring {whole}), {known}."
_CLOSE_UP: Final = "Enlarged is a part of it, where day meets night."
_DRIVEN: Final = {
    Turning.ERECT: "Seen the right way up, north at {north} o'clock.",
    Turning.UPSIDE_DOWN: "Seen upside down, north at {north} o'clock.",
    Turning.MIRRORED: ("Seen the right way up, but mirror-reversed left to right, north at {north} o'clock."),
}
_DRIFTING: Final = {
    Turning.ERECT: "Seen the right way up, north at {north} o'clock; it drifts towards {drift} o'clock.",
    Turning.UPSIDE_DOWN: "Seen upside down, north at {north} o'clock; it drifts towards {drift} o'clock.",
    Turning.MIRRORED: (
        "Seen the right way up, but mirror-reversed left to right, north at {north} o'clock; "
        "it drifts towards {drift} o'clock."
    ),
}
_REFLECTOR: Final = (
    "A reflector's eyepiece sits at the side of the tube: what is up depends on where you stand."
)


def size_words(sight: Sight) -> str:
    """Return how large a body looks at a power, against the Moon that everybody knows."""
    template = _SIZE if sight.subject.ring is None else _SIZE_WITH_RING
    return template.format(
        power=power_text(sight.power),
        body=sight.subject.disc.body.label,
        size=apparent_size_text(sight.apparent_diameter_arcmin),
        whole=apparent_size_text(sight.apparent_extent_deg * 60.0),
        known=against_moon(sight.apparent_diameter_arcmin),
    )


def close_up_words(sight: Sight) -> str:
    """Return which part the enlarged picture shows, where a body is too wide to be shown whole."""
    return "" if sight.apparent_extent_deg <= window_for(sight.subject, sight.power) else _CLOSE_UP


def turning_words(sight: Sight) -> str:
    """Return how the telescope turns the view, which way is north, and which way it drifts."""
    templates = _DRIVEN if sight.scope.driven else _DRIFTING
    turned = templates[sight.turn.turning].format(
        north=sight.turn.clock_hour(0.0), drift=sight.turn.clock_hour(DRIFT_ANGLE_DEG)
    )
    return " ".join(filter(None, (turned, turning_note(sight.scope))))


def turning_note(scope: Telescope) -> str | None:
    """Return what must be said of the way up in such a telescope, or None."""
    return _REFLECTOR if scope.kind is TelescopeKind.REFLECTOR else None
