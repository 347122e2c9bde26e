"""What the commands refuse, and what no name or text may do to a terminal."""

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from gui.app import main
from tests.core.commands_by_hand import PROFILE, ROOT, run


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
