"""Find me a date: the next evenings that have what is wished for, and the way to any of them."""

from datetime import date
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from core.situation.situation import Situation
from core.words.found_dates import day_words, found_cautions, found_sentence, seen_words
from core.words.site_clock import clock_of
from core.words.tips import NO_BODY_FOR_DATES, NO_SITE_FOR_DATES
from core.year.dates import FoundDate, FoundDates, find_dates
from gui.height.search_page import SearchPage
from gui.height.wishes_form import WishesForm
from gui.long_search import LongSearch
from gui.state import AppState
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel
from gui.widgets.reading_area import reading_label

_DEPENDS_ON = (
    *(Situation.date_wishes, Situation.usual_hours, Situation.site, Situation.tonight, Situation.has_sky),
    *(Situation.dark, Situation.scope, Situation.usual_sharpness, Situation.preferences),
)
_DATE = Qt.ItemDataRole.UserRole
_LEAST_LINES = 4


class DatesPanel(SearchPage):
    """Wishes above, the evenings that have them below; searched for while the panel is in sight.

    Signals
    -------
    went
        An evening was chosen and is in hand now.
    """

    went = Signal()

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        search = LongSearch("dates", state.jobs)
        super().__init__(state, search, "Looking for evenings", depends_on=_DEPENDS_ON, parent=parent)
        self.form = WishesForm(state)
        self.sentence = reading_label()
        self.sentence.setAccessibleName("What was found")
        self.list = QListWidget()
        self.list.setAccessibleName("Evenings that fit")
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setAccessibleDescription("Enter goes to the evening")
        self.caution = reading_label(role="caution")
        self.caution.setAccessibleName("Caution")
        self.go = QPushButton("&Go to this evening")
        self.back = QPushButton("&Back to the year")
        self.back.setToolTip("Esc")
        self.setFocusProxy(self.list)
        self._lay_out()
        InRoom(self, self._keep_rows_in_sight)
        self._connect()
        self._show_nothing("")

    def _lay_out(self) -> None:
        foot = QHBoxLayout()
        foot.setSpacing(12)
        foot.addWidget(self.caution, 1)
        foot.addStretch()
        foot.addWidget(self.progress)
        foot.addWidget(self.go, 0, Qt.AlignmentFlag.AlignTop)
        foot.addWidget(self.back, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(PlainLabel("Find me a date", role="heading"))
        column.addWidget(self.form)
        column.addWidget(self.sentence)
        column.addWidget(self.list, 1)
        column.addLayout(foot)

    def _connect(self) -> None:
        self._search.found.connect(self._show_found)
        self._search.refused.connect(self._show_nothing)
        self.list.itemActivated.connect(self._go_to)
        self.list.currentItemChanged.connect(lambda item: self.go.setEnabled(item is not None))
        self.go.clicked.connect(lambda: self._go_to(self.list.currentItem()))
        self.back.clicked.connect(self.left)

    def _keep_rows_in_sight(self) -> None:
        self.list.setMinimumHeight(_LEAST_LINES * self.list.fontMetrics().lineSpacing())

    # The search.

    def want(self) -> None:
        situation = self._state.situation
        site, wishes, scope = situation.site, situation.date_wishes, situation.scope
        if site is None or not situation.has_sky or not wishes.heights:
            self._search.give_up()
            told = NO_BODY_FOR_DATES if situation.has_sky else ""
            self._show_nothing(NO_SITE_FOR_DATES if site is None else told)
            return
        self.progress.begin()
        self._search.want(
            partial(
                find_dates,
                site,
                wishes,
                situation.tonight,
                usual=situation.usual_hours,
                dark_enough=situation.dark.sun_altitudes_deg(),
                sharpness=None if scope is None else situation.usual_sharpness,
            )
        )

    # What was found.

    def _show_found(self, found: FoundDates) -> None:
        self.progress.end()
        situation = self._state.situation
        site, clock, usual = situation.site, clock_of(situation), situation.usual_hours
        if site is None or clock is None:
            return
        self.sentence.setText(found_sentence(found, site, usual=usual, clock=clock))
        self.caution.show_words(" ".join(found_cautions(found, usual=usual)))
        self.list.clear()
        for evening in found.evenings:
            seen = [seen_words(each, clock) for each in evening.seen]
            self.list.addItem(_item(evening, seen))
        if found.evenings:
            self.list.setCurrentRow(0)

    def _show_nothing(self, sentence: str) -> None:
        self.progress.end()
        self.sentence.setText(sentence)
        self.caution.show_words("")
        self.list.clear()
        self.go.setEnabled(False)

    def _go_to(self, item: QListWidgetItem | None) -> None:
        if item is not None and self.go_to(date.fromisoformat(item.data(_DATE))):
            self.went.emit()


def _item(evening: FoundDate, seen: list[str]) -> QListWidgetItem:
    item = QListWidgetItem("\n".join([day_words(evening), *(f"    {words}" for words in seen)]))
    item.setData(_DATE, evening.evening.isoformat())
    return item
