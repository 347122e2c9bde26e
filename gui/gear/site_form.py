"""The form of a site."""

from collections.abc import Mapping
from functools import partial

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QLineEdit

from core.drawing.palette import load_palette
from core.gear.numbers import number_text
from core.situation.situation import Situation
from core.sky.coordinates import Axis, format_coordinate, parse_coordinate
from core.sky.places import Place, zone_at
from core.sky.site import BlockedSky, Site, WarmAir
from core.sky.skyline import Sector
from core.sky.track import Track
from core.sky.zones import check_zone, suggest_zone, zone_names
from core.words.gear_edits import MOVE_TO, NO_ZONE, NO_ZONE_MEANT, SHAPE_SKY
from core.words.obstacles import SHAPING_THE_SKY
from core.words.owned_kinds import Kind
from core.words.places import ASK_ELEVATION
from gui.gear.form import OwnedForm, Values
from gui.gear.horizon_panel import HorizonPanel
from gui.gear.sector_field import SectorField
from gui.gear.town_finder import TownFinder
from gui.state import Change
from gui.widgets.field import Choice, Field, Reading
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import figure, reads, reads_number
from gui.widgets.typed_field import TypedField

_DRAWN_FROM = (Situation.night, Situation.site, Situation.planet)
_PLACE = {"latitude_deg": Axis.LATITUDE, "longitude_deg": Axis.LONGITUDE}


class SiteForm(OwnedForm[Site]):
    """Edits one site; the time zone follows the coordinates until it is typed by hand."""

    kind = Kind.SITE
    derives_name = False

    def build(self) -> None:
        self._zone_of_place: str | None = None
        self.add_name()
        self.towns = TownFinder(self.state.jobs)
        self.towns.picked.connect(self._take_town)
        self.add_beside_labels(self.towns)
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
        elevation = TypedField(
            "elevation_m", "Elevation", read=read_height, write=figure, unit="m", letters=9, optional=True
        )
        self.add(elevation)
        self._elevation_asked = PlainLabel(role="hint", wraps=True)
        self._elevation_asked.hide()
        self.add_beside_labels(self._elevation_asked)
        zone = TypedField("time_zone", "Time zone", read=_read_zone, write=str, placeholder="Europe/Lisbon")
        zone.set_completions(zone_names())
        self.add(zone)
        self.add_heading("The horizon")
        self.horizon = HorizonPanel(load_palette(self.state.situation.palette_name))
        self.horizon.begun.connect(self.begin_step)
        self.horizon.shaped.connect(self._take_shape)
        self.add_row(self.horizon)
        self.add_heading("Sky that cannot be seen")
        self.add_wide(SectorField("blocked", "Blocked sky", BlockedSky))
        self.add_heading("Sky seen through rising warm air")
        self.add_wide(SectorField("warm_air", "Warm air", WarmAir))
        self.add_row(PlainLabel(SHAPING_THE_SKY, role="small", wraps=True))
        self.state.changed.connect(self._on_state)

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
        self.begin_step()
        self.fill(found, MOVE_TO.format(name=self.thing.name, place=name) if self.thing else "")
        self.begin_step()

    def values_of(self, thing: Site) -> Values:
        return {name: getattr(thing, name) for name in self.fields}

    def make(self, values: Values, before: Site | None) -> Site:
        values = values | {"elevation_m": values["elevation_m"] or 0.0}
        return Site(id=before.id if before else "", **values)

    def tell(self, values: Values, thing: Site | None) -> None:
        for name, axis in _PLACE.items():
            value_deg = values[name]
            self._spelled[name].setText("" if value_deg is None else format_coordinate(value_deg, axis))
        self._draw_horizon(values)

    def carry_over(self, field: Field) -> None:
        if field.name == "elevation_m":
            self._elevation_asked.hide()
        if field.name == "time_zone":
            self._zone_of_place = None
        if field.name not in _PLACE or not self._zone_follows():
            return
        latitude_deg, longitude_deg = (self.values()[name] for name in _PLACE)
        if latitude_deg is not None and longitude_deg is not None:
            self._zone_of_place = zone_at(latitude_deg, longitude_deg)
            self.fields["time_zone"].sync(self._zone_of_place)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._draw_horizon(self.values())

    def _on_state(self, change: Change) -> None:
        if change.of(Situation.palette_name):
            self.horizon.picture.set_colours(load_palette(self.state.situation.palette_name))
        if change.of(*_DRAWN_FROM) and self.isVisible():
            self._draw_horizon(self.values())

    def _draw_horizon(self, values: Values) -> None:
        latitude_deg = values["latitude_deg"]
        self.horizon.set_sky(
            (*(values["blocked"] or ()), *(values["warm_air"] or ())),
            is_northern=latitude_deg is None or latitude_deg >= 0,
            tracks=self._tracks() if self.isVisible() else (),
            planet=self.state.situation.planet,
        )

    def _tracks(self) -> tuple[Track, ...]:
        """Return the paths of the evening's planets over this site, none while it is not the one in hand."""
        night, thing = self.state.situation.night, self.thing
        if night is None or thing is None or night.site.id != thing.id:
            return ()
        return tuple(body.track for body in night.bodies)

    def _take_town(self, place: Place) -> None:
        self.fill_place(
            name=place.name,
            latitude_deg=place.latitude_deg,
            longitude_deg=place.longitude_deg,
            time_zone=place.time_zone,
        )
        # The list of towns has none, and neither sea level nor the former place's may stand unasked.
        self._elevation_asked.setText(ASK_ELEVATION.format(town=place.name))
        self._elevation_asked.show()
        line = self.fields["elevation_m"].editor
        line.setFocus()
        assert isinstance(line, QLineEdit)
        line.selectAll()

    def open(self, index: int | None, unaccepted: Mapping[str, str] | None = None) -> None:
        self._elevation_asked.hide()
        super().open(index, unaccepted)

    def _take_shape(self, sectors: tuple[Sector, ...]) -> None:
        shape = {
            "blocked": tuple(sector for sector in sectors if isinstance(sector, BlockedSky)),
            "warm_air": tuple(sector for sector in sectors if isinstance(sector, WarmAir)),
        }
        self.fill(shape, SHAPE_SKY.format(name=self.thing.name) if self.thing else "")

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
            return Reading(problem=NO_ZONE.format(name=name))
        question = NO_ZONE_MEANT.format(name=name, meant=meant)
        return Reading(problem=question, choices=(Choice(meant, meant),))
    return Reading(name)
