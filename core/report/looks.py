"""How a planet looks, as plain text for a terminal of 80 columns."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from core.looks.looks import Looks
from core.looks.picture.sight import Sight
from core.plain_text import WIDTH, columns, cut, printable, width_of, wrapped
from core.words.aim import aim_notices, no_ceiling_words
from core.words.directions import altitude_text, compass_text
from core.words.eyepiece import turning_words
from core.words.looking_for import feature_text, ground_text, likelihood_text
from core.words.looks import air_words, facts, happening_words, heading_words
from core.words.quantities import field_text, power_text, rounded_text
from core.words.site_clock import SiteClock
from core.words.sizes import apparent_size_text, moons_text

_LONGEST_NAME: Final = 28


def looks_text(looks: Looks, *, clock: int = 24, width: int = WIDTH) -> str:
    """Return a planet's looks as text: the disc, what happens on it, the view, and what to expect."""
    site_clock = SiteClock(zone=looks.site.zone, hours=clock)
    lines = [*_heading(looks, site_clock, width), ""]
    lines += _beside(list(facts(looks.subject)), width)
    lines += _apart(happening_words(looks.planet, looks.happenings, site_clock), width)
    if looks.aim.at is not None:
        lines += _apart(filter(None, [air_words(looks)]), width)
    lines += [*_view(looks, width), *_expectations(looks, width)]
    return "\n".join(lines)


def _beside(rows: Sequence[tuple[str, str]], width: int) -> Iterator[str]:
    """Yield labels with their words beside them, wrapped under themselves."""
    offset = max(width_of(label) for label, _ in rows) + 2
    for label, words in rows:
        first, *more = wrapped(words, width - offset)
        yield label.ljust(offset) + first
        yield from (" " * offset + line for line in more)


def _apart(paragraphs: Iterable[str], width: int) -> Iterator[str]:
    """Yield paragraphs as lines with an empty one before them, or nothing."""
    for number, paragraph in enumerate(paragraphs):
        if number == 0:
            yield ""
        yield from wrapped(paragraph, width, indent="  ")


def _heading(looks: Looks, clock: SiteClock, width: int) -> Iterator[str]:
    place = cut(printable(looks.site.name), _LONGEST_NAME)
    yield from wrapped(f"{heading_words(looks, clock)}, {place}", width)
    height = altitude_text(looks.position.altitude_deg)
    if not looks.aim.is_offered:
        yield from wrapped(f"{printable(no_ceiling_words(looks.aim) or '')}.", width)
    if looks.aim.at is None:
        yield "The figures are those of the moment at which it stands highest."
    elif looks.position.altitude_deg < 0.0:
        yield "It is below the horizon at this time."
    elif looks.position.path is None:
        yield f"It stands {height} high in the {compass_text(looks.position.azimuth_deg)}: too low to look."
    else:
        path = f"{rounded_text(looks.position.path, 2)} times the air overhead"
        yield f"It stands {height} high in the {compass_text(looks.position.azimuth_deg)}, {path}."
    for caution in aim_notices(looks.aim):
        yield from wrapped(f"Caution: {printable(caution)}", width)


def _view(looks: Looks, width: int) -> Iterator[str]:
    if looks.ladder is None or not looks.sights:
        return
    first = looks.sights[0]
    yield ""
    name = cut(printable(looks.ladder.scope.name), _LONGEST_NAME)
    yield from wrapped(f"Through {name}. {turning_words(first)}", width)
    rows = [("power", "field", "looks", "naked-eye Moons wide"), *map(_rung, looks.sights)]
    yield from (cut(line, width) for line in columns(rows, right=(0, 1, 2, 3)))


def _rung(sight: Sight) -> tuple[str, str, str, str]:
    field = "?" if sight.true_field_deg is None else field_text(sight.true_field_deg)
    if sight.overfills:
        return power_text(sight.power), field, "fills it", ""
    size = apparent_size_text(sight.apparent_diameter_arcmin)
    return power_text(sight.power), field, size, moons_text(sight.apparent_diameter_arcmin)


def _expectations(looks: Looks, width: int) -> Iterator[str]:
    if not looks.expectations:
        return
    yield ""
    yield "What to look for (an estimate)"
    for item in looks.expectations:
        yield from wrapped(
            f"{likelihood_text(item.likelihood).lower():<9} {feature_text(item)}: {ground_text(item)}.",
            width,
            indent=" " * 10,
        )
