"""The examples of the README: commands with what they print, read out of it, run, and written back.

An example is a block of ``console``: a line that begins with ``$ ``, then what it prints. A line of ``…``
alone stands for lines left out. Run as a module it puts what the commands print now in the place of what
stood there, as many lines of it as before.
"""

import os
import re
import shlex
import shutil
import tempfile
from contextlib import chdir, redirect_stdout
from datetime import UTC, datetime, timedelta
from io import StringIO
from pathlib import Path

from attrs import frozen

from core.record.folders import DATA_VARIABLE
from core.record.log_entry import Verdict
from core.record.profile import read_profile, save_profile
from core.situation.choices import Choices
from core.sky.bodies import Body
from gui.app import main
from gui.profile.log_book import LogBook
from gui.state import AppState

ROOT = Path(__file__).resolve().parent.parent
README = ROOT / "README.md"
LEFT_OUT = "…"
_BLOCK = re.compile(r"^```console\n\$ (?P<command>.+)\n(?P<printed>(?:(?!```).*\n)*)```$", re.MULTILINE)

SAMPLES = ROOT / "sample_profiles"
# What the README's tour leaves behind: a profile that its owner saved, and its lines in the log.
_OWN_PROFILE = "my.stillair.toml"
_FIRST_LOOK = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)
_BETWEEN = timedelta(minutes=6)
_CLIMB = ((120, Verdict.MORE), (150, Verdict.LESS))
_NOTE = "The ring stands clear of the disc; two belts in still moments."


@frozen
class Example:
    """A command as somebody types it, and the lines that the README shows of what it prints."""

    command: str
    shown: tuple[str, ...]

    def fits(self, printed: str) -> bool:
        """Tell whether something printed is what is shown, where lines are left out with any between."""
        parts = "\n".join(self.shown).split(f"\n{LEFT_OUT}")
        pattern = "(?:\n.*)*".join(map(re.escape, parts))
        return re.fullmatch(pattern, printed.rstrip("\n")) is not None

    def refreshed(self, printed: str) -> "Example":
        """Return the example with as many lines shown as before, of what is printed now."""
        lines = tuple(printed.rstrip("\n").split("\n"))
        if LEFT_OUT not in self.shown:
            return Example(self.command, lines)
        first = self.shown.index(LEFT_OUT)
        last = len(self.shown) - first - 1
        return Example(self.command, (*lines[:first], LEFT_OUT, *lines[len(lines) - last :]))

    @property
    def block(self) -> str:
        """The example as the README has it."""
        return "\n".join(("```console", f"$ {self.command}", *self.shown, "```"))


def examples(text: str) -> tuple[Example, ...]:
    """Return the examples of a text in their order."""
    return tuple(_example(found) for found in _BLOCK.finditer(text))


def _example(found: re.Match[str]) -> Example:
    return Example(found["command"], tuple(found["printed"].splitlines()))


def prepare(place: Path) -> None:
    """Lay out what the examples find: the samples, and what was written in the tour's evening.

    The log of ``DATA_VARIABLE`` takes the lines; a QApplication must be there.
    """
    shutil.copytree(SAMPLES, place / "sample_profiles", ignore=shutil.ignore_patterns("__pycache__"))
    path = place / _OWN_PROFILE
    times = iter(_FIRST_LOOK + number * _BETWEEN for number in range(1 + len(_CLIMB)))
    now = next(times)
    state = AppState(
        Choices(profile=read_profile(SAMPLES / "balcony_greece.toml")), path=path, clock=lambda: now
    )
    log_book = LogBook(state)
    state.set_planet(Body.SATURN)
    state.set_rung(48)
    for power, verdict in _CLIMB:
        now = next(times)
        state.beat()
        state.set_rung(power)
        log_book.give(verdict)
    state.set_rung(120)
    log_book.note(_NOTE)
    log_book.close()
    save_profile(path, state.profile)


def printed_by(command: str, place: Path) -> str:
    """Return what a command prints, run where ``prepare`` has been."""
    program, *words = shlex.split(command)
    assert program == "stillair", command
    told = StringIO()
    with chdir(place), redirect_stdout(told):
        outcome = main(words)
    assert outcome == 0, command
    # Paths are told in the way of the system.
    return told.getvalue().replace(os.sep, "/")


def refresh(path: Path) -> None:
    """Write what the commands print now into the examples of a file."""
    text = path.read_text("utf-8")
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        os.environ[DATA_VARIABLE] = str(place / "data")
        prepare(place)
        text = _BLOCK.sub(lambda found: _refreshed(_example(found), place), text)
    path.write_text(text, "utf-8")


def _refreshed(example: Example, place: Path) -> str:
    return example.refreshed(printed_by(example.command, place)).block


if __name__ == "__main__":
    refresh(README)
