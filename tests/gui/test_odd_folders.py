"""Whatever lies in the program's own folders, the window opens, says so in a sentence, and closes."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from core.record.profile import save_profile
from tests.gui.conftest import make_profile

_WINDOW = """
import json, sys
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from gui.window.shell import Shell
from gui.window.start import run_window

app = QApplication([])
told = []

def shell():
    return next(widget for widget in app.topLevelWidgets() if isinstance(widget, Shell))

def begin():
    told.append(shell().message_line.text.text())
    shell().state.told.connect(told.append)
    shell().log_book.note("steady air")

QTimer.singleShot(0, begin)
QTimer.singleShot(1500, lambda: shell().show_view(2))
def leave():
    shell().documents.close()
    shell().state.mark_saved(Path(sys.argv[1]))
    shell().close()

QTimer.singleShot(2500, leave)
code = run_window(Path(sys.argv[1]))
print(json.dumps([code, told]))
"""


def _open(tmp_path: Path, state: Path, data: Path) -> tuple[int, list[str]]:
    path = tmp_path / "ines.toml"
    save_profile(path, make_profile())
    own = {"STILLAIR_STATE_FOLDER": str(state), "STILLAIR_DATA_FOLDER": str(data)}
    ran = subprocess.run(
        [sys.executable, "-c", _WINDOW, str(path)],
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        env={**os.environ, **own},
        check=False,
    )
    assert "Traceback" not in ran.stderr
    code, told = json.loads(ran.stdout.splitlines()[-1])
    return code, told


def _damaged(folder: Path, content: bytes) -> None:
    (folder / "unsaved").mkdir(parents=True)
    (folder / "session.json").write_bytes(content)
    (folder / "log.sqlite3").write_bytes(content)
    for number in (1, 2):
        (folder / "unsaved" / f"new-{number}.json").write_bytes(content)
        (folder / "unsaved" / f"new-{number}.lock").write_bytes(content)
    (folder / "evenings").mkdir()
    for place in (folder, folder / "unsaved", folder / "evenings"):
        left = place / ".stillair-0123456789ab.tmp"
        left.write_bytes(content)
        os.utime(left, (1, 1))


DAMAGE = [
    b"",
    bytes(5000),
    b"[" * 5000,
    b'{"palette": [], "recent": {"a": 1}}',
    b"\xff\xfe\x00",
    b"1" * 100_000,
]
# Each start of a whole window takes seconds: one of them daily, the others with the long tests.
long = pytest.mark.long


@pytest.mark.parametrize(
    "content",
    [DAMAGE[1], *(pytest.param(each, marks=long) for each in DAMAGE)],
    ids=lambda content: ascii(content[:8]),
)
def test_the_window_opens_over_any_damage(tmp_path: Path, content: bytes) -> None:
    folder = tmp_path / "own"
    _damaged(folder, content)
    code, told = _open(tmp_path, folder, folder)
    assert code == 0
    assert sum(sentence.count("Unsaved edits from the last time cannot be read") for sentence in told) == 2
    assert [copy.read_bytes() for copy in folder.glob("unsaved/*.unreadable")] == [content, content]
    assert not list(folder.rglob(".stillair-*"))
    # And the next start is not blocked either, nor told of what was set aside.
    code, told = _open(tmp_path, folder, folder)
    assert code == 0
    assert not any("Unsaved edits" in sentence for sentence in told)


@pytest.mark.parametrize(
    "place",
    [
        lambda at: at / ("x" * 300),
        pytest.param(lambda at: at / "file" / "below", marks=long),
        pytest.param(lambda _at: Path("/proc/nowhere"), marks=long),
    ],
    ids=["a name too long", "below a file", "nowhere"],
)
def test_the_window_opens_where_nothing_can_be_kept_and_says_so_once(
    tmp_path: Path, place: Callable[[Path], Path]
) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    code, told = _open(tmp_path, place(tmp_path), place(tmp_path))
    assert code == 0
    assert sum("can be kept in" in sentence for sentence in told) <= 1
    assert any("log" in sentence for sentence in told)
