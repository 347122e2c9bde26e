"""The place in the system's menu, the icon, the kind of file, and what a start without a terminal tells."""

import configparser
import os
import shlex
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PySide6.QtCore import QDir, QStandardPaths, QUrl
from PySide6.QtGui import QFileOpenEvent, QImage
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QMessageBox
from pytestqt.qtbot import QtBot

from core.words.help_pages import KEYS
from gui import app, message_box
from gui.app import main
from gui.desktop import freedesktop, start_words
from gui.display import NoWindowError
from gui.widgets import dialogs
from gui.widgets.key_names import with_own_keys
from gui.window.file_open import FileOpen
from gui.window.help_texts import about_text

ROOT = Path(__file__).parents[2]

linux_only = pytest.mark.skipif(sys.platform != "linux", reason="the standards of Linux desktops")


@pytest.fixture
def data_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("PATH", "")  # no program of a real desktop is run
    return tmp_path


@linux_only
def test_the_entry_starts_the_window_with_the_file_that_was_clicked(
    data_home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--install-desktop"]) == 0
    assert capsys.readouterr().out.startswith("Stillair is in the menu now.")
    parser = configparser.ConfigParser(interpolation=None)
    parser.optionxform = str  # type: ignore[assignment,method-assign] # keys keep their capitals
    parser.read(data_home / "applications" / "stillair.desktop", encoding="utf-8")
    entry = parser["Desktop Entry"]
    assert shlex.split(entry["Exec"]) == [*start_words(), "%f"]
    assert entry["Terminal"] == "false"
    assert entry["MimeType"].split(";")[0] == freedesktop.MIME_TYPE


@linux_only
def test_the_icon_is_there_in_every_size(data_home: Path) -> None:
    main(["--install-desktop"])
    for size in freedesktop.ICON_SIZES:
        picture = QImage(str(data_home / "icons" / "hicolor" / f"{size}x{size}" / "apps" / "stillair.png"))
        assert (picture.width(), picture.height()) == (size, size)
        assert len({picture.pixel(x, size // 3) for x in range(size)}) > 2
    assert (data_home / "icons" / "hicolor" / "scalable" / "apps" / "stillair.svg").is_file()


@linux_only
def test_profiles_are_a_kind_of_file_of_their_own_and_other_toml_files_are_not(data_home: Path) -> None:
    main(["--install-desktop"])
    tree = ElementTree.parse(data_home / "mime" / "packages" / "stillair.xml")
    patterns = [element.get("pattern") for element in tree.iter() if element.tag.endswith("glob")]
    assert patterns == ["*.stillair.toml"]


@linux_only
def test_removing_leaves_nothing_of_it(data_home: Path) -> None:
    main(["--install-desktop"])
    assert main(["--remove-desktop"]) == 0
    assert [path for path in data_home.rglob("*") if path.is_file()] == []


@linux_only
def test_a_path_with_any_sign_in_it_survives_the_entry() -> None:
    # What the Desktop Entry Specification asks for: a quoted argument inside an escaped value.
    value = freedesktop.quoted('/home/a b/$x "y" 100%')
    assert value == '"/home/a b/\\\\$x \\\\"y\\\\" 100%%"'


def test_a_mac_is_told_of_its_app(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "platform", "darwin")
    assert main(["--install-desktop"]) == 2
    assert "drag it into Applications" in capsys.readouterr().err


def test_without_a_terminal_a_box_tells_what_is_wrong(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shown: list[str] = []

    def read(box: QMessageBox) -> int:
        shown.append(box.text())
        box.show()
        assert "nowhere.toml" in [label.text() for label in box.findChildren(QLabel) if label.text()][-1]
        box.close()
        return 0

    monkeypatch.setattr(QMessageBox, "exec", read)
    assert app.window_main(["nowhere.toml"]) == 2
    assert shown == ["nowhere.toml: there is no such file"]
    assert capsys.readouterr().err == ""


@linux_only
def test_without_qt_the_system_s_own_box_tells_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    told = tmp_path / "told"
    box = tmp_path / "zenity"
    box.write_text(f'#!/bin/sh\nprintf "%s|" "$@" >{told}\n', encoding="utf-8")
    box.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")

    def refuse() -> None:
        raise NoWindowError("No window can be opened here: nothing")

    monkeypatch.setattr(message_box, "check_window", refuse)
    message_box.show_message("<b>Not</b> today\x1b[31m")
    assert told.read_text(encoding="utf-8").split("|")[-2] == "<b>Not</b> today\N{REPLACEMENT CHARACTER}[31m"


def test_a_file_that_the_system_asks_for_is_opened(qapp: QApplication, qtbot: QtBot) -> None:
    opened: list[Path] = []
    door = FileOpen(qapp, opened.append)
    qapp.sendEvent(qapp, QFileOpenEvent(QUrl.fromLocalFile("/some/where/kit.toml")))
    qtbot.waitUntil(lambda: opened == [Path("/some/where/kit.toml")])
    qapp.removeEventFilter(door)


def test_help_names_the_keys_of_the_system_it_runs_on() -> None:
    assert with_own_keys(KEYS, "linux") == KEYS
    on_a_mac = with_own_keys(KEYS, "darwin")
    assert "Cmd+1 or F5   Gear" in on_a_mac
    assert "Option+W" in on_a_mac
    assert "Ctrl+Cmd+F   full screen" in on_a_mac
    assert "Alt" not in on_a_mac


@pytest.mark.parametrize(("platform", "points"), [("darwin", 14.0), ("linux", 10.5), ("win32", 10.5)])
def test_letters_of_window_and_charts_are_fourteen_pixels_on_every_system(
    platform: str, points: float
) -> None:
    # Qt counts 72 pixels to an inch on macOS, 96 elsewhere (Qt's documentation, "High DPI").
    script = f"""
import sys
import PySide6.QtWidgets
sys.platform = {platform!r}
from PySide6.QtWidgets import QApplication
from core.drawing.lettering import Lettering
from gui.widgets.pen import ScreenMeasure
from gui.widgets.theme import Theme
app = QApplication([])
Theme.of(app).wear("day")
print(app.font().pointSizeF(), ScreenMeasure("any", 1.0).font(Lettering(10.5)).pointSizeF())
"""
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=ROOT,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert [float(word) for word in done.stdout.split()] == [points, points]


@pytest.mark.parametrize(
    "owed",
    [
        "GeoNames (geonames.org), Creative Commons Attribution 4.0",
        "© OpenStreetMap contributors, Open Database Licence",
        "Lesser General Public Licence version 3",
        "JPL ephemeris DE421",
        "Bitstream Vera licence",
        "MIT licence (stillair.txt)",
    ],
)
def test_about_names_whose_work_is_in_it(owed: str) -> None:
    assert owed in about_text(Path("nowhere"))


def test_dialogs_begin_among_a_person_s_documents(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    begun: list[str] = []

    def look(dialog: QFileDialog) -> int:
        begun.append(dialog.directory().absolutePath())
        return 0

    monkeypatch.setattr(QFileDialog, "exec", look)
    documents = tmp_path / "Documents"
    monkeypatch.setattr(QStandardPaths, "writableLocation", lambda _kind: str(documents))
    dialogs.ask_open(None, None)
    documents.mkdir()
    dialogs.ask_open(None, None)
    dialogs.ask_open(None, tmp_path)
    assert begun == [QDir.homePath(), str(documents), str(tmp_path)]
