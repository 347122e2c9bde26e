"""The gear view in every size: nothing cut off, and all of it within reach of the keyboard."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QScrollArea,
    QWidget,
)

from core.record.profile import read_profile
from core.words.owned_kinds import Kind
from gui.gear.owned_list import OwnedRow
from gui.gear.view import GearView
from gui.state import AppState
from gui.window.shell import Shell
from tests.gui.every_surface import SAMPLE
from tests.gui.gear_hand import GearHand

CONTROLS = (QLineEdit, QComboBox, QAbstractButton, QPlainTextEdit, QAbstractItemView)


def controls(view: QWidget) -> list[QWidget]:
    """Return what takes the keyboard, the editors inside tables and lists left out."""
    return [
        widget
        for kind in CONTROLS
        for widget in view.findChildren(kind)
        if widget.isVisible()
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not widget.objectName().startswith("qt_")
    ]


def open_each(hand: GearHand) -> Iterator[Kind]:
    """Open one thing of each kind in turn, a new filter among them."""
    for kind, row in (
        (Kind.TELESCOPE, "Six-inch"),
        (Kind.EYEPIECE, "25 mm"),
        (Kind.BARLOW, "2x"),
        (Kind.SITE, "Back terrace"),
        (Kind.OBSERVER, "Observer"),
    ):
        hand.open(row)
        yield kind
    hand.add(Kind.FILTER)
    yield Kind.FILTER


def test_tab_reaches_every_control_and_comes_round(hand: GearHand) -> None:
    for kind in open_each(hand):
        hand.view.owned.tree.setFocus()
        seen: list[QWidget] = []
        for _press in range(80):
            focused = hand.focused()
            assert focused is not None
            if focused in seen:
                break
            seen.append(focused)
            hand.qtbot.keyClick(focused, Qt.Key.Key_Tab)
        missed = [widget.accessibleName() for widget in controls(hand.view) if widget not in seen]
        assert not missed, (kind, missed)


def test_every_control_has_a_name_for_screen_readers(hand: GearHand) -> None:
    for kind in open_each(hand):
        for widget in controls(hand.view):
            text = widget.text() if isinstance(widget, QAbstractButton) else ""
            assert widget.accessibleName() or text, (kind, widget)


def test_fields_are_met_from_top_to_bottom(hand: GearHand) -> None:
    for kind in open_each(hand):
        form = hand.view.form_column.form_of(kind)
        fields = [field for field in form.fields.values() if field.isVisible()]
        tops = [field.mapTo(form, field.rect().topLeft()).y() for field in fields]
        assert tops == sorted(tops), kind


@pytest.mark.parametrize(("size", "larger"), [((1000, 640), 0), ((1600, 1000), 0), ((1600, 1000), 2)])
def test_nothing_is_cut_off_at_the_sides(
    make_shell: Callable[..., Shell], state: AppState, size: tuple[int, int], larger: int
) -> None:
    shell = make_shell(state, view=0, size=size)
    for _step in range(larger):
        shell.step_text(1)
    assert (shell.width(), shell.height()) == size, "the window has had to grow"
    view = shell.current_view
    assert isinstance(view, GearView)
    for kind in (Kind.TELESCOPE, Kind.EYEPIECE, Kind.BARLOW, Kind.SITE):
        view.form_column.open(OwnedRow(kind, 0))
        QApplication.processEvents()
        check_widths(view)


def check_widths(view: GearView) -> None:
    for area in view.findChildren(QScrollArea):
        page = area.widget()
        if area.isVisible() and page is not None:
            assert page.minimumSizeHint().width() <= area.viewport().width()
    for label in view.findChildren(QLabel):
        if label.isVisible() and not label.wordWrap():
            assert label.width() >= label.sizeHint().width(), label.text()
    for button in view.findChildren(QAbstractButton):
        if button.isVisible() and button.text():
            assert button.width() >= button.minimumSizeHint().width(), button.text()


def test_sentences_get_all_the_lines_they_need(hand: GearHand) -> None:
    hand.type("aperture_mm", "8")
    hand.leave()
    QApplication.processEvents()
    for label in hand.view.findChildren(QLabel):
        if label.isVisible() and label.wordWrap() and label.text():
            assert label.height() >= label.heightForWidth(label.width()), label.text()


def test_names_of_usual_length_are_read_whole_in_the_smallest_window(
    make_shell: Callable[..., Shell], make_state: Callable[..., AppState]
) -> None:
    state = make_state(read_profile(SAMPLE))
    view = make_shell(state, view=0, size=(1000, 640)).current_view
    assert isinstance(view, GearView)
    QApplication.processEvents()

    tree = view.owned.tree
    (item,) = tree.findItems("Six-inch reflector", Qt.MatchFlag.MatchRecursive)
    index = tree.indexFromItem(item)
    assert tree.visualRect(index).width() >= tree.sizeHintForIndex(index).width()
