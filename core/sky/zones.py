"""Names of time zones: which exist, and which was probably meant."""

import difflib
import zoneinfo
from functools import cache

# Names and short forms that people use for a zone, and its name in the IANA data.
OFTEN_MEANT = {
    "ist": "Asia/Kolkata",
    "asia/beijing": "Asia/Shanghai",
    "mst7mdt": "America/Denver",
    "est5edt": "America/New_York",
    "cst6cdt": "America/Chicago",
    "pst8pdt": "America/Los_Angeles",
    "est": "America/New_York",
    "cst": "America/Chicago",
    "mst": "America/Denver",
    "pst": "America/Los_Angeles",
    "cet": "Europe/Paris",
    "cest": "Europe/Paris",
    "gmt": "Europe/London",
    "bst": "Europe/London",
    "jst": "Asia/Tokyo",
    "aest": "Australia/Sydney",
    "nzst": "Pacific/Auckland",
}


@cache
def zone_names() -> tuple[str, ...]:
    """Return every zone name of the bundled IANA data, in alphabetical order."""
    return tuple(sorted(zoneinfo.available_timezones()))


def suggest_zone(name: str) -> str | None:
    """Return the zone name that was probably meant, or None."""
    wanted = name.strip().replace(" ", "_").lower()
    if wanted in OFTEN_MEANT:
        return OFTEN_MEANT[wanted]
    by_lower = {known.lower(): known for known in zone_names()}
    close = difflib.get_close_matches(wanted, by_lower, n=1, cutoff=0.6)
    if close:
        return by_lower[close[0]]
    by_city = {known.lower().rpartition("/")[2]: known for known in zone_names()}
    close = difflib.get_close_matches(wanted.rpartition("/")[2], by_city, n=1, cutoff=0.6)
    return by_city[close[0]] if close else None


def check_zone(name: object) -> None:
    """Raise ValueError unless the name is of an IANA zone, with the likely right name."""
    if isinstance(name, str) and name in zone_names():
        return
    suggestion = suggest_zone(name) if isinstance(name, str) else None
    hint = f"; did you mean {suggestion}?" if suggestion else ", such as Europe/Lisbon"
    raise ValueError(f"must be the name of an IANA time zone, not {name!r}{hint}")
