"""The figures of two scopes side by side, as rows of words."""

from collections.abc import Callable
from typing import Final

from attrs import frozen

from core.ladder.buying import Purchase
from core.ladder.compare import Comparison
from core.ladder.side import Side
from core.ladder.winner import Winner
from core.words.buying import buying_words
from core.words.comparison import collimation_text
from core.words.cooling import cool_down_text, settled_text
from core.words.limits import ceiling_figure_text
from core.words.quantities import detail_text, drift_text, field_text, power_text, rounded_text, times_text
from core.words.units import Units

_NONE: Final = "–"
_BUILT_IN: Final = "{power}, built in"
_ACROSS: Final = "{arcmin}′ across"
_ABOUT: Final = "about {count}"


@frozen(kw_only=True)
class FigureRow:
    """One figure of both telescopes in words, and whose is the better one, None where neither is."""

    label: str
    a: str
    b: str
    winner: Winner | None = None


def rows_of(
    comparison: Comparison, units: Units, *, to_buy: tuple[Purchase | None, Purchase | None]
) -> tuple[FigureRow, ...]:
    """Return the figures in the owner's units, the weightiest first, and what would help each most."""

    def row(label: str, words: Callable[[Side], str], winner: Winner | None = None) -> FigureRow:
        shown = None if winner is Winner.TIE else winner
        return FigureRow(label=label, a=words(comparison.a), b=words(comparison.b), winner=shown)

    planet = None if comparison.planet is None else comparison.planet.label

    def of_planet(label: str, words: Callable[[Side], str], winner: Winner | None = None) -> list[FigureRow]:
        return [] if planet is None else [row(label.format(planet=planet), words, winner)]

    return (
        row("Aperture", lambda side: _aperture_cell(side, units)),
        row("Light, against the other", _light_cell, comparison.light_winner),
        row("Resolution (Dawes)", lambda side: _arcsec(side.resolution_arcsec)),
        row(
            "Finest detail in this air",
            lambda side: _arcsec(side.finest_detail_arcsec),
            comparison.detail_winner,
        ),
        *of_planet("Details across {planet}", _elements_cell, comparison.detail_winner),
        row("Ceiling", _ceiling_cell),
        *of_planet("{planet} at the ceiling", lambda side: _looks_cell(side.disc_diameter_arcmin_at_ceiling)),
        row("Climb to", lambda side: _power(side.ladder.climb_to)),
        *of_planet("{planet} at that power", lambda side: _looks_cell(side.disc_diameter_arcmin_at_climb)),
        row("Lowest power", lambda side: _power(side.lowest_power)),
        row("Widest field", _widest_field_cell, comparison.field_winner),
        row("Longest drift through it", _drift_cell),
        row("Usable, an estimate", _cooling_cell, comparison.cooling_winner),
        row("Mirror settled, an estimate", lambda side: settled_text(side.readiness.settled) or _NONE),
        row("Collimation", _collimation_cell),
        FigureRow(
            label="What to buy, for many nights",
            a=buying_words(comparison.a.scope, to_buy[0]),
            b=buying_words(comparison.b.scope, to_buy[1]),
        ),
    )


def _aperture_cell(side: Side, units: Units) -> str:
    return units.named_length_text(side.scope.aperture_mm)


def _light_cell(side: Side) -> str:
    return times_text(side.light_ratio_to_other)


def _arcsec(value: float | None) -> str:
    return _NONE if value is None else detail_text(value)


def _power(value: float | None) -> str:
    return _NONE if value is None else power_text(value)


def _ceiling_cell(side: Side) -> str:
    """Return the ceiling and what sets it, a built-in power where that stays under it."""
    if side.is_stopped_by_built_in_power and side.usable_power is not None:
        return _BUILT_IN.format(power=power_text(side.usable_power))
    return ceiling_figure_text(side.ladder) or _NONE


def _looks_cell(arcmin: float | None) -> str:
    return _NONE if arcmin is None else _ACROSS.format(arcmin=rounded_text(arcmin))


def _elements_cell(side: Side) -> str:
    return (
        _NONE
        if side.elements_across_disc is None
        else _ABOUT.format(count=rounded_text(side.elements_across_disc))
    )


def _widest_field_cell(side: Side) -> str:
    return field_text(side.widest_field_deg)


def _drift_cell(side: Side) -> str:
    drifts = [rung.drift_s for rung in side.ladder.rungs if rung.drift_s is not None]
    return drift_text(max(drifts, default=None), driven=side.scope.driven)


def _collimation_cell(side: Side) -> str:
    return collimation_text(side.collimation)


def _cooling_cell(side: Side) -> str:
    return cool_down_text(side.usable_minutes)
