"""A planet's year as a plain dictionary for JSON.

::

    {"schema":1, "planet":"saturn", "from":"2026-12-05", "to":"2027-12-04",
     "site":{"id","name","latitude_deg","longitude_deg","elevation_m","time_zone"},
     "best_weeks":"words", "cautions":["words"],
     "aperture_mm":n, "blur_overhead_arcsec":n,
     "light_nights":[["2027-05-20","2027-07-24"]],             # the sky itself does not get dark enough
     "best":{"above_deg":45|30|null, "spans":[["2027-07-18","2027-12-04"]],
             "sharpest":{"evening":"2027-10-05","altitude_deg":n,"diameter_arcsec":n,"details_across":n}|null,
             "highest":{"evening":"2027-09-03","altitude_deg":n}|null,
             "largest":{"evening":"2027-10-17","diameter_arcsec":n}|null},
     "dark_enough_sun_altitude_deg":n,
     "phenomena":[{"event":"opposition","time":t,"elongation_deg":n}],
     "pairs":[{"a","b","separation_deg":n,"at":t,"power":n|null}],   # under 2 degrees, at their closest
     "ring":{"widest":{"time":t,"opening_deg":n},"narrowest":{"time":t,"opening_deg":n},"edge_on":t}|null,
     "double_shadows":[{"moons":["io","europa"],"start":t,"end":t}],   # the next few seen from the site
     "mars_longitude":{"longitude_deg":n,"evenings":[["2026-11-26","2026-12-01"]]}|null,   # with --longitude
     "evenings":[{"evening":"2026-12-05", "start":t, "end":t, "state":"normal|always_up|never_up",
       "rises":[t], "transits":[t], "sets":[t], "above_30":[[t,t]], "above_45":[[t,t]],
       "best":{"time":t,"altitude_deg":n}|null,                  # above the horizon in a dark sky
       "dark_hours_above_30":n, "dark_hours_above_45":n, "diameter_arcsec":n,
       "details_across":n}]}               # finest details across the disc, 0 without; an estimate

The sky is dark with the Sun below ``dark_enough_sun_altitude_deg`` and nothing of the site's blocked sky
before the planet; ``above_30`` and ``above_45`` are all spans, dark or not. Phenomena are geocentric.
"""

from collections.abc import Sequence

from core.arrays import Floats
from core.export.parts import SCHEMA, JsonObject, number, pair_json, site_json, time_json
from core.gear.combinations import Combination
from core.sky.instant import instant
from core.words.year import best_weeks_text, cautions
from core.year.best_weeks import Stretches
from core.year.ring_year import RingYear
from core.year.year import Year


def year_json(year: Year, *, kit: Sequence[Combination] = ()) -> JsonObject:
    """Return a year: its best weeks, its phenomena and every evening.

    ``kit`` is all that fits the telescope, for the power that holds two bodies close together.
    """
    dates, best, outlook = year.dates, year.best, year.outlook
    highest, largest, sharpest = best.highest, best.largest, best.sharpest
    return {
        "schema": SCHEMA,
        "planet": year.planet.value,
        "from": dates[0].isoformat(),
        "to": dates[-1].isoformat(),
        "site": site_json(year.site),
        "best_weeks": best_weeks_text(year),
        "aperture_mm": number(year.sharpness.aperture_mm),
        "blur_overhead_arcsec": number(year.sharpness.overhead_blur_arcsec),
        "light_nights": _spans(year, year.light_nights),
        "cautions": list(cautions(year)),
        "best": {
            "above_deg": number(best.above_deg),
            "spans": _spans(year, best.stretches),
            "sharpest": None
            if sharpest is None
            else {
                "evening": dates[sharpest].isoformat(),
                "altitude_deg": number(outlook.best_altitude_deg[sharpest]),
                "diameter_arcsec": number(outlook.diameter_arcsec[sharpest]),
                "details_across": number(year.details[sharpest]),
            },
            "highest": None
            if highest is None
            else {
                "evening": dates[highest].isoformat(),
                "altitude_deg": number(outlook.best_altitude_deg[highest]),
            },
            "largest": None
            if largest is None
            else {
                "evening": dates[largest].isoformat(),
                "diameter_arcsec": number(outlook.diameter_arcsec[largest]),
            },
        },
        "dark_enough_sun_altitude_deg": year.dark_below_deg,
        "phenomena": [
            {
                "event": each.aspect.value,
                "time": time_json(each.time),
                "elongation_deg": number(each.elongation_deg),
            }
            for each in year.phenomena
        ],
        "pairs": [pair_json(pair, kit) for pair in year.pairs],
        "ring": _ring(year.ring),
        "double_shadows": [
            {
                "moons": [moon.value for moon in each.moons],
                "start": time_json(each.start),
                "end": time_json(each.end),
            }
            for each in year.double_shadows or ()
        ],
        "mars_longitude": None
        if year.facing is None
        else {
            "longitude_deg": number(year.facing.longitude_deg),
            "evenings": _spans(year, year.facing.evenings),
        },
        "evenings": [_evening(year, index) for index in range(len(dates))],
    }


def _evening(year: Year, index: int) -> JsonObject:
    outlook = year.outlook
    edges_s = outlook.evenings.edges_s
    altitude_deg = number(outlook.best_altitude_deg[index])
    best = (
        None if altitude_deg is None else {"time": _time(outlook.best_s[index]), "altitude_deg": altitude_deg}
    )
    return {
        "evening": year.dates[index].isoformat(),
        "start": _time(edges_s[index]),
        "end": _time(edges_s[index + 1]),
        "state": outlook.state(index).value,
        "rises": _times(outlook.rises.of(index)),
        "transits": _times(outlook.transits.of(index)),
        "sets": _times(outlook.sets.of(index)),
        "above_30": [_times(span) for span in outlook.above_30.of(index)],
        "above_45": [_times(span) for span in outlook.above_45.of(index)],
        "best": best,
        "dark_hours_above_30": number(outlook.dark_hours_30[index]),
        "dark_hours_above_45": number(outlook.dark_hours_45[index]),
        "diameter_arcsec": number(outlook.diameter_arcsec[index]),
        "details_across": number(year.details[index]),
    }


def _ring(ring: RingYear | None) -> JsonObject | None:
    if ring is None:
        return None
    return {
        "widest": {"time": time_json(ring.widest.time), "opening_deg": number(ring.widest.opening_deg)},
        "narrowest": {
            "time": time_json(ring.narrowest.time),
            "opening_deg": number(ring.narrowest.opening_deg),
        },
        "edge_on": time_json(ring.edge_on),
    }


def _spans(year: Year, stretches: Stretches) -> list[list[str]]:
    return [[year.dates[first].isoformat(), year.dates[last].isoformat()] for first, last in stretches]


def _times(times_s: Floats) -> list[str | None]:
    return [_time(time_s) for time_s in times_s]


def _time(unix_s: float) -> str | None:
    return time_json(instant(unix_s))
