"""The drawn eyepiece: to scale, turned right, red only by night, with every word in its place."""

import io
from datetime import UTC, datetime

import attrs
import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from numpy.typing import NDArray

from core.drawing.eyepiece import EyepieceDrawing, draw_eyepiece, draw_steps
from core.drawing.palette import load_palette
from core.drawing.placing import Box
from core.kit.gear import Diagonal, Telescope, TelescopeKind
from core.picture.sight import Sight
from core.picture.subject import Subject, subject_at
from core.sky.bodies import Body

DPI = 144
POINT_PX = DPI / 72
SCOPE = Telescope(
    name="six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200, obstruction_mm=35
)


@pytest.fixture(scope="module")
def jupiter() -> Subject:
    return subject_at(Body.JUPITER, datetime(2026, 11, 24, 3, tzinfo=UTC))


@pytest.fixture
def sight(jupiter: Subject) -> Sight:
    return Sight(subject=jupiter, scope=SCOPE, power=150, air_arcsec=1.2, true_field_deg=0.35)


def pixels(figure: Figure) -> NDArray[np.uint8]:
    """Return the drawn figure (rows, columns, 3), row 0 at the bottom."""
    figure.set_dpi(DPI)
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())[::-1, :, :3]


def cut(image: NDArray[np.uint8], box: Box) -> NDArray[np.uint8]:
    left, bottom, right, top = (round(edge * POINT_PX) for edge in (box.left, box.bottom, box.right, box.top))
    return image[bottom:top, left:right]


def words(drawing: EyepieceDrawing) -> str:
    return " ".join(text.get_text() for text in drawing.texts)


def test_the_enlarged_disc_is_to_scale(sight: Sight) -> None:
    figure = Figure(figsize=(8, 4.5))

    steady = attrs.evolve(sight, air_arcsec=0.2)

    drawing = draw_eyepiece(figure, steady, palette=load_palette("dusk"), window_deg=3.0)

    picture = cut(pixels(figure), drawing.close_ups[0]).max(axis=2).astype(float)
    # Through the middle, away from the dashed circle; the disc is dim at its edge.
    line = picture[round(0.45 * picture.shape[0]) : round(0.55 * picture.shape[0])].max(axis=0)
    lit = np.flatnonzero(line > 0.3 * line.max())
    expected_px = sight.apparent_diameter_arcmin / 60.0 / 3.0 * picture.shape[1]
    assert lit[-1] - lit[0] == pytest.approx(expected_px, rel=0.03)


def test_north_stands_at_the_edge_of_the_field_where_the_telescope_puts_it(sight: Sight) -> None:
    mirrored = attrs.evolve(sight, scope=attrs.evolve(SCOPE, diagonal=Diagonal.STAR))

    def north(shown: Sight) -> tuple[float, float]:
        drawing = draw_eyepiece(Figure(figsize=(8, 4.5)), shown, palette=load_palette("day"))
        assert drawing.field is not None
        mark = next(text for text in drawing.texts if text.get_text() == "N")
        x, y = mark.get_position()
        middle_x = (drawing.field.left + drawing.field.right) / 2.0
        middle_y = (drawing.field.bottom + drawing.field.top) / 2.0
        return x - middle_x, y - middle_y

    upside_down, upright = north(sight), north(mirrored)

    assert upside_down[1] < -50.0
    assert upright[1] > 50.0
    assert abs(upside_down[0]) < 1.0
    assert abs(upright[0]) < 1.0


@pytest.mark.parametrize("size", [(8.0, 4.5), (4.0, 7.0), (3.2, 3.2)])
def test_pictures_and_words_stay_on_the_page_and_apart(sight: Sight, size: tuple[float, float]) -> None:
    figure = Figure(figsize=size)
    page = Box(0.0, 0.0, size[0] * 72.0, size[1] * 72.0)

    drawing = draw_eyepiece(figure, sight, palette=load_palette("day"))
    pixels(figure)

    assert drawing.field is not None
    assert page.holds(drawing.field)
    assert page.holds(drawing.close_ups[0])
    assert not drawing.field.touches(drawing.close_ups[0])
    for text in drawing.texts:
        extent = text.get_window_extent()
        written = Box(*(edge / POINT_PX for edge in (extent.x0, extent.y0, extent.x1, extent.y1)))
        assert page.holds(written), text.get_text()
        assert not written.touches(drawing.close_ups[0]), text.get_text()


def test_the_words_say_size_field_and_turning(sight: Sight, jupiter: Subject) -> None:
    drawing = draw_eyepiece(Figure(figsize=(8, 4.5)), sight, palette=load_palette("day"))

    told = words(drawing)

    assert "150x, field 21′: Jupiter looks" in told
    assert "times as wide as the Moon to the naked eye (dashed)" in told
    assert "upside down (north taken for up)" in told
    assert "drift" in told


def test_a_driven_mount_lets_nothing_drift(sight: Sight) -> None:
    driven = attrs.evolve(sight, scope=attrs.evolve(SCOPE, driven=True))

    drawing = draw_eyepiece(Figure(figsize=(8, 4.5)), driven, palette=load_palette("day"))

    assert "drift" not in words(drawing)


def test_a_field_that_is_not_known_is_not_made_up(sight: Sight) -> None:
    unknown = attrs.evolve(sight, true_field_deg=None)

    drawing = draw_eyepiece(Figure(figsize=(8, 4.5)), unknown, palette=load_palette("day"))

    assert "field not known" in words(drawing)
    assert "N" not in [text.get_text() for text in drawing.texts]


def test_saturn_s_ring_has_its_own_size() -> None:
    saturn = subject_at(Body.SATURN, datetime(2026, 11, 24, 21, tzinfo=UTC))
    sight = Sight(subject=saturn, scope=SCOPE, power=150, air_arcsec=1.2, true_field_deg=0.35)

    drawing = draw_eyepiece(Figure(figsize=(8, 4.5)), sight, palette=load_palette("day"))

    assert "(with its ring" in words(drawing)


@pytest.mark.parametrize("body", [Body.JUPITER, Body.SATURN, Body.VENUS, Body.MOON])
def test_by_night_every_pixel_is_red_or_black(body: Body) -> None:
    subject = subject_at(body, datetime(2026, 11, 18, 3, tzinfo=UTC))
    sight = Sight(subject=subject, scope=SCOPE, power=100, air_arcsec=1.2, true_field_deg=0.5)
    figure = Figure(figsize=(6, 3.5))

    draw_eyepiece(figure, sight, palette=load_palette("night"))

    image = pixels(figure)
    assert image[..., 1:].max() == 0
    assert image[..., 0].max() > 100


def test_steps_are_drawn_at_one_scale(sight: Sight) -> None:
    figure = Figure(figsize=(9, 3))
    sights = [attrs.evolve(sight, power=power) for power in (50, 100, 200)]

    drawing = draw_steps(figure, sights, palette=load_palette("dusk"))

    image = pixels(figure)
    areas = []
    for box in drawing.close_ups:
        picture = cut(image, box).max(axis=2)
        upper = picture[picture.shape[0] // 2 :]  # the dashed circle stands in the lower half
        areas.append(float((upper > 100).sum()))
    assert areas[1] / areas[0] == pytest.approx(4.0, rel=0.25)
    assert areas[2] / areas[1] == pytest.approx(4.0, rel=0.25)
    assert [text.get_text() for text in drawing.texts[:2]] == ["50x", f"looks {32:.0f}′ across"]


def test_a_drawing_can_be_saved_in_any_size(sight: Sight) -> None:
    figure = Figure(figsize=(8, 4.5))
    draw_eyepiece(figure, sight, palette=load_palette("day"))
    for kind in ("png", "pdf"):
        file = io.BytesIO()
        figure.savefig(file, format=kind)
        assert file.tell() > 1000
