"""Small drawings beside the terms that are hard to tell in words alone."""

from collections.abc import Callable
from typing import Final

from core.drawing.board import Board
from core.drawing.marks import Drawing, Page, Sheet
from core.drawing.palette import Palette
from core.words.glossary import Sketch

_BEAM: Final = 1.0

Draw = Callable[[Board], None]


def draw_sketch(page: Page, sketch: Sketch, *, palette: Palette) -> Drawing:
    """Lay the small drawing of a term out on a page."""
    sheet = Sheet(page, palette)
    _SKETCHES[sketch](Board(sheet))
    return sheet.drawing


def _exit_pupil(board: Board) -> None:
    accent = board.palette.accent
    for side in (1, -1):
        board.line(
            (0.02, 0.5 + side * 0.32), (0.2, 0.5 + side * 0.32), (0.72, 0.5 - side * 0.12), colour=accent
        )
        board.line((0.72, 0.5 + side * 0.12), (0.98, 0.5 + side * 0.12), colour=accent, width=_BEAM)
    board.line((0.2, 0.12), (0.2, 0.88))
    board.line((0.72, 0.3), (0.72, 0.7))
    board.line((0.9, 0.38), (0.9, 0.62))
    board.write("aperture", 0.2, 0.04)
    board.write("eyepiece", 0.68, 0.22)
    board.write("exit pupil", 0.88, 0.8)


def _air_path(board: Board) -> None:
    accent = board.palette.accent
    board.line((0.0, 0.15), (1.0, 0.15))
    board.line((0.0, 0.75), (1.0, 0.75), width=0.8, colour=board.palette.faint_ink)
    board.line((0.15, 0.15), (0.15, 0.75), colour=accent)
    board.line((0.15, 0.15), (0.9, 0.75), colour=accent)
    board.write("top of the air", 0.55, 0.88)
    board.write("1", 0.09, 0.5)
    board.write("2, at 30° high", 0.66, 0.38)
    board.write("you", 0.15, 0.04)


def _obstruction(board: Board) -> None:
    board.disc(0.3, 0.5, 0.4, board.palette.accent)
    board.disc(0.3, 0.5, 0.1, board.palette.surface)
    board.write("the opening, and what", 0.74, 0.58)
    board.write("the small mirror hides", 0.74, 0.4)


def _fields(board: Board) -> None:
    board.ring(0.25, 0.55, 0.36)
    board.disc(0.25, 0.55, 0.12, board.palette.accent)
    board.ring(0.75, 0.55, 0.36)
    board.disc(0.75, 0.55, 0.28, board.palette.accent)
    board.write("low power: much sky", 0.25, 0.06)
    board.write("high power: little", 0.75, 0.06)


def _eye_relief(board: Board) -> None:
    accent = board.palette.accent
    board.line((0.1, 0.25), (0.1, 0.75), (0.42, 0.75), (0.42, 0.25), (0.1, 0.25))
    for side in (1, -1):
        board.line((0.42, 0.5 + side * 0.2), (0.74, 0.5), colour=accent, width=_BEAM)
    board.ring(0.82, 0.5, 0.16)
    board.line((0.42, 0.14), (0.74, 0.14), colour=accent)
    board.write("eye relief", 0.58, 0.04)
    board.write("eyepiece", 0.26, 0.86)
    board.write("eye", 0.82, 0.78)


def _collimation(board: Board) -> None:
    for x, shift, words in ((0.25, 0.0, "in line"), (0.75, 0.1, "out of line")):
        board.ring(x, 0.56, 0.34)
        board.ring(x, 0.56, 0.26)
        board.disc(x + shift * 0.5, 0.56, 0.1, board.palette.ink)
        board.write(words, x, 0.06)


_SKETCHES: Final[dict[Sketch, Draw]] = {
    Sketch.EXIT_PUPIL: _exit_pupil,
    Sketch.AIR_PATH: _air_path,
    Sketch.OBSTRUCTION: _obstruction,
    Sketch.FIELDS: _fields,
    Sketch.EYE_RELIEF: _eye_relief,
    Sketch.COLLIMATION: _collimation,
}
