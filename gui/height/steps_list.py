"""The evening as a list of steps to tick off, move and add to, beside the chart or below it."""

from datetime import timedelta

from PySide6.QtCore import QEvent, QModelIndex, QSize, Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QBoxLayout,
    QHBoxLayout,
    QListView,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from core.drawing.signs import sign_of_step
from core.situation.situation import Situation
from core.tonight.steps import ESTIMATES, EveningItem, ItemKind, OwnItem, is_over, step_in_hand
from core.words.evening import NOTHING_TO_PREPARE, heard_words, item_title, item_words
from core.words.site_clock import clock_of
from gui.height.step_delegate import StepDelegate
from gui.height.step_dialog import StepDialog, Wanted, ask_step
from gui.height.steps_model import StepRow, StepsModel
from gui.state import AppState
from gui.widgets.plain_label import PlainLabel

# What is shown follows from these.
STEPS_FROM = (Situation.evening_steps, Situation.preferences, Situation.night, Situation.present)
_LETTERS_WIDE = 46
_ROWS_FOLDED = 2
_IN_HALF_AN_HOUR = timedelta(minutes=30)


class _Rows(QListView):
    """The rows; Return changes the one in hand, Delete takes out an own one."""

    def __init__(self, owner: "StepsList") -> None:
        super().__init__(owner)
        self._owner = owner
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setUniformItemSizes(False)
        self.setAccessibleName("The evening in steps")
        self.setAccessibleDescription(
            "Space ticks a step off, Return gives it another time, Delete takes out one of your own"
        )

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._owner.change_step()
        elif key == Qt.Key.Key_Delete:
            self._owner.remove_step()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()
        self._owner.show_next()


class StepsList(QWidget):
    """Each step with when and what; the next one in bold, done ones quiet.

    Beside the chart all is told in words; folded below it, two rows are seen and the rest is scrolled to.
    """

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._items: tuple[EveningItem, ...] = ()
        self.model = StepsModel(self)
        self.rows = _Rows(self)
        self.delegate = StepDelegate(self.rows)
        self.rows.setModel(self.model)
        self.rows.setItemDelegate(self.delegate)
        self.nothing = PlainLabel(NOTHING_TO_PREPARE, role="small", wraps=True)
        self.add = QPushButton("&Add a step")
        self.add.setAccessibleDescription("Add a step of your own to this evening")
        self.change = QPushButton("&Change")
        self.change.setAccessibleName("Change the step in hand")
        self.change.setAccessibleDescription("Give the step another time, or take out one of your own")
        for button in (self.add, self.change):
            button.setProperty("role", "flat")
        self._buttons = QHBoxLayout()
        self._buttons.setSpacing(2)
        self._buttons.addWidget(self.add)
        self._buttons.addWidget(self.change)
        self._buttons.addStretch(1)
        self._box = QBoxLayout(QBoxLayout.Direction.TopToBottom, self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(2)
        words = QVBoxLayout()
        words.addWidget(self.nothing)
        words.addWidget(self.rows, 1)
        self._box.addLayout(words, 1)
        self._box.addLayout(self._buttons)
        self.setFocusProxy(self.rows)
        self.model.ticked.connect(lambda key, done: state.tick_step(key, done=done))
        self.rows.doubleClicked.connect(lambda _index: self.change_step())
        self.add.clicked.connect(self.add_step)
        self.change.clicked.connect(self.change_step)
        self.rows.selectionModel().currentChanged.connect(self._on_current)
        self.fold(False)
        self.show_situation()

    # Its shape.

    def fold(self, folded: bool) -> None:
        """Show two rows of one line each, with the buttons beside them, or all of the words."""
        self.delegate.is_folded = folded
        directions = QBoxLayout.Direction
        self._box.setDirection(directions.LeftToRight if folded else directions.TopToBottom)
        policy = QSizePolicy.Policy
        if folded:
            self.setSizePolicy(policy.Expanding, policy.Fixed)
        else:
            self.setSizePolicy(policy.Fixed, policy.Expanding)
        self.rows.scheduleDelayedItemsLayout()
        self.updateGeometry()

    @property
    def wide_width(self) -> int:
        """How wide it wants to be beside the chart, in pixels."""
        return _LETTERS_WIDE * self.fontMetrics().averageCharWidth()

    def sizeHint(self) -> QSize:
        if not self.delegate.is_folded:
            return QSize(self.wide_width, 10)
        return QSize(self.wide_width, self._folded_height())

    def minimumSizeHint(self) -> QSize:
        if not self.delegate.is_folded:
            return QSize(self.wide_width, 4 * self.fontMetrics().lineSpacing())
        return QSize(20 * self.fontMetrics().averageCharWidth(), self._folded_height())

    def _folded_height(self) -> int:
        row = self.fontMetrics().lineSpacing() + 6
        rows = _ROWS_FOLDED * row + 2 * self.rows.frameWidth() + 2
        return max(rows, self._buttons.minimumSize().height())

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self.rows.scheduleDelayedItemsLayout()
            self.updateGeometry()

    # What it shows.

    def show_situation(self) -> None:
        """Show what the situation is now."""
        situation = self._state.situation
        clock, in_hand = clock_of(situation), self._item_in_hand()
        if situation.night is None or clock is None:
            self._items = ()
            self.model.show_rows(())
        else:
            self._items = situation.evening_steps
            following = step_in_hand(self._items, situation.present)
            unit = situation.preferences.temperature
            self.model.show_rows(
                [
                    StepRow(
                        key=item.key,
                        when=clock.times(item.start, item.end),
                        title=item_title(item),
                        words="" if isinstance(item, OwnItem) else item_words(item, clock, unit=unit),
                        heard=heard_words(item, clock, unit=unit),
                        is_done=item.is_done,
                        sign=sign_of_step(item.kind, caution=item.caution),
                        caution=item.caution,
                        is_next=item is following,
                    )
                    for item in self._items
                ]
            )
        if in_hand is not None:
            self._take_in_hand(in_hand.key)
        has_night = situation.night is not None
        self.setVisible(has_night)
        self.add.setEnabled(has_night)
        self.nothing.setVisible(has_night and not self._items)
        self.rows.setVisible(bool(self._items))
        self._on_current()
        self.show_next()

    def show_next(self) -> None:
        """Scroll to what comes next, unless a person is at the list."""
        if self.rows.hasFocus():
            return
        now = self._state.situation.present
        number = next(
            (
                number
                for number, item in enumerate(self._items)
                if not (item.is_done or item.kind in ESTIMATES or is_over(item, now))
            ),
            len(self._items) - 1,
        )
        if number >= 0:
            position = QAbstractItemView.ScrollHint.PositionAtTop
            self.rows.scrollTo(self.model.index(number), position)

    def _on_current(self, *_indexes: QModelIndex) -> None:
        item = self._item_in_hand()
        self.change.setEnabled(item is not None and item.can_be_moved and not _is_past_choice(item))

    def _item_in_hand(self) -> EveningItem | None:
        number = self.rows.currentIndex().row()
        return self._items[number] if 0 <= number < len(self._items) else None

    # What a person does.

    def add_step(self) -> None:
        """Ask for a step of the owner's own, and add it."""
        situation = self._state.situation
        night, clock = situation.night, clock_of(situation)
        if night is None or clock is None:
            return
        at = (situation.present or night.sun.set or night.start) + _IN_HALF_AN_HOUR
        asked = ask_step(StepDialog(night, clock, "A step of your own", at, text="", parent=self))
        if asked is not None and asked.text:
            notes = situation.step_notes.added(asked.text, asked.at)
            self._state.set_steps(notes)
            self._take_in_hand(OwnItem.key_of(notes.own[-1]))

    def change_step(self) -> None:
        """Ask for another time of the step in hand, and for the words of an own one."""
        situation, item = self._state.situation, self._item_in_hand()
        night, clock = situation.night, clock_of(situation)
        if night is None or clock is None or item is None or not self.change.isEnabled():
            return
        own = item.step if isinstance(item, OwnItem) else None
        asked = ask_step(
            StepDialog(
                night,
                clock,
                item_title(item),
                item.start,
                text=None if own is None else own.text,
                can_go_back=item.is_moved,
                can_be_removed=own is not None,
                parent=self,
            )
        )
        if asked is None:
            return
        notes = situation.step_notes
        if asked.wanted is Wanted.REMOVE:
            notes = notes.without(item.key)
        else:
            if asked.text:
                notes = notes.reworded(item.key, asked.text)
            notes = notes.moved_to(item.key, None if asked.wanted is Wanted.USUAL_TIME else asked.at)
        self._state.set_steps(notes)
        self._take_in_hand(item.key)

    def remove_step(self) -> None:
        """Take the step in hand out, if it is one of the owner's own."""
        item = self._item_in_hand()
        if isinstance(item, OwnItem):
            self._state.set_steps(self._state.situation.step_notes.without(item.key))

    def _take_in_hand(self, key: str) -> None:
        number = self.model.number_of(key)
        if number is not None:
            self.rows.setCurrentIndex(self.model.index(number))


def _is_past_choice(item: EveningItem) -> bool:
    """Tell whether a step happened at a time of its own, as a telescope that stands outside already."""
    return item.kind is ItemKind.CARRY_OUT and item.is_done
