"""Reading the published tables in ``data``; every row of them names its own source."""

import csv
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path

from core.sky.night import Night, compute_night
from core.sky.site import Site

Row = dict[str, str]
_DATA = Path(__file__).parent / "data"


@cache
def rows(name: str) -> list[Row]:
    """Return the rows of one table."""
    with (_DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def utc(text: str) -> datetime:
    """Return a time of a table, whose times are all UTC."""
    return datetime.fromisoformat(text.removesuffix("Z")).replace(tzinfo=UTC)


def unix_s(text: str) -> float:
    return utc(text).timestamp()


def seconds_apart(found: datetime, expected: str) -> float:
    return abs((found - utc(expected)).total_seconds())


def degrees_apart(one: float, other: float) -> float:
    return abs((one - other + 180.0) % 360.0 - 180.0)


def night_of(row: Row) -> Night:
    """Return the evening that a row of ``nights.csv`` or ``nights_sun.csv`` tells of."""
    return _night(
        row["site"],
        float(row["lat_deg"]),
        float(row["lon_deg_east"]),
        float(row["elev_m"]),
        row["tz"],
        row["night_of"],
    )


@cache
def _night(
    name: str, latitude_deg: float, longitude_deg: float, elevation_m: float, zone: str, evening: str
) -> Night:
    site = Site(
        name=name,
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        elevation_m=elevation_m,
        time_zone=zone,
    )
    return compute_night(site, date.fromisoformat(evening))
