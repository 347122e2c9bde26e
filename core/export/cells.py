"""Cells for a spreadsheet: no text in them can become a formula or command whoever opens them."""

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Final

from core.plain_text import printable

# A cell that begins so would be taken for a formula.
_DANGEROUS: Final = ("=", "+", "-", "@", "\t", "\r")


def guarded(cell: str) -> str:
    """Return a cell's text with an apostrophe before what a spreadsheet would take for a formula."""
    return f"'{cell}" if cell.startswith(_DANGEROUS) and not _is_number(cell) else cell


def csv_text(header: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Return rows as CSV (RFC 4180) after a byte order mark, so that spreadsheets take it as UTF-8.

    None is an empty cell. What could command a terminal is taken out of each line of a cell.
    """
    sheet = io.StringIO()
    writer = csv.writer(sheet, lineterminator="\r\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow(["" if cell is None else guarded(_shown(str(cell))) for cell in row])
    return "\ufeff" + sheet.getvalue()


def _shown(cell: str) -> str:
    return "\n".join(map(printable, cell.splitlines()))


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
