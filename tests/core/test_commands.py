"""The commands of the terminal, as somebody types them."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from gui.app import main
from gui.commands import COMMANDS
from tests.core.commands_by_hand import ROOT, run


def test_heights_begins_with_the_answer(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["heights", profile, "--evening", "2026-12-05"]) == 0

    out, err = capsys.readouterr()
    assert out.startswith("Saturn is best ")
    assert "Back terrace, evening of Sat 5 December 2026" in out
    assert err == ""


def test_heights_as_json_is_one_object(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["heights", profile, "--site", "far north", "--evening", "2026-06-21", "--json"]) == 0

    told = json.loads(capsys.readouterr().out)
    assert told["evening"] == "2026-06-21"
    assert told["site"]["id"] == "far"
    assert told["sun"]["set"] is None


def test_heights_without_an_evening_is_tonight(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["heights", profile, "--json"]) == 0

    assert len(json.loads(capsys.readouterr().out)["bodies"]) == 8


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ([], {"overhead": True, "planet": None, "at": None, "altitude_deg": 90}),
        (["--altitude", "45"], {"overhead": False, "altitude_deg": 45}),
        (["--altitude", "12,5"], {"altitude_deg": 12.5}),
        (["--altitude", "3"], {"path": None, "climb_to": None}),
        (["--scope", "SIX"], {"scope": {"id": "six", "name": "Six-inch"}}),
        (["--scope", "small"], {"scope": {"id": "small", "name": "Lünette 80"}}),
        (["--blur", "1"], {"blur": {"overhead_arcsec": 1, "source": "given"}}),
        (["--planet", "saturn", "--evening", "2026-12-05"], {"planet": "saturn", "overhead": False}),
        # Site time: Lisbon keeps UTC in winter and is an hour ahead in summer.
        (["--planet", "mars", "--at", "2026-12-06T04:00"], {"at": "2026-12-06T04:00:00.000Z"}),
        (["--planet", "moon", "--at", "2026-07-01 22:30"], {"at": "2026-07-01T21:30:00.000Z"}),
        (["--planet", "mars", "--at", "2026-12-06T04:00+05:45"], {"at": "2026-12-05T22:15:00.000Z"}),
    ],
)
def test_ladder_points_where_it_is_told(
    words: list[str], expected: dict[str, object], profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["ladder", profile, *words, "--json"]) == 0

    told = json.loads(capsys.readouterr().out)
    assert {key: told[key] for key in expected} == expected


def test_ladder_as_text(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ladder", profile, "--planet", "Saturn", "--evening", "2026-12-05"]) == 0

    out = capsys.readouterr().out
    assert out.startswith("Six-inch: power ladder\nSaturn on Sat 5 December 2026 at 20:11: 52.1° high")
    assert "  48x  25 mm" in out


def test_compare_both_ways(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--planet", "saturn", "--evening", "2026-12-05", "--json"]
    assert main(["compare", profile, "six", "small", *words]) == 0
    one = json.loads(capsys.readouterr().out)
    assert main(["compare", profile, "small", "six", *words]) == 0
    other = json.loads(capsys.readouterr().out)

    assert one["a"] == other["b"]
    assert one["b"] == other["a"]
    assert one["verdict"] == other["verdict"]


def test_compare_as_text_overhead(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", profile, "six", "small", "--blur", "3"]) == 0

    assert "Straight overhead" in capsys.readouterr().out


def test_a_mask_is_told_in_the_owners_unit(profile: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A mask of 3 in on 150 mm, 5.91 in, in the words of every command that speaks of it."""
    written = Path(profile).read_text(encoding="utf-8")
    masked = written.replace("aperture_mm = 150\n", "aperture_mm = 150\nmask_mm = 76.2\n")
    Path(profile).write_text(f'{masked}\n[preferences]\nlength = "in"\n', encoding="utf-8")
    planet = ["--planet", "saturn", "--evening", "2026-12-05"]

    for words in (
        ["ladder", profile, *planet],
        ["ladder", profile, *planet, "--json"],
        ["compare", profile, "six", "small", *planet, "--json"],
        ["heights", profile, "--evening", "2026-12-05"],
    ):
        assert main(words) == 0
        told = " ".join(capsys.readouterr().out.split())
        assert "With the off-axis mask it is a telescope of 3 in without obstruction" in told
        assert "than the whole 5.91 in shows" in told


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0

    out = capsys.readouterr().out
    assert all(f"  {name} " in out for name in COMMANDS)
    for name in COMMANDS:
        assert main([name, "--help"]) == 0
        assert f"usage: stillair {name}" in capsys.readouterr().out


def test_commands_need_neither_qt_nor_matplotlib(profile: str) -> None:
    lines = (
        ["heights", profile],
        ["ladder", profile],
        ["compare", profile, "six", "small"],
        ["looks", profile, "--planet", "saturn"],
    )
    script = (
        "import sys; from gui.app import main\n"
        f"for words in {lines!r}: assert main(words) == 0\n"
        "loaded = {name.partition('.')[0] for name in sys.modules}\n"
        "print(sorted(loaded & {'PySide6', 'shiboken6', 'matplotlib'}))"
    )

    done = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, encoding="utf-8", check=True
    )

    assert done.stdout.splitlines()[-1] == "[]"


@pytest.mark.skipif(sys.platform != "linux", reason="only here can a display be missing")
@pytest.mark.parametrize(
    ("environ", "told"),
    [
        ({"QT_QPA_PLATFORM": ""}, "there is no display (neither DISPLAY nor WAYLAND_DISPLAY is set)"),
        ({"QT_QPA_PLATFORM": "", "DISPLAY": ":7654"}, "the display ':7654' does not answer"),
        ({"QT_QPA_PLATFORM": "nonsense"}, "Qt has no platform 'nonsense'"),
    ],
)
def test_without_a_display_the_window_says_so_and_ends(environ: dict[str, str], told: str) -> None:
    done = run(DISPLAY="", WAYLAND_DISPLAY="", **environ) if "DISPLAY" not in environ else run(**environ)

    assert done.returncode == 1, "a crash would give a negative code"
    assert done.stderr.count("\n") == 1
    assert told in done.stderr or "the system lacks" in done.stderr
    assert "stillair heights" in done.stderr


def test_snapshot_needs_no_display(profile: str, tmp_path: Path) -> None:
    folder = tmp_path / "pictures"

    done = run(
        "snapshot", profile, "--evening", "2026-12-05", "-o", str(folder), DISPLAY="", WAYLAND_DISPLAY=""
    )

    assert done.stderr == ""
    assert done.returncode == 0
    names = ["gear.png", "height.png", "ladder.png", "side_by_side.png"]
    assert sorted(path.name for path in folder.iterdir()) == names
    assert sorted(Path(line).name for line in done.stdout.splitlines()) == names
