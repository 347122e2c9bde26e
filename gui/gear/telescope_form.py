"""The form of a telescope or an instrument whose power is built in."""

import re

from core.gear.figures import FixedFigures, parse_aperture_mm, parse_fixed_instrument, parse_focal_length_mm
from core.gear.numbers import parse_length_mm
from core.gear.owned import ASSUMED_OBSTRUCTION, Diagonal, Stand, Telescope, TelescopeKind
from core.words.gear_edits import FIXED_NAME, FOCAL_RATIO, TELESCOPE_NAME
from core.words.owned_kinds import Kind
from core.words.quantities import trimmed_text
from core.words.tips import ABOVE_THE_AIR, DRIVE, TUBE, TWO_BARLOWS
from gui.gear.barrels import barrel_field
from gui.gear.form import OwnedForm, Values
from gui.widgets.choice_field import ChoiceField, SwitchField
from gui.widgets.date_field import DateField
from gui.widgets.field import Field
from gui.widgets.notes_field import NotesField
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import (
    Read,
    figure,
    range_of,
    reads,
    reads_difference,
    reads_millimetres,
    reads_number,
)
from gui.widgets.typed_field import TypedField

_KINDS = [
    (TelescopeKind.REFLECTOR, "reflector"),
    (TelescopeKind.REFRACTOR, "refractor"),
    (TelescopeKind.CATADIOPTRIC, "catadioptric"),
    (TelescopeKind.FIXED, "fixed power"),
]
_DIAGONALS = [
    (Diagonal.NONE, "none"),
    (Diagonal.STAR, "star (mirror-reversed)"),
    (Diagonal.ERECT, "erect"),
]
_TUBES = [(None, "as usual for its kind"), (False, "open"), (True, "closed")]
_STANDS = [
    (None, "not said"),
    (Stand.GROUND, "firm ground"),
    (Stand.DECK, "a deck"),
    (Stand.BALCONY, "a balcony"),
]
_MIRRORS = {TelescopeKind.REFLECTOR, TelescopeKind.CATADIOPTRIC}

_FIXED_ONLY = {"power", "true_field_deg"}
_MIRRORS_ONLY = {"obstruction_mm", "closed_tube", "fan", "collimated_on", "mirror_thickness_mm"}
_SELDOM_NEEDED = {"mirror_thickness_mm", "mask_mm", "binoviewer_factor", "settles_s", "stands_on"}
_NOT_FIXED = {
    *_MIRRORS_ONLY,
    *("focal_length_mm", "barrel_mm", "diagonal", "stack_barlows", "cooling_minutes", "cooling_from_c"),
    *("mask_mm", "binoviewer_factor"),
}
_LENGTHS = ("aperture_mm", "focal_length_mm", "obstruction_mm", "mirror_thickness_mm", "mask_mm")
_LETTERS = 9
_LENGTH_IN_MM = re.compile(r"(\d+(?:\.\d+)?) mm\b")


class TelescopeForm(OwnedForm[Telescope]):
    """Edits one telescope."""

    kind = Kind.TELESCOPE

    def build(self) -> None:
        self._stated_aperture_mm: float | None = None
        self.add_name()
        self.add(ChoiceField("kind", "Kind", _KINDS, asks=True))
        self._build_optics()
        self._focuser = self.add_heading("Focuser")
        self.add(barrel_field("Barrels up to"))
        self.add(ChoiceField("diagonal", "Diagonal", _DIAGONALS))
        two_barlows = SwitchField("stack_barlows", "Two Barlows together")
        two_barlows.editor.setToolTip(TWO_BARLOWS)
        self.add(two_barlows)
        self.add_heading("Tube and mount")
        tube = ChoiceField("closed_tube", "Tube", _TUBES)
        tube.editor.setToolTip(TUBE)
        self.add(tube)
        self.add(SwitchField("fan", "Fan for cooling"))
        driven = SwitchField("driven", "Mount with a drive")
        driven.editor.setToolTip(DRIVE)
        self.add(driven)
        self.add(DateField("collimated_on", "Collimated", today=self.today))
        self._build_cooling()
        self._build_seldom_needed()
        self.add(NotesField("notes", "Notes"))

    def shown(self, values: Values) -> set[str]:
        seldom = set() if self.wants_more else _SELDOM_NEEDED
        if values["kind"] is TelescopeKind.FIXED:
            hidden = {name for name in seldom if not self._is_said(name, values)}
            return set(self.fields) - _NOT_FIXED - hidden
        hidden = _FIXED_ONLY | seldom if values["kind"] in _MIRRORS else _FIXED_ONLY | _MIRRORS_ONLY | seldom
        # What a file says of a refractor is shown even where a refractor seldom has it.
        return {name for name in self.fields if name not in hidden or self._is_said(name, values)}

    def values_of(self, thing: Telescope) -> Values:
        names = set(self.fields) - {"power"}
        low = thing.power if thing.power is not None else thing.power_min
        power = None if low is None else FixedFigures(low, thing.power_max, None)
        return {name: getattr(thing, name) for name in names} | {"power": power}

    def make(self, values: Values, before: Telescope | None) -> Telescope:
        values = dict(values)
        power: FixedFigures | None = values.pop("power")
        if values["kind"] is not TelescopeKind.FIXED:
            values["true_field_deg"] = None
        else:
            # The other kinds' figures would be refused, and mean nothing here.
            for name in _NOT_FIXED:
                values.pop(name)
            assert power is not None
            if power.power_max is None:
                values["power"] = power.power_min
            else:
                values |= {"power_min": power.power_min, "power_max": power.power_max}
        return Telescope(id=before.id if before else "", **values)

    def name_for(self, values: Values) -> str:
        aperture_mm, kind = values["aperture_mm"], values["kind"]
        if aperture_mm is None or kind is None:
            return ""
        aperture = self.units.named_length_text(aperture_mm)
        if kind is not TelescopeKind.FIXED:
            return TELESCOPE_NAME.format(aperture=aperture, kind=kind.value)
        power = values["power"]
        return "" if power is None else FIXED_NAME.format(powers=_powers_text(power), aperture=aperture)

    def in_words(self, error: str) -> str:
        # A file speaks of mm, whoever types of what they chose.
        return _LENGTH_IN_MM.sub(
            lambda found: self.units.named_length_text(float(found[1])), super().in_words(error)
        )

    def tell(self, values: Values, thing: Telescope | None) -> None:
        aperture_mm, focal_length_mm = values["aperture_mm"], values["focal_length_mm"]
        kind: TelescopeKind | None = values["kind"]
        has_ratio = aperture_mm is not None and focal_length_mm is not None
        ratio = trimmed_text(focal_length_mm / aperture_mm, 1) if has_ratio else None
        self._ratio.setText("" if ratio is None else FOCAL_RATIO.format(ratio=ratio))
        share = ASSUMED_OBSTRUCTION[kind] if kind else 0.0
        self._obstruction.editor.setPlaceholderText(f"{share:.0%}" if share else "")
        self._assumed.setText("assumed" if share and values["obstruction_mm"] is None else "")
        is_fixed = kind is TelescopeKind.FIXED
        self.show_row(self._focuser, not is_fixed)
        self.show_row(self._cooling, not is_fixed)

    def carry_over(self, field: Field) -> None:
        if field.name == "power" and field.reading.is_good and self._stated_aperture_mm is not None:
            self._aperture.sync(self._stated_aperture_mm)

    def on_units(self) -> None:
        super().on_units()
        for name in _LENGTHS:
            self._typed(name).set_unit(self.units.length.value)
        self._typed("cooling_from_c").set_unit(self.units.temperature)

    def _build_optics(self) -> None:
        power = TypedField(
            "power",
            "Power",
            read=reads(self._parse_power),
            write=_powers_text,
            unit="x",
            letters=_LETTERS,
            placeholder="20-60x80",
        )
        self.add(power)
        self._aperture = self._add_length("aperture_mm", "Aperture", reads(self._parse_aperture))
        focal_length = self._add_length("focal_length_mm", "Focal length", reads(self._parse_focal_length))
        focal_length.editor.setPlaceholderText("or f/8")
        self._ratio = PlainLabel(role="faint")
        focal_length.add_beside(self._ratio)
        self._add_optional("true_field_deg", "True field", "°")
        self._obstruction = self._add_length(
            "obstruction_mm", "Obstruction", reads(self._parse_obstruction), optional=True
        )
        self._obstruction.editor.setToolTip("Diameter of the secondary mirror")
        self._assumed = PlainLabel(role="faint")
        self._obstruction.add_beside(self._assumed)

    def _build_cooling(self) -> None:
        self._cooling = self.add_heading("Cooling, as you measured it")
        self._add_optional("cooling_minutes", "Usable after", "minutes")
        read = reads_difference(Telescope, "cooling_from_c", "How much warmer it was", lambda: self.units)
        warmer = TypedField(
            "cooling_from_c",
            "Above the air",
            read=read,
            write=self._difference_text,
            optional=True,
            unit=self.units.temperature,
            letters=_LETTERS,
        )
        warmer.editor.setToolTip(ABOVE_THE_AIR)
        self.add(warmer)

    def _build_seldom_needed(self) -> None:
        self.add_more("More about it")
        self._add_optional_length("mirror_thickness_mm", "Mirror thickness", "The thickness of the mirror")
        mask = self._add_optional_length("mask_mm", "Off-axis mask", "The opening of the mask")
        mask.editor.setToolTip("Diameter of its opening, while it is in use")
        binoviewer = self._add_optional("binoviewer_factor", "Bino-viewer", "x")
        binoviewer.editor.setToolTip("How much more power a pair of equal eyepieces gives in it")
        settles = self._add_optional("settles_s", "Settles in", "seconds")
        settles.editor.setToolTip("How long the view trembles after a tap on the tube")
        self.add(ChoiceField("stands_on", "Stands on", _STANDS))

    def _add_optional_length(self, name: str, label: str, what: str) -> TypedField:
        read = reads_millimetres(Telescope, name, what, unit=lambda: self.units.length)
        return self._add_length(name, label, read, optional=True)

    def _add_length(self, name: str, label: str, read: Read, *, optional: bool = False) -> TypedField:
        field = TypedField(
            name,
            label,
            read=read,
            write=self._length_text,
            optional=optional,
            unit=self.units.length.value,
            letters=_LETTERS,
        )
        self.add(field)
        return field

    def _add_optional(self, name: str, label: str, unit: str) -> TypedField:
        read = reads_number(Telescope, name, label)
        field = TypedField(name, label, read=read, write=figure, optional=True, unit=unit, letters=_LETTERS)
        self.add(field)
        return field

    def _typed(self, name: str) -> TypedField:
        field = self.fields[name]
        assert isinstance(field, TypedField)
        return field

    def _is_said(self, name: str, values: Values) -> bool:
        return name in _MIRRORS_ONLY | _SELDOM_NEEDED and bool(
            values[name] is not None and values[name] is not False
        )

    def _length_text(self, value_mm: float) -> str:
        return self.units.length_text(value_mm)

    def _difference_text(self, value_c: float) -> str:
        return self.units.difference_text(value_c)

    def _parse_power(self, text: str) -> FixedFigures:
        """Return the powers; an aperture written behind them goes into its own field."""
        stated = parse_fixed_instrument(text)
        self._stated_aperture_mm = stated.aperture_mm
        return FixedFigures(stated.power_min, stated.power_max, None)

    def _parse_aperture(self, text: str) -> float:
        return parse_aperture_mm(text, unit=self.units.length)

    def _parse_focal_length(self, text: str) -> float:
        aperture_mm = self._aperture.reading.value
        return parse_focal_length_mm(text, aperture_mm=aperture_mm, unit=self.units.length)

    def _parse_obstruction(self, text: str) -> float:
        allowed = range_of(Telescope, "obstruction_mm")
        what, unit = "The obstruction", self.units.length
        return parse_length_mm(text, low_mm=allowed.low, high_mm=allowed.high, what=what, unit=unit)


def _powers_text(power: FixedFigures) -> str:
    ends = [power.power_min, power.power_max]
    return "-".join(figure(end) for end in ends if end is not None)
