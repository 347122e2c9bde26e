"""Where the observer stands: the first step."""

from attrs import evolve
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QWidget

from core.problems import ProblemsError
from core.record.observer import Profile
from core.sky.coordinates import Axis, parse_coordinate
from core.sky.places import Place, zone_at
from core.sky.site import Site
from gui.first_run.step import Step
from gui.jobs import Jobs
from gui.widgets.place_search import PlaceSearch, where_in_words
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit


class PlaceStep(Step):
    """A name if one likes, and a town or typed coordinates."""

    title = "Where"
    question = "Where do you look from?"
    advice = (
        "A town nearby is near enough: 20 km shift the planets by a quarter of a degree at most. "
        "Nothing leaves this machine."
    )

    def __init__(self, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._site: Site | None = None
        self.name = PlainLineEdit(self)
        self.name.setAccessibleName("Observer's name")
        self.search = PlaceSearch(jobs, self)
        self.latitude = self._coordinate("Latitude", "or 41.15 N")
        self.longitude = self._coordinate("Longitude", "and 8.61 W")
        self.chosen = PlainLabel(role="heading", wraps=True)
        self._lay_out()
        self.name.returnPressed.connect(self.search.setFocus)
        self.latitude.returnPressed.connect(self.longitude.setFocus)
        self.longitude.returnPressed.connect(self._finish_coordinates)
        self.name.textEdited.connect(lambda _text: self.answered.emit())
        self.search.picked.connect(self._take_place)
        self.setFocusProxy(self.name)

    def added_to(self, profile: Profile) -> Profile:
        name = self.name.text().strip()
        sites = (self._site,) if self._site else profile.sites
        return evolve(profile, observer=name or profile.observer, sites=sites)

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
        grid.setRowStretch(1, 1)
        self.column.addLayout(grid, 1)
        self.column.addWidget(self.chosen)

    def _coordinate(self, name: str, placeholder: str) -> PlainLineEdit:
        line = PlainLineEdit(self)
        line.setAccessibleName(name)
        line.setPlaceholderText(placeholder)
        line.textEdited.connect(lambda _text: self._take_coordinates())
        return line

    def _take_place(self, place: Place) -> None:
        self._site = Site(
            name=place.name,
            latitude_deg=place.latitude_deg,
            longitude_deg=place.longitude_deg,
            time_zone=place.time_zone,
        )
        self.latitude.clear()
        self.longitude.clear()
        self.chosen.setText(f"{place.label}: {where_in_words(place)}")
        self.answered.emit()
        self.done.emit()

    def _finish_coordinates(self) -> None:
        if self._take_coordinates():
            self.done.emit()

    def _take_coordinates(self) -> bool:
        """Take the typed coordinates once there are both; return whether they could be taken."""
        texts = (self.latitude.text(), self.longitude.text())
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
        self.chosen.setText(f"{texts[0].strip()}, {texts[1].strip()}: clock of {zone}")
        self.answered.emit()
        return True
