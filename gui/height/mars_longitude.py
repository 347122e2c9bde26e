"""The row on the year's page that asks for a longitude on Mars."""

from PySide6.QtWidgets import QWidget

from core.gear.numbers import parse_number
from core.problems import ProblemsError
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.quantities import trimmed_text
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
        self.longitude.textEdited.connect(self._take)
        self.longitude.editingFinished.connect(self._show)
        state.changed.connect(self._on_changed)
        self._show()

    def _take(self, text: str) -> None:
        longitude_deg = None
        if text.strip(" °"):
            try:
                longitude_deg = parse_number(
                    text.strip(" °"), low=0, high=360, what="The longitude", unit="degrees"
                )
            except ProblemsError as error:
                self.problem.setText(str(error))
                return
        self.problem.setText("")
        self._state.set_mars_longitude(longitude_deg)

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.mars_longitude_deg, Situation.planet):
            self._show()

    def _show(self) -> None:
        self.setVisible(self._state.situation.planet is Body.MARS)
        longitude_deg = self._state.situation.mars_longitude_deg
        if not self.longitude.hasFocus():
            self.longitude.setText("" if longitude_deg is None else trimmed_text(longitude_deg, 1))
            self.problem.setText("")
