"""What a profile still lacks, and the one button that goes on."""

from attrs import frozen
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from core.gear.owned import TelescopeKind
from core.record.observer import Profile
from core.words.gear_advice import WHY_EYEPIECE, WHY_SITE, WHY_TELESCOPE
from core.words.gear_edits import ADD
from core.words.owned_kinds import Kind
from gui.widgets.plain_label import PlainLabel


@frozen
class NextStep:
    """The kind of thing to add next, and why."""

    kind: Kind
    why: str


def next_step(profile: Profile) -> NextStep | None:
    """Return what to add next, or None when the ladder and the sky have all they need."""
    if not profile.sites:
        return NextStep(Kind.SITE, WHY_SITE)
    if not profile.telescopes:
        return NextStep(Kind.TELESCOPE, WHY_TELESCOPE)
    has_ladder = any(scope.kind is TelescopeKind.FIXED for scope in profile.telescopes)
    if not profile.eyepieces and not has_ladder:
        return NextStep(Kind.EYEPIECE, WHY_EYEPIECE)
    return None


class NextStepBar(QWidget):
    """One sentence and one button; hidden when nothing is lacking.

    Signals
    -------
    wanted
        The kind of thing to add.
    """

    wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._why = PlainLabel(wraps=True)
        self.button = QPushButton()
        self.button.setProperty("role", "next")
        self._kind: Kind | None = None
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 6, 0, 0)
        layout.addWidget(self._why, 1)
        layout.addWidget(self.button)
        self.button.clicked.connect(self._ask)

    def show_step(self, step: NextStep | None) -> None:
        """Show what to add next, or nothing."""
        self.setVisible(step is not None)
        self._kind = step.kind if step else None
        if step is not None:
            self._why.setText(step.why)
            self.button.setText(ADD.format(thing=step.kind.one_more))

    def _ask(self) -> None:
        if self._kind is not None:
            self.wanted.emit(self._kind)
