"""The field for the width of a barrel."""

from core.gear.numbers import number_text
from core.gear.owned import BARRELS_MM, USUAL_BARREL_MM
from core.words.controls import BARREL
from gui.widgets.choice_field import ChoiceField

_INCHES = {24.5: "0.965", 31.75: "1.25", 50.8: "2"}


def barrel_field(label: str = "Barrel") -> ChoiceField:
    """Return the field; each width stands in both units, the usual one first when nothing is chosen."""
    order = sorted(BARRELS_MM, key=lambda barrel_mm: barrel_mm != USUAL_BARREL_MM)
    choices = [
        (barrel_mm, BARREL.format(inches=_INCHES[barrel_mm], millimetres=number_text(barrel_mm)))
        for barrel_mm in order
    ]
    return ChoiceField("barrel_mm", label, choices)
