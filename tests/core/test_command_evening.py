"""``stillair evening``, as somebody types it."""

import json
from datetime import datetime
from pathlib import Path

import pytest

from gui.app import main

SAMPLES = Path(__file__).resolve().parents[2] / "sample_profiles"
BALCONY, CLOSED_TUBE = str(SAMPLES / "balcony_greece.toml"), str(SAMPLES / "closed_tube_minnesota.toml")
WINTER = ("--evening", "2026-12-05")


def test_the_steps_stand_in_order_with_their_words(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["evening", BALCONY, *WINTER]) == 0
    out = capsys.readouterr().out

    assert out.startswith("Saturn is best")
    titles = (
        "Check collimation",
        "Lay out the kit",
        "Carry out",
        "Finder",
        "Covers off",
        "Saturn",
        "Pack up",
    )
    places = [out.index(f"  {title}\n") for title in titles]
    assert places == sorted(places)
    assert "it blinds at once" in " ".join(out.split())
    assert "No filter here makes the Sun safe to look at." in " ".join(out.split())
    assert max(map(len, out.splitlines())) <= 80


def test_json_has_every_key_and_times_in_utc(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--indoor", "20", "--air-now", "8", "--air-low", "1", "--humidity", "90", "--json"]
    assert main(["evening", BALCONY, *WINTER, *words]) == 0
    told = json.loads(capsys.readouterr().out)

    assert set(told) == {
        *("schema", "evening", "start", "end", "site", "scope", "answer", "hours", "ready", "dew"),
        *("steps", "pairs", "cautions"),
    }
    assert told["scope"] == {"id": "six", "name": "Six-inch reflector"}
    low, likely, high = told["ready"]["usable_minutes"]
    assert low < likely < high
    assert told["dew"]["glass"] == "down_a_tube"
    kinds = [step["kind"] for step in told["steps"]]
    assert kinds.index("carry_out") < kinds.index("target") < kinds.index("pack_up")
    assert next(step["body"] for step in told["steps"] if step["kind"] == "target") == "saturn"
    starts = [datetime.fromisoformat(step["start"]) for step in told["steps"]]
    assert starts == sorted(starts)
    assert all(step["start"].endswith("Z") and step["words"] for step in told["steps"])


def test_without_temperatures_nothing_is_claimed_of_them(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["evening", BALCONY, *WINTER, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)

    assert told["ready"] is None
    assert told["dew"] is None


def test_degrees_fahrenheit_are_taken_and_told(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--indoor", "68F", "--air-now", "50F", "--air-low", "36F", "--humidity", "85"]
    assert main(["evening", CLOSED_TUBE, *WINTER, *words]) == 0
    out = " ".join(capsys.readouterr().out.split())

    assert "front glass" in out
    assert "°F." in out


def test_an_evening_of_no_darkness_has_nothing_to_prepare(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "north.toml"
    path.write_text(
        'schema = 2\n[[sites]]\nname = "North"\nlatitude_deg = 69.65\nlongitude_deg = 18.96\n'
        'time_zone = "Europe/Oslo"\n[[telescopes]]\nname = "Six"\nkind = "reflector"\n'
        "aperture_mm = 150\nfocal_length_mm = 1200\n",
        encoding="utf-8",
    )
    assert main(["evening", str(path), "--evening", "2026-06-21"]) == 0

    assert "Nothing to prepare" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--air-now", "8", "--air-low", "12"], "--air-low: The lowest of the night"),
        (["--humidity", "120"], "--humidity: must be from 1 to 100"),
        (["--indoor", "warm"], "--indoor"),
        (["--out-from", "23:00", "--out-until", "21:00"], "--out-until"),
        (["--scope", "none"], "--scope"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(
    capsys: pytest.CaptureFixture[str], words: list[str], told: str
) -> None:
    assert main(["evening", BALCONY, *WINTER, *words]) == 2
    out, err = capsys.readouterr()

    assert out == ""
    assert told in err
