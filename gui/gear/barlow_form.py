"""The form of a Barlow or a reducer."""

from core.gear.figures import parse_factor
from core.gear.owned import Barlow
from core.words.gear_edits import BARLOW_NAME, REDUCER_NAME
from core.words.notices import factor_text
from core.words.owned_kinds import Kind
from gui.gear.barrels import barrel_field
from gui.gear.form import OwnedForm, Values
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import figure, reads
from gui.widgets.typed_field import TypedField


class BarlowForm(OwnedForm[Barlow]):
    """Edits one Barlow or reducer; its factor tells which it is."""

    kind = Kind.BARLOW

    def build(self) -> None:
        read = reads(parse_factor)
        hint = "2 or 0.63"
        self.add(
            TypedField("factor", "Factor", read=read, write=figure, unit="x", letters=9, placeholder=hint)
        )
        self.add_name()
        measured = TypedField(
            "measured_factor", "Measured", read=read, write=figure, optional=True, unit="x", letters=9
        )
        self.add(measured)
        self.add(barrel_field())
        self._trust = PlainLabel(role="small", wraps=True)
        self.add_row(self._trust)

    def values_of(self, thing: Barlow) -> Values:
        return {
            "factor": thing.factor,
            "name": thing.name,
            "measured_factor": thing.measured_factor,
            "barrel_mm": thing.barrel_mm,
        }

    def make(self, values: Values, before: Barlow | None) -> Barlow:
        return Barlow(id=before.id if before else "", **values)

    def name_for(self, values: Values) -> str:
        factor: float | None = values["factor"]
        if factor is None:
            return ""
        return (REDUCER_NAME if factor < 1 else BARLOW_NAME).format(factor=figure(factor))

    def tell(self, values: Values, thing: Barlow | None) -> None:
        self._trust.show_words(factor_text(thing) if thing else "")
