"""Names from a stranger's file are text everywhere: in tooltips, labels, menus, lists, titles."""

import ast
from collections.abc import Iterator
from html import escape
from pathlib import Path

import pytest
from attrs import evolve
from PySide6.QtCore import QAbstractItemModel, QEvent, QModelIndex, QPoint, Qt
from PySide6.QtGui import QHelpEvent
from PySide6.QtGui import Qt as GuiQt
from PySide6.QtWidgets import QAbstractItemView, QApplication, QComboBox, QLabel, QMenu, QToolTip, QWidget
from pytestqt.qtbot import QtBot

import gui
from core.drawing.palette import load_palette
from core.gear.owned import Filter
from core.record.observer import Profile
from core.sky.site import WarmAir
from gui.gear.horizon import HorizonPicture
from gui.gear.view import GearView
from gui.height.view import YEAR, HeightView
from gui.widgets.plain_tip import plain_tip
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import TERRACE, MakeShell, MakeState, make_profile

HOSTILE = '<b>x</b><img src="file:///etc/hostname"><a href="file:///">y</a>'


def hostile_profile() -> Profile:
    """Return an observer with every name and word hostile, each its own."""
    usual = make_profile()
    site = evolve(
        TERRACE,
        name=f"{HOSTILE} site",
        blocked=tuple(evolve(each, what=HOSTILE, heated=True) for each in TERRACE.blocked),
        warm_air=(WarmAir(azimuth_from_deg=100, azimuth_to_deg=140, below_altitude_deg=40, what=HOSTILE),),
    )
    return evolve(
        usual,
        observer=HOSTILE,
        sites=(site,),
        telescopes=tuple(
            evolve(each, name=f"{HOSTILE} scope {n}", notes=HOSTILE)
            for n, each in enumerate(usual.telescopes)
        ),
        eyepieces=tuple(evolve(each, name=f"{HOSTILE} {each.name}") for each in usual.eyepieces),
        barlows=tuple(evolve(each, name=f"{HOSTILE} lens") for each in usual.barlows),
        filters=(Filter(name=HOSTILE, wratten="82A"),),
    )


def _texts_of(model: QAbstractItemModel, role: Qt.ItemDataRole) -> Iterator[str]:
    waiting = [QModelIndex()]
    while waiting:
        parent = waiting.pop()
        for row in range(model.rowCount(parent)):
            column = 0
            # The lists of Qt's own do not say how many columns they have.
            while (index := model.index(row, column, parent)).isValid():
                yield str(index.data(role) or "")
                if column == 0 and model.rowCount(index):
                    waiting.append(index)
                column += 1


def tips(window: QWidget) -> Iterator[str]:
    """Yield every tooltip of a window: of widgets and items; those of actions are shown by no menu."""
    for widget in (window, *window.findChildren(QWidget)):
        yield widget.toolTip()
        yield widget.whatsThis()
        yield widget.statusTip()
        if isinstance(widget, QAbstractItemView | QComboBox) and widget.model() is not None:
            yield from _texts_of(widget.model(), Qt.ItemDataRole.ToolTipRole)


def check_all(window: QWidget) -> int:
    """Look at every text of a window; return how many of them hold a hostile name."""
    found = 0
    for tip in tips(window):
        found += escape(HOSTILE) in tip
        assert HOSTILE not in tip or not GuiQt.mightBeRichText(tip)
    assert not any(menu.toolTipsVisible() for menu in window.findChildren(QMenu))
    for label in window.findChildren(QLabel):
        assert label.textFormat() is Qt.TextFormat.PlainText, label.text()
        found += HOSTILE in label.text()
    return found


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_no_text_of_the_window_is_taken_for_more_than_text(
    make_shell: MakeShell, make_state: MakeState, view: int
) -> None:
    state = make_state(hostile_profile())
    shell = make_shell(state, view=view)
    shell.state.tell(HOSTILE)
    current = shell.current_view
    if isinstance(current, GearView):
        for horizon in current.findChildren(HorizonPicture):
            horizon.choose(0)
    if isinstance(current, HeightView):
        current.show_page(YEAR)
    state.edit_profile(HOSTILE, evolve(state.profile, observer=f"{HOSTILE}!"))
    assert check_all(shell) > 0


def test_the_tooltip_of_the_horizon_is_shown_letter_by_letter(qtbot: QtBot) -> None:
    horizon = HorizonPicture(load_palette("day"))
    qtbot.addWidget(horizon)
    horizon.set_sky(hostile_profile().sites[0].blocked, is_northern=True)
    horizon.choose(0)
    horizon.resize(400, 200)
    horizon.show()
    qtbot.waitExposed(horizon)
    where = QPoint(200, 100)
    QApplication.sendEvent(horizon, QHelpEvent(QEvent.Type.ToolTip, where, horizon.mapToGlobal(where)))
    qtbot.waitUntil(QToolTip.isVisible)
    assert escape(HOSTILE) in QToolTip.text()
    QToolTip.hideText()


@pytest.mark.parametrize("text", ["plain & simple", "f < 5", "two\nlines", ""])
def test_a_usual_text_stays_as_it_is(text: str) -> None:
    assert plain_tip(text) == text


def _calls(name: str) -> Iterator[tuple[str, ast.Call]]:
    for path in sorted(Path(next(iter(gui.__path__))).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            called = node.func
            own = called.attr if isinstance(called, ast.Attribute) else getattr(called, "id", "")
            if own == name:
                yield f"{path.name}:{node.lineno}", node


def _is_ours(text: ast.expr) -> bool:
    """Tell whether a text is written in the program itself, or shown letter by letter."""
    match text:
        case ast.Constant():
            return True
        case ast.Name(id=name):
            return name.isupper()
        case ast.IfExp(body=body, orelse=other):
            return _is_ours(body) and _is_ours(other)
        case ast.JoinedStr():
            return isinstance(text.values[0], ast.Constant)
        case ast.Call(func=ast.Name(id="plain_tip")):
            return True
        case ast.Call(func=ast.Name(id="with_own_keys"), args=[own]):
            return _is_ours(own)
    return False


@pytest.mark.parametrize("name", ["setToolTip", "setWhatsThis", "setStatusTip"])
def test_every_tooltip_is_of_the_programs_own_words_or_plain(name: str) -> None:
    assert [place for place, call in _calls(name) if not _is_ours(call.args[-1])] == []


def test_every_label_is_a_plain_one() -> None:
    # The one box of Qt's own, for those without a terminal, is told to show plain text.
    richer = ("QLabel", "QTextEdit", "QTextBrowser")
    assert [place for kind in richer for place, _ in _calls(kind)] == []
