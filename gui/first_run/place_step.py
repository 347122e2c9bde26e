"""Where the observer stands: the first step."""

from attrs import evolve
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QWidget

from core.problems import ProblemsError
from core.record.observer import Profile
from core.sky.coordinates import Axis, parse_coordinate
from core.sky.places import Place, only_match, search_places, zone_at
from core.sky.site import Site
from core.words.names import as_sentence, labelled
from core.words.places import NO_TOWN, place_with_clock
from core.words.set_up import (
    COORDINATE_MISSING,
    HOW_HIGH,
    NO_PLACE,
    PLACE_ADVICE,
    SEVERAL_TOWNS,
    TYPED_PLACE,
    WHERE_FROM,
)
from gui.first_run.step import Hold, Step
from gui.jobs import Jobs
from gui.widgets.place_search import PlaceSearch
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit
from gui.widgets.readings import figure, reads_number
from gui.widgets.typed_field import TypedField


class PlaceStep(Step):
    """A name if one likes, and a town or typed coordinates, with the elevation where it is known."""

    title = "Where"
    question = WHERE_FROM
    advice = PLACE_ADVICE

    def __init__(self, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._site: Site | None = None
        self._town = ""
        self._has_one = False
        self.name = PlainLineEdit(self)
        self.name.setAccessibleName("Observer's name")
        self.search = PlaceSearch(jobs, self)
        self.latitude = self._coordinate("Latitude", "or 41.15 N")
        self.longitude = self._coordinate("Longitude", "and 8.61 W")
        self.elevation = TypedField(
            "elevation_m",
            "Elevation",
            read=reads_number(Site, "elevation_m", "The elevation"),
            write=figure,
            unit="m",
            letters=7,
            optional=True,
        )
        self.chosen = PlainLabel(role="heading", wraps=True)
        self._lay_out()
        self.name.returnPressed.connect(self.search.setFocus)
        self.latitude.returnPressed.connect(self.longitude.setFocus)
        self.longitude.returnPressed.connect(self._finish_coordinates)
        self.elevation.edited.connect(self.answered)
        self.elevation.editor.returnPressed.connect(self.done)
        self.name.textEdited.connect(lambda _text: self.answered.emit())
        self.search.line.textEdited.connect(lambda _text: self.answered.emit())
        self.search.picked.connect(self._take_picked)
        self.setFocusProxy(self.name)

    def on_shown(self, profile: Profile) -> None:
        self._has_one = bool(profile.sites)

    def added_to(self, profile: Profile) -> Profile:
        name = self.name.text().strip()
        sites = profile.sites
        if self._site is not None:
            sites = (evolve(self._site, elevation_m=self.elevation.reading.value or 0.0),)
        return evolve(profile, observer=name or profile.observer, sites=sites)

    def settle(self) -> Hold | None:
        hold = self._settle_coordinates() or self._settle_town()
        if hold is None and not self.elevation.reading.is_good:
            hold = Hold(self.elevation.reading.problem)
        if hold is None and self._site is None and not self._has_one:
            hold = Hold(NO_PLACE, may_pass=True)
        return hold

    def _settle_coordinates(self) -> Hold | None:
        blank = [name for name, line in self._coordinates.items() if not line.text().strip()]
        if len(blank) == len(self._coordinates):
            return None
        if blank:
            return Hold(COORDINATE_MISSING.format(missing=blank[0]))
        return None if self._take_coordinates() else Hold(as_sentence(self.chosen.text()))

    def _settle_town(self) -> Hold | None:
        typed = self.search.line.text().strip()
        if not typed or typed == self._town:
            return None
        place = only_match(typed)
        if place is not None:
            self._take_place(place)
            return None
        sentence = SEVERAL_TOWNS if search_places(typed) else NO_TOWN
        return Hold(sentence.format(name=typed))

    @property
    def _coordinates(self) -> dict[str, PlainLineEdit]:
        return {"latitude": self.latitude, "longitude": self.longitude}

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.addWidget(PlainLabel("Your name (optional)"), 0, 0)
        grid.addWidget(self.name, 0, 1)
        grid.addWidget(PlainLabel("Town"), 1, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.search, 1, 1)
        coordinates = QHBoxLayout()
        coordinates.addWidget(self.latitude)
        coordinates.addWidget(self.longitude)
        grid.addWidget(PlainLabel("Or coordinates"), 2, 0)
        grid.addLayout(coordinates, 2, 1)
        height = QHBoxLayout()
        height.setSpacing(12)
        height.addWidget(self.elevation)
        height.addWidget(PlainLabel(HOW_HIGH, role="faint", wraps=True), 1)
        grid.addWidget(PlainLabel("Elevation"), 3, 0)
        grid.addLayout(height, 3, 1)
        grid.setRowStretch(1, 1)
        self.column.addLayout(grid, 1)
        self.column.addWidget(self.chosen)

    def _coordinate(self, name: str, placeholder: str) -> PlainLineEdit:
        line = PlainLineEdit(self)
        line.setAccessibleName(name)
        line.setPlaceholderText(placeholder)
        line.textEdited.connect(lambda _text: self._take_coordinates())
        return line

    def _take_picked(self, place: Place) -> None:
        self._take_place(place)
        self.elevation.setFocus()

    def _take_place(self, place: Place) -> None:
        self._site = Site(
            name=place.name,
            latitude_deg=place.latitude_deg,
            longitude_deg=place.longitude_deg,
            time_zone=place.time_zone,
        )
        self.latitude.clear()
        self.longitude.clear()
        self._town = place.label
        self.search.line.setText(place.label)
        self.chosen.setText(labelled(place.label, place_with_clock(place)))
        self.answered.emit()

    def _finish_coordinates(self) -> None:
        if self._take_coordinates():
            self.elevation.setFocus()

    def _take_coordinates(self) -> bool:
        """Take the typed coordinates once there are both; return whether they could be taken."""
        texts = (self.latitude.text(), self.longitude.text())
        self.answered.emit()
        if not all(text.strip() for text in texts):
            return False
        try:
            latitude_deg = parse_coordinate(texts[0], Axis.LATITUDE)
            longitude_deg = parse_coordinate(texts[1], Axis.LONGITUDE)
        except ProblemsError as error:
            self.chosen.setText(str(error))
            return False
        zone = zone_at(latitude_deg, longitude_deg)
        self._site = Site(
            name="My place", latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone=zone
        )
        self._town = ""
        self.search.clear()
        self.chosen.setText(
            TYPED_PLACE.format(latitude=texts[0].strip(), longitude=texts[1].strip(), zone=zone)
        )
        self.answered.emit()
        return True
