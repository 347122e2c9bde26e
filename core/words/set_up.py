"""What the guided set-up of an observer says: what is missing, what was found, what there is so far."""

from typing import Final

from core.gear.owned import Telescope
from core.record.observer import Profile
from core.words.quantities import length_text, trimmed_text

AND_CLOSE: Final = "Close once more to leave without it."
_STEP: Final = "{number}. {title}"
_STEP_NOW: Final = "{number}. {title} (now)"
_BETWEEN_STEPS: Final = "  ·  "
_SO_FAR: Final = "So far: {things}."
_NOTHING_SO_FAR: Final = "Nothing yet. You can close at any time and go on in Gear."
_BARLOW: Final = "{name} Barlow"

NO_PLACE: Final = "No place yet. Choose a town or type coordinates, or press Next once more to do so later."
SEVERAL_TOWNS: Final = "“{name}” may be one of several towns: choose it in the list."
COORDINATE_MISSING: Final = "The {missing} is missing."
TYPED_PLACE: Final = "{latitude}, {longitude}: clock of {zone}"

_SIZE: Final = "{name}: {focal_length}, f/{ratio}"
NO_SCOPE: Final = (
    "No telescope yet. Pick the nearest size or type what stands on the tube, "
    "or press Next once more to do so later."
)
APERTURE_MISSING: Final = (
    "The aperture is missing. It is the width of the lens or mirror, and mostly stands on the tube."
)
FOCAL_LENGTH_MISSING: Final = (
    "The focal length is missing. It mostly stands on the tube, in mm; the focal ratio will do as well: f/8."
)
POWER_AND_APERTURE: Final = "Write the power and the aperture in mm, like 20-60x80 or 10x50."

NO_EYEPIECE: Final = (
    "No eyepiece is ticked. Tick those that you have, or press Next once more to do so later."
)
FILTER_TICKED: Final = "Ticked: {filter}."
NO_SUCH_FILTER: Final = (
    "No filter of this list goes by “{words}”. It can be added in Gear later, by the light it passes."
)
EYEPIECE_ADVICE: Final = (
    "The focal length in mm stands on each eyepiece. With a telescope of a usual size, what mostly comes "
    "in its box is ticked: compare it with yours, and untick what you lack."
)
WHICH_EYEPIECES: Final = "Which eyepieces came in the box, and which others?"
FILTER_ADVICE: Final = (
    "Most people have none, and none is fine: a filter gives a small gain in contrast and shows nothing "
    "new. The number on its rim is the colour number (Wratten)."
)
WHERE_FROM: Final = "Where do you look from?"
PLACE_ADVICE: Final = (
    "A town nearby is near enough: 20 km shift the planets by a quarter of a degree at most. Nothing "
    "leaves this machine."
)
HOW_HIGH: Final = "How high above the sea? Roughly will do; left empty it counts as sea level."
SCOPE_ADVICE: Final = (
    "Pick the nearest size, or type what stands on the tube. Everything can be changed afterwards."
)
OWN_FIGURES: Final = "Or your own figures, such as 114, 4½ in, f/8 or 20-60x80:"


def steps_text(titles: tuple[str, ...], now: int) -> str:
    """Return the steps by number and title, the one in hand (counted from 0) marked."""
    return _BETWEEN_STEPS.join(
        (_STEP_NOW if number == now else _STEP).format(number=number + 1, title=title)
        for number, title in enumerate(titles)
    )


def usual_size_text(scope: Telescope) -> str:
    """Return a usual size with its focal length, by which a tube is told from others of its aperture."""
    if scope.focal_length_mm is None or scope.focal_ratio is None:
        return scope.name
    return _SIZE.format(
        name=scope.name,
        focal_length=length_text(scope.focal_length_mm),
        ratio=trimmed_text(scope.focal_ratio, 1),
    )


def so_far_text(profile: Profile) -> str:
    """Return what a profile holds, so that a helper can read it out."""
    parts = [
        *(site.name for site in profile.sites),
        *(scope.name for scope in profile.telescopes),
        ", ".join(eyepiece.name for eyepiece in profile.eyepieces),
        ", ".join(_BARLOW.format(name=barlow.name) for barlow in profile.barlows),
        ", ".join(each.name for each in profile.filters),
    ]
    told = "; ".join(part for part in parts if part)
    return _SO_FAR.format(things=told) if told else _NOTHING_SO_FAR
