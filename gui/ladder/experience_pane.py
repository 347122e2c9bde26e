"""What this site and kit have given so far: small bars with counts, and a few sentences."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from core.drawing.experience import draw_experience, height_of
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.ladder.experience import GroupedBy, PowerRecord, grouped, power_records, uses_of
from core.record.log_entry import LogEntry
from core.situation.situation import Situation
from core.words.experience import (
    GROUP_LABELS,
    count_text,
    group_text,
    record_text,
    uses_text,
    usual_air_text,
)
from gui.state import AppState, Change
from gui.widgets.canvas import Canvas
from gui.widgets.combo_box import CalmComboBox
from gui.widgets.folding_row import FoldingRow
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel

_LEAST_LINES = 6


class ExperiencePane(QWidget):
    """Counts of the log for the site in hand, told apart as one likes."""

    def __init__(self, state: AppState) -> None:
        super().__init__()
        self._state = state
        self._entries: tuple[LogEntry, ...] = ()
        self._groups: dict[str, tuple[PowerRecord, ...]] = {}
        self.by = CalmComboBox()
        self.by.setAccessibleName("How the powers are grouped")
        for by, label in GROUP_LABELS.items():
            self.by.addItem(label, by)
        self.count = PlainLabel(role="small", wraps=True)
        self.air = PlainLabel(role="small", wraps=True)
        self.uses = PlainLabel(role="small", wraps=True)
        self.canvas = Canvas(self._draw)
        self.canvas.setAccessibleName("How often each power worked here")
        self._lay_out()
        InRoom(self, self._fit)
        self.by.currentIndexChanged.connect(self._show)
        state.changed.connect(self._on_changed)

    def show_entries(self, entries: Sequence[LogEntry]) -> None:
        """Count other lines, those of the site in hand."""
        self._entries = tuple(entries)
        self._show()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        head = QWidget()
        row = FoldingRow(head, spacing=12)
        row.addWidget(PlainLabel("What worked here", role="heading"))
        row.addWidget(self.by)
        column.addWidget(head)
        self._scroll = scroll = QScrollArea()
        scroll.setAccessibleName("How each power worked here")
        scroll.setProperty("role", "reading")
        scroll.setWidget(self.canvas)
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column.addWidget(self.count)
        column.addWidget(self._scroll, 1)
        column.addWidget(self.air)
        column.addWidget(self.uses)

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.site, Situation.eyepieces, Situation.usual_air_here):
            self._show()
        elif change.of(Situation.palette_name, Situation.text_scale):
            self.canvas.redraw()

    def _show(self) -> None:
        situation, by = self._state.situation, GroupedBy(self.by.currentData())
        site_id = "" if situation.site is None else situation.site.id
        here = [entry for entry in self._entries if entry.site_id == site_id]
        groups = {group_text(key, by): power_records(of) for key, of in grouped(here, by).items()}
        self._groups = {heading: records for heading, records in groups.items() if records}
        all_records = [record for records in self._groups.values() for record in records]
        self.count.setText(count_text(all_records))
        self.air.setText(usual_air_text(situation.usual_air_here))
        self.uses.setText(uses_text(uses_of(self._entries, situation.eyepieces)))
        self.uses.setVisible(bool(self.uses.text()))
        told = "; ".join(map(record_text, all_records))
        self.canvas.setAccessibleDescription(told)
        self._scroll.setAccessibleDescription(told or self.count.text())
        self._fit()
        self.canvas.redraw()

    def _fit(self) -> None:
        """Give the bars the height that they need at the size of the letters."""
        page = self.canvas.page
        points = height_of(page, self._groups)
        self.canvas.setMinimumSize(1, round(points * self.canvas.width() / page.width))
        lines = _LEAST_LINES * self.fontMetrics().lineSpacing()
        self._scroll.setMinimumHeight(min(lines, self.canvas.minimumHeight()))

    def _draw(self, page: Page) -> Drawing | str:
        palette = load_palette(self._state.situation.palette_name)
        if not self._groups:
            return palette.surface
        return draw_experience(page, self._groups, palette=palette)
