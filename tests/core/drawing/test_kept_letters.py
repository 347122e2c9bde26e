"""Kept words look as Matplotlib draws them, wherever they stand and however they are turned."""

from datetime import date

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from numpy.typing import NDArray

from core.drawing.height import draw_height
from core.drawing.kept_letters import LettersKeptCanvas
from core.drawing.lettering import Lettering, font_of, legible
from core.drawing.palette import load_palette
from core.sky.bodies import Body
from tests.core.drawing.examples import ODD_NAMES, PORTO, night_at
from tests.core.drawing.looking import pixels

INK = (0.1, 0.2, 0.6)
WORDS = (
    "Saturn",
    "transit 20:09, 50°",
    "18:41–21:16",
    "Uranus",
    "AVATAR To",
    "″ − ×",
    "fi",
    *map(legible, ODD_NAMES),
)


def written(
    kind: type[FigureCanvasAgg], words: str, *, rotation: float = 0.0, place: float = 0.5, dpi: float = 96.0
) -> NDArray[np.int_]:
    """Return the picture of words near the middle of a page."""
    figure = Figure(figsize=(8.0, 5.0), dpi=dpi)
    canvas = kind(figure)
    figure.text(
        place,
        0.5,
        words,
        color=INK,
        fontproperties=font_of(words, Lettering(11.0)),
        rotation=rotation,
        horizontalalignment="center",
        verticalalignment="center",
        parse_math=False,
    )
    canvas.draw()
    return np.asarray(canvas.buffer_rgba()).astype(int)


def ink_of(picture: NDArray[np.int_]) -> tuple[float, float, float]:
    """Return how much ink a picture has, and where its middle lies."""
    ink = (255 - picture[:, :, 0]) / 255.0
    rows, columns = np.indices(ink.shape)
    return float(ink.sum()), float((ink * columns).sum() / ink.sum()), float((ink * rows).sum() / ink.sum())


@pytest.mark.parametrize("words", WORDS)
@pytest.mark.parametrize("rotation", [0.0, 90.0, 30.0, 180.0])
def test_words_look_as_matplotlib_draws_them(words: str, rotation: float) -> None:
    kept = ink_of(written(LettersKeptCanvas, words, rotation=rotation))
    drawn = ink_of(written(FigureCanvasAgg, words, rotation=rotation))

    assert kept[0] == pytest.approx(drawn[0], rel=0.03)
    assert kept[1:] == pytest.approx(drawn[1:], abs=0.9)


@pytest.mark.parametrize("dpi", [72.0, 144.0, 200.0])
@pytest.mark.parametrize("place", [0.5, 0.5007, 0.0, 1.0])
def test_at_every_resolution_and_over_the_edge(dpi: float, place: float) -> None:
    kept = ink_of(written(LettersKeptCanvas, "transit 20:09, 50°", dpi=dpi, place=place))
    drawn = ink_of(written(FigureCanvasAgg, "transit 20:09, 50°", dpi=dpi, place=place))

    assert kept[0] == pytest.approx(drawn[0], rel=0.05)
    assert kept[1:] == pytest.approx(drawn[1:], abs=1.0)


def test_a_second_drawing_is_the_same_to_the_pixel() -> None:
    for words in ("18:41–21:16", "Saturn"):
        assert np.array_equal(written(LettersKeptCanvas, words), written(LettersKeptCanvas, words))


def test_colours_stay_apart() -> None:
    first = written(LettersKeptCanvas, "Mars 2027")
    figure = Figure(figsize=(8.0, 5.0), dpi=96.0, facecolor="black")
    LettersKeptCanvas(figure)
    figure.text(0.5, 0.5, "Mars 2027", color="#d80000", fontproperties=font_of("Mars 2027", Lettering(11.0)))
    red = pixels(figure)

    assert first[:, :, 2].min() > 100
    assert red[:, :, 1:3].max() == 0
    assert red[:, :, 0].max() > 200


def test_half_clear_words_are_left_to_matplotlib() -> None:
    pictures = []
    for kind in (LettersKeptCanvas, FigureCanvasAgg):
        figure = Figure(figsize=(4.0, 2.0), dpi=96.0)
        canvas = kind(figure)
        figure.text(0.2, 0.5, "faint 12", alpha=0.4)
        canvas.draw()
        pictures.append(np.asarray(canvas.buffer_rgba()).copy())

    kept, drawn = pictures
    assert np.array_equal(kept, drawn)


def test_a_whole_chart_differs_by_hairs_only() -> None:
    pictures = []
    for kind in (LettersKeptCanvas, FigureCanvasAgg):
        figure = Figure(figsize=(9.8, 3.8), dpi=100.0)
        canvas = kind(figure)
        draw_height(
            figure, night_at(PORTO, date(2026, 12, 1)), palette=load_palette("day"), planet=Body.SATURN
        )
        canvas.draw()
        pictures.append(np.asarray(canvas.buffer_rgba()).astype(int))
    apart = np.abs(pictures[0] - pictures[1]).max(axis=2)

    assert (apart > 60).mean() < 0.03
    # Seen from a little further off they are one.
    blocks = [picture[:376, :976, 0].reshape(47, 8, 122, 8).mean(axis=(1, 3)) for picture in pictures]
    assert np.abs(blocks[0] - blocks[1]).max() < 30
