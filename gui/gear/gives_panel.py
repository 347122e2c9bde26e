"""The right of the gear view: what the scope in hand gives."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from core.kit.gear import Telescope
from core.kit.ladder import Ladder, Rung
from core.kit.notices import misfit_notices
from core.kit.rounding import power_text
from gui.gear.powers_model import words_about
from gui.gear.powers_table import PowersTable
from gui.gear.words import buying_sentence, ceiling_sentence, limits_sentence
from gui.state import AppState
from gui.widgets.choice_field import CalmComboBox
from gui.widgets.plain_label import PlainLabel


class GivesPanel(QWidget):
    """Limits, every power, what to buy, and the way to a second scope; ``refresh`` follows the state.

    Signals
    -------
    side_by_side_wanted
        The person asks to see two scopes side by side.
    """

    side_by_side_wanted = Signal()

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.state = state
        self.title = PlainLabel(role="heading", wraps=True)
        self.limits = PlainLabel(role="small", wraps=True)
        self.ceiling = PlainLabel(wraps=True)
        self.table = PowersTable(self)
        self._room = QWidget()
        self.details = PlainLabel(wraps=True)
        self.buying = PlainLabel(wraps=True)
        self._details_frame = _panel(self.details)
        self._with = QLabel("Side &by side with")
        self.other = CalmComboBox()
        self.other.setAccessibleName("Scope to put side by side")
        self._with.setBuddy(self.other)
        self.show_side_by_side = QPushButton("Show")
        self.show_side_by_side.setAccessibleName("Show both scopes side by side")
        self._beside = QWidget()
        beside = QHBoxLayout(self._beside)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.addWidget(self._with)
        beside.addWidget(self.other, 1)
        beside.addWidget(self.show_side_by_side)
        self.other.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.title)
        layout.addWidget(self.ceiling)
        layout.addWidget(self.limits)
        layout.addWidget(self.table, 1)
        layout.addWidget(self._room, 1)
        layout.addWidget(self._details_frame)
        layout.addWidget(self.buying)
        layout.addWidget(self._beside)

        self.table.rung_changed.connect(self._show_details)
        self.show_side_by_side.clicked.connect(self._ask_for_both)
        self.refresh()

    def refresh(self) -> None:
        """Show what the state gives now."""
        scope, ladder, profile = self.state.scope, self.state.ladder, self.state.profile
        self.table.show_ladder(ladder)
        has_rungs = ladder is not None and bool(ladder.rungs)
        self.table.setVisible(has_rungs)
        self._room.setVisible(not has_rungs)
        self._details_frame.setVisible(has_rungs)
        self.buying.setVisible(has_rungs)
        self.limits.setVisible(ladder is not None)
        if scope is None or ladder is None:
            self.title.setText("What it gives")
            self.ceiling.setText(
                "Every power, exit pupil and field will stand here once there is a telescope."
            )
        else:
            self.title.setText(f"What {scope.name} gives")
            self.ceiling.setText(ceiling_sentence(ladder) if has_rungs else " ".join(ladder.notices))
            self.limits.setText(limits_sentence(ladder))
            misfits = misfit_notices(scope, profile.eyepieces, profile.barlows)
            buying = buying_sentence(ladder, profile.eyepieces, profile.barlows)
            self.buying.setText("\n".join(filter(None, [buying, *misfits])))
        self._show_details()
        self._show_others(scope)

    def _show_details(self) -> None:
        ladder = self.state.ladder
        rung = self.table.rung or _highest_allowed(ladder)
        if rung is None:
            self.details.setText("")
            return
        drift = "" if rung.drift_s is None else f", {rung.drift_s:.0f} s from edge to edge without a drive"
        head = f"{power_text(rung.power)} with {rung.label}{drift}."
        words = [head, self.table.place_of(rung), *words_about(rung)]
        self.details.setText(" ".join(filter(None, words)))

    def _show_others(self, scope: Telescope | None) -> None:
        others = [other for other in self.state.profile.telescopes if other is not scope]
        chosen = self.state.other_scope
        self._beside.setVisible(bool(others))
        self.other.clear()
        for other in others:
            self.other.addItem(other.name, other.id)
        if chosen in others:
            self.other.setCurrentIndex(others.index(chosen))

    def _ask_for_both(self) -> None:
        self.state.set_other_scope(self.other.currentData())
        self.side_by_side_wanted.emit()


def _highest_allowed(ladder: Ladder | None) -> Rung | None:
    if ladder is None:
        return None
    return next((rung for rung in reversed(ladder.rungs) if rung.power == ladder.climb_to), None)


def _panel(label: PlainLabel) -> QFrame:
    frame = QFrame()
    frame.setProperty("role", "panel")
    layout = QVBoxLayout(frame)
    layout.setContentsMargins(10, 8, 10, 8)
    layout.addWidget(label)
    return frame
