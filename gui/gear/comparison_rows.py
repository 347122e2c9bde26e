"""The figures of two scopes side by side, as rows of words."""

from collections.abc import Callable

from core.air.steadiness import LimitKind
from core.drawing.comparison_sheet import FigureRow
from core.ladder.compare import Comparison, Side, Winner
from core.words.quantities import field_text, power_text
from gui.gear.readings import Units

_SET_BY = {
    LimitKind.APERTURE: "its aperture",
    LimitKind.USUAL_AIR: "the usual air",
    LimitKind.TONIGHT_AIR: "tonight's air",
}
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
            lambda side: _arcsec(side.limiting_blur_arcsec),
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
    return f"{side.light_ratio_to_other:.2g} times"


def _arcsec(value: float | None) -> str:
    return _NONE if value is None else f"{value:.2g}″"


def _power(value: float | None) -> str:
    return _NONE if value is None else power_text(value)


def _ceiling(side: Side) -> str:
    ceiling = side.ladder.ceiling
    if ceiling.power is None or ceiling.set_by is None:
        return _NONE
    return f"{power_text(ceiling.power)}, by {_SET_BY[ceiling.set_by]}"


def _disc(side: Side) -> str:
    arcmin = side.disc_diameter_arcmin_at_ceiling
    return _NONE if arcmin is None else f"{arcmin:.0f}′ across"


def _elements(side: Side) -> str:
    return _NONE if side.elements_across_disc is None else f"about {side.elements_across_disc:.0f}"


def _widest_field(side: Side) -> str:
    return "unknown" if side.widest_field_deg is None else field_text(side.widest_field_deg)


def _drift(side: Side) -> str:
    if side.scope.driven:
        return "none, it is driven"
    drifts = [rung.drift_s for rung in side.ladder.rungs if rung.drift_s is not None]
    return f"{max(drifts):.0f} s" if drifts else "unknown"


def _collimation(side: Side) -> str:
    care = side.collimation.removeprefix("Collimation: ")
    return f"{care[0].upper()}{care[1:]}"


def _cooling(side: Side) -> str:
    if side.cooling_minutes is None:
        return "never quite, in falling air"
    low, likely, high = side.cooling_minutes
    return f"{likely:.0f} min ({low:.0f} to {high:.0f})" if likely >= 1 else "at once"
