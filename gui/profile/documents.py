"""The profile as a document: new, open, save, what is not saved yet, and what others do to its file."""

from collections.abc import Sequence
from pathlib import Path

import attrs
from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from core.problems import ProblemsError
from core.record.file_names import profile_stem
from core.record.files import has_other_names, read_text, same_file
from core.record.observer import Profile
from core.record.own_copies import OwnCopies
from core.record.profile import (
    loads_profile,
    new_profile_id,
    read_profile,
    save_profile,
    without_exact_place,
)
from core.words.files import (
    CHANGED_AND_SHOWN,
    CHANGED_AND_UNREADABLE,
    CHANGED_EDITS_STAY,
    COPY_IS_IN_HAND,
    COPY_SAVED,
    NEW_PROFILE,
    NOT_OPENED,
    NOT_OPENED_TITLE,
    NOT_SAVED,
    NOT_SAVED_TITLE,
    SAVED,
    TAKE_UP_STEP,
    problem_and_more,
    saved_words,
)
from gui.profile.drafts import DraftPlace, Drafts
from gui.profile.examples import example_text
from gui.profile.file_watch import FileWatch
from gui.profile.session import Session
from gui.state import AppState
from gui.widgets import dialogs

# A kind of file of its own, so that a desktop knows what opens it.
_ENDING = ".stillair.toml"
_COPIES_NAME = "copies.json"


class Documents(QObject):
    """Opens and saves the state's profile.

    A profile that cannot be opened leaves the present one as it is; nothing unsaved is left without asking,
    and nothing that another program wrote is written over without asking. With a ``folder`` unsaved edits
    are kept there until they are saved or dropped.

    Signals
    -------
    session_changed
        The recent files have changed.
    """

    session_changed = Signal()

    def __init__(
        self, state: AppState, session: Session, window: QWidget, *, folder: Path | None = None
    ) -> None:
        super().__init__(window)
        self._state = state
        self._window = window
        # As it was opened, so that comments of a thing removed and brought back are there again.
        self._opened_text = _text_of(state.path)
        self._own_id = state.profile.id or new_profile_id()
        self._drafts = Drafts(state, folder) if folder else None
        self._own_copies = OwnCopies(folder / _COPIES_NAME) if folder else None
        self._watch = FileWatch(state)
        self._watch.changed_elsewhere.connect(self._on_changed_elsewhere)
        self.session = session

    @property
    def name(self) -> str:
        """The name of the profile in hand, as in the title of the window."""
        if self._state.path:
            return self._state.path.name
        return self._state.profile.observer.strip() or NEW_PROFILE

    # Opening.

    def new(self) -> bool:
        """Begin with nothing; tell whether that was wanted."""
        if not self.may_leave():
            return False
        self._take_in(Profile(), None, "")
        return True

    def open(self) -> None:
        """Ask for a file and open it."""
        if not self.may_leave():
            return
        path = dialogs.ask_open(self._window, self._folder())
        if path is not None:
            self._open(path)

    def open_path(self, path: Path) -> None:
        """Open a known file."""
        if self.may_leave():
            self._open(path)

    def open_example(self, name: str) -> None:
        """Take up one of the examples as a profile without a file."""
        if self.may_leave():
            text = example_text(name)
            self._take_in(loads_profile(text), None, text)

    def bring_back(self, places: Sequence[DraftPlace] | None = None) -> str:
        """Bring back edits that were left unsaved; return what to tell of it, nothing when there are none."""
        return self._drafts.bring_back(places) if self._drafts else ""

    def _open(self, path: Path) -> None:
        try:
            profile = read_profile(path)
        except ProblemsError as error:
            self._remember(self.session.without(str(path)))
            heading = NOT_OPENED.format(file=path.name, profile=self.name)
            dialogs.show_text(self._window, NOT_OPENED_TITLE, heading, str(error))
            return
        self._take_in(profile, path, _text_of(path))
        self._remember(self.session.with_opened(path))
        told = self.bring_back()
        if told:
            self._state.tell(told)

    def _take_in(self, profile: Profile, path: Path | None, text: str) -> None:
        self._opened_text = text
        self._own_id = profile.id or new_profile_id()
        self._state.load(profile, path)
        self._watch.note()

    # Saving.

    def save(self) -> bool:
        """Save to the profile's file, asking where when it has none; tell whether it is saved."""
        if self._state.path is None:
            return self.save_as()
        return self._save(self._state.path)

    def save_as(self) -> bool:
        """Ask for a file and save to it; tell whether it is saved."""
        suggestion = self._state.path.name if self._state.path else f"{self._stem}{_ENDING}"
        path = dialogs.ask_save(self._window, self._folder(), suggestion)
        return path is not None and self._save(path)

    def save_copy_without_place(self) -> None:
        """Ask for a file, and write a copy to it that does not tell where somebody lives."""
        path = dialogs.ask_save(self._window, self._folder(), f"{self._stem}_without_place{_ENDING}")
        if path is None:
            return
        if self._is_in_hand(path):
            self._state.tell(COPY_IS_IN_HAND.format(file=path.name))
            return
        # Made anew, since a comment may tell the place.
        copy = without_exact_place(self._identified())
        told = self._write(path, copy, previous="", told=COPY_SAVED.format(path=path))
        if told is not None:
            self._state.tell(told)

    def may_leave(self) -> bool:
        """Ask about unsaved changes, save if wanted, and tell whether to go on."""
        if not self._state.is_modified:
            return True
        wanted = dialogs.ask_unsaved(self._window, self.name)
        if wanted is dialogs.Unsaved.SAVE:
            return self.save()
        return wanted is dialogs.Unsaved.DISCARD

    def close(self) -> None:
        """Keep nothing of what is unsaved: whoever has edits has been asked."""
        if self._drafts:
            self._drafts.drop()

    def keep_unsaved(self) -> None:
        """Keep what is unsaved for the next start, where there is no time to ask."""
        if self._drafts:
            self._drafts.keep()

    def note_told_unkept(self) -> None:
        """Note that the person knows already that nothing can be kept beside the profile."""
        if self._drafts:
            self._drafts.told_unkept = True

    def _save(self, path: Path) -> bool:
        if self._is_in_hand(path) and self._watch.differs:
            wanted = dialogs.ask_write_over(self._window, path.name)
            if wanted is dialogs.Version.THEIRS:
                # Not saved, so that a window about to close stays, with Undo at hand.
                self._take_theirs()
            if wanted is not dialogs.Version.MINE:
                return False
        done = SAVED.format(path=path)
        told = self._write(path, self._identified(), previous=self._opened_text, told=done)
        if told is None:
            return False
        self._state.mark_saved(path)
        self._watch.note()
        self._remember(self.session.with_opened(path))
        self._state.tell(told)
        return True

    def _write(self, path: Path, profile: Profile, *, previous: str, told: str) -> str | None:
        """Write a profile; return ``told`` and what became of the text before, None if it was not saved."""
        had_other_names = has_other_names(path)
        try:
            kept = save_profile(path, profile, previous=previous, own_copies=self._own_copies)
        except ProblemsError as error:
            heading = NOT_SAVED.format(file=path.name)
            dialogs.show_text(self._window, NOT_SAVED_TITLE, heading, str(error))
            return None
        return saved_words(told, kept, had_other_names=had_other_names)

    # What other programs do to the file.

    def _on_changed_elsewhere(self) -> None:
        self._take_theirs(ask=self._state.is_modified)

    def _take_theirs(self, *, ask: bool = False) -> None:
        """Take up the file as another program left it, as one step."""
        path = self._state.path
        assert path is not None  # only a file can be changed elsewhere
        self._watch.note()
        try:
            profile = read_profile(path)
        except ProblemsError as error:
            self._state.tell(CHANGED_AND_UNREADABLE.format(file=path.name, problem=in_short(error, path)))
            return
        is_news = profile not in (self._state.profile, self._identified())
        if is_news and ask and dialogs.ask_changed(self._window, path.name) is not dialogs.Version.THEIRS:
            self._state.tell(CHANGED_EDITS_STAY.format(file=path.name))
            return
        self._opened_text = _text_of(path)
        self._state.edit_profile(TAKE_UP_STEP, profile)
        self._state.mark_saved(path)
        if is_news:
            self._state.tell(CHANGED_AND_SHOWN.format(file=path.name))

    def _identified(self) -> Profile:
        """Return the profile in hand with its id, which no undo takes away once it was saved."""
        profile = self._state.profile
        return profile if profile.id else attrs.evolve(profile, id=self._own_id)

    def _is_in_hand(self, path: Path) -> bool:
        own = self._state.path
        return own is not None and same_file(path, own)

    @property
    def _stem(self) -> str:
        path = self._state.path
        return path.stem.removesuffix(".stillair") if path else profile_stem(self._state.profile.observer)

    def _folder(self) -> Path | None:
        return self._state.path.parent if self._state.path else None

    def _remember(self, session: Session) -> None:
        self.session = session
        self.session_changed.emit()


def in_short(error: ProblemsError, path: Path) -> str:
    """Return the first thing that is wrong with a profile, and how many more there are."""
    # A problem without a place is the hint at the copy beside the file.
    first, *others = [problem for problem in error.problems if problem.where] or error.problems
    what = first.what if first.where == path.name else str(first)
    return problem_and_more(what, len(others))


def _text_of(path: Path | None) -> str:
    try:
        return "" if path is None else read_text(path)
    except ProblemsError:
        return ""
