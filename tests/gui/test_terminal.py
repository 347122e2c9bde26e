"""The commands in terminals of other widths and code pages, and where the output takes no more."""

import io
import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from core.plain_text import width_of, writable, written_in
from core.record.profile import read_profile
from gui.app import main
from gui.commands import COMMANDS as ALL_COMMANDS

ROOT = Path(__file__).parents[2]
SAMPLES = sorted((ROOT / "sample_profiles").glob("*.toml"))
EVENING = ("--evening", "2026-12-05")
COMMANDS = {
    "heights": (*EVENING, "--now", "2026-12-05T18:00"),
    "ladder": ("--planet", "saturn", *EVENING),
    "looks": ("--planet", "jupiter", *EVENING),
    "evening": (*EVENING, "--indoor", "20", "--air-now", "12", "--air-low", "5", "--humidity", "80"),
    "year": ("--planet", "mars", "--from", "2026-12-05"),
    "dates": ("--planet", "saturn", "--planet", "moon", "--moon", "0-30", "--from", "2026-12-05"),
    "log": (),
}
TWO_SCOPES = {
    "balcony_greece.toml": ("Six-inch reflector", "80 mm refractor"),
    "closed_tube_minnesota.toml": ('8" f/10', "20-60x80 spotting scope"),
}
COMPARISONS = {ROOT / "sample_profiles" / name: scopes for name, scopes in TWO_SCOPES.items()}


def all_calls() -> list[tuple[str, ...]]:
    calls: list[tuple[str, ...]] = [
        (name, str(sample), *words) for name, words in COMMANDS.items() for sample in SAMPLES
    ]
    return calls + [("compare", str(path), *scopes, *EVENING) for path, scopes in COMPARISONS.items()]


def call_id(call: Sequence[str]) -> str:
    return f"{call[0]}-{Path(call[1]).stem.split('_')[0]}"


def told(
    monkeypatch: pytest.MonkeyPatch, call: Sequence[str], *, encoding: str = "utf-8", width: int = 80
) -> str:
    """Return what a command prints in a terminal of a width and a code page, exactly as it arrives."""
    stream = io.TextIOWrapper(io.BytesIO(), encoding=encoding, newline="\n")
    monkeypatch.setattr(sys, "stdout", stream)
    monkeypatch.setenv("COLUMNS", str(width))
    assert main(call) == 0
    stream.flush()
    assert isinstance(stream.buffer, io.BytesIO)
    return stream.buffer.getvalue().decode(encoding)


@pytest.mark.parametrize("width", [40, 57, 80, 200])
@pytest.mark.parametrize("call", all_calls(), ids=call_id)
def test_no_line_is_wider_than_the_terminal(
    call: tuple[str, ...], width: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = told(monkeypatch, call, width=width).splitlines()
    assert [line for line in lines if width_of(line) > width] == []
    assert len(lines) > 5 or call[0] == "log"


@pytest.mark.parametrize("words", [(), *((name,) for name in ALL_COMMANDS)], ids=" ".join)
def test_no_line_of_help_is_wider_than_the_terminal(
    words: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    for width in (40, 57, 80, 200):
        text = told(monkeypatch, (*words, "--help"), width=width)
        assert max(map(width_of, text.splitlines())) <= width
        assert "--help" in text


NASTY = r"""
schema = 2
observer = "O\u001b[31m\u0007"
[[sites]]
name = "S\u001b[31m"
latitude_deg = 41.15
longitude_deg = -8.61
time_zone = "Europe/Lisbon"
[[sites.blocked]]
azimuth_from_deg = 190
azimuth_to_deg = 230
below_altitude_deg = 28
what = "B\u001b[31m"
heated = true
[[telescopes]]
name = "T\u001b[31m"
kind = "reflector"
aperture_mm = 150
focal_length_mm = 1200
[[telescopes]]
name = "U\u001b[31m"
kind = "refractor"
aperture_mm = 80
focal_length_mm = 500
[[eyepieces]]
name = "E\u001b[31m"
focal_length_mm = 10
[[barlows]]
name = "P\u001b[31m"
factor = 2
[[filters]]
name = "F\u001b[31m"
wratten = "82A"
"""
NASTY_CALLS = [
    *((name, *words) for name, words in COMMANDS.items()),
    ("compare", "first scope", "second scope", *EVENING),
    ("log", "--search", "nothing\x1b[2J"),
    ("log", "--csv"),
]


@pytest.mark.parametrize("call", NASTY_CALLS, ids=" ".join)
def test_no_command_passes_a_file_s_control_characters_on(
    call: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "nasty\x1b[2J.toml"
    path.write_text(NASTY, encoding="utf-8")
    profile = read_profile(path)
    names = {"first scope": profile.telescopes[0].id, "second scope": profile.telescopes[1].id}
    text = told(monkeypatch, (call[0], str(path), *(names.get(word, word) for word in call[1:])))
    assert [sign for sign in text if sign < " " and sign not in "\r\n"] == []


def test_a_narrow_terminal_loses_no_figure_of_a_rung(monkeypatch: pytest.MonkeyPatch) -> None:
    call = ("ladder", str(SAMPLES[-1]), "--planet", "saturn", *EVENING)
    narrow = told(monkeypatch, call, width=40)
    assert (
        "\n40x\n  eyepiece 30 mm wide,\n  exit pupil 6.4 mm, field 1.7°,\n  drift 6.9 min, begin here\n"
        in narrow
    )
    assert "18 mm + 2x" in narrow


def test_a_wide_terminal_is_used(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = told(monkeypatch, all_calls()[0], width=200).splitlines()
    assert max(map(len, lines)) > 120


def test_a_width_that_is_none_is_taken_for_eighty_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    assert told(monkeypatch, all_calls()[0], width=0) == told(monkeypatch, all_calls()[0], width=80)


@pytest.mark.parametrize("encoding", ["cp1252", "cp437", "ascii"])
@pytest.mark.parametrize("call", all_calls(), ids=call_id)
def test_a_code_page_replaces_only_the_signs_that_it_lacks(
    call: tuple[str, ...], encoding: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = told(monkeypatch, call, encoding=encoding)
    assert [line for line in text.splitlines() if len(line) > 80] == []
    if encoding != "ascii" and call[0] != "log":  # both others have it
        assert "°" in text
        assert " deg" not in text


@pytest.mark.parametrize(
    ("encoding", "written"),
    [
        ("ascii", '50 deg, 1.45", 120x, 19:07-22:12, Lucia, ??, ...'),
        ("cp437", '50°, 1.45", 120x, 19:07-22:12, Lucía, ??, ...'),
        ("cp1252", '50°, 1.45", 120×, 19:07–22:12, Lucía, ??, …'),
        ("iso8859-7", '50°, 1.45", 120x, 19:07-22:12, Lucia, ??, ...'),
    ],
)
def test_signs_become_plainer_one_by_one(encoding: str, written: str) -> None:
    with written_in(encoding):
        assert writable("50°, 1.45″, 120×, 19:07–22:12, Lucía, 家庭, …") == written


def test_columns_stay_in_line_where_a_sign_takes_more_room(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = told(monkeypatch, all_calls()[0], encoding="ascii").splitlines()
    header = next(line for line in lines if line.lstrip().startswith("rises"))
    saturn = next(line for line in lines if line.startswith("Saturn  "))
    end = header.index("highest") + len("highest")
    assert saturn[:end].endswith(" deg")
    assert saturn[header.index("sets") :][2] == ":"


def test_json_is_the_same_in_every_code_page(monkeypatch: pytest.MonkeyPatch) -> None:
    call = (*all_calls()[0], "--json")
    plain = told(monkeypatch, call, encoding="ascii")
    assert plain == told(monkeypatch, call)
    assert json.loads(plain)["site"]["name"]


def run_with(output: str | int, *words: str, **more: str) -> "subprocess.CompletedProcess[bytes]":
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", **more}
    command = [sys.executable, "-m", "gui.app", *words]
    if isinstance(output, int):
        return subprocess.run(
            command, cwd=ROOT, env=environment, stdout=output, stderr=subprocess.PIPE, check=False, timeout=60
        )
    with Path(output).open("wb") as file:
        return run_with(file.fileno(), *words, **more)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
@pytest.mark.parametrize(
    "words", [("heights", str(SAMPLES[0])), ("--help",), ("ladder", "--help"), ("--version",)]
)
def test_a_full_device_is_told_in_a_sentence(words: tuple[str, ...]) -> None:
    done = run_with("/dev/full", *words)
    assert done.returncode == 1
    assert (
        done.stderr.decode() == "stillair: the output: cannot be written or read: No space left on device\n"
    )


@pytest.mark.skipif(os.name != "posix", reason="pipes that close differ elsewhere")
@pytest.mark.parametrize("words", [("year", str(SAMPLES[0]), "--planet", "mars"), ("--help",)])
def test_a_reader_that_has_gone_is_met_with_silence(words: tuple[str, ...]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = run_with(writing, *words)
    os.close(writing)
    assert done.stderr == b""
    assert done.returncode == 1


def test_a_c_locale_gets_every_sign_it_can_write() -> None:
    done = run_with(
        subprocess.PIPE, "heights", str(SAMPLES[0]), LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0"
    )
    assert done.returncode == 0
    assert done.stdout.isascii()
    assert b" deg" in done.stdout
