"""An evening as CSV: one row for each item in its order.

``start`` and ``end`` are site time with its offset, ``start_utc`` and ``end_utc`` the same in UTC; ``kind``
is the step's, ``words`` are those of the sheet, ``caution`` is ``yes`` or ``no``. ``altitude_deg``
(geometric), ``azimuth_deg`` and ``diameter_arcsec`` are those in the middle of a target's time. Coordinates
of the site come last, and only where they are asked for.
"""

from datetime import tzinfo
from typing import Final

from core.export.cells import csv_text
from core.export.parts import time_json
from core.situation.on_paper import TargetOnPaper, targets_on_paper
from core.situation.situation import Situation
from core.tonight.steps import EveningItem, TargetItem
from core.words.evening import item_title
from core.words.evening_sheet import SheetStep, steps_of
from core.words.site_clock import SiteClock

_COLUMNS: Final = (
    "evening",
    "start",
    "end",
    "start_utc",
    "end_utc",
    "kind",
    "title",
    "body",
    "words",
    "caution",
    "altitude_deg",
    "azimuth_deg",
    "diameter_arcsec",
    "site",
    "telescope",
)
_PLACE: Final = ("latitude_deg", "longitude_deg")


def evening_csv(situation: Situation, *, with_place: bool = False) -> str:
    """Return an evening, which must have a night, as CSV; coordinates only ``with_place``."""
    site, scope = situation.site, situation.scope
    assert site is not None
    clock = SiteClock(zone=site.zone, hours=situation.preferences.clock)
    targets = targets_on_paper(situation)
    known, rows = iter(targets), []
    for item, step in zip(situation.evening_steps, steps_of(situation, targets, clock), strict=True):
        target = next(known) if isinstance(item, TargetItem) else None
        row: list[object] = [situation.evening, *_times(item, site.zone), *_what(item, step)]
        row += [*_figures(target), site.name, None if scope is None else scope.name]
        rows.append([*row, site.latitude_deg, site.longitude_deg] if with_place else row)
    return csv_text((*_COLUMNS, *_PLACE) if with_place else _COLUMNS, rows)


def _times(item: EveningItem, zone: tzinfo) -> list[object]:
    here = (moment.astimezone(zone).isoformat(timespec="seconds") for moment in (item.start, item.end))
    return [*here, time_json(item.start), time_json(item.end)]


def _what(item: EveningItem, step: SheetStep) -> list[object]:
    body = item.body.value if isinstance(item, TargetItem) else None
    caution = "yes" if item.caution else "no"
    return [item.kind.value, item_title(item), body, step.words, caution]


def _figures(target: TargetOnPaper | None) -> list[object]:
    if target is None:
        return [None, None, None]
    position, disc = target.appearance.position, target.appearance.subject.disc
    return [
        round(position.altitude_deg, 2),
        round(position.azimuth_deg, 2),
        round(disc.equatorial_diameter_arcsec, 2),
    ]
