"""The drawn eyepiece: to scale, turned right, red only by night, with every word in its place."""

import io
from datetime import UTC, datetime

import attrs
import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from numpy.typing import NDArray

from core.drawing.eyepiece import EyepieceDrawing, draw_eyepiece, draw_pair
from core.drawing.palette import load_palette
from core.drawing.placing import Box
from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.looks.picture.eyepiece import MOST_STEPS, compute_pictures, compute_steps
from core.looks.picture.sight import Sight
from core.looks.picture.subject import Subject, subject_at
from core.sky.bodies import Body
from tests.core.drawing.looking import faults, figure_of, words_of

DPI = 144
POINT_PX = DPI / 72
SCOPE = Telescope(
    name="six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200, obstruction_mm=35
)
POWERS = (48.0, 96.0, 150.0, 300.0)
PLACES = {
    "beside a list": (577, 330, 1.0),
    "large": (800, 560, 1.0),
    "tall": (380, 640, 1.0),
    "least": (320, 160, 1.0),
    "large letters": (385, 220, 1.5),
}


@pytest.fixture(scope="module")
def jupiter() -> Subject:
    return subject_at(Body.JUPITER, datetime(2026, 11, 24, 3, tzinfo=UTC))


def sights_of(subject: Subject, powers: tuple[float, ...] = POWERS, scope: Telescope = SCOPE) -> list[Sight]:
    """Return what eyepieces of 52 degrees show at some powers in fair air."""
    return [
        Sight(subject=subject, scope=scope, power=power, air_arcsec=1.2, true_field_deg=52.0 / power)
        for power in powers
    ]


def drawn(
    sights: list[Sight], number: int = 2, *, figure: Figure | None = None, palette: str = "day"
) -> EyepieceDrawing:
    pictures = compute_pictures(sights, sights[number])
    return draw_eyepiece(figure or Figure(figsize=(8, 5)), pictures, palette=load_palette(palette))


def pixels(figure: Figure) -> NDArray[np.uint8]:
    """Return the drawn figure (rows, columns, 3), row 0 at the bottom."""
    figure.set_dpi(DPI)
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())[::-1, :, :3]


def cut(image: NDArray[np.uint8], box: Box) -> NDArray[np.uint8]:
    left, bottom, right, top = (round(edge * POINT_PX) for edge in (box.left, box.bottom, box.right, box.top))
    return image[bottom:top, left:right]


def lit_width(image: NDArray[np.uint8], box: Box) -> float:
    """Return the lit share of a box's width, through its middle, away from the dashed circle."""
    picture = cut(image, box.grown(-2.0)).max(axis=2).astype(float)
    line = picture[round(0.47 * picture.shape[0]) : round(0.53 * picture.shape[0])].max(axis=0)
    lit = np.flatnonzero(line > 0.3 * line.max())
    return float(lit[-1] - lit[0] + 1) / (box.width * POINT_PX)


def test_the_enlarged_disc_is_to_scale(jupiter: Subject) -> None:
    steady = [attrs.evolve(sight, air_arcsec=0.2) for sight in sights_of(jupiter)]
    figure = Figure(figsize=(8, 5))
    pictures = compute_pictures(steady, steady[2])

    drawing = draw_eyepiece(figure, pictures, palette=load_palette("dusk"))

    expected = steady[2].apparent_diameter_arcmin / 60.0 / pictures.close_up.window_deg
    assert lit_width(pixels(figure), drawing.close_ups[0]) == pytest.approx(expected, rel=0.03)


def test_the_steps_are_at_one_scale(jupiter: Subject) -> None:
    figure = Figure(figsize=(10, 6))

    drawing = drawn(sights_of(jupiter, (100.0, 150.0, 300.0)), 1, figure=figure, palette="dusk")

    image = pixels(figure)
    low, middle, high = (lit_width(image, box_over_words(box)) for _, box in drawing.steps)
    assert high / middle == pytest.approx(2.0, rel=0.07)
    assert middle / low == pytest.approx(1.5, rel=0.07)


def box_over_words(box: Box) -> Box:
    return Box(box.left, box.top - box.width, box.right, box.top)


def test_north_stands_at_the_edge_of_the_field_where_the_telescope_puts_it(jupiter: Subject) -> None:
    def north(diagonal: Diagonal) -> tuple[float, float]:
        drawing = drawn(sights_of(jupiter, scope=attrs.evolve(SCOPE, diagonal=diagonal)))
        assert drawing.field is not None
        mark = next(text for text in drawing.texts if text.get_text() == "N")
        x, y = mark.get_position()
        middle_x, middle_y = drawing.field.middle
        return x - middle_x, y - middle_y

    upside_down, upright = north(Diagonal.NONE), north(Diagonal.STAR)

    assert upside_down[1] < -40.0
    assert upright[1] > 40.0
    assert abs(upside_down[0]) < 1.0
    assert abs(upright[0]) < 1.0


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
@pytest.mark.parametrize("body", [Body.SATURN, Body.MOON])
def test_pictures_and_words_stay_on_the_page_and_apart(place: tuple[int, int, float], body: Body) -> None:
    subject = subject_at(body, datetime(2026, 11, 20, 20, tzinfo=UTC))
    figure = figure_of(*place)

    drawing = drawn(sights_of(subject), figure=figure)

    assert faults(figure, drawing.texts) == []
    width, height = figure.get_size_inches() * 72.0
    page = Box(0.0, 0.0, width, height)
    assert drawing.field is not None
    boxes = [drawing.field, *drawing.close_ups, *(box_over_words(box) for _, box in drawing.steps)]
    for number, box in enumerate(boxes):
        assert page.holds(box)
        assert not any(box.touches(other) for other in boxes[number + 1 :])
    for text in drawing.texts:
        extent = text.get_window_extent()
        scale = 72.0 / figure.dpi
        written = Box(*(edge * scale for edge in (extent.x0, extent.y0, extent.x1, extent.y1)))
        pictures = (*drawing.close_ups, *(box_over_words(box) for _, box in drawing.steps))
        assert not any(written.touches(box.grown(-1.0)) for box in pictures), text.get_text()


@pytest.mark.parametrize("angle_deg", range(0, 360, 45))
@pytest.mark.parametrize("place", ["beside a list", "least"])
def test_the_drift_is_marked_inside_the_field(jupiter: Subject, angle_deg: float, place: str) -> None:
    sights = [attrs.evolve(sight, zenith_angle_deg=angle_deg) for sight in sights_of(jupiter)]
    figure = figure_of(*PLACES[place])

    drawing = drawn(sights, figure=figure)
    pixels(figure)

    assert drawing.field is not None
    radius, (x, y) = drawing.field.width / 2.0 - 13.0, drawing.field.middle
    drifts = [text for text in drawing.texts if text.get_text() == "drift"]
    assert len(drifts) == 1 or radius < 40.0
    for word in drifts:
        edges = word.get_window_extent().get_points() / figure.dpi * 72.0 - (x, y)
        assert np.hypot(*np.abs(edges).max(axis=0)) < radius


def test_each_step_tells_its_power_and_size(jupiter: Subject) -> None:
    words = words_of(drawn(sights_of(jupiter)).texts)

    # 48 x the disc in minutes of arc, and so on.
    arcmin = jupiter.disc.equatorial_diameter_arcsec / 60.0
    assert words[:2] == ["48x", f"{48 * arcmin:.0f}′ wide"]
    assert [word for word in words if word.endswith("x")] == ["48x", "96x", "150x", "300x"]
    assert any("the whole field, 21′" in word for word in words)


def test_a_click_on_a_small_picture_means_its_power(jupiter: Subject) -> None:
    sights = sights_of(jupiter)
    drawing = drawn(sights)

    scale = drawing.figure.dpi / 72.0
    for (_, box), sight in zip(drawing.steps, sights, strict=True):
        x, y = box.middle
        assert drawing.sight_at(x * scale, y * scale) == sight
    assert drawing.field is not None
    x, y = drawing.field.middle
    assert drawing.sight_at(x * scale, y * scale) is None


def test_of_a_large_kit_the_powers_around_the_one_in_hand_are_shown(jupiter: Subject) -> None:
    sights = sights_of(jupiter, tuple(40.0 + 20 * number for number in range(15)))

    for number in (0, 7, 14):
        shown = [sight.power for sight, _ in drawn(sights, number).steps]
        assert len(shown) == MOST_STEPS
        assert sights[number].power in shown
        assert shown == sorted(shown)


def test_a_driven_mount_lets_nothing_drift(jupiter: Subject) -> None:
    driven = sights_of(jupiter, scope=attrs.evolve(SCOPE, driven=True))

    assert "drift" not in words_of(drawn(driven).texts)


def test_a_field_that_is_not_known_is_not_made_up(jupiter: Subject) -> None:
    unknown = [attrs.evolve(sight, true_field_deg=None) for sight in sights_of(jupiter)]

    words = words_of(drawn(unknown).texts)

    assert "field not known" in words
    assert "N" not in words


@pytest.mark.parametrize("body", [Body.JUPITER, Body.SATURN, Body.VENUS, Body.MOON])
def test_by_night_every_pixel_is_red_or_black(body: Body) -> None:
    figure = Figure(figsize=(6, 4))

    drawn(sights_of(subject_at(body, datetime(2026, 11, 18, 3, tzinfo=UTC))), figure=figure, palette="night")

    image = pixels(figure)
    assert image[..., 1:].max() == 0
    assert image[..., 0].max() > 100


def test_two_telescopes_stand_side_by_side_at_one_scale(jupiter: Subject) -> None:
    low, high = sights_of(jupiter, (100.0, 200.0))
    figure = figure_of(520, 300)

    drawing = draw_pair(
        figure, compute_steps([low, high], 200), ("$six$", "two"), palette=load_palette("dusk")
    )

    assert faults(figure, drawing.texts) == []
    assert words_of(drawing.texts)[0] == "$six$"
    image = pixels(figure)
    first, second = (lit_width(image, box) for box in drawing.close_ups)
    assert second / first == pytest.approx(2.0, rel=0.05)


def test_a_drawing_can_be_saved_as_it_is_shown(jupiter: Subject) -> None:
    figure = Figure(figsize=(8, 4.5))
    drawn(sights_of(jupiter), figure=figure)
    for kind in ("png", "pdf"):
        file = io.BytesIO()
        figure.savefig(file, format=kind)
        assert file.tell() > 1000
