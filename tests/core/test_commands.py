"""The commands of the terminal, as somebody types them."""

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from gui.app import main
from gui.commands import COMMANDS

ROOT = Path(__file__).resolve().parents[2]

PROFILE = """
schema = 1
observer = "Noa"

[[sites]]
id = "terrace"
name = "Back terrace"
latitude_deg = 38.72
longitude_deg = -9.14
time_zone = "Europe/Lisbon"
[[sites.blocked]]
azimuth_from_deg = 90
azimuth_to_deg = 140
below_altitude_deg = 30
what = "\\u001b[2Jroof ridge"

[[sites]]
id = "far"
name = "Far north"
latitude_deg = 69.65
longitude_deg = 18.96
time_zone = "Europe/Oslo"

[[telescopes]]
id = "six"
name = "Six-inch"
kind = "reflector"
aperture_mm = 150
focal_length_mm = 1200

[[telescopes]]
id = "small"
name = "Lünette 80"
kind = "refractor"
aperture_mm = 80
focal_length_mm = 480

[[eyepieces]]
name = "25 mm"
focal_length_mm = 25

[[eyepieces]]
name = "8 mm"
focal_length_mm = 8

[[barlows]]
name = "2x"
factor = 2
"""


@pytest.fixture
def profile(tmp_path: Path) -> str:
    path = tmp_path / "noa.toml"
    path.write_text(PROFILE, encoding="utf-8")
    return str(path)


def run(*words: str, **environ: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "gui.app", *words],
        cwd=ROOT,
        env={**os.environ, "PYTHONIOENCODING": "utf-8", **environ},
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=False,
    )


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
    assert out.startswith("Six-inch: power ladder\nSaturn on Sat 5 December 2026 20:11: 52.1° high")
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


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["heights"], "the following arguments are required: PROFILE"),
        (["heights", "PROFILE", "--evening", "20261205"], "--evening: must be a date such as 2026-12-05"),
        (["heights", "PROFILE", "--evening", "2026-13-01"], "--evening: must be a date such as 2026-12-05"),
        (
            ["heights", "PROFILE", "--evening", "2060-01-01"],
            "--evening: 2060-01-01 is outside the planet tables",
        ),
        (
            ["heights", "PROFILE", "--site", "nowhere"],
            "--site: there is no site “nowhere”; choose one of “Back",
        ),
        (["heights", "PROFILE", "--wat"], "unrecognized arguments: --wat"),
        (["heights", "PROFILE", "--eve", "2026-12-05"], "unrecognized arguments: --eve"),
        (["ladder", "PROFILE", "--blur", "9"], "--blur: must be from 0.2 to 8 arcsec, not “9”"),
        (["ladder", "PROFILE", "--blur", "nan"], "--blur: “nan” is not a number"),
        (["ladder", "PROFILE", "--blur", "inf"], "--blur: “inf” is not a number"),
        (["ladder", "PROFILE", "--altitude", "91"], "--altitude: must be from 0 to 90 degrees"),
        (["ladder", "PROFILE", "--altitude=-5"], "--altitude: must be from 0 to 90 degrees"),
        (["ladder", "PROFILE", "--altitude", "9", "--planet", "mars"], "--altitude: goes without --planet"),
        (["ladder", "PROFILE", "--at", "2026-12-05T21:00"], "--at: goes with --planet"),
        (["ladder", "PROFILE", "--planet", "sun"], "--planet: the Sun is no target"),
        (
            ["ladder", "PROFILE", "--planet", "pluto"],
            (
                "--planet: must be one of mercury, venus, mars, jupiter, saturn, uranus, neptune, moon, "
                "not “pluto” (see stillair ladder --help)"
            ),
        ),
        (["ladder", "PROFILE", "--planet", "mars", "--at", "nine"], "--at: 'nine' is not a time"),
        (
            ["ladder", "PROFILE", "--planet", "mars", "--at", "2026-03-29T01:30"],
            "--at: '2026-03-29T01:30' does not exist in Europe/Lisbon",
        ),
        (
            ["ladder", "PROFILE", "--planet", "mars", "--at", "2026-12-06T13:00", "--evening", "2026-12-05"],
            "--at: must lie in the evening of 5 December 2026, from noon to noon",
        ),
        (
            ["ladder", "PROFILE", "--scope", "ten"],
            "--scope: there is no telescope “ten”; choose one of “Six-inch”",
        ),
        (["compare", "PROFILE", "six"], "the following arguments are required: SCOPE_B"),
        (["compare", "PROFILE", "six", "ten"], "SCOPE_B: there is no telescope “ten”"),
        (["snapshot", "PROFILE"], "the following arguments are required: -o"),
        (["snapshot", "PROFILE", "-o", "out", "--size", "10x10"], "--size: must be a size such as 1000x640"),
        (["snapshot", "PROFILE", "-o", "out", "--scale", "9"], "--scale: must be from 0.5 to 4"),
        (["snapshot", "PROFILE", "-o", "out", "--palette", "pink"], "--palette: invalid choice: 'pink'"),
        (["snapshot", "PROFILE", "-o", "out", "--evening", "1850-01-01"], "--evening: 1850-01-01 is outside"),
        (["snapshot", "PROFILE", "-o", "PROFILE"], "-o: noa.toml already exists and is not a folder"),
        (["hights", "PROFILE"], "there is no command hights; did you mean heights?"),
        (["--frobnicate"], "cannot make sense of --frobnicate"),
    ],
)
def test_bad_input_is_told_in_one_sentence_and_nothing_is_written(
    words: Sequence[str],
    told: str,
    profile: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)

    assert main([profile if word == "PROFILE" else word for word in words]) == 2

    out, err = capsys.readouterr()
    assert err.startswith(f"stillair: {told}")
    assert err.count("\n") == 1
    assert "Traceback" not in err
    assert out == ""
    assert [path.name for path in tmp_path.iterdir()] == ["noa.toml"]


def test_every_problem_of_a_profile_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(PROFILE.replace("38.72", "95").replace("= 150", "= -1"), encoding="utf-8")

    assert main(["heights", str(path)]) == 2

    err = capsys.readouterr().err
    assert "latitude_deg" in err
    assert "aperture_mm" in err
    assert all(line.startswith("stillair: ") for line in err.splitlines())


@pytest.mark.parametrize("kind", ["missing", "folder", "pipe", "zeros", "brackets", "empty"])
@pytest.mark.parametrize("command", [["heights"], []], ids=["heights", "window"])
def test_what_is_no_profile_is_refused(
    kind: str, command: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "profile.toml"
    if kind == "folder":
        path.mkdir()
    elif kind == "pipe":
        if not hasattr(os, "mkfifo"):
            pytest.skip("this system has no named pipes")
        os.mkfifo(path)
    elif kind == "zeros":
        with path.open("wb") as file:
            file.truncate(50_000_000)
    elif kind == "brackets":
        path.write_text("a = " + "[" * 5000, encoding="utf-8")
    elif kind == "empty":
        path.touch()

    assert main([*command, str(path)]) == 2

    err = capsys.readouterr().err
    assert err.startswith("stillair: profile.toml: ")
    assert err.count("\n") == 1


def test_a_profile_just_begun_says_what_is_missing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "new.toml"
    path.write_text("schema = 1\n", encoding="utf-8")

    assert main(["heights", str(path)]) == 2
    assert capsys.readouterr().err == "stillair: --site: the profile has no site yet\n"
    assert main(["ladder", str(path)]) == 2
    assert capsys.readouterr().err == "stillair: --scope: the profile has no telescope yet\n"


def test_the_words_of_a_profile_never_command_the_terminal(
    profile: str, capsys: pytest.CaptureFixture[str]
) -> None:
    for words in (["heights", profile], ["heights", profile, "--json"], ["ladder", profile]):
        assert main([*words]) == 0
        assert capsys.readouterr().out.replace("\n", "").isprintable()
    assert main(["heights", profile, "--site", "\x1b[2J"]) == 2
    assert "\x1b" not in capsys.readouterr().err


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


def test_a_terminal_with_few_signs_still_gets_every_figure(profile: str) -> None:
    done = run("heights", profile, "--evening", "2026-12-05", PYTHONIOENCODING="ascii")

    assert done.returncode == 0
    assert done.stderr == ""
    assert done.stdout.isascii()
    assert "52 deg" in done.stdout


def test_a_reader_that_leaves_early_is_no_error(profile: str) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "gui.app", "heights", profile],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert process.stdout is not None
    process.stdout.close()
    assert process.stderr is not None
    with process.stderr:
        told = process.stderr.read()
    process.wait(timeout=60)

    assert told == b""


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
