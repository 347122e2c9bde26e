"""Ladders and evenings, and their JSON as it is sent."""

import json
from datetime import date
from functools import cache
from typing import Any

from core.export.parts import JsonObject, to_json
from core.gear.owned import Eyepiece, Telescope, TelescopeKind
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site

LISBON = Site(
    id="home",
    name="Home",
    latitude_deg=38.72,
    longitude_deg=-9.14,
    elevation_m=50,
    time_zone="Europe/Lisbon",
    blocked=(
        BlockedSky(azimuth_from_deg=90, azimuth_to_deg=200, below_altitude_deg=40, what="roof", heated=True),
    ),
)
SIX = Telescope(id="six", name="Six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200)
BOX = (
    Eyepiece(id="e25", name="25 mm", focal_length_mm=25, field_stop_mm=21.2),
    Eyepiece(id="e12", name="12.5 mm", focal_length_mm=12.5),
    Eyepiece(id="zoom", name="zoom", focal_length_min_mm=8, focal_length_max_mm=24),
)


@cache
def night(site: Site, evening: date) -> Night:
    return compute_night(site, evening)


def sent(value: JsonObject) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Send an object through JSON text and back."""
    return json.loads(to_json(value))
