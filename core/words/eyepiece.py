"""The picture in the eyepiece, in words: how large it looks, which way up it stands, what it leaves out."""

import math
from typing import Final

from core.gear.owned import Telescope, TelescopeKind
from core.looks.picture.sight import Sight, window_for
from core.looks.picture.stillness import Stillness
from core.looks.picture.turn import DRIFT_ANGLE_DEG, Turning, clock_hour
from core.words.quantities import field_text, power_text, rounded_text
from core.words.sizes import against_moon, apparent_size_text

# Said wherever the picture is shown.
PICTURE_LIMITS: Final = (
    "The picture is computed from the planet's disc, your telescope and tonight's air.",
    "Belts are plain bands; of Mars only the large regions are drawn, without this year's dust and cloud.",
    "The Moon's heights and plains are measured ones, but craters under about 25 km are left out.",
    "The eye is taken to follow half of the image's motion; the motion itself is not shown.",
    "A calm moment lasts a second or two, and in poor air there may be few of them.",
    "It may look softer than the ceiling suggests: the ceiling is a rule of thumb, this is a calculation.",
    "How much it is enlarged is meant for a screen or a page seen from about 45 cm.",
    (
        "Your own eye blurs what you see through the eyepiece by about 2 arcminutes. Where the picture is "
        "enlarged, that is left out; in the small pictures of the other powers it is in."
    ),
    "Not shown: how dim the view grows with power, colours of the planet, and faults of the optics.",
)
_SIZE: Final = "At {power} {body} looks {size} across, {known}."
_SIZE_WITH_RING: Final = "At {power} {body} looks {size} across (with its ring {whole}), {known}."
_ENLARGED: Final = "enlarged {times} times"
_AS_LARGE: Final = "about as large as it looks"
_SMALLER: Final = "smaller than it looks"
_WHOLE_FIELD: Final = "the whole field, {field}"
FIELD_UNKNOWN: Final = "field not known"
FILLS_IT: Final = "fills it"
_WIDE: Final = "{size} wide"
_POWER_AND_WIDTH: Final = "{power}: {size} wide"
_POWER_FILLED: Final = "{power}: fills it"
ONE_SCALE: Final = "All at one scale; the circle is the Moon to the naked eye"
AT_EACH_POWER: Final = "{planet} at each power"
CIRCLE: Final = "circle: the naked-eye Moon"
_WITH_CIRCLE: Final = "{how_large}; {circle}"
_SCALE: Final = "All at one scale, {how_large}; the circle is the Moon to the naked eye"
# Within a sixth it is called as large.
_ALIKE: Final = 7.0 / 6.0
STILLNESS_LABEL: Final = {
    Stillness.MOSTLY: "As it mostl&y looks",
    Stillness.CALM: "In a &calm moment",
}
_ONE_MOON: Final = "{moon} stands {widths} times the width of {body} away, towards {hour} o'clock."
_MOONS: Final = "Its moons from left to right: {moons}."
_CLOSE_UP: Final = "A part of it is enlarged, where day meets night."
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


def width_words(sight: Sight, *, brief: bool = False) -> str:
    """Return how wide a body looks, its ring included; in brief as the bare figure."""
    if sight.overfills:
        return FILLS_IT
    size = apparent_size_text(sight.apparent_extent_deg * 60.0)
    return size if brief else _WIDE.format(size=size)


def power_and_width_words(sight: Sight) -> str:
    """Return a power, and how wide a body looks with it, its ring included."""
    template = _POWER_FILLED if sight.overfills else _POWER_AND_WIDTH
    size = apparent_size_text(sight.apparent_extent_deg * 60.0)
    return template.format(power=power_text(sight.power), size=size)


def whole_field_words(true_field_deg: float) -> str:
    """Return what stands under a picture of the whole field."""
    return _WHOLE_FIELD.format(field=field_text(true_field_deg))


def enlarged_words(times: float) -> str:
    """Return how much a picture is enlarged against the view itself."""
    if times < 1.0 / _ALIKE:
        return _SMALLER
    if times < _ALIKE:
        return _AS_LARGE
    return _ENLARGED.format(times=rounded_text(times, 1 if times < 3.0 else 0))


def enlarged_words_with_circle(times: float) -> str:
    """Return how much a picture is enlarged, and what the dashed circle in it is."""
    return _WITH_CIRCLE.format(how_large=enlarged_words(times), circle=CIRCLE)


def scale_words(times: float) -> str:
    """Return how views beside each other are drawn, enlarged so many times."""
    return _SCALE.format(how_large=enlarged_words(times))


def moon_words(sight: Sight) -> str:
    """Return the moons as they stand in the eyepiece, the planet among them; without moons nothing."""
    places = sight.moon_places_arcsec()
    if not places:
        return ""
    named = [(right, name) for name, right, _ in places]
    named.append((0.0, sight.subject.disc.body.label))
    if len(places) == 1:
        ((name, right, up),) = places
        widths = math.hypot(right, up) / sight.subject.disc.equatorial_diameter_arcsec
        return _ONE_MOON.format(
            moon=name,
            widths=rounded_text(widths, 1),
            body=sight.subject.disc.body.label,
            hour=clock_hour(right, up),
        )
    return _MOONS.format(moons=", ".join(name for _, name in sorted(named)))


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
