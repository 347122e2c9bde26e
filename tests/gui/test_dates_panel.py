"""Find me a date: wishes typed and clicked, evenings found, and the way to one of them."""

from datetime import date, time

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.moments.hours import Twilight
from core.situation.choices import Choices
from core.sky.bodies import TARGETS, Body
from core.year.dates import DateWishes, HeightWish
from gui.height.dates_panel import DatesPanel
from gui.height.view import DATES, EVENING, YEAR, HeightView
from gui.jobs import Jobs
from gui.state import AppState
from gui.widgets.pickers import Picker
from tests.gui.conftest import HandClock, make_profile
from tests.gui.later import Later
from tests.gui.showing import show


def shown(qtbot: QtBot, state: AppState) -> HeightView:
    view = HeightView(state)
    show(qtbot, view, size=(976, 440))
    view.show_page(DATES)
    return view


@pytest.fixture
def view(qtbot: QtBot, theme: object, state: AppState) -> HeightView:
    state.set_planet(Body.SATURN)
    return shown(qtbot, state)


@pytest.fixture
def panel(view: HeightView) -> DatesPanel:
    return view.dates


def texts(panel: DatesPanel) -> list[str]:
    return [panel.list.item(row).text() for row in range(panel.list.count())]


def retype(panel: DatesPanel, body: Body, text: str) -> None:
    line = panel.form.heights[body]
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)


def pick(picker: Picker, words: str) -> None:
    index = picker.findText(words)
    assert index >= 0, words
    picker.setCurrentIndex(index)
    picker.activated.emit(index)


def test_a_key_in_the_year_opens_it_on_the_planet_in_hand(view: HeightView, panel: DatesPanel) -> None:
    view.show_page(YEAR)
    view.year.to_dates.setFocus()
    QTest.keyClick(view.year.to_dates, Qt.Key.Key_Space)

    assert view.pages.currentIndex() == DATES
    assert panel.sentence.text().startswith("The next ten evenings at Back terrace with Saturn above 30°")
    assert len(texts(panel)) == 10
    assert texts(panel)[0].startswith("Sat 5 December 2026, Moon ")
    assert "\n    Saturn " in texts(panel)[0]
    assert [body for body in TARGETS if panel.form.bodies[body].isChecked()] == [Body.SATURN]


def test_a_second_planet_and_a_moon_narrow_the_evenings(panel: DatesPanel, state: AppState) -> None:
    before = texts(panel)
    panel.form.bodies[Body.VENUS].click()
    QTest.keyClicks(panel.form.moon_to, "30")

    assert state.situation.date_wishes == DateWishes(
        heights=(HeightWish(body=Body.VENUS, above_deg=30), HeightWish(body=Body.SATURN, above_deg=30)),
        moon_percent=(0, 30),
    )
    assert "Venus above 30° and Saturn above 30°" in panel.sentence.text()
    assert texts(panel) != before
    for text in texts(panel):
        assert int(text.partition("Moon ")[2].partition("%")[0]) <= 30
        assert "Venus" in text
        assert "Saturn" in text


def test_heights_take_a_decimal_comma_and_refuse_in_one_sentence(panel: DatesPanel, state: AppState) -> None:
    retype(panel, Body.SATURN, "42,5")
    assert state.situation.date_wishes.heights == (HeightWish(body=Body.SATURN, above_deg=42.5),)

    retype(panel, Body.SATURN, "95")
    assert panel.form.problem.isVisible()
    assert panel.form.problem.text() == "The height of Saturn must be from 10 to 89 degrees, not “95”."
    # What was typed stays, and the last good wish counts.
    assert panel.form.heights[Body.SATURN].text() == "95"
    assert state.situation.date_wishes.heights[0].above_deg != 95

    retype(panel, Body.SATURN, "40")
    assert panel.form.problem.isHidden()


def test_no_body_asks_for_one(panel: DatesPanel) -> None:
    panel.form.bodies[Body.SATURN].click()

    assert panel.sentence.text() == "Choose at least one planet, or the Moon."
    assert texts(panel) == []
    assert not panel.go.isEnabled()
    assert not panel.form.heights[Body.SATURN].isEnabled()


def test_hours_are_picked_and_refused_where_they_end_first(panel: DatesPanel, state: AppState) -> None:
    pick(panel.form.start, "21:00")
    pick(panel.form.end, "02:00")
    assert (state.situation.date_wishes.start, state.situation.date_wishes.end) == (time(21), time(2))
    assert "between 21:00 and 02:00" in panel.sentence.text()

    pick(panel.form.end, "20:00")
    assert "must end after they start" in panel.form.problem.text()
    assert panel.form.end.currentText() == "02:00"
    assert state.situation.date_wishes.end == time(2)

    pick(panel.form.end, "dawn")
    assert state.situation.date_wishes.end is Twilight.DAWN
    assert "cap telescope and finder" in panel.caution.text()


def test_enter_goes_to_an_evening(view: HeightView, panel: DatesPanel, state: AppState) -> None:
    panel.form.bodies[Body.JUPITER].click()
    panel.list.setFocus()
    QTest.keyClick(panel.list, Qt.Key.Key_Down)
    chosen = panel.list.currentItem().text()
    QTest.keyClick(panel.list, Qt.Key.Key_Return)

    evening = state.situation.evening
    assert evening > date(2026, 12, 5)
    assert f" {evening.day} " in chosen
    assert view.pages.currentIndex() == EVENING


def test_escape_goes_back_to_the_year(view: HeightView, panel: DatesPanel) -> None:
    panel.list.setFocus()
    QTest.keyClick(panel.list, Qt.Key.Key_Escape)

    assert view.pages.currentIndex() == YEAR


def test_a_search_is_given_up_when_nobody_waits_for_it(
    qtbot: QtBot, theme: object, clock: HandClock, qapp: QApplication
) -> None:
    later = Later()
    state = AppState(Choices(profile=make_profile()), clock=clock, jobs=Jobs(later))
    state.prepare_sky()
    later.run()
    state.set_planet(Body.SATURN)
    panel = shown(qtbot, state).dates
    later.works, waiting = [], later.works
    assert waiting
    qtbot.waitUntil(panel.progress.isVisible)
    state.set_date_wishes(DateWishes(heights=(HeightWish(body=Body.JUPITER, above_deg=30),)))
    for work in waiting:
        work()
    # What was wanted first is dropped.
    assert texts(panel) == []
    later.run()
    assert len(texts(panel)) == 10
    assert "Jupiter" in texts(panel)[0]
    assert panel.progress.isHidden()

    state.set_date_wishes(DateWishes(heights=(HeightWish(body=Body.NEPTUNE, above_deg=88),)))
    panel.hide()
    later.run()
    assert "Jupiter" in texts(panel)[0]


def test_everything_has_a_name_and_the_page_stays_small(panel: DatesPanel) -> None:
    for body in TARGETS:
        assert body.label in panel.form.heights[body].accessibleName()
    for widget in (panel.list, panel.sentence, panel.progress, panel.form.start, panel.form.moon_from):
        assert widget.accessibleName()
    assert panel.minimumSizeHint().width() < 976
    assert panel.minimumSizeHint().height() < 440
