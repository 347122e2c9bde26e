"""The drawn eyepiece: to scale, turned right, red only by night, with every word in its place."""

from datetime import UTC, datetime

import attrs
import numpy as np
import pytest
from numpy.typing import NDArray

from core.drawing.eyepiece import EyepieceDrawing, draw_eyepiece, draw_pair, enlargement
from core.drawing.field_picture import draw_window
from core.drawing.marks import Page, Sheet, Strokes
from core.drawing.palette import load_palette
from core.drawing.placing import Box
from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.looks.picture.eyepiece import MOST_STEPS, compute_pictures, compute_steps, steps_around
from core.looks.picture.sight import Sight
from core.looks.picture.subject import Subject, subject_at
from core.sky.bodies import Body
from tests.core.drawing import looking
from tests.core.drawing.looking import faults, page_of, the_words, words_of

DPI = 144
POINT_PX = DPI / 72
SCOPE = Telescope(
    name="six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200, obstruction_mm=35
)
POWERS = (48.0, 96.0, 150.0, 300.0)
PLACES = {
    "beside a list": (577, 330),
    "large": (800, 560),
    "tall": (380, 640),
    "least": (320, 160),
    "large letters": (385, 220),
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
    sights: list[Sight], number: int = 2, *, page: Page | None = None, palette: str = "day"
) -> EyepieceDrawing:
    pictures = compute_pictures(sights, sights[number])
    return draw_eyepiece(page or page_of(800, 500), pictures, palette=load_palette(palette))


def pixels(drawn: EyepieceDrawing) -> NDArray[np.uint8]:
    """Return what is drawn (rows, columns, 3), row 0 at the bottom."""
    return looking.pixels(drawn.drawing, dots_per_inch=DPI)[::-1, :, :3]


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
    pictures = compute_pictures(steady, steady[2])

    drawing = draw_eyepiece(page_of(800, 500), pictures, palette=load_palette("dusk"))

    expected = steady[2].apparent_diameter_arcmin / 60.0 / pictures.close_up.window_deg
    assert lit_width(pixels(drawing), drawing.close_ups[0]) == pytest.approx(expected, rel=0.03)


def test_the_steps_are_at_one_scale(jupiter: Subject) -> None:
    drawing = drawn(sights_of(jupiter, (100.0, 150.0, 300.0)), 1, page=page_of(1000, 600), palette="dusk")

    image = pixels(drawing)
    low, middle, high = (lit_width(image, box_over_words(box)) for _, box in drawing.steps)
    assert high / middle == pytest.approx(2.0, rel=0.07)
    assert middle / low == pytest.approx(1.5, rel=0.07)


def box_over_words(box: Box) -> Box:
    return Box(box.left, box.top - box.width, box.right, box.top)


def test_north_stands_at_the_edge_of_the_field_where_the_telescope_puts_it(jupiter: Subject) -> None:
    def north(diagonal: Diagonal) -> tuple[float, float]:
        drawing = drawn(sights_of(jupiter, scope=attrs.evolve(SCOPE, diagonal=diagonal)))
        assert drawing.field is not None
        mark = the_words(drawing.drawing, "N")
        middle_x, middle_y = drawing.field.middle
        return mark.x - middle_x, mark.y - middle_y

    upside_down, upright = north(Diagonal.NONE), north(Diagonal.STAR)

    assert upside_down[1] < -40.0
    assert upright[1] > 40.0
    assert abs(upside_down[0]) < 1.0
    assert abs(upright[0]) < 1.0


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
@pytest.mark.parametrize("body", [Body.SATURN, Body.MOON])
def test_pictures_and_words_stay_on_the_page_and_apart(place: tuple[int, int], body: Body) -> None:
    subject = subject_at(body, datetime(2026, 11, 20, 20, tzinfo=UTC))
    drawing = drawn(sights_of(subject), page=page_of(*place))

    assert faults(drawing.drawing) == []
    page = drawing.drawing.page
    assert drawing.field is not None
    boxes = [drawing.field, *drawing.close_ups, *(box_over_words(box) for _, box in drawing.steps)]
    for number, box in enumerate(boxes):
        assert page.box.holds(box)
        assert not any(box.touches(other) for other in boxes[number + 1 :])
    for words in drawing.drawing.words:
        written = words.box(page.measure)
        pictures = (*drawing.close_ups, *(box_over_words(box) for _, box in drawing.steps))
        assert not any(written.touches(box.grown(-1.0)) for box in pictures), words.text


@pytest.mark.parametrize("angle_deg", range(0, 360, 45))
@pytest.mark.parametrize("place", ["beside a list", "least"])
def test_the_drift_is_marked_inside_the_field(jupiter: Subject, angle_deg: float, place: str) -> None:
    sights = [attrs.evolve(sight, zenith_angle_deg=angle_deg) for sight in sights_of(jupiter)]
    drawing = drawn(sights, page=page_of(*PLACES[place]))

    assert drawing.field is not None
    radius, (x, y) = drawing.field.width / 2.0 - 13.0, drawing.field.middle
    drifts = [words for words in drawing.drawing.words if words.text == "drift"]
    assert len(drifts) == 1 or radius < 40.0
    for word in drifts:
        box = word.box(drawing.drawing.page.measure)
        away = max(x - box.left, box.right - x), max(y - box.bottom, box.top - y)
        assert np.hypot(*away) < radius


def test_each_step_tells_its_power_and_size(jupiter: Subject) -> None:
    words = words_of(drawn(sights_of(jupiter)).drawing)

    # 48 x the disc in minutes of arc, and so on.
    arcmin = jupiter.disc.equatorial_diameter_arcsec / 60.0
    assert words[:2] == ["48x", f"{48 * arcmin:.0f}′ wide"]
    assert [word for word in words if word.endswith("x")] == ["48x", "96x", "150x", "300x"]
    assert any("the whole field, 21′" in word for word in words)


def test_a_click_on_a_small_picture_means_its_power(jupiter: Subject) -> None:
    sights = sights_of(jupiter)
    drawing = drawn(sights)

    for (_, box), sight in zip(drawing.steps, sights, strict=True):
        x, y = box.middle
        assert drawing.sight_at(x, y) == sight
    assert drawing.field is not None
    x, y = drawing.field.middle
    assert drawing.sight_at(x, y) is None


def test_of_a_large_kit_the_powers_around_the_one_in_hand_are_shown(jupiter: Subject) -> None:
    sights = sights_of(jupiter, tuple(40.0 + 20 * number for number in range(15)))

    for number in (0, 7, 14):
        shown = [sight.power for sight, _ in drawn(sights, number).steps]
        assert len(shown) == MOST_STEPS
        assert sights[number].power in shown
        assert shown == sorted(shown)


def test_moons_are_named_where_they_stand(jupiter: Subject) -> None:
    drawing = drawn(sights_of(jupiter), 3, page=page_of(1000, 700))

    assert drawing.field is not None
    sight = sights_of(jupiter)[3]
    assert sight.true_field_deg is not None
    points_per_arcsec = (drawing.field.width - 26.0) / (sight.true_field_deg * 3600.0)
    middle_x, middle_y = drawing.field.middle
    inside = 0
    for moon_name, right, up in sight.moon_places_arcsec():
        place = middle_x + right * points_per_arcsec, middle_y + up * points_per_arcsec
        if np.hypot(right, up) < 0.9 * sight.true_field_deg * 1800.0:
            name = the_words(drawing.drawing, moon_name)
            assert np.hypot(name.x - place[0], name.y - place[1]) < 40.0
            inside += 1
    assert inside >= 2


def test_the_enlarged_picture_says_how_much_it_is_enlarged(jupiter: Subject) -> None:
    """A screen 45 cm away: a square of 5 cm is 6.36 degrees wide there, by 2 atan(2.5 / 45)."""
    five_cm_points = 50.0 / 25.4 * 72.0
    assert enlargement(five_cm_points, 2.12) == pytest.approx(3.0, abs=0.01)

    drawing = drawn(sights_of(jupiter), 1)
    (box,) = drawing.close_ups
    words = next(text for text in words_of(drawing.drawing) if "times" in text)
    # At 96x Jupiter is a degree wide, in a window 1.3 times that.
    shown_deg = np.degrees(2.0 * np.arctan(box.width / 72.0 * 25.4 / 2.0 / 450.0))
    said = float(words.removeprefix("enlarged ").removesuffix(" times"))
    assert said == pytest.approx(
        shown_deg / (1.3 * jupiter.disc.equatorial_diameter_arcsec * 96 / 3600), rel=0.1
    )


def test_a_driven_mount_lets_nothing_drift(jupiter: Subject) -> None:
    driven = sights_of(jupiter, scope=attrs.evolve(SCOPE, driven=True))

    assert "drift" not in words_of(drawn(driven).drawing)


def test_a_field_that_is_not_known_is_not_made_up(jupiter: Subject) -> None:
    unknown = [attrs.evolve(sight, true_field_deg=None) for sight in sights_of(jupiter)]

    words = words_of(drawn(unknown).drawing)

    assert "field not known" in words
    assert "N" not in words


@pytest.mark.parametrize("body", [Body.JUPITER, Body.SATURN, Body.VENUS, Body.MOON])
def test_by_night_every_pixel_is_red_or_black(body: Body) -> None:
    sights = sights_of(subject_at(body, datetime(2026, 11, 18, 3, tzinfo=UTC)))

    image = pixels(drawn(sights, page=page_of(600, 400), palette="night"))

    assert image[..., 1:].max() == 0
    assert image[..., 0].max() > 100


def test_two_telescopes_stand_side_by_side_at_one_scale(jupiter: Subject) -> None:
    low, high = sights_of(jupiter, (100.0, 200.0))

    drawing = draw_pair(
        page_of(520, 300), compute_steps([low, high], 200), ("$six$", "two"), palette=load_palette("dusk")
    )

    assert faults(drawing.drawing) == []
    assert words_of(drawing.drawing)[0] == "$six$"
    image = pixels(drawing)
    first, second = (lit_width(image, box) for box in drawing.close_ups)
    assert second / first == pytest.approx(2.0, rel=0.05)


@pytest.mark.parametrize("width", range(260, 420, 20))
def test_words_about_the_enlargement_are_never_cut(jupiter: Subject, width: int) -> None:
    """Where there is no room for what the circle is, how much is enlarged stands alone."""
    words = words_of(drawn(sights_of(jupiter), page=page_of(width, 190)).drawing)
    (told,) = (each for each in words if "enlarged" in each)
    assert "…" not in told


@pytest.mark.parametrize("size", [(215, 150), (190, 240), (320, 160)])
def test_words_under_small_pictures_are_never_cut(jupiter: Subject, size: tuple[int, int]) -> None:
    drawing = drawn(sights_of(jupiter), 1, page=page_of(*size)).drawing

    words = " ".join(words_of(drawing))
    assert faults(drawing) == []
    assert "…" not in words
    assert "circle: the naked-eye Moon" in words
    assert "the whole field" in words


def test_the_next_step_and_the_top_stand_beside_the_power_in_hand(jupiter: Subject) -> None:
    """Of a kit with many powers at its low end the top would else be out of sight."""
    powers = (*(32.0 + 4 * number for number in range(20)), 169.0, 254.0, 300.0, 508.0)
    sights = sights_of(jupiter, powers)

    shown = [sight.power for sight in steps_around(sights, sights[4], (84.0, 169.0))]

    assert {48.0, 84.0, 169.0} <= set(shown)
    assert len(shown) == MOST_STEPS
    assert shown == sorted(shown)
    # One step above the top is enough to see why it is the top.
    assert shown[-1] == 254.0


def test_where_moons_crowd_only_the_planet_is_named() -> None:
    """All four stand near Jupiter: in a field of 1.7 degrees nobody knows which dot is which."""
    subject = subject_at(Body.JUPITER, datetime(2027, 2, 15, 2, 30, tzinfo=UTC))
    sights = [attrs.evolve(sight, true_field_deg=1.7) for sight in sights_of(subject, (40.0, 67.0))]
    drawing = drawn(sights, 0, page=page_of(1000, 600))

    named = set(words_of(drawing.drawing))
    assert "Jupiter" in named
    assert not {"I", "E", "G", "Io", "Europa"} & named
    assert faults(drawing.drawing) == []


def test_the_naked_eye_s_moon_lies_in_a_corner_that_is_dark(jupiter: Subject) -> None:
    (sight,) = sights_of(jupiter, (100.0,))
    box = Box(0.0, 0.0, 100.0, 100.0)

    def corner(lit: tuple[slice, slice] | None) -> tuple[bool, bool]:
        picture = np.zeros((128, 128, 3), dtype=np.float32)
        picture[60:68, 60:68] = 1.0
        if lit is not None:
            picture[lit] = 1.0
        sheet = Sheet(page_of(100, 100), load_palette("day"))
        draw_window(sheet, sight, picture, box, 3.0)
        outline = next(
            line
            for mark in sheet.drawing.marks
            if isinstance(mark, Strokes)
            for line in mark.lines
            if len(line) > 90
        )
        x, y = np.mean(outline, axis=0)
        return bool(x < 50), bool(y < 50)

    assert corner(None) == (True, True)
    # Row 0 is on top.
    assert corner((slice(90, 128), slice(0, 40))) != (True, True)
