"""The figures of two scopes side by side, as rows of words."""

from collections.abc import Callable

from core.drawing.comparison_sheet import FigureRow
from core.ladder.compare import Comparison, Side, Winner
from core.words.comparison import collimation_text
from core.words.cooling import cool_down_text
from core.words.limits import ceiling_figure_text
from core.words.quantities import detail_text, drift_text, field_text, power_text, rounded_text, times_text
from gui.gear.readings import Units

_NONE = "–"


def rows_of(comparison: Comparison, units: Units) -> tuple[FigureRow, ...]:
    """Return the figures in the owner's units, the weightiest first."""

    def row(label: str, words: Callable[[Side], str], winner: Winner | None = None) -> FigureRow:
        shown = None if winner is Winner.TIE else winner
        return FigureRow(label=label, a=words(comparison.a), b=words(comparison.b), winner=shown)

    planet = comparison.planet.label if comparison.planet else None
    rows = [
        row("Aperture", lambda side: _aperture(side, units)),
        row("Light, beside the other", _light, comparison.light_winner),
        row("Resolution (Dawes)", lambda side: _arcsec(side.resolution_arcsec)),
        row(
            "Finest detail in this air",
            lambda side: _arcsec(side.finest_detail_arcsec),
            comparison.detail_winner,
        ),
        row("Ceiling", _ceiling),
        row("Climb to", lambda side: _power(side.ladder.climb_to)),
        row("Lowest power", lambda side: _power(side.lowest_power)),
        row("Widest field", _widest_field, comparison.field_winner),
        row("Longest drift through it", _drift),
    ]
    if planet is not None:
        rows[6:6] = [
            row(f"How large {planet} looks there", _disc),
            row(f"Details across {planet}", _elements, comparison.detail_winner),
        ]
    rows += [
        row("Cool-down, an estimate", _cooling, comparison.cooling_winner),
        row("Collimation", _collimation),
    ]
    return tuple(rows)


def _aperture(side: Side, units: Units) -> str:
    return f"{units.length_text(side.scope.aperture_mm)} {units.length}"


def _light(side: Side) -> str:
    return times_text(side.light_ratio_to_other)


def _arcsec(value: float | None) -> str:
    return _NONE if value is None else detail_text(value)


def _power(value: float | None) -> str:
    return _NONE if value is None else power_text(value)


def _ceiling(side: Side) -> str:
    return ceiling_figure_text(side.ladder) or _NONE


def _disc(side: Side) -> str:
    arcmin = side.disc_diameter_arcmin_at_ceiling
    return _NONE if arcmin is None else f"{rounded_text(arcmin)}′ across"


def _elements(side: Side) -> str:
    return _NONE if side.elements_across_disc is None else f"about {rounded_text(side.elements_across_disc)}"


def _widest_field(side: Side) -> str:
    return field_text(side.widest_field_deg)


def _drift(side: Side) -> str:
    drifts = [rung.drift_s for rung in side.ladder.rungs if rung.drift_s is not None]
    return drift_text(max(drifts, default=None), driven=side.scope.driven)


def _collimation(side: Side) -> str:
    return collimation_text(side.collimation)


def _cooling(side: Side) -> str:
    return cool_down_text(side.usable_minutes)
