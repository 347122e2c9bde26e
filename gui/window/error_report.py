"""A report of an error, for its finder to pass on: versions and places in the code, nothing of the person."""

import platform
import traceback
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import Final

from core.problems import ProblemsError
from core.record.files import write_atomically
from gui.versions import versions

REPORT_NAME: Final = "error-report.txt"
_INTRODUCTION: Final = (
    "A report of an error inside Stillair. It stays on this machine unless you pass it on yourself.\n"
    "It holds versions and places in the program. Messages are left out, since they may quote\n"
    "names, places or files of yours.\n"
)


def write_report(folder: Path, error: BaseException, when: datetime | None = None) -> Path | None:
    """Write the report of an error in a folder, over the one before; return where, None if it cannot be."""
    path = folder / REPORT_NAME
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        write_atomically(path, report_text(error, when or datetime.now(UTC)), is_private=True)
    except (ProblemsError, OSError):
        return None
    return path


def report_text(error: BaseException, when: datetime) -> str:
    """Return a report: what kind of error at which places in the code, and which versions."""
    lines = [_INTRODUCTION, f"when: {when:%Y-%m-%d %H:%M} UTC", *_told(error), ""]
    lines += [f"{name}: {number}" for name, number in versions()]
    lines.append(f"C library: {' '.join(platform.libc_ver()).strip() or 'unknown'}")
    return "\n".join(lines) + "\n"


def _told(error: BaseException) -> Iterator[str]:
    seen: set[int] = set()
    cause: BaseException | None = error
    while cause is not None and id(cause) not in seen:
        seen.add(id(cause))
        yield f"{'error' if cause is error else 'while handling'}: {type(cause).__name__}"
        yield from _places(cause.__traceback__)
        cause = cause.__cause__ or cause.__context__


def _places(trace: TracebackType | None) -> Iterator[str]:
    # Modules, not files: the path of a file often holds somebody's name.
    for frame, line in traceback.walk_tb(trace):
        module = frame.f_globals.get("__name__", "?")
        yield f"    {module}, line {line}, in {frame.f_code.co_name}"
