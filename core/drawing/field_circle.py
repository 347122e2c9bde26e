"""The field of an eyepiece as a circle, with a planet's disc in it to the same scale."""

from core.drawing.lettering import Lettering, wrapped
from core.drawing.pen import Pen
from core.drawing.placing import Box
from core.kit.ladder import Rung
from core.kit.rounding import field_text, power_text
from core.sky.bodies import Body

_WORDS = Lettering(9.0)
_ARCSEC_PER_DEG = 3600.0
# A disc smaller than this is drawn this large, or it could not be seen at all; radius in points.
_LEAST_RADIUS = 0.7
_TENTHS_BELOW_ARCSEC, _MINUTES_FROM_ARCSEC = 10.0, 300.0


def draw_field(pen: Pen, box: Box, rung: Rung, planet: Body | None, disc_arcsec: float) -> None:
    """Draw the field of a rung in a box, with a disc of ``disc_arcsec`` in its middle and words under it.

    A disc wider than the field fills it. A field that is not known is told in words.
    """
    palette = pen.palette
    lines = wrapped(_words(rung, planet, disc_arcsec), _WORDS, box.width)
    under = len(lines) * _WORDS.line_height + 6.0
    radius = max(min(box.width, box.height - under) / 2, 0.0)
    x, y = (box.left + box.right) / 2, (box.bottom + box.top + under) / 2
    if rung.true_field_deg is not None:
        pen.circle(x, y, radius, palette.disc_field, edge=palette.faint_ink, order=1.0)
        disc = radius * disc_arcsec / (rung.true_field_deg * _ARCSEC_PER_DEG)
        pen.circle(x, y, min(max(disc, _LEAST_RADIUS), radius), palette.disc, order=1.1)
        y -= radius + 6.0
    for line in lines:
        y -= _WORDS.line_height
        pen.write(line, x, y + _WORDS.line_height / 2, _WORDS, palette.faint_ink)


def _words(rung: Rung, planet: Body | None, disc_arcsec: float) -> str:
    power = power_text(rung.power)
    if rung.true_field_deg is None:
        return f"The field at {power} is not known, so it is not drawn."
    name = "disc" if planet is None else planet.label
    how = "fills" if disc_arcsec >= rung.true_field_deg * _ARCSEC_PER_DEG else "to scale in"
    return f"{power}: {name}, {disc_text(disc_arcsec)}, {how} the {field_text(rung.true_field_deg)} field"


def disc_text(disc_arcsec: float) -> str:
    """Return a planet's diameter: ``18″``, ``3.7″``, or ``31′`` for the Moon."""
    if disc_arcsec < _TENTHS_BELOW_ARCSEC:
        return f"{disc_arcsec:.1f}″"
    return f"{disc_arcsec:.0f}″" if disc_arcsec < _MINUTES_FROM_ARCSEC else f"{disc_arcsec / 60:.0f}′"
