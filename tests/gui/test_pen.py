"""The pen for the screen: what it paints is where the marks say, crisp, and no wider than measured."""

import subprocess
import sys
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QFont, QPainter, QPixmap
from PySide6.QtWidgets import QApplication

from core.drawing.height import draw_height
from core.drawing.lettering import Lettering
from core.drawing.marks import Page, Sheet
from core.drawing.palette import load_palette
from core.drawing.placing import Box
from core.sky.bodies import Body
from gui.widgets.pen import ScreenPen, page_on
from gui.widgets.theme import USUAL_POINTS
from tests.core.drawing.examples import ODD_NAMES, PORTO, night_at
from tests.gui.conftest import pixels

SIZE = QSize(600, 120)
DAY = load_palette("day")
ROOT = Path(__file__).resolve().parent.parent.parent

pytestmark = pytest.mark.usefixtures("theme")


def page(text_scale: float = 1.0) -> Page:
    font = QFont(QApplication.font())
    font.setPointSizeF(USUAL_POINTS * text_scale)
    return page_on(SIZE, font)


def painted(sheet: Sheet, ratio: float = 1.0) -> NDArray[np.int_]:
    """Return what is painted at a pixel ratio as (rows, columns, 3), on a ground of the surface's colour."""
    picture = QPixmap(round(SIZE.width() * ratio), round(SIZE.height() * ratio))
    picture.fill(QColor("#00ff00"))
    picture.setDevicePixelRatio(ratio)
    painter = QPainter(picture)
    ScreenPen(painter, sheet.drawing).paint()
    painter.end()
    return pixels(picture.toImage()).astype(int)


def ink(picture: NDArray[np.int_]) -> NDArray[np.bool_]:
    """Tell which pixels differ from the ground, which is in the lower right corner."""
    return np.asarray(np.abs(picture - picture[-1, -1]).max(axis=2) > 40)


@pytest.mark.parametrize("ratio", [1.0, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("text_scale", [1.0, 1.5])
@pytest.mark.parametrize("name", ["Jupiter 05:26, 63°", *ODD_NAMES])
def test_words_are_painted_no_wider_than_they_were_measured(
    name: str, text_scale: float, ratio: float
) -> None:
    sheet = Sheet(page(text_scale), DAY)
    sheet.write(name, 10.0, 30.0, Lettering(9.0), DAY.ink, align="left")
    (words,) = sheet.drawing.words
    box = words.box(sheet.measure)
    pixels_per_point = SIZE.width() / sheet.page.width * ratio

    columns = np.flatnonzero(ink(painted(sheet, ratio)).any(axis=0))

    # A slanted or wide letter may reach a little over its own place.
    assert columns[0] >= box.left * pixels_per_point - 2.0 * ratio
    assert columns[-1] <= min(box.right * pixels_per_point, SIZE.width() * ratio) + 3.0 * ratio


@pytest.mark.parametrize("rotation_deg", [0.0, 90.0])
def test_words_are_painted_around_their_place(rotation_deg: float) -> None:
    sheet = Sheet(page(), DAY)
    sheet.write("lpHlp", 100.0, 45.0, Lettering(20.0), DAY.ink, rotation_deg=rotation_deg)

    rows, columns = np.nonzero(ink(painted(sheet)))

    x, y = 100.0 * 96 / 72, SIZE.height() - 45.0 * 96 / 72
    assert (columns.min() + columns.max() + 1) / 2 == pytest.approx(x, abs=2.5)
    assert (rows.min() + rows.max() + 1) / 2 == pytest.approx(y, abs=2.5)
    assert (np.ptp(rows) > np.ptp(columns)) == (rotation_deg == 90.0)


@pytest.mark.parametrize("text_scale", [1.0, 1.5])
def test_letters_are_as_large_as_their_size_says(text_scale: float) -> None:
    sheet = Sheet(page(text_scale), DAY)
    sheet.write("H", 50.0, 30.0, Lettering(20.0), DAY.ink)

    rows, _ = np.nonzero(ink(painted(sheet)))

    # Capitals of a plain face are about 0.7 of its size: of DejaVu Sans 0.729, from the font's own table.
    assert np.ptp(rows) + 1 == pytest.approx(0.72 * 20.0 * text_scale * 96 / 72, rel=0.08)


def test_letters_grow_with_those_of_the_window() -> None:
    usual, large = page(1.0), page(1.5)
    lettering = Lettering(20.0)

    assert usual.width == pytest.approx(1.5 * large.width)
    # The same share more of the window's pixels, so the same number of points.
    assert large.measure.width("Saturn", lettering) == pytest.approx(
        usual.measure.width("Saturn", lettering), rel=0.03
    )


@pytest.mark.parametrize("ratio", [1.0, 1.25, 1.5, 2.0])
def test_level_lines_and_fills_have_sharp_edges(ratio: float) -> None:
    sheet = Sheet(page(), DAY)
    sheet.stroke((10.3, 40.7), (300.1, 40.7), "#000000", 0.75)
    sheet.fill(Box(50.2, 60.3, 90.9, 80.6), "#000000")
    picture = painted(sheet, ratio)[:, :, 0]

    line = picture[:, round(30 * ratio * 96 / 72)]
    across = picture[round((SIZE.height() - 70.0 * 96 / 72) * ratio)]
    ground = int(picture[-1, -1])
    # 0.75 points are one of the window's pixels, and the line takes the nearest number of whole ones.
    assert set(np.unique(line)) == {0, ground}
    assert (line == 0).sum() in (np.floor(ratio), np.ceil(ratio))
    assert set(np.unique(across)) == {0, ground}


def test_a_dash_is_as_long_as_it_says() -> None:
    sheet = Sheet(page(), DAY)
    sheet.stroke((15.0, 45.0), (300.0, 45.0), "#000000", 3.0, dashes=(5.0, 2.5))
    row = ink(painted(sheet))[round(SIZE.height() - 45.0 * 96 / 72)]

    # Five and two and a half line widths of 4 pixels.
    starts = np.flatnonzero(row[1:] & ~row[:-1])
    ends = np.flatnonzero(~row[1:] & row[:-1])
    assert np.diff(starts) == pytest.approx(30.0, abs=1.0)
    assert (ends[:5] - starts[:5]) == pytest.approx(20.0, abs=1.0)


def test_a_picture_lies_in_its_box_the_top_row_first_and_a_round_one_is_round() -> None:
    sheet = Sheet(page(), DAY)
    picture = np.zeros((40, 40, 3), np.uint8)
    picture[:20] = (200, 0, 0)
    box = Box(15.0, 15.0, 75.0, 75.0)
    sheet.picture(picture, box)
    sheet.picture(picture, Box(150.0, 15.0, 210.0, 75.0), is_round=True)
    seen = painted(sheet)

    assert seen[25, 60].tolist() == [200, 0, 0]
    assert seen[95, 60].tolist() == [0, 0, 0]
    assert seen[21, 21].tolist() == [200, 0, 0]
    ground = seen[-1, -1].tolist()
    assert seen[21, 201].tolist() == ground
    assert seen[25, 240].tolist() == [200, 0, 0]
    assert seen[95, 240].tolist() == [0, 0, 0]


@pytest.mark.parametrize("text_scale", [1.0, 1.5])
def test_on_the_screen_no_word_of_the_chart_lies_on_another(text_scale: float) -> None:
    font = QFont(QApplication.font())
    font.setPointSizeF(USUAL_POINTS * text_scale)
    large = page_on(QSize(980, 420), font)
    chart = draw_height(large, night_at(PORTO, date(2026, 12, 5)), palette=DAY, planet=Body.SATURN)
    # A line is a little higher than its letters.
    boxes = [words.box(large.measure).grown(-1.0) for words in chart.drawing.words]

    assert all(large.box.holds(box) for box in boxes)
    assert not any(a.touches(b) for number, a in enumerate(boxes) for b in boxes[number + 1 :])


def test_the_window_loads_matplotlib_only_to_save(tmp_path: Path) -> None:
    script = (
        "import sys\n"
        "from gui.app import main\n"
        "profile = 'sample_profiles/balcony_greece.toml'\n"
        f"main(['snapshot', profile, '--evening', '2026-12-05', '-o', {str(tmp_path)!r}])\n"
        "print('matplotlib' in sys.modules)\n"
    )

    told = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout

    assert (tmp_path / "height.png").exists()
    assert told.splitlines()[-1] == "False"
