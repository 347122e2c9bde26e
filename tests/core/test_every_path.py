"""Whatever name is typed and whatever is missing on the machine, a command answers in a sentence."""

import os
import shutil
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

from gui.app import BAD_INPUT, main
from gui.commands import COMMANDS

SAMPLE = Path(str(files("sample_profiles") / "balcony_greece.toml"))
# What each command wants beside a profile.
WANTED = {
    "ladder": ["--scope", "x"],
    "compare": ["a", "b"],
    "looks": ["--planet", "mars"],
    "year": ["--planet", "mars"],
    "dates": ["--planet", "mars"],
    "sheet": ["-o", "sheet.pdf"],
    "snapshot": ["-o", "pictures"],
}
NAMES = [
    ".",
    "..",
    "/",
    "",
    "x" * 300,
    "a\nb",
    "null\udc00",
    os.devnull,
    "no/such/folder.toml",
    "\x1b[2J.toml",
]


@pytest.mark.parametrize("name", NAMES, ids=lambda name: ascii(name)[:14])
@pytest.mark.parametrize("command", [*COMMANDS, ""])
def test_any_name_is_answered_in_a_sentence(
    command: str,
    name: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STILLAIR_STATE_FOLDER", str(tmp_path / "state"))
    words = [command, name, *WANTED.get(command, [])] if command else [name]
    assert main(words) == BAD_INPUT
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("stillair: ")
    assert "Traceback" not in told.err
    assert "\x1b" not in told.err
    assert list(tmp_path.iterdir()) == []


def _heights(tmp_path: Path, preparation: str, *words: str) -> "subprocess.CompletedProcess[str]":
    program = f"{preparation}\nimport sys; from gui.app import main; sys.exit(main(sys.argv[1:]))"
    return subprocess.run(
        [sys.executable, "-c", program, "heights", str(SAMPLE), *words],
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        env={**os.environ, "PYTHONIOENCODING": "utf-8", "HOME": str(tmp_path)},
        check=False,
    )


def _another_table(path: Path) -> str:
    return (
        f"import core.sky.ephemeris as e; from pathlib import Path; e.files = lambda _: Path({str(path)!r})"
    )


REPAIR = "install it again with: python -m pip install --force-reinstall skyfield-data"
WHOLE = Path(str(files("skyfield_data") / "data" / "de421.bsp"))


@pytest.mark.parametrize("words", [(), ("--evening", "2026-12-05")], ids=["tonight", "an evening"])
@pytest.mark.parametrize("damage", ["missing", "empty", "zeros", "short", "text", "hollow", "one bit"])
def test_a_damaged_planet_table_is_named_with_how_to_repair_it(
    tmp_path: Path, damage: str, words: tuple[str, ...]
) -> None:
    table = tmp_path / "data" / "de421.bsp"
    table.parent.mkdir()
    match damage:
        case "empty":
            table.write_bytes(b"")
        case "zeros":
            table.write_bytes(bytes(100_000))
        case "text":
            table.write_text("not a table", encoding="utf-8")
        case "short":
            table.write_bytes(WHOLE.read_bytes()[:1_000_000])
        case "hollow":
            # The beginning is whole, as after a power cut while it was copied; the figures are zeros.
            shutil.copyfile(WHOLE, table)
            with table.open("r+b") as file:
                file.seek(10_000)
                file.write(bytes(table.stat().st_size - 10_000))
        case "one bit":
            content = bytearray(WHOLE.read_bytes())
            content[12_345_678] ^= 1
            table.write_bytes(content)
    ran = _heights(tmp_path, _another_table(tmp_path), *words)
    assert (ran.returncode, ran.stdout) == (BAD_INPUT, "")
    assert ran.stderr.startswith("stillair: the planet table de421.bsp: is missing or damaged (")
    assert ran.stderr.endswith(f"); {REPAIR}\n")


def test_without_the_package_of_the_planet_table_it_says_so_too(tmp_path: Path) -> None:
    ran = _heights(tmp_path, "import sys; sys.modules['skyfield_data'] = None")
    assert ran.returncode == BAD_INPUT
    assert REPAIR in ran.stderr


def test_without_time_zone_data_it_says_what_to_install(tmp_path: Path) -> None:
    ran = _heights(
        tmp_path, "import sys, zoneinfo; sys.modules['tzdata'] = None; zoneinfo.reset_tzpath(to=[])"
    )
    assert ran.returncode == BAD_INPUT
    assert "the time zone data is missing; install the package tzdata again" in ran.stderr
    assert "Traceback" not in ran.stderr
