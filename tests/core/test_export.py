"""The JSON objects have every key that is promised, and nothing that JSON cannot say."""

import re
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta, timezone
from itertools import pairwise

import pytest
from attrs import evolve

from core.export.heights import heights_json
from core.export.parts import time_json
from core.sky.site import Site
from core.words.answer import answer_words
from tests.core.sent import BOX, LISBON, SIX, night, sent
from tests.core.telling import situation_of

TROMSO = Site(id="t", name="Tromso", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")
TIME = re.compile(r"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,3})?Z")
BEST_KEYS = {
    "body",
    "start",
    "end",
    "altitude_deg",
    "azimuth_deg",
    "eyepiece",
    "start_power",
    "climb_to",
}
HEIGHTS_KEYS = {
    "hours",
    "best",
    "plan",
    "pairs",
    "cautions",
    "schema",
    "evening",
    "start",
    "end",
    "site",
    "answer",
    "sun",
    "bodies",
}
SITE_KEYS = {"id", "name", "latitude_deg", "longitude_deg", "elevation_m", "time_zone"}
TWILIGHTS = {f"{kind}_{side}" for kind in ("civil", "nautical", "astronomical") for side in ("dusk", "dawn")}
SUN_KEYS = {"set", "rise", "lowest_altitude_deg"} | TWILIGHTS
BODY_KEYS = {
    "body",
    "state",
    "rises",
    "transits",
    "sets",
    "above_30",
    "above_45",
    "highest",
    "windows",
    "blocked",
    "why_not",
    "diameter_arcsec",
    "magnitude",
    "illuminated_fraction",
    "elongation_deg",
}


def times_in(value: object, key: str = "") -> Iterator[str]:
    """Yield every text under a key that promises a time."""
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from times_in(inner, name)
    elif isinstance(value, list):
        for inner in value:
            yield from times_in(inner, key)
    elif isinstance(value, str) and (
        key in {"time", "start", "end", "at", "rises", "sets", "above_30", "above_45"} or key in SUN_KEYS
    ):
        yield value


@pytest.mark.parametrize(
    ("site", "evening"),
    [
        (LISBON, date(2026, 12, 5)),
        (TROMSO, date(2026, 6, 21)),
        (TROMSO, date(2027, 11, 28)),
        (evolve(LISBON, time_zone="Pacific/Kiritimati"), date(2026, 10, 10)),
    ],
)
def test_heights_has_every_key(site: Site, evening: date) -> None:
    situation = situation_of(night(site, evening), scope=SIX, eyepieces=BOX)

    result = sent(heights_json(situation))

    assert result.keys() == HEIGHTS_KEYS
    assert result["schema"] == 1
    assert result["evening"] == evening.isoformat()
    assert result["site"].keys() == SITE_KEYS
    assert result["sun"].keys() == SUN_KEYS
    assert result["answer"] == answer_words(situation)
    assert result["hours"].keys() == {"from", "until", "assumed"}
    assert result["best"] is None or result["best"].keys() == BEST_KEYS
    assert all(target.keys() == {"body", "start", "end"} for target in result["plan"])
    assert all(one["end"] <= two["start"] for one, two in pairwise(result["plan"]))
    assert all(isinstance(words, str) for words in result["cautions"])
    assert [body["body"] for body in result["bodies"]] == [
        "mercury",
        "venus",
        "mars",
        "jupiter",
        "saturn",
        "uranus",
        "neptune",
        "moon",
    ]
    for body in result["bodies"]:
        assert body.keys() == BODY_KEYS
        assert body["highest"].keys() == {"time", "altitude_deg", "azimuth_deg", "path"}
        assert all(transit.keys() == {"time", "altitude_deg", "azimuth_deg"} for transit in body["transits"])
        assert all(w.keys() == {"start", "end", "grade", "warm_air"} for w in body["windows"])
        assert all(span.keys() == {"start", "end", "what"} for span in body["blocked"])
        assert all(len(span) == 2 for span in body["above_30"] + body["above_45"])
        assert (body["why_not"] is None) == bool(body["windows"])
    times = list(times_in(result))
    assert times
    assert all(TIME.fullmatch(time) for time in times)


def test_the_best_of_an_evening_is_what_the_answer_is_about() -> None:
    situation = situation_of(night(LISBON, date(2026, 12, 5)), scope=SIX, eyepieces=BOX, out_until="23:30")
    result = sent(heights_json(situation))

    # Sunset at Lisbon on that day is 17:15 UTC (almanac), dusk 20 minutes later.
    assert "2026-12-05T17:3" in result["hours"]["from"]
    assert result["hours"]["until"] == "2026-12-05T23:30:00.000Z"
    assert result["hours"]["assumed"] is True
    best = result["best"]
    assert (best["body"], best["eyepiece"], best["start_power"]) == ("saturn", "25 mm", 48)
    assert best["azimuth_deg"] == pytest.approx(180, abs=1)
    assert "saturn" in [target["body"] for target in result["plan"]]


def test_what_does_not_exist_is_null_or_an_empty_list() -> None:
    result = sent(heights_json(situation_of(night(TROMSO, date(2026, 6, 21)))))
    jupiter = next(body for body in result["bodies"] if body["body"] == "jupiter")

    assert result["sun"]["set"] is None
    assert result["sun"]["astronomical_dusk"] is None
    assert jupiter["state"] == "always_up"
    assert jupiter["rises"] == []
    assert jupiter["windows"] == []
    assert isinstance(jupiter["why_not"], str)


def test_a_body_under_5_degrees_has_no_path() -> None:
    result = sent(heights_json(situation_of(night(TROMSO, date(2027, 11, 28)))))
    mars = next(body for body in result["bodies"] if body["body"] == "mars")

    # Mars stayed at -4.1 degrees (skyfield, DE421).
    assert mars["highest"]["altitude_deg"] == pytest.approx(-4.09, abs=0.02)
    assert mars["highest"]["path"] is None


def test_times_are_utc_with_milliseconds_at_most() -> None:
    moment = datetime(2026, 12, 5, 21, 42, 3, 123_999, tzinfo=timezone(timedelta(hours=5, minutes=45)))

    assert time_json(moment) == "2026-12-05T15:57:03.123Z"
    assert time_json(datetime(2026, 12, 5, tzinfo=UTC)) == "2026-12-05T00:00:00.000Z"
    assert time_json(None) is None
