"""The row on the year's page that asks for a longitude on Mars."""

from PySide6.QtWidgets import QWidget

from core.gear.numbers import parse_within
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.quantities import trimmed_text
from core.words.tips import LONGITUDE_ON_MARS
from core.year.mars_faces import MARS_LONGITUDE_DEG
from gui.state import AppState, Change
from gui.widgets.folding_row import FoldingRow
from gui.widgets.live_figure import LiveFigure
from gui.widgets.plain_label import PlainLabel


class MarsLongitudeRow(QWidget):
    """A longitude on Mars whose evenings are sought; in sight while Mars is in hand."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.longitude: LiveFigure[float | None] = LiveFigure(
            letters=5,
            read=_longitude_deg,
            take=state.set_mars_longitude,
            in_force=lambda: state.situation.mars_longitude_deg,
            write=lambda: _text_of(state.situation.mars_longitude_deg),
        )
        self.longitude.setAccessibleName("Longitude on Mars, degrees west")
        self.longitude.setAccessibleDescription(LONGITUDE_ON_MARS)
        self.longitude.setToolTip(LONGITUDE_ON_MARS)
        self.problem = self.longitude.problem
        row = FoldingRow(self, spacing=6)
        row.addWidget(PlainLabel("Evenings that show longitude", role="small"))
        row.addWidget(self.longitude)
        row.addWidget(PlainLabel("° on Mars", role="small"))
        row.addWidget(self.problem)
        state.changed.connect(self._on_changed)
        self._show()

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.mars_longitude_deg, Situation.planet):
            self._show()

    def _show(self) -> None:
        self.setVisible(self._state.situation.planet is Body.MARS)
        self.longitude.refresh()


def _longitude_deg(text: str) -> float | None:
    figure = text.strip(" °")
    return parse_within(figure, MARS_LONGITUDE_DEG, what="The longitude") if figure else None


def _text_of(longitude_deg: float | None) -> str:
    return "" if longitude_deg is None else trimmed_text(longitude_deg, 1)
