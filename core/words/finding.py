"""How to find a body, in words: where it stands, from what it is found, what it looks like."""

from collections.abc import Iterator
from typing import Final

from core.looks.finding import DiscFrom, Finding
from core.looks.picture.turn import clock_hour
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.landmarks import Landmark
from core.words.cautions import daylight_caution
from core.words.directions import azimuth_text, compass_text, where_text
from core.words.names import listed, opening
from core.words.quantities import about_power_text, angle_text, power_text, rounded_text
from core.words.site_clock import SiteClock, clock_of

HEADING: Final = "How to find it"
NOTHING_TO_FIND: Final = "Nothing can be looked at on this evening."
# Hands: rules of thumb.
HANDS: Final = (
    "Face what is named: 12 o'clock is straight up from it, 3 o'clock to its right. At arm's length a fist "
    "is about 10° wide, a spread hand 20°, a thumb 2°."
)
_WHERE: Final = "{body} at {time}: {where} (azimuth {azimuth}), in {constellation}."
_FROM: Final = "{angle} from {landmark} towards {hour} o'clock"
_IT_LIES: Final = "It lies {ways}."
_IT_LIES_ROUGHLY: Final = (
    "It lies {ways}. That leads only near it: to tell it from the stars around it takes a chart, followed "
    "from star to star."
)
_TAKES_CHART: Final = "To tell it from the stars around it takes a chart, followed from star to star."
# Nearer than this the tenths of a degree are told.
_TENTHS_BELOW_DEG: Final = 3.0

# As they are seen (common practice, no source).
_COLOURS: Final = {
    Body.MERCURY: "a pale orange star, low in the twilight",
    Body.VENUS: "brilliant white, brighter than any star",
    Body.MARS: "a steady orange star",
    Body.JUPITER: "a steady, creamy white star, brighter than any real one",
    Body.SATURN: "a steady, pale yellow star",
    Body.URANUS: "a star of a pale blue-green",
    Body.NEPTUNE: "a faint star of a pale blue, if you see its colour at all",
}
_NAKED_EYE: Final = "To the eye it is {colour} (magnitude {magnitude})."
_WITH_GLASS: Final = (
    "Too faint for the eye alone: in binoculars or a good finder it is {colour}, among others like it "
    "(magnitude {magnitude})."
)
_DISC: Final = "A disc, no longer a star, from about {power}."
_DISC_OWNED: Final = "A disc, no longer a star, from about {power}: take {combination}, {own}."
_DISC_BUILT_IN: Final = "A disc, no longer a star, from about {power}: set the telescope to {own}."
_DISC_TOO_HIGH: Final = "A disc, no longer a star, from about {power}: more than your eyepieces give."
_DISC_AT_ONCE: Final = "Even your lowest power shows a disc, not a star."
_HARDLY_A_DISC: Final = (
    "Hardly a disc tonight: that takes about {power}, and there aperture and air (seeing) bear about {borne}."
)
# Where what is borne is enough, but no power owned lies between.
_DISC_OVER_CEILING: Final = (
    "A disc, no longer a star, from about {power}: your first such power, {own}, is over the {borne} or so "
    "that aperture and air (seeing) bear."
)
_STAYS_A_STAR: Final = "In an aperture this small it stays a star at any power."

_WALL_WEST: Final = (
    "Stand where a wall or a house hides the Sun, in the {sun}, and {body} stands clear of its eastern edge: "
    "the Sun then goes further behind it."
)
_WALL_EAST: Final = (
    "Stand where a wall or a house hides the Sun, in the {sun}, and {body} stands clear of its western edge: "
    "the Sun comes towards that edge, so end before the shadow leaves you."
)


def finding_sentences(
    finding: Finding, clock: SiteClock, *, has_scope: bool, with_caution: bool = True
) -> Iterator[str]:
    """Yield how a body is found, where the Sun is up the place to stand first.

    ``with_caution`` is False where the words of safety stand elsewhere on the page.
    """
    daylight = finding.daylight
    if daylight is not None:
        if with_caution:
            yield daylight_caution(daylight)
        template = _WALL_WEST if daylight.east_of_sun else _WALL_EAST
        yield template.format(sun=compass_text(finding.sun_azimuth_deg), body=finding.body.label)
    yield where_sentence(finding, clock)
    yield from _where_it_lies(finding)
    yield from _what_it_looks_like(finding)
    if finding.body is not Body.MOON and has_scope:
        yield _disc_words(finding.disc_from)


def brief_finding_sentences(finding: Finding, clock: SiteClock) -> Iterator[str]:
    """Yield where a body stands, from what it is found, its colour; of a faint one what its disc takes."""
    yield where_sentence(finding, clock)
    yield from _where_it_lies(finding)
    yield from _what_it_looks_like(finding)
    if finding.takes_glass:
        yield _disc_words(finding.disc_from)


def ways_to_find(situation: Situation) -> tuple[str, ...]:
    """Return the sentences of how the planet in hand is found where the telescope points, none of none.

    The words of safety stand beside them.
    """
    finding, clock = situation.finding, clock_of(situation)
    if finding is None or clock is None:
        return ()
    has_scope = situation.scope is not None
    return (*finding_sentences(finding, clock, has_scope=has_scope, with_caution=False), HANDS)


def findings_text(situation: Situation) -> str:
    """Return how every body is found, a paragraph each, and how angles are measured by hand."""
    clock, has_scope = clock_of(situation), situation.scope is not None
    paragraphs = [
        " ".join(finding_sentences(each, clock, has_scope=has_scope))
        for each in situation.findings
        if clock is not None
    ]
    return "\n\n".join([*paragraphs, HANDS]) if paragraphs else NOTHING_TO_FIND


def where_sentence(finding: Finding, clock: SiteClock) -> str:
    """Return where a body stands, and when: ``Uranus at 21:30: south-east, high up: 68° ...``."""
    position = finding.position
    return _WHERE.format(
        body=opening(finding.body),
        time=clock.time(position.time),
        where=where_text(position.altitude_deg, position.azimuth_deg),
        azimuth=azimuth_text(position.azimuth_deg),
        constellation=finding.constellation,
    )


def _what_it_looks_like(finding: Finding) -> Iterator[str]:
    """Yield its colour and how bright it is, at night."""
    if finding.body not in _COLOURS or finding.daylight is not None:
        return
    template = _WITH_GLASS if finding.takes_glass else _NAKED_EYE
    magnitude = rounded_text(finding.magnitude, 1).replace("-", "−")
    yield template.format(colour=_COLOURS[finding.body], magnitude=magnitude)


def _where_it_lies(finding: Finding) -> Iterator[str]:
    """Yield how it lies from something bright, and that a chart must lead the last part of the way."""
    if finding.landmarks:
        template = _IT_LIES_ROUGHLY if finding.takes_chart else _IT_LIES
        yield template.format(ways=listed(map(landmark_text, finding.landmarks)))
    elif finding.takes_chart:
        yield _TAKES_CHART


def landmark_text(landmark: Landmark) -> str:
    """Return how a body lies from something bright: ``9° from Aldebaran towards 1 o'clock``."""
    angle = landmark.angle_deg
    return _FROM.format(
        angle=angle_text(angle, 1 if angle < _TENTHS_BELOW_DEG else 0),
        landmark=landmark.what.label,
        hour=clock_hour(landmark.right, landmark.up),
    )


def _disc_words(disc: DiscFrom | None) -> str:
    if disc is None:
        return _STAYS_A_STAR
    power = about_power_text(disc.power)
    if not disc.has_kit:
        return _DISC.format(power=power)
    if disc.combination is None:
        return _DISC_TOO_HIGH.format(power=power)
    own = power_text(disc.combination.power)
    if disc.borne_power is not None:
        borne = about_power_text(disc.borne_power)
        is_borne = disc.power <= disc.borne_power or power == borne
        return (_DISC_OVER_CEILING if is_borne else _HARDLY_A_DISC).format(power=power, own=own, borne=borne)
    if disc.at_once:
        return _DISC_AT_ONCE
    if disc.combination.eyepiece is None:
        return _DISC_BUILT_IN.format(power=power, own=own)
    return _DISC_OWNED.format(power=power, combination=disc.combination.label, own=own)
