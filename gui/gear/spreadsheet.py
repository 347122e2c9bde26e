"""Rows as text that can be pasted into a spreadsheet."""

from collections.abc import Iterable, Sequence

# A cell that begins so would be taken for a formula, or run into the next cell.
_DANGEROUS = ("=", "+", "-", "@", "\t", "\r")


def tab_separated(rows: Iterable[Sequence[str]]) -> str:
    """Return rows as lines of cells with tabs between; no cell can become a formula or more than one cell."""
    return "".join("\t".join(_guarded(cell) for cell in row) + "\n" for row in rows)


def _guarded(cell: str) -> str:
    text = f"'{cell}" if cell.startswith(_DANGEROUS) and not _is_number(cell) else cell
    return " ".join(text.replace("\t", " ").splitlines())


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
