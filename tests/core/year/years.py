"""Years of planets from two places."""

from datetime import date
from functools import cache

from core.sky.bodies import Body
from core.sky.site import BlockedSky, Site
from core.year.year import Year, compute_year

LISBON = Site(
    id="terrace",
    name="Back terrace",
    latitude_deg=38.72,
    longitude_deg=-9.14,
    time_zone="Europe/Lisbon",
    blocked=(BlockedSky(azimuth_from_deg=90, azimuth_to_deg=140, below_altitude_deg=30, what="roof ridge"),),
)
TROMSO = Site(name="Tromso", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")
GOOD = date(2026, 12, 5)


@cache
def year(body: Body, site: Site = LISBON, first: date = GOOD) -> Year:
    return compute_year(site, body, first)
