"""The log as a JSON file that can be carried to another machine and read back."""

import json
from pathlib import Path
from typing import Any, Final

from core.problems import Problem, ProblemsError, refuse
from core.record.files import read_text
from core.record.log_entry import LogEntry
from core.record.log_rows import with_times
from core.record.structure import MOST_PROBLEMS_TOLD, structured

SCHEMA: Final = 1
LARGEST_LOG_BYTES: Final = 200_000_000


def read_log_file(path: Path) -> tuple[LogEntry, ...]:
    """Return the lines of a log that was written as JSON; ProblemsError with all that is wrong with it."""
    name = path.name or str(path)
    try:
        data = json.loads(read_text(path, largest_bytes=LARGEST_LOG_BYTES))
    except RecursionError:
        raise refuse("is not a log: its brackets are nested too deep", where=name) from None
    except json.JSONDecodeError as error:
        raise refuse(f"is not JSON: {error}", where=name) from None
    entries = data.get("entries") if isinstance(data, dict) else None
    if not isinstance(data, dict) or not isinstance(entries, list):
        raise refuse('is not a log: it must have "schema" and a list "entries"', where=name)
    schema = data.get("schema")
    if isinstance(schema, bool) or not isinstance(schema, int) or schema < 1:
        raise refuse(f"must be {SCHEMA}, the number of this form of log", where="schema")
    if schema > SCHEMA:
        raise refuse(f"is of a newer Stillair than this one, which reads {SCHEMA}", where="schema")
    return _read(entries)


def _read(entries: list[Any]) -> tuple[LogEntry, ...]:
    lines, problems = [], []
    for position, table in enumerate(entries, start=1):
        line, wrong = structured(
            with_times(table) if isinstance(table, dict) else table, LogEntry, f"entries[{position}]"
        )
        problems += wrong
        if line is not None:
            lines.append(line)
        if len(problems) > MOST_PROBLEMS_TOLD:
            problems = [*problems[:MOST_PROBLEMS_TOLD], Problem("", "and perhaps more of the kind")]
            break
    if problems:
        raise ProblemsError(*problems)
    return tuple(lines)
