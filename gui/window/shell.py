"""The one window: strip, answer, and the three views."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QPushButton, QToolButton, QVBoxLayout, QWidget

from core.drawing.palette import PALETTES, PaletteName
from core.situation.situation import Situation
from core.words.controls import TITLE
from core.words.glossary import Term
from core.words.tour import DONE, LEFT, Place, TourStep
from gui.clock import Heartbeat
from gui.profile.documents import Documents
from gui.profile.evening_memory import EveningMemory
from gui.profile.log_book import LogBook
from gui.profile.session import TEXT_SCALES, Session, SessionFile
from gui.state import AppState, Change
from gui.widgets.one_page import OnePage
from gui.widgets.screen_readers import teach_readers
from gui.widgets.theme import Theme
from gui.window.answer_bar import AnswerBar
from gui.window.dialog_keys import DialogKeys
from gui.window.explaining import terms_in_sight
from gui.window.file_drop import FileDrop
from gui.window.frameless_dialogs import FramelessDialogs
from gui.window.head import Head, HeadLine
from gui.window.hours_row import HoursRow
from gui.window.leaving import INTERRUPTED
from gui.window.letters_watch import LettersWatch
from gui.window.menus import Menus, WindowDeeds
from gui.window.message_line import MessageLine
from gui.window.notice_line import NoticeLine
from gui.window.outside_row import OutsideRow
from gui.window.page import Page
from gui.window.place import USUAL_SIZE
from gui.window.session_keeper import SessionKeeper
from gui.window.strip import Strip
from gui.window.tour import TourBar
from gui.window.views import GEAR, HEIGHT, LADDER, VIEW_NAMES, make_view
from gui.window.views_row import ViewsRow

_PLACES = {Place.GEAR: GEAR, Place.HEIGHT: HEIGHT, Place.LADDER: LADDER}


class Shell(QMainWindow):
    """The window of the program.

    Views are made when they are first shown, so that the window itself comes up at once. On the
    ``first_run`` the guide to a new profile opens by itself.

    Signals
    -------
    view_made
        A view is shown for the first time.
    """

    view_made = Signal()

    def __init__(
        self,
        state: AppState,
        theme: Theme,
        *,
        session: Session | None = None,
        session_file: SessionFile | None = None,
        first_run: bool = False,
        view: int = HEIGHT,
    ) -> None:
        super().__init__()
        self.state = state
        self._theme = theme
        teach_readers()
        # First of all: what is made before the first style sheet would keep letters of another size.
        theme.wear(state.situation.palette_name, state.situation.text_scale)
        self.first_run = first_run
        folder = session_file.path.parent if session_file else None
        self.documents = Documents(state, session or Session(), self, folder=folder)
        self.memory = None if folder is None else EveningMemory(state, folder)
        self.log_book = LogBook(state, parent=self)
        self.strip = Strip(state)
        self.hours = HoursRow(state)
        self.answer_bar = AnswerBar(state, self.hours)
        self.notices = NoticeLine(state)
        self.outside = OutsideRow(state)
        self.page = Page()
        self.message_line = MessageLine(self.page)
        self.tour = TourBar()
        head_line = HeadLine(state)
        self.views_row = ViewsRow(VIEW_NAMES, self.outside, head_line, told=self.outside.carry_out)
        self.view_buttons = self.views_row.buttons
        self.head = Head(
            self.strip, self.answer_bar, self.notices, self.views_row, self.outside, head_line, self.page
        )
        self.stack = OnePage()
        self._views: dict[int, QWidget] = {}
        self._heartbeat = Heartbeat(self._beat, self)
        self._frameless = FramelessDialogs(self)
        self._lay_out()
        does = WindowDeeds(
            guide=self.guide,
            put_on_paper=self.put_on_paper,
            go_to_view=self.go_to_view,
            next_palette=self.next_palette,
            toggle_full_screen=self.toggle_full_screen,
            step_text=self.step_text,
            go_to_eyepiece=self.go_to_eyepiece,
            step_dimmer=lambda by: state.set_dimmer(state.situation.dimmer + by),
            explain=self.explain_what_is_seen,
            tour=lambda: self.tour.begin(self.tour.number),
        )
        self.menus = Menus(self, state, self.documents, does)
        DialogKeys(self, self.menus.in_dialogs)
        FileDrop(self, self.documents.open_path, state.tell)
        state.changed.connect(self._on_changed)
        state.file_changed.connect(self._show_title)
        state.loaded.connect(self._on_loaded)
        state.told.connect(self.message_line.say)
        state.loaded.connect(self.message_line.forget)
        self.letters_watch = LettersWatch(state, self.documents.session.letters_told, self)
        self.message_line.gone.connect(self.letters_watch.look)
        self._steps_done = 0
        state.undo_stack.indexChanged.connect(self._on_steps)
        self.tour.stepped.connect(self._on_tour_step)
        self.tour.left.connect(lambda: state.tell(LEFT))
        self.tour.ended.connect(self._on_tour_ended)
        self._session = SessionKeeper(state, self.documents, self.tour, session_file, self)
        self.letters_watch.has_named.connect(self._session.keep_letters)
        self._choose_first_view(view)
        self._dress()
        self._theme.dim(state.situation.dimmer)
        self._show_title()
        self.resize(USUAL_SIZE)

    @property
    def current_view(self) -> QWidget | None:
        """The view that is shown, None before it has been made."""
        return self._views.get(self.view_buttons.checkedId())

    def show_view(self, number: int) -> None:
        """Show Gear (0), Height (1) or Ladder (2)."""
        self.view_buttons.button(number).setChecked(True)
        self.stack.show_page(number)
        # What was told over one view is not to hide another.
        self.answer_bar.why.setChecked(False)

    def go_to_view(self, number: int) -> None:
        """Show a view and give it the keyboard, so that its keys work at once."""
        self.show_view(number)
        self._views[number].setFocus()

    def go_to_eyepiece(self) -> None:
        """Show the Ladder view as it is for the dark, over the whole window."""
        from gui.ladder.view import LadderView

        self.go_to_view(LADDER)
        view = self.current_view
        if isinstance(view, LadderView):
            view.go_to_eyepiece()

    def guide(self) -> None:
        """Set up a new observer in a few short steps, beginning with an empty profile."""
        from gui.first_run.guide import Guide

        if not self.documents.new():
            return
        guide = Guide(self.state, self)
        guide.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        guide.finished.connect(lambda _result: self._after_guide())
        guide.open()

    def _after_guide(self) -> None:
        """Show the answer and the evening, and begin the tour where it was left."""
        if not self._is_set_up:
            self.go_to_view(GEAR)
            return
        self.go_to_view(HEIGHT)
        if not self.documents.session.tour_is_done:
            self.tour.begin(self.documents.session.tour_step)

    @property
    def _is_set_up(self) -> bool:
        return bool(self.state.profile.sites and self.state.profile.telescopes)

    def _on_tour_step(self, step: TourStep) -> None:
        self.show_view(_PLACES[step.place])
        self._session.keep()

    def _on_tour_ended(self) -> None:
        self._session.end_tour()
        self.state.tell(DONE)

    def put_on_paper(self) -> None:
        """Ask how the evening is wanted on paper or in a file, and make it."""
        from gui.window.evening_on_paper import show_evening_on_paper

        show_evening_on_paper(self.state, self)

    def explain(self, terms: Sequence[Term]) -> None:
        """Open the glossary, some of its terms first."""
        from gui.window.glossary import GlossaryDialog

        above = QApplication.activeModalWidget()
        if not isinstance(above, GlossaryDialog):
            GlossaryDialog(terms, self.state.situation.palette_name, above or self).exec()

    def explain_what_is_seen(self) -> None:
        """Open the glossary, the terms that stand on the screen first, in a dialog those of the dialog."""
        dialog = QApplication.activeModalWidget()
        self.explain(terms_in_sight(dialog or self))

    def next_palette(self) -> None:
        """Go on to the next of day, dusk and night."""
        number = PALETTES.index(self.state.situation.palette_name)
        self.state.set_palette(PALETTES[(number + 1) % len(PALETTES)])

    def toggle_full_screen(self) -> None:
        """Fill the screen, or go back."""
        if self.isFullScreen():
            self.showNormal()
        else:
            self.showFullScreen()

    def step_text(self, step: int) -> None:
        """Make the text one step larger or smaller, or with 0 its usual size."""
        number = TEXT_SCALES.index(1.0)
        if step:
            number = TEXT_SCALES.index(self.state.situation.text_scale) + step
        self.state.set_text_scale(TEXT_SCALES[min(max(number, 0), len(TEXT_SCALES) - 1)])

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._heartbeat.start()
        # All that takes long comes after the window itself.
        QTimer.singleShot(0, self, self._begin)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        # Qt's own buttons heed Return only in dialogs, and one that has the keyboard seems to wait for it.
        focused = self.focusWidget()
        is_return = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if is_return and isinstance(focused, QPushButton | QToolButton):
            focused.click()
        else:
            super().keyPressEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self.documents.may_leave():
            event.ignore()
            return
        self.documents.close()
        self._put_away()
        event.accept()

    def leave_at_once(self) -> None:
        """End the program without a question; what is unsaved is kept for the next start."""
        self.documents.keep_unsaved()
        self._put_away()
        QApplication.exit(INTERRUPTED)

    def _put_away(self) -> None:
        self._heartbeat.stop()
        self._session.keep()
        self.log_book.close()
        self.state.jobs.close()

    def _beat(self) -> None:
        self.state.beat()
        self.log_book.look_for_others()

    def _lay_out(self) -> None:
        for number in range(len(VIEW_NAMES)):
            self.stack.add_later(partial(self._make_view, number))
        self.views_row.wanted.connect(self.show_view)
        self.strip.gear_wanted.connect(partial(self.go_to_view, GEAR))
        column = QVBoxLayout(self.page.content)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self.head.lay_out(column)
        column.addWidget(self.stack, 1)
        # The tour stays in sight under the page, which may scroll.
        whole = QWidget()
        both = QVBoxLayout(whole)
        both.setContentsMargins(0, 0, 0, 0)
        both.setSpacing(0)
        both.addWidget(self.page, 1)
        both.addWidget(self.tour)
        self.setCentralWidget(whole)

    def _choose_first_view(self, wanted: int) -> None:
        self.view_buttons.button(wanted if self._is_set_up else GEAR).setChecked(True)

    def _begin(self) -> None:
        # At once, so that the next start after a kill knows what was open.
        self._session.keep()
        if self.current_view is None:
            self._show_first_view()
        if not self.state.situation.has_sky:
            self.state.prepare_sky()
        if self.message_line.isHidden():
            # Else when that message has been read.
            self.letters_watch.look()

    def _show_first_view(self) -> None:
        self.show_view(self.view_buttons.checkedId())
        view = self.current_view
        if view is not None:
            view.setFocus()
        if self.first_run:
            self.first_run = False
            self.guide()

    def _make_view(self, number: int) -> QWidget:
        view = self._views[number] = make_view(number, self.state, self.log_book)
        self.view_made.emit()
        return view

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.dimmer):
            self._theme.dim(self.state.situation.dimmer)
        if change.of(Situation.palette_name, Situation.text_scale):
            self._dress()
        if change.of(Situation.profile):
            self._show_title()

    def _on_steps(self, done: int) -> None:
        if done < self._steps_done:
            # What was said of a step is not true any more once it is taken back.
            self.message_line.forget()
        self._steps_done = done

    def _on_loaded(self) -> None:
        if self.current_view is not None:
            # What had the keyboard may have gone with the profile before; the view is told at the same time.
            QTimer.singleShot(0, self.current_view, self.current_view.setFocus)

    def _dress(self) -> None:
        self._theme.wear(self.state.situation.palette_name, self.state.situation.text_scale)
        self._frameless.keep_dark(self.state.situation.palette_name == PaletteName.NIGHT)
        self.menus.refresh()

    def _show_title(self) -> None:
        self.setWindowTitle(TITLE.format(profile=self.documents.name))
        self.setWindowModified(self.state.is_modified)
