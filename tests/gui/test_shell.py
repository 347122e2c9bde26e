"""The window: strip, views, palettes, size of text, and menus."""

from datetime import date
from pathlib import Path

import attrs
import pytest
from PySide6.QtCore import QDate, QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from core.air.blur import Blur
from core.air.first_look import FirstLook
from core.record.observer import Profile
from gui.first_run.guide import Guide
from gui.gear.view import GearView
from gui.height.view import HeightView
from gui.ladder.view import LadderView
from gui.profile.session import SessionFile
from gui.state import AppState
from gui.widgets.theme import Theme
from gui.window.place import take_place
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import HandClock, MakeShell, MakeState, action, make_profile

# Views and strip.


def test_keys_switch_between_the_views(qtbot: QtBot, shell: Shell) -> None:
    kinds = {Qt.Key.Key_1: GearView, Qt.Key.Key_2: HeightView, Qt.Key.Key_3: LadderView}
    for key, kind in kinds.items():
        QTest.keyClick(shell, key, Qt.KeyboardModifier.ControlModifier)
        assert isinstance(shell.current_view, kind)
        assert shell.stack.currentWidget() is shell.current_view
        assert shell.current_view is not None
        assert shell.current_view.hasFocus()


def test_bare_keys_do_the_same(shell: Shell) -> None:
    for key, kind in {Qt.Key.Key_F5: GearView, Qt.Key.Key_F6: HeightView, Qt.Key.Key_F7: LadderView}.items():
        QTest.keyClick(shell, key)
        assert isinstance(shell.current_view, kind)


def test_a_first_look_is_a_bare_key_in_the_ladder_view_and_a_figure_in_a_field(
    shell: Shell, state: AppState
) -> None:
    QTest.keyClick(shell, Qt.Key.Key_3)
    assert state.choices.blur == Blur.assumed()  # Height is shown
    shell.go_to_view(LADDER)
    QTest.keyClick(shell.focusWidget(), Qt.Key.Key_3)
    assert state.situation.first_look is FirstLook.BOILING
    view = shell.current_view
    assert isinstance(view, LadderView)
    view.air.blur.setFocus()
    view.air.blur.selectAll()
    QTest.keyClick(view.air.blur, Qt.Key.Key_1)
    assert view.air.blur.text() == "1"
    assert not view.air.first_look_buttons[FirstLook.STEADY].isChecked()


def test_a_new_profile_leaves_the_keyboard_in_the_view(qtbot: QtBot, shell: Shell) -> None:
    shell.go_to_view(GEAR)
    view = shell.current_view
    assert isinstance(view, GearView)
    view.gives.table.setFocus()

    QTest.keyClick(shell, Qt.Key.Key_N, Qt.KeyboardModifier.ControlModifier)

    assert shell.documents.name == "New profile"
    qtbot.waitUntil(view.form_column.group_page.button.hasFocus)


def test_return_presses_the_button_that_has_the_keyboard(shell: Shell) -> None:
    button = shell.view_buttons.button(LADDER)
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Return)
    assert isinstance(shell.stack.currentWidget(), LadderView)


@pytest.mark.parametrize("room", [QSize(1366, 768), QSize(1280, 800), QSize(1024, 700)])
def test_the_window_fits_into_a_small_screen(unseen_shell: Shell, room: QSize) -> None:
    take_place(unseen_shell, "", room)
    assert unseen_shell.width() <= room.width()
    # A title stands above the window.
    assert unseen_shell.height() <= room.height() - 30


def test_a_large_screen_is_not_filled(unseen_shell: Shell) -> None:
    take_place(unseen_shell, "", QSize(3840, 2160))
    assert unseen_shell.size() == QSize(1280, 800)


def test_buttons_switch_between_the_views(qtbot: QtBot, shell: Shell) -> None:
    qtbot.mouseClick(shell.view_buttons.button(LADDER), Qt.MouseButton.LeftButton)
    assert isinstance(shell.stack.currentWidget(), LadderView)


def test_the_evening_goes_back_forward_and_home_by_buttons(
    qtbot: QtBot, shell: Shell, state: AppState
) -> None:
    strip = shell.strip
    assert not strip.tonight.isEnabled()
    qtbot.mouseClick(strip.forward, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(strip.forward, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(strip.back, Qt.MouseButton.LeftButton)
    assert state.situation.evening == date(2026, 12, 6)
    assert strip.date.date() == QDate(2026, 12, 6)
    assert strip.tonight.isEnabled()
    qtbot.mouseClick(strip.tonight, Qt.MouseButton.LeftButton)
    assert state.situation.evening == date(2026, 12, 5)
    assert state.situation.following_now


def test_a_typed_date_is_taken_when_it_is_finished(qtbot: QtBot, shell: Shell, state: AppState) -> None:
    strip = shell.strip
    strip.date.setFocus()
    strip.date.setSelectedSection(strip.date.Section.DaySection)
    qtbot.keyClicks(strip.date, "24")
    assert state.situation.evening == date(2026, 12, 5)
    qtbot.keyClick(strip.date, Qt.Key.Key_Return)
    assert state.situation.evening == date(2026, 12, 24)


def test_the_date_stops_at_the_ends_of_the_planet_tables(shell: Shell, state: AppState) -> None:
    # DE421 spans 1899-07-29 to 2053-10-09 (Folkner, Williams and Boggs 2009).
    strip = shell.strip
    assert QDate(1899, 7, 29) < strip.date.minimumDate() < QDate(1899, 9, 1)
    assert QDate(2053, 9, 1) < strip.date.maximumDate() < QDate(2053, 10, 9)
    last = strip.date.maximumDate()
    state.set_evening(date(last.year(), last.month(), last.day()))
    assert not strip.forward.isEnabled()


def test_site_and_scope_are_picked_in_the_strip(shell: Shell, state: AppState) -> None:
    QTest.keyClick(shell.strip.site, Qt.Key.Key_Down)
    assert state.situation.site is not None
    assert state.situation.site.name == "Southern hill"
    QTest.keyClick(shell.strip.scope, Qt.Key.Key_Down)
    assert state.situation.scope is not None
    assert state.situation.scope.name == "Small refractor"


def test_the_clock_shows_site_time_and_universal_time(shell: Shell, state: AppState) -> None:
    assert shell.strip.clock.text() == "21:42"
    state.set_site(state.profile.sites[1].id)
    # New Zealand is 13 hours ahead in December.
    assert shell.strip.clock.text() == "10:42"
    assert shell.strip.universal.text() == "Site time (UT 21:42)"


def test_an_empty_profile_begins_at_gear_and_says_what_comes_first(
    make_shell: MakeShell, make_state: MakeState
) -> None:
    shell = make_shell(make_state(Profile()))
    assert isinstance(shell.current_view, GearView)
    assert "site" in shell.answer_bar.sentence.text()
    assert not shell.answer_bar.why.isEnabled()
    for view in (HEIGHT, LADDER):
        shell.show_view(view)


def test_a_new_observer_is_guided_on_the_first_run(
    qtbot: QtBot, theme: Theme, make_state: MakeState, state_folder: Path
) -> None:
    state = make_state(Profile())
    shell = Shell(state, theme, session_file=SessionFile(state_folder), first_run=True)
    qtbot.addWidget(shell)
    shell.show()
    qtbot.waitUntil(lambda: shell.findChild(Guide) is not None)
    guide = shell.findChild(Guide)
    assert guide is not None
    assert guide.isVisible()
    QTest.keyClick(guide, Qt.Key.Key_Escape)
    assert shell.isVisible()
    assert shell.isEnabled()
    # Nobody types into a field of the new things by mistake.
    gear = shell.current_view
    assert isinstance(gear, GearView)
    assert shell.focusWidget() is gear.form_column.group_page.button


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_it_fits_a_small_screen(make_shell: MakeShell, state: AppState, view: int) -> None:
    shell = make_shell(state, view=view, size=(1000, 640))
    assert (shell.width(), shell.height()) == (1000, 640)
    page = shell.page
    assert page.verticalScrollBar().maximum() == page.horizontalScrollBar().maximum() == 0
    assert shell.minimumSizeHint().width() <= 1000
    assert shell.minimumSizeHint().height() <= 640


def test_long_names_do_not_widen_the_window(make_shell: MakeShell, make_state: MakeState) -> None:
    profile = make_profile()
    long = "An observer, a site or a telescope with a name that fills the whole line"
    scope = attrs.evolve(profile.telescopes[0], name=long)
    site = attrs.evolve(profile.sites[0], name=long)
    clock = attrs.evolve(profile.preferences, clock=12)
    state = make_state(
        attrs.evolve(profile, observer=long, sites=(site,), telescopes=(scope,), preferences=clock)
    )
    shell = make_shell(state, size=(1000, 640))
    assert shell.width() == 1000
    assert shell.strip.observer.text() == long


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_every_control_has_a_name_and_every_label_shows_text_as_typed(
    make_shell: MakeShell, make_state: MakeState, view: int
) -> None:
    odd = 'tube & <br> <b>dob</b> "8" <f/5'
    profile = make_profile()
    scope = attrs.evolve(profile.telescopes[0], name=odd)
    state = make_state(attrs.evolve(profile, observer=odd, telescopes=(scope, profile.telescopes[1])))
    shell = make_shell(state, view=view)
    for widget in shell.findChildren(QWidget):
        if isinstance(widget, QLabel) and widget.text():
            assert widget.textFormat() is Qt.TextFormat.PlainText or "<" not in widget.text()
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible():
            proxy = widget.focusProxy() or widget
            named = proxy.accessibleName() or getattr(proxy, "text", str)()
            assert named, f"{type(widget).__name__} in {type(widget.parent()).__name__} has no name"
    assert shell.strip.scope.itemText(0) == odd


# Palettes and text.


def test_palettes_are_changed_by_key_menu_and_strip_and_remembered(
    qtbot: QtBot, shell: Shell, state: AppState, state_folder: Path
) -> None:
    QTest.keyClick(shell, Qt.Key.Key_F9)
    assert state.situation.palette_name == "dusk"
    action(shell, "View", "Night").trigger()
    assert state.situation.palette_name == "night"
    assert shell.strip.palette_picker.currentText() == "Night"
    assert SessionFile(state_folder).read()[0].palette == "night"


def test_full_screen_and_back(shell: Shell) -> None:
    states = []
    for _ in range(2):
        QTest.keyClick(shell, Qt.Key.Key_F11)
        states.append(shell.isFullScreen())
    assert states == [True, False]


def test_the_keyboard_begins_in_the_view(shell: Shell) -> None:
    view = shell.current_view
    assert isinstance(view, HeightView)
    assert view.canvas.hasFocus()


def test_text_grows_and_the_window_still_fits(shell: Shell) -> None:
    usual = QApplication.font().pointSizeF()
    action(shell, "View", "Text larger").trigger()
    assert QApplication.font().pointSizeF() > usual
    action(shell, "View", "Reset text size").trigger()
    assert QApplication.font().pointSizeF() == pytest.approx(usual)


# Menus and documents.


def test_undo_and_redo_name_the_edit(shell: Shell, state: AppState) -> None:
    undo, redo = action(shell, "Edit", "Undo"), action(shell, "Edit", "Redo")
    assert not undo.isEnabled()
    state.edit_profile("Rename the observer", attrs.evolve(state.profile, observer="Rui"))
    assert undo.text() == "Undo Rename the observer"
    QTest.keyClick(shell, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert state.profile.observer == "Ines"
    assert redo.text() == "Redo Rename the observer"
    assert shell.strip.observer.text() == "Ines"


@pytest.mark.parametrize(
    ("key", "modifiers"),
    [
        (Qt.Key.Key_Y, Qt.KeyboardModifier.ControlModifier),
        (Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier),
    ],
)
def test_either_usual_key_brings_back_what_was_undone(
    shell: Shell, state: AppState, key: Qt.Key, modifiers: Qt.KeyboardModifier
) -> None:
    state.edit_profile("Rename the observer", attrs.evolve(state.profile, observer="Rui"))
    QTest.keyClick(shell, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(shell, key, modifiers)
    assert state.profile.observer == "Rui"


def test_the_title_marks_what_is_not_saved(unseen_shell: Shell, state: AppState, tmp_path: Path) -> None:
    assert not unseen_shell.isWindowModified()
    state.edit_profile("Rename", attrs.evolve(state.profile, observer="Rui"))
    assert unseen_shell.isWindowModified()
    assert unseen_shell.windowTitle() == "Rui[*] – Stillair"
    state.mark_saved(tmp_path / "rui.toml")
    assert not unseen_shell.isWindowModified()
    assert unseen_shell.windowTitle() == "rui.toml[*] – Stillair"


def test_help_names_the_keys(shell: Shell, told: list[tuple[str, str]]) -> None:
    QTest.keyClick(shell, Qt.Key.Key_F1)
    assert "Ctrl+2" in told[0][1]
    action(shell, "Help", "About").trigger()
    assert "licence" in told[1][1]
    assert "Never look at or near the Sun" in told[1][1]


def test_the_clock_beats_while_the_window_stands_open(
    qtbot: QtBot, shell: Shell, state: AppState, clock: HandClock
) -> None:
    with qtbot.waitSignal(state.changed, timeout=10_000):
        pass  # within a second, without anybody's doing


@pytest.mark.parametrize("scale", [1.3, 1.5, 2.0])
@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_with_large_letters_the_page_scrolls_and_the_window_asks_for_no_more(
    qtbot: QtBot, make_shell: MakeShell, state: AppState, view: int, scale: float
) -> None:
    state.set_text_scale(scale)
    shell = make_shell(state, view=view, size=(1000, 640))

    assert (shell.width(), shell.height()) == (1000, 640)
    page = shell.page
    content = page.widget()
    assert content is not None
    # What no longer fits is reached by scrolling: nothing is squeezed.
    qtbot.waitUntil(lambda: content.height() >= content.minimumSizeHint().height())
    state.set_text_scale(1.0)


def test_tab_comes_to_the_button_of_the_chosen_view(shell: Shell) -> None:
    shell.go_to_view(HEIGHT)
    shell.answer_bar.why.setFocus()
    seen = []
    for _ in range(6):
        shell.focusNextChild()
        seen.append(shell.focusWidget().accessibleName())
    assert "Height view" in seen
    assert "Gear view" not in seen
