"""The form of a site."""

from functools import partial

from core.kit.numbers import number_text
from core.sky.coordinates import Axis, format_coordinate, parse_coordinate
from core.sky.places import zone_at
from core.sky.site import BlockedSky, Site, WarmAir
from core.sky.zones import check_zone, suggest_zone, zone_names
from gui.gear.form import ThingForm, Values
from gui.gear.readings import figure, reads, reads_number
from gui.gear.sector_field import SectorField
from gui.gear.things import Kind
from gui.widgets.field import Choice, Field, Reading
from gui.widgets.plain_label import PlainLabel
from gui.widgets.typed_field import TypedField

_PLACE = {"latitude_deg": Axis.LATITUDE, "longitude_deg": Axis.LONGITUDE}


class SiteForm(ThingForm[Site]):
    """Edits one site; the time zone follows the coordinates until it is typed by hand."""

    kind = Kind.SITE
    names_itself = False

    def build(self) -> None:
        self._zone_of_place: str | None = None
        self.add_name()
        self._spelled: dict[str, PlainLabel] = {}
        for name, axis in _PLACE.items():
            hint = "41.15" if axis is Axis.LATITUDE else "-8.61"
            read = reads(partial(parse_coordinate, axis=axis))
            field = TypedField(
                name,
                axis.value.capitalize(),
                read=read,
                write=_degrees,
                unit="°",
                letters=9,
                placeholder=hint,
            )
            self.add(field)
            self._spelled[name] = PlainLabel(role="faint")
            field.add_beside(self._spelled[name])
        read_height = reads_number(Site, "elevation_m", "The elevation")
        self.add(
            TypedField(
                "elevation_m",
                "Elevation",
                read=read_height,
                write=figure,
                unit="m",
                letters=9,
                optional=True,
            )
        )
        zone = TypedField("time_zone", "Time zone", read=_read_zone, write=str, placeholder="Europe/Lisbon")
        zone.set_completions(zone_names())
        self.add(zone)
        self.add_heading("Sky that cannot be seen")
        self.add_wide(SectorField("blocked", "Blocked sky", BlockedSky))
        self.add_heading("Sky seen through rising warm air")
        self.add_wide(SectorField("warm_air", "Warm air", WarmAir))
        words = (
            "Degrees: true azimuth clockwise from north, and apparent altitude. "
            "A heated roof also spoils the air up to 10° above it."
        )
        self.add_row(PlainLabel(words, role="small", wraps=True))

    def fill_place(
        self,
        *,
        name: str,
        latitude_deg: float,
        longitude_deg: float,
        time_zone: str,
        elevation_m: float | None = None,
    ) -> None:
        """Fill in a place that was found in some other way than by typing, as one step.

        Degrees north and east positive, metres. A name that has been typed already stays.
        """
        found: Values = {"latitude_deg": latitude_deg, "longitude_deg": longitude_deg, "time_zone": time_zone}
        if elevation_m is not None:
            found["elevation_m"] = elevation_m
        if self.fields["name"].entry is None:
            found["name"] = name
        self.fill(found)

    def values_of(self, thing: Site) -> Values:
        return {name: getattr(thing, name) for name in self.fields}

    def make(self, values: Values, before: Site | None) -> Site:
        values = values | {"elevation_m": values["elevation_m"] or 0.0}
        return Site(id=before.id if before else "", **values)

    def tell(self, values: Values, thing: Site | None) -> None:
        for name, axis in _PLACE.items():
            value_deg = values[name]
            self._spelled[name].setText("" if value_deg is None else format_coordinate(value_deg, axis))

    def carry_over(self, field: Field) -> None:
        if field.name == "time_zone":
            self._zone_of_place = None
        if field.name not in _PLACE or not self._zone_follows():
            return
        latitude_deg, longitude_deg = (self.values()[name] for name in _PLACE)
        if latitude_deg is not None and longitude_deg is not None:
            self._zone_of_place = zone_at(latitude_deg, longitude_deg)
            self.fields["time_zone"].sync(self._zone_of_place)

    def _zone_follows(self) -> bool:
        """Tell whether the zone is the one of the coordinates so far, and not another that was typed."""
        zone, before = self.fields["time_zone"], self.thing
        if zone.entry is None or zone.reading.value == self._zone_of_place:
            return True
        return before is not None and before.time_zone == zone_at(before.latitude_deg, before.longitude_deg)


def _degrees(value_deg: float) -> str:
    return number_text(value_deg)


def _read_zone(text: str) -> Reading[str]:
    name = text.strip()
    try:
        check_zone(name)
    except ValueError:
        meant = suggest_zone(name)
        if meant is None:
            return Reading(problem=f"“{name}” is no time zone; write it like Europe/Lisbon.")
        return Reading(
            problem=f"“{name}” is no time zone. Did you mean {meant}?", choices=(Choice(meant, meant),)
        )
    return Reading(name)
