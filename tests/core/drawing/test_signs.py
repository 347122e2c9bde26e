"""Signs: one for each kind of gear and of step, each unlike the others, inside its place."""

import itertools

import numpy as np
import pytest
from numpy.typing import NDArray

from core.drawing.marks import Area, Circle, Page, Strokes
from core.drawing.palette import PaletteName, load_palette
from core.drawing.paper import PaperMeasure
from core.drawing.signs import STROKES, Caution, Sign, draw_sign, sign_of_step
from core.gear.owned import TelescopeKind
from core.tonight.steps import ItemKind
from core.words.owned_kinds import Kind

SIDE = 12.0
PAGE = Page(width=SIDE, height=SIDE, measure=PaperMeasure())


def places(sign: Sign) -> NDArray[np.float64]:
    """Return all places that a sign's strokes go through (N, 2)."""
    found: list[NDArray[np.float64]] = []
    for mark in draw_sign(PAGE, sign, palette=load_palette("day")).marks:
        if isinstance(mark, Strokes):
            found += [np.asarray(line, dtype=float) for line in mark.lines]
        elif isinstance(mark, Area):
            found.append(np.asarray(mark.outline, dtype=float))
        elif isinstance(mark, Circle):
            found.append(np.array([[mark.x - mark.radius, mark.y], [mark.x + mark.radius, mark.y]]))
    return np.concatenate(found)


@pytest.mark.parametrize("sign", list(STROKES))
def test_each_stands_inside_its_place_and_fills_it(sign: Sign) -> None:
    drawn = places(sign)
    assert drawn.min() >= -0.2
    assert drawn.max() <= SIDE + 0.2
    assert np.ptp(drawn, axis=0).max() >= 0.7 * SIDE


def test_every_kind_has_a_sign_and_no_two_are_alike() -> None:
    steps = {sign_of_step(kind, caution=False) for kind in ItemKind}
    assert {*TelescopeKind, *steps, Caution.CAUTION} <= set(STROKES)
    # Telescopes as a group are told by one of them; a kind without strokes of its own is a closed case.
    signs = set(STROKES) - {Kind.TELESCOPE}
    drawn = {sign: places(sign) for sign in signs}
    for one, other in itertools.combinations(signs, 2):
        assert drawn[one].shape != drawn[other].shape or not np.allclose(drawn[one], drawn[other])


@pytest.mark.parametrize("name", ["day", "dusk", "night"])
def test_a_caution_is_told_by_shape_and_weight_as_well_as_colour(name: str) -> None:
    palette = load_palette(name)
    assert {sign_of_step(kind, caution=True) for kind in ItemKind} == {Caution.CAUTION}

    def pens(sign: Sign) -> tuple[set[str], float]:
        marks = [mark for mark in draw_sign(PAGE, sign, palette=palette).marks if isinstance(mark, Strokes)]
        return {mark.colour for mark in marks}, min(mark.width for mark in marks)

    colours, width = pens(Caution.CAUTION)
    others, usual = pens(ItemKind.FINDER)
    assert colours == {palette.warning}
    assert others == {palette.ink}
    assert width > 1.4 * usual
    if palette.name is PaletteName.NIGHT:
        # There colour tells nothing.
        assert palette.warning == palette.ink
