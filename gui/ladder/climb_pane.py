"""What to do next on the ladder, what the last step did, and what is worth knowing beside it."""

from PySide6.QtWidgets import (
    QBoxLayout,
    QButtonGroup,
    QPushButton,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from core.words.aim import aim_cautions, aim_detail, aim_heading
from core.words.climbing import rung_detail, what_next_words
from core.words.limits import lifted_sentence
from core.words.names import opening
from core.words.notices import ladder_notice_texts
from core.words.site_clock import clock_of
from core.words.soft_view import TITLE as SOFT_VIEW
from core.words.units import Units
from gui.ladder.limits_page import LimitsPage
from gui.ladder.look_for import LookForPane
from gui.ladder.verdict_row import VerdictRow
from gui.profile.log_book import LogBook
from gui.state import AppState
from gui.widgets.folding_row import FoldingRow
from gui.widgets.in_room import InRoom
from gui.widgets.low_scroll_area import LowScrollArea
from gui.widgets.plain_label import PlainLabel

LOOK_FOR, LIMITS = range(2)
_PAGES = ("What to look for", "Limits")
_LEAST_PAGE_LINES = 6
# Between heading and detail; what is around both on one line.
_BESIDE_PX, _BELOW_PX, _AROUND_PX = 10, 3, 24


class ClimbPane(LowScrollArea):
    """The words and the buttons beside the drawing; where there is little height all of it scrolls."""

    def __init__(self, state: AppState, log_book: LogBook, keys_in: QWidget) -> None:
        page = QWidget()
        super().__init__(page)
        self._state = state
        self.heading = PlainLabel(role="heading", wraps=True)
        self.detail = PlainLabel(role="small", wraps=True)
        self.caution = PlainLabel(role="caution", wraps=True)
        self.caution.setAccessibleName("Caution")
        self.next = PlainLabel(role="next", wraps=True)
        self.next.setAccessibleName("What to do next")
        self.lifted = PlainLabel(role="warning", wraps=True)
        self.verdicts = VerdictRow(state, log_book, keys_in=keys_in)
        self.soft = QPushButton("Why soft?")
        self.soft.setAccessibleName(SOFT_VIEW)
        self.soft.setToolTip("Key W")
        self.soft.setProperty("role", "flat")
        self.dark = QPushButton("Eyepiece mode")
        self.dark.setAccessibleDescription("Large words for the dark, over the whole window; Escape leaves")
        self.dark.setToolTip("Key E")
        self.dark.setProperty("role", "flat")
        self.notices = PlainLabel(role="small", wraps=True)
        self.notices.setAccessibleName("About the rung in hand")
        self.look_for = LookForPane()
        self.limits = LimitsPage()
        self.page_buttons = QButtonGroup(self)
        self._pages = QStackedWidget()
        self._lay_out(page)
        InRoom(self, self._arrange)
        self.page_buttons.idClicked.connect(self._pages.setCurrentIndex)

    def show_situation(self) -> None:
        """Show what the situation is now."""
        situation = self._state.situation
        ladder, rung, aim, clock = situation.ladder, situation.rung, situation.aim, clock_of(situation)
        is_offered = ladder is None or ladder.aim.is_offered
        is_moment = aim.at == situation.time
        is_now = is_moment and situation.following_now
        # In the last minutes before sunrise there is nothing to judge, to look for or to see, but to stop.
        is_open = situation.last_call is None
        heading = aim_heading(
            aim,
            None if situation.night is None else clock,
            is_now=is_now,
            is_moment=is_moment,
            rises_on=situation.rising_on is not None,
        )
        if not is_open and situation.planet is not None:
            heading = opening(situation.planet)
        self.heading.setText(heading)
        # Where a sentence stands in place of the rungs, it holds these notices too.
        self.detail.setText(aim_detail(aim, with_sight=is_offered))
        self.caution.setText(" ".join(aim_cautions(aim)) if is_offered else "")
        self.next.setText(what_next_words(situation))
        units = Units(situation.preferences)
        detail = rung_detail(rung, ladder, units) if rung and ladder else ""
        self.notices.setText(detail or " ".join(ladder_notice_texts(ladder, units) if ladder else ()))
        self.lifted.setText(lifted_sentence(ladder) if ladder is not None else "")
        for label in (self.caution, self.next, self.lifted, self.notices, self.detail):
            label.setVisible(bool(label.text()))
        for button in (self.soft, self.dark):
            button.setVisible(rung is not None and is_open)
        self.verdicts.setVisible(rung is not None and is_open)
        self._beside.setVisible(is_open)
        self.look_for.show_appearance(situation.appearance)
        self.look_for.show_filters(situation.filter_offers)
        self.limits.show_situation(situation)
        self._arrange()

    def _arrange(self) -> None:
        """Put what the ladder is for on one line where it fits; keep some lines of the pages in sight."""
        texts = (self.heading, self.detail)
        needed = sum(label.fontMetrics().horizontalAdvance(label.text()) for label in texts) + _AROUND_PX
        directions = QBoxLayout.Direction
        is_one = needed <= self.viewport().width()
        self._of_what.setDirection(directions.LeftToRight if is_one else directions.TopToBottom)
        self._of_what.setSpacing(_BESIDE_PX if is_one else _BELOW_PX)
        # On one line the heading takes what it needs and no more; else it wraps in all of the width.
        policy = self.heading.sizePolicy()
        policies = QSizePolicy.Policy
        policy.setHorizontalPolicy(policies.Fixed if is_one else policies.Ignored)
        self.heading.setWordWrap(not is_one)
        self.heading.setSizePolicy(policy)
        self._pages.setMinimumHeight(_LEAST_PAGE_LINES * self.fontMetrics().lineSpacing())

    def _lay_out(self, page: QWidget) -> None:
        column = QVBoxLayout(page)
        column.setContentsMargins(2, 0, 2, 0)
        column.setSpacing(5)
        self._of_what = QBoxLayout(QBoxLayout.Direction.TopToBottom)
        self._of_what.addWidget(self.heading)
        self._of_what.addWidget(self.detail, 1)
        column.addLayout(self._of_what)
        for label in (self.caution, self.next, self.lifted):
            column.addWidget(label)
        column.addWidget(self.verdicts)
        column.addWidget(self.notices)
        self._beside = QWidget()
        beside = QVBoxLayout(self._beside)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.setSpacing(5)
        buttons = QWidget()
        row = FoldingRow(buttons, spacing=2)
        for number, (name, each) in enumerate(zip(_PAGES, (self.look_for, self.limits), strict=True)):
            button = QPushButton(name)
            button.setCheckable(True)
            # One of several, to a reader of the screen.
            button.setAutoExclusive(True)
            button.setChecked(number == LOOK_FOR)
            button.setProperty("role", "page")
            self.page_buttons.addButton(button, number)
            row.addWidget(button)
            self._pages.addWidget(each)
        row.addWidget(self.soft)
        beside.addWidget(buttons)
        beside.addWidget(self._pages, 1)
        column.addWidget(self._beside, 1)
        # Where nothing stands beside it, what is left stays on top.
        column.addStretch(0)
