"""``stillair dates``, as somebody types it."""

import json
from pathlib import Path

import pytest

from gui.app import main
from tests.core.commands_by_hand import PROFILE

FROM = ("--from", "2026-12-05")


def test_two_planets_and_little_moon(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    words = ("--planet", "saturn", "--planet", "jupiter", "--from-height", "jupiter=35", "--moon", "0-30")
    hours = ("--out-until", "02:00")
    assert main(["dates", profile, *words, *hours, *FROM]) == 0
    text = capsys.readouterr().out

    heading = " ".join(text.partition("\n\n")[0].split())
    assert heading == (
        "The next ten evenings at Back terrace with Saturn above 30° and Jupiter above 35° for 20 minutes or "
        "more between dusk and 02:00, with 0 to 30% of the Moon lit."
    )
    days = [line for line in text.splitlines() if line.endswith("% lit")]
    assert len(days) == 10
    # By PyEphem Jupiter is under 35 degrees at 01:40 until the night of the 8th, and over it from the 9th on.
    assert days[0] == "Wed 9 December 2026, Moon 1% lit"
    assert all(0 <= int(day.rpartition("Moon ")[2].partition("%")[0]) <= 30 for day in days)
    assert text.count("in usual air") == 20
    assert max(map(len, text.splitlines())) <= 80


def test_json_has_every_key(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["dates", profile, "--planet", "Saturn", "--scope", "small", *FROM, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)

    assert list(told) == [
        *("schema", "site", "from", "searched_to", "wishes", "moon_percent", "hours", "scope", "cautions"),
        "evenings",
    ]
    assert told["wishes"] == [{"body": "saturn", "above_deg": 30.0}]
    assert told["moon_percent"] is None
    assert told["hours"] == {"from": "dusk", "until": "23:30", "usual": True}
    assert told["scope"]["id"] == "small"
    assert len(told["evenings"]) == 10
    first = told["evenings"][0]
    assert first["evening"] == "2026-12-05"
    assert first["hours"]["assumed"] is True
    assert list(first["bodies"][0]) == ["body", "spans", "highest", "ceiling_power"]
    assert 30 < first["bodies"][0]["highest"]["altitude_deg"] < 60


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (("--planet", "sun"), "--planet: the Sun is no target"),
        (("--planet", "mars", "--moon", "30"), "--moon: must be two figures such as 0-30"),
        (("--planet", "mars", "--moon", "40-20"), "--moon: must be the lower figure first"),
        (("--planet", "mars", "--moon", "0-120"), "--moon: must be from 0 to 100 percent"),
        (("--planet", "mars", "--from-height", "95"), "--from-height: must be from 10 to 89 degrees"),
        (("--planet", "mars", "--from-height", "nan"), "--from-height: "),
        (("--planet", "mars", "--from-height", "venus=20"), "--from-height: Venus is not among the planets"),
        (("--planet", "mars", "--from-height", "pluto=20"), "--from-height: must be one of mercury"),
        (
            ("--planet", "mars", "--out-from", "22:00", "--out-until", "21:00"),
            "--out-until: the hours outside must end after they start",
        ),
        (("--planet", "mars", "--from", "2070-01-01"), "--from: 2070-01-01 is outside the planet tables"),
        ((), "--planet"),
    ],
)
def test_what_is_refused(
    profile: str, words: tuple[str, ...], complaint: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["dates", profile, *words]) == 2

    out, err = capsys.readouterr()
    assert out == ""
    assert complaint in err
    assert len(err.splitlines()) == 1
    assert "Traceback" not in err


def test_nothing_fits_and_mercury_has_its_caution(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["dates", profile, "--planet", "mercury", "--from-height", "60", *FROM]) == 0
    text = " ".join(capsys.readouterr().out.split())

    assert text.startswith("No evening at Back terrace until 5 December 2034 has Mercury above 60°")
    assert "Ask for less height or for other hours." in text
    assert "cap the telescope and its finder before sunrise" in text


def test_a_profile_s_own_usual_hours_are_not_assumed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "own.toml"
    path.write_text(f'{PROFILE}\n[preferences]\nout_from = "20:00"\nclock = 12\n', encoding="utf-8")
    assert main(["dates", str(path), "--planet", "saturn", *FROM]) == 0

    assert "in your usual hours (8:00 pm to 11:30 pm)" in " ".join(capsys.readouterr().out.split())
