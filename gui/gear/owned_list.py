"""The left of the gear view: everything that is owned, by kind."""

from attrs import frozen
from PySide6.QtCore import QEvent, QModelIndex, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QAbstractItemView,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QTreeWidget,
    QTreeWidgetItem,
    QTreeWidgetItemIterator,
    QVBoxLayout,
    QWidget,
)

from core.drawing.signs import Sign
from core.gear.owned import Telescope
from core.record.observer import Profile
from core.words.controls import KEY, WITH_KEY
from core.words.gear_edits import ADD, ADD_ANY, NEW_UNFINISHED
from core.words.owned_kinds import LISTED, Kind
from gui.gear.owned_edits import things_of
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_tip import plain_tip
from gui.widgets.signs import SignIcons, sign_size_px

# The widest it gets, and up to where the length of a name makes it wider.
_MOST_LETTERS, _SEEN_LETTERS = 36, 26
_LEAST_LINES = 6
_IN_HAND = "✓"
_PLACE_ROLE = Qt.ItemDataRole.UserRole
_SIGN_ROLE = Qt.ItemDataRole.UserRole + 1
# The place of a thing that is not complete yet, and so not in the profile.
NEW = -1


@frozen
class OwnedRow:
    """A row of the list: a kind, and the place of a thing among its kind.

    ``index`` is None for the heading of the kind, or the observer; ``NEW`` for a thing not yet complete.
    """

    kind: Kind
    index: int | None = None


class _CalmTree(QTreeWidget):
    """A tree that waits for the person to choose a row, and chooses none by getting the keyboard."""

    def focusInEvent(self, event: QFocusEvent) -> None:
        had_none = self.currentItem() is None
        with QSignalBlocker(self):
            super().focusInEvent(event)
            if had_none:
                self.setCurrentIndex(QModelIndex())


class OwnedList(QWidget):
    """The list and its buttons; it shows and asks, the view decides.

    Signals
    -------
    chosen
        Another row has been chosen; its ``OwnedRow``.
    add_wanted, copy_wanted, remove_wanted
        A button or its key, for the row in hand.
    move_wanted
        One place up (-1) or down (1).
    """

    chosen = Signal(object)
    add_wanted = Signal(object)
    copy_wanted = Signal()
    remove_wanted = Signal()
    move_wanted = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._icons = SignIcons()
        self.tree = _CalmTree()
        self.tree.setAccessibleName("What I own")
        self.tree.setColumnCount(2)
        self.tree.setHeaderHidden(True)
        self.tree.setRootIsDecorated(False)
        self.tree.setItemsExpandable(False)
        self.tree.setIndentation(12)
        self.tree.setUniformRowHeights(True)
        self.tree.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.tree.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        header = self.tree.header()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        self.add, self.copy, self.remove, self.up, self.down = (
            QPushButton(words) for words in ("Add", "Copy", "Remove", "↑", "↓")
        )
        buttons = QGridLayout()
        buttons.setSpacing(6)
        self.up.setAccessibleName("Up")
        self.down.setAccessibleName("Down")
        for column, button in enumerate((self.add, self.up, self.down)):
            button.setProperty("role", "step")
            buttons.addWidget(button, 0, column)
        buttons.setColumnStretch(0, 1)
        second = QHBoxLayout()
        for button in (self.copy, self.remove):
            button.setProperty("role", "step")
            second.addWidget(button, 1)
        buttons.addLayout(second, 1, 0, 1, 3)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(PlainLabel("What I own", role="heading"))
        layout.addWidget(self.tree, 1)
        layout.addLayout(buttons)
        self._give_key(self.add, "Insert", "Add one of this kind")
        self._give_key(self.copy, "Ctrl+D", "Add a copy")
        self._give_key(self.remove, "Delete", "Remove; undo brings it back")
        self._give_key(self.up, "Alt+Up", "Move one place up")
        self._give_key(self.down, "Alt+Down", "Move one place down")
        self.add.clicked.connect(self._ask_to_add)
        self.copy.clicked.connect(self.copy_wanted)
        self.remove.clicked.connect(self.remove_wanted)
        self.up.clicked.connect(lambda: self.move_wanted.emit(-1))
        self.down.clicked.connect(lambda: self.move_wanted.emit(1))
        self._limit_width()
        self.tree.currentItemChanged.connect(lambda *_items: self._on_current())

    @property
    def place(self) -> OwnedRow | None:
        """The row in hand."""
        item = self.tree.currentItem()
        place = item.data(0, _PLACE_ROLE) if item else None
        return place if isinstance(place, OwnedRow) else None

    def show_profile(
        self,
        profile: Profile,
        *,
        in_hand: frozenset[str],
        unfinished: frozenset[Kind],
        place: OwnedRow | None,
    ) -> None:
        """Show what the profile holds, with one row in hand.

        ``in_hand`` are the ids of the scope and the site in use, ``unfinished`` the kinds of which a new
        thing has been begun.
        """
        with QSignalBlocker(self.tree):
            self._fill(profile, in_hand, unfinished)
            if place is not None:
                self._select(place)
        self._limit_width()
        self._enable()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._limit_width()
            self._draw_signs()

    def _fill(self, profile: Profile, in_hand: frozenset[str], unfinished: frozenset[Kind]) -> None:
        self.tree.clear()
        for kind in LISTED:
            self._add_group(profile, kind, in_hand, kind in unfinished)
        observer = self._item(Kind.OBSERVER.heading, OwnedRow(Kind.OBSERVER), Kind.OBSERVER)
        self.tree.addTopLevelItem(observer)
        for top in range(self.tree.topLevelItemCount()):
            self.tree.setFirstColumnSpanned(top, QModelIndex(), True)
        self.tree.expandAll()
        self._draw_signs()

    def _limit_width(self) -> None:
        words = self.add.text()
        widths = []
        for kind in LISTED:
            self.add.setText(ADD.format(thing=kind.short))
            widths.append(self.add.sizeHint().width())
        self.add.setText(words)
        self.add.setMinimumWidth(max(widths))
        most = _MOST_LETTERS * self.fontMetrics().averageCharWidth()
        self.setMaximumWidth(most)
        self.updateGeometry()
        self.tree.setMinimumHeight(_LEAST_LINES * self.fontMetrics().lineSpacing())

    def minimumSizeHint(self) -> QSize:
        # Names are seen whole, but for very long ones.
        most = _SEEN_LETTERS * self.fontMetrics().averageCharWidth()
        return super().minimumSizeHint().expandedTo(QSize(min(self._width_of_names(), most), 0))

    def _width_of_names(self) -> int:
        bar = self.tree.verticalScrollBar().sizeHint().width()
        columns = sum(self.tree.sizeHintForColumn(column) for column in range(self.tree.columnCount()))
        return columns + bar + 2 * self.tree.frameWidth()

    def _add_group(self, profile: Profile, kind: Kind, in_hand: frozenset[str], has_unfinished: bool) -> None:
        group = self._item(kind.heading, OwnedRow(kind), kind)
        font = group.font(0)
        font.setBold(True)
        group.setFont(0, font)
        self.tree.addTopLevelItem(group)
        things = things_of(profile, kind)
        marks = kind in (Kind.TELESCOPE, Kind.SITE) and len(things) > 1
        for index, thing in enumerate(things):
            sign = thing.kind if isinstance(thing, Telescope) else None
            item = self._item(thing.name, OwnedRow(kind, index), sign)
            if marks and thing.id in in_hand:
                item.setText(1, _IN_HAND)
                item.setData(1, Qt.ItemDataRole.AccessibleTextRole, "in hand")
            group.addChild(item)
        if has_unfinished:
            group.addChild(self._item(NEW_UNFINISHED.format(kind=kind.singular), OwnedRow(kind, NEW)))

    def _draw_signs(self) -> None:
        """Give each row its sign, in the palette and beside the letters of now."""
        side = sign_size_px(self.tree.font())
        self.tree.setIconSize(QSize(side, side))
        rows = QTreeWidgetItemIterator(self.tree)
        while (item := rows.value()) is not None:
            sign = item.data(0, _SIGN_ROLE)
            if sign is not None:
                # Qt gives it back as plain text, which finds the same strokes.
                item.setIcon(0, self._icons.icon(sign, self.tree.font()))
            rows += 1

    def _item(self, text: str, place: OwnedRow, sign: Sign | None = None) -> QTreeWidgetItem:
        item = QTreeWidgetItem([text])
        item.setData(0, _SIGN_ROLE, sign)
        item.setData(0, _PLACE_ROLE, place)
        item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        return item

    def _select(self, place: OwnedRow) -> None:
        for top in range(self.tree.topLevelItemCount()):
            group = self.tree.topLevelItem(top)
            rows = [group, *(group.child(row) for row in range(group.childCount()))] if group else []
            for item in rows:
                if item is not None and item.data(0, _PLACE_ROLE) == place:
                    self.tree.setCurrentItem(item)
                    return

    def _on_current(self) -> None:
        self._enable()
        if (place := self.place) is not None:
            self.chosen.emit(place)

    def _enable(self) -> None:
        place = self.place
        is_thing = place is not None and place.index is not None
        kind = place.kind if place and place.kind is not Kind.OBSERVER else None
        self.add.setText(ADD.format(thing=kind.short) if kind else ADD_ANY)
        self.add.setEnabled(kind is not None)
        self.remove.setEnabled(is_thing)
        is_whole = is_thing and place is not None and place.index != NEW
        self.copy.setEnabled(is_whole)
        self.up.setEnabled(is_whole and place is not None and place.index != 0)
        item = self.tree.currentItem()
        self.down.setEnabled(is_whole and item is not None and self.tree.itemBelow(item) in _siblings(item))

    def _ask_to_add(self) -> None:
        if (place := self.place) is not None and place.kind is not Kind.OBSERVER:
            self.add_wanted.emit(place.kind)

    def _give_key(self, button: QPushButton, key: str, what: str) -> None:
        """Let a key press the button while the keyboard is in the list or on its buttons."""
        button.setToolTip(plain_tip(WITH_KEY.format(what=what, key=key)))
        button.setAccessibleDescription(KEY.format(key=key))
        shortcut = QShortcut(QKeySequence(key), self)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(button.click)


def _siblings(item: QTreeWidgetItem) -> list[QTreeWidgetItem | None]:
    group = item.parent()
    return [group.child(row) for row in range(group.childCount())] if group else []
