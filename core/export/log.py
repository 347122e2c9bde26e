"""The log as JSON and as CSV.

JSON is ``{"schema": 1, "entries": [...]}``, one object a line of the log with every key of
`core.record.log_entry.LogEntry`; reading it back gives the same log. Barlows and filters are objects of
``id``, ``name`` and ``figure``, a Barlow's factor.
"""

from collections.abc import Iterable

from core.export.cells import csv_text
from core.export.parts import SCHEMA, JsonObject
from core.record.log_entry import LogEntry
from core.record.log_rows import COLUMNS, table_of


def log_json(entries: Iterable[LogEntry]) -> JsonObject:
    """Return lines of the log as a plain dictionary for JSON."""
    return {"schema": SCHEMA, "entries": [table_of(entry) for entry in entries]}


def log_csv(entries: Iterable[LogEntry]) -> str:
    """Return lines of the log as CSV, a column for each field; semicolons stand between several names."""
    header = [column.name for column in COLUMNS]
    return csv_text(header, ([_cell(value) for value in table_of(entry).values()] for entry in entries))


def _cell(value: object) -> object:
    if isinstance(value, list):
        return "; ".join(each["name"] for each in value)
    if isinstance(value, bool):
        return str(value).lower()
    return value
