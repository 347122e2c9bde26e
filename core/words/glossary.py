"""Every term of the trade that the window uses, explained in two sentences, once.

The file is long because the list is: a term is looked for here and nowhere else.
"""

import re
from collections.abc import Iterable
from enum import StrEnum
from typing import Final

from attrs import frozen

_SENTENCE: Final = re.compile(r".*?\.(?= |$)")
_WHOLE_WORD: Final = r"(?<!\w)(?:{})(?!\w)"


class Sketch(StrEnum):
    """The small drawings that help with some of the terms."""

    EXIT_PUPIL = "exit_pupil"
    AIR_PATH = "air_path"
    OBSTRUCTION = "obstruction"
    FIELDS = "fields"
    EYE_RELIEF = "eye_relief"
    COLLIMATION = "collimation"


@frozen(kw_only=True)
class Term:
    """One term: its name, what it means, and the other words by which it stands on screen."""

    name: str
    meaning: str
    also: tuple[str, ...] = ()
    sketch: Sketch | None = None

    @property
    def in_short(self) -> str:
        """The first sentence of its meaning."""
        first = _SENTENCE.match(self.meaning)
        return self.meaning if first is None else first.group()


GLOSSARY: Final = (
    Term(
        name="air (seeing)",
        meaning=(
            "How steady the air is between you and the planet. Warm and cold air mixing bend the light "
            "about, so that the planet boils or swims, and no telescope sees through that."
        ),
        also=("seeing", "tonight's air"),
    ),
    Term(
        name="air path",
        meaning=(
            "How much air the light comes through, counted in times the air straight overhead. At 30° high "
            "it is 2, at 15° nearly 4, and the more air, the softer the view."
        ),
        also=("path",),
        sketch=Sketch.AIR_PATH,
    ),
    Term(
        name="altitude",
        meaning=(
            "How high something stands above the horizon, in degrees: 0° on the horizon, 90° overhead. A "
            "fist held out at arm's length is about 10°."
        ),
        also=("height",),
    ),
    Term(
        name="aperture",
        meaning=(
            "The width of the opening that lets light into the telescope. It sets the finest detail that "
            "the telescope can ever show, and how bright the view is."
        ),
    ),
    Term(
        name="apparent field",
        meaning=(
            "How wide the bright circle in the eyepiece looks, in degrees. Divided by the power it gives "
            "about the piece of sky that fits in."
        ),
        sketch=Sketch.FIELDS,
    ),
    Term(
        name="arcsecond",
        meaning=(
            "A small angle, written ″: a degree has 3,600 of them, and 60 make a minute of arc, written ′. "
            "Jupiter is 30 to 50 of them across, the Moon about 1,900."
        ),
        also=("arcsec", "arcseconds"),
    ),
    Term(
        name="assumed",
        meaning=(
            "Taken by the program, since nobody said otherwise. Say what you know, such as how the air looks "
            "or when you are out, and the word is gone."
        ),
    ),
    Term(
        name="azimuth",
        meaning=(
            "The direction along the horizon, in degrees from north through east: east is 90°, south 180°, "
            "west 270°. The program counts from true north, not from that of a compass needle."
        ),
    ),
    Term(
        name="Barlow",
        meaning=(
            "A lens before the eyepiece that multiplies the power by its factor. A 2x Barlow turns a 10 mm "
            "eyepiece into one of 5 mm, as it were."
        ),
        also=("Barlows",),
    ),
    Term(
        name="barrel",
        meaning=(
            "The tube of an eyepiece that goes into the focuser, 24.5, 31.75 or 50.8 mm wide. It must be as "
            "wide as the focuser, or narrower and held by an adapter."
        ),
    ),
    Term(
        name="bear",
        meaning=(
            "What telescope and air bear is the power up to which the view still gains. Above it the planet "
            "grows larger and softer, and shows nothing new."
        ),
        also=("bears", "borne"),
    ),
    Term(
        name="begin here",
        meaning=(
            "What part a power plays: begin with the one marked so, go up while the view gains, and no "
            "higher than the top for tonight. What is lower is for finding the planet."
        ),
        also=("top tonight", "for finding"),
    ),
    Term(
        name="blur",
        meaning=(
            "How wide the air smears a star over a long look, in arcseconds, as it would straight overhead. "
            "Below 1″ the air is steady, about 1.5″ is fair, at 3″ it boils."
        ),
    ),
    Term(
        name="ceiling",
        meaning=(
            "The power above which this telescope, in this air and at this height, most likely shows no "
            "more. It is an estimate with a band about it, so a step above is worth a try in calm moments."
        ),
        also=("worth a try",),
    ),
    Term(
        name="central meridian",
        meaning=(
            "The longitude on the planet that faces you just now. It tells which side of Mars, or whether "
            "Jupiter's red spot, is in view."
        ),
    ),
    Term(
        name="collimation",
        meaning=(
            "Having all mirrors or lenses in one line. When it is off the view is soft at high power, and a "
            "star out of focus shows a ring with its dark middle to one side."
        ),
        also=("collimated",),
        sketch=Sketch.COLLIMATION,
    ),
    Term(
        name="dew point",
        meaning=(
            "The temperature at which the air's water settles on what is as cold. Glass that faces the open "
            "sky gets colder than the air, so it takes dew first."
        ),
        also=("dew",),
    ),
    Term(
        name="diagonal",
        meaning=(
            "A mirror or prism that turns the light to the side, so that you look down into the eyepiece. "
            "Most show the planet mirrored."
        ),
    ),
    Term(
        name="dispersion",
        meaning=(
            "The air spreads colours like a weak prism: a low planet has a blue edge above and a red one "
            "below. It smears fine detail, most of all under 30°."
        ),
    ),
    Term(
        name="drift",
        meaning=(
            "How long a planet takes through the middle of the field when the telescope does not follow the "
            "sky. The higher the power, the sooner it is gone."
        ),
    ),
    Term(
        name="elongation",
        meaning=(
            "The angle between a planet and the Sun. Mercury and Venus are best looked for when it is large."
        ),
    ),
    Term(
        name="exit pupil",
        meaning=(
            "The width of the beam that leaves the eyepiece: aperture divided by power. Under 1 mm the view "
            "gets dim and floaters in the eye begin to show; over the width of your own pupil light is lost."
        ),
        also=("pupil",),
        sketch=Sketch.EXIT_PUPIL,
    ),
    Term(
        name="eye relief",
        meaning=(
            "How far behind the last lens the eye must be to see the whole field. With glasses on it should "
            "be about 15 mm or more, by a rule of thumb."
        ),
        sketch=Sketch.EYE_RELIEF,
    ),
    Term(
        name="field stop",
        meaning=(
            "The ring inside the eyepiece that makes the sharp edge of the field. Its width, with the focal "
            "length of the telescope, gives the true field most exactly."
        ),
    ),
    Term(
        name="finder",
        meaning=(
            "The small telescope or pointer on the tube that shows where to point it. It must be aligned "
            "with the main telescope, best by day on something far off, and never near the Sun."
        ),
    ),
    Term(
        name="finest detail",
        meaning=(
            "The smallest thing that aperture, air and spread colours together let through, in arcseconds. "
            "The ceiling is the power that makes it just large enough for the eye."
        ),
    ),
    Term(
        name="first look",
        meaning=(
            "How the air seems before the first step up: steady, fair or boiling. It is where the ceiling "
            "comes from until your verdicts after each step know better."
        ),
    ),
    Term(
        name="floaters",
        meaning=(
            "Specks and threads inside your own eye that show up in a narrow beam. They are harmless "
            "mostly, and less power makes them fade."
        ),
    ),
    Term(
        name="focal length",
        meaning=(
            "How long the way of the light is from lens or mirror to the sharp image. That of the telescope "
            "divided by that of the eyepiece is the power."
        ),
    ),
    Term(
        name="focal ratio",
        meaning=(
            "Focal length divided by aperture, written f/8. Below about f/6 the alignment of a reflector "
            "must be more exact."
        ),
    ),
    Term(
        name="hours out",
        meaning=(
            "From when to when you are outside. The answer, the best minutes and the order of the evening "
            "keep to them, and say so where staying up would give more."
        ),
    ),
    Term(
        name="magnitude",
        meaning=(
            "How bright something looks: the smaller the number the brighter, and below zero for the "
            "brightest. Venus is about −4, Saturn about 1, Neptune about 8."
        ),
    ),
    Term(
        name="mask",
        meaning=(
            "A cover with a smaller hole to one side, put before a large reflector. It gives up light and "
            "finest detail for a clear opening that unsteady air troubles less."
        ),
    ),
    Term(
        name="Moon widths",
        meaning=(
            "How many times the width of the Moon, half a degree, fits across the field of an eyepiece. It "
            "tells how easily a planet is found and kept in view."
        ),
        also=("Moon width",),
    ),
    Term(
        name="obstruction",
        meaning=(
            "The share of the opening that the small mirror of a reflector hides, as a width. Above about a "
            "quarter it softens the contrast of fine markings a little."
        ),
        sketch=Sketch.OBSTRUCTION,
    ),
    Term(
        name="overhead",
        meaning=(
            "Straight up, where the light comes through the least air. Blur is told as it would be there, so "
            "that one night compares with another whatever the height of the planet."
        ),
    ),
    Term(
        name="power",
        meaning=(
            "How many times wider a thing looks than to the bare eye. Start low and go up step by step "
            "while the view still gains."
        ),
        also=("magnification",),
    ),
    Term(
        name="reducer",
        meaning=(
            "A lens before the eyepiece that makes the power smaller and the field wider. It is fitted by "
            "day, not in the dark between two steps."
        ),
    ),
    Term(
        name="resolution",
        meaning=(
            "The closest pair of equal stars that an aperture can part, 116 divided by its millimetres, in "
            "arcseconds (Dawes 1867). Dark lines on bright ground can be seen finer."
        ),
        also=("Dawes",),
    ),
    Term(
        name="ring opening",
        meaning=(
            "The angle at which we look down on Saturn's ring. At 0° it is edge on and vanishes, at 27° it "
            "is open as wide as it gets."
        ),
    ),
    Term(
        name="rung",
        meaning=(
            "One step of the power ladder: an eyepiece with or without a Barlow, and the power it gives. "
            "Powers within 3 % of each other count as one."
        ),
        also=("rungs", "ladder"),
    ),
    Term(
        name="settled",
        meaning=(
            "When the mirror has come so near the air's temperature that its own warmth hardly blurs. It "
            "takes longer than being usable, and while the air falls fast it never quite gets there."
        ),
        also=("usable",),
    ),
    Term(
        name="stop line",
        meaning=(
            "Ten minutes before sunrise: off the planet and the cap on the telescope by then. The Sun "
            "through any optics blinds at once."
        ),
        also=("stop",),
    ),
    Term(
        name="terminator",
        meaning=(
            "The line between day and night on the Moon or a planet. On the Moon the shadows there are "
            "long, and craters stand out."
        ),
    ),
    Term(
        name="transit",
        meaning=(
            "When a body crosses the line from north to south and stands highest. It is also said of a moon "
            "that passes before its planet."
        ),
    ),
    Term(
        name="true field",
        meaning=("The piece of sky that fits into the eyepiece, in degrees. The Moon is half a degree wide."),
        also=("field",),
        sketch=Sketch.FIELDS,
    ),
    Term(
        name="usual air limit",
        meaning=(
            "On most nights the air bears no more than about 300x, whatever the telescope (common "
            "practice). On a rare steady night you may lift it to 400x."
        ),
        also=("usual air", "usual limit"),
    ),
    Term(
        name="UT",
        meaning=(
            "Universal time, the one clock by which almanacs and observers everywhere tell when something "
            "happens. Each site's own clock is so many hours ahead of it or behind."
        ),
        also=("universal time",),
    ),
    Term(
        name="verdict",
        meaning=(
            "What you say after a step: more detail, no change, less detail, or that you cannot tell. From "
            "these the program learns what tonight bears."
        ),
        also=("verdicts",),
    ),
    Term(
        name="warm air",
        meaning=(
            "Heat that rises from roofs, chimneys and walls into the line of sight. Through it no planet is "
            "sharp, however good the night."
        ),
    ),
    Term(
        name="Wratten",
        meaning=(
            "The usual numbers of colour filters, such as 8 for light yellow and 25 for red. A filter gives "
            "a small gain in contrast, no new features; none here makes the Sun safe to look at."
        ),
        also=("filter", "filters"),
    ),
)

_BY_WORD: Final = {word.casefold(): term for term in GLOSSARY for word in (term.name, *term.also)}
# Longer words first, so that "exit pupil" is not taken for "pupil".
_WORDS: Final = re.compile(
    _WHOLE_WORD.format("|".join(re.escape(word) for word in sorted(_BY_WORD, key=len, reverse=True))),
    re.IGNORECASE,
)


def terms_in(text: str) -> tuple[Term, ...]:
    """Return the terms that stand in a text, in their order, each once."""
    return tuple(dict.fromkeys(_BY_WORD[found.casefold()] for found in _WORDS.findall(text)))


def terms_in_all(texts: Iterable[str]) -> tuple[Term, ...]:
    """Return the terms that stand in some texts, in the order of the glossary."""
    found = {term for text in texts for term in terms_in(text)}
    return tuple(term for term in GLOSSARY if term in found)
