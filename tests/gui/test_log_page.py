"""The log in the window: read, searched, written, edited, taken out, saved and taken in."""

import json
from contextlib import closing
from pathlib import Path

import attrs
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.record.log import Log
from core.record.log_entry import LogEntry, Verdict
from gui.ladder.log_page import LogPage
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.widgets import dialogs
from tests.core.record.log_lines import PROFILE, line
from tests.gui.conftest import MakeShell


@pytest.fixture
def written(own_data_folder: Path, state: AppState) -> tuple[LogEntry, ...]:
    """Three lines of the site in hand are in the log."""
    site = state.situation.site
    assert site is not None
    lines = (
        line(0, site_id=site.id, note="belts sharp"),
        line(9, site_id=site.id, verdict=Verdict.LESS, from_power=240.0, power=300.0),
        line(20, site_id=site.id, verdict=None, note="dew on the finder <b>bold</b>"),
    )
    with closing(Log.open(own_data_folder)) as log:
        log.add_unknown(lines)
    state.load(attrs.evolve(state.profile, id=PROFILE), None)
    return lines


@pytest.fixture
def page(make_shell: MakeShell, state: AppState, written: tuple[LogEntry, ...], qtbot: QtBot) -> LogPage:
    view = make_shell(state, view=2).current_view
    assert written
    assert isinstance(view, LadderView)
    qtbot.mouseClick(view.log_button, Qt.MouseButton.LeftButton)
    assert view.log_page.isVisible()
    return view.log_page


def _texts(page: LogPage) -> list[str]:
    return [page.list.item(row).text() for row in range(page.list.count())]


def test_lines_stand_newest_first_as_plain_text(page: LogPage) -> None:
    texts = _texts(page)

    assert len(texts) == 3
    assert texts[0].endswith("\ndew on the finder <b>bold</b>")
    assert "300x: less detail than 240x" in texts[1]
    assert "240x: more detail than 150x" in texts[2]
    assert texts[2].startswith("5 Dec 21:04  Saturn 50°")


def test_typing_searches_and_tells_when_nothing_fits(page: LogPage) -> None:
    page.search.setFocus()
    QTest.keyClicks(page.search, "belt")
    assert len(_texts(page)) == 1
    QTest.keyClicks(page.search, "zzz")
    assert _texts(page) == []
    assert page.empty.text() == "No line has all of these words."


def test_a_note_is_written_and_taken_back(page: LogPage, state: AppState) -> None:
    page.note.setFocus()
    QTest.keyClicks(page.note, "the gap is black all round")
    QTest.keyClick(page.note, Qt.Key.Key_Return)

    assert _texts(page)[0].endswith("\nthe gap is black all round")
    assert page.note.text() == ""
    state.undo_stack.undo()
    assert "the gap" not in "".join(_texts(page))


def test_a_line_is_edited(page: LogPage, qtbot: QtBot, own_data_folder: Path) -> None:
    page.list.setCurrentRow(2)
    qtbot.mouseClick(page.edit, Qt.MouseButton.LeftButton)
    assert page.note.text() == "belts sharp"
    page.note.selectAll()
    QTest.keyClicks(page.note, "belts soft")
    qtbot.mouseClick(page.write, Qt.MouseButton.LeftButton)

    assert _texts(page)[2].endswith("\nbelts soft")
    with closing(Log.open(own_data_folder)) as log:
        assert log.entries(PROFILE)[0].note == "belts soft"
        assert log.entries(PROFILE)[0].verdict is Verdict.MORE


def test_a_line_is_taken_out_by_a_key_and_comes_back(qtbot: QtBot, page: LogPage, state: AppState) -> None:
    page.window().activateWindow()
    page.list.setFocus()
    qtbot.waitUntil(page.list.hasFocus)
    page.list.setCurrentRow(1)
    QTest.keyClick(page.list, Qt.Key.Key_Delete)
    assert len(_texts(page)) == 2
    state.undo_stack.undo()
    assert len(_texts(page)) == 3
    assert "300x: less detail" in _texts(page)[1]


@pytest.mark.parametrize("name", ["log.json", "log.csv"])
def test_a_copy_is_saved(
    page: LogPage,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    state: AppState,
    name: str,
) -> None:
    monkeypatch.setattr(dialogs, "ask_save_log", lambda *_asked: tmp_path / name)
    with qtbot.waitSignal(state.told) as told:
        qtbot.mouseClick(page.save, Qt.MouseButton.LeftButton)

    assert told.args == [f"The log was saved as {name}."]
    text = (tmp_path / name).read_text("utf-8-sig")
    assert len(json.loads(text)["entries"] if name.endswith("json") else text.splitlines()[1:]) == 3


def test_another_log_is_taken_in_once(
    page: LogPage, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, state: AppState
) -> None:
    from core.export.log import log_json

    file = tmp_path / "other.json"
    file.write_text(json.dumps(log_json([line(40), line(50)])), "utf-8")
    monkeypatch.setattr(dialogs, "ask_open_log", lambda *_asked: file)
    for told_then in ("2 lines were added to the log.", "Nothing new: every line of the file is in the log"):
        with qtbot.waitSignal(state.told) as told:
            qtbot.mouseClick(page.take_in, Qt.MouseButton.LeftButton)
        assert told.args is not None
        assert told.args[0].startswith(told_then)
    assert len(_texts(page)) == 5


def test_what_worked_here_is_counted_honestly(page: LogPage, qtbot: QtBot) -> None:
    pane = page.experience
    assert pane.count.text() == "Only 2 verdicts so far: read it as an anecdote."
    assert "After verdicts of 5 nights" in pane.air.text()
    assert pane.canvas.accessibleDescription() == (
        "240x: more detail 1, no change 0, less detail 0; 300x: more detail 0, no change 0, less detail 1"
    )
    pane.by.setCurrentIndex(3)
    qtbot.waitUntil(lambda: "Saturn" in pane._groups)
    assert list(pane._groups) == ["Saturn"]
