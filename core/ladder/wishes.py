"""What one more eyepiece or Barlow would give: read as it is typed, and laid out as rungs."""

import re
from collections.abc import Sequence

from core.gear.figures import parse_eyepiece_mm, parse_factor
from core.gear.numbers import Candidate, DoubtfulFigureError, number_text, shown, tidy
from core.gear.owned import USUAL_BARREL_MM, Barlow, Eyepiece, Telescope
from core.gear.ranges import BARLOW_FACTOR, EYEPIECE_MM
from core.ladder.ladder import Ladder, Rung, build_ladder

_FACTOR = re.compile(r"[x×]\s*[\d.,]+%?|[\d.,]+%?\s*[x×]", re.IGNORECASE)
_BARE = re.compile(r"\d+(?:[.,]\d+)?")


def parse_thing(text: str, *, scope: Telescope | None = None) -> Eyepiece | Barlow:
    """Return the eyepiece (``6 mm``, ``8-24``) or the Barlow or reducer (``2.5x``) that a text means.

    It gets the usual barrel, or a narrower one that the telescope takes. A bare figure that may be either is
    asked about. Raises as the readers of figures do.

    >>> parse_thing("2.5x").name, parse_thing("6").name
    ('2.5x', '6 mm')
    """
    barrel_mm = USUAL_BARREL_MM if scope is None else min(USUAL_BARREL_MM, scope.barrel_mm)
    plain = tidy(text)
    is_factor = _FACTOR.fullmatch(plain) is not None
    if not is_factor and _BARE.fullmatch(plain):
        value = float(plain.replace(",", "."))
        # Bare figures under the shortest eyepiece are factors; up to the strongest Barlow they may be either.
        if EYEPIECE_MM.low <= value <= BARLOW_FACTOR.high:
            raise _either(text, value)
        is_factor = value < EYEPIECE_MM.low
    if is_factor:
        factor = parse_factor(plain)
        return Barlow(name=f"{number_text(factor)}x", factor=factor, barrel_mm=barrel_mm)
    ends = parse_eyepiece_mm(text)
    if ends.high_mm is None:
        name = f"{number_text(ends.low_mm)} mm"
        return Eyepiece(name=name, focal_length_mm=ends.low_mm, barrel_mm=barrel_mm)
    name = f"{number_text(ends.low_mm)}-{number_text(ends.high_mm)} mm"
    return Eyepiece(
        name=name, focal_length_min_mm=ends.low_mm, focal_length_max_mm=ends.high_mm, barrel_mm=barrel_mm
    )


def rungs_with(
    ladder: Ladder, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow], thing: Eyepiece | Barlow
) -> tuple[Rung, ...]:
    """Return the rungs that would come to a ladder with a thing not yet owned, lowest first.

    A power that makes one rung with an owned one is not among them.
    """
    with_it = build_ladder(
        scope=ladder.scope,
        eyepieces=[*eyepieces, thing] if isinstance(thing, Eyepiece) else eyepieces,
        barlows=[*barlows, thing] if isinstance(thing, Barlow) else barlows,
        aim=ladder.aim,
        blur=ladder.blur,
        mirror_arcsec=ladder.limits.mirror_arcsec,
        usual_air=ladder.limits.usual_air,
    )
    return tuple(rung for rung in with_it.rungs if _is_new(rung, thing))


def _is_new(rung: Rung, thing: Eyepiece | Barlow) -> bool:
    """Tell whether every way to a rung needs the thing."""
    return all(
        combination.eyepiece is thing or any(barlow is thing for barlow in combination.barlows)
        for combination in (rung.combination, *rung.alternatives)
    )


def _either(text: str, value: float) -> DoubtfulFigureError:
    figure = number_text(value)
    return DoubtfulFigureError(
        f"“{shown(text)}” may be an eyepiece or a Barlow: did you mean {figure} mm or {figure}x?",
        (Candidate(f"{figure} mm", value), Candidate(f"{figure}x", value)),
    )
