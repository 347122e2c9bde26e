"""How a planet looks, as plain text for a terminal."""

from collections.abc import Iterable, Iterator, Sequence

from core.looks.filter_offers import FilterOffers
from core.looks.picture.sight import Sight
from core.looks.planet_appearance import PlanetAppearance
from core.plain_text import WIDTH, printable, shown_name, table, width_of, wrapped
from core.words.aim import aim_notices, no_ceiling_words
from core.words.eyepiece import FILLS_IT, turning_words
from core.words.filters import filter_sentences, filters_heading
from core.words.happenings import happening_words
from core.words.looking_for import judged_text, likelihood_text, short_text
from core.words.looks import air_words, facts, heading_words, standing_words
from core.words.quantities import field_text, power_text
from core.words.reports import CAUTION, LIKELIHOOD, LOOKS, REFUSED, THROUGH, WHAT_TO_LOOK_FOR
from core.words.site_clock import SiteClock
from core.words.sizes import apparent_size_text, moons_text


def looks_text(
    appearance: PlanetAppearance,
    *,
    filters: FilterOffers | None = None,
    ways: Sequence[str] = (),
    clock: int = 24,
    width: int = WIDTH,
) -> str:
    """Return a planet's looks as text: the disc, what happens on it, the view, and what to expect.

    ``filters`` are what the owner's filters are good for, ``ways`` the sentences of how it is found.
    """
    site_clock = SiteClock(zone=appearance.site.zone, hours=clock)
    lines = [*_heading(appearance, site_clock, width), ""]
    lines += _beside(list(facts(appearance.subject)), width)
    lines += _apart(happening_words(appearance.planet, appearance.happenings, site_clock), width)
    if appearance.aim.at is not None:
        lines += _apart(filter(None, [air_words(appearance)]), width)
    lines += _apart(filter(None, [" ".join(ways)]), width)
    lines += [*_view(appearance, width), *_expectations(appearance, width), *_filters(filters, width)]
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


def _heading(appearance: PlanetAppearance, clock: SiteClock, width: int) -> Iterator[str]:
    heading = LOOKS.format(heading=heading_words(appearance, clock), site=shown_name(appearance.site.name))
    yield from wrapped(heading, width)
    if not appearance.aim.is_offered:
        yield from wrapped(REFUSED.format(reason=printable(no_ceiling_words(appearance.aim) or "")), width)
    yield from wrapped(standing_words(appearance), width)
    for caution in aim_notices(appearance.aim):
        yield from wrapped(CAUTION.format(caution=printable(caution)), width)


def _view(appearance: PlanetAppearance, width: int) -> Iterator[str]:
    if appearance.ladder is None or not appearance.sights:
        return
    first = appearance.sights[0]
    yield ""
    name = shown_name(appearance.ladder.scope.name)
    yield from wrapped(THROUGH.format(scope=name, turning=turning_words(first)), width)
    rows = [("power", "field", "looks", "naked-eye Moons wide"), *map(_rung, appearance.sights)]
    yield from table(rows, width, right=(0, 1, 2, 3))


def _rung(sight: Sight) -> tuple[str, str, str, str]:
    field = "?" if sight.true_field_deg is None else field_text(sight.true_field_deg)
    if sight.overfills:
        return power_text(sight.power), field, FILLS_IT, ""
    size = apparent_size_text(sight.apparent_diameter_arcmin)
    return power_text(sight.power), field, size, moons_text(sight.apparent_diameter_arcmin)


def _filters(offers: FilterOffers | None, width: int) -> Iterator[str]:
    sentences = () if offers is None else filter_sentences(offers)
    if offers is None or not sentences:
        return
    yield ""
    yield filters_heading(offers)
    for sentence in sentences:
        yield from wrapped(printable(sentence), width, indent="  ")


def _expectations(appearance: PlanetAppearance, width: int) -> Iterator[str]:
    if not appearance.expectations:
        return
    yield ""
    yield WHAT_TO_LOOK_FOR
    yield from wrapped(judged_text(appearance.expectations[0].seen), width)
    for item in appearance.expectations:
        yield from wrapped(
            LIKELIHOOD.format(likelihood=likelihood_text(item.likelihood).lower(), feature=short_text(item)),
            width,
            indent=" " * 10,
        )
