"""Two scopes side by side: figures, verdict and drawing, reached and left by mouse or keys."""

from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from attrs import evolve
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QImage
from pytestqt.qtbot import QtBot

from core.air.first_look import FirstLook
from core.drawing.comparison_sheet import SHEET_HEIGHT, SHEET_WIDTH
from core.drawing.paper import paper
from gui.gear.side_by_side import SideBySide
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.pickers import Picker
from tests.gui.conftest import make_profile, pixels
from tests.gui.gear_hand import GearHand

pytestmark = pytest.mark.usefixtures("theme")


@pytest.fixture
def hand(qtbot: QtBot, state: AppState) -> Iterator[GearHand]:
    hand = GearHand(qtbot, state, size=(1200, 700))
    yield hand
    hand.close()


@pytest.fixture
def page(hand: GearHand) -> SideBySide:
    hand.press(hand.view.gives.show_side_by_side)
    return hand.view.side_by_side


def figures(page: SideBySide) -> dict[str, tuple[str, str]]:
    table = page.figures
    rows = [
        [item.text() if (item := table.item(row, column)) else "" for column in range(3)]
        for row in range(table.rowCount())
    ]
    return {label: (a, b) for label, a, b in rows}


def pick(hand: GearHand, picker: Picker, name: str) -> None:
    """Choose from a drop-down list by keys."""
    picker.setFocus()
    hand.qtbot.keyClick(picker, Qt.Key.Key_Home)
    while picker.currentText() != name:
        before = picker.currentIndex()
        hand.qtbot.keyClick(picker, Qt.Key.Key_Down)
        assert picker.currentIndex() > before, f"{name} is not offered"


def test_both_scopes_stand_side_by_side_in_figures_and_words(hand: GearHand, page: SideBySide) -> None:
    assert page.isVisible()
    shown = figures(page)
    assert shown["Aperture"] == ("150 mm", "80 mm")
    # Dawes 1867: 116 / D arcsec.
    assert shown["Resolution (Dawes)"] == ("0.77″", "1.5″")
    # 1200 / 25 and 600 / 25.
    assert shown["Lowest power"] == ("48x", "24x")
    assert hand.state.situation.planet is not None
    assert hand.state.situation.planet.label in page.conditions.text()
    assert "rules of thumb" in page.conditions.text()
    assert page.advice.text().startswith("Six-inch for tonight")
    assert "Small refractor" in page.verdict.text()


def test_a_scope_that_stands_outside_counts_in_which_to_take(hand: GearHand, page: SideBySide) -> None:
    assert "outside" not in page.advice.text()
    hand.state.set_outside(hand.state.situation.minute)
    assert "outside" not in page.advice.text()  # the small one would be ready sooner all the same

    hand.state.set_scope(hand.profile.telescopes[1].id)
    hand.state.set_outside(hand.state.situation.minute)

    assert "Both stand outside: Small refractor wants about" in page.advice.text()


def test_what_to_buy_stands_beside_each(page: SideBySide) -> None:
    assert all(figures(page)["What to buy, for many nights"])


def test_the_better_figure_stands_out_by_its_letters(page: SideBySide) -> None:
    def is_bold(label: str, column: int) -> bool:
        row = list(figures(page)).index(label)
        item = page.figures.item(row, column)
        assert item is not None
        return item.font().bold()

    assert (is_bold("Light, against the other", 1), is_bold("Light, against the other", 2)) == (True, False)
    assert (is_bold("Widest field", 1), is_bold("Widest field", 2)) == (False, True)
    assert not is_bold("Aperture", 1)


def test_escape_and_the_button_lead_back(hand: GearHand, page: SideBySide) -> None:
    hand.qtbot.keyClick(page.back, Qt.Key.Key_Escape)
    assert hand.view.owned.isVisible()
    focused = hand.focused()
    assert focused is hand.view.gives.show_side_by_side
    hand.qtbot.keyClick(focused, Qt.Key.Key_Space)
    assert page.isVisible()
    hand.press(page.back)
    assert not page.isVisible()


def test_a_change_of_places_changes_the_columns_and_keeps_the_verdict(
    hand: GearHand, page: SideBySide
) -> None:
    before = figures(page)
    verdict = page.verdict.text()
    hand.press(page.swap)

    assert (page.a.currentText(), page.b.currentText()) == ("Small refractor", "Six-inch")
    after = figures(page)
    assert after["Widest field"] == before["Widest field"][::-1]
    assert after["Climb to"] == before["Climb to"][::-1]
    assert page.verdict.text() == verdict


def test_worse_air_is_shown_at_once(hand: GearHand, page: SideBySide) -> None:
    before = figures(page)["Ceiling"]
    hand.state.set_first_look(FirstLook.BOILING)
    after = figures(page)["Ceiling"]
    assert after != before
    # Both are held by the air, and the larger keeps a lead.
    assert all(text.endswith("by aperture and air, mostly the air") for text in after)
    assert after[0] != after[1]


def test_the_drawing_follows_scopes_and_palette(hand: GearHand, page: SideBySide) -> None:
    first = pixels(page.canvas)
    hand.state.set_first_look(FirstLook.STEADY)
    second = pixels(page.canvas)
    assert first.shape == second.shape
    assert np.any(first != second)
    hand.state.set_palette("night")
    # Only shades of red are left.
    assert not np.any(pixels(page.canvas)[..., 1:])


@pytest.mark.parametrize("width", range(1000, 1020, 2))
def test_every_row_of_figures_is_as_high_as_its_words(hand: GearHand, page: SideBySide, width: int) -> None:
    hand.view.resize(width, 640)
    table = page.figures
    rows = range(table.rowCount())
    hand.qtbot.waitUntil(lambda: table.viewport().height() >= sum(map(table.rowHeight, rows)))
    assert [row for row in rows if table.rowHeight(row) < table.sizeHintForRow(row)] == []


def test_the_figures_copy_for_a_spreadsheet(hand: GearHand, page: SideBySide) -> None:
    page.figures.setFocus()
    hand.qtbot.keyClick(page.figures, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[0] == "\tSix-inch\tSmall refractor"
    assert "Aperture\t150 mm\t80 mm" in lines


def test_one_scope_alone_stands_beside_a_usual_one(qtbot: QtBot, make_state: Callable[..., AppState]) -> None:
    profile = make_profile()
    hand = GearHand(qtbot, make_state(evolve(profile, telescopes=profile.telescopes[:1]), sky=False))
    pick(hand, hand.view.gives.other, "Usual: Reflector, 200 mm (8 in)")
    hand.press(hand.view.gives.show_side_by_side)
    page = hand.view.side_by_side
    assert figures(page)["Aperture"] == ("150 mm", "200 mm")
    assert "Reflector, 200 mm (8 in)" in page.advice.text()
    assert hand.state.undo_stack.count() == 0
    hand.close()


def test_a_usual_scope_comes_with_its_own_eyepieces_or_takes_the_owners(
    hand: GearHand, page: SideBySide
) -> None:
    assert not page.usual_with.isVisible()
    pick(hand, page.b, "Usual: Reflector, 200 mm (8 in)")
    # It mostly comes with 25 and 10 mm; 1200 mm give 48x and 120x.
    assert "is used with the 25 and 10 mm eyepieces that mostly come with it." in page.conditions.text()
    assert figures(page)["Lowest power"] == ("48x", "48x")
    comparison = hand.state.situation.comparison
    assert comparison is not None
    assert [round(rung.power) for rung in comparison.b.ladder.rungs] == [48, 120]

    page.usual_with.setFocus()
    hand.qtbot.keyClick(page.usual_with, Qt.Key.Key_Down)
    assert "is used with your eyepieces." in page.conditions.text()
    comparison = hand.state.situation.comparison
    assert comparison is not None
    assert [round(rung.power) for rung in comparison.b.ladder.rungs] == [48, 96, 120, 150, 240, 300]


def test_two_usual_scopes_can_be_compared_and_change_places(hand: GearHand, page: SideBySide) -> None:
    pick(hand, page.a, "Usual: Reflector, 130 mm (5 in)")
    pick(hand, page.b, "Usual: Closed mirror tube, 125 mm (5 in)")
    assert figures(page)["Aperture"] == ("130 mm", "125 mm")
    # The scope in hand everywhere else stays what it was.
    assert hand.scope.name == "Six-inch"
    hand.press(page.swap)
    assert figures(page)["Aperture"] == ("125 mm", "130 mm")
    pick(hand, page.a, "Small refractor")
    assert hand.scope.name == "Small refractor"
    assert figures(page)["Aperture"] == ("80 mm", "130 mm")


def test_what_stands_on_one_side_is_not_offered_on_the_other(hand: GearHand, page: SideBySide) -> None:
    def names(picker: Picker) -> list[str]:
        return [picker.itemText(row) for row in range(picker.count())]

    assert "Small refractor" not in names(page.a)
    assert "Six-inch" not in names(page.b)
    # Walking along a list by keys therefore never moves the other side.
    pick(hand, page.a, "Usual: Binoculars, 10x50")
    assert page.b.currentText() == "Small refractor"


def test_a_usual_scope_of_the_same_name_is_told_apart(hand: GearHand, page: SideBySide) -> None:
    name = "Reflector, 200 mm (8 in)"
    scopes = (evolve(hand.profile.telescopes[0], name=name), *hand.profile.telescopes[1:])
    hand.state.edit_profile("Rename", evolve(hand.profile, telescopes=scopes))
    pick(hand, page.b, f"Usual: {name}")
    headings = [
        item.text() if (item := page.figures.horizontalHeaderItem(column)) else "" for column in (1, 2)
    ]
    assert len(set(headings)) == 2


@pytest.mark.parametrize(("ending", "begins"), [("png", b"\x89PNG"), ("pdf", b"%PDF")])
def test_the_comparison_is_saved_as_a_picture_or_a_page(
    hand: GearHand,
    page: SideBySide,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    ending: str,
    begins: bytes,
) -> None:
    asked: list[str] = []
    told: list[str] = []

    def ask(_parent: object, _folder: object, name: str) -> Path:
        asked.append(name)
        return tmp_path / f"both.{ending}"

    monkeypatch.setattr(dialogs, "ask_picture", ask)
    hand.state.told.connect(told.append)
    hand.press(page.save)

    assert asked == ["Six-inch and Small refractor"]
    content = (tmp_path / f"both.{ending}").read_bytes()
    assert content.startswith(begins)
    assert told == [f"Saved as {tmp_path / f'both.{ending}'}."]
    if ending == "png":
        picture = pixels(QImage.fromData(content))
        assert picture.shape[1] > 1500
        # Paper is bright, and most of it stays empty.
        assert picture.mean() > 200


def test_a_picture_that_cannot_be_saved_says_why(
    hand: GearHand, page: SideBySide, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[str] = []
    monkeypatch.setattr(dialogs, "show_text", lambda *texts: shown.extend(map(str, texts[1:])))
    for wrong in (tmp_path / "both.jpg", tmp_path / "nowhere" / "both.png"):
        monkeypatch.setattr(dialogs, "ask_picture", lambda *_args, wrong=wrong: wrong)
        hand.press(page.save)
        assert not wrong.exists()
    assert "both.jpg: must end in .png, .pdf or .svg" in shown
    assert sum("could not be saved; try another name or place." in text for text in shown) == 2
    monkeypatch.setattr(dialogs, "ask_picture", lambda *_args: None)
    hand.press(page.save)


def test_the_saved_page_has_the_views_in_the_eyepiece_on_it_though_they_were_never_looked_at(
    hand: GearHand, page: SideBySide
) -> None:
    comparison = hand.state.situation.comparison
    assert comparison is not None
    sheet = page._draw_sheet(paper(SHEET_WIDTH, SHEET_HEIGHT))
    words = " ".join(each.text for each in sheet.words)
    assert "All at one scale" in words
    assert "once it is cool." in words
    # The evening it holds for stands on the page too.
    assert "on the evening of 5 December 2026" in words


def test_what_is_tried_out_stands_dashed_on_both_ladders(hand: GearHand, page: SideBySide) -> None:
    before = pixels(page.canvas)
    hand.press(page.back)
    hand.qtbot.keyClicks(hand.view.gives.questions.field.editor, "6 mm")
    hand.press(hand.view.gives.show_side_by_side)
    assert np.any(pixels(page.canvas) != before)
    assert hand.state.situation.comparison is not None
    # 1200 / 6 and 600 / 6, each also doubled.
    wished = hand.state.situation.compared_wished
    assert [[round(rung.power) for rung in rungs] for rungs in wished] == [[200, 400], [100, 200]]


def test_words_and_drawings_both_have_room(page: SideBySide) -> None:
    words, drawing = page.verdict.width(), page.canvas.width()
    assert words > 0.38 * page.width()
    assert drawing > 0.5 * page.width()


def test_a_scope_that_is_removed_leaves_a_sentence(hand: GearHand, page: SideBySide) -> None:
    hand.state.edit_profile("Sell", evolve(hand.profile, telescopes=hand.profile.telescopes[:1]))
    assert page.conditions.text() == "Choose two telescopes to put side by side."
    assert not page.canvas.isVisible()
    hand.undo()
    assert page.canvas.isVisible()


def test_names_are_plain_in_headings_and_pickers(hand: GearHand, page: SideBySide) -> None:
    names = ("Ba$$in & <b>co</b>", "$\\frac{1}{2}$")
    scopes = [evolve(scope, name=name) for scope, name in zip(hand.profile.telescopes, names, strict=True)]
    hand.state.edit_profile("Rename", evolve(hand.profile, telescopes=tuple(scopes)))
    assert (page.a.currentText(), page.b.currentText()) == names
    for column, name in enumerate(names, start=1):
        heading = page.figures.horizontalHeaderItem(column)
        assert heading is not None
        assert heading.text() == name
    assert names[0] in page.verdict.text()
    assert pixels(page.canvas).std() > 0


def test_the_second_scope_taken_in_hand_leaves_the_first_beside_it(hand: GearHand, page: SideBySide) -> None:
    hand.state.set_scope(hand.profile.telescopes[1].id)
    assert (page.a.currentText(), page.b.currentText()) == ("Small refractor", "Six-inch")
    assert figures(page)["Aperture"] == ("80 mm", "150 mm")
