"""``stillair looks``, as somebody types it."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import ephem
import numpy as np
import pytest

from gui.app import main

PROFILE = """
schema = 1
observer = "Noa"

[red_spot]
longitude_deg = 70
on = 2026-03-01

[[sites]]
id = "terrace"
name = "Back terrace"
latitude_deg = 38.72
longitude_deg = -9.14
time_zone = "Europe/Lisbon"

[[telescopes]]
id = "six"
name = "Six-inch \\u001b[2J"
kind = "reflector"
aperture_mm = 150
focal_length_mm = 1200

[[telescopes]]
id = "small"
name = "Lünette 80"
kind = "refractor"
aperture_mm = 80
focal_length_mm = 480
diagonal = "star"
driven = true

[[eyepieces]]
name = "25 mm"
focal_length_mm = 25
apparent_field_deg = 50

[[eyepieces]]
name = "8 mm"
focal_length_mm = 8
"""
AT = ["--at", "2026-12-06T04:00"]


@pytest.fixture
def profile(tmp_path: Path) -> str:
    path = tmp_path / "noa.toml"
    path.write_text(PROFILE, encoding="utf-8")
    return str(path)


def told(capsys: pytest.CaptureFixture[str], profile: str, *words: str) -> dict[str, Any]:
    assert main(["looks", profile, *words, "--json"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    answer = json.loads(out)
    assert isinstance(answer, dict)
    return answer


def text(capsys: pytest.CaptureFixture[str], profile: str, *words: str) -> str:
    assert main(["looks", profile, *words]) == 0
    return capsys.readouterr().out


def test_the_figures_agree_with_an_independent_reckoning(
    profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    # PyEphem; Lisbon keeps UTC in winter.
    jupiter = ephem.Jupiter("2026/12/6 04:00:00")

    looks = told(capsys, profile, "--planet", "jupiter", *AT)

    assert looks["at"] == "2026-12-06T04:00:00.000Z"
    assert looks["evening"] == "2026-12-05"
    disc = looks["disc"]
    assert disc["equatorial_diameter_arcsec"] == pytest.approx(jupiter.size, rel=0.005)
    found = {item["system"]: item["west_longitude_deg"] for item in disc["central_meridians"]}
    for system, expected in (("I", jupiter.cmlI), ("II", jupiter.cmlII)):
        # PyEphem's simpler series stands 0.8 to 0.9 degrees off, whatever the date; Meeus's example, to a
        # tenth, is in tests/published.
        off = (found[system] - np.degrees(expected) + 180.0) % 360.0 - 180.0
        assert abs(off) < 1.0


def test_without_a_time_the_best_minutes_are_meant(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    looks = told(capsys, profile, "--planet", "saturn", "--evening", "2026-12-05")
    transit = told(capsys, profile, "--planet", "saturn", "--at", looks["at"])

    assert looks["planet"] == "saturn"
    assert looks["altitude_deg"] == pytest.approx(52.1, abs=0.1)
    assert transit["ring"] == looks["ring"]


def test_scope_and_air_are_those_asked_for(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    first = told(capsys, profile, "--planet", "jupiter", *AT)
    small = told(capsys, profile, "--planet", "jupiter", *AT, "--scope", "lünette 80", "--blur", "0,8")

    assert first["scope"]["id"] == "six"
    assert first["blur"] == {"overhead_arcsec": 1.45, "source": "assumed"}
    # 1200 and 480 mm over 25 and 8 mm.
    assert [rung["power"] for rung in first["rungs"]] == [48, 150]
    assert [rung["power"] for rung in small["rungs"]] == pytest.approx([19.2, 60])
    assert small["scope"]["id"] == "small"
    assert small["blur"] == {"overhead_arcsec": 0.8, "source": "given"}
    assert (first["view"]["turning"], small["view"]["turning"]) == ("upside_down", "mirrored")
    assert small["view"]["drift_at_clock"] is None


def test_an_old_longitude_of_the_red_spot_is_warned_of(
    profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    looks = told(capsys, profile, "--planet", "jupiter", *AT)
    out = text(capsys, profile, "--planet", "jupiter", *AT)

    assert looks["red_spot"]["on"] == "2026-03-01"
    # From 1 March to 5 December 2026.
    assert looks["red_spot"]["warning"].startswith("The red spot's longitude was measured 279 days away")
    assert "The red spot is in the middle at" in out
    assert "measured 279 days away" in out


@pytest.mark.parametrize(
    "planet", ["Mercury", "venus", "MARS", "jupiter", "saturn", "uranus", "neptune", "moon"]
)
def test_the_text_fits_a_terminal_and_cannot_command_it(
    planet: str, profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    out = text(capsys, profile, "--planet", planet, "--evening", "2026-12-05")

    assert max(map(len, out.splitlines())) <= 80
    assert out.replace("\n", "").isprintable()


def test_a_profile_without_a_telescope_gets_the_facts(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "eyes.toml"
    path.write_text(PROFILE.partition("[[telescopes]]")[0], encoding="utf-8")

    looks = told(capsys, str(path), "--planet", "mars", *AT)

    assert looks["scope"] is None
    assert looks["rungs"] == looks["expectations"] == []
    assert looks["mars_season"] is not None
    assert looks["moon_events"] == []


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ([], "the following arguments are required: --planet"),
        (["--planet", "sun"], "--planet: the Sun is no target"),
        (["--planet", "mars", "--at", "nine"], "--at: 'nine' is not a time"),
        (
            ["--planet", "mars", "--at", "2026-12-06T13:00", "--evening", "2026-12-05"],
            "--at: must lie in the evening of 5 December 2026",
        ),
        (["--planet", "mars", "--scope", "ten"], "--scope: there is no telescope “ten”"),
        (["--planet", "mars", "--site", "hill"], "--site: there is no site “hill”"),
        (["--planet", "mars", "--blur", "9"], "--blur: must be from 0.2 to 8 arcsec"),
        (["--planet", "mars", "--evening", "1850-01-01"], "--evening: 1850-01-01 is outside"),
    ],
)
def test_bad_input_is_told_in_one_sentence(
    words: Sequence[str], reason: str, profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["looks", profile, *words]) == 2

    out, err = capsys.readouterr()
    assert err.startswith(f"stillair: {reason}")
    assert err.count("\n") == 1
    assert out == ""


def test_the_owners_filters_are_told_by_what_they_help_with(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "noa.toml"
    owned = '[[filters]]\nid = "b"\nname = "Light blue \\u001b[2J"\nwratten = "82A"\n'
    path.write_text(f"{PROFILE}\n{owned}", encoding="utf-8")

    found = told(capsys, str(path), "--planet", "jupiter", *AT)["filters"]
    out = text(capsys, str(path), "--planet", "jupiter", *AT)

    assert found["power"] == 150
    (belts,) = found["by_aim"]
    assert belts["aim"] == "belts"
    (blue,) = belts["filters"]
    assert (blue["id"], blue["offer"], blue["usually_from_mm"]) == ("b", "offered", 60)
    # By hand: 747.2 cd/m² x 0.725 x 0.785 mm².
    assert blue["light_trolands"] == pytest.approx(425, abs=2)
    assert "Filters on Jupiter at 150x" in out
    assert "For the belts: Light blue" in out
    assert "\x1b" not in out


def test_a_yellow_filter_is_named_where_the_colours_are_smeared(
    profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    low = ["--planet", "jupiter", "--at", "2026-12-06T00:45"]
    high = ["--planet", "jupiter", *AT]

    assert told(capsys, profile, *low)["dispersion"]["yellow_filter_cuts"] == 0.28
    assert told(capsys, profile, *high)["dispersion"]["yellow_filter_cuts"] is None
    said = " ".join(text(capsys, profile, *low).split())
    assert "A yellow filter (8, 12 or 15) cuts that by about 28%." in said
    assert "yellow filter" not in text(capsys, profile, *high)
