"""The form of an eyepiece; a zoom is an eyepiece whose focal length is typed as a range."""

from core.gear.figures import ZoomRange, parse_apparent_field_deg, parse_eyepiece_mm
from core.gear.owned import Eyepiece
from core.words.owned_kinds import Kind
from core.words.quantities import millimetres_text
from gui.gear.barrels import barrel_field
from gui.gear.form import OwnedForm, Values
from gui.widgets.readings import figure, reads, reads_millimetres
from gui.widgets.typed_field import TypedField

_FIXED_ONLY = {"apparent_field_deg", "field_stop_mm"}
_ZOOM_ONLY = {"apparent_field_at_min_deg", "apparent_field_at_max_deg"}


class EyepieceForm(OwnedForm[Eyepiece]):
    """Edits one eyepiece."""

    kind = Kind.EYEPIECE

    def build(self) -> None:
        self.add(
            TypedField(
                "focal_length",
                "Focal length",
                read=reads(parse_eyepiece_mm),
                write=_focal_length_text,
                unit="mm",
                letters=9,
                placeholder="10 or 8-24",
            )
        )
        self.add_name()
        for name, label in (
            ("apparent_field_deg", "Apparent field"),
            ("apparent_field_at_min_deg", "Field at shortest"),
            ("apparent_field_at_max_deg", "Field at longest"),
        ):
            read = reads(parse_apparent_field_deg)
            self.add(TypedField(name, label, read=read, write=figure, optional=True, unit="°", letters=9))
        self._add_length("field_stop_mm", "Field stop")
        self.add(barrel_field())
        self._add_length("eye_relief_mm", "Eye relief")

    def shown(self, values: Values) -> set[str]:
        return set(self.fields) - (_FIXED_ONLY if _is_zoom(values) else _ZOOM_ONLY)

    def values_of(self, thing: Eyepiece) -> Values:
        if thing.focal_length_mm is not None:
            focal_length = ZoomRange(thing.focal_length_mm)
        else:
            assert thing.focal_length_min_mm is not None
            focal_length = ZoomRange(thing.focal_length_min_mm, thing.focal_length_max_mm)
        return {
            "focal_length": focal_length,
            "name": thing.name,
            "apparent_field_deg": thing.apparent_field_deg,
            "apparent_field_at_min_deg": thing.apparent_field_at_min_deg,
            "apparent_field_at_max_deg": thing.apparent_field_at_max_deg,
            "field_stop_mm": thing.field_stop_mm,
            "barrel_mm": thing.barrel_mm,
            "eye_relief_mm": thing.eye_relief_mm,
        }

    def make(self, values: Values, before: Eyepiece | None) -> Eyepiece:
        focal_length: ZoomRange = values["focal_length"]
        is_zoom = _is_zoom(values)
        hidden = _FIXED_ONLY if is_zoom else _ZOOM_ONLY
        same = {name: value for name, value in values.items() if name not in {"focal_length", *hidden}}
        if is_zoom:
            same |= {"focal_length_min_mm": focal_length.low_mm, "focal_length_max_mm": focal_length.high_mm}
        else:
            same["focal_length_mm"] = focal_length.low_mm
        return Eyepiece(id=before.id if before else "", **same)

    def name_for(self, values: Values) -> str:
        focal_length: ZoomRange | None = values["focal_length"]
        return "" if focal_length is None else f"{_focal_length_text(focal_length)} mm"

    def _add_length(self, name: str, label: str) -> None:
        read = reads_millimetres(Eyepiece, name, label)
        self.add(TypedField(name, label, read=read, write=figure, optional=True, unit="mm", letters=9))


def _is_zoom(values: Values) -> bool:
    focal_length: ZoomRange | None = values["focal_length"]
    return focal_length is not None and focal_length.high_mm is not None


def _focal_length_text(focal_length: ZoomRange) -> str:
    ends = [focal_length.low_mm, focal_length.high_mm]
    return "-".join(millimetres_text(end) for end in ends if end is not None)
