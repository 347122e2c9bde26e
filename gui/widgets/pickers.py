"""Pickers: a choice from a few things, a date of the calendar, and a time of day."""

from collections.abc import Sequence
from datetime import date, time

from PySide6.QtCore import QDate, QLocale, QRect, QSignalBlocker, QSize, Qt, QTime, Signal
from PySide6.QtGui import QIcon, QPaintEvent, QTextCharFormat, QWheelEvent
from PySide6.QtWidgets import (
    QCalendarWidget,
    QComboBox,
    QDateEdit,
    QDateTimeEdit,
    QStyle,
    QStyleOptionComboBox,
    QStylePainter,
    QTimeEdit,
    QToolButton,
    QWidget,
)

from gui.widgets.combo_box import UndoPassingComboBox
from gui.widgets.plain_label import PlainLabel

# Dates are written in English throughout, as every other word of the window is.
ENGLISH = QLocale(QLocale.Language.English, QLocale.Country.UnitedKingdom)

_LIST_MARGIN_PX = 24
_TEXT_MARGIN_PX = 6


class Picker(UndoPassingComboBox):
    """A choice from things that each have a key and a name.

    It asks for the room of so many ``letters``, or with None for that of its longest name; ``most_letters``
    of the name that is chosen are seen in any case.

    Signals
    -------
    picked
        The key that the person chose; never sent for a change that the program made.
    """

    picked = Signal(object)

    def __init__(
        self,
        name: str,
        parent: QWidget | None = None,
        *,
        letters: int | None = 9,
        most_letters: int = 0,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._letters, self._most_letters = letters, most_letters
        self.setMinimumContentsLength(letters or 0)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self._items: tuple[tuple[object, str], ...] = ()
        self.activated.connect(self._on_activated)

    def show_items(self, items: Sequence[tuple[object, str]], current: object) -> None:
        """Offer these keys and names, and show which one is in hand."""
        keys = [key for key, _name in items]
        before = self.currentText()
        with QSignalBlocker(self):
            if tuple(items) != self._items:
                self._offer(tuple(items))
            self.setCurrentIndex(keys.index(current) if current in keys else -1)
        if self._most_letters and self.currentText() != before:
            self.updateGeometry()

    def _offer(self, items: tuple[tuple[object, str], ...]) -> None:
        self._items = items
        self.clear()
        self.addItems([name for _key, name in items])
        # The list is as wide as its longest name, however narrow the strip.
        self.view().setMinimumWidth(self.view().sizeHintForColumn(0) + _LIST_MARGIN_PX)
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        if self._letters is None:
            names = max((self.fontMetrics().horizontalAdvance(name) for _key, name in self._items), default=0)
            hint.setWidth(self._width_for(names))
        return hint

    def minimumSizeHint(self) -> QSize:
        if self._letters is None:
            return self.sizeHint()
        metrics = self.fontMetrics()
        most = self._most_letters * metrics.averageCharWidth()
        shown = min(metrics.horizontalAdvance(self.currentText()), most)
        return super().minimumSizeHint().expandedTo(QSize(self._width_for(shown) if shown else 0, 0))

    def _width_for(self, letters_px: int) -> int:
        """Return how wide it has to be for a name so wide."""
        # The style sheet's borders, padding and arrow are not in Qt's own hint.
        return self.width() - self._room().width() + letters_px + _LIST_MARGIN_PX // 2

    def _room(self) -> QRect:
        """Return the place of the name."""
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        return self.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox, option, QStyle.SubControl.SC_ComboBoxEditField, self
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        # As the style paints it, but with an ellipsis where the name is cut.
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        painter = QStylePainter(self)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        option.currentText = option.fontMetrics.elidedText(
            option.currentText, Qt.TextElideMode.ElideRight, self._room().width() - 2
        )
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)

    def wheelEvent(self, event: QWheelEvent) -> None:
        # A wheel turned while the pointer rests here must not change planets.
        event.ignore()

    def _on_activated(self, index: int) -> None:
        self.picked.emit(self._items[index][0])


class DatePicker(QDateEdit):
    """A date, typed or chosen from a calendar.

    Signals
    -------
    picked
        The date that the person chose.
    """

    picked = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        _prepare(self, name)
        self.setDisplayFormat("d MMM yyyy")
        self.setCalendarPopup(True)
        self.setCalendarWidget(_calendar(self))
        self.dateChanged.connect(self._on_changed)

    def limit(self, first: date, last: date) -> None:
        """Allow dates from the first to the last, both included."""
        with QSignalBlocker(self):
            self.setDateRange(_qdate(first), _qdate(last))

    def show_date(self, day: date) -> None:
        """Show a date without sending it on."""
        with QSignalBlocker(self):
            self.setDate(_qdate(day))

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    def _on_changed(self, day: QDate) -> None:
        self.picked.emit(date(day.year(), day.month(), day.day()))


class TimePicker(QTimeEdit):
    """A time of day, typed or stepped with the arrow keys; the clock's own 12 or 24 hours.

    Signals
    -------
    picked
        The time that the person chose.
    """

    picked = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        _prepare(self, name)
        # The style sheet's padding does not reach the text of a control that has no visible buttons.
        self.lineEdit().setTextMargins(_TEXT_MARGIN_PX, 0, 0, 0)
        self.timeChanged.connect(lambda chosen: self.picked.emit(time(chosen.hour(), chosen.minute())))

    def show_time(self, moment: time, *, hours: int) -> None:
        """Show a time without sending it on, on a clock of 12 or 24 hours."""
        with QSignalBlocker(self):
            self.setDisplayFormat("HH:mm" if hours == 24 else "h:mm ap")
            self.setTime(QTime(moment.hour, moment.minute))

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


def captioned(caption: str, control: QWidget) -> PlainLabel:
    """Return a small caption that leads the keyboard to its control by the letter after the &."""
    label = PlainLabel(caption, role="small")
    label.setBuddy(control)
    return label


def _prepare(editor: QDateTimeEdit, name: str) -> None:
    """Name what a date or a time is typed in, and let it tell only of what is typed to its end."""
    editor.setAccessibleName(name)
    # A reader of the screen meets the line inside it as well.
    editor.lineEdit().setAccessibleName(name)
    editor.setLocale(ENGLISH)
    # A half typed one is not yet a choice.
    editor.setKeyboardTracking(False)


def _qdate(day: date) -> QDate:
    return QDate(day.year, day.month, day.day)


def _calendar(parent: QWidget) -> QCalendarWidget:
    calendar = QCalendarWidget(parent)
    calendar.setLocale(ENGLISH)
    calendar.setFirstDayOfWeek(Qt.DayOfWeek.Monday)
    calendar.setVerticalHeaderFormat(QCalendarWidget.VerticalHeaderFormat.NoVerticalHeader)
    # Week-ends are no brighter than other days, and arrows are letters: both then follow the palette.
    plain = QTextCharFormat()
    for day in (Qt.DayOfWeek.Saturday, Qt.DayOfWeek.Sunday):
        calendar.setWeekdayTextFormat(day, plain)
    for name, sign in (("qt_calendar_prevmonth", "‹"), ("qt_calendar_nextmonth", "›")):
        button = calendar.findChild(QToolButton, name)
        if isinstance(button, QToolButton):
            button.setIcon(QIcon())
            button.setText(sign)
    return calendar
