"""The middle of the gear view when a kind of thing is chosen and not one of them."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from core.record.observer import Profile
from core.words.cautions import DARK_FILTERS_AND_SUN
from core.words.gear_edits import ADD, NONE_OWNED, OWNED
from gui.gear.owned_kinds import Kind, things_of
from gui.widgets.plain_label import PlainLabel

_WORDS = {
    Kind.TELESCOPE: (
        "Name, aperture and focal length are enough. Type figures as they are written on the tube: "
        "150, 6 in, 4 1/2\", f/8. Instruments with a power of their own go in as 10x50 or 20-60x80."
    ),
    Kind.EYEPIECE: (
        "The focal length in mm is enough, such as 10, or 8-24 for a zoom. With its field stop or its "
        "apparent field the true field is known too."
    ),
    Kind.BARLOW: (
        "The factor is enough: 2 for a Barlow that doubles the power, 0.63 for a reducer. "
        "A factor you have measured yourself is used in place of the marked one."
    ),
    Kind.FILTER: (
        "The colour number (Wratten) is enough, or for a neutral filter the share of light "
        "that it lets through."
    ),
    Kind.SITE: (
        "Latitude, longitude and a name. Trees, roofs and warm chimneys can be added, so that times "
        "when they stand in the way are not offered."
    ),
}  # fmt: skip

_WELCOME = "Nothing here yet. Begin with where you observe, then the telescope, then the eyepieces."
_PROMISE = (
    "On the right every power shows as soon as the figures allow it. Every step can be taken back, "
    "and nothing is guessed: whatever is doubtful is asked."
)


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
        self._words.setText(_WORDS[kind])
        self._caution.setVisible(kind is Kind.FILTER)
        self.button.setText(ADD.format(thing=kind.one_more))

    def welcome(self, first: Kind) -> None:
        """Greet the owner of an empty profile, and offer to add the first thing."""
        self._kind = first
        self._count.setText(_WELCOME)
        self._words.setText(_PROMISE)
        self._caution.hide()
        self.button.setText(ADD.format(thing=first.one_more))
