"""The evenings that fit what was wished for, as a plain dictionary for JSON.

::

    {"schema":1, "site":{...}, "from":"2026-12-05", "searched_to":"2027-01-15",
     "wishes":[{"body":"saturn","above_deg":30}], "moon_percent":[0,30]|null,
     "hours":{"from":"dusk|HH:MM","until":"dawn|HH:MM","usual":true},     # site time
     "scope":{"id","name"}|null, "cautions":["words"],
     "evenings":[{"evening":"2026-12-05", "hours":{"from":t,"until":t,"assumed":true}, "moon_percent":n,
       "bodies":[{"body":"saturn", "spans":[[t,t]], "highest":{"time":t,"altitude_deg":n,"azimuth_deg":n},
                  "ceiling_power":n|null}]}]}

At most ten evenings. ``spans`` are the minutes above the height, dark enough, clear of what blocks the view,
in the hours and before the stop line; ``ceiling_power`` is an estimate for the telescope in usual air.
"""

from datetime import date, time

from core.export.parts import (
    SCHEMA,
    JsonObject,
    hours_json,
    number,
    position_json,
    scope_json,
    site_json,
    spans_json,
)
from core.gear.owned import Telescope
from core.moments.hours import Hour
from core.sky.site import Site
from core.words.found_dates import found_cautions
from core.year.dates import FoundDate, FoundDates, WishSeen


def dates_json(
    found: FoundDates, site: Site, first: date, *, usual: tuple[Hour, Hour], scope: Telescope | None
) -> JsonObject:
    """Return the evenings found from a first one on; ``usual`` are the owner's usual hours."""
    wishes = found.wishes
    return {
        "schema": SCHEMA,
        "site": site_json(site),
        "from": first.isoformat(),
        "searched_to": found.searched_to.isoformat(),
        "wishes": [{"body": wish.body.value, "above_deg": number(wish.above_deg)} for wish in wishes.heights],
        "moon_percent": None if wishes.moon_percent is None else list(map(number, wishes.moon_percent)),
        "hours": {
            "from": _hour(wishes.start or usual[0]),
            "until": _hour(wishes.end or usual[1]),
            "usual": wishes.start is None and wishes.end is None,
        },
        "scope": scope_json(scope),
        "cautions": list(found_cautions(found, usual=usual)),
        "evenings": [_evening(each) for each in found.evenings],
    }


def _hour(hour: Hour) -> str:
    return hour.isoformat("minutes") if isinstance(hour, time) else hour.value


def _evening(evening: FoundDate) -> JsonObject:
    return {
        "evening": evening.evening.isoformat(),
        "hours": hours_json(evening.hours),
        "moon_percent": number(100.0 * evening.moon_lit),
        "bodies": [_seen(each) for each in evening.seen],
    }


def _seen(seen: WishSeen) -> JsonObject:
    return {
        "body": seen.body.value,
        "spans": spans_json(seen.spans),
        "highest": position_json(seen.highest),
        "ceiling_power": number(seen.ceiling_power),
    }
