"""How much detail each evening of an outlook shows across a body's disc.

N is how many finest details of a telescope and the air fit across the disc, at the evening's greatest height
in a dark sky: what is low is smeared, what is far is small, and N weighs the one against the other.
"""

from typing import Final

import numpy as np

from core.air.atmosphere import air_path, apparent_altitude_deg, standard_pressure_hpa
from core.air.blur import blur_at
from core.air.dispersion import spread_arcsec
from core.air.finest_detail import detail_arcsec
from core.arrays import Floats
from core.moments.best_minutes import SHORTEST_USEFUL
from core.moments.details import USUAL_SHARPNESS, Sharpness
from core.moments.worth import details_across
from core.sky.bodies import Body
from core.sky.events import BEST_DEG, FAIR_DEG, LOWEST_USEFUL_DEG
from core.year.outlook import BodyOutlook

# A height counts once it is held for so long (ours).
_LEAST_HOURS: Final = SHORTEST_USEFUL.total_seconds() / 3600.0
# Their crescents are large and their full discs far and near the Sun, so that only what is lit counts.
_WITH_PHASES: Final = frozenset({Body.MERCURY, Body.VENUS})


def details_by_evening(outlook: BodyOutlook, sharpness: Sharpness = USUAL_SHARPNESS) -> Floats:
    """Return N of each evening (N,), 0 where the body is not above 10 degrees in a dark sky.

    Of 45, 30 and 10 degrees those that are not held for 20 minutes cap the height that counts. Of Mercury and
    Venus the diameter is that of a full disc with as much lit surface (ours). An estimate.
    """
    altitude_deg = np.nan_to_num(outlook.best_altitude_deg)
    counts = altitude_deg >= LOWEST_USEFUL_DEG
    held = (
        (BEST_DEG, outlook.dark_hours_45),
        (FAIR_DEG, outlook.dark_hours_30),
        (LOWEST_USEFUL_DEG, outlook.dark_hours_10),
    )
    for bound_deg, hours in held:
        is_brief = hours < _LEAST_HOURS
        altitude_deg = np.where(is_brief, np.minimum(altitude_deg, bound_deg), altitude_deg)
    elevation_m = outlook.evenings.site.elevation_m
    apparent_deg = apparent_altitude_deg(np.where(counts, altitude_deg, 90.0), elevation_m=elevation_m)
    finest_arcsec = detail_arcsec(
        sharpness.aperture_mm,
        blur_at(sharpness.overhead_blur_arcsec, air_path(apparent_deg)),
        spread_arcsec(apparent_deg, pressure_hpa=float(standard_pressure_hpa(elevation_m))),
    )
    lit = np.sqrt(outlook.illuminated_fraction) if outlook.body in _WITH_PHASES else 1.0
    found = details_across(outlook.body, outlook.diameter_arcsec * lit, finest_arcsec)
    return np.where(counts, found, 0.0)
