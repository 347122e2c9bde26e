"""The log as the window uses it: verdicts and notes are written at once, and can be taken back."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from datetime import date, timedelta
from functools import partial
from pathlib import Path

import attrs
from PySide6.QtCore import QObject, Signal

from core.ladder.experience import usual_air
from core.problems import ProblemsError
from core.record.folders import data_folder
from core.record.log import Log, has_log
from core.record.log_entry import LogEntry, Verdict
from core.record.profile import new_profile_id
from core.situation.log_line import log_line
from core.words.files import (
    EDIT_LINE_STEP,
    ID_STEP,
    LOG_NOT_WRITTEN,
    NOTE_STEP,
    REMOVE_LINE_STEP,
    VERDICT_STEP,
)
from core.words.names import capitalised
from gui.edits import LogEdit
from gui.state import AppState

# So many evenings back verdicts are of use for the air of the evening in hand.
_EVENINGS = timedelta(days=2)
# The usual air of the sites is that of so many of the newest lines.
_LINES_FOR_USUAL_AIR = 2000


class LogBook(QObject):
    """Writes the log of the profile in hand and keeps the state's verdicts as the log has them.

    A line that cannot be written is kept in hand and tried again with the next; the person is told once.

    Signals
    -------
    changed
        Lines have come, gone or been edited, here or in another window.
    """

    changed = Signal()

    def __init__(
        self, state: AppState, folder: Callable[[], Path] = data_folder, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._state = state
        self._folder = folder
        self._log: Log | None = None
        self._waiting: list[LogEntry] = []
        self._is_told = False
        state.loaded.connect(self._on_loaded)
        self._on_loaded()

    def entries(self, *, search: str = "", newest: int | None = None) -> tuple[LogEntry, ...]:
        """Return the lines of the profile in hand in the order of time; what could not be read is told."""
        written = self._read(search=search, newest=newest)
        return written if search else (*written, *self._waiting_here)

    def give(self, verdict: Verdict, note: str = "") -> LogEntry:
        """Write down what the step to the rung in hand did to the detail; return the line."""
        return self._write(verdict, note, label=VERDICT_STEP)

    def note(self, text: str) -> LogEntry:
        """Write a line of one's own; ValueError where it is blank."""
        return self._write(None, text, label=NOTE_STEP)

    def edit(self, before: LogEntry, after: LogEntry) -> None:
        """Put an edited line in the place of one, as a step that can be taken back."""
        if after != before:
            self._push(EDIT_LINE_STEP, before, after)

    def remove(self, entry: LogEntry) -> None:
        """Take a line out, as a step that can be taken back."""
        self._push(REMOVE_LINE_STEP, entry, None)

    def take_in(self, entries: Iterable[LogEntry]) -> int:
        """Add the lines of another log that are not known here yet; return how many. ProblemsError."""
        log = self._opened(begin=True)
        count = 0 if log is None else log.add_unknown(entries)
        self._on_loaded()
        return count

    @property
    def last_step_is_verdict(self) -> bool:
        """Whether the step that can be taken back next is a verdict in the log."""
        return self._state.undo_stack.undoText() == VERDICT_STEP

    def look_for_others(self) -> None:
        """Take up what another window has written since."""
        if self._log is None:
            return
        with suppress(ProblemsError):
            if self._log.has_changed():
                self._refresh()

    def close(self) -> None:
        """Write what still waits, and let go of the file."""
        self._write_waiting()
        if self._log is not None:
            self._log.close()
            self._log = None

    def _write(self, verdict: Verdict | None, note: str, *, label: str) -> LogEntry:
        if not self._state.profile.id:
            # The lines must be found again, whatever becomes of the file.
            profile = attrs.evolve(self._state.profile, id=new_profile_id())
            self._state.edit_profile(ID_STEP, profile)
        entry = log_line(self._state.situation, at=self._state.clock(), verdict=verdict, note=note)
        self._push(label, None, entry)
        return entry

    def _push(self, label: str, before: LogEntry | None, after: LogEntry | None) -> None:
        self._state.undo_stack.push(LogEdit(label, before, after, self._apply))

    def _apply(self, before: LogEntry | None, after: LogEntry | None) -> None:
        """Bring the log from one line to another; None stands for no line."""
        with self._telling():
            log = self._opened(begin=True)
            if log is None:
                self._wait(before, after)
            elif after is None:
                assert before is not None
                log.remove(before.id)
            elif before is None:
                self._write_waiting()
                try:
                    log.add(after)
                except ProblemsError:
                    self._wait(before, after)
                    raise
            else:
                log.replace(after)
        self._refresh()

    def _wait(self, before: LogEntry | None, after: LogEntry | None) -> None:
        if before is not None and before in self._waiting:
            self._waiting.remove(before)
        if after is not None:
            self._waiting.append(after)

    def _write_waiting(self) -> None:
        if not self._waiting or self._log is None:
            return
        with suppress(ProblemsError):
            self._log.add_unknown(self._waiting)
            self._waiting.clear()

    def _opened(self, *, begin: bool = False) -> Log | None:
        """Return the open log, None where there is none yet or it cannot be opened, which is told once.

        Only a line to write may ``begin`` a log: looking at a profile leaves nothing behind.
        """
        if self._log is None and (begin or has_log(self._folder())):
            with self._telling():
                self._log = Log.open(self._folder())
                if self._log.told:
                    self._state.tell(self._log.told)
        return self._log

    def _on_loaded(self) -> None:
        self._refresh()
        entries = self.entries(newest=_LINES_FOR_USUAL_AIR)
        # What was learned tonight must not become tonight's first guess: it waits for another start.
        self._state.jobs.submit("usual air", partial(usual_air, entries), self._state.set_usual_airs)

    def _refresh(self) -> None:
        situation = self._state.situation
        since = min(situation.evening, situation.tonight) - _EVENINGS
        lines = (*self._read(since=since), *self._waiting_here)
        self._state.set_verdicts(tuple(line for line in lines if line.verdict is not None))
        self.changed.emit()

    def _read(
        self, *, since: date | None = None, search: str = "", newest: int | None = None
    ) -> tuple[LogEntry, ...]:
        """Return written lines of the profile in hand, none where the log cannot be read, which is told."""
        profile_id = self._state.profile.id
        with self._telling():
            log = self._opened() if profile_id else None
            if log is not None:
                return log.entries(profile_id, since=since, search=search, newest=newest)
        return ()

    @property
    def _waiting_here(self) -> tuple[LogEntry, ...]:
        """Lines of the profile in hand that are still to be written."""
        return tuple(line for line in self._waiting if line.profile_id == self._state.profile.id)

    @contextmanager
    def _telling(self) -> Iterator[None]:
        """Tell the person once what the log could not do; what was to be written waits."""
        try:
            yield
        except ProblemsError as error:
            if not self._is_told:
                self._is_told = True
                self._state.tell(LOG_NOT_WRITTEN.format(problem=capitalised(str(error))))
        else:
            self._is_told = False
