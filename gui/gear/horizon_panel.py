"""The part of a site's form where its horizon is shaped: the picture, what can be added, and a compass."""

from collections.abc import Sequence
from functools import partial

from attrs import evolve
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from core.drawing.palette import Palette
from core.sky.bodies import Body
from core.sky.site import BlockedSky
from core.sky.skyline import Preset, Sector, from_preset, open_azimuth_deg
from core.sky.track import Track
from core.words.obstacles import SECTOR_ALONE, sector_words
from core.words.tips import DRAG_OBSTACLES
from gui.gear.compass import CompassRow
from gui.gear.horizon import HorizonPicture
from gui.widgets.plain_label import PlainLabel

_PICTURE_LINES = 11


class HorizonPanel(QWidget):
    """The picture of the horizon with its buttons.

    Signals
    -------
    begun
        Another piece of work begins; what follows is a step of its own.
    shaped
        The tuple of sectors as they now are, blocked sky first.
    """

    begun = Signal()
    shaped = Signal(object)

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sectors: tuple[Sector, ...] = ()
        self._middle_deg = 180.0
        self.picture = HorizonPicture(palette)
        self.picture.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.told = PlainLabel(role="small", wraps=True)
        self.add = QPushButton("Add")
        self.add.setAccessibleName("Add an obstacle")
        self.add.setMenu(self._presets())
        self.remove = QPushButton("Remove")
        self.remove.setAccessibleName("Remove the obstacle in hand")
        self.show_compass = QPushButton("Compass")
        self.show_compass.setCheckable(True)
        self.show_compass.setAccessibleName("Compass: find a true azimuth from a bearing")
        self.compass = CompassRow()
        self.compass.hide()
        self._lay_out()
        self.picture.begun.connect(self.begun)
        self.picture.shaped.connect(self._on_shaped)
        self.picture.chosen.connect(lambda _index: self._tell())
        self.remove.clicked.connect(self.picture.remove)
        self.show_compass.toggled.connect(self._show_compass)
        self.compass.edge_wanted.connect(self._set_edge)
        self._tell()

    def set_sky(
        self, sectors: Sequence[Sector], *, is_northern: bool, tracks: Sequence[Track], planet: Body | None
    ) -> None:
        """Show these sectors, blocked sky first, and behind them the evening's paths."""
        self._sectors = tuple(sectors)
        self._middle_deg = 180.0 if is_northern else 0.0
        self.picture.set_sky(self._sectors, is_northern=is_northern, tracks=tracks, planet=planet)
        self._tell()

    def add_preset(self, preset: Preset) -> None:
        """Put a usual thing where the sky is open, near the middle of the picture, and take it in hand."""
        new = from_preset(preset, open_azimuth_deg(self._sectors, self._middle_deg))
        blocked = [sector for sector in self._sectors if isinstance(sector, BlockedSky)]
        place = len(blocked) if isinstance(new, BlockedSky) else len(self._sectors)
        self.begun.emit()
        self.shaped.emit((*self._sectors[:place], new, *self._sectors[place:]))
        self.picture.choose(place)
        self.picture.setFocus()

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.setSpacing(6)
        for button in (self.add, self.remove, self.show_compass):
            buttons.addWidget(button)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        self.picture.setFixedHeight(_PICTURE_LINES * self.fontMetrics().lineSpacing())
        column.addWidget(self.picture)
        column.addWidget(self.told)
        column.addLayout(buttons)
        column.addWidget(self.compass)

    def _presets(self) -> QMenu:
        menu = QMenu(self)
        for preset in Preset:
            menu.addAction(preset.value.capitalize(), partial(self.add_preset, preset))
        return menu

    def _on_shaped(self, sectors: tuple[Sector, ...]) -> None:
        self._sectors = sectors
        self.shaped.emit(sectors)

    def _show_compass(self, shown: bool) -> None:
        self.compass.setVisible(shown)
        if shown:
            self.compass.bearing.setFocus()

    def _set_edge(self, is_first: bool, azimuth_deg: float) -> None:
        if is_first:
            self.picture.change(lambda sector: evolve(sector, azimuth_from_deg=azimuth_deg))
        else:
            self.picture.change(lambda sector: evolve(sector, azimuth_to_deg=azimuth_deg))

    def _tell(self) -> None:
        sector = self.picture.sector
        if sector is not None:
            self.told.setText(SECTOR_ALONE.format(sector=sector_words(sector)))
        elif self._sectors:
            self.told.setText(DRAG_OBSTACLES)
        else:
            self.told.setText("No obstacles yet.")
        self.remove.setEnabled(sector is not None)
        self.compass.show_sector(sector is not None)
