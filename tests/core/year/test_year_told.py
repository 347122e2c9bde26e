"""A planet's year as text for a terminal, as JSON, and as a command."""

import json
import re
from collections.abc import Sequence
from datetime import date, datetime
from pathlib import Path

import pytest
from attrs import evolve

from core.export.heights import heights_json
from core.export.year import year_json
from core.plain_text import width_of
from core.report.year import year_text
from core.sky.bodies import TARGETS, Body
from core.sky.night import compute_night
from core.sky.site import Site
from core.words.year import best_weeks_text, cautions
from core.year.year import compute_year
from gui.app import main
from tests.core.telling import situation_of
from tests.core.year.years import GOOD, LISBON, TROMSO, year


def test_a_caution_stands_in_text_and_json() -> None:
    told = year(Body.MERCURY)
    text = " ".join(year_text(told).split())

    assert all(words in text for words in cautions(told))
    assert year_json(told)["cautions"] == list(cautions(told))


# --- Text ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("body", TARGETS)
@pytest.mark.parametrize("site", [LISBON, TROMSO], ids=lambda site: site.name)
@pytest.mark.parametrize("clock", [24, 12])
def test_the_year_fits_80_columns_and_begins_with_the_best_weeks(body: Body, site: Site, clock: int) -> None:
    told = year(body, site)
    text = year_text(told, clock=clock)

    assert [line for line in text.splitlines() if width_of(line) > 80] == []
    assert text.replace("\n", "").isprintable()
    assert text.splitlines()[0] == best_weeks_text(told)[: len(text.splitlines()[0])]
    assert text.count(" 2026") >= 2


def test_every_seventh_evening_is_a_row() -> None:
    lines = year_text(year(Body.SATURN)).splitlines()
    rows = lines[next(number for number, line in enumerate(lines) if line.startswith("evening ")) + 1 :]

    assert len(rows) == 53
    assert rows[0].startswith("5 Dec 2026 ")
    assert rows[1].startswith("12 Dec ")
    assert rows[4].startswith("2 Jan 2027 ")
    night = compute_night(LISBON, date(2026, 12, 12)).of(Body.SATURN)
    local = [time.astimezone(LISBON.zone) for time in (night.rises[0], night.transits[0].time, night.sets[0])]
    # To the nearest minute.
    shown = rows[1].split()[2:5]
    for text, time in zip(shown, local, strict=True):
        hours, minutes = map(int, text.split(":"))
        assert abs(hours * 60 + minutes - time.hour * 60 - time.minute - time.second / 60) <= 0.51


def test_up_all_day_is_told_apart_from_down_all_day() -> None:
    text = year_text(year(Body.VENUS, TROMSO))

    assert "down" in text
    assert " up " in text


def test_a_name_of_the_owners_commands_no_terminal() -> None:
    odd = evolve(LISBON, name="\x1b[2Jterrace")

    assert "\x1b" not in year_text(compute_year(odd, Body.SATURN, GOOD))


# --- JSON ------------------------------------------------------------------------------------------------


def test_json_tells_each_evening_as_heights_does() -> None:
    told = json.loads(json.dumps(year_json(year(Body.SATURN)), allow_nan=False))

    assert [told[key] for key in ("schema", "planet", "from", "to")] == [
        1,
        "saturn",
        "2026-12-05",
        "2027-12-04",
    ]
    assert len(told["evenings"]) == 365
    for number in (0, 113, 200):
        evening = told["evenings"][number]
        night = compute_night(LISBON, date.fromisoformat(evening["evening"]))
        heights = heights_json(situation_of(night))
        (saturn,) = (body for body in heights["bodies"] if body["body"] == "saturn")
        assert told["site"] == heights["site"]
        assert (evening["start"], evening["end"]) == (heights["start"], heights["end"])
        assert evening["state"] == saturn["state"]
        for key in ("rises", "sets", "above_30", "above_45"):
            assert flat_s(evening[key]) == pytest.approx(flat_s(saturn[key]), abs=0.01), key
        assert flat_s(evening["transits"]) == pytest.approx(
            flat_s([transit["time"] for transit in saturn["transits"]]), abs=0.01
        )
        # In mid-evening here, at the transit there.
        assert evening["diameter_arcsec"] == pytest.approx(saturn["diameter_arcsec"], rel=0.001)


def flat_s(times: Sequence[str | Sequence[str]]) -> list[float]:
    """Return the times of a list, or of a list of spans, in Unix seconds."""
    found = [time for each in times for time in ([each] if isinstance(each, str) else each)]
    assert all(time.endswith("Z") for time in found)
    return [datetime.fromisoformat(time).timestamp() for time in found]


def test_json_has_every_key_even_where_nothing_is_to_be_told() -> None:
    told = year_json(year(Body.MERCURY, TROMSO))

    assert told["best"] == {
        "above_deg": None,
        "spans": [],
        "sharpest": None,
        "highest": None,
        "largest": None,
    }
    in_summer = told["evenings"][200]
    assert in_summer["best"] is None
    assert (in_summer["above_45"], in_summer["dark_hours_above_30"]) == ([], 0.0)
    assert told["dark_enough_sun_altitude_deg"] == -4.0


def test_json_and_words_agree_on_the_best_weeks() -> None:
    told = year_json(year(Body.MARS))

    assert told["best"]["above_deg"] == 45
    ((first, last),) = told["best"]["spans"]
    hours = {each["evening"]: each["dark_hours_above_45"] for each in told["evenings"]}
    assert hours[first] >= 0.5
    assert hours[last] >= 0.5
    assert told["phenomena"][0]["event"] == "opposition"
    assert told["phenomena"][0]["time"].startswith("2027-02-19T15:5")


# --- The command -----------------------------------------------------------------------------------------


@pytest.fixture
def profile(tmp_path: Path) -> str:
    path = tmp_path / "noa.toml"
    path.write_text(
        'schema = 1\nobserver = "Noa"\n[[sites]]\nid = "terrace"\nname = "Back terrace"\n'
        'latitude_deg = 38.72\nlongitude_deg = -9.14\ntime_zone = "Europe/Lisbon"\n'
        '[[sites]]\nid = "samoa"\nname = "Bay"\nlatitude_deg = -13.8\nlongitude_deg = -171.8\n'
        'time_zone = "Pacific/Apia"\n',
        encoding="utf-8",
    )
    return str(path)


def test_the_command_begins_with_the_best_weeks(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["year", profile, "--planet", "Saturn", "--from", "2026-12-05"]) == 0

    out, err = capsys.readouterr()
    assert out.startswith("Saturn is best until ")
    assert err == ""


def test_a_poor_evening_of_heights_names_the_next_good_one(
    profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    north = Path(profile).read_text("utf-8").replace("-13.8", "60.0").replace("-171.8", "10.7")
    Path(profile).write_text(north.replace("Pacific/Apia", "Europe/Oslo"), encoding="utf-8")

    assert main(["heights", profile, "--site", "samoa", "--evening", "2026-06-21"]) == 0

    told = " ".join(capsys.readouterr().out.split())
    assert re.search(
        r"In a dark sky it is clearly better from \d+ \w+( 202\d)?, [\d.]+″ at [\d.]+°, and best within", told
    )


def test_the_command_begins_tonight_when_left_to_itself(
    profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["year", profile, "--planet", "moon", "--site", "bay", "--json"]) == 0

    told = json.loads(capsys.readouterr().out)
    assert told["site"]["id"] == "samoa"
    assert len(told["evenings"]) in (365, 366)


@pytest.mark.parametrize(
    ("words", "problem"),
    [
        ([], "--planet"),
        (["--planet", "sun"], "the Sun is no target"),
        (["--planet", "pluto"], "must be one of mercury"),
        (["--planet", "mars", "--from", "2060-01-01"], "--from: 2060-01-01 is outside the planet tables"),
        (["--planet", "mars", "--from", "tomorrow"], "--from: must be a date such as 2026-12-05"),
        (["--planet", "mars", "--site", "attic"], "there is no site"),
        (["--planet", "mars", "--site", "bay", "--from", "2011-12-30"], "--from: 2011-12-30 does not exist"),
    ],
)
def test_bad_input_is_told_in_one_line(
    words: list[str], problem: str, profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["year", profile, *words]) == 2

    out, err = capsys.readouterr()
    assert out == ""
    assert problem in err
    assert len(err.splitlines()) == 1
