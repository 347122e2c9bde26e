"""A line of the log as a row of the table, and back."""

import json
from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime
from typing import Any, Final, get_args

import attrs
import cattrs
from attrs import frozen

from core.record.log_entry import LogEntry

_converter = cattrs.Converter(detailed_validation=False)
_converter.register_structure_hook(datetime, lambda value, _type: datetime.fromisoformat(value))
_converter.register_unstructure_hook(datetime, lambda value: value.isoformat(timespec="milliseconds"))
_converter.register_structure_hook(date, lambda value, _type: date.fromisoformat(value))
_converter.register_unstructure_hook(date, lambda value: value.isoformat())


@frozen
class Column:
    """One column of the table: the field of a line that it holds, and SQLite's word for its kind."""

    name: str
    kind: str


def _kind(wanted: object) -> str:
    if float in (wanted, *get_args(wanted)):
        return "REAL"
    return "INTEGER" if wanted is bool else "TEXT"


_FIELDS: Final = attrs.fields(LogEntry)
COLUMNS: Final = tuple(Column(each.name, _kind(each.type)) for each in _FIELDS)
_LISTS: Final = ("barlows", "filters")


def row_of(entry: LogEntry) -> tuple[Any, ...]:
    """Return the values of a line in the order of the columns; lists as JSON."""
    table = _converter.unstructure(entry)
    return tuple(
        json.dumps(table[column.name]) if column.name in _LISTS else table[column.name] for column in COLUMNS
    )


def entry_of(row: Sequence[Any]) -> LogEntry:
    """Return the line that a row holds; ValueError or TypeError where it holds none."""
    table = dict(zip((column.name for column in COLUMNS), row, strict=True))
    for name in _LISTS:
        table[name] = json.loads(table[name])
    return _converter.structure(table, LogEntry)


def found_by(entry: LogEntry) -> str:
    """Return the words by which a line is found: what was written, and the names of all that was used."""
    names = [each.name for each in (*entry.barlows, *entry.filters)]
    planet = "" if entry.planet is None else entry.planet.heading
    told = (entry.note, planet, entry.site_name, entry.scope_name, entry.eyepiece_name, *names)
    return "\n".join(text for text in told if text)


def table_of(entry: LogEntry) -> dict[str, Any]:
    """Return a line as plain values by name, times in ISO 8601 with ``Z``, as a file keeps it."""
    table: dict[str, Any] = _converter.unstructure(entry)
    table["at"] = table["at"].replace("+00:00", "Z")
    return table


def with_times(table: Mapping[str, Any]) -> dict[str, Any]:
    """Return the plain values of a line with its times read; what is no time is left to be refused."""
    readers: dict[str, Callable[[str], object]] = {
        "at": datetime.fromisoformat,
        "evening": date.fromisoformat,
    }
    read = dict(table)
    for name, reader in readers.items():
        value = read.get(name)
        if isinstance(value, str):
            try:
                read[name] = reader(value)
            except ValueError:
                continue
    return read
