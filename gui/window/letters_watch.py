"""Notices names whose letters no font of this system has, and says once what to install."""

from collections.abc import Iterable, Iterator

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QFontMetrics, QGuiApplication

from core.record.observer import Profile
from core.record.structure import KINDS
from core.situation.situation import Situation
from core.words.missing_letters import missing_letters_text, packages_for
from gui.state import AppState, Change


class LettersWatch(QObject):
    """Looks at the names of a profile whenever one has changed; each package is named once.

    ``named`` are those that were named before, at another start.

    Signals
    -------
    has_named
        All packages named so far, as a tuple.
    """

    has_named = Signal(object)

    def __init__(self, state: AppState, named: Iterable[str] = (), parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._known: set[str] = set()
        self._named = set(named)
        state.changed.connect(self._on_changed)

    def look(self) -> None:
        """Say what is missing for the names of the profile in hand."""
        letters = {letter for text in _texts(self._state.profile) for letter in text} - self._known
        if not letters:
            return
        self._known |= letters
        metrics = QFontMetrics(QGuiApplication.font())
        missing = [
            letter for letter in sorted(letters) if _is_drawn(letter) and not metrics.inFontUcs4(ord(letter))
        ]
        unnamed = [letter for letter in missing if not self._named.issuperset(packages_for(letter))]
        if unnamed:
            self._named |= set(packages_for(unnamed))
            self._state.tell(missing_letters_text(unnamed))
            self.has_named.emit(tuple(sorted(self._named)))

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.profile):
            self.look()


def _is_drawn(letter: str) -> bool:
    """Tell whether a letter leaves ink, unlike spaces, formatting marks and selectors of variants."""
    return letter.isprintable() and not letter.isspace() and not "\ufe00" <= letter <= "\ufe0f"


def _texts(profile: Profile) -> Iterator[str]:
    """Yield all that an owner has named."""
    yield profile.observer
    for kind in KINDS:
        yield from (thing.name for thing in getattr(profile, kind))
    for site in profile.sites:
        for sector in (*site.blocked, *site.warm_air):
            yield sector.what
    yield from (scope.notes for scope in profile.telescopes)
