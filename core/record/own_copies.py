"""Which copies beside files are this program's own, known by a mark of what it last put there.

Editors keep the text from before a save under the same names, and mostly it is a text of the same profile:
neither name nor content alone tells whose it is.
"""

import json
from contextlib import suppress
from pathlib import Path
from typing import Any, Final

from attrs import frozen

from core.problems import ProblemsError
from core.record.files import mark_of_text, read_text, same_file, write_atomically

# Older ones are forgotten: their copies then stay for good, and newer ones go beside them.
_MOST_MARKS: Final = 500


@frozen
class _Mark:
    """A copy and a mark of its text."""

    path: Path
    digest: str


class OwnCopies:
    """The program's own copies, noted in a file; what that cannot hold is known until the program ends.

    Several windows may note at a time: what one loses is only kept beside once more.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._noted: list[_Mark] = []

    def has(self, copy: Path) -> bool:
        """Tell whether a file holds just what the program last put there."""
        digest = mark_of_text(copy)
        return bool(digest) and any(
            mark.digest == digest and same_file(mark.path, copy) for mark in self._known()
        )

    def note(self, copy: Path) -> None:
        """Note that the program has just written a copy."""
        marks = [mark for mark in self._known() if not same_file(mark.path, copy)]
        self._noted = [*marks, _Mark(copy.absolute(), mark_of_text(copy))][-_MOST_MARKS:]
        kept = [{"path": str(mark.path), "digest": mark.digest} for mark in self._noted]
        with suppress(ProblemsError, OSError):
            self._path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            write_atomically(self._path, json.dumps(kept, indent=0), is_private=True)

    def _known(self) -> list[_Mark]:
        try:
            kept = json.loads(read_text(self._path))
        except (ProblemsError, ValueError, RecursionError):
            return self._noted
        return (
            [_understood(mark) for mark in kept if _is_mark(mark)] if isinstance(kept, list) else self._noted
        )


def _is_mark(kept: object) -> bool:
    return isinstance(kept, dict) and all(isinstance(kept.get(name), str) for name in ("path", "digest"))


def _understood(kept: dict[str, Any]) -> _Mark:
    return _Mark(Path(kept["path"]), kept["digest"])
