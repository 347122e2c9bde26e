"""What a reader of the screen is told of every surface, asked through the tree that it asks."""

from collections.abc import Iterator
from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox, QWidget

from core.sky.bodies import Body
from core.words.owned_kinds import Kind
from gui.gear.horizon import HorizonPicture
from gui.gear.owned_list import OwnedRow
from gui.gear.view import GearView
from gui.height.view import HeightView
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import MakeShell, pixels
from tests.gui.surfaces import dialogs, pages, settle

Role, Text = QAccessible.Role, QAccessible.Text
# What a person can do something with; a page that scrolls is "Client" to Qt.
SANE = {
    *(Role.Button, Role.ButtonMenu, Role.CheckBox, Role.RadioButton, Role.ComboBox, Role.SpinBox),
    *(Role.EditableText, Role.Table, Role.Tree, Role.List, Role.StaticText, Role.Chart, Role.Graphic),
}


def asked(widget: QWidget) -> QAccessibleInterface:
    """Return what a reader of the screen asks about a widget."""
    interface = QAccessible.queryAccessibleInterface(widget)
    assert interface is not None
    return interface


def told(widget: QWidget, kind: QAccessible.Text = Text.Name) -> str:
    return asked(widget).text(kind)


def reached(interface: QAccessibleInterface) -> Iterator[QAccessibleInterface]:
    """Yield all that the keyboard can come to in a tree, the cells of lists aside."""
    state = interface.state()
    if state.invisible:
        return
    if state.focusable:
        yield interface
    if interface.role() in (Role.Table, Role.Tree, Role.List):
        return
    for number in range(interface.childCount()):
        child = interface.child(number)
        if child.isValid():
            yield from reached(child)


def test_all_that_the_keyboard_comes_to_has_a_name_and_a_role(shell: Shell) -> None:
    nameless, odd = set(), set()
    count = 0
    for surfaces in (pages(shell), dialogs(shell)):
        for name, surface in surfaces:
            for each in reached(asked(surface)):
                count += 1
                words = each.text(Text.Name).strip()
                if not words or "&" in words:
                    nameless.add((name, type(each.object()).__name__, words))
                is_page = each.role() is Role.Client and each.text(Text.Description)
                if each.role() not in SANE and not is_page:
                    odd.add((name, words, each.role()))
    assert count > 400
    assert nameless == set()
    assert odd == set()


def test_a_list_tells_what_it_is_for_and_what_stands_in_it(shell: Shell, state: AppState) -> None:
    state.set_planet(Body.SATURN)
    assert told(shell.strip.planet) == "Planet: Saturn"
    assert told(shell.strip.planet, Text.Value) == "Saturn"
    assert asked(shell.strip.planet).state().expandable
    asked(shell.strip.planet).actionInterface().doAction("Press")
    assert shell.strip.planet.view().isVisible()
    assert asked(shell.strip.planet).state().expanded
    shell.strip.planet.hidePopup()


def test_a_label_with_a_name_tells_its_words_too(shell: Shell) -> None:
    """Qt tells a reader the name of such a label in place of what it says."""
    bar = shell.answer_bar
    assert told(bar.sentence) == f"The answer: {bar.sentence.text()}"
    assert told(shell.strip.clock).startswith("Clock at the site: 2")


def test_one_of_several_says_so_and_which_it_is(shell: Shell) -> None:
    shell.show_view(LADDER)
    buttons = {number: shell.view_buttons.button(number) for number in (GEAR, HEIGHT, LADDER)}
    assert {asked(button).role() for button in buttons.values()} == {Role.RadioButton}
    assert [number for number, button in buttons.items() if asked(button).state().checked] == [LADDER]


def test_a_body_s_cell_is_read_and_pressed(shell: Shell, state: AppState) -> None:
    state.set_planet(Body.SATURN)
    height = shell.current_view
    assert isinstance(height, HeightView)
    cells = height.cells.findChildren(QWidget)
    chosen = [cell for cell in cells if asked(cell).state().checked]
    assert [told(cell).partition(":")[0] for cell in chosen] == ["Saturn"]
    (moon,) = (cell for cell in cells if told(cell).startswith("Moon: altitude"))
    assert asked(moon).role() is Role.RadioButton
    asked(moon).actionInterface().doAction("Press")
    assert state.situation.planet is Body.MOON


def test_drawn_controls_tell_their_values(shell: Shell, state: AppState) -> None:
    height = shell.current_view
    assert isinstance(height, HeightView)
    chart = height.canvas
    assert asked(chart).role() is Role.Chart
    before = told(chart, Text.Description)
    assert "Saturn: altitude 4" in before
    QTest.keyClick(chart, Qt.Key.Key_Left, Qt.KeyboardModifier.ControlModifier)
    assert told(chart, Text.Description) != before

    shell.show_view(LADDER)
    ladder = shell.current_view
    assert isinstance(ladder, LadderView)
    assert asked(ladder.canvas).role() is Role.Chart
    said = told(ladder.canvas)
    assert said.startswith("Power ladder, in hand: ")
    QTest.keyClick(ladder.canvas, Qt.Key.Key_PageUp)
    assert told(ladder.canvas) != said
    picture = ladder.eyepiece.canvas
    assert asked(picture).role() is Role.Graphic
    assert told(picture)
    assert told(picture, Text.Description)


def test_the_horizon_tells_the_obstacle_in_hand(make_shell: MakeShell, state: AppState) -> None:
    shell = make_shell(state, view=GEAR)
    gear = shell.current_view
    assert isinstance(gear, GearView)
    gear._open(OwnedRow(Kind.SITE, 0))
    settle()
    picture = gear.findChild(HorizonPicture)
    assert isinstance(picture, HorizonPicture)
    assert told(picture) == "Horizon"
    assert told(picture, Text.Description) == "1 obstacle; Page Down chooses it"
    picture.setFocus()
    QTest.keyClick(picture, Qt.Key.Key_PageDown)
    assert "roof ridge" in told(picture, Text.Description)
    before = told(picture, Text.Description)
    QTest.keyClick(picture, Qt.Key.Key_Right)
    assert told(picture, Text.Description) != before


def test_the_list_of_steps_reads_each_step_and_whether_it_is_done(shell: Shell) -> None:
    height = shell.current_view
    assert isinstance(height, HeightView)
    rows = asked(height.steps.rows)
    assert rows.role() is Role.List
    first = rows.child(0)
    assert first is not None
    assert first.text(Text.Name)
    assert not first.state().checked
    height.steps.rows.setCurrentIndex(height.steps.model.index(0, 0))
    height.steps.rows.setFocus()
    QTest.keyClick(height.steps.rows, Qt.Key.Key_Space)
    first = asked(height.steps.rows).child(0)
    assert first is not None
    assert first.state().checked


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_tab_goes_round_every_view_and_comes_back(make_shell: MakeShell, state: AppState, view: int) -> None:
    shell = make_shell(state, view=view)
    shell.go_to_view(view)
    settle()
    first = shell.focusWidget()
    seen: list[QWidget] = []
    for _ in range(120):
        QTest.keyClick(shell.focusWidget(), Qt.Key.Key_Tab)
        now = shell.focusWidget()
        if now is first:
            break
        # The parts of a date or a time are gone through one by one.
        is_next_part = bool(seen) and now is seen[-1]
        assert is_next_part or now not in seen, f"Tab never leaves {told(now)!r}"
        seen.append(now)
    assert shell.focusWidget() is first
    # Whatever the keyboard can come to, it comes to; of views and pages only the chosen one.
    missed = {
        told(widget)
        for interface in reached(asked(shell))
        if isinstance(widget := interface.object(), QWidget)
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget is not first
        and widget not in seen
        and not any(widget.isAncestorOf(each) for each in (*seen, first))
    }
    assert missed <= {"Height view", "Gear view", "Ladder view"}


def test_tab_reads_a_view_from_top_to_bottom(make_shell: MakeShell, state: AppState) -> None:
    """What Tab comes to next stands below or to the right, but for the step into another column."""
    shell = make_shell(state, view=HEIGHT)
    shell.go_to_view(HEIGHT)
    settle()
    first = shell.focusWidget()
    places = [first.mapTo(shell, QPoint(0, 0))]
    for _ in range(120):
        QTest.keyClick(shell.focusWidget(), Qt.Key.Key_Tab)
        if shell.focusWidget() is first:
            break
        places.append(shell.focusWidget().mapTo(shell, QPoint(0, 0)))
    backward = sum(1 for one, other in pairwise(places) if other.y() < one.y() - 40 and other.x() <= one.x())
    # Once round the window.
    assert backward <= 1


def test_a_question_of_qt_s_own_is_read_whole(shell: Shell) -> None:
    for name, dialog in dialogs(shell):
        if name == "question of Qt's own":
            assert isinstance(dialog, QMessageBox)
            assert "kit.toml" in " ".join(each.text(Text.Name) for each in reached(asked(dialog)))
    assert QApplication.activeModalWidget() is None


def test_whatever_has_the_keyboard_shows_it(shell: Shell) -> None:
    unmarked = set()
    for name, surface in pages(shell):
        if name == "at the eyepiece":
            continue  # the one thing there
        widgets = {id(each.object()): each.object() for each in reached(asked(surface))}
        for widget in widgets.values():
            if not isinstance(widget, QWidget) or not widget.isEnabled():
                continue
            if not widget.focusPolicy() & Qt.FocusPolicy.TabFocus or widget.visibleRegion().isEmpty():
                continue
            widget.setFocus()
            QApplication.processEvents()
            with_it = pixels(widget)
            shell.setFocus()
            QApplication.processEvents()
            if (with_it.shape == pixels(widget).shape) and (with_it == pixels(widget)).all():
                unmarked.add((name, told(widget)))
    assert sorted(unmarked) == []
