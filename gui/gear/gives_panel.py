"""The right of the gear view: what the scope in hand gives."""

from PySide6.QtCore import QSize, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from core.ladder.contenders import offered_picks
from core.words.answer import nothing_offered_words
from core.words.contenders import pick_names
from core.words.controls import GIVES
from core.words.gear_advice import NO_POWERS_YET
from core.words.limits import ceiling_sentence, limits_sentence
from core.words.notices import ladder_notice_texts, misfit_texts
from core.words.powers import details_words
from core.words.units import Units
from gui.gear.powers_entries import Entry, drift_words, words_in_full
from gui.gear.powers_pictures import PowersPictures
from gui.gear.powers_table import PowersTable
from gui.gear.questions import Questions
from gui.state import AppState
from gui.widgets.in_room import NO_LIMIT_PX, InRoom
from gui.widgets.pickers import Picker
from gui.widgets.plain_label import PlainLabel

# What the smallest window leaves; until the first layout the panel's own width says nothing.
_LEAST_WIDTH_PX = 400
# Narrower than that the columns stand below each other.
_LEAST_LETTERS = 42
# Lower than that pictures of the planet tell little.
_LEAST_PICTURES_LINES = 8


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
        self.pictures = PowersPictures(state, self)
        self._room = QWidget()
        self.details = PlainLabel(role="panel", wraps=True)
        self.details.setContentsMargins(10, 6, 10, 6)
        self.misfits = PlainLabel(wraps=True)
        self.questions = Questions(state)
        self._with = PlainLabel("Side &by side with")
        self.other = Picker("Scope to put side by side", letters=12)
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
        layout.addWidget(self.pictures, 1)
        layout.addWidget(self._room, 1)
        layout.addWidget(self.details)
        layout.addWidget(self.misfits)
        layout.addWidget(self.questions)
        layout.addWidget(self._beside)

        self.table.row_changed.connect(self._show_row)
        self.pictures.chosen.connect(self.table.choose_power)
        InRoom(self, self._share_room)
        self.other.picked.connect(self.state.compare_second)
        self.show_side_by_side.clicked.connect(self.side_by_side_wanted.emit)
        self.refresh()

    def minimumSizeHint(self) -> QSize:
        # Sentences that wrap ask for the lines of a narrow column, however wide the panel is.
        hint = super().minimumSizeHint()
        layout = self.layout()
        assert layout is not None
        least = _LEAST_LETTERS * self.fontMetrics().averageCharWidth()
        height = layout.minimumHeightForWidth(max(self.width(), _LEAST_WIDTH_PX))
        return QSize(max(hint.width(), least), height)

    def refresh(self) -> None:
        """Show what the state gives now."""
        scope, ladder, profile = self.state.situation.scope, self.state.situation.ladder, self.state.profile
        units = Units(profile.preferences)
        self.table.show_ladder(ladder, profile.eye, units)
        has_rungs = ladder is not None and bool(ladder.rungs)
        self.table.setVisible(has_rungs)
        self._room.setVisible(not has_rungs)
        self.details.setVisible(has_rungs)
        self.limits.setVisible(ladder is not None and ladder.aim.is_offered)
        if scope is None or ladder is None:
            self.title.setText("What it gives")
            self.ceiling.setText(NO_POWERS_YET)
        else:
            self.title.setText(GIVES.format(scope=scope.name))
            if ladder.aim.is_offered:
                words = (
                    ceiling_sentence(ladder) if has_rungs else " ".join(ladder_notice_texts(ladder, units))
                )
            else:
                words = nothing_offered_words(self.state.situation)
            self.ceiling.setText(words)
            self.limits.setText(limits_sentence(ladder))
        misfits = misfit_texts(ladder) if ladder is not None else ()
        self.misfits.setText("\n".join(misfits))
        self.misfits.setVisible(bool(misfits))
        self.questions.setVisible(ladder is not None)
        self.questions.refresh()
        self._show_row()
        self._show_others()
        self._share_room()

    def _share_room(self) -> None:
        """Give what the table leaves to the pictures, where that is enough for them."""
        layout = self.layout()
        assert layout is not None
        room = self.height()
        for number in range(layout.count()):
            item = layout.itemAt(number)
            if item is not None and item.widget() not in (self.table, self.pictures) and not item.isEmpty():
                is_wrapped = item.hasHeightForWidth()
                high = item.heightForWidth(self.width()) if is_wrapped else item.sizeHint().height()
                room -= high + layout.spacing()
        whole = self.table.whole_height
        least = _LEAST_PICTURES_LINES * self.fontMetrics().lineSpacing()
        has_room = self.pictures.has_something and room - layout.spacing() - whole >= least
        self.table.setMinimumHeight(whole if has_room else 0)
        self.table.setMaximumHeight(whole if has_room else NO_LIMIT_PX)
        self.pictures.setVisible(has_room)

    def _show_row(self) -> None:
        ladder, entry = self.state.situation.ladder, self.table.entry
        if entry is None and ladder is not None:
            entry = self.table.entry_at(ladder.climb_to)
        self.pictures.show_power(None if entry is None else entry.rung.power)
        self.details.setText("" if entry is None else _details(entry, self.table.part_of(entry)))

    def _show_others(self) -> None:
        situation = self.state.situation
        offered = offered_picks(situation.profile, beside=situation.first_pick)
        self._beside.setVisible(situation.first_pick is not None)
        self.other.show_items(pick_names(offered, situation.profile), situation.second_pick or offered[0])


def _details(entry: Entry, part: str) -> str:
    """Return all that is known of a row, in sentences."""
    drift = None if entry.rung.drift_s is None else drift_words(entry)
    head = details_words(entry.rung, detail_arcsec=entry.detail_arcsec, moons=entry.moons, drift=drift)
    return " ".join(filter(None, [head, part, *words_in_full(entry)]))
