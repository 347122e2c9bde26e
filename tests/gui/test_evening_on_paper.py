"""The evening on paper, as somebody at the window saves and prints it."""

import io
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from attrs import evolve
from pypdf import PdfReader
from PySide6.QtCore import QLocale, Qt, QTimer
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QApplication, QDialog
from pytestqt.qtbot import QtBot

from core.drawing.paper_sizes import Paper
from core.record.observer import LengthUnit, Profile
from gui.state import AppState
from gui.widgets import dialogs
from gui.window.evening_on_paper import EveningOnPaper, usual_paper
from gui.window.printing import page_pictures, prepare, print_pages
from gui.window.shell import Shell


@pytest.fixture
def form(qtbot: QtBot, shell: Shell, state: AppState) -> Iterator[EveningOnPaper]:
    found = EveningOnPaper(state, shell)
    qtbot.addWidget(found)
    found.show()
    qtbot.waitExposed(found)
    yield found
    found.close()


@pytest.fixture
def saved_at(monkeypatch: pytest.MonkeyPatch) -> Callable[[Path | None], list[str]]:
    """Answer the question where to save, and keep which name was offered."""

    def answer(path: Path | None) -> list[str]:
        offered: list[str] = []

        def ask(_parent: object, _folder: object, name: str) -> Path | None:
            offered.append(name)
            return path

        monkeypatch.setattr(dialogs, "ask_sheet", ask)
        return offered

    return answer


def text_of(path: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(path.read_bytes())).pages)


def test_ctrl_p_opens_the_form(qtbot: QtBot, shell: Shell) -> None:
    seen: list[QDialog] = []

    def look() -> None:
        found = QApplication.activeModalWidget()
        assert isinstance(found, EveningOnPaper)
        seen.append(found)
        qtbot.keyClick(found, Qt.Key.Key_Escape)

    QTimer.singleShot(0, look)
    qtbot.keyClick(shell, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)

    assert seen


def test_saving_writes_the_evening_in_hand_and_says_so(
    qtbot: QtBot,
    shell: Shell,
    state: AppState,
    form: EveningOnPaper,
    saved_at: Callable[[Path | None], list[str]],
    tmp_path: Path,
) -> None:
    path = tmp_path / "evening.pdf"
    offered = saved_at(path)

    qtbot.mouseClick(form.save_button, Qt.MouseButton.LeftButton)

    assert offered == ["evening_2026-12-05"]
    assert "Back terrace" in text_of(path)
    assert "41°09′" not in text_of(path)
    assert shell.message_line.text.text() == f"Saved as {path}."
    assert form.isHidden()


def test_the_place_is_told_where_that_is_ticked(
    qtbot: QtBot,
    form: EveningOnPaper,
    saved_at: Callable[[Path | None], list[str]],
    tmp_path: Path,
) -> None:
    path = tmp_path / "evening.pdf"
    saved_at(path)

    qtbot.keyClick(form.with_place.editor, Qt.Key.Key_Space)
    qtbot.mouseClick(form.save_button, Qt.MouseButton.LeftButton)

    assert "41°09′00″ N" in text_of(path)


def test_what_cannot_be_saved_is_told_in_a_sentence(
    qtbot: QtBot,
    form: EveningOnPaper,
    saved_at: Callable[[Path | None], list[str]],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    told: list[str] = []
    monkeypatch.setattr(dialogs, "show_text", lambda *words: told.extend(map(str, words)))
    saved_at(tmp_path / "nowhere" / "evening.pdf")

    qtbot.mouseClick(form.save_button, Qt.MouseButton.LeftButton)

    assert "evening.pdf could not be saved; try another name or place." in told
    assert "evening.pdf: cannot be saved: No such file or directory; nothing was changed" in told


def test_thinking_better_of_it_leaves_the_form_open(
    qtbot: QtBot, form: EveningOnPaper, saved_at: Callable[[Path | None], list[str]]
) -> None:
    saved_at(None)

    qtbot.mouseClick(form.save_button, Qt.MouseButton.LeftButton)

    assert form.isVisible()


def test_every_page_is_printed_as_large_as_the_paper(state: AppState, tmp_path: Path) -> None:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    prepare(printer, Paper.LETTER)

    pictures = page_pictures(state.situation, Paper.LETTER, with_place=False)
    print_pages(printer, pictures)

    pages = PdfReader(tmp_path / "printed.pdf").pages
    assert len(pages) == len(pictures) >= 2
    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx((612, 792), abs=1)
        picture = page.images[0].image
        assert picture is not None
        ink = np.asarray(picture.convert("L")) < 128
        assert 0.005 < ink.mean() < 0.3


def test_printing_asks_for_a_printer_with_the_paper_that_was_chosen(
    qtbot: QtBot,
    shell: Shell,
    form: EveningOnPaper,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    printed = tmp_path / "printed.pdf"

    def take_a_file_for_a_printer(dialog: QPrintDialog) -> int:
        dialog.printer().setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        dialog.printer().setOutputFileName(str(printed))
        return int(QDialog.DialogCode.Accepted)

    monkeypatch.setattr(QPrintDialog, "exec", take_a_file_for_a_printer)
    form.paper.sync(Paper.LETTER)

    qtbot.mouseClick(form.print_button, Qt.MouseButton.LeftButton)

    box = PdfReader(printed).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((612, 792), abs=1)
    assert shell.message_line.text.text() == "Sent to the printer."


def test_without_a_site_there_is_nothing_to_print(qtbot: QtBot, shell: Shell, state: AppState) -> None:
    state.load(Profile(observer="Ines"), None)

    qtbot.keyClick(shell, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)

    assert "Add a site in Gear" in shell.message_line.text.text()


@pytest.fixture
def country() -> Iterator[Callable[[QLocale.Country], None]]:
    """Let the system be in another country for one test."""
    before = QLocale()
    yield lambda there: QLocale.setDefault(QLocale(QLocale.Language.English, there))
    QLocale.setDefault(before)


def test_letter_is_offered_where_it_is_used(
    state: AppState, country: Callable[[QLocale.Country], None]
) -> None:
    country(QLocale.Country.UnitedStates)
    assert usual_paper(state.situation) is Paper.LETTER
    country(QLocale.Country.Germany)
    assert usual_paper(state.situation) is Paper.A4

    preferences = evolve(state.profile.preferences, length=LengthUnit.INCH)
    state.edit_profile("Lengths", evolve(state.profile, preferences=preferences))
    assert usual_paper(state.situation) is Paper.LETTER
