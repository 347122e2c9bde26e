"""Names of time zones: which exist, and which was probably meant."""

import difflib
import re
import zoneinfo
from functools import cache

# Short forms and other systems' names that people use for a zone, and its name in the IANA data. A short form
# that several countries share (IST, CST, BST) is taken for the zone of the most people.
OFTEN_MEANT = {
    **dict.fromkeys(("acst", "acdt"), "Australia/Adelaide"),
    **dict.fromkeys(("aest", "aedt"), "Australia/Sydney"),
    **dict.fromkeys(("akst", "akdt"), "America/Anchorage"),
    "art": "America/Argentina/Buenos_Aires",
    "asia/beijing": "Asia/Shanghai",
    "ast": "America/Halifax",
    "awst": "Australia/Perth",
    "brt": "America/Sao_Paulo",
    **dict.fromkeys(("cat", "sast"), "Africa/Johannesburg"),
    **dict.fromkeys(("cet", "cest"), "Europe/Paris"),
    **dict.fromkeys(("cst", "cdt", "cst6cdt", "central", "us/chicago"), "America/Chicago"),
    "eat": "Africa/Nairobi",
    **dict.fromkeys(("eet", "eest"), "Europe/Athens"),
    **dict.fromkeys(("est", "edt", "est5edt", "eastern", "us/new_york"), "America/New_York"),
    **dict.fromkeys(("gmt", "bst"), "Europe/London"),
    "hkt": "Asia/Hong_Kong",
    "ict": "Asia/Bangkok",
    "ist": "Asia/Kolkata",
    "jst": "Asia/Tokyo",
    "kst": "Asia/Seoul",
    **dict.fromkeys(("mez", "mesz"), "Europe/Berlin"),
    "msk": "Europe/Moscow",
    **dict.fromkeys(("mst", "mdt", "mst7mdt", "mountain", "us/denver"), "America/Denver"),
    **dict.fromkeys(("nst", "ndt"), "America/St_Johns"),
    **dict.fromkeys(("nzst", "nzdt"), "Pacific/Auckland"),
    "pht": "Asia/Manila",
    "pkt": "Asia/Karachi",
    **dict.fromkeys(("pst", "pdt", "pst8pdt", "pacific", "us/los_angeles"), "America/Los_Angeles"),
    "sgt": "Asia/Singapore",
    **dict.fromkeys(("wet", "west"), "Europe/Lisbon"),
    "wib": "Asia/Jakarta",
}
_WORDS_LEFT_OUT = ("_standard_time", "_daylight_time", "_summer_time", "_time")
# An offset is no zone: it does not tell when the clocks change.
_OFFSET = re.compile(r"(utc|gmt|z)?[+\-\d:.,]*")
_LONGEST_SHORT_FORM = 4
_CLOSE_ENOUGH = 0.8


@cache
def zone_names() -> tuple[str, ...]:
    """Return every zone name of the bundled IANA data, in alphabetical order."""
    return tuple(sorted(zoneinfo.available_timezones()))


def suggest_zone(name: str) -> str | None:
    """Return the zone name that was probably meant, or None rather than a wild guess.

    Knows short forms, other spellings, and the towns of `core.sky.places`.

    >>> suggest_zone("Europe/Lisboa")
    'Europe/Lisbon'
    """
    wanted = name.strip().replace(" ", "_").lower()
    for words in _WORDS_LEFT_OUT:
        wanted = wanted.removesuffix(words)
    if wanted in OFTEN_MEANT:
        return OFTEN_MEANT[wanted]
    by_lower = {known.lower(): known for known in zone_names()}
    if wanted in by_lower:
        return by_lower[wanted]
    if _OFFSET.fullmatch(wanted):
        return None
    by_city = {known.rpartition("/")[2]: name for known, name in by_lower.items() if "/" in known}
    city = wanted.rpartition("/")[2]
    if city in by_city:
        return by_city[city]
    if len(city) <= _LONGEST_SHORT_FORM:
        return None
    town = _zone_of_town(city.replace("_", " "))
    if town is not None:
        return town
    for among, word in ((by_lower, wanted), (by_city, city)):
        close = difflib.get_close_matches(word, among, n=1, cutoff=_CLOSE_ENOUGH)
        if close:
            return among[close[0]]
    return None


def _zone_of_town(name: str) -> str | None:
    from core.sky.places import search_places

    return next((place.time_zone for place in search_places(name, limit=1)), None)


def check_zone(name: object) -> None:
    """Raise ValueError unless the name is of an IANA zone, with the likely right name."""
    if isinstance(name, str) and name in zone_names():
        return
    if not zone_names():
        raise ValueError(
            "cannot be looked up: the time zone data is missing; install the package tzdata again"
        )
    suggestion = suggest_zone(name) if isinstance(name, str) else None
    hint = f"; did you mean {suggestion}?" if suggestion else ", such as Europe/Lisbon"
    raise ValueError(f"must be the name of an IANA time zone, not {name!r}{hint}")
