"""The JSON objects have every key that is promised, and nothing that JSON cannot say."""

import json
import re
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta, timezone
from functools import cache
from itertools import pairwise
from typing import Any

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.export.heights import heights_json
from core.export.ladder import compare_json, ladder_json
from core.export.parts import JsonObject, time_json, to_json
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.aim import Aim, aim_altitude, aim_overhead
from core.ladder.buying import what_to_buy
from core.ladder.compare import compare
from core.ladder.ladder import Ladder, build_ladder
from core.sky.bodies import Body
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site
from core.words.answer import answer_words
from tests.core.telling import best_aim, situation_of

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
TROMSO = Site(id="t", name="Tromso", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")
SIX = Telescope(id="six", name="Six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200)
EIGHTY = Telescope(
    id="eighty", name="Eighty", kind=TelescopeKind.REFRACTOR, aperture_mm=80, focal_length_mm=480
)
BINOCULAR = Telescope(id="bino", name="Binocular", kind=TelescopeKind.FIXED, aperture_mm=50, power=10)
BOX = (
    Eyepiece(id="e25", name="25 mm", focal_length_mm=25, field_stop_mm=21.2),
    Eyepiece(id="e12", name="12.5 mm", focal_length_mm=12.5),
    Eyepiece(id="zoom", name="zoom", focal_length_min_mm=8, focal_length_max_mm=24),
)
DOUBLE = (Barlow(id="b2", name="2x", factor=2),)
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
LADDER_KEYS = {
    "schema",
    "scope",
    "planet",
    "at",
    "altitude_deg",
    "path",
    "overhead",
    "blur",
    "limits",
    "finest_detail_arcsec",
    "ceiling",
    "to_buy",
    "start",
    "climb_to",
    "rungs",
}
RUNG_KEYS = {
    "power",
    "eyepiece",
    "eyepiece_focal_length_mm",
    "barlows",
    "approximate",
    "exit_pupil_mm",
    "true_field_deg",
    "drift_s",
    "standing",
    "notices",
    "alternatives",
}
SIDE_KEYS = LADDER_KEYS | {
    "light_ratio_to_other",
    "resolution_arcsec",
    "disc_diameter_arcmin_at_ceiling",
    "elements_across_disc",
    "usable_minutes",
    "settled_minutes",
    "lowest_power",
    "widest_field_deg",
    "collimation",
}


@cache
def night(site: Site, evening: date) -> Night:
    return compute_night(site, evening)


def ladder(scope: Telescope, aim: Aim) -> Ladder:
    return build_ladder(scope=scope, eyepieces=BOX, barlows=DOUBLE, aim=aim, blur=Blur.assumed())


def sent(value: JsonObject) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Send an object through JSON text and back."""
    return json.loads(to_json(value))


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


@pytest.mark.parametrize(
    "find_aim",
    [
        aim_overhead,
        lambda: aim_altitude(3),
        lambda: aim_altitude(45),
        lambda: best_aim(night(LISBON, date(2026, 12, 5)), Body.SATURN),
    ],
    ids=["overhead", "too low", "height", "planet"],
)
@pytest.mark.parametrize("scope", [SIX, BINOCULAR], ids=lambda scope: scope.id)
def test_a_ladder_has_every_key(scope: Telescope, find_aim: Callable[[], Aim]) -> None:
    result = sent(ladder_json(ladder(scope, find_aim()), to_buy=None))

    assert result.keys() == LADDER_KEYS
    assert result["scope"] == {"id": scope.id, "name": scope.name}
    assert result["blur"] == {"overhead_arcsec": 1.45, "source": "assumed"}
    assert result["limits"].keys() == {"aperture", "usual_air", "tonight_air", "together", "band"}
    assert result["ceiling"].keys() == {"power", "set_by", "reason"}
    assert [rung["power"] for rung in result["rungs"]] == sorted(rung["power"] for rung in result["rungs"])
    for rung in result["rungs"]:
        assert rung.keys() == RUNG_KEYS
        for other in rung["alternatives"]:
            assert other.keys() == {"eyepiece", "eyepiece_focal_length_mm", "barlows", "power"}


def test_the_figures_of_a_ladder_are_exact() -> None:
    result = sent(ladder_json(ladder(SIX, aim_overhead()), to_buy=None))
    lowest, *_, highest = result["rungs"]

    # 1200 / 25 = 48 and 1200 * 2 / 8 = 300; 150 mm bears 2x per mm.
    assert lowest["power"] == 48
    assert lowest["eyepiece"] == "25 mm"
    assert lowest["barlows"] == []
    assert lowest["exit_pupil_mm"] == 3.125
    assert highest["power"] == pytest.approx(300)
    assert highest["barlows"] == ["2x"]
    assert result["limits"]["aperture"] == 300
    assert result["overhead"] is True
    assert result["planet"] is None
    assert result["at"] is None


def test_what_to_buy_is_told_with_what_it_is_for() -> None:
    # 25 and 10 mm on 80/480 mm give 19x and 48x; the nights bear far more.
    owned = (BOX[0], Eyepiece(name="10 mm", focal_length_mm=10))
    result = sent(ladder_json(ladder(EIGHTY, aim_overhead()), to_buy=what_to_buy(EIGHTY, owned, ())))[
        "to_buy"
    ]

    assert result["kind"] == "eyepiece"
    assert result["focal_length_mm"] < 10
    assert result["to_focal_length_mm"] is None
    assert result["factor"] is None
    assert result["for"] == "for nights that bear more than 48x: you have nothing above"


def test_a_ladder_too_low_gives_a_reason_and_no_ceiling() -> None:
    result = sent(ladder_json(ladder(SIX, aim_altitude(3)), to_buy=None))

    assert result["path"] is None
    assert result["limits"]["tonight_air"] is None
    assert result["ceiling"]["power"] is None
    assert result["ceiling"]["set_by"] is None
    assert result["ceiling"]["reason"]
    assert result["climb_to"] is None


def test_a_built_in_power_has_no_eyepiece() -> None:
    (rung,) = sent(ladder_json(ladder(BINOCULAR, aim_overhead()), to_buy=None))["rungs"]

    assert rung["power"] == 10
    assert rung["eyepiece"] is None
    assert rung["eyepiece_focal_length_mm"] is None
    assert rung["true_field_deg"] is None


def test_a_comparison_has_every_key_on_both_sides() -> None:
    aim = best_aim(night(LISBON, date(2026, 12, 5)), Body.SATURN)

    result = sent(
        compare_json(compare(ladder(SIX, aim), ladder(EIGHTY, aim), disc_arcsec=18.0), to_buy=(None, None))
    )

    assert result.keys() == {"schema", "planet", "at", "a", "b", "verdict"}
    assert result["planet"] == "saturn"
    assert result["at"] == result["a"]["at"]
    assert result["a"].keys() == SIDE_KEYS
    assert result["b"].keys() == SIDE_KEYS
    assert result["verdict"]
    assert all(sentence.endswith(".") for sentence in result["verdict"])


def test_no_name_can_command_a_terminal_through_json() -> None:
    nasty = "\x1b[31mred\x07\x7f\u202e\x9b"
    text = to_json(ladder_json(ladder(evolve(SIX, name=nasty), aim_overhead()), to_buy=None))

    assert text.isascii()
    assert all(character.isprintable() or character == "\n" for character in text)
    assert json.loads(text)["scope"]["name"] == nasty


def test_times_are_utc_with_milliseconds_at_most() -> None:
    moment = datetime(2026, 12, 5, 21, 42, 3, 123_999, tzinfo=timezone(timedelta(hours=5, minutes=45)))

    assert time_json(moment) == "2026-12-05T15:57:03.123Z"
    assert time_json(datetime(2026, 12, 5, tzinfo=UTC)) == "2026-12-05T00:00:00.000Z"
    assert time_json(None) is None


def test_what_does_not_fit_the_focuser_is_named_with_the_first_rung() -> None:
    wide = Eyepiece(id="w", name="40 mm wide", focal_length_mm=40, barrel_mm=50.8)
    found = ladder_json(
        build_ladder(
            scope=SIX, eyepieces=[*BOX, wide], barlows=DOUBLE, aim=aim_overhead(), blur=Blur.assumed()
        ),
        to_buy=None,
    )

    said = "40 mm wide has a 50.8 mm barrel and does not fit the 31.75 mm focuser of Six."
    assert said in found["rungs"][0]["notices"]
    assert said not in found["rungs"][1]["notices"]
