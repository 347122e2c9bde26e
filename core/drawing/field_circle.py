"""The field of an eyepiece beside a ladder: a small picture to scale, with words under it."""

from core.drawing.field_picture import draw_field_picture
from core.drawing.lettering import Lettering
from core.drawing.marks import Sheet
from core.drawing.placing import Box
from core.looks.picture.eyepiece import field_picture
from core.looks.picture.sight import Sight
from core.words.quantities import field_text, power_text, rounded_text

_WORDS = Lettering(9.0)
_TENTHS_BELOW_ARCSEC, _MINUTES_FROM_ARCSEC = 10.0, 300.0


def draw_field(sheet: Sheet, box: Box, sight: Sight) -> None:
    """Draw the field at one power in a box, what is seen in its middle, and words under it.

    A field that is not known is told in words.
    """
    lines = sheet.measure.wrapped(_words(sight), _WORDS, box.width)
    side = max(min(box.width, box.height - len(lines) * _WORDS.line_height), 0.0)
    x, y = (box.left + box.right) / 2, (box.bottom + box.top + len(lines) * _WORDS.line_height) / 2
    picture = field_picture(sight)
    if picture is not None:
        draw_field_picture(sheet, sight, picture, Box.around(x, y, side, side))
        y -= side / 2
    for line in lines:
        y -= _WORDS.line_height
        sheet.write(line, x, y + _WORDS.line_height / 2, _WORDS, sheet.palette.faint_ink)


def _words(sight: Sight) -> str:
    power, disc = power_text(sight.power), sight.subject.disc
    if sight.true_field_deg is None:
        return f"The field at {power} is not known, so it is not drawn."
    size = disc_text(disc.equatorial_diameter_arcsec)
    how = "fills" if sight.overfills else "to scale in"
    return f"{power}: {disc.body.label}, {size}, {how} the {field_text(sight.true_field_deg)} field"


def disc_text(disc_arcsec: float) -> str:
    """Return a planet's diameter: ``18″``, ``3.7″``, or ``31′`` for the Moon."""
    if disc_arcsec < _TENTHS_BELOW_ARCSEC:
        return f"{rounded_text(disc_arcsec, 1)}″"
    if disc_arcsec < _MINUTES_FROM_ARCSEC:
        return f"{rounded_text(disc_arcsec)}″"
    return f"{rounded_text(disc_arcsec / 60.0)}′"
