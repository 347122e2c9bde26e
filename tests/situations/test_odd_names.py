"""Names of any script and length, with signs that mean something elsewhere: shown letter by letter."""

from collections.abc import Iterator

import pytest
from attrs import evolve
from PySide6.QtCore import Qt
from PySide6.QtGui import Qt as QtText
from PySide6.QtWidgets import QAbstractButton, QLabel, QMenu, QWidget
from pytestqt.qtbot import QtBot

from core.drawing.marks import Drawing, Page
from core.gear.owned import Barlow, Eyepiece
from core.ladder.contenders import Pick
from core.record.observer import Profile
from core.sky.bodies import Body
from core.sky.site import BlockedSky
from gui.height.view import HeightView
from gui.ladder.view import LadderView
from gui.widgets.canvas import Canvas
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import MakeShell, MakeState, make_profile, pixels

# Signs of a formula, of rich text, of a shortcut, and quotation marks of inches.
ODD_NAMES = [
    ("$$", "Ba$$in", "<3 my dob", r"\frac{1}{2} $"),
    ('10" $best$ scope', "tube & <br>", "8″ f/5", "&lt; &amp;"),
    ("My<s>ecret", '8" <f/5', '10" f/4.7 <b>dob</b>', "Fork && arm"),
]


def oddly_named(names: tuple[str, str, str, str]) -> Profile:
    """Return an owner of two scopes, a site and things that all bear odd names."""
    profile = make_profile()
    wall = BlockedSky(azimuth_from_deg=120, azimuth_to_deg=160, below_altitude_deg=30, what=names[1])
    return evolve(
        profile,
        observer=names[3],
        sites=(evolve(profile.sites[0], name=names[2], blocked=(wall,)),),
        telescopes=(
            evolve(profile.telescopes[0], name=names[0]),
            evolve(profile.telescopes[1], name=names[1]),
        ),
        eyepieces=tuple(
            Eyepiece(name=name, focal_length_mm=focal_length_mm, apparent_field_deg=52)
            for name, focal_length_mm in zip(names, (25, 15, 10, 8), strict=True)
        ),
        barlows=(Barlow(name=names[2], factor=2),),
    )


def drawn_words(shell: Shell) -> str:
    """Return the words in the drawing of the view on the screen."""
    view = shell.current_view
    assert isinstance(view, HeightView | LadderView)
    view.canvas.ensure_drawn()
    assert view.canvas.chart is not None
    return "\n".join(words.text for words in view.canvas.chart.drawing.words)


@pytest.mark.parametrize("names", ODD_NAMES, ids=lambda names: names[0])
def test_an_odd_name_is_shown_letter_by_letter_and_breaks_no_drawing(
    make_shell: MakeShell, make_state: MakeState, names: tuple[str, str, str, str]
) -> None:
    state = make_state(oddly_named(names))
    state.set_palette("night")
    state.set_planet(Body.SATURN)
    state.compare_second(Pick(state.profile.telescopes[1].id))
    # Wide enough for names: in a narrower window a long one of an eyepiece gives way to its figures.
    shell = make_shell(state, view=HEIGHT, size=(1900, 1000))

    # A drawing that fails in a paint event fails the test.
    for view in (HEIGHT, LADDER, GEAR):
        shell.show_view(view)
        seen = pixels(shell)
        # At night whatever is drawn is red: a name may not bring colours in.
        assert seen[..., 1:].max() == 0
        assert seen[..., 0].max() > 100
        if view == LADDER:
            assert all(name in drawn_words(shell) for name in names)
    assert shell.strip.observer.text() == names[3]
    assert shell.strip.site.itemText(0) == names[2]
    assert [shell.strip.scope.itemText(number) for number in (0, 1)] == [names[0], names[1]]
    labels = [label for label in shell.findChildren(QLabel) if any(name in label.text() for name in names)]
    assert labels
    for label in labels:
        assert label.textFormat() is Qt.TextFormat.PlainText
    for widget in shell.findChildren(QWidget):
        # A tooltip is the one text of a widget that Qt always guesses about.
        assert not QtText.mightBeRichText(widget.toolTip())


def test_a_drawing_that_fails_is_reported_once_and_leaves_the_window_alive(
    qtbot: QtBot, theme: object
) -> None:
    def fail(_page: Page) -> Drawing:
        raise ValueError("a name that cannot be drawn")

    canvas = Canvas(fail)
    qtbot.addWidget(canvas)
    with qtbot.captureExceptions() as reported:
        canvas.show()
        qtbot.waitExposed(canvas)
        for _ in range(3):
            canvas.grab()

    assert [str(error) for _, error, _ in reported] == ["a name that cannot be drawn"]


def texts_with_shortcuts(shell: Shell) -> Iterator[str]:
    for button in shell.findChildren(QAbstractButton):
        yield button.text()
    for menu in shell.findChildren(QMenu):
        for action in menu.actions():
            yield action.text()


@pytest.mark.parametrize("name", ["tube & <br>", "Fork && arm", "&lt; &amp;", "A&B&C"])
def test_a_name_in_a_menu_makes_no_shortcut(make_shell: MakeShell, make_state: MakeState, name: str) -> None:
    state = make_state()
    shell = make_shell(state, shown=False)
    state.edit_profile(f"Rename to {name}", evolve(state.profile, observer=name))

    texts = [text for text in texts_with_shortcuts(shell) if "Rename to" in text]

    # Two ampersands are shown as one; a single one would underline a letter and vanish.
    assert any(text.endswith(f"Rename to {name.replace('&', '&&')}") for text in texts)
    assert not any(text.endswith(f"Rename to {name}") for text in texts)
