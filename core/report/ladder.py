"""A power ladder, and two telescopes side by side, as plain text for a terminal."""

from collections.abc import Callable, Iterator
from typing import Final

from core.ladder.buying import Purchase
from core.ladder.compare import Comparison
from core.ladder.ladder import Ladder, Rung
from core.ladder.side import Side
from core.plain_text import WIDTH, columns, cut, printable, shown_name, table, width_of, wrapped
from core.words.advice import advice_text
from core.words.aim import aim_notices
from core.words.buying import buying_sentence
from core.words.comparison import COMPARED_BY_RULES, collimation_text, difference_texts
from core.words.cooling import cool_down_text, settled_text
from core.words.ladder import part_text
from core.words.limits import all_limits_sentence
from core.words.names import labelled
from core.words.notices import ladder_notice_texts, misfit_texts, notice_texts
from core.words.quantities import (
    drift_text,
    field_text,
    power_text,
    pupil_text,
    rounded_text,
    times_text,
)
from core.words.reasons import usual_powers
from core.words.reports import (
    MORE_LIKE_IT,
    MORE_LIKE_IT_MEANS,
    NO_POWER,
    POWER_LADDER,
    aim_words,
    ceiling_words,
)
from core.words.site_clock import SiteClock
from core.words.units import USUAL_UNITS, Units

# Two columns of names have to fit beside the labels.
_LONGEST_OF_TWO: Final = 26
# With less room than this for an eyepiece, each rung takes lines of its own.
_LEAST_ROOM: Final = 8


def ladder_text(
    ladder: Ladder,
    *,
    to_buy: Purchase | None,
    clock: SiteClock | None = None,
    later: str | None = None,
    units: Units = USUAL_UNITS,
    width: int = WIDTH,
) -> str:
    """Return a ladder as text, lowest power first, and what would help most over many nights.

    ``clock`` tells the time where the aim has one; ``later`` says when there will be more, where nothing is
    offered all evening.
    """
    lines = [
        cut(POWER_LADDER.format(scope=printable(ladder.scope.name)), width),
        *_aim_lines(ladder, clock, width),
        *([] if later is None or ladder.aim.at is not None else wrapped(printable(later), width)),
        *(
            line
            for notice in ladder_notice_texts(ladder, units)
            for line in wrapped(printable(notice), width)
        ),
    ]
    if ladder.rungs:
        lines += ["", *_rung_table(ladder, width)]
        if any(rung.alternatives for rung in ladder.rungs):
            lines += wrapped(MORE_LIKE_IT_MEANS, width)
    for notice, powers in _notices(ladder, units).items():
        lines += wrapped(labelled(", ".join(powers), printable(notice)), width, indent="  ")
    for misfit in misfit_texts(ladder):
        lines += wrapped(printable(misfit), width, indent="  ")
    buying = buying_sentence(ladder.scope, to_buy)
    if buying:
        lines += ["", *wrapped(printable(buying), width)]
    return "\n".join(lines)


def compare_text(
    comparison: Comparison,
    *,
    to_buy: tuple[Purchase | None, Purchase | None],
    clock: SiteClock | None = None,
    width: int = WIDTH,
) -> str:
    """Return two telescopes side by side as text.

    First which of them to take, then the figures, all else that tells them apart, and for each its powers and
    what would help it most over many nights.
    """
    a, b = comparison.a, comparison.b
    lines = wrapped(printable(advice_text(comparison.advice)), width)
    lines += ["", *wrapped(aim_words(a.ladder.aim, clock), width)]
    lines += [line for notice in aim_notices(a.ladder.aim) for line in wrapped(printable(notice), width)]
    lines.append("")
    rows = [("", *(shown_name(side.scope.name, _LONGEST_OF_TWO) for side in (a, b)))]
    rows += _figures(a, b)
    lines += table(rows, width)
    lines.append("")
    lines += [line for words in difference_texts(comparison) for line in wrapped(printable(words), width)]
    lines += wrapped(COMPARED_BY_RULES, width)
    for side, purchase in zip((a, b), to_buy, strict=True):
        name = shown_name(side.scope.name, _LONGEST_OF_TWO)
        lines += ["", *wrapped(labelled(name, _powers(side.ladder)), width, indent="  ")]
        lines += wrapped(f"  {printable(collimation_text(side.collimation))}", width, indent="  ")
        buying = buying_sentence(side.scope, purchase)
        lines += wrapped(f"  {printable(buying)}", width, indent="  ") if buying else []
    return "\n".join(lines)


def _aim_lines(ladder: Ladder, clock: SiteClock | None, width: int) -> Iterator[str]:
    yield from wrapped(aim_words(ladder.aim, clock), width)
    if not ladder.aim.is_offered:
        yield from wrapped(printable(ceiling_words(ladder)), width)
        return
    yield from wrapped(all_limits_sentence(ladder), width)
    for usual in usual_powers(ladder):
        yield from wrapped(usual, width)
    yield from wrapped(printable(ceiling_words(ladder)), width)


def _rung_table(ladder: Ladder, width: int) -> list[str]:
    """Return the table of rungs; names are cut to what the other columns leave."""
    figures = [("power", "exit pupil", "field", "drift", ""), *(_figures_of(r, ladder) for r in ladder.rungs)]
    room = width - max(map(width_of, columns(figures))) - 2
    if room < _LEAST_ROOM:
        room = width  # the names go on lines of their own
    names = ["eyepiece", *(_label(rung, room) for rung in ladder.rungs)]
    rows = [(row[0], name, *row[1:]) for name, row in zip(names, figures, strict=True)]
    return table(rows, width, right=(0, 2, 3, 4))


def _label(rung: Rung, room: int) -> str:
    more = MORE_LIKE_IT.format(count=len(rung.alternatives)) if rung.alternatives else ""
    label = printable(rung.label)
    if width_of(label) > room - len(more):
        # Cut off would be the Barlow, which tells one rung from another.
        label = rung.combination.brief_label
    return cut(label, room - len(more)) + more


def _figures_of(rung: Rung, ladder: Ladder) -> tuple[str, ...]:
    field = "-" if rung.true_field_deg is None else field_text(rung.true_field_deg)
    drift = "-" if rung.drift_s is None else drift_text(rung.drift_s)
    pupil = pupil_text(rung.exit_pupil_mm)
    return power_text(rung.power), pupil, field, drift, part_text(rung, ladder)


def _notices(ladder: Ladder, units: Units) -> dict[str, list[str]]:
    """Return each notice about rungs once, with the powers that it is about."""
    found: dict[str, list[str]] = {}
    for rung in ladder.rungs:
        for notice in notice_texts(rung.notices, units):
            found.setdefault(notice, []).append(power_text(rung.power))
    return found


def _figures(a: Side, b: Side) -> Iterator[tuple[str, str, str]]:
    """Yield the rows of the comparison: what, and its figure for each telescope."""
    told: dict[str, Callable[[Side], str | None]] = {
        "light against the other": lambda side: times_text(side.light_ratio_to_other),
        "aperture splits (Dawes)": lambda side: f"{rounded_text(side.resolution_arcsec, 2)}″",
        "finest detail here": lambda side: _with_unit(side.finest_detail_arcsec, 2, "″"),
        "details across the disc": lambda side: _with_unit(side.elements_across_disc, 0, ""),
        "ceiling": lambda side: _power(side.usable_power),
        "disc at the ceiling": lambda side: _with_unit(side.disc_diameter_arcmin_at_ceiling, 0, "′ wide"),
        "climb to": lambda side: _power(side.ladder.climb_to),
        "disc at that power": lambda side: _with_unit(side.disc_diameter_arcmin_at_climb, 0, "′ wide"),
        "usable after about": lambda side: cool_down_text(side.usable_minutes),
        "mirror settled after": lambda side: settled_text(side.readiness.settled),
        "lowest power": lambda side: _power(side.lowest_power),
        "widest field": lambda side: (
            None if side.widest_field_deg is None else field_text(side.widest_field_deg)
        ),
    }
    for label, tell in told.items():
        yield label, tell(a) or "-", tell(b) or "-"


def _power(power: float | None) -> str | None:
    return None if power is None else power_text(power)


def _with_unit(value: float | None, decimals: int, unit: str) -> str | None:
    return None if value is None else f"{rounded_text(value, decimals)}{unit}"


def _powers(ladder: Ladder) -> str:
    return ", ".join(power_text(rung.power) for rung in ladder.rungs) or NO_POWER
