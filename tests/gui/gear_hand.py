"""A hand that works the gear view as a person does: clicks on rows and buttons, keys into fields."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QTreeWidgetItem, QWidget
from pytestqt.qtbot import QtBot

from core.gear.owned import Telescope
from core.record.observer import Profile
from core.words.owned_kinds import Kind
from gui.gear.view import GearView
from gui.state import AppState
from gui.widgets.field import Field
from gui.widgets.plain_label import PlainLabel
from gui.widgets.typed_field import TypedField


class GearHand:
    """Works one gear view that is on the screen."""

    def __init__(self, qtbot: QtBot, state: AppState, *, size: tuple[int, int] = (1000, 540)) -> None:
        self.qtbot = qtbot
        self.state = state
        self.view = GearView(state)
        self.view.resize(*size)
        self.view.show()
        qtbot.waitExposed(self.view)

    def close(self) -> None:
        """Take the view away at once, since a later test would dress it again."""
        self.view.close()
        self.view.deleteLater()
        QApplication.sendPostedEvents(self.view, QEvent.Type.DeferredDelete)

    @property
    def profile(self) -> Profile:
        return self.state.profile

    @property
    def scope(self) -> Telescope:
        """The scope in hand."""
        assert self.state.situation.scope is not None
        return self.state.situation.scope

    @property
    def rows(self) -> list[str]:
        """The rows of the list from top to bottom, things indented."""
        tree = self.view.owned.tree
        rows = []
        for top in range(tree.topLevelItemCount()):
            group = tree.topLevelItem(top)
            assert group is not None
            rows.append(group.text(0))
            for number in range(group.childCount()):
                thing = group.child(number)
                assert thing is not None
                rows.append(f"  {thing.text(0)}")
        return rows

    @property
    def focal_lengths(self) -> list[float | None]:
        """Those of the eyepieces in the profile, mm; None for a zoom."""
        return [eyepiece.focal_length_mm for eyepiece in self.profile.eyepieces]

    @property
    def powers(self) -> list[str]:
        """The first two columns of the table of powers."""
        model = self.view.gives.table.model()
        cells = [[model.index(row, column).data() for column in (0, 1)] for row in range(model.rowCount())]
        return [" ".join(row) for row in cells]

    def words(self) -> str:
        """All sentences that stand in labels on the screen."""
        labels = self.view.findChildren(PlainLabel)
        return "\n".join(label.text() for label in labels if label.isVisible())

    def text(self, name: str) -> str:
        """What stands in a field that is typed in, letter by letter."""
        field = self.field(name)
        assert isinstance(field, TypedField)
        return field.text

    def open(self, name: str) -> None:
        """Click on a row of the list."""
        tree = self.view.owned.tree
        place = tree.visualItemRect(self._item(name)).center()
        self.qtbot.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, pos=place)

    def press(self, button: QAbstractButton) -> None:
        """Click on a button."""
        assert button.isVisible()
        assert button.isEnabled()
        self.qtbot.mouseClick(button, Qt.MouseButton.LeftButton)

    def add(self, kind: Kind) -> None:
        """Click on the heading of a kind, then on the button to add one."""
        self.open(kind.heading)
        self.press(self.view.owned.add)

    def field(self, name: str) -> Field:
        """Return a field of the open form."""
        form = self.view.form_column.form
        assert form is not None
        return form.fields[name]

    def type(self, name: str, text: str) -> None:
        """Go to a field, select what stands there and type over it."""
        self.enter(name)
        self.qtbot.keyClick(self.field(name).editor, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        self.qtbot.keyClick(self.field(name).editor, Qt.Key.Key_Delete)
        if text.isascii():
            self.qtbot.keyClicks(self.field(name).editor, text)
        else:
            # Not every letter is on the keyboard of the test library; such text is pasted.
            QApplication.clipboard().setText(text)
            self.qtbot.keyClick(self.field(name).editor, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)

    def enter(self, name: str) -> None:
        """Bring the keyboard to a field."""
        self.field(name).editor.setFocus()

    def leave(self) -> None:
        """Go on to the next control with Tab."""
        focused = self.focused()
        assert focused is not None
        self.qtbot.keyClick(focused, Qt.Key.Key_Tab)

    def choose(self, name: str, words: str) -> None:
        """Choose by keyboard from a drop-down list."""
        box = self.field(name).editor
        assert isinstance(box, QComboBox)
        box.setFocus()
        self.qtbot.keyClick(box, Qt.Key.Key_Home)
        while box.currentText() != words:
            before = box.currentIndex()
            self.qtbot.keyClick(box, Qt.Key.Key_Down)
            assert box.currentIndex() > before, f"{words} is not offered"

    def focused(self) -> QWidget | None:
        """Return the control that has the keyboard."""
        return self.view.window().focusWidget()

    def undo(self) -> None:
        """Press Ctrl+Z where the keyboard is."""
        self._key(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)

    def redo(self) -> None:
        """Press Ctrl+Shift+Z where the keyboard is."""
        both = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
        self._key(Qt.Key.Key_Z, both)

    def _key(self, key: Qt.Key, modifiers: Qt.KeyboardModifier) -> None:
        self.qtbot.keyClick(self.focused() or self.view, key, modifiers)

    def _item(self, name: str) -> QTreeWidgetItem:
        found = self.view.owned.tree.findItems(
            name, Qt.MatchFlag.MatchExactly | Qt.MatchFlag.MatchRecursive, 0
        )
        assert len(found) == 1, f"{name} stands {len(found)} times in the list"
        return found[0]
