"""What else a planet's year brings, in words: ring, half-lit Venus, two shadows at once, a face of Mars."""

from collections.abc import Iterator
from datetime import date
from typing import Final

from core.sky.sunlight import TOO_NEAR_THE_SUN_DEG
from core.words.dates import date_text, short_date_text, weekday_text
from core.words.names import listed
from core.words.quantities import angle_text
from core.words.site_clock import SiteClock
from core.words.year import local_day
from core.year.double_shadows import DoubleShadow
from core.year.mars_faces import FacingUs
from core.year.phenomena import Aspect
from core.year.ring_year import RingOpening, RingYear
from core.year.year import Year

_RING_OPENS: Final = (
    "The ring opens from {narrow} around {narrow_day} to {wide} around {wide_day}. Seen from the Earth it "
    "is next edge-on on {edge_day}."
)
_RING_CLOSES: Final = (
    "The ring closes from {wide} around {wide_day} to {narrow} around {narrow_day}. Seen from the Earth "
    "it is next edge-on on {edge_day}."
)
_RING_EDGE_ON: Final = (
    "Seen from the Earth the ring is edge-on on {edge_day}; it opens to {wide} at most, around {wide_day}."
)
_RING_EDGE_ON_UNSEEN: Final = (
    "The ring is edge-on to the Earth on {edge_day}, when Saturn is too near the Sun to be seen; it opens to "
    "{wide} at most, around {wide_day}."
)
_HALF_LIT: Final = (
    "By geometry Venus is half lit on {days}; to the eye it mostly seems so some days earlier in the evening "
    "sky, later in the morning sky."
)
_DOUBLE_SHADOWS: Final = "Next times with the shadows of two moons on Jupiter at once: {times}."
_NO_DOUBLE_SHADOWS: Final = (
    "No two moons throw their shadows on Jupiter at once while it can be looked at in the months ahead."
)
_DOUBLE_SHADOW: Final = "{one} and {other} on {day}, {span}"
_FACING: Final = "Longitude {longitude} on Mars faces us while it is highest on these evenings: {runs}."
_NEVER_FACING: Final = (
    "Longitude {longitude} on Mars does not face us while it is highest in these twelve months."
)
_WITHIN_MONTH: Final = "{first}–{last}"
_OVER_MONTHS: Final = "{first} to {last}"


def year_notes(year: Year, clock: SiteClock) -> Iterator[str]:
    """Yield what else the year brings, a sentence or two each; nothing of a planet that is never seen."""
    if year.best.highest is None:
        return
    if year.ring is not None:
        yield _ring_words(year, year.ring)
    half_lit = [local_day(year, each.time) for each in year.phenomena if each.aspect is Aspect.HALF_LIT]
    if half_lit:
        yield _HALF_LIT.format(days=listed([date_text(day) for day in half_lit]))
    if year.double_shadows is not None:
        yield _double_shadow_words(year.double_shadows, clock)
    if year.facing is not None:
        yield _facing_words(year, year.facing)


def _ring_words(year: Year, ring: RingYear) -> str:
    opens = ring.narrowest.time <= ring.widest.time
    template = _RING_OPENS if opens else _RING_CLOSES
    if ring.is_edge_on_within(year.outlook.evenings):
        template = (
            _RING_EDGE_ON_UNSEEN if ring.edge_on_elongation_deg < TOO_NEAR_THE_SUN_DEG else _RING_EDGE_ON
        )
    return template.format(
        narrow=angle_text(ring.narrowest.opening_deg),
        narrow_day=_day_text(year, ring.narrowest),
        wide=angle_text(ring.widest.opening_deg),
        wide_day=_day_text(year, ring.widest),
        edge_day=date_text(local_day(year, ring.edge_on)),
    )


def _day_text(year: Year, opening: RingOpening) -> str:
    return date_text(local_day(year, opening.time))


def _double_shadow_words(shadows: tuple[DoubleShadow, ...], clock: SiteClock) -> str:
    if not shadows:
        return _NO_DOUBLE_SHADOWS
    times = [
        _DOUBLE_SHADOW.format(
            one=each.moons[0].label,
            other=each.moons[1].label,
            day=weekday_text(clock.day(each.start)),
            span=clock.span(each.start, each.end),
        )
        for each in shadows
    ]
    return _DOUBLE_SHADOWS.format(times="; ".join(times))


def _facing_words(year: Year, facing: FacingUs) -> str:
    longitude = angle_text(facing.longitude_deg)
    if not facing.evenings:
        return _NEVER_FACING.format(longitude=longitude)
    runs = [_run_text(year.dates[first], year.dates[last]) for first, last in facing.evenings]
    return _FACING.format(longitude=longitude, runs=", ".join(runs))


def _run_text(first: date, last: date) -> str:
    """Return a run of evenings: ``5 Dec``, ``1–6 Feb``, ``27 Dec to 1 Jan``."""
    if first == last:
        return short_date_text(first)
    if (first.year, first.month) == (last.year, last.month):
        return _WITHIN_MONTH.format(first=first.day, last=short_date_text(last))
    return _OVER_MONTHS.format(first=short_date_text(first), last=short_date_text(last))
