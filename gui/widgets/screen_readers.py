"""What a reader of the screen is told of controls where Qt alone would tell too little or the wrong thing."""

from collections.abc import Callable
from functools import cache
from typing import ClassVar

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QAccessibleWidget, QComboBox, QLabel, QScrollArea, QWidget

from core.words.names import labelled

_Text = QAccessible.Text
_PRESS = "Press"


class OwnControl:
    """A control that the program draws itself; to be named before the class of Qt in its bases."""

    reader_role: ClassVar[QAccessible.Role] = QAccessible.Role.Graphic

    @property
    def is_chosen(self) -> bool | None:
        """Whether it is the one in hand of several; None where there is nothing to choose."""
        return None

    def press(self) -> None:
        """Do what a click does, where it can be chosen."""


@cache
def teach_readers() -> None:
    """Answer readers of the screen for such controls from now on; once is enough."""
    QAccessible.installFactory(_reader_of)


def _reader_of(_class_name: str, thing: QObject) -> QAccessibleInterface | None:
    """Return what stands for a control, None where Qt's own answer does."""
    if not isinstance(thing, QWidget):
        return None
    if isinstance(thing, OwnControl):
        return _OwnControlReader(thing, thing.reader_role)
    if not thing.accessibleName():
        return None
    if isinstance(thing, QComboBox):
        return _ListReader(thing, QAccessible.Role.ComboBox)
    if isinstance(thing, QLabel):
        return _LabelReader(thing, QAccessible.Role.StaticText)
    if isinstance(thing, QScrollArea) and thing.focusPolicy() != Qt.FocusPolicy.NoFocus:
        return _PageReader(thing, QAccessible.Role.Client)
    return None


class _PressableReader(QAccessibleWidget):
    """Lets a reader press what it stands for."""

    def press(self) -> Callable[[], None] | None:
        """Return what a press does, None where there is nothing to press."""
        raise NotImplementedError

    def actionNames(self) -> list[str]:
        return [_PRESS] if self.press() else list(super().actionNames())

    def doAction(self, name: str) -> None:
        press = self.press()
        if name == _PRESS and press is not None:
            press()
        else:
            super().doAction(name)


class _OwnControlReader(_PressableReader):
    """Tells its role, and whether it is chosen."""

    def state(self) -> QAccessible.State:
        state, control = super().state(), self.object()
        if isinstance(control, OwnControl) and control.is_chosen is not None:
            state.checkable, state.checked = 1, int(control.is_chosen)
        return state

    def press(self) -> Callable[[], None] | None:
        control = self.object()
        if isinstance(control, OwnControl) and control.is_chosen is not None:
            return control.press
        return None


class _ListReader(_PressableReader):
    """Tells what a drop-down list is for before what stands in it, which on Linux is all that Qt tells."""

    def text(self, kind: QAccessible.Text) -> str:
        box = self.object()
        assert isinstance(box, QComboBox)
        if kind is _Text.Name:
            return labelled(box.accessibleName(), box.currentText() or box.placeholderText())
        return box.currentText() if kind is _Text.Value else super().text(kind)

    def state(self) -> QAccessible.State:
        state, box = super().state(), self.object()
        assert isinstance(box, QComboBox)
        state.expandable, state.hasPopup = 1, 1
        state.expanded = int(box.view().isVisible())
        return state

    def press(self) -> Callable[[], None] | None:
        box = self.object()
        assert isinstance(box, QComboBox)
        return box.showPopup


class _LabelReader(QAccessibleWidget):
    """Tells what a label is and what it says; Qt tells its name in place of its words."""

    def text(self, kind: QAccessible.Text) -> str:
        label = self.object()
        assert isinstance(label, QLabel)
        if kind is _Text.Name and label.text():
            return labelled(label.accessibleName(), label.text())
        return super().text(kind)


class _PageReader(QAccessibleWidget):
    """Tells the words of a page that the keyboard scrolls."""

    def text(self, kind: QAccessible.Text) -> str:
        page = self.object()
        assert isinstance(page, QScrollArea)
        if kind is _Text.Description and not page.accessibleDescription():
            labels = page.findChildren(QLabel)
            return " ".join(label.text() for label in labels if label.isVisibleTo(page) and label.text())
        return super().text(kind)
