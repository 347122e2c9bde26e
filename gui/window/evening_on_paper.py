"""The evening on paper: a form for paper and place, saving as a file, and printing."""

from functools import partial
from pathlib import Path

from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QDialogButtonBox, QPushButton, QVBoxLayout, QWidget

from core.drawing.paper_sizes import Paper
from core.export.evening_file import write_evening
from core.problems import ProblemsError
from core.record.observer import LengthUnit
from core.situation.situation import Situation
from core.words.evening_sheet import ABOUT_THE_SHEET, NO_EVENING, NO_PRINTING, SAVED, SENT_TO_PRINTER
from core.words.files import EVENING_NAME, OUTPUT_NOT_SAVED, SHEET_NOT_SAVED_TITLE
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.choice_field import ChoiceField, SwitchField
from gui.widgets.field_rows import FieldRows
from gui.widgets.plain_label import PlainLabel
from gui.widgets.sized_dialog import SizedDialog

_JOB = "sheet"
_LETTERS = 62
_PAPERS = ((Paper.A4, "A4"), (Paper.LETTER, "Letter"))


class EveningOnPaper(SizedDialog):
    """Asks for the paper, and whether the place is told; then saves or prints the evening in hand."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent, letters=_LETTERS)
        self._state = state
        self.setWindowTitle("The evening on paper")
        self.paper = ChoiceField("paper", "Paper", _PAPERS)
        self.paper.sync(usual_paper(state.situation))
        self.with_place = SwitchField("with_place", "Tell the site's &coordinates as well")
        self.save_button = QPushButton("&Save as …")
        self.print_button = QPushButton("&Print …")
        self.save_button.clicked.connect(self.save)
        self.print_button.clicked.connect(self.print)
        self._lay_out()

    @property
    def chosen_paper(self) -> Paper:
        """The size of paper that stands in the form."""
        chosen = self.paper.reading.value
        assert isinstance(chosen, Paper)  # one is always chosen
        return chosen

    def save(self) -> None:
        """Ask where, and write the file there away from the window's thread."""
        state = self._state
        name = EVENING_NAME.format(day=state.situation.evening)
        path = dialogs.ask_sheet(self, state.path.parent if state.path else None, name)
        if path is None:
            return
        work = partial(
            write_evening,
            path,
            _apart(state.situation),
            self.chosen_paper,
            with_place=bool(self.with_place.reading.value),
        )
        window = self.parentWidget()
        state.jobs.submit(
            _JOB,
            work,
            lambda _none: state.tell(SAVED.format(path=path)),
            partial(_tell_failure, window, path),
        )
        self.accept()

    def print(self) -> None:
        """Ask for a printer, and send it the pages as they are drawn away from the window's thread."""
        try:
            from gui.window.printing import ask_printer, page_pictures, print_pages
        except ImportError:
            self._state.tell(NO_PRINTING)
            self.reject()
            return
        state, paper = self._state, self.chosen_paper
        printer = ask_printer(self, paper)
        if printer is None:
            return
        with_place = bool(self.with_place.reading.value)
        work = partial(page_pictures, _apart(state.situation), paper, with_place=with_place)

        def send(pictures: list[bytes]) -> None:
            print_pages(printer, pictures)
            state.tell(SENT_TO_PRINTER)

        state.jobs.submit(_JOB, work, send)
        self.accept()

    def _lay_out(self) -> None:
        form = QWidget()
        rows = FieldRows(form)
        rows.add_row("P&aper", self.paper, self.paper.editor)
        rows.add_unlabelled(self.with_place)
        rows.setContentsMargins(0, 0, 0, 0)
        box = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        box.addButton(self.save_button, QDialogButtonBox.ButtonRole.ActionRole)
        box.addButton(self.print_button, QDialogButtonBox.ButtonRole.ActionRole)
        box.rejected.connect(self.reject)
        self.save_button.setDefault(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 18, 20, 16)
        column.setSpacing(12)
        column.addWidget(PlainLabel(ABOUT_THE_SHEET, wraps=True))
        column.addWidget(form)
        column.addWidget(box)


def show_evening_on_paper(state: AppState, parent: QWidget) -> None:
    """Open the form, or say why there is nothing for it."""
    if state.situation.night is None:
        state.tell(state.situation.night_problem or NO_EVENING)
    else:
        EveningOnPaper(state, parent).exec()


def usual_paper(situation: Situation) -> Paper:
    """Return the paper that is in the owner's printer, by the system's country or by inches (a guess)."""
    uses_inches = QLocale().measurementSystem() is QLocale.MeasurementSystem.ImperialUSSystem
    return Paper.LETTER if uses_inches or situation.preferences.length is LengthUnit.INCH else Paper.A4


def _apart(situation: Situation) -> Situation:
    """Return a situation of its own for another thread, which finds out for itself what is not yet known."""
    return Situation(situation.choices, situation.now, before=situation)


def _tell_failure(window: QWidget | None, path: Path, error: Exception) -> None:
    if not isinstance(error, ProblemsError):
        raise error
    heading = OUTPUT_NOT_SAVED.format(file=path.name)
    dialogs.show_text(window, SHEET_NOT_SAVED_TITLE, heading, str(error))
