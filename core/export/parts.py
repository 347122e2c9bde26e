"""What every result for JSON is made of: every key present, times in UTC, what does not exist is None."""

import json
import math
from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from typing import Any

from core.gear.combinations import Combination, highest_holding
from core.gear.owned import Telescope
from core.moments.hours import HoursOut
from core.moments.pairs import ClosePair
from core.sky.site import Site
from core.sky.spans import Span
from core.sky.track import Position

SCHEMA = 1
JsonObject = dict[str, Any]


def to_json(value: JsonObject) -> str:
    """Return an object as JSON in ASCII, so that no text in it can command a terminal."""
    text = json.dumps(value, indent=2, allow_nan=False)
    return text.replace("\x7f", "\\u007f")


def time_json(moment: datetime | None) -> str | None:
    """Return a time in UTC, ISO 8601 with ``Z`` and milliseconds."""
    if moment is None:
        return None
    return moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def number(value: float | None) -> float | None:
    """Return a finite number as it is, anything else as None."""
    return None if value is None or not math.isfinite(value) else float(value)


def pair_json(pair: ClosePair, kit: Sequence[Combination]) -> JsonObject:
    """Return two bodies that stand close together, and the highest power of a kit that holds both."""
    holding = highest_holding(kit, pair.across_deg)
    return {
        "a": pair.a.value,
        "b": pair.b.value,
        "separation_deg": number(pair.separation_deg),
        "at": time_json(pair.at),
        "power": None if holding is None else number(holding.power),
    }


def hours_json(hours: HoursOut | None) -> JsonObject | None:
    """Return the hours outside, None without a night."""
    if hours is None:
        return None
    return {"from": time_json(hours.start), "until": time_json(hours.end), "assumed": hours.assumed}


def position_json(position: Position) -> JsonObject:
    """Return when a body stands somewhere, how high and in which direction."""
    return {
        "time": time_json(position.time),
        "altitude_deg": number(position.altitude_deg),
        "azimuth_deg": number(position.azimuth_deg),
    }


def scope_json(scope: Telescope | None) -> JsonObject | None:
    """Return which telescope it is, None without one."""
    return None if scope is None else {"id": scope.id, "name": scope.name}


def spans_json(spans: Iterable[Span]) -> list[list[str | None]]:
    """Return spans of time as pairs of a start and an end."""
    return [[time_json(span.start), time_json(span.end)] for span in spans]


def site_json(site: Site) -> JsonObject:
    """Return where an evening takes place."""
    return {
        "id": site.id,
        "name": site.name,
        "latitude_deg": number(site.latitude_deg),
        "longitude_deg": number(site.longitude_deg),
        "elevation_m": number(site.elevation_m),
        "time_zone": site.time_zone,
    }
