"""The schema of profile files: its number now, and how the tables of each older one become the next.

A migration is one small function from the tables of one number to those of the next. A key added or
renamed, or one whose meaning changed, raises the number and brings one.
"""

from collections.abc import Callable, Mapping
from typing import Any, Final

Tables = dict[str, Any]


def _from_1_to_2(tables: Tables) -> Tables:
    """Leave all as it is: schema 2 only brought new keys, and each of them may be left out."""
    return tables


MIGRATIONS: Final[Mapping[int, Callable[[Tables], Tables]]] = {1: _from_1_to_2}
SCHEMA: Final = max(MIGRATIONS) + 1


def migrated(tables: Tables, schema: int) -> Tables:
    """Return tables of an older schema, at least 1, as those of the present one."""
    for number in range(schema, SCHEMA):
        tables = MIGRATIONS[number](tables)
    return tables
