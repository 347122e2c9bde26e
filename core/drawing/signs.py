"""Small signs for kinds of gear and steps of an evening, each in a few strokes of the program's own pen."""

from collections.abc import Callable, Mapping, Sequence
from enum import StrEnum
from types import MappingProxyType
from typing import Final, TypeAlias

from core.drawing.board import Board, Place
from core.drawing.marks import Drawing, Page, Sheet
from core.drawing.palette import Palette
from core.gear.owned import TelescopeKind
from core.tonight.steps import ItemKind
from core.words.owned_kinds import Kind

# Shares of the page's height: the room around a sign, its strokes, and those of a caution.
_MARGIN: Final = 0.06
_LINE: Final = 0.075
_HEAVY: Final = 0.12


class Caution(StrEnum):
    """What concerns safety has one sign, whatever it stands beside."""

    CAUTION = "caution"


Sign: TypeAlias = TelescopeKind | Kind | ItemKind | Caution


def sign_of_step(kind: ItemKind, *, caution: bool) -> Sign:
    """Return the sign of a step of the evening; what concerns safety has one of its own."""
    return Caution.CAUTION if caution else kind


def draw_sign(page: Page, sign: Sign, *, palette: Palette, colour: str | None = None) -> Drawing:
    """Lay a sign out on a square page, in the palette's ink, a caution in its colour and heavier.

    A kind that has no strokes of its own is a closed case.
    """
    sheet = Sheet(page, palette)
    is_caution = sign is Caution.CAUTION
    line = (_HEAVY if is_caution else _LINE) * page.height
    ink = colour or (palette.warning if is_caution else palette.ink)
    strokes = STROKES.get(sign, _kit)
    strokes(Board(sheet, margin=_MARGIN * page.height, line=line, ink=ink))
    return sheet.drawing


def _tube(board: Board, *, low: Place, high: Place, half: float) -> tuple[Sequence[Place], Sequence[Place]]:
    """Draw a tube from its lower to its upper end, and return both ends as lines across."""
    run, rise = high[0] - low[0], high[1] - low[1]
    length = (run * run + rise * rise) ** 0.5
    across = (-rise / length * half, run / length * half)
    ends = [((x - across[0], y - across[1]), (x + across[0], y + across[1])) for x, y in (low, high)]
    (below, left), (right, above) = ends[0], ends[1]
    board.line(below, left, above, right, below)
    return ends[0], ends[1]


def _legs(board: Board, x: float, y: float) -> None:
    board.line((x - 0.24, 0.0), (x, y), (x + 0.24, 0.0))


def _reflector(board: Board) -> None:
    _tube(board, low=(0.28, 0.3), high=(0.72, 0.84), half=0.15)
    # The eyepiece at the side, near the upper end.
    board.line((0.5, 0.78), (0.36, 0.9))
    board.line((0.06, 0.0), (0.5, 0.0), (0.34, 0.14))


def _refractor(board: Board) -> None:
    _tube(board, low=(0.16, 0.52), high=(0.8, 0.82), half=0.08)
    board.line((0.74, 0.97), (0.9, 0.68))
    board.line((0.02, 0.45), (0.12, 0.5))
    _legs(board, 0.46, 0.58)


def _catadioptric(board: Board) -> None:
    _tube(board, low=(0.3, 0.56), high=(0.78, 0.8), half=0.19)
    board.line((0.06, 0.44), (0.2, 0.5))
    _legs(board, 0.5, 0.44)


def _fixed(board: Board) -> None:
    for x in (0.24, 0.76):
        board.line((x - 0.1, 0.95), (x + 0.1, 0.95), (x + 0.2, 0.1), (x - 0.2, 0.1), (x - 0.1, 0.95))
    board.line((0.38, 0.6), (0.62, 0.6))


def _eyepiece(board: Board) -> None:
    top, waist, foot = 0.95, 0.5, 0.05
    board.line((0.5, top), (0.2, top), (0.2, waist), (0.8, waist), (0.8, top), (0.5, top))
    board.line((0.34, waist), (0.34, foot), (0.66, foot), (0.66, waist))


def _barlow(board: Board) -> None:
    board.line((0.32, 1.0), (0.32, 0.0), (0.68, 0.0), (0.68, 1.0))
    # A lens that is thin in the middle.
    board.arc(0.5, 0.74, 0.2, 200.0, 340.0)
    board.arc(0.5, 0.26, 0.2, 20.0, 160.0)


def _filter(board: Board) -> None:
    board.ring(0.5, 0.5, 0.46)
    for step in (-0.22, 0.0, 0.22):
        board.line((0.3 + step / 2, 0.3 - step / 2), (0.7 + step / 2, 0.7 - step / 2))


def _site(board: Board) -> None:
    board.line((0.0, 0.2), (0.28, 0.2), (0.5, 0.52), (0.72, 0.2), (1.0, 0.2))
    board.disc(0.5, 0.8, 0.1)


def _observer(board: Board) -> None:
    board.arc(0.5, 0.16, 0.56, 35.0, 145.0)
    board.arc(0.5, 0.84, 0.56, 215.0, 325.0)
    board.disc(0.5, 0.5, 0.13)


def _collimation(board: Board) -> None:
    board.ring(0.5, 0.5, 0.46)
    board.ring(0.5, 0.5, 0.26)
    board.disc(0.5, 0.5, 0.08)


def _kit(board: Board) -> None:
    board.line((0.04, 0.08), (0.96, 0.08), (0.96, 0.62), (0.04, 0.62), (0.04, 0.08))
    board.line((0.34, 0.62), (0.34, 0.86), (0.66, 0.86), (0.66, 0.62))


def _place(board: Board) -> None:
    board.line((0.0, 0.12), (1.0, 0.12))
    for x, lean in ((0.2, -0.1), (0.4, 0.06), (0.6, -0.06), (0.8, 0.1)):
        board.line((x, 0.12), (x + lean, 0.7))


def _carry_out(board: Board) -> None:
    _house(board, 0.04)
    _arrow(board, (0.58, 0.28), (1.0, 0.28))


def _finder(board: Board) -> None:
    board.ring(0.5, 0.5, 0.36)
    board.line((0.5, 0.0), (0.5, 1.0))
    board.line((0.0, 0.5), (1.0, 0.5))


def _covers(board: Board) -> None:
    board.line((0.1, 0.0), (0.1, 0.55), (0.9, 0.55), (0.9, 0.0))
    board.line((0.18, 0.72), (0.92, 0.98))


def _dew(board: Board) -> None:
    board.arc(0.5, 0.34, 0.32, 150.0, 390.0)
    board.line((0.22, 0.5), (0.5, 1.0), (0.78, 0.5))


def _ready(board: Board) -> None:
    board.line((0.0, 0.2), (1.0, 0.2))
    board.arc(0.5, 0.2, 0.46, 0.0, 180.0)
    board.line((0.5, 0.2), (0.72, 0.5))


def _star_test(board: Board) -> None:
    board.disc(0.5, 0.5, 0.14)
    for x, y in ((0.0, 0.5), (1.0, 0.5), (0.5, 0.0), (0.5, 1.0)):
        board.line((0.5 + (x - 0.5) * 0.5, 0.5 + (y - 0.5) * 0.5), (x, y))


def _settled(board: Board) -> None:
    board.line((0.0, 0.78), (0.17, 0.98), (0.34, 0.64), (0.51, 0.92), (0.68, 0.7), (0.85, 0.8), (1.0, 0.78))
    board.line((0.0, 0.42), (1.0, 0.42))
    board.line((0.0, 0.12), (1.0, 0.12))


def _own(board: Board) -> None:
    for y, end in ((0.86, 1.0), (0.5, 0.74), (0.14, 0.9)):
        board.line((0.0, y), (end, y))


def _target(board: Board) -> None:
    board.ring(0.5, 0.5, 0.28)
    board.line((0.0, 0.34), (0.2, 0.42))
    board.line((0.8, 0.58), (1.0, 0.66))


def _pack_up(board: Board) -> None:
    _house(board, 0.48)
    _arrow(board, (0.0, 0.28), (0.42, 0.28))


def _stop(board: Board) -> None:
    board.line((0.0, 0.2), (1.0, 0.2))
    board.arc(0.5, 0.2, 0.34, 0.0, 180.0)
    board.line((0.04, 0.8), (0.96, 0.8))


def _caution(board: Board) -> None:
    """Draw the Sun behind a bar: not to be looked at."""
    board.ring(0.5, 0.5, 0.34)
    board.line((0.04, 0.04), (0.96, 0.96))
    for x, y in ((0.5, 0.98), (0.98, 0.5), (0.5, 0.02), (0.02, 0.5)):
        board.line((0.5 + (x - 0.5) * 0.92, 0.5 + (y - 0.5) * 0.92), (x, y))


def _house(board: Board, left: float) -> None:
    wide, eaves = 0.48, 0.52
    right, middle = left + wide, left + wide / 2.0
    board.line((middle, 0.06), (left, 0.06), (left, eaves), (middle, 0.94), (right, eaves), (right, 0.06))
    board.line((middle, 0.06), (right, 0.06))


def _arrow(board: Board, foot: Place, tip: Place) -> None:
    back, side = (tip[0] - foot[0]) * 0.36, (tip[1] - foot[1]) * 0.36
    board.line(foot, tip)
    board.line(
        (tip[0] - back - side, tip[1] - side + back), tip, (tip[0] - back + side, tip[1] - side - back)
    )


STROKES: Final[Mapping[Sign, Callable[[Board], None]]] = MappingProxyType(
    {
        TelescopeKind.REFLECTOR: _reflector,
        TelescopeKind.REFRACTOR: _refractor,
        TelescopeKind.CATADIOPTRIC: _catadioptric,
        TelescopeKind.FIXED: _fixed,
        Kind.TELESCOPE: _refractor,
        Kind.EYEPIECE: _eyepiece,
        Kind.BARLOW: _barlow,
        Kind.FILTER: _filter,
        Kind.SITE: _site,
        Kind.OBSERVER: _observer,
        ItemKind.COLLIMATION: _collimation,
        ItemKind.KIT: _kit,
        ItemKind.PLACE: _place,
        ItemKind.CARRY_OUT: _carry_out,
        ItemKind.FINDER: _finder,
        ItemKind.COVERS: _covers,
        ItemKind.DEW: _dew,
        ItemKind.READY: _ready,
        ItemKind.STAR_TEST: _star_test,
        ItemKind.SETTLED: _settled,
        ItemKind.OWN: _own,
        ItemKind.TARGET: _target,
        ItemKind.PACK_UP: _pack_up,
        ItemKind.STOP: _stop,
        Caution.CAUTION: _caution,
    }
)
