"""The columns of the table of powers."""

from collections.abc import Callable
from typing import Any, Final

from attrs import frozen

from core.words.gear_advice import FINEST_DETAIL
from core.words.quantities import (
    UNKNOWN,
    field_text,
    figures_text,
    power_text,
    pupil_text,
    rounded_text,
)
from gui.gear.powers_entries import Entry, drift_words, words_about

POWER, EYEPIECE, EXIT_PUPIL, FIELD, MOONS, DETAIL, DRIFT, WORDS = range(8)
# What a narrow table does without, in this order.
LEFT_OUT_FIRST: Final = (DETAIL, MOONS, DRIFT)


@frozen(kw_only=True)
class PowersColumn:
    """One column: its heading and what that means, what is shown, by what it sorts, and what is copied."""

    heading: str
    meaning: str = ""
    text: Callable[[Entry], str]
    sorts_by: Callable[[Entry], Any]
    copied_heading: str
    copied: Callable[[Entry], str]
    is_figure: bool = True


def _figure(value: float | None, digits: int) -> str:
    return "" if value is None else figures_text(value, digits)


def _moons(entry: Entry) -> str:
    return UNKNOWN if entry.moons is None else rounded_text(entry.moons, 1)


def _words(entry: Entry) -> str:
    return " ".join(words_about(entry))


_BY_NUMBER: Final = {
    POWER: PowersColumn(
        heading="Power",
        text=lambda entry: power_text(entry.rung.power),
        sorts_by=lambda entry: entry.rung.power,
        copied_heading="Power",
        copied=lambda entry: _figure(entry.rung.power, 4),
    ),
    EYEPIECE: PowersColumn(
        heading="Eyepiece",
        text=lambda entry: entry.rung.label,
        sorts_by=lambda entry: entry.rung.label.casefold(),
        copied_heading="Eyepiece and Barlow",
        copied=lambda entry: entry.rung.label,
        is_figure=False,
    ),
    EXIT_PUPIL: PowersColumn(
        heading="Exit pupil",
        meaning="Width of the beam that leaves the eyepiece",
        text=lambda entry: pupil_text(entry.rung.exit_pupil_mm),
        sorts_by=lambda entry: entry.rung.exit_pupil_mm,
        copied_heading="Exit pupil, mm",
        copied=lambda entry: _figure(entry.rung.exit_pupil_mm, 3),
    ),
    FIELD: PowersColumn(
        heading="Field",
        meaning="How much sky is seen",
        text=lambda entry: field_text(entry.rung.true_field_deg),
        sorts_by=lambda entry: entry.rung.true_field_deg or 0.0,
        copied_heading="True field, degrees",
        copied=lambda entry: _figure(entry.rung.true_field_deg, 3),
    ),
    MOONS: PowersColumn(
        heading="Moon widths",
        meaning="How many times the width of the Moon fits across the field",
        text=_moons,
        sorts_by=lambda entry: entry.moons or 0.0,
        copied_heading="Moon widths across the field",
        copied=lambda entry: _figure(entry.moons, 3),
    ),
    DETAIL: PowersColumn(
        heading="Detail",
        meaning=FINEST_DETAIL,
        text=lambda entry: f"{rounded_text(entry.detail_arcsec, 1)}″",
        sorts_by=lambda entry: entry.detail_arcsec,
        copied_heading="Finest detail for the eye, arcsec",
        copied=lambda entry: _figure(entry.detail_arcsec, 3),
    ),
    DRIFT: PowersColumn(
        heading="Drift",
        meaning="How long a planet takes from edge to edge of the field without a drive",
        text=drift_words,
        sorts_by=lambda entry: entry.rung.drift_s or 0.0,
        copied_heading="Drift from edge to edge, s",
        copied=lambda entry: _figure(entry.rung.drift_s, 3),
    ),
    # A view may show these in another way.
    WORDS: PowersColumn(
        heading="In words",
        text=_words,
        sorts_by=lambda entry: len(words_about(entry)),
        copied_heading="Notices",
        copied=_words,
        is_figure=False,
    ),
}
COLUMNS: Final = tuple(_BY_NUMBER[number] for number in range(len(_BY_NUMBER)))
