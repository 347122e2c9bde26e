"""Two scopes side by side: figures, verdict and drawing, reached and left by mouse or keys."""

from collections.abc import Callable, Iterator

import numpy as np
import pytest
from attrs import evolve
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from core.air.steadiness import FirstLook
from gui.gear.side_by_side import SideBySide
from gui.state import AppState
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


def test_both_scopes_stand_side_by_side_in_figures_and_words(hand: GearHand, page: SideBySide) -> None:
    assert page.isVisible()
    shown = figures(page)
    assert shown["Aperture"] == ("150 mm", "80 mm")
    # Dawes 1867: 116 / D arcsec.
    assert shown["Resolution (Dawes)"] == ("0.77″", "1.4″")
    # 1200 / 25 and 600 / 25.
    assert shown["Lowest power"] == ("48x", "24x")
    assert hand.state.planet is not None
    assert hand.state.planet.label in page.conditions.text()
    assert "rules of thumb" in page.conditions.text()
    assert "Six-inch" in page.verdict.text()
    assert "Small refractor" in page.verdict.text()


def test_the_better_figure_stands_out_by_its_letters(page: SideBySide) -> None:
    def is_bold(label: str, column: int) -> bool:
        row = list(figures(page)).index(label)
        item = page.figures.item(row, column)
        assert item is not None
        return item.font().bold()

    assert (is_bold("Light, beside the other", 1), is_bold("Light, beside the other", 2)) == (True, False)
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
    page.a.setFocus()
    hand.qtbot.keyClick(page.a, Qt.Key.Key_Down)

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
    # 232 / (3 arcsec x path^0.6) at 44 degrees is about 62x for both, whatever the aperture.
    assert after[0] == after[1]
    assert after[0].endswith("by tonight's air")


def test_the_drawing_follows_scopes_and_palette(hand: GearHand, page: SideBySide) -> None:
    first = pixels(page.canvas)
    hand.state.set_first_look(FirstLook.STEADY)
    second = pixels(page.canvas)
    assert first.shape == second.shape
    assert np.any(first != second)
    hand.state.set_palette("night")
    # Only shades of red are left.
    assert not np.any(pixels(page.canvas)[..., 1:])


def test_the_figures_copy_for_a_spreadsheet(hand: GearHand, page: SideBySide) -> None:
    page.figures.setFocus()
    hand.qtbot.keyClick(page.figures, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[0] == "\tSix-inch\tSmall refractor"
    assert "Aperture\t150 mm\t80 mm" in lines


def test_one_scope_alone_has_no_page(qtbot: QtBot, make_state: Callable[..., AppState]) -> None:
    profile = make_profile()
    hand = GearHand(qtbot, make_state(evolve(profile, telescopes=profile.telescopes[:1]), sky=False))
    assert not hand.view.gives.show_side_by_side.isVisible()
    hand.view.show_side_by_side(True)
    assert hand.view.owned.isVisible()
    hand.close()


def test_a_scope_that_is_removed_leaves_a_sentence(hand: GearHand, page: SideBySide) -> None:
    hand.state.edit_profile("Sell", evolve(hand.profile, telescopes=hand.profile.telescopes[:1]))
    assert page.conditions.text() == "Two telescopes are needed to put side by side."
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
