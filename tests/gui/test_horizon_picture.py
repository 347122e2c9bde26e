"""The horizon picture: what is dragged or moved by keys comes out as the sector a person sees."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from pytestqt.qtbot import QtBot

from core.drawing.palette import load_palette
from core.sky.site import BlockedSky, WarmAir
from gui.gear.horizon import HorizonPicture

ROOF = BlockedSky(azimuth_from_deg=150, azimuth_to_deg=210, below_altitude_deg=30, what="roof", heated=True)
TREES = BlockedSky(azimuth_from_deg=340, azimuth_to_deg=20, below_altitude_deg=20, what="trees")
CHIMNEY = WarmAir(azimuth_from_deg=90, azimuth_to_deg=100, below_altitude_deg=45, what="chimney")


@pytest.fixture
def picture(qtbot: QtBot) -> HorizonPicture:
    picture = HorizonPicture(load_palette("day"))
    qtbot.addWidget(picture)
    picture.resize(760, 240)
    picture.set_sky((ROOF, TREES, CHIMNEY), is_northern=True)
    picture.show()
    qtbot.waitExposed(picture)
    return picture


def place(picture: HorizonPicture, azimuth_deg: float, altitude_deg: float) -> QPoint:
    sky = picture._map()
    return QPointF(sky.x(azimuth_deg), sky.y(altitude_deg)).toPoint()


def drag(qtbot: QtBot, picture: HorizonPicture, start: QPoint, end: QPoint) -> None:
    qtbot.mousePress(picture, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(picture, (start + end) / 2)
    qtbot.mouseMove(picture, end)
    qtbot.mouseRelease(picture, Qt.MouseButton.LeftButton, pos=end)


def last_shaped(picture: HorizonPicture) -> list[tuple[BlockedSky | WarmAir, ...]]:
    shaped: list[tuple[BlockedSky | WarmAir, ...]] = []
    picture.shaped.connect(shaped.append)
    return shaped


def test_a_sector_dragged_by_its_middle_moves_and_keeps_its_width(
    qtbot: QtBot, picture: HorizonPicture
) -> None:
    shaped = last_shaped(picture)

    drag(qtbot, picture, place(picture, 180, 10), place(picture, 200, 10))

    roof = shaped[-1][0]
    assert (roof.azimuth_from_deg, roof.azimuth_to_deg) == pytest.approx((170, 230), abs=1)
    assert roof.below_altitude_deg == pytest.approx(30, abs=1)


@pytest.mark.parametrize(
    ("start", "end", "expected"),
    [
        ((150, 10), (140, 10), (140, 210, 30)),
        ((210, 10), (240, 10), (150, 240, 30)),
        ((180, 30), (180, 40), (150, 210, 40)),
    ],
)
def test_each_edge_is_dragged_by_itself(
    qtbot: QtBot,
    picture: HorizonPicture,
    start: tuple[float, float],
    end: tuple[float, float],
    expected: tuple[float, float, float],
) -> None:
    shaped = last_shaped(picture)

    drag(qtbot, picture, place(picture, *start), place(picture, *end))

    roof = shaped[-1][0]
    assert (roof.azimuth_from_deg, roof.azimuth_to_deg, roof.below_altitude_deg) == pytest.approx(
        expected, abs=1
    )


def test_keys_choose_move_raise_and_widen(qtbot: QtBot, picture: HorizonPicture) -> None:
    shaped = last_shaped(picture)
    picture.setFocus()

    assert picture.index == 0
    qtbot.keyClick(picture, Qt.Key.Key_PageDown)
    assert picture.index == 1
    qtbot.keyClick(picture, Qt.Key.Key_Left)
    qtbot.keyClick(picture, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(picture, Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier)
    qtbot.keyClick(picture, Qt.Key.Key_Left, Qt.KeyboardModifier.ControlModifier)

    trees = shaped[-1][1]
    assert (trees.azimuth_from_deg, trees.azimuth_to_deg, trees.below_altitude_deg) == (338, 20, 25)
    assert picture.accessibleDescription() == "In hand: trees: azimuth 338° to 20°, below 25°"


def test_a_sector_through_north_is_taken_on_both_sides_of_a_northern_picture(
    qtbot: QtBot, picture: HorizonPicture
) -> None:
    for azimuth_deg in (350, 10):
        picture.choose(-1)
        qtbot.mouseClick(picture, Qt.MouseButton.LeftButton, pos=place(picture, azimuth_deg, 8))
        assert picture.index == 1


def test_a_click_on_open_sky_lets_go(qtbot: QtBot, picture: HorizonPicture) -> None:
    picture.choose(0)

    qtbot.mouseClick(picture, Qt.MouseButton.LeftButton, pos=place(picture, 250, 60))

    assert picture.index == -1


def test_the_night_palette_paints_nothing_but_red(qtbot: QtBot, picture: HorizonPicture) -> None:
    picture.set_colours(load_palette("night"))
    image = picture.grab().toImage()
    sky = picture._map().plot.toRect()

    for x in range(sky.left(), sky.right(), 7):
        for y in range(sky.top(), sky.bottom(), 5):
            colour = image.pixelColor(x, y)
            assert (colour.green(), colour.blue()) == (0, 0)
