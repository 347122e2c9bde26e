"""The row on the year's page that asks for a longitude on Mars."""

from PySide6.QtWidgets import QWidget

from core.gear.numbers import parse_within
from core.problems import ProblemsError
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.quantities import trimmed_text
from core.year.mars_faces import MARS_LONGITUDE_DEG
from gui.state import AppState, Change
from gui.widgets.folding_row import FoldingRow
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit

_ABOUT = "A longitude on Mars, west, 0 to 360 degrees: the year shows the evenings on which it faces us"


class MarsLongitudeRow(QWidget):
    """A longitude on Mars whose evenings are sought; in sight while Mars is in hand."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._before_deg = state.situation.mars_longitude_deg
        self.longitude = PlainLineEdit(self, letters=5)
        self.longitude.setAccessibleName("Longitude on Mars, degrees west")
        self.longitude.setAccessibleDescription(_ABOUT)
        self.longitude.setToolTip(_ABOUT)
        self.problem = PlainLabel(role="problem")
        row = FoldingRow(self, spacing=6)
        row.addWidget(PlainLabel("Evenings that show longitude", role="small"))
        row.addWidget(self.longitude)
        row.addWidget(PlainLabel("° on Mars", role="small"))
        row.addWidget(self.problem)
        self.longitude.entered.connect(self._note)
        self.longitude.textEdited.connect(self._take)
        self.longitude.took_back.connect(self._write)
        self.longitude.editingFinished.connect(self._note)
        self.longitude.editingFinished.connect(self._show)
        state.changed.connect(self._on_changed)
        self._show()

    def _note(self) -> None:
        """Take note of the longitude as it was before anything is typed."""
        self.longitude.holds_unaccepted = False
        self._before_deg = self._state.situation.mars_longitude_deg

    def _take(self, text: str) -> None:
        longitude_deg = None
        if text.strip(" °"):
            try:
                longitude_deg = parse_within(text.strip(" °"), MARS_LONGITUDE_DEG, what="The longitude")
            except ProblemsError as error:
                self.problem.setText(str(error))
                self.longitude.holds_unaccepted = True
                # No digit of a refused figure stays in force.
                self._state.set_mars_longitude(self._before_deg)
                return
        self.problem.setText("")
        self.longitude.holds_unaccepted = False
        self._state.set_mars_longitude(longitude_deg)

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.mars_longitude_deg, Situation.planet):
            self._show()

    def _show(self) -> None:
        self.setVisible(self._state.situation.planet is Body.MARS)
        if not self.longitude.hasFocus() and not self.longitude.holds_unaccepted:
            self._write()

    def _write(self) -> None:
        """Write the longitude that is in force."""
        longitude_deg = self._state.situation.mars_longitude_deg
        self.longitude.holds_unaccepted = False
        self.longitude.setText("" if longitude_deg is None else trimmed_text(longitude_deg, 1))
        self.problem.setText("")
