"""Edits of the profile and of the log as named steps that can be taken back."""

import zlib
from collections.abc import Callable

from PySide6.QtGui import QUndoCommand

from core.record.log_entry import LogEntry
from core.record.observer import Profile
from gui.ampersands import with_ampersands

_NEVER_MERGED = -1


class ProfileEdit(QUndoCommand):
    """One edit of the profile: its label for the menu, the profile before and the profile after.

    Edits that follow each other under the same ``merge_key`` become one step, so that a figure typed
    key by key is taken back as a whole.
    """

    def __init__(
        self,
        label: str,
        before: Profile,
        after: Profile,
        apply: Callable[[Profile], None],
        *,
        merge_key: str | None = None,
    ) -> None:
        super().__init__(with_ampersands(label))
        self.label = label
        self.before = before
        self.after = after
        self.merge_key = merge_key
        self._apply = apply

    def id(self) -> int:
        if self.merge_key is None:
            return _NEVER_MERGED
        return zlib.crc32(self.merge_key.encode()) & 0x7FFFFFFF

    def mergeWith(self, other: QUndoCommand) -> bool:
        if not isinstance(other, ProfileEdit) or other.merge_key != self.merge_key:
            return False
        self.after = other.after
        # What came back to where it began is no step to take back.
        self.setObsolete(self.after == self.before)
        return True

    def redo(self) -> None:
        self._apply(self.after)

    def undo(self) -> None:
        self._apply(self.before)


class LogEdit(QUndoCommand):
    """One line of the log written, edited or taken out: the line before and after, None for no line."""

    def __init__(
        self,
        label: str,
        before: LogEntry | None,
        after: LogEntry | None,
        apply: Callable[[LogEntry | None, LogEntry | None], None],
    ) -> None:
        super().__init__(label)
        self._before = before
        self._after = after
        self._apply = apply

    def redo(self) -> None:
        self._apply(self._before, self._after)

    def undo(self) -> None:
        self._apply(self._after, self._before)
