"""Signs in the window: beside kinds of gear and steps of the evening, in the colours of the palette."""

import numpy as np
import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QColor, QFont, QIcon, QImage
from PySide6.QtWidgets import QApplication, QLabel

from core.drawing.palette import PALETTES, load_palette
from core.drawing.signs import Caution
from core.tonight.steps import ItemKind
from gui.first_run.guide import Guide
from gui.gear.view import GearView
from gui.height.steps_model import ROW_ROLE
from gui.height.view import HeightView
from gui.state import AppState
from gui.widgets.signs import sign_picture, sign_size_px
from gui.window.shell import Shell
from gui.window.views import GEAR
from tests.gui.conftest import MakeShell, pixels


def colours(picture: QImage) -> set[str]:
    """Return the colours of what covers its pixel wholly."""
    image = picture.convertToFormat(QImage.Format.Format_ARGB32)
    return {
        image.pixelColor(x, y).name()
        for x in range(image.width())
        for y in range(image.height())
        if image.pixelColor(x, y).alpha() == 255
    }


def _channels(one: QColor, other: QColor) -> list[tuple[int, int]]:
    return [(one.red(), other.red()), (one.green(), other.green()), (one.blue(), other.blue())]


def drawn(icon: QIcon) -> QImage:
    return icon.pixmap(32, 32).toImage()


@pytest.mark.parametrize("palette", PALETTES)
def test_the_list_of_gear_shows_each_kind_in_the_palette_s_ink(
    make_shell: MakeShell, state: AppState, palette: str
) -> None:
    shell = make_shell(state, view=GEAR)
    state.set_palette(palette)
    gear = shell.current_view
    assert isinstance(gear, GearView)
    tree = gear.owned.tree
    groups = [tree.topLevelItem(row) for row in range(tree.topLevelItemCount())]
    icons = [group.icon(0) for group in groups if group is not None]
    assert len(icons) == 6
    assert not any(icon.isNull() for icon in icons)
    ink = QColor(load_palette(palette).ink)
    for icon in icons:
        found = [QColor(name) for name in colours(drawn(icon))]
        assert found
        # A paint program rounds where strokes overlap.
        assert all(abs(one - other) <= 2 for each in found for one, other in _channels(each, ink))
    telescopes = groups[0]
    assert telescopes is not None
    rows = [telescopes.child(row) for row in range(2)]
    reflector, refractor = (drawn(row.icon(0)) for row in rows if row is not None)
    assert reflector != refractor


def test_the_set_up_shows_the_kinds_of_telescope(make_shell: MakeShell, state: AppState) -> None:
    shell = make_shell(state)
    guide = Guide(state, shell)
    guide.show()
    guide._show(1)
    QApplication.processEvents()
    icons = [drawn(button.icon()) for button in guide.scope.kinds.values()]
    assert len(icons) == 4
    assert all(one != other for number, one in enumerate(icons) for other in icons[:number])
    guide.done(0)


def test_each_step_of_the_evening_has_its_sign_and_a_caution_its_own(shell: Shell) -> None:
    height = shell.current_view
    assert isinstance(height, HeightView)
    rows = height.steps.model.rows
    assert Caution.CAUTION in {row.sign for row in rows if row.caution}
    assert Caution.CAUTION not in {row.sign for row in rows if not row.caution}
    assert len({row.sign for row in rows}) > 3
    # It is painted beside the words: the sign's own colour is there.
    number = next(number for number, row in enumerate(rows) if row.caution and not row.is_done)
    index = height.steps.model.index(number, 0)
    assert index.data(ROW_ROLE).caution
    view = height.steps.rows
    view.setCurrentIndex(height.steps.model.index(0 if number else 1, 0))
    view.scrollTo(index)
    QApplication.processEvents()
    seen = pixels(view.viewport())
    place = view.visualRect(index).intersected(QRect(0, 0, seen.shape[1], seen.shape[0]))
    row = seen[place.top() : place.bottom(), place.left() : place.right()]
    warning = QColor(load_palette("day").warning)
    told = (warning.red(), warning.green(), warning.blue())
    assert np.count_nonzero((row == told).all(axis=2)) > 10


@pytest.mark.parametrize("palette", PALETTES)
def test_what_is_said_of_the_sun_stands_out_by_a_bar_and_by_weight(
    make_shell: MakeShell, state: AppState, palette: str
) -> None:
    state.set_palette(palette)
    shell = make_shell(state)
    guide = Guide(state, shell)
    guide.show()
    guide._show(1)
    QApplication.processEvents()
    (caution,) = (
        label
        for label in guide.scope.findChildren(QLabel)
        if label.text().startswith("Never point a telescope")
    )
    assert caution.fontInfo().weight() >= QFont.Weight.DemiBold
    seen = pixels(caution)
    warning = QColor(load_palette(palette).warning)
    bar = seen[2:-2, :4]
    assert (bar == (warning.red(), warning.green(), warning.blue())).all()
    guide.done(0)


def test_a_sign_grows_with_the_letters() -> None:
    small, large = QFont(), QFont()
    large.setPointSizeF(2 * small.pointSizeF())
    assert sign_size_px(large) > 1.7 * sign_size_px(small)
    assert sign_picture(ItemKind.FINDER, "day", 16, 2.0).width() == 32
