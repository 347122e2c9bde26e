"""How the tables of an older profile file become those of the next schema.

A migration is one small function from the tables of one number to those of the next. A key renamed, or one
whose meaning changed, brings one; where keys only came that may be left out, as in schema 2, all stays.
"""

from collections.abc import Callable, Mapping
from typing import Any, Final

from core.record.observer import SCHEMA

Tables = dict[str, Any]


MIGRATIONS: Final[Mapping[int, Callable[[Tables], Tables]]] = {}


def migrated(tables: Tables, schema: int) -> Tables:
    """Return tables of an older schema, at least 1, as those of the present one."""
    for number in range(schema, SCHEMA):
        if number in MIGRATIONS:
            tables = MIGRATIONS[number](tables)
    return tables
