"""The middle of the gear view when a kind of thing is chosen and not one of them."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from core.record.observer import Profile
from core.words.cautions import DARK_FILTERS_AND_SUN
from core.words.gear_advice import (
    NOTHING_OWNED_YET,
    WHAT_COMES,
)
from core.words.gear_edits import ADD, NONE_OWNED, OWNED
from core.words.owned_kinds import Kind
from gui.gear.owned_edits import things_of
from gui.widgets.plain_label import PlainLabel


class GroupPage(QWidget):
    """A few words about a kind of thing, and the button to add one.

    Signals
    -------
    add_wanted
        The kind of thing to add.
    """

    add_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._kind = Kind.TELESCOPE
        self._count = PlainLabel(wraps=True)
        self._words = PlainLabel(role="faint", wraps=True)
        self._caution = PlainLabel(DARK_FILTERS_AND_SUN, role="caution", wraps=True)
        self._caution.hide()
        self.button = QPushButton()
        self.button.setProperty("role", "next")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(10)
        layout.addWidget(self._count)
        layout.addWidget(self._words)
        layout.addWidget(self._caution)
        layout.addWidget(self.button)
        layout.addStretch(1)
        self.button.clicked.connect(lambda: self.add_wanted.emit(self._kind))

    def show_kind(self, profile: Profile, kind: Kind) -> None:
        """Speak of one kind of thing."""
        self._kind = kind
        count = len(things_of(profile, kind))
        self._count.setText(OWNED.format(count=count) if count else NONE_OWNED)
        self._words.setText(kind.enough)
        self._caution.setVisible(kind is Kind.FILTER)
        self.button.setText(ADD.format(thing=kind.one_more))

    def welcome(self, first: Kind) -> None:
        """Greet the owner of an empty profile, and offer to add the first thing."""
        self._kind = first
        self._count.setText(NOTHING_OWNED_YET)
        self._words.setText(WHAT_COMES)
        self._caution.hide()
        self.button.setText(ADD.format(thing=first.one_more))
