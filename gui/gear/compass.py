"""From what a compass shows to a true azimuth, for an edge of the sky that is blocked."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from core.gear.numbers import parse_number
from core.sky.coordinates import Axis, parse_coordinate, true_azimuth_deg
from core.words.controls import DECLINATION_EAST, DECLINATION_WEST, TRUE_AZIMUTH
from core.words.gear_advice import DECLINATION
from core.words.quantities import trimmed_text
from gui.widgets.field_rows import FieldRows
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import figure, reads
from gui.widgets.typed_field import TypedField

_LETTERS = 6


class CompassRow(QWidget):
    """A bearing and the magnetic declination of the place give the true azimuth; nothing of it is kept.

    Signals
    -------
    edge_wanted
        The person takes the azimuth for an edge of the sector in hand: True for its first, False for its
        second, and the degrees.
    """

    edge_wanted = Signal(bool, float)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bearing = TypedField(
            "bearing",
            "Compass shows",
            read=reads(_bearing_deg),
            write=figure,
            optional=True,
            unit="°",
            letters=_LETTERS,
        )
        self.declination = TypedField(
            "declination",
            "Declination",
            read=reads(_declination_deg),
            write=_declination_text,
            optional=True,
            letters=_LETTERS,
            placeholder="3 W",
        )
        self.declination.editor.setToolTip(DECLINATION)
        self.told = PlainLabel()
        self.told.setAccessibleName("True azimuth")
        self.first = QPushButton("From")
        self.first.setAccessibleName("Begin the sector in hand at this true azimuth")
        self.second = QPushButton("To")
        self.second.setAccessibleName("End the sector in hand at this true azimuth")
        self._azimuth_deg: float | None = None
        self._has_sector = False
        self._lay_out()
        for field in (self.bearing, self.declination):
            field.edited.connect(self._tell)
        self.first.clicked.connect(lambda: self._give(is_first=True))
        self.second.clicked.connect(lambda: self._give(is_first=False))
        self._tell()

    def show_sector(self, is_in_hand: bool) -> None:
        """Offer to set the edges of a sector, or not while none is in hand."""
        self._has_sector = is_in_hand
        self._tell()

    def _lay_out(self) -> None:
        rows = FieldRows(self)
        rows.setContentsMargins(0, 0, 0, 0)
        for field in (self.bearing, self.declination):
            rows.add_row(field.label, field, field.editor)
        answer = QWidget()
        line = QHBoxLayout(answer)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(self.told, 1)
        line.addWidget(self.first)
        line.addWidget(self.second)
        rows.add_wide(answer)

    def _tell(self) -> None:
        bearing_deg, declination_deg = self.bearing.reading.value, self.declination.reading.value
        self._azimuth_deg = None
        if bearing_deg is None or declination_deg is None:
            self.told.setText("True azimuth")
        else:
            self._azimuth_deg = true_azimuth_deg(bearing_deg, declination_deg)
            self.told.setText(TRUE_AZIMUTH.format(azimuth=f"{trimmed_text(self._azimuth_deg, 1)}°"))
        for button in (self.first, self.second):
            button.setEnabled(self._has_sector and self._azimuth_deg is not None)

    def _give(self, *, is_first: bool) -> None:
        if self._azimuth_deg is not None:
            self.edge_wanted.emit(is_first, self._azimuth_deg)


def _bearing_deg(text: str) -> float:
    return parse_number(text.strip().rstrip("°"), low=0, high=360, what="A bearing", unit="degrees")


def _declination_deg(text: str) -> float:
    return parse_coordinate(text, Axis.DECLINATION)


def _declination_text(value_deg: float) -> str:
    return (DECLINATION_WEST if value_deg < 0 else DECLINATION_EAST).format(angle=figure(abs(value_deg)))
