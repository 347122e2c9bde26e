"""Rows as text that can be pasted into a spreadsheet."""

from collections.abc import Iterable, Sequence

from core.export.cells import guarded


def tab_separated(rows: Iterable[Sequence[str]]) -> str:
    """Return rows as lines of cells with tabs between; no cell can become a formula or more than one cell."""
    return "".join("\t".join(_one_line(cell) for cell in row) + "\n" for row in rows)


def _one_line(cell: str) -> str:
    return " ".join(guarded(cell).replace("\t", " ").splitlines())
