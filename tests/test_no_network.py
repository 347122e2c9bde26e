"""Nothing is ever asked of a network: every command and the whole window, without one and watched."""

import functools
import os
import re
import shutil
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

from gui.commands import COMMANDS

# An observer with two telescopes, for whom every command has an answer.
SAMPLE = next(
    str(path)
    for path in sorted(Path(str(files("sample_profiles"))).glob("*.toml"))
    if path.read_text("utf-8").count("[[telescopes]]") > 1
)
EVENING = ("--evening", "2026-12-05")
# One line for each command; every command must have one.
LINES: dict[str, tuple[str, ...]] = {
    "heights": (SAMPLE, *EVENING),
    "ladder": (SAMPLE, "--planet", "saturn", *EVENING),
    "compare": (SAMPLE, "SCOPE", "SCOPE", *EVENING),
    "looks": (SAMPLE, "--planet", "jupiter", *EVENING),
    "evening": (SAMPLE, *EVENING),
    "year": (SAMPLE, "--planet", "mars", "--from", "2026-12-05"),
    "dates": (SAMPLE, "--planet", "saturn", "--from", "2026-12-05"),
    "log": (SAMPLE,),
    "sheet": (SAMPLE, *EVENING, "-o", "sheet.pdf"),
    "snapshot": (SAMPLE, *EVENING, "-o", "pictures"),
}

# Fails whatever opens a socket of the network, from Python's side; libraries below are watched otherwise.
_GUARD = """
import socket, sys

def watch(event, args):
    if event == "socket.__new__" and args[1] not in (-1, getattr(socket, "AF_UNIX", None)):
        raise SystemExit(f"a socket of family {args[1]}")
    if event in ("socket.getaddrinfo", "socket.gethostbyname", "socket.connect", "urllib.Request"):
        raise SystemExit(f"{event} {args}")

sys.addaudithook(watch)
"""
_COMMAND = "import sys\nfrom gui.app import main\nsys.exit(main(sys.argv[1:]))\n"
_WINDOW = """
import sys
from pathlib import Path
from attrs import evolve
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from gui.window.shell import Shell
from gui.window.start import run_window

app = QApplication([])
failed = []
sys.excepthook = lambda *error: failed.append(error)

def shell():
    return next(widget for widget in app.topLevelWidgets() if isinstance(widget, Shell))

def year():
    shell().show_view(1)
    shell().current_view.show_page(1)

def edit():
    shell().state.edit_profile("Rename", evolve(shell().state.profile, observer="Lea"))
    shell().log_book.note("steady air")
    assert shell().documents.save()

steps = [lambda: shell().show_view(0), lambda: shell().show_view(2), year, edit, lambda: shell().close()]
for number, step in enumerate(steps):
    QTimer.singleShot(1500 * (number + 1), step)
code = run_window(Path(sys.argv[1]))
print("closed", code, failed)
"""

linux_only = pytest.mark.skipif(sys.platform != "linux", reason="only Linux can take the network away")


def _environment(folder: Path) -> dict[str, str]:
    own = {"HOME": "home", "STILLAIR_STATE_FOLDER": "state", "STILLAIR_DATA_FOLDER": "data"}
    return {**os.environ, **{name: str(folder / place) for name, place in own.items()}}


def _run(folder: Path, program: str, *words: str, before: tuple[str, ...] = ()) -> None:
    root = str(Path(__file__).parents[1])
    path = f"import sys\nsys.path.insert(0, {root!r})\n"
    ran = subprocess.run(
        [*before, sys.executable, "-c", path + program, *words],
        cwd=folder,
        env=_environment(folder),
        capture_output=True,
        encoding="utf-8",
        timeout=110,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    assert "Traceback" not in ran.stderr
    if program.endswith(_WINDOW):
        assert ran.stdout.strip().endswith("closed 0 []")


def _words(command: str) -> tuple[str, ...]:
    if command != "compare":
        return (command, *LINES[command])
    from core.record.profile import read_profile

    first, second = (each.name for each in read_profile(Path(SAMPLE)).telescopes[:2])
    return (command, SAMPLE, first, second, *EVENING)


def _own_profile(folder: Path) -> str:
    return str(shutil.copy(SAMPLE, folder / "own.toml"))


def test_every_command_has_its_line_here() -> None:
    assert set(COMMANDS) <= set(LINES)


def test_a_command_opens_no_socket(tmp_path: Path) -> None:
    _run(tmp_path, _GUARD + _COMMAND, *_words("heights"))


def test_the_window_opens_no_socket(tmp_path: Path) -> None:
    _run(tmp_path, _GUARD + _WINDOW, _own_profile(tmp_path))


def test_the_guard_sees_a_socket_of_the_network(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="a socket of family"):
        _run(tmp_path, _GUARD + "socket.socket()\n")


# Without a network at all.


@functools.cache
def _can(*command: str) -> bool:
    try:
        return subprocess.run(command, capture_output=True, check=False, timeout=20).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def _without_network() -> tuple[str, ...]:
    """Return what runs a program where there is no network, or skip the test and say why."""
    for before in (("unshare", "-n"), ("unshare", "-r", "-n")):
        if _can(*before, "true"):
            return before
    pytest.skip("this machine lets nobody take the network away (unshare -n)")


@linux_only
@pytest.mark.long
@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_answers_without_a_network(tmp_path: Path, command: str) -> None:
    _run(tmp_path, _COMMAND, *_words(command), before=_without_network())


@linux_only
@pytest.mark.long
def test_the_window_works_without_a_network(tmp_path: Path) -> None:
    _run(tmp_path, _WINDOW, _own_profile(tmp_path), before=_without_network())


# Watched by the system itself, the libraries below Python with it.


def _watched(log: Path) -> tuple[str, ...]:
    before = ("strace", "-f", "-qq", "-e", "trace=socket,connect,bind,sendto", "-o", str(log))
    if not _can("strace", "-qq", "-o", os.devnull, "true"):
        pytest.skip("this machine lets nobody watch system calls (strace)")
    return before


def _strangers(log: Path) -> list[str]:
    """Return the system calls that reach for anything but the display and the accessibility bus."""
    own = re.compile(r"AF_UNIX|AF_LOCAL|SIG[A-Z]+|sendto\(\d+, .*NULL, 0\)")
    return [line for line in log.read_text("utf-8", "replace").splitlines() if not own.search(line)]


@linux_only
@pytest.mark.long
@pytest.mark.parametrize("command", COMMANDS)
def test_no_command_asks_the_system_for_a_network(tmp_path: Path, command: str) -> None:
    log = tmp_path / "calls"
    _run(tmp_path, _COMMAND, *_words(command), before=_watched(log))
    assert _strangers(log) == []


@linux_only
@pytest.mark.long
def test_the_window_asks_the_system_for_no_network(tmp_path: Path) -> None:
    log = tmp_path / "calls"
    _run(tmp_path, _WINDOW, _own_profile(tmp_path), before=_watched(log))
    assert _strangers(log) == []


@linux_only
@pytest.mark.long
def test_a_call_for_a_network_would_be_seen(tmp_path: Path) -> None:
    log = tmp_path / "calls"
    program = "import socket\nsocket.socket(socket.AF_INET, socket.SOCK_DGRAM).connect(('127.0.0.1', 9))\n"
    _run(tmp_path, program, before=_watched(log))
    assert any("AF_INET" in line for line in _strangers(log))
